"""The shell: the only importer of typer and rich."""
