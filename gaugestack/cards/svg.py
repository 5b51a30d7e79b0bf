"""What every SVG text shares: escaping, numbers, the head, how wide words are, where labels go.

    >>> escaped("<script>")
    '&lt;script&gt;'
    >>> fitted("a long name of a set", 20, 3.3)
    'a long na…'

Sizes are millimetres.  The width of words is estimated on the wide side, so that
what fits here fits with the usual fonts.  Draws nothing: that is svgpaper.py.
"""

from __future__ import annotations

import unicodedata
import zlib
from typing import TYPE_CHECKING

from gaugestack.errors import visible

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

BODY, NOTE, HEAD = 3.3, 2.9, 4.6
"""Sizes of writing; the smallest is above 8 points (2.82 mm)."""
INK = "#111"
ELLIPSIS = "\N{HORIZONTAL ELLIPSIS}"
_NARROW = frozenset(" \N{NO-BREAK SPACE}.,:;'|!()[]iIjlftr/")
_WIDE = frozenset("mMwW%@+=<>±~#&\N{EM DASH}\N{HORIZONTAL ELLIPSIS}")


def opening(size: tuple[float, float], title: str, description: str) -> Iterator[str]:
    """Return the head of a drawing of that width and height: title, description, white paper.

    The names that join them to the drawing differ from text to text, so that
    several drawings can stand in one page.
    """
    width, height = (number(side) for side in size)
    words = f"{title}; {description}".encode(errors="replace")
    own = f"{zlib.crc32(words):08x}"
    yield (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" lang="en" xml:lang="en" role="img" '
        f'aria-labelledby="t{own}" aria-describedby="d{own}" font-family="sans-serif">'
    )
    yield f'<title id="t{own}">{escaped(title)}</title>'
    yield f'<desc id="d{own}">{escaped(description)}</desc>'
    yield f'<rect width="{width}" height="{height}" fill="#ffffff"/>'


def escaped(text: str) -> str:
    """Return a text that stands for itself in SVG, without control characters."""
    plain = visible(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return plain.replace('"', "&quot;")


def number(value: float, places: int = 2) -> str:
    """Print a number of millimetres to a hundredth, without closing zeros."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def wide(words: str, size: float) -> float:
    """Return how wide words of that size are at most, in millimetres."""
    return size * sum(_share(character) for character in visible(words))


def fitted(words: str, room: float, size: float) -> str:
    """Return words, cut with an ellipsis where they are wider than the room."""
    if wide(words, size) <= room:
        return words
    kept = words[: int(room / size / 0.3) + 1]
    while kept and wide(kept.rstrip() + ELLIPSIS, size) > room:
        kept = kept[:-1]
    return kept.rstrip() + ELLIPSIS


def filled(words: str, room: float, size: float) -> tuple[str, ...]:
    """Return words as lines that fit the room; a word too long for it is cut."""
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and wide(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(fitted(word, room, size))
    return tuple(lines)


def spread(wanted: Sequence[float], pitch: float, low: float, high: float) -> list[float]:
    """Return places for labels as near as can be to the wanted ones, `pitch` apart, in order.

    `wanted` does not decrease.  Neighbours that crowd share the shift (their
    mean stays); all stand from `low` to `high` where these leave the room.
    """
    heaps: list[tuple[float, int]] = []
    for index, place in enumerate(wanted):
        mean, count = place - index * pitch, 1
        while heaps and heaps[-1][0] > mean:
            before, many = heaps.pop()
            mean = (before * many + mean * count) / (many + count)
            count += many
        heaps.append((mean, count))
    highest = max(low, high - (len(wanted) - 1) * pitch)
    means = [min(max(mean, low), highest) for mean, count in heaps for _ in range(count)]
    return [mean + index * pitch for index, mean in enumerate(means)]


def _share(character: str) -> float:
    """Return how wide a character is, as a part of the size of the writing."""
    if character in _NARROW:
        return 0.4
    if unicodedata.east_asian_width(character) in "WF" or unicodedata.category(character) == "So":
        return 1.4
    if character in _WIDE:
        return 1.0
    if unicodedata.combining(character):
        return 0.0
    if character.islower():
        return 0.62
    return 0.74 if character.isalpha() else 0.64
