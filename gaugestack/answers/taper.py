"""A taper call-out to stacks: the answer of the command `taper`.

>>> answer = taper("3in/ft", bar=find_bar("5in", stock, ()), stock=stock)
>>> [role.use for role in answer.roles]
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.callout import read_taper
from gaugestack.angles.sine import height
from gaugestack.angles.taper import Use, angle_for, short_cut
from gaugestack.answers.angle import AngleAnswer, set_angle
from gaugestack.errors import TextError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.angles.sine import SineBar
    from gaugestack.angles.taper import ShortCut, Taper
    from gaugestack.answers.options import Choice
    from gaugestack.answers.stock import Stock
    from gaugestack.lengths import Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Role:
    """One set-up of a taper: its angle on the bar, and what the short cut would have cost."""

    use: Use
    angle: AngleAnswer
    short_cut: ShortCut | None


@dataclass(frozen=True, slots=True, kw_only=True)
class TaperAnswer:
    """A taper, both its angles and heights, and the stacks of the set-ups asked for.

    `roles` are alternatives: their stacks may share blocks.
    """

    taper: Taper
    bar: SineBar
    half_height: Length
    included_height: Length
    roles: tuple[Role, ...]
    remarks: tuple[str, ...] = ()


def taper(
    call_out: str,
    *,
    bar: SineBar,
    stock: Stock,
    bars: Sequence[SineBar] = (),
    use: Use | None = None,
    choice: Choice | None = None,
) -> TaperAnswer:
    """Return the set-ups of a taper as called out; `use` None answers for both.

    Raises UsageError for a call-out that is none or could mean two tapers.
    """
    try:
        read = read_taper(call_out, bare_unit=stock.unit)
    except TextError as error:
        raise error.named("CALLOUT") from None
    roles = tuple(_role(read, one, bar, stock, bars, choice) for one in ([use] if use else list(Use)))
    return TaperAnswer(
        taper=read,
        bar=bar,
        half_height=height(read.half, bar),
        included_height=height(read.included, bar),
        roles=roles,
        remarks=(read.question,) if read.question else (),
    )


def _role(
    read: Taper, use: Use, bar: SineBar, stock: Stock, bars: Sequence[SineBar], choice: Choice | None
) -> Role:
    """Return one set-up of a taper."""
    answer = set_angle(angle_for(read, use), bar=bar, stock=stock, bars=bars, choice=choice)
    return Role(use=use, angle=answer, short_cut=short_cut(read, bar, use))
