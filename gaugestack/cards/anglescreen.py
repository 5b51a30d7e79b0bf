"""Angles as plain text for a terminal of 80 columns.

    >>> print(angle_text(answer))

Every angle stands in degrees, minutes, seconds and in decimal degrees.  Tapers
are in taperscreen.py.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text, dms_text, short_degrees_text
from gaugestack.cards.drawing import LINES, Pen
from gaugestack.cards.screen import bar_named, outcome_lines, page, remark_lines, source_said, wrapped
from gaugestack.errors import visible
from gaugestack.lengths import engraved_text, exact_text, small_text
from gaugestack.stacks.request import Impossible

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.angle import AngleAnswer


def angle_text(answer: AngleAnswer, pen: Pen = LINES) -> str:
    """Return the screen of `angle`."""
    head = f"{both(answer.asked)} on {bar_said(answer.bar)}"
    return page((*wrapped(visible(head), "", "  "), *angle_body(answer, pen), *remark_lines(answer.remarks)))


def both(angle: Angle) -> str:
    """Return an angle in degrees, minutes, seconds and in decimal degrees."""
    return f"{dms_text(angle, 1)} ({short_degrees_text(angle, 6)})"


def bar_said(bar: SineBar, *, measured: bool = True) -> str:
    """Name a bar by its name and centre distance, and by how far that was measured off."""
    length = exact_text(bar.effective, bar.unit)
    plain = bar.name == length.replace(" ", "")
    off = f", measured {small_text(bar.error, bar.unit)}" if bar.error and measured else ""
    return f"a {length} bar" if plain else f"{bar_named(bar)}, {length} centres{off}"


def angle_body(answer: AngleAnswer, pen: Pen, *, care: bool = True) -> Iterator[str]:
    """Return height, achieved angle, stack, sensitivity, cautions of one angle."""
    unit = answer.bar.unit
    yield f"  height       {exact_text(answer.height, unit)}"
    if answer.bar.base_height:
        yield f"               of which {exact_text(answer.bar.base_height, unit)} sets the plate level"
    if answer.achieved is not None and answer.error_arcsec is not None:
        gives = "stack gives" if answer.difference is None else "both give"
        yield f"  {gives:<13}{both(answer.achieved)}, error {arcsec_text(answer.error_arcsec)}"
    if answer.known:
        said = answer.known.line("budget angle")
        yield from wrapped(visible(said), "  right within ", " " * 15)
    yield f"  1 second is  {small_text(round(answer.sensitivity), unit, 2).lstrip('+')} of height"
    if answer.smallest is not None:
        yield f"  smallest     {dms_text(answer.smallest)} with one stack of this set on this bar"
    if answer.caution:
        yield from wrapped(
            f"{answer.caution.sentence} ({answer.caution.source})", "  CAUTION      ", " " * 15
        )
    said = source_said(answer.stack)
    yield from wrapped(visible(said), "  from         ", " " * 15)
    yield from _difference_lines(answer)
    yield from outcome_lines(answer.stack, pen, _errors_of_ways(answer), care=care)


def _difference_lines(answer: AngleAnswer) -> Iterator[str]:
    """Return where the two stacks of a difference stand, and by how much they differ."""
    found, unit = answer.difference, answer.bar.unit
    if found is None:
        return
    high, low = (engraved_text(built.length, unit) for built in (found.high, found.low))
    off = f", {small_text(found.deviation, unit)} off" if found.deviation else ""
    yield f"  difference   {high} - {low} = {engraved_text(found.difference, unit)}{off}"
    yield "               one stack under each roll: the high one where the bar rises"


def _errors_of_ways(answer: AngleAnswer) -> dict[int, str]:
    """Return what each way out would cost in angle, by its place on the ladder."""
    from gaugestack.answers.angle import angle_by  # noqa: PLC0415  (numpy: cards of cones do without)

    outcome = answer.stack.outcome
    ways = outcome.ways_out if isinstance(outcome, Impossible) else ()
    said = {}
    for index, way in enumerate(ways):
        done = (
            angle_by(way.built, answer.asked, answer.bar) if way.built and way.kind != "other bar" else None
        )
        if done:
            said[index] = f"error {arcsec_text(done.error_arcsec)}"
    return said
