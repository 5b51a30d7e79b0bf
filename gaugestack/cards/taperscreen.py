"""Tapers as plain text for a terminal of 80 columns.

    >>> print(taper_text(answer))

Both angles of a cone always stand side by side, so that none is taken for the
other; a flat wedge shows its one angle.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text, dms_text
from gaugestack.angles.taper import Use
from gaugestack.answers.taper import FlatAnswer
from gaugestack.cards.anglescreen import angle_body, bar_said, both
from gaugestack.cards.drawing import LINES, Pen
from gaugestack.cards.rows import cone_said
from gaugestack.cards.screen import page, remark_lines, wrapped
from gaugestack.errors import visible
from gaugestack.lengths import rounded_text, small_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from gaugestack.angles.fit import Fit
    from gaugestack.angles.published_step import TableStep
    from gaugestack.answers.taper import Role, TaperAnswer

_USES = {
    Use.COMPOUND: "compound: HALF angle (compound slide, work between centres)",
    Use.INSPECTION: "inspection: INCLUDED angle (plug lying on the bar)",
}


def taper_text(answer: TaperAnswer | FlatAnswer, pen: Pen = LINES, figures: Iterable[str] = ()) -> str:
    """Return the screen of `taper`: the angles first, a sketch where one is given, then each set-up."""
    drawn = [f"  {line}".rstrip() for figure in figures for line in ("", *figure.splitlines())]
    if isinstance(answer, FlatAnswer):
        found = (*angle_body(answer.angle, pen), "", *_table_lines(answer.table))
        body = (*_flat_head(answer), *drawn, "", *found)
        return page((*body, *remark_lines((*answer.remarks, *answer.angle.remarks))))
    remarks = dict.fromkeys(
        (*answer.remarks, *(text for role in answer.roles for text in role.angle.remarks))
    )
    return page((*_taper_head(answer), *drawn, *_roles(answer, pen), *remark_lines(remarks)))


def holding_lines(fit: Fit) -> Iterator[str]:
    """Return whether a taper holds by itself as published, and the cautions; 80 columns."""
    known = fit.published
    yield from wrapped(f"{known.holding.value} ({known.source})", "  holding    ", " " * 13)
    for caution in fit.cautions:
        yield from wrapped(caution, "  CAUTION    ", " " * 13)


def _taper_head(answer: TaperAnswer) -> Iterator[str]:
    """Return the taper as it was read, and both its angles with their heights."""
    taper, unit = answer.taper, answer.bar.unit
    yield from wrapped(visible(cone_said(taper)), "", "  ")
    yield f"  on {visible(bar_said(answer.bar))}"
    yield ""
    rows = (
        ("half angle", taper.half, answer.half_height),
        ("included angle", taper.included, answer.included_height),
    )
    for name, angle, height in rows:
        yield f"  {name:<15} {both(angle):<28} height {rounded_text(height, unit, 6)}"
    yield ""
    yield from holding_lines(answer.fit)


def _flat_head(answer: FlatAnswer) -> Iterator[str]:
    """Return the wedge as it was read, and its one angle."""
    flat, unit = answer.flat, answer.bar.unit
    yield from wrapped(visible(flat.reading), "", "  ")
    yield f"  on {visible(bar_said(answer.bar))}"
    yield ""
    height = rounded_text(answer.angle.height, unit, 6)
    yield f"  {'whole angle':<15} {both(flat.angle):<28} height {height}"
    yield "  a flat wedge has no half and no included angle"


def _roles(answer: TaperAnswer, pen: Pen) -> Iterator[str]:
    """Return each set-up under its own headline."""
    for number, role in enumerate(answer.roles):
        yield ""
        yield f"== {_USES[role.use]}"
        yield from angle_body(role.angle, pen, care=not number)
        yield ""
        yield from _short_cut_lines(role)
        yield from _table_lines(role.table)


def _short_cut_lines(role: Role) -> Iterator[str]:
    """Return what taking taper per inch straight as the sine would have cost."""
    cut, unit = role.short_cut, role.angle.bar.unit
    if cut is None:
        return
    said = (
        f"the taper per unit length taken for the sine would set {rounded_text(cut.height, unit, 4)}: "
        f"{small_text(cut.height_error, unit, 0)} and {arcsec_text(cut.angle_error_arcsec)} off"
    )
    yield from wrapped(said, "  short cut: ", "    ")


def _table_lines(table: TableStep) -> Iterator[str]:
    """Return what a book that prints angles to ten minutes would cost."""
    off = arcsec_text(table.error_arcsec, 0)
    said = f"a sine table in steps of 10 minutes has {dms_text(table.book_angle)}: {off} off"
    exact = "even a sine table in steps of 10 minutes has it"
    yield from wrapped(said if table.error_arcsec else exact, "  table:     ", "    ")
