"""A measured error to the next stack: the answer of the command `correct`.

    >>> asked = CorrectAsked(rise="0.0004in", span="3in", use=Use.COMPOUND)
    >>> answer = correct("3in/ft", asked=asked, bar=bar, stock=stock)

What was set is an angle, or a taper with the use that says which of its angles.
The old stack is what the set makes for the old height, or the blocks named.
The new one keeps all but one of them where that will do; else it is the best the
set makes.  Signs: positive is too steep, the end over the raised roll high.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle, read_angle
from gaugestack.angles.callout import read_call_out
from gaugestack.angles.correction import below_resolution, error_from_rise, error_on_seat, part_error
from gaugestack.angles.correction import correct as corrected
from gaugestack.angles.flat import Flat, setting_angle
from gaugestack.angles.sine import angle_of
from gaugestack.angles.taper import Taper, Use
from gaugestack.answers.asked import asked_angle, asked_length, spoken_of, wanted
from gaugestack.answers.options import Choice
from gaugestack.answers.stack import compose_heights
from gaugestack.errors import TextError, UsageError
from gaugestack.lengths import Length, ReadLength, exact_text
from gaugestack.stacks.request import Found
from gaugestack.stacks.solve import compose

if TYPE_CHECKING:
    from collections.abc import Sequence
    from fractions import Fraction

    from gaugestack.angles.correction import Correction, PartError, Resolution
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.stacks.request import Built

_LEVEL = "0deg"


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectAsked:
    """What was measured, as typed: one of `error`, `half_error` and `rise` over `span`.

    error       how much too steep the bar is set, an angle
    half_error  how much too steep the part's half angle came out; needs `use`
    rise, span  the indicator's rise over a level travel; `tip` is its lever's angle
    use         which angle of a cone was set
    length      the part's length, to say the error in thousandths
    old_blocks  the sizes that stand on the bench, where they are not the set's best
    """

    error: str | None = None
    half_error: str | None = None
    rise: str | None = None
    span: str | None = None
    tip: str | None = None
    use: Use | None = None
    length: str | None = None
    old_blocks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """Which blocks leave the old stack and which come in."""

    out: tuple[Block, ...]
    into: tuple[Block, ...]

    @property
    def one_block(self) -> bool:
        """Whether one block is changed for one other."""
        return len(self.out) == 1 and len(self.into) == 1

    @property
    def keeps_the_rest(self) -> bool:
        """Whether all but one block of the old stack stay."""
        return len(self.out) <= 1


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectAnswer:
    """The corrected setting and the stack for it.

    `called` is None where an angle was said; `use` is that of a cone.
    `change` is None where one of the stacks is not there.  `achieved` and
    `error_arcsec` are what the new stack sets.
    """

    bar: SineBar
    correction: Correction
    resolution: Resolution
    old: StackAnswer
    new: StackAnswer
    change: Change | None
    achieved: Angle | None
    error_arcsec: Fraction | None
    part: PartError | None = None
    called: Taper | Flat | None = None
    use: Use | None = None

    @property
    def standing(self) -> tuple[Block, ...]:
        """The blocks of the old stack; none where the set does not make it."""
        built = _built(self.old)
        return built.blocks if built else ()

    @property
    def remarks(self) -> tuple[str, ...]:
        """What should be known of the taper and of the new stack."""
        question = self.called.question if isinstance(self.called, Taper) else ""
        return (question, *self.new.remarks) if question else self.new.remarks


def correct(
    text: str, *, asked: CorrectAsked, bar: SineBar, stock: Stock, choice: Choice | None = None
) -> CorrectAnswer:
    """Return the next height and stack for a bar whose error was measured; `text` is an angle or a taper.

    Raises UsageError where the error is not said once, or leaves no angle to
    set; for a cone without a use; for a text that may be an angle or a ratio.
    """
    choice = (choice or Choice()).begun()
    called = _called(text, asked, stock)
    with spoken_of({"use": "--for"}):
        set_angle = asked_angle(text, "ANGLE").angle if called is None else setting_angle(called, asked.use)
    error = _error(asked, stock)
    with spoken_of({"angle": "ANGLE", "error": "--error"}):
        found = corrected(set_angle, error, bar)
    old = _old_stack(_read(found.old_height, bar), asked, stock, choice)
    new = _next_stack(old, _read(found.new_height, bar), stock, choice)
    done = _built(new)
    achieved = angle_of(Length(done.length - bar.base_height), bar) if done else None
    return CorrectAnswer(
        bar=bar,
        correction=found,
        resolution=below_resolution(found.change, step=stock.step, angle=set_angle, bar=bar),
        old=old,
        new=new,
        change=_change(_built(old), done),
        achieved=achieved,
        error_arcsec=achieved - found.new_angle if achieved else None,
        part=_part(asked, set_angle, error),
        called=called,
        use=asked.use if isinstance(called, Taper) else None,
    )


def _called(text: str, asked: CorrectAsked, stock: Stock) -> Taper | Flat | None:
    """Return the taper that was set, None where the text is an angle.

    Raises UsageError where it is neither, or may be both (`1:20` without a use),
    and for what a flat does not have.
    """
    angle = _is_an_angle(text)
    try:
        called = read_call_out(text, bare_unit=stock.unit)
    except TextError as error:
        if angle:
            return None
        raise error.named("ANGLE") from None
    if angle and asked.use is None:
        hint = "write it like 1d20m for the angle; add --for compound or --for inspection for the taper"
        raise UsageError.about("ANGLE", f"{text!r} may be degrees and minutes or a taper", hint=hint)
    if isinstance(called, Flat):
        for option, value in (("--half-error", asked.half_error), ("--part-length", asked.length)):
            if value is not None:
                raise UsageError.about(option, "means nothing for a flat: it has no half angle, no diameter")
    return called


def _is_an_angle(text: str) -> bool:
    """Tell whether a text can be read as an angle."""
    try:
        read_angle(text)
    except TextError:
        return False
    return True


def _error(asked: CorrectAsked, stock: Stock) -> Angle:
    """Return how much too steep the bar is set.  Raises UsageError unless it is said once."""
    given = [name for name in ("error", "half_error", "rise") if getattr(asked, name) is not None]
    if len(given) != 1:
        sentence = "say the error once: --rise with --span, --error or --half-error"
        raise UsageError.about("error", sentence, hint="like --rise 0.0004in --span 3in")
    if asked.error is not None:
        return asked_angle(asked.error, "--error", signed=True).angle
    if asked.half_error is not None:
        half = asked_angle(asked.half_error, "--half-error", signed=True).angle
        return error_on_seat(half.arcseconds, included=_use(asked, "--half-error") is Use.INSPECTION)
    rise = asked_length(asked.rise or "", "--rise", bare_unit=stock.unit, signed=True)
    span_text = wanted("--span", asked.span, "the indicator's travel, like --span 3in")
    span = asked_length(span_text, "--span", bare_unit=stock.unit)
    tip = asked_angle(asked.tip or _LEVEL, "--tip").angle
    with spoken_of({"tip angle": "--tip", "span": "--span"}):
        return error_from_rise(rise.length, span=span.length, tip=tip, unit=span.unit)


def _use(asked: CorrectAsked, option: str) -> Use:
    """Return which angle of the cone was set.  Raises UsageError where it is not said."""
    if asked.use is None:
        sentence = f"which angle was set?  {option} needs it"
        raise UsageError.about("--for", sentence, hint="compound: the half angle; inspection: the included")
    return asked.use


def _part(asked: CorrectAsked, set_angle: Angle, error: Angle) -> PartError | None:
    """Return what the error makes over the part's length, where one is given."""
    if asked.length is None:
        return None
    share = 1 if _use(asked, "--length") is Use.COMPOUND else 2
    half, off = (Angle(arcseconds=one.arcseconds / share) for one in (set_angle, error))
    read = asked_length(asked.length, "--length")
    cone = Taper(call_out="", reading="", half=half)
    return part_error(cone, off, length=read.length, unit=read.unit)


