"""A list of answers as CSV, for a spreadsheet: a heading, then one row an answer.

    >>> csv_text(STACK_COLUMNS, rows)

Lengths are exact decimals in the unit of the row, so that they can be reckoned
with.  A cell that a spreadsheet could take for a formula begins with an
apostrophe.  RFC 4180, but for its line ends: a terminal wants plain ones.
"""

from __future__ import annotations

import csv
from typing import TYPE_CHECKING

from gaugestack.cards.batchrows import ended, line_of, stacks_text, why_not
from gaugestack.cards.jsonform import degrees, seconds
from gaugestack.cards.owners import labels_of
from gaugestack.errors import visible
from gaugestack.lengths import Unit, exact_text
from gaugestack.stacks.request import Found

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.inventory.targetsfile import Target

_LENGTHS = ("unit", "target", "length", "deviation")
STACK_COLUMNS = ("line", "name", "asked", "outcome", *_LENGTHS, "blocks", "stack", "reason")
ANGLE_COLUMNS = (
    *STACK_COLUMNS[:4], "angle_degrees", "achieved_angle_degrees", "error_arcsec", *STACK_COLUMNS[4:],
)  # fmt: skip
_FORMULA = ("=", "+", "-", "@")
Row = tuple[str, ...]


def stack_row(target: Target, answer: StackAnswer) -> Row:
    """Return the row of one height."""
    built = answer.outcome.stacks[0] if isinstance(answer.outcome, Found) else None
    lengths = (answer.heights[0].length, built.length if built else None)
    return (*_asked(target, answer), *_lengths(lengths, answer.heights[0].unit), *_stack(answer))


def angle_row(target: Target, answer: AngleAnswer) -> Row:
    """Return the row of one angle; the length of two stacks is their difference."""
    outcome, unit = answer.stack.outcome, answer.bar.unit
    length = outcome.stacks[0].length if isinstance(outcome, Found) else None
    lengths = (answer.height, answer.difference.difference if answer.difference else length)
    return (
        *_asked(target, answer.stack),
        str(degrees(answer.asked)),
        "" if answer.achieved is None else str(degrees(answer.achieved)),
        "" if answer.error_arcsec is None else str(seconds(answer.error_arcsec)),
        *_lengths(lengths, unit),
        *_stack(answer.stack),
    )


def csv_text(columns: Sequence[str], rows: Iterable[Row]) -> str:
    """Return a heading and rows as CSV text."""
    lines = _Lines()
    writer = csv.writer(lines, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return "".join(lines)


class _Lines(list[str]):
    """Lines that a writer writes one by one."""

    write = list.append


def plain(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula, and that stands on one line."""
    said = visible(text)
    return f"'{said}" if said.startswith(_FORMULA) else said


def _asked(target: Target, answer: StackAnswer) -> Row:
    """Return what the list said, and how it ended."""
    return (str(line_of(target) or ""), plain(target.name), plain(target.text), ended(answer.outcome))


def _lengths(lengths: tuple[int, int | None], unit: Unit) -> Row:
    """Return unit, target, length and deviation; in millimetres where inches have no end."""
    target, length = lengths
    found = [target] if length is None else [target, length, length - target]
    texts = [exact_text(each, unit) for each in found]
    if not all(text.endswith(f" {unit}") for text in texts):
        unit = Unit.MILLIMETRE
        texts = [exact_text(each, unit) for each in found]
    return (unit.value, *(text.partition(" ")[0] for text in texts), *("" for _ in range(3 - len(texts))))


def _stack(answer: StackAnswer) -> Row:
    """Return how many blocks, which, or why none."""
    labels = labels_of(answer.stock)
    if not isinstance(answer.outcome, Found):
        return ("", "", plain(why_not(answer.outcome, labels)))
    count = sum(len(built.blocks) for built in answer.outcome)
    return (str(count), plain(stacks_text(answer, labels)), "")
