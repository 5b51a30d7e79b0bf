"""A list of answers as a table of 80 columns, one line an answer where it fits.

    >>> print(batch_text(table, rows))

Blocks stand from the bottom up.  What is to be said of many answers is said
once beneath the table, with their lines.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text, dms_text, read_angle
from gaugestack.answers.angle import bare_said
from gaugestack.answers.stackremarks import UNIT_WORDS, units_taken
from gaugestack.cards.batchrows import FOUND, IMPOSSIBLE, UNDECIDED, ended, line_of, stacks_text, why_not
from gaugestack.cards.fitting import columns, padded, wrap
from gaugestack.cards.owners import labels_of
from gaugestack.cards.screen import COLUMNS, chosen_from, deviation_said, page, remark_lines, wrapped
from gaugestack.errors import visible
from gaugestack.lengths import exact_text
from gaugestack.stacks.request import Found

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.batch import Ready
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.inventory.targetsfile import Target

_APART = "  "
_WIDEST = {"name": 16, "height": 14, "angle": 14, "off": 10, "error": 8}
_NAMED = 3
"""Lines named in a note before the rest is counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One answer: line of the list, name, what was asked, how far off, the blocks or why none.

    `bare` tells that it was asked without a unit, `steep` that the angle is
    above 45 degrees; `remarks` are what else is to be said.
    """

    line: int
    name: str
    asked: str
    off: str
    said: str
    outcome: str
    bare: bool = False
    steep: bool = False
    remarks: tuple[str, ...] = ()


def stack_line(target: Target, answer: StackAnswer) -> Line:
    """Return the line of one height."""
    height, taken = answer.heights[0], set(units_taken(answer.heights, answer.stock))
    built = answer.outcome.stacks[0] if isinstance(answer.outcome, Found) else None
    return Line(
        line=line_of(target),
        name=visible(target.name),
        asked=exact_text(height.length, height.unit),
        off=deviation_said(built).removesuffix(" off") if built else "",
        said=_said(answer),
        outcome=ended(answer.outcome),
        bare=height.bare,
        remarks=tuple(text for text in answer.remarks if text not in taken),
    )


def angle_line(target: Target, answer: AngleAnswer) -> Line:
    """Return the line of one angle."""
    error, said = answer.error_arcsec, bare_said(read_angle(target.text))
    return Line(
        line=line_of(target),
        name=visible(target.name),
        asked=dms_text(answer.asked, 1),
        off="" if error is None else arcsec_text(error),
        said=_said(answer.stack),
        outcome=ended(answer.stack.outcome),
        bare=bool(said),
        steep=answer.caution is not None,
        remarks=_of_both_rolls(answer)
        if answer.difference
        else tuple(text for text in answer.remarks if text not in said),
    )


def _of_both_rolls(answer: AngleAnswer) -> tuple[str, ...]:
    """Return what is to be said of two stacks, in words that fit every such line."""
    return (_BOTH_ROLLS, *(text for plan in answer.stack.plans for text in plan.remarks))


_BOTH_ROLLS = (
    "two stacks, one under each roll: the work stands higher by the low one, and the plate must be flat "
    "and clean under both (common practice)"
)


def batch_text(kind: str, made: Ready, lines: Sequence[Line]) -> str:
    """Return the table of answers of one kind, "height" or "angle"."""
    head = chosen_from(made.stock, made.plain, made.choice.tolerance_said(made.stock))
    return page(
        (
            *wrapped(visible(head), "from ", "     "),
            *_pair_lines(made),
            f"{_counted(kind, len(lines))}, each for itself: {_endings(lines)}",
            "",
            *_table_lines(kind, lines),
            *_notes(kind, made.stock, lines),
        )
    )


def _said(answer: StackAnswer) -> str:
    """Return the blocks of an answer, or why there are none."""
    labels = labels_of(answer.stock)
    return why_not(answer.outcome, labels) or stacks_text(answer, labels)


def _pair_lines(made: Ready) -> Iterator[str]:
    """Name the wear pair that every stack has."""
    if made.plain.ends:
        yield f"wear pair 2 x {made.plain.ends[0][0].engraved} is part of every stack"


def _counted(what: str, number: int) -> str:
    """Return a number of things."""
    return f"{number} {what}{'s' * (number != 1)}"


def _endings(lines: Sequence[Line]) -> str:
    """Return how many ended in which way."""
    counts = Counter(line.outcome for line in lines)
    words = ((FOUND, "made"), (IMPOSSIBLE, "not possible"), (UNDECIDED, "undecided"))
    return ", ".join(f"{counts[word]} {said}" for word, said in words if counts[word] or word == FOUND)


def _table_lines(kind: str, lines: Sequence[Line]) -> Iterator[str]:
    """Return the table; lines and names have a column where there are any."""
    heads = ["line", "name", kind, "error" if kind == "angle" else "off", "blocks, from the bottom up"]
    rows = [[_number(line.line), line.name, line.asked, line.off, line.said] for line in lines]
    shown = [place for place in range(5) if place > 1 or any(row[place] for row in rows)]
    heads, rows = [heads[i] for i in shown], [[row[i] for i in shown] for row in rows]
    widths = [_width(head, [row[i] for row in rows]) for i, head in enumerate(heads[:-1])]
    yield _APART.join((*map(padded, heads[:-1], widths), heads[-1]))
    for row in rows:
        yield from _row(row, widths)


def _number(line: int) -> str:
    """Return the number of a line, set to the right; nothing for none."""
    return f"{line:>4}" if line else ""


def _width(head: str, cells: Sequence[str]) -> int:
    """Return how wide a column is: as its widest cell, where that is not too wide."""
    widest = max(map(columns, (head, *cells)))
    return min(widest, _WIDEST.get(head, widest))


def _row(row: Sequence[str], widths: Sequence[int]) -> Iterator[str]:
    """Return the lines of one answer; what goes on below is set in by two."""
    *cells, said = row
    used = sum(widths) + len(_APART) * len(widths)
    first, *rest = wrap(said, COLUMNS - used - len(_APART))
    broken = [_fitted(cell, width) for cell, width in zip(cells, widths, strict=True)]
    broken.append([first, *(_APART + line for line in rest)])
    for number in range(max(map(len, broken))):
        parts = [lines[number] if number < len(lines) else "" for lines in broken]
        yield _APART.join((*map(padded, parts[:-1], widths), parts[-1])).rstrip()


def _fitted(cell: str, width: int) -> list[str]:
    """Return a cell as it stands where it fits, else broken."""
    return [cell] if columns(cell) <= width else wrap(cell, width)


def _notes(kind: str, stock: Stock, lines: Sequence[Line]) -> Iterator[str]:
    """Return what is to be said of several answers, each once with its lines."""
    bare = sum(line.bare for line in lines)
    said: dict[str, list[Line]] = {}
    for line in lines:
        for remark in (*line.remarks, *([_STEEP] if line.steep else [])):
            said.setdefault(remark, []).append(line)
    notes = [f"{_of(named)}{remark}" for remark, named in said.items()]
    if bare:
        read = "decimal degrees" if kind == "angle" else f"{UNIT_WORDS[stock.unit]}, the unit of {stock.name}"
        notes.insert(0, f"{_counted(kind, bare)} without a unit, read as {read}")
    if any(line.outcome == IMPOSSIBLE for line in lines):
        notes.append(f"what would do instead is told of one {kind} at a time")
    yield from remark_lines(visible(note) for note in notes)


_STEEP = "above 45\N{DEGREE SIGN} a height error turns the bar ever further; asked alone, it is told how far"


def _of(lines: Sequence[Line]) -> str:
    """Name the lines a note is about, the first few of them."""
    named = [str(line.line) for line in lines if line.line]
    if not named:
        return ""
    more = f" and {len(named) - _NAMED} more" if len(named) > _NAMED else ""
    return f"line{'s' * (len(named) > 1)} {', '.join(named[:_NAMED])}{more}: "
