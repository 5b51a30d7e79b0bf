"""Ctrl-C at any moment: the program is gone at once, with 130 and without a word."""

import signal
import subprocess
import sys
import time

import pytest

HEIGHTS = ["0.6202", "0.7311", "1.2345", "2.3456", "3.1234", "0.9876", "1.8765", "0.5432"]
"""Eight heights at once keep the solver busy for many seconds."""


@pytest.mark.parametrize("after", [0.3, 1.5])
def test_an_interrupt_while_importing_or_solving_leaves_with_130_and_says_nothing(after):
    command = [sys.executable, "-m", "gaugestack", "stack", *HEIGHTS, "--set", "inch-81"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as running:
        time.sleep(after)
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=20)

    assert (running.returncode, out, err) == (130, "", "")
