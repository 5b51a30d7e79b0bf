"""A stdout that takes nothing is said, with 2; it is no fault of the program, and no answer either.

A stderr that takes nothing changes neither answer nor exit code, and what was
meant for it does not come out of stdout.
"""

import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

PROGRAM = [sys.executable, "-m", "gaugestack"]
SHOW = "set show inch-81"
ANSWERS = {
    "text": "stack 0.6202in",
    "json": "stack 0.6202in --json",
    "csv": "stack --targets heights.csv --csv",
    "card": "card setup stack 0.6202in",
    "svg": "card setup stack 0.6202in --form svg",
    "html": "card setup stack 0.6202in --form html",
    "pdf": "card setup stack 0.6202in --form pdf",
    "help": "--help",
    "command's help": "lathe swing -h",
    "version": "--version",
    "schema": "schema stack",
    "completion": "completion bash",
    "no": "stack 0.0503in",
}
"""What goes to stdout, in every form; the last is an honest no."""
MISTAKES = {
    "option": ("stack --wrong", 2),
    "command": ("nonsense", 2),
    "group alone": ("card", 2),
    "argument": ("stack banana", 2),
    "file": ("stack 1in --set nosuch.yaml", 3),
    "no stack for a card": ("card setup stack 0.0503in", 1),
}
"""Command lines whose whole output is on stderr, with their exit codes."""
full = pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")


@pytest.fixture(autouse=True)
def _list_of_heights(tmp_path, monkeypatch):
    (tmp_path / "heights.csv").write_text("height\n0.6202in\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)


def left(redirections, command=SHOW):
    done = subprocess.run(  # noqa: S602  (only a shell closes a stream)
        f"{shlex.join(PROGRAM)} {command} {redirections}",
        shell=True,
        capture_output=True,
        text=True,
        timeout=30,
        check=False,
    )
    return done.returncode, done.stderr


def into_a_closed_pipe(command, stream):
    """Run a command, one of its streams a pipe that nobody reads; return its code and the other stream."""
    reader, writer = os.pipe()
    os.close(reader)
    streams = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, stream: writer}
    done = subprocess.run([*PROGRAM, *shlex.split(command)], **streams, timeout=60, check=False)
    os.close(writer)
    return done.returncode, done.stderr if stream == "stdout" else done.stdout


def skip_without(form):
    if form == "pdf":
        pytest.importorskip("weasyprint")


@pytest.mark.parametrize("form", ANSWERS)
def test_a_closed_stdout_is_said(form):
    skip_without(form)
    assert left(">&-", ANSWERS[form]) == (2, "stdout: is closed: the answer cannot be written\n")


@full
@pytest.mark.parametrize("form", ANSWERS)
def test_a_full_disk_is_said(form):
    skip_without(form)
    code, said = left("> /dev/full", ANSWERS[form])

    assert code == 2
    assert said.startswith("stdout: the answer cannot be written: ")
    assert said.count("\n") == 1


@pytest.mark.parametrize("form", ANSWERS)
def test_a_pipe_whose_reader_has_gone_ends_quietly_with_141(form):
    skip_without(form)
    assert into_a_closed_pipe(ANSWERS[form], "stdout") == (141, b"")


def test_a_closed_stderr_changes_no_exit_code():
    assert left("> /dev/null 2>&-")[0] == 0
    assert left("--on nonsense 2>&-")[0] == 2


@pytest.mark.parametrize("mistake", MISTAKES)
def test_a_mistake_keeps_its_exit_code_where_stderr_is_closed_and_stdout_stays_empty(mistake, tmp_path):
    command, code = MISTAKES[mistake]

    assert left("> out.txt 2>&-", command) == (code, "")
    assert (tmp_path / "out.txt").read_bytes() == b""


@full
@pytest.mark.parametrize("mistake", MISTAKES)
def test_a_mistake_keeps_its_exit_code_where_stderr_is_full(mistake):
    command, code = MISTAKES[mistake]

    assert left("2> /dev/full", command)[0] == code


@pytest.mark.parametrize("mistake", MISTAKES)
def test_a_mistake_keeps_its_exit_code_where_nobody_reads_stderr(mistake):
    command, code = MISTAKES[mistake]

    assert into_a_closed_pipe(command, "stderr") == (code, b"")


def test_a_card_of_many_lines_is_made_without_a_stderr(tmp_path):
    code, _ = left("> out.txt 2>&-", "card box --angles 'every 1d' --bar 5in")

    assert code == 0
    assert (tmp_path / "out.txt").stat().st_size > 2000
