"""A sine bar lying on the part: two stacks that reach its rolls, or the angle from both.

>>> answer = bar_on_part("1:10", asked=OnPartAsked(low_stack="1in"), bar=bar, stock=stock)

The part lies on the plate, the bar on its top flank; only the difference of
the two stacks counts, the lower one is whatever reaches the lower roll.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle
from gaugestack.angles.plates import Seat, bar_setting
from gaugestack.angles.sine import angle_of
from gaugestack.answers.asked import asked_cone, asked_length, spoken_of, wanted
from gaugestack.answers.measured import Judging, measured
from gaugestack.answers.options import Choice
from gaugestack.answers.stack import compose_heights, lengths_of
from gaugestack.errors import UsageError, nearest
from gaugestack.lengths import Length, ReadLength, exact_text

if TYPE_CHECKING:
    from gaugestack.angles.sine import SineBar
    from gaugestack.angles.taper import Taper
    from gaugestack.answers.measured import Measured
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock

ON_PART = {"flank": Seat.BAR_ON_FLANK, "axis": Seat.BAR_ABOVE_AXIS}


@dataclass(frozen=True, slots=True, kw_only=True)
class OnPartAsked:
    """What was typed: how the part lies, the lower stack, or both heights as measured."""

    lies: str = "flank"
    low_stack: str | None = None
    heights: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OnPartAnswer:
    """The two heights under the rolls, their stacks, and the cone where it was measured.

    `angle` is what the bar stands at, `achieved` what the two stacks set.
    """

    taper: Taper | None
    bar: SineBar
    seat: Seat
    angle: Angle
    low: Length
    high: Length
    stack: StackAnswer | None = None
    achieved: Angle | None = None
    measured: Measured | None = None

    @property
    def rise(self) -> Length:
        """How much higher one roll stands than the other."""
        return Length(self.high - self.low)


def bar_on_part(
    call_out: str | None,
    *,
    asked: OnPartAsked,
    bar: SineBar,
    stock: Stock,
    choice: Choice | None = None,
    judging: Judging | None = None,
) -> OnPartAnswer:
    """Return two stacks for the rolls of a bar on a part; from both heights, the cone.

    Raises UsageError where a height is missing or the heights do not rise.
    """
    if asked.lies not in ON_PART:
        raise UsageError.about("--lies", f"{asked.lies!r} is no seat", hint=nearest(asked.lies, ON_PART))
    seat = ON_PART[asked.lies]
    taper = None if call_out is None else asked_cone(call_out, bare_unit=stock.unit)
    if asked.heights is not None:
        return _from_heights(taper, seat, asked.heights, bar, stock, judging or Judging())
    if taper is None:
        raise UsageError.about("CALLOUT", "is wanted, or --heights H1 H2 that were measured")
    return _expected(taper, seat, asked, bar, stock, choice or Choice())


def _expected(
    taper: Taper, seat: Seat, asked: OnPartAsked, bar: SineBar, stock: Stock, choice: Choice
) -> OnPartAnswer:
    """Return both stacks, composed at once from one set."""
    hint = "the stack that reaches the lower roll, like --low-stack 1in"
    text = wanted("--low-stack", asked.low_stack, hint)
    low = asked_length(text, "--low-stack", bare_unit=stock.unit)
    setting = bar_setting(taper, bar, seat)
    high = Length(low.length + setting.rise)
    read = ReadLength(length=high, unit=bar.unit, bare=False, text=exact_text(high, bar.unit))
    stack = compose_heights((low, read), stock, choice)
    found = lengths_of(stack)
    return OnPartAnswer(
        taper=taper,
        bar=bar,
        seat=seat,
        angle=setting.angle,
        low=low.length,
        high=high,
        stack=stack,
        achieved=angle_of(Length(found[1] - found[0]), bar) if found else None,
    )


def _from_heights(
    taper: Taper | None, seat: Seat, heights: tuple[str, str], bar: SineBar, stock: Stock, judging: Judging
) -> OnPartAnswer:
    """Return the cone that two heights under the rolls say."""
    low, high = (asked_length(text, "--heights", bare_unit=stock.unit) for text in heights)
    if low.length >= high.length:
        below = exact_text(low.length - high.length, low.unit)
        same = low.length == high.length
        sentence = "both heights are the same: no taper" if same else f"the second is {below} below the first"
        raise UsageError.about("--heights", sentence)
    with spoken_of({"height": "--heights"}):
        angle = angle_of(Length(high.length - low.length), bar)
    half = Angle(arcseconds=angle.arcseconds / 2) if seat is Seat.BAR_ON_FLANK else angle
    return OnPartAnswer(
        taper=taper,
        bar=bar,
        seat=seat,
        angle=angle,
        low=low.length,
        high=high.length,
        measured=measured(half, taper, judging, low.unit),
    )