def _read(height: Length, bar: SineBar) -> ReadLength:
    """Return the blocks to lay for a height, base height included, as they are asked of the set."""
    whole = Length(height + bar.base_height)
    return ReadLength(length=whole, unit=bar.unit, bare=False, text=exact_text(whole, bar.unit))


def _old_stack(height: ReadLength, asked: CorrectAsked, stock: Stock, choice: Choice) -> StackAnswer:
    """Return the stack on the bench: the set's best, or the blocks named.

    Raises UsageError where the blocks named are not in the set, or make another height.
    """
    if not asked.old_blocks:
        return compose_heights((height,), stock, choice)
    named = replace(choice, keep=asked.old_blocks, most=len(asked.old_blocks))
    with spoken_of({"--with": "--was"}):
        old = compose_heights((height,), stock, named)
    if _built(old) is None:
        wanted_height = exact_text(height.length, height.unit)
        sentence = f"these blocks alone do not make the old height, {wanted_height}"
        raise UsageError.about("--was", sentence, hint="name every block of the old stack, wear blocks apart")
    return old


def _next_stack(old: StackAnswer, height: ReadLength, stock: Stock, choice: Choice) -> StackAnswer:
    """Return the new stack: the old one, one block changed, one block taken out, or the best there is.

    One block taken out for several is preferred only where that costs at most
    one block more than the best stack.
    """
    plain = compose_heights((height,), stock, choice)
    standing, best = _built(old), _built(plain)
    if standing is None or best is None:
        return plain
    if abs(standing.length - height.length) <= choice.allowed(stock):
        keep, most = _names(_plain(standing.blocks)), len(standing.blocks)
        return compose_heights((height,), stock, replace(choice, keep=keep, most=most))
    for most in (len(standing.blocks), len(best.blocks) + 1):
        allowed = replace(choice, most=most)
        kept = _best_kept(standing, height.length, stock, allowed)
        if kept is not None:
            return compose_heights((height,), stock, replace(allowed, keep=kept))
    return plain


