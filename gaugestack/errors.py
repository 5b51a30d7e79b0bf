"""What can go wrong, said to the person at the bench.

Mistakes are values (`Problem`) that carry their place; exceptions carry
problems to the shell, which prints them and leaves with `exit_code`.

    Exception
    └── GaugestackError            every error of this library
        ├── UsageError         2   an argument cannot be used as it was given
        │   └── TextError      2   a text is not a length, angle or taper
        ├── RefusedFile        3   a file is refused; holds all its problems
        └── OurBug            70   the judge refused an answer of our own

Exit codes 0 (yes), 1 (an honest no) and 4 (undecided within limits) belong
to answers, not to errors.  This module prints nothing and reads nothing.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from difflib import get_close_matches
from enum import IntEnum
from functools import lru_cache
from typing import TYPE_CHECKING, ClassVar

if TYPE_CHECKING:
    from collections.abc import Iterable


class ExitCode(IntEnum):
    """How the process ends; scripts rely on these numbers."""

    YES = 0
    NO = 1
    USAGE = 2
    REFUSED_FILE = 3
    UNDECIDED = 4
    OUR_BUG = 70


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a text stood.

    `file` is a file's name, or an argument's name where `line` is 0.
    `line` and `column` count characters from 1.
    """

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        """`file:line:column`, or the argument's name alone."""
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One mistake: where, what is wrong, the line it stands in, what to do.

    `source` is the whole line (or argument) as written, `start` the offset of
    the first wrong character in it, `width` how many are wrong.
    """

    place: Place
    sentence: str
    source: str = ""
    start: int = 0
    width: int = 1
    hint: str = ""

    def __str__(self) -> str:
        """`file:line:col: sentence`, the line, a caret under the fault, the hint."""
        lines = [f"{visible(str(self.place))}: {visible(self.sentence)}"]
        if self.source.strip():
            lines += [f"    {text}" for text in _caret_lines(self.source, self.start, self.width)]
        if self.hint:
            lines.append(f"  {visible(self.hint)}")
        return "\n".join(lines)


class GaugestackError(Exception):
    """Every error of this library; `problems` holds at least one."""

    exit_code: ClassVar[ExitCode] = ExitCode.OUR_BUG

    def __init__(self, problems: Iterable[Problem]) -> None:
        """Keep the problems in the order given."""
        self.problems: tuple[Problem, ...] = tuple(problems)
        super().__init__(self.problems)

    def __str__(self) -> str:
        """Return all problems, one after the other."""
        return "\n".join(str(problem) for problem in self.problems)


class UsageError(GaugestackError):
    """An argument cannot be used as it was given."""

    exit_code = ExitCode.USAGE

    @classmethod
    def about(cls, argument: str, sentence: str, *, hint: str = "") -> UsageError:
        """Build the error of one argument that has no caret."""
        return cls([Problem(place=Place(file=argument), sentence=sentence, hint=hint)])


class TextError(UsageError):
    """A text is not the length, angle or taper it should be.

    Raised by the readers, which do not know where the text stood; `at` makes
    the problem once the place is known.
    """

    def __init__(self, text: str, start: int, end: int, sentence: str, *, hint: str = "") -> None:
        """Remember the text and the half-open range of wrong characters."""
        self.text = text
        self.start = start
        self.end = max(end, start + 1)
        self.sentence = sentence
        self.hint = hint
        super().__init__([self.at(Place(file="argument"))])

    def at(self, place: Place, *, source: str = "", offset: int = 0) -> Problem:
        """Return the problem at `place`; `offset` is where the text begins in `source`."""
        shown = source or self.text
        column = place.column + self.start if place.line else 0
        return Problem(
            place=Place(file=place.file, line=place.line, column=column),
            sentence=self.sentence,
            source=shown,
            start=offset + self.start,
            width=self.end - self.start,
            hint=self.hint,
        )

    def named(self, argument: str) -> UsageError:
        """Return the same mistake as an error of the named argument."""
        return UsageError([self.at(Place(file=argument))])


class RefusedFile(GaugestackError):  # noqa: N818  (named for what happened)
    """A file is refused; `problems` holds everything wrong with it."""

    exit_code = ExitCode.REFUSED_FILE

    @classmethod
    def whole(cls, file: str, sentence: str, *, hint: str = "") -> RefusedFile:
        """Build the error of a file that cannot be read at all."""
        return cls([Problem(place=Place(file=file, line=1, column=1), sentence=sentence, hint=hint)])


class OurBug(GaugestackError):  # noqa: N818  (named for what it is)
    """An answer of our own broke a rule; never the user's fault."""

    exit_code = ExitCode.OUR_BUG

    @classmethod
    def because(cls, sentences: Iterable[str]) -> OurBug:
        """Build the error from the rules that were broken."""
        place = Place(file="gaugestack")
        hint = "This is a fault of the program, not of your set: please report it."
        return cls([Problem(place=place, sentence=sentence, hint=hint) for sentence in sentences])


