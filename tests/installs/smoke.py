"""Whether an installed gaugestack works: every command answers its own example, from a directory of its own.

faults = smoke(Path("venv/bin/gaugestack"))
"""

from __future__ import annotations

import os
import shlex
import subprocess
import tempfile
from pathlib import Path

from tests.docs import documents
from tests.docs.test_help_examples import COMMANDS, JOB

ANSWERS = {0, 1, 4}
"""Yes, an honest no, undecided."""


def environment():
    """Return an environment in which no setting of ours reaches the command."""
    ours = ("GAUGESTACK_", "PYTHON", "PIP_", "PIPX_", "VIRTUAL_ENV")
    kept = {key: value for key, value in os.environ.items() if not key.startswith(ours)}
    return {**kept, "COLUMNS": "80", "PYTHONUTF8": "1"}


def furnish(directory):
    """Put the files that the examples name into a directory."""
    documents.furnish(directory, (documents.ROOT / "README.md").read_text(encoding="utf-8"))
    (directory / "monday.yaml").write_text(JOB, encoding="utf-8")
    issued = (documents.ROOT / "sets" / "inch-81.yaml").read_text(encoding="utf-8")
    (directory / "bench.yaml").write_text(issued, encoding="utf-8")


def examples():
    """Return the words of every command's example, its name in front."""
    words = {
        name: shlex.split(command.epilog.removeprefix("Example: ")) for name, command in COMMANDS.items()
    }
    return {name: found[1:] for name, found in words.items()} | {"--version": ["--version"]}


def smoke(*command, only=None):
    """Return what is wrong with a command: every example that is not answered, with what it said.

    `only` names some commands, where not all are to be tried.
    """
    with tempfile.TemporaryDirectory() as directory:
        furnish(Path(directory))
        tried = {name: words for name, words in examples().items() if only is None or name in only}
        return [fault for name, words in tried.items() if (fault := _fault(command, name, words, directory))]


def _fault(command, name, words, directory):
    """Return what is wrong with one example, or nothing."""
    if name == "set copy":
        for own in Path(directory).glob("bench.*"):
            own.unlink()
    done = subprocess.run(
        [*command, *words],
        cwd=directory,
        env=environment(),
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    told = done.stdout.strip() or "--output" in words
    if done.returncode in ANSWERS and told and "Traceback" not in done.stderr:
        return ""
    return f"{name}: exit code {done.returncode}\n{done.stdout}{done.stderr}"
