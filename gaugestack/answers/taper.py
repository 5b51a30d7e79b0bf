"""A taper call-out to stacks: the answer of the command `taper`.

>>> answer = taper("3in/ft", bar=find_bar("5in", stock, ()), stock=stock)
>>> [role.use for role in answer.roles]

A cone answers with both its angles, a flat wedge with its only one.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle
from gaugestack.angles.callout import read_call_out
from gaugestack.angles.fit import fit
from gaugestack.angles.flat import Flat, setting_angle
from gaugestack.angles.published import find_published, looks_like_a_name
from gaugestack.angles.published_step import table_step_error
from gaugestack.angles.sine import height
from gaugestack.angles.taper import Use, short_cut
from gaugestack.answers.angle import AngleAnswer, set_angle
from gaugestack.answers.options import Choice
from gaugestack.errors import TextError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.angles.fit import Fit
    from gaugestack.angles.published import Published
    from gaugestack.angles.published_step import TableStep
    from gaugestack.angles.sine import SineBar
    from gaugestack.angles.taper import ShortCut, Taper
    from gaugestack.answers.stock import Stock
    from gaugestack.lengths import Length

TABLE_STEP = Angle(arcseconds=Fraction(600))
"""The step of a book that prints angles to ten minutes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Role:
    """One set-up of a taper: its angle on the bar, and what the short cut would have cost.

    `table` is what a book with ten-minute steps would print for the angle.
    """

    use: Use
    angle: AngleAnswer
    short_cut: ShortCut | None
    table: TableStep


@dataclass(frozen=True, slots=True, kw_only=True)
class TaperAnswer:
    """A taper, both its angles and heights, and the stacks of the set-ups asked for.

    `roles` are alternatives: their stacks may share blocks.  `published` is
    the standard taper a name stands for, `fit` what is said about its holding.
    """

    taper: Taper
    bar: SineBar
    half_height: Length
    included_height: Length
    roles: tuple[Role, ...]
    fit: Fit
    published: Published | None = None
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatAnswer:
    """A flat wedge and the stack that sets its one angle."""

    flat: Flat
    bar: SineBar
    angle: AngleAnswer
    table: TableStep
    remarks: tuple[str, ...] = ()


def taper(
    call_out: str,
    *,
    bar: SineBar,
    stock: Stock,
    bars: Sequence[SineBar] = (),
    use: Use | None = None,
    choice: Choice | None = None,
) -> TaperAnswer | FlatAnswer:
    """Return the set-ups of a taper as called out; `use` None answers for both of a cone.

    A call-out that begins with `flat` answers with its one angle.

    Raises UsageError for a call-out that is none or could mean two tapers, and
    for a flat with a use.
    """
    try:
        read = read_call_out(call_out, bare_unit=stock.unit)
    except TextError as error:
        raise error.named("CALLOUT") from None
    if isinstance(read, Flat):
        asked = setting_angle(read, use)
        answer = set_angle(asked, bar=bar, stock=stock, bars=bars, choice=choice)
        return FlatAnswer(flat=read, bar=bar, angle=answer, table=table_step_error(asked, TABLE_STEP))
    choice = (choice or Choice()).begun()
    published = find_published(call_out) if looks_like_a_name(call_out) else None
    roles = tuple(_role(read, one, bar, stock, bars, choice) for one in ([use] if use else list(Use)))
    return TaperAnswer(
        taper=read,
        bar=bar,
        half_height=height(read.half, bar),
        included_height=height(read.included, bar),
        roles=roles,
        fit=fit(read, published=published),
        published=published,
        remarks=(read.question,) if read.question else (),
    )


def _role(
    read: Taper, use: Use, bar: SineBar, stock: Stock, bars: Sequence[SineBar], choice: Choice | None
) -> Role:
    """Return one set-up of a taper."""
    asked = setting_angle(read, use)
    return Role(
        use=use,
        angle=set_angle(asked, bar=bar, stock=stock, bars=bars, choice=choice),
        short_cut=short_cut(read, bar, use),
        table=table_step_error(asked, TABLE_STEP),
    )