def _best_kept(standing: Built, height: Length, stock: Stock, choice: Choice) -> tuple[str, ...] | None:
    """Return all blocks but one, so that the fewest others get nearest the height; None where none do."""
    best: tuple[tuple[int, int], tuple[str, ...]] | None = None
    for left_out in _plain(standing.blocks):
        keep = _names([block for block in _plain(standing.blocks) if block is not left_out])
        found = compose(replace(choice, keep=keep).request(stock, [height]), choice.effort)
        if not isinstance(found, Found):
            continue
        built = found.stacks[0]
        cost = (len(built.blocks), abs(built.deviation))
        if best is None or cost < best[0]:
            best = (cost, keep)
    return best[1] if best else None


def _plain(blocks: Sequence[Block]) -> list[Block]:
    """Return the blocks of a stack that are no wear blocks."""
    return [block for block in blocks if not block.wear]


def _names(blocks: Sequence[Block]) -> tuple[str, ...]:
    """Return the blocks as `--with` names them."""
    return tuple(f"{block.engraved}#{block.serial}" if block.serial else block.engraved for block in blocks)


def _built(answer: StackAnswer) -> Built | None:
    """Return the one stack found."""
    return answer.outcome.stacks[0] if isinstance(answer.outcome, Found) else None


def _change(old: Built | None, new: Built | None) -> Change | None:
    """Return which blocks go and come."""
    if old is None or new is None:
        return None
    return Change(
        out=tuple(block for block in old.blocks if block not in new.blocks),
        into=tuple(block for block in new.blocks if block not in old.blocks),
    )
