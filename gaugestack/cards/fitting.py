"""Words made to fit: how wide a text is, cutting it, wrapping it, by columns instead of characters.

    >>> cut("a note of two hundred characters", 12)
    'a note of t…'

A wide character takes two columns, one that joins the letter before it none.
Control and direction characters must be gone already (`errors.visible`).
"""

from __future__ import annotations

import unicodedata
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

ELLIPSIS = "\N{HORIZONTAL ELLIPSIS}"
_JOINING = frozenset({"Mn", "Me"})


def columns(text: str) -> int:
    """Return how many columns a text takes."""
    return sum(_width(character) for character in text)


def cut(text: str, most: int) -> str:
    """Return a text of at most `most` columns, an ellipsis where something was cut off."""
    if columns(text) <= most:
        return text
    kept, room = "", most - 1
    for character in text:
        room -= _width(character)
        if room < 0:
            break
        kept += character
    return kept.rstrip() + ELLIPSIS


def padded(text: str, wide: int) -> str:
    """Return a text filled with spaces to `wide` columns."""
    return text + " " * (wide - columns(text))


def wrap(text: str, wide: int) -> list[str]:
    """Return a text broken into lines of at most `wide` columns, at spaces where there are any."""
    lines, line = [], ""
    for word in _pieces(text, wide):
        together = f"{line} {word}" if line else word
        if columns(together) <= wide:
            line = together
        else:
            lines.append(line)
            line = word
    return [*lines, line] if line or not lines else lines


def _pieces(text: str, wide: int) -> Iterator[str]:
    """Return the words of a text, those wider than a line broken."""
    for word in text.split():
        rest = word
        while columns(rest) > wide:
            head = _head(rest, wide)
            yield head
            rest = rest[len(head) :]
        yield rest


def _head(word: str, wide: int) -> str:
    """Return as much of a word as fits, at least one character."""
    taken, room = 0, wide
    while taken < len(word) and room - _width(word[taken]) >= 0:
        room -= _width(word[taken])
        taken += 1
    return word[: max(taken, 1)]


def _width(character: str) -> int:
    """Return the columns one character takes."""
    if character.isascii():
        return 1
    if unicodedata.category(character) in _JOINING:
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1
