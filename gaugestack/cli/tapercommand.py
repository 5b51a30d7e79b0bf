"""Showing the answer of `taper`: screen or JSON, the sketches of its set-ups, its drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cli.figures import save_drawing, sketched
from gaugestack.cli.shared import finish, leave, pen
from gaugestack.cli.why import show_why, with_why
from gaugestack.lengths import exact_text

if TYPE_CHECKING:
    from gaugestack.angles.flat import Flat
    from gaugestack.angles.sine import SineBar
    from gaugestack.angles.sketch import Geometry
    from gaugestack.angles.taper import Taper
    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.taper import FlatAnswer, TaperAnswer


def show(answer: TaperAnswer | FlatAnswer, *, sketch: bool, svg: str | None, why: bool, json: bool) -> None:
    """Print an answer of `taper`, write its drawing where one is wanted, and leave."""
    from gaugestack.answers.taper import FlatAnswer  # noqa: PLC0415

    if isinstance(answer, FlatAnswer):
        read: Taper | Flat = answer.flat
        sets = [answer.angle]
    else:
        read = answer.taper
        sets = [role.angle for role in answer.roles]
    geometry = _geometry(answer)
    plans = [plan for one in sets for plan in one.stack.plans]
    tilt = max(one.asked.degrees for one in sets)
    save_drawing(svg, geometry, read, **_marks(answer.bar, sets[0]))
    if json:
        from gaugestack.cards import jsonform, taperform  # noqa: PLC0415

        finish(jsonform.text(with_why(taperform.taper_form(answer), plans, tilt, why=why)))
    else:
        from gaugestack.cards.taperscreen import taper_text  # noqa: PLC0415

        finish(taper_text(answer, pen(), sketched(sketch, geometry, read)))
    show_why(plans, tilt, why=why and not json)
    leave(*(one.stack.outcome for one in sets))


def _marks(bar: SineBar, first: AngleAnswer) -> dict[str, str]:
    """Return the values of the letters a bar has in a drawing: L, and h where one stack sets the angle."""
    marks = {"L": exact_text(bar.effective, bar.unit)}
    if first.difference is None:
        marks["h"] = exact_text(first.height, bar.unit)
    return marks


def _geometry(answer: TaperAnswer | FlatAnswer) -> Geometry:
    """Return what is drawn: the cone with both angles, or the one set-up asked for."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.angles.taper import Use  # noqa: PLC0415
    from gaugestack.answers.taper import FlatAnswer  # noqa: PLC0415

    if isinstance(answer, FlatAnswer):
        return Geometry.WEDGE
    uses = [role.use for role in answer.roles]
    if len(uses) > 1:
        return Geometry.CONE
    return Geometry.COMPOUND if uses == [Use.COMPOUND] else Geometry.FLANK_ON_BAR
