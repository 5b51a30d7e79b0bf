"""What the commands of `lathe` print, for a terminal of 80 columns.

>>> print(swing_text(answer))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.answers.stackremarks import UNIT_WORDS
from gaugestack.cards.anglescreen import both
from gaugestack.cards.rows import cone_said, figure_lines, head, row, shown, way_off
from gaugestack.cards.screen import page, remark_lines
from gaugestack.lengths import exact_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from gaugestack.angles.taper import Taper
    from gaugestack.answers.lathe import AttachmentAnswer, CollarsAnswer, OffsetAnswer, SwingAnswer, SwingRow
    from gaugestack.answers.measured import Measured


def swing_text(answer: SwingAnswer, figures: Iterable[str] = ()) -> str:
    """Return the screen of `lathe swing`."""
    swing = answer.swing
    lines = [
        *head(cone_said(answer.taper)),
        *row("swing by", f"{both(swing.swing)}, the HALF angle"),
        *row("other scale", f"{both(swing.other_scale)}, where 0 is square to the axis"),
        *row("not by", f"{both(answer.taper.included)}, the included angle"),
        *figure_lines(figures),
        "",
        "  what the indicator shows per side (twice that: diameter), what 1 minute adds",
        f"  in {_units_of(answer)}",
        f"  {'over':<10}{'slide moved':>14}{'1 minute':>12}{'carriage moved':>18}{'1 minute':>12}",
        *(_swing_line(one) for one in answer.rows),
    ]
    if answer.measured:
        lines += ["", f"the {answer.along} was moved:", *measured_lines(answer.measured)]
    return page((*lines, *remark_lines(_questions(answer.taper))))


def offset_text(answer: OffsetAnswer, figures: Iterable[str] = ()) -> str:
    """Return the screen of `lathe offset`."""
    offset, unit = answer.offset, answer.between.unit
    between = exact_text(answer.between.length, unit)
    length = exact_text(answer.length.length, answer.length.unit)
    lines = [
        *head(cone_said(answer.taper)),
        *row("set over by", f"{shown(offset.exact, unit)}, {between} between the centre points"),
        *row("shop rule", f"{shown(offset.usual, unit)} (L C / 2), {shown(offset.excess, unit)} too much"),
        *row(
            "check", f"over the {length} of taper the diameter grows by {shown(offset.end_difference, unit)}"
        ),
    ]
    if offset.sentence:
        lines += row("CAUTION", offset.sentence)
    lines += row("then", "return the tailstock to zero; the offset changes with every length of work")
    lines += figure_lines(figures)
    if answer.measured:
        lines += ["", "the offset that is set:", *measured_lines(answer.measured)]
    return page((*lines, *remark_lines(_questions(answer.taper))))


def attachment_text(answer: AttachmentAnswer, figures: Iterable[str] = ()) -> str:
    """Return the screen of `lathe attachment`."""
    taper, setting = answer.taper, answer.setting
    lines = [
        *head(cone_said(taper)),
        *row("set it to", f"{setting.text} (its scale counts {setting.graduated.value})"),
        "",
        "  for a check, the same taper in all three:",
        *row("per foot", taper.per_foot_text),
        *row("half angle", both(taper.half)),
        *row("included", both(taper.included)),
        *figure_lines(figures),
    ]
    return page((*lines, *remark_lines(_questions(taper))))


def collars_text(answer: CollarsAnswer, figures: Iterable[str] = ()) -> str:
    """Return the screen of `lathe collars`."""
    unit = answer.unit_length.unit
    difference, spacing = shown(answer.difference, unit), shown(answer.spacing, unit)
    lines = [*head(cone_said(answer.taper))]
    if answer.measured:
        lines += row("measured", f"{difference} on diameter over {spacing}")
        lines += measured_lines(answer.measured)
    else:
        lines += row("spacing", f"{spacing} between like edges for {difference} on diameter")
        lines += row("then", "turn both at one setting, measure both without taking the work out")
    return page((*lines, *figure_lines(figures), *remark_lines(_questions(answer.taper))))


def measured_lines(found: Measured) -> Iterator[str]:
    """Return a measured cone: angles, error, one-sided verdict, thousandths, what to move."""
    cone, unit = found.cone, found.unit
    yield from row("half angle", both(cone.half))
    yield from row("included", both(cone.included))
    yield from row("taper", f"{cone.one_in_text}, {cone.per_foot_text} on diameter")
    if found.error_arcsec is not None:
        yield from row("error", f"{way_off(found.error_arcsec)} (of the half angle)")
    if found.part:
        yield from row("on the part", found.part.text)
    if found.verdict:
        yield from row("ACCEPTED" if found.verdict.accepted else "REFUSED", found.verdict.sentence)
    if found.nudge:
        way = "the way it was swung" if found.nudge.move > 0 else "back"
        far = exact_text(found.nudge.radius, unit)
        said = f"{shown(abs(found.nudge.move), unit)} {way}, on an indicator {far}"
        yield from row("move", f"{said} from the pivot; then cut and measure again")


def _units_of(answer: SwingAnswer) -> str:
    """Name the unit of the readings: that of each travel."""
    units = sorted({one.travel.unit for one in answer.rows})
    return UNIT_WORDS[units[0]] if len(units) == 1 else "the unit of each travel"


def _swing_line(one: SwingRow) -> str:
    """Return one line of the table of readings."""
    unit = one.travel.unit
    cells = [shown(n, unit).rpartition(" ")[0] for n in (one.slide.per_side, one.carriage.per_side)]
    minutes = [shown(n, unit).rpartition(" ")[0] for n in (one.slide_minute, one.carriage_minute)]
    travel = exact_text(one.travel.length, unit)
    return f"  {travel:<10}{cells[0]:>14}{minutes[0]:>12}{cells[1]:>18}{minutes[1]:>12}"


def _questions(taper: Taper) -> list[str]:
    """Return what to ask before the call-out is trusted."""
    return [taper.question] if taper.question else []
