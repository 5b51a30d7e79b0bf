"""An angle and a sine bar to a stack: the answer of the command `angle`.

>>> answer = angle("7d7m30s", bar=find_bar("5in", stock, ()), stock=stock)
>>> answer.achieved, answer.error_arcsec
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text, dms_text, read_angle
from gaugestack.angles.sine import (
    KNOWN_BARS,
    angle_of,
    sensitivity,
    stack_height,
    steep_caution,
)
from gaugestack.answers.difference import Pair, difference_stacks, rolls_are_free, with_difference
from gaugestack.answers.options import Choice, lowest
from gaugestack.answers.stack import StackAnswer, compose_heights
from gaugestack.answers.summary import of_angle
from gaugestack.errors import TextError, UsageError
from gaugestack.lengths import Length, ReadLength, exact_text
from gaugestack.stacks.request import Found, Impossible, WayOut
from gaugestack.stacks.solve import compose

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from fractions import Fraction

    from gaugestack.angles.angle import Angle, ReadAngle
    from gaugestack.angles.sine import Caution, SineBar
    from gaugestack.answers.oneline import Summary
    from gaugestack.answers.stock import Stock
    from gaugestack.stacks.differencerequest import DifferenceFound
    from gaugestack.stacks.request import Built


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleAnswer:
    """A stack that sets a sine bar to an angle, or why there is none.

    `height` is what the stack should be (base height of the plate included),
    `achieved` and `error_arcsec` (achieved minus asked) what it really gives,
    `sensitivity` picometres of height a second of arc, `smallest` the smallest
    angle a single stack of this set sets on this bar.  `known` tells how well
    the angle is known, where the set tells enough.  `difference` holds the two
    stacks of `stack` where they stand under both rolls.
    """

    asked: Angle
    bar: SineBar
    height: Length
    stack: StackAnswer
    achieved: Angle | None
    error_arcsec: Fraction | None
    sensitivity: float
    caution: Caution | None
    smallest: Angle | None
    remarks: tuple[str, ...] = ()
    known: Summary | None = None
    difference: DifferenceFound | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAngle:
    """The angle a stack sets on a bar and its error, achieved minus asked, in arcseconds."""

    achieved: Angle
    error_arcsec: Fraction


def angle(
    text: str,
    *,
    bar: SineBar,
    stock: Stock,
    bars: Sequence[SineBar] = (),
    choice: Choice | None = None,
    difference: bool = False,
) -> AngleAnswer:
    """Return the stack for an angle as typed on a bar; `bars` are others to offer where it fails.

    Raises UsageError for a text that is no angle above 0 and below 90 degrees.
    """
    read = _read(text)
    answer = set_angle(read.angle, bar=bar, stock=stock, bars=bars, choice=choice, difference=difference)
    return replace(answer, remarks=(*bare_said(read), *answer.remarks))


def _read(text: str) -> ReadAngle:
    """Return an angle as typed.  Raises UsageError."""
    try:
        return read_angle(text)
    except TextError as error:
        raise error.named("ANGLE") from None


def bare_said(read: ReadAngle) -> tuple[str, ...]:
    """Say how an angle without a unit was read."""
    return (f"{read.text} read as decimal degrees, {dms_text(read.angle, 2)}",) if read.bare else ()


def set_angle(
    asked: Angle,
    *,
    bar: SineBar,
    stock: Stock,
    bars: Sequence[SineBar] = (),
    choice: Choice | None = None,
    difference: bool = False,
) -> AngleAnswer:
    """Return the stack for an angle on a bar, or two stacks under both rolls.

    Two where `difference` asks for them, and where no single stack does it and
    both rolls are free.
    """
    choice = (choice or Choice()).begun()
    single = compose_heights((laid_under(asked, bar),), stock, choice)
    return on_bar(single, asked, bar=bar, bars=bars, choice=choice, difference=difference)


def laid_under(asked: Angle, bar: SineBar) -> ReadLength:
    """Return the height that sets a bar to an angle."""
    height = stack_height(asked, bar)
    return ReadLength(length=height, unit=bar.unit, bare=False, text=exact_text(height, bar.unit))


def asked_on_bar(text: str, bar: SineBar) -> ReadLength:
    """Return the height that sets a bar to an angle as typed.  Raises UsageError."""
    return laid_under(_read(text).angle, bar)


def on_bar(
    single: StackAnswer,
    asked: Angle,
    *,
    bar: SineBar,
    bars: Sequence[SineBar] = (),
    choice: Choice,
    difference: bool = False,
) -> AngleAnswer:
    """Return what a single stack of the height for an angle sets, or the two stacks in its place."""
    height, stock = single.heights[0].length, single.stock
    pair = _paired(single, bar, choice, difference=difference)
    answer = _with_other_bars(pair.stack, asked, bar, (*bars, *KNOWN_BARS), choice)
    done = _done(answer, pair.found, asked, bar)
    least = lowest(answer.request)
    return AngleAnswer(
        asked=asked,
        bar=bar,
        height=height,
        stack=answer,
        achieved=done.achieved if done else None,
        error_arcsec=done.error_arcsec if done else None,
        sensitivity=sensitivity(asked, bar),
        caution=steep_caution(asked),
        smallest=_smallest(least, bar),
        remarks=answer.remarks,
        known=of_angle(answer.outcome, stock, asked, bar, choice.wear),
        difference=pair.found,
    )


def _paired(single: StackAnswer, bar: SineBar, choice: Choice, *, difference: bool) -> Pair:
    """Return the single stack, or the two of a difference where it is asked for or nothing else does."""
    free, stock = rolls_are_free(bar), single.stock
    if difference and not free:
        sentence = f"bar {bar.name} has one roll to raise: the other side is hinged"
        raise UsageError.about("--difference", sentence)
    if difference:
        return difference_stacks(single, stock, choice)
    return with_difference(single, stock, choice) if free else Pair(stack=single)


def _done(answer: StackAnswer, found: DifferenceFound | None, asked: Angle, bar: SineBar) -> SetAngle | None:
    """Return the angle that is set, by one stack or by the difference of two."""
    if found:
        achieved = angle_of(found.difference, bar)
        return SetAngle(achieved=achieved, error_arcsec=achieved - asked)
    return _set_by(answer.outcome.stacks[0], asked, bar) if isinstance(answer.outcome, Found) else None


def angle_by(built: Built, asked: Angle, bar: SineBar) -> SetAngle | None:
    """Return the angle a stack sets on a bar, or None where the stack is taller than any sine."""
    rise = built.length - bar.base_height
    return _set_by(built, asked, bar) if 0 <= rise <= bar.effective else None


def _set_by(built: Built, asked: Angle, bar: SineBar) -> SetAngle:
    """Return the angle a stack sets on a bar."""
    achieved = angle_of(Length(built.length - bar.base_height), bar)
    return SetAngle(achieved=achieved, error_arcsec=achieved - asked)


def _smallest(least: Length | None, bar: SineBar) -> Angle | None:
    """Return the smallest angle of a single stack, or None where no block is below the bar."""
    if least is None or least - bar.base_height > bar.effective:
        return None
    return angle_of(Length(max(least - bar.base_height, 0)), bar)


def _with_other_bars(
    answer: StackAnswer, asked: Angle, bar: SineBar, bars: Sequence[SineBar], choice: Choice
) -> StackAnswer:
    """Return an impossible answer with the other bars that would do added to its ladder."""
    if not isinstance(answer.outcome, Impossible):
        return answer
    rungs = tuple(_other_bars(answer, asked, bar, bars, choice))
    outcome = replace(answer.outcome, ways_out=(*answer.outcome.ways_out, *rungs))
    return replace(answer, outcome=outcome)


def _other_bars(
    answer: StackAnswer, asked: Angle, bar: SineBar, bars: Sequence[SineBar], choice: Choice
) -> Iterator[WayOut]:
    """Return a rung for each other bar on which the same blocks set the angle."""
    for other in {b.name: b for b in bars if b.effective != bar.effective}.values():
        height = stack_height(asked, other)
        found = compose(replace(answer.request, targets=(height,)), choice.effort)
        if isinstance(found, Found):
            done = _set_by(found.stacks[0], asked, other)
            needs = exact_text(height, other.unit)
            sentence = f"bar {other.name} needs {needs}, error {arcsec_text(done.error_arcsec)}"
            yield WayOut(kind="other bar", sentence=sentence, built=found.stacks[0])
