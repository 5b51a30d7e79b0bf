"""The commands shown in the documents: run, and compared with what is printed below them.

    python tests/docs/documents.py README.md DEVELOPERS.md     run all and write the output anew

A block fenced with ```console holds lines that begin with `$ ` and under each
what it prints, stdout and stderr together.  A ```yaml block that begins with
`# NAME.yaml` is written to a file of that name first.  All runs in a directory
of its own that holds a copy of demo/ without its pictures; these are made by
the commands, and kept with the document.
"""

from __future__ import annotations

import fnmatch
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
FENCED = re.compile(r"^```(?P<kind>[a-z]+)\n(?P<body>.*?)^```$", re.MULTILINE | re.DOTALL)
PROMPT = "$ "
PICTURES = "demo/pictures"
_MARK = "\x1eend of command\x1e"
_PROGRAM = "import sys; sys.argv[0] = 'gaugestack'; from gaugestack.cli.main import main; main()"


def bodies(text, kind):
    """Return what stands in the fenced blocks of a kind."""
    return [found["body"] for found in FENCED.finditer(text) if found["kind"] == kind]


def commands(body):
    """Return the commands of a console block."""
    return [line.removeprefix(PROMPT) for line in body.splitlines() if line.startswith(PROMPT)]


def named_files(text):
    """Return name and text of the YAML blocks that begin with a file's name."""
    found = (re.match(r"# (\S+\.yaml)\n", body) for body in bodies(text, "yaml"))
    return {match[1]: match.string for match in found if match}


def furnish(directory, text):
    """Put the demonstration, the document's files and a `gaugestack` command into a directory."""
    shutil.copytree(ROOT / "demo", directory / "demo", ignore=lambda _, names: fnmatch.filter(names, "*.svg"))
    for name, content in named_files(text).items():
        (directory / name).write_text(content, encoding="utf-8")
    (directory / "bin").mkdir()
    command = directory / "bin" / "gaugestack"
    script = f'#!/bin/sh\nexec {shlex.quote(sys.executable)} -c "{_PROGRAM}" "$@"\n'
    command.write_text(script, encoding="utf-8")
    command.chmod(0o755)


def environment(directory):
    """Return an environment in which only the checkout's own `gaugestack` is found."""
    kept = {key: value for key, value in os.environ.items() if not key.startswith(("GAUGESTACK_", "PYTHON"))}
    path = f"{directory / 'bin'}{os.pathsep}{os.environ['PATH']}"
    return {
        **kept,
        "PATH": path,
        "PYTHONPATH": str(ROOT),
        "PYTHONUTF8": "1",
        "COLUMNS": "80",
        "LC_ALL": "C.UTF-8",
    }


def shown(body, directory):
    """Return a console block as it should read: each command with its real output."""
    lines = commands(body)
    script = "".join(f"{line}\ns=$?; printf '%s' '{_MARK}'; (exit $s)\n" for line in lines)
    done = subprocess.run(
        ["bash", "-c", script],
        cwd=directory,
        env=environment(directory),
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        check=False,
    )
    outputs = done.stdout.split(_MARK)
    return "".join(f"{PROMPT}{line}\n{output}" for line, output in zip(lines, outputs, strict=False))


def pictures_below(directory):
    """Return the pictures that a document's commands have made in a directory."""
    return sorted(directory.rglob("pictures/*.svg"))


def rerun(text, directory):
    """Return a document with the output of every console block written anew."""
    furnish(directory, text)
    return FENCED.sub(
        lambda found: (
            f"```console\n{shown(found['body'], directory)}```" if found["kind"] == "console" else found[0]
        ),
        text,
    )


def main():
    """Rewrite the documents named."""
    for name in sys.argv[1:]:
        path = Path(name)
        with tempfile.TemporaryDirectory() as directory:
            path.write_text(rerun(path.read_text(encoding="utf-8"), Path(directory)), encoding="utf-8")
            for picture in pictures_below(Path(directory)):
                shutil.copy(picture, ROOT / PICTURES)


if __name__ == "__main__":
    main()
