"""What holds of every text somebody gives the program, whatever stands in it.

    trial(kind, data)       says nothing, or raises what is wrong

A reader returns a value or refuses the text with the error it declares.  A
value written down again reads as the same value.  A refusal names a place in
the text, shows that very line with the caret under the fault, and prints
nothing that cannot be seen.  Neither takes long nor much memory.
"""

import re
import signal
import tracemalloc
from contextlib import contextmanager
from time import process_time

from wcwidth import wcwidth

from gaugestack.errors import visible

SECONDS = 2.0
"""What one text may take, in seconds of this process."""
STUCK = 20.0
"""After this a text is given up."""
MOST_BYTES = 24 << 20
"""What reading one text of some kilobytes may take at once."""
MEASURED = 64
"""The memory of one text in so many is measured: measuring makes it slow."""
_FIRST_LINE = re.compile(r"[^\n]+:[1-9][0-9]*:[1-9][0-9]*: \S")
_ARGUMENT = re.compile(r"[^\n]+: \S")


class TooLong(Exception):  # noqa: N818  # named for what happened
    """A text kept its reader busy."""


def trial(kind, data, *, measured=False):
    """Read a text in every way of its kind; raise an exception that says what is wrong."""
    text = kind.text(data)
    with bounded(measured=measured):
        for reading in kind.readings:
            try:
                value = reading.read(text)
            except kind.error as error:
                check_refusal(kind, reading, data, error)
            else:
                reading.again(value)


@contextmanager
def bounded(*, measured):
    """Refuse to wait too long, or to take too much memory."""

    def give_up(*_):
        raise TooLong(f"not done after {STUCK} s")

    before = signal.signal(signal.SIGVTALRM, give_up)
    signal.setitimer(signal.ITIMER_VIRTUAL, STUCK)
    started = process_time()
    if measured:
        tracemalloc.start()
    try:
        yield
        peak = tracemalloc.get_traced_memory()[1] if measured else 0
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)
        tracemalloc.stop()
    taken = process_time() - started
    if taken > (20 if measured else 1) * SECONDS:
        raise TooLong(f"took {taken:.1f} s")
    assert peak <= MOST_BYTES, f"took {peak} bytes"


def check_refusal(kind, reading, data, error):
    """Hold an error against what the texts of its kind promise."""
    assert type(error) in kind.refusals, f"refused with {type(error).__name__}"
    assert error.problems, "no problem"
    for problem in error.problems:
        check_problem(kind, data, problem)
        assert problem.hint or not reading.hinted, f"no hint beside {problem.sentence!r}"
    printed = str(error)
    assert printed.replace("\n", "") == visible(printed.replace("\n", "")), "prints what cannot be seen"
    assert printed.encode("utf-8")


def check_problem(kind, data, problem):
    """Check the place of a problem and the lines it prints."""
    assert problem.sentence.strip(), "no sentence"
    lines = str(problem).split("\n")
    assert lines[0].startswith(f"{visible(str(problem.place))}: ")
    assert (_FIRST_LINE if kind.is_file else _ARGUMENT).match(lines[0]), f"first line {lines[0]!r}"
    if kind.is_file and problem.place.file == str(kind.path):
        check_place(kind, data, problem)
    if problem.source.strip():
        check_caret(problem, lines[1][4:], lines[2][4:])


def check_place(kind, data, problem):
    """Check that the line of a problem is the line of the file, and its column within it."""
    lines = kind.lines(data)
    place = problem.place
    assert 1 <= place.line <= len(lines), f"line {place.line} of {len(lines)}"
    line = lines[place.line - 1]
    assert 1 <= place.column <= len(line) + 1, f"column {place.column} of {len(line)}"
    if problem.source:
        assert problem.source.rstrip("\r") == line.rstrip("\r"), f"shows {problem.source!r} for {line!r}"
        assert problem.start == place.column - 1, f"offset {problem.start}, column {place.column}"


def check_caret(problem, shown, carets):
    """Check that the caret stands under the wrong character, counted by a library of terminal widths."""
    assert 0 <= problem.start <= len(problem.source), f"offset {problem.start} of {len(problem.source)}"
    assert re.fullmatch(" *\\^+", carets), f"caret line {carets!r}"
    before = len(carets) - len(carets.lstrip())
    assert len(carets) <= max(columns(shown), before + 1), "the carets go beyond the line"
    source = visible(problem.source.rstrip("\r\n").replace("\t", " "))
    wrong = source[problem.start : problem.start + 1]
    under = _at(shown, before)
    if wrong.strip() and columns(wrong) and under is not None:
        assert under == wrong, f"the caret is under {under!r}, not {wrong!r}"


def columns(text):
    """Return how many columns a terminal takes for a text, each character by itself."""
    return sum(max(0, wcwidth(character)) for character in text)


def _at(text, column):
    """Return the first character with a width at a column; None where marks make that doubtful."""
    taken = 0
    for character in text:
        if taken == column and columns(character):
            return character
        taken += columns(character)
        if taken > column and columns(character) > 1:
            return None
    return ""
