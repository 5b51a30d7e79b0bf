"""Angles and tapers as plain text for a terminal of 80 columns.

    >>> print(angle_text(answer))

Both angles of a taper always stand side by side, and every angle in degrees,
minutes, seconds and in decimal degrees, so that none is taken for the other.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text, dms_text, short_degrees_text
from gaugestack.angles.taper import Use
from gaugestack.answers.angle import angle_by
from gaugestack.cards.drawing import LINES, Pen
from gaugestack.cards.screen import outcome_lines, page, remark_lines, source_said, wrapped
from gaugestack.errors import visible
from gaugestack.lengths import exact_text, rounded_text, small_text
from gaugestack.stacks.request import Impossible

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.taper import Role, TaperAnswer

_USES = {
    Use.COMPOUND: "compound: HALF angle (compound slide, work between centres)",
    Use.INSPECTION: "inspection: INCLUDED angle (plug lying on the bar)",
}


def angle_text(answer: AngleAnswer, pen: Pen = LINES) -> str:
    """Return the screen of `angle`."""
    head = f"{both(answer.asked)} on {bar_said(answer.bar)}"
    return page((*wrapped(visible(head), "", "  "), *_body(answer, pen), *remark_lines(answer.remarks)))


def taper_text(answer: TaperAnswer, pen: Pen = LINES) -> str:
    """Return the screen of `taper`: both angles first, then each set-up."""
    remarks = dict.fromkeys(
        (*answer.remarks, *(text for role in answer.roles for text in role.angle.remarks))
    )
    return page((*_taper_head(answer), *_roles(answer, pen), *remark_lines(remarks)))


def both(angle: Angle) -> str:
    """Return an angle in degrees, minutes, seconds and in decimal degrees."""
    return f"{dms_text(angle, 1)} ({short_degrees_text(angle, 6)})"


def bar_said(bar: SineBar) -> str:
    """Name a bar by its name and centre distance."""
    length = exact_text(bar.effective, bar.unit)
    plain = bar.name == length.replace(" ", "")
    measured = f", measured {small_text(bar.error, bar.unit)}" if bar.error else ""
    return f"a {length} bar" if plain else f"bar {bar.name}, {length} centres{measured}"


def _body(answer: AngleAnswer, pen: Pen) -> Iterator[str]:
    """Return height, achieved angle, stack, sensitivity, cautions of one angle."""
    unit = answer.bar.unit
    yield f"  height       {exact_text(answer.height, unit)}"
    if answer.bar.base_height:
        yield f"               of which {exact_text(answer.bar.base_height, unit)} sets the plate level"
    if answer.achieved is not None and answer.error_arcsec is not None:
        yield f"  stack gives  {both(answer.achieved)}, error {arcsec_text(answer.error_arcsec)}"
    yield f"  1 second is  {small_text(round(answer.sensitivity), unit, 2).lstrip('+')} of height"
    if answer.smallest is not None:
        yield f"  smallest     {dms_text(answer.smallest)} with one stack of this set on this bar"
    if answer.caution:
        yield from wrapped(
            f"{answer.caution.sentence} ({answer.caution.source})", "  CAUTION      ", " " * 15
        )
    said = source_said(answer.stack)
    yield from wrapped(visible(said), "  from         ", " " * 15)
    yield from outcome_lines(answer.stack, pen, _errors_of_ways(answer))


def _errors_of_ways(answer: AngleAnswer) -> dict[int, str]:
    """Return what each way out would cost in angle, by its place on the ladder."""
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


def _taper_head(answer: TaperAnswer) -> Iterator[str]:
    """Return the taper as it was read, and both its angles with their heights."""
    taper, unit = answer.taper, answer.bar.unit
    ratios = f"{taper.one_in_text}, {taper.per_foot_text} on diameter"
    yield from wrapped(visible(f"{taper.reading} = {ratios}"), "", "  ")
    yield f"  on {bar_said(answer.bar)}"
    yield ""
    rows = (
        ("half angle", taper.half, answer.half_height),
        ("included angle", taper.included, answer.included_height),
    )
    for name, angle, height in rows:
        yield f"  {name:<15} {both(angle):<28} height {rounded_text(height, unit, 6)}"


def _roles(answer: TaperAnswer, pen: Pen) -> Iterator[str]:
    """Return each set-up under its own headline."""
    for role in answer.roles:
        yield ""
        yield f"== {_USES[role.use]}"
        yield from _body(role.angle, pen)
        yield from _short_cut_lines(role)


def _short_cut_lines(role: Role) -> Iterator[str]:
    """Return what taking taper per inch straight as the sine would have cost."""
    cut, unit = role.short_cut, role.angle.bar.unit
    if cut is None:
        return
    said = (
        f"taper per unit length taken straight as the sine would set {rounded_text(cut.height, unit, 4)}: "
        f"{small_text(cut.height_error, unit, 0)} and {arcsec_text(cut.angle_error_arcsec)} off"
    )
    yield ""
    yield from wrapped(said, "  short cut: ", "    ")
