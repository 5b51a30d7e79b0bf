"""Angle gauge blocks as plain text for a terminal of 80 columns.

>>> print(angle_blocks_text(answer))

Each block stands in its wringing order with the way it points and the angle
reached so far.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle, arcsec_text, dms_text, short_degrees_text
from gaugestack.cards.screen import page, remark_lines, wrapped
from gaugestack.errors import visible
from gaugestack.stacks.anglerequest import AngleFound, AngleImpossible

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.answers.angleblocks import AngleBlocksAnswer
    from gaugestack.stacks.anglerequest import AngleBuilt, AngleUndecided, Placed


def angle_blocks_text(answer: AngleBlocksAnswer) -> str:
    """Return the screen of `angle-blocks`."""
    return page((*_head(answer), "", *_outcome(answer), *remark_lines(answer.remarks)))


def way(placed: Placed) -> str:
    """Say which way a block points."""
    if placed.block.square:
        return "square"
    return "turned round" if placed.turned else "added"


def angle_said(angle: Angle) -> str:
    """Return an angle without empty decimals."""
    return dms_text(angle, 0 if angle.arcseconds.denominator == 1 else 1)


def _head(answer: AngleBlocksAnswer) -> Iterator[str]:
    """Return the first lines: the set, how many blocks of it, the tolerance."""
    found, pool = answer.angle_set, len(answer.request.pool)
    pieces = f"{pool} pieces" if pool == len(found.issued) else f"{pool} of {len(found.issued)} pieces"
    tolerance = arcsec_text(answer.request.tolerance).lstrip("+")
    said = f"{found.name}, {pieces}; tolerance {tolerance} ({answer.tolerance_said})"
    yield from wrapped(visible(said), "from ", "     ")


def _outcome(answer: AngleBlocksAnswer) -> Iterator[str]:
    """Return what was found, or why nothing was."""
    asked, outcome = answer.asked, answer.outcome
    name = f"{angle_said(asked)} ({short_degrees_text(asked, 6)})"
    if isinstance(outcome, AngleFound) and answer.plan:
        count = len(outcome.built.placed)
        yield f"{name}: {count} block{'s' * (count > 1)}, {_off(outcome.built)}"
        yield ""
        yield from _rows(answer.plan.order)
        yield ""
        for number, step in enumerate(answer.plan.steps, 1):
            yield from wrapped(f"{step.action}: {step.reason}", f"{number:>3}  ", "     ")
    elif isinstance(outcome, AngleImpossible):
        yield from wrapped(f"Not possible: {outcome.sentence}.", "", "  ")
        yield from _nearest(outcome)
    elif not isinstance(outcome, AngleFound):
        yield from _undecided(outcome)


def _rows(order: Sequence[Placed]) -> Iterator[str]:
    """Return a row a block: its place, its angle, the way it points, the angle reached."""
    reached = Fraction(0)
    for number, one in enumerate(order, 1):
        reached += one.arcseconds
        sign = "-" if one.turned else "+"
        serial = f"  #{visible(one.block.serial)}" if one.block.serial else ""
        yield f"{number:>3}  {sign} {one.block.engraved:<8} {way(one):<13} = {_total(reached)}{serial}"


def _total(arcseconds: Fraction) -> str:
    """Return the angle reached, with its sign."""
    text = angle_said(Angle(arcseconds=abs(arcseconds)))
    return f"-{text}" if arcseconds < 0 else text


def _off(built: AngleBuilt) -> str:
    """Say how far the blocks are from what was asked."""
    return f"{arcsec_text(built.deviation)} off" if built.deviation else "exactly"


def _nearest(outcome: AngleImpossible) -> Iterator[str]:
    """Return the nearest angles on both sides, with their blocks."""
    found = [(side, built) for side, built in (("below", outcome.below), ("above", outcome.above)) if built]
    if found:
        yield ""
        yield "Ways out:"
    for side, built in found:
        sentence = f"the nearest {side} is {angle_said(built.angle)}, {arcsec_text(built.deviation)} off"
        yield from wrapped(sentence, " -  ", "    ")
        yield from wrapped(_blocks_line(built), "      ", "        ")


def _blocks_line(built: AngleBuilt) -> str:
    """Return the blocks in one line with their signs."""
    first, *rest = sorted(built.placed, key=lambda one: one.turned)
    parts = [f"{'-' if one.turned else '+'} {one.block.engraved}" for one in rest]
    return " ".join([first.block.engraved, *parts])


def _undecided(outcome: AngleUndecided) -> Iterator[str]:
    """Return what is known at the limit."""
    yield from wrapped(f"Undecided: {outcome.sentence}.", "", "  ")
    yield f"  at least {outcome.at_least} blocks are needed"
    if outcome.best:
        yield from wrapped(_blocks_line(outcome.best), "  best known: ", "    ")