def nearest(word: str, known: Iterable[str]) -> str:
    """Return a hint naming the known word closest to `word`, or all of them."""
    words = sorted(known)
    close = get_close_matches(word.casefold(), [w.casefold() for w in words], n=1, cutoff=0.6)
    if close:
        return f"did you mean {next(w for w in words if w.casefold() == close[0])!r}?"
    return f"known: {', '.join(words)}" if words else ""


def visible(text: str) -> str:
    """Return `text` with every control or direction character replaced by `\N{REPLACEMENT CHARACTER}`.

    One character stays one character, so columns still count right.  Newlines
    go too: nothing from a user's file can forge a line of our output.
    """
    return "".join("\N{REPLACEMENT CHARACTER}" if unicodedata.category(c) in _UNSEEN else c for c in text)


_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp", "Co", "Cn"})
_LINE_LIMIT = 72
_CUT = "\N{HORIZONTAL ELLIPSIS}"
_MOST_CHARACTERS = 4 * _LINE_LIMIT
_NO_WIDTH = frozenset({"Mn", "Me"})
_JOINED_LETTERS = (range(0x1160, 0x1200), range(0xD7B0, 0xD800))
"""Vowels and final consonants of Hangul: drawn into the letter before them."""


def _caret_lines(source: str, start: int, width: int) -> tuple[str, str]:
    """Return the source line, cut to fit a terminal with an ellipsis where it goes on, and its caret line.

    A tab is shown as one space.  A mark without a width of its own is pointed
    at where the letter stands that carries it.
    """
    text = visible(source.rstrip("\r\n").replace("\t", " "))
    start = min(start, len(text))
    while 0 < start < len(text) and not _columns(text[start]):
        start, width = start - 1, width + 1
    cut = 0
    if _fitting(text, _LINE_LIMIT) < len(text):
        cut = start - _fitting(text[:start][::-1], _LINE_LIMIT // 2)
    while 0 < cut < start and not _columns(text[cut]):
        cut += 1
    shown = text[cut : cut + _fitting(text[cut:], _LINE_LIMIT)]
    before, wrong = shown[: start - cut], shown.rstrip()[start - cut : start - cut + width]
    lead, tail = _CUT if cut else "", _CUT if cut + len(shown) < len(text) else ""
    return lead + shown.rstrip() + tail, " " * _columns(lead + before) + "^" * max(1, _columns(wrong))


def _columns(text: str) -> int:
    """Return how many terminal columns `text` takes (Unicode Standard Annex 11)."""
    return sum(map(_column, text))


@lru_cache(maxsize=1024)
def _column(character: str) -> int:
    """Return the columns of one character: none for a mark on the one before, two for a wide one."""
    if unicodedata.category(character) in _NO_WIDTH or any(ord(character) in few for few in _JOINED_LETTERS):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _fitting(text: str, most: int) -> int:
    """Return how many characters a text begins with that take at most so many columns."""
    taken = 0
    for count, character in enumerate(text[:_MOST_CHARACTERS]):
        taken += _column(character)
        if taken > most:
            return count
    return min(len(text), _MOST_CHARACTERS)
