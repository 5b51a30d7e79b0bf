"""The moving bar: on a terminal, after a second, and never on stdout."""

import io
import time

import pytest

from gaugestack.cli import patience as module
from gaugestack.cli.patience import patience


class Stream(io.StringIO):
    def __init__(self, *, terminal):
        super().__init__()
        self.terminal = terminal

    def isatty(self):
        return self.terminal


@pytest.fixture
def streams(monkeypatch):
    """Return a function that stands in for stderr, and says what was shown during a wait."""

    def shown(*, terminal, after, wait):
        stream = Stream(terminal=terminal)
        monkeypatch.setattr("sys.stderr", stream)
        monkeypatch.setattr(module, "AFTER", after)
        monkeypatch.setenv("TERM", "xterm")
        with patience("counting [bold]heights"):
            deadline = time.monotonic() + wait
            while time.monotonic() < deadline and not stream.getvalue():
                time.sleep(0.01)
        return stream.getvalue()

    return shown


def test_what_takes_long_shows_a_bar_on_a_terminal(streams, capsys):
    assert "counting [bold]heights" in streams(terminal=True, after=0.0, wait=10)
    assert capsys.readouterr().out == ""


def test_what_is_quick_shows_nothing(streams):
    assert streams(terminal=True, after=60.0, wait=0.05) == ""


def test_nothing_is_shown_where_no_terminal_is(streams):
    assert streams(terminal=False, after=0.0, wait=0.2) == ""


def test_a_second_is_waited():
    assert module.AFTER == 1.0


def test_a_failure_passes_through(streams):
    del streams
    with pytest.raises(ZeroDivisionError), patience("dividing"):
        _ = 1 / 0
