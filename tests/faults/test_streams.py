"""A stdout that takes nothing is said, with 2; it is no fault of the program, and no answer either."""

import subprocess
import sys
from pathlib import Path

import pytest

COMMAND = f"{sys.executable} -m gaugestack set show inch-81"


def left(redirections):
    done = subprocess.run(  # noqa: S602  (only a shell closes a stream)
        f"{COMMAND} {redirections}",
        shell=True,
        capture_output=True,
        text=True,
        timeout=30,
        check=False,
    )
    return done.returncode, done.stderr


def test_a_closed_stdout_is_said():
    assert left(">&-") == (2, "stdout: is closed: the answer cannot be written\n")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_a_full_disk_is_said():
    code, said = left("> /dev/full")

    assert code == 2
    assert said.startswith("stdout: the answer cannot be written: ")


def test_a_closed_stderr_changes_no_exit_code():
    assert left("> /dev/null 2>&-")[0] == 0
    assert left("--on nonsense 2>&-")[0] == 2
