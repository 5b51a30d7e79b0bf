"""A cone over two rolls, a bore over two balls, an angle over two discs: both ways.

>>> asked = RollsAsked(end_diameter="0.778in", roll="0.25in", stack="2in")
>>> answer = rolls("morse 3", asked=asked, stock=stock)

Where blocks are needed at once (two equal stacks) they come from one set, no
block twice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.readings_rolls import (
    OverRolls,
    Stands,
    end_diameter_of_rolls,
    half_of_rolls,
    over_rolls,
)
from gaugestack.answers.asked import asked_cone, asked_length, kept, spoken_of, wanted
from gaugestack.answers.measured import Judging, measured
from gaugestack.answers.options import Choice
from gaugestack.answers.stack import compose_heights, lengths_of
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, exact_text

if TYPE_CHECKING:
    from gaugestack.angles.taper import Taper
    from gaugestack.answers.measured import Measured
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.lengths import ReadLength, Unit

ON_THE_PLATE = Length(0)
_NAMES = {"high stack": "--stack", "low stack": "--low-stack", "over rolls": "--readings", "roll": "--roll"}


@dataclass(frozen=True, slots=True, kw_only=True)
class RollsAsked:
    """What was typed about the rolls.

    end_diameter  of the plug at the plate
    roll          diameter of each of the two equal rolls
    stack         height of the two equal stacks
    low_stack     height of the lower pair, 0 or None for the plate
    large_down    the large end stands on the plate
    readings      the sizes over the rolls, the low pair's first, where they were measured
    """

    end_diameter: str | None = None
    roll: str | None = None
    stack: str = ""
    low_stack: str | None = None
    large_down: bool = False
    readings: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RollsAnswer:
    """What to expect over the rolls and the stacks under them, or what the readings say.

    `low` and `high` are the sizes over the rolls, at the heights really laid;
    `pairs` holds one answer of two equal stacks a height, the high one first.
    """

    taper: Taper | None
    stands: Stands
    unit: Unit
    over: OverRolls
    roll: Length | None
    end_diameter: Length | None
    pairs: tuple[StackAnswer, ...] = ()
    measured: Measured | None = None
    remarks: tuple[str, ...] = ()


def rolls(
    call_out: str | None,
    *,
    asked: RollsAsked,
    stock: Stock,
    choice: Choice | None = None,
    judging: Judging | None = None,
) -> RollsAnswer:
    """Return the sizes over two rolls and two equal stacks for them; from readings, the cone.

    Raises UsageError for rolls that cannot lie so, and says by how much.
    """
    taper = None if call_out is None else asked_cone(call_out, bare_unit=stock.unit)
    high = _length(asked.stack or None, "--stack", stock, "like --stack 2in")
    low = _low_stack(asked, stock)
    _refuse_order(low, high)
    if asked.readings is not None:
        return _from_readings(taper, asked, (low, high), stock, judging or Judging())
    if taper is None:
        raise UsageError.about("CALLOUT", "is wanted, or --readings M1 M2 that were measured")
    return _expected(taper, asked, (low, high), stock, (choice or Choice()).begun())


def _expected(
    taper: Taper, asked: RollsAsked, heights: tuple[Length, ReadLength], stock: Stock, choice: Choice
) -> RollsAnswer:
    """Return the sizes to expect, the stacks under the rolls first."""
    end = _length(asked.end_diameter, "--end-diameter", stock, "the plug's diameter at the plate")
    roll = _length(asked.roll, "--roll", stock, "the diameter of each roll")
    low, high = heights
    pairs = [compose_heights((high, high), stock, choice)]
    if low:
        pairs.append(compose_heights((_same(low, high), _same(low, high)), stock, choice))
    laid_high = _laid(pairs[0], high.length)
    laid_low = _laid(pairs[1], low) if low else ON_THE_PLATE
    stands, unit = _stands(asked), end.unit
    sizes = [over_rolls(taper, end.length, roll.length, h, stands=stands) for h in (laid_low, laid_high)]
    over = OverRolls(
        low=kept(sizes[0], unit), high=kept(sizes[1], unit), low_stack=laid_low, high_stack=laid_high
    )
    return RollsAnswer(
        taper=taper,
        stands=stands,
        unit=unit,
        over=over,
        roll=roll.length,
        end_diameter=end.length,
        pairs=tuple(pairs),
        remarks=tuple(_unequal(pairs, unit)),
    )


def _from_readings(
    taper: Taper | None,
    asked: RollsAsked,
    heights: tuple[Length, ReadLength],
    stock: Stock,
    judging: Judging,
) -> RollsAnswer:
    """Return the cone two measured sizes say, and its end diameter where the roll is known."""
    first, second = (
        asked_length(text, "--readings", bare_unit=stock.unit) for text in asked.readings or ("", "")
    )
    low, high = heights
    stands, unit = _stands(asked), first.unit
    over = OverRolls(low=first.length, high=second.length, low_stack=low, high_stack=high.length)
    roll = None if asked.roll is None else asked_length(asked.roll, "--roll", bare_unit=stock.unit).length
    with spoken_of(_NAMES):
        half = half_of_rolls(over, stands=stands, unit=unit)
        end = (
            None
            if roll is None
            else end_diameter_of_rolls(first.length, half, roll, low, stands=stands, unit=unit)
        )
    return RollsAnswer(
        taper=taper,
        stands=stands,
        unit=unit,
        over=over,
        roll=roll,
        end_diameter=None if end is None else kept(end, unit),
        measured=measured(half, taper, judging, unit),
    )


def _stands(asked: RollsAsked) -> Stands:
    """Return which end stands on the plate."""
    return Stands.LARGE_END_DOWN if asked.large_down else Stands.SMALL_END_DOWN


def _length(text: str | None, option: str, stock: Stock, hint: str) -> ReadLength:
    """Return a length that must be there."""
    return asked_length(wanted(option, text, hint), option, bare_unit=stock.unit)


def _low_stack(asked: RollsAsked, stock: Stock) -> Length:
    """Return the height of the lower pair, 0 for the plate."""
    if asked.low_stack is None:
        return ON_THE_PLATE
    return asked_length(asked.low_stack, "--low-stack", bare_unit=stock.unit, signed=True).length


def _refuse_order(low: Length, high: ReadLength) -> None:
    """Refuse a low pair that is below the plate or not below the high one."""
    if low < 0:
        raise UsageError.about("--low-stack", f"{exact_text(low, high.unit)} is below the plate")
    if low >= high.length:
        over = exact_text(low - high.length, high.unit)
        sentence = f"the low stacks are {over} above the high ones"
        raise UsageError.about("--low-stack", sentence if low > high.length else "both pairs are one height")


def _same(low: Length, high: ReadLength) -> ReadLength:
    """Return the low height as it is asked of the set."""
    return type(high)(length=low, unit=high.unit, bare=False, text=exact_text(low, high.unit))


def _laid(pair: StackAnswer, asked: Length) -> Length:
    """Return the mean height of the two stacks, which counts; what was asked where there are none."""
    found = lengths_of(pair)
    return Length(round(sum(found) / 2)) if found else asked


def _unequal(pairs: list[StackAnswer], unit: Unit) -> list[str]:
    """Say where the two stacks of a pair differ."""
    said = []
    for pair in pairs:
        found = lengths_of(pair)
        if found and found[0] != found[1]:
            apart = exact_text(abs(found[0] - found[1]), unit)
            said.append(f"the two stacks differ by {apart}: their mean counts in the size over the rolls")
    return said
