"""Terminals narrow, wide, dumb and coloured: the same answer, at most 80 columns wide, without a crash."""

import fcntl
import os
import pty
import struct
import subprocess
import sys
import termios
import threading

import pytest

from gaugestack.cards.fitting import columns
from tests.cli.shell import gaugestack
from tests.schemas import corpus

PROGRAM = [sys.executable, "-m", "gaugestack"]
SETTINGS = {
    "colours": {"TERM": "xterm-256color"},
    "colours forced": {"TERM": "xterm-256color", "FORCE_COLOR": "1"},
    "no colours": {"TERM": "xterm-256color", "NO_COLOR": "1"},
    "dumb": {"TERM": "dumb"},
    "unknown": {"TERM": ""},
}


@pytest.mark.parametrize("width", ["1", "20", "30", "40", "200"])
def test_a_screen_is_the_same_on_any_terminal_and_at_most_80_columns_wide(width, monkeypatch):
    monkeypatch.delenv("GAUGESTACK_SET", raising=False)
    bench = corpus.Bench()
    monkeypatch.chdir(bench.path)
    try:
        for words in map(bench.words, corpus.commands()):
            if words[0] == "record" or words[:2] == ("set", "copy"):
                continue
            bench.issue(words)
            monkeypatch.setenv("COLUMNS", "80")
            usual = gaugestack(*words)
            monkeypatch.setenv("COLUMNS", width)
            assert gaugestack(*words) == usual, words
            assert max(map(columns, usual.out.splitlines()), default=0) <= 80, words
            assert "\x1b" not in usual.out, words
    finally:
        bench.close()


def on_a_terminal(words, width, stream, **settings):
    """Run a command with one stream on a terminal; return its code, what stood there and the other stream."""
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, width, 0, 0))
    plain = {key: value for key, value in os.environ.items() if key not in ("COLUMNS", "LINES", "NO_COLOR")}
    streams = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, stream: slave}
    shown = []
    reader = threading.Thread(target=_read_all, args=(master, shown))
    with subprocess.Popen([*PROGRAM, *words], env={**plain, **settings}, **streams) as running:
        os.close(slave)
        reader.start()
        out, err = running.communicate(timeout=120)
    reader.join()
    os.close(master)
    return running.returncode, b"".join(shown).decode(), (err if stream == "stdout" else out).decode()


def _read_all(descriptor, into):
    """Read a terminal until the program has closed it."""
    while True:
        try:
            data = os.read(descriptor, 65536)
        except OSError:
            return
        if not data:
            return
        into.append(data)


@pytest.mark.parametrize("width", [20, 200])
@pytest.mark.parametrize("setting", SETTINGS)
def test_an_answer_on_a_terminal_is_that_of_a_pipe(setting, width):
    words = ("stack", "0.6202in", "--set", "inch-81")
    piped = subprocess.run([*PROGRAM, *words], capture_output=True, text=True, check=True, timeout=60)

    code, shown, err = on_a_terminal(words, width, "stdout", **SETTINGS[setting])

    assert (code, err) == (0, "")
    assert shown.replace("\r\n", "\n") == piped.stdout


@pytest.mark.parametrize("setting", SETTINGS)
def test_a_bar_on_a_narrow_terminal_leaves_the_answer_alone(setting, tmp_path):
    (tmp_path / "list.txt").write_text("".join(f"{n / 1000:.3f}in\n" for n in range(200, 500)))
    words = ("card", "box", "--heights", str(tmp_path / "list.txt"), "--on", "2026-03-01")
    piped = subprocess.run([*PROGRAM, *words], capture_output=True, text=True, check=True, timeout=120)

    code, shown, out = on_a_terminal(words, 20, "stderr", **SETTINGS[setting])

    assert code == 0
    assert out == piped.stdout
    assert "Traceback" not in shown
    if setting in ("no colours", "dumb"):
        assert "\x1b[3" not in shown


@pytest.mark.parametrize("setting", SETTINGS)
@pytest.mark.parametrize("words", [("stack", "--wrong"), ("stack", "banana"), ("--help",)], ids=" ".join)
def test_help_and_mistakes_hold_on_a_narrow_terminal(words, setting):
    stream = "stdout" if words == ("--help",) else "stderr"

    code, shown, other = on_a_terminal(words, 20, stream, **SETTINGS[setting])

    assert (code, other) == (0 if stream == "stdout" else 2, "")
    assert shown
    assert "Traceback" not in shown
    assert "\x1b[" not in shown or setting.startswith("colours")


@pytest.mark.parametrize("home", [None, "/nowhere/at/all", ""])
def test_no_home_is_needed(home):
    settings = {key: value for key, value in os.environ.items() if key != "HOME"}
    settings |= {} if home is None else {"HOME": home}
    words = [*PROGRAM, "card", "setup", "stack", "0.6202in", "--form", "html"]

    done = subprocess.run(words, capture_output=True, env=settings, check=False, timeout=60)

    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.parametrize(
    "settings",
    [
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
        {"PYTHONUTF8": "0", "PYTHONIOENCODING": "ascii"},
        {"PYTHONUTF8": "0", "PYTHONIOENCODING": "latin-1"},
        {"LC_ALL": "nonsense"},
    ],
    ids=str,
)
def test_a_process_in_another_locale_answers_in_plain_letters(settings):
    words = [*PROGRAM, "angle", "7d7m30s", "--bar", "5in", "--set", "inch-81"]

    done = subprocess.run(words, capture_output=True, env={**os.environ, **settings}, check=False, timeout=60)

    assert (done.returncode, done.stderr) == (0, b"")
    assert b"?" not in done.stdout
