"""The card on the block box: how a set stands, and the stacks a shop uses, from this set.

    >>> card = box_card(stock, BoxWish(angles=("every 30m",), bars=(bar,)))
    >>> card.sections[0].lines[0].plan

Every line is answered for itself from the blocks that are fit today; a height
that cannot be made keeps its line and says so.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle, dms_text, read_angle
from gaugestack.angles.callout import read_call_out
from gaugestack.angles.flat import Flat, setting_angle
from gaugestack.angles.sine import SineBar, stack_height
from gaugestack.angles.taper import Use
from gaugestack.answers.angle import angle_by, laid_under, on_bar
from gaugestack.answers.batch import batch
from gaugestack.answers.difference import rolls_are_free
from gaugestack.answers.fingerprint import fingerprint
from gaugestack.answers.options import Choice
from gaugestack.answers.sets import check
from gaugestack.answers.stack import answer_of
from gaugestack.blocks import Basis
from gaugestack.errors import TextError, UsageError
from gaugestack.inventory.heightsfile import load_heights
from gaugestack.inventory.wishesfile import load_angles, load_call_outs
from gaugestack.stacks.request import Found
from gaugestack.stacks.wringing import plan

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from fractions import Fraction

    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.sets import SetAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.lengths import Length, Unit
    from gaugestack.stacks.request import Built, Outcome
    from gaugestack.stacks.wringing import WringingPlan

MOST_LINES = 4000
EVERY = "every"
STEEPEST = Angle.from_degrees(45)
"""Where a row of angles ends unless told otherwise: above, the complement is set from another face."""
_EVERY = re.compile(r"every\s+(?P<step>\S+)(?:\s+from\s+(?P<low>\S+))?(?:\s+to\s+(?P<high>\S+))?")
_HINT = 'write "every 30m", "every 1d from 5d to 30d", or the name of a file with one angle a line'


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxWish:
    """What stands on a box card beside the set itself.

    `heights` and `tapers` are files; each of `angles` is a file or "every STEP
    [from ANGLE] [to ANGLE]"; angles and tapers are set on each of `bars`.
    """

    heights: str | None = None
    angles: tuple[str, ...] = ()
    tapers: str | None = None
    bars: tuple[SineBar, ...] = ()
    choice: Choice = field(default_factory=Choice)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One line asked for: its kind, what it is called, its height, and the angle where it sets one."""

    kind: str
    label: str
    height: Length
    unit: Unit
    asked: Angle | None = None
    bar: SineBar | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line answered: the stack and its plan, or the sentence why there is none.

    `error_arcsec` is achieved minus asked, where the line sets an angle.
    """

    wanted: Wanted
    built: Built | None = None
    plan: WringingPlan | None = None
    error_arcsec: Fraction | None = None
    sentence: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """Lines of one kind ("heights", "angles", "tapers"), on one bar where they set angles."""

    kind: str
    lines: tuple[Line, ...]
    bar: SineBar | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxCard:
    """The card of one set as it stands; `code` is what `card check` compares."""

    stock: Stock
    shown: SetAnswer
    code: str
    sections: tuple[Section, ...]
    tolerance: Length
    tolerance_said: str
    basis: Basis = Basis.NOMINAL

    @property
    def failing(self) -> int:
        """How many lines cannot be made."""
        return sum(line.built is None for section in self.sections for line in section.lines)


def box_card(stock: Stock, wish: BoxWish, tick: Callable[[], None] | None = None) -> BoxCard:
    """Return the card of a set; `tick` is called after each line.

    Raises UsageError for what cannot be asked, RefusedFile for a file of
    heights, angles or tapers that cannot be read.
    """
    return answer_box(stock, wish, wanted(stock, wish), tick)


def wanted(stock: Stock, wish: BoxWish) -> tuple[tuple[Wanted, ...], ...]:
    """Return the lines of a card before they are answered, one group a section.

    Raises UsageError, RefusedFile.
    """
    groups = tuple(_wanted(stock, wish))
    count = sum(len(group) for group in groups)
    if count > MOST_LINES:
        raise UsageError.about("card", f"{count} lines on one card; at most {MOST_LINES}")
    return groups


def answer_box(
    stock: Stock,
    wish: BoxWish,
    groups: tuple[tuple[Wanted, ...], ...],
    tick: Callable[[], None] | None = None,
) -> BoxCard:
    """Return the card whose lines are these."""
    heights = [one.height for group in groups for one in group]
    outcomes = batch(heights, stock, wish.choice)
    sections = []
    for group in groups:
        lines: list[Line] = []
        for one in group:
            lines += _lines(one, next(outcomes), stock, wish.choice)
            if tick:
                tick()
        sections.append(Section(kind=group[0].kind, bar=group[0].bar, lines=tuple(lines)))
    return BoxCard(
        stock=stock,
        shown=check(stock),
        code=fingerprint(stock),
        sections=tuple(sections),
        tolerance=wish.choice.allowed(stock),
        tolerance_said=wish.choice.tolerance_said(stock),
        basis=wish.choice.basis,
    )


def _wanted(stock: Stock, wish: BoxWish) -> Iterator[tuple[Wanted, ...]]:
    """Return the groups of lines: heights, then angles and tapers for each bar."""
    if (wish.angles or wish.tapers is not None) and not wish.bars:
        raise UsageError.about("--bar", "say which sine bar", hint="like --bar 5in; again for another")
    if wish.heights is not None:
        heights = load_heights(wish.heights, stock.unit)
        yield tuple(
            Wanted(kind="heights", label=_plain(h.text, h.bare, h.unit), height=h.length, unit=h.unit)
            for h in heights
        )
    angles = [angle for text in wish.angles for angle in read_row(text)]
    if angles:
        for bar in wish.bars:
            yield tuple(_on_bar("angles", dms_text(angle, _places(angle)), angle, bar) for angle in angles)
    if wish.tapers is not None:
        call_outs = load_call_outs(wish.tapers, stock.unit)
        for bar in wish.bars:
            yield tuple(one for text in call_outs for one in _taper_lines(text, stock.unit, bar))


def read_row(text: str) -> tuple[Angle, ...]:
    """Return the angles of "every STEP [from ANGLE] [to ANGLE]", or of a file.

    Raises UsageError, also for an angle without `every`; RefusedFile.
    """
    _refuse_lone_step(text)
    match = _EVERY.fullmatch(text.strip())
    step = _step(match["step"]) if match else None
    if match is None or step is None:
        return tuple(read.angle for read in load_angles(text))
    low = _end(match["low"]) if match["low"] else step
    high = _end(match["high"]) if match["high"] else STEEPEST
    if low > high:
        raise UsageError.about("--angles", f"{text!r}: the first angle is above the last", hint=_HINT)
    count = int((high - low) / step.arcseconds) + 1
    if count > MOST_LINES:
        raise UsageError.about("--angles", f"{text!r} makes {count} lines; at most {MOST_LINES}", hint=_HINT)
    return tuple(Angle(arcseconds=low.arcseconds + step.arcseconds * place) for place in range(count))


def _refuse_lone_step(text: str) -> None:
    """Refuse `1:10`, which may be a row in such steps, one angle, or a taper typed at the wrong option."""
    match = _EVERY.fullmatch(f"{EVERY} {text.strip()}")
    step = _step(match["step"]) if match else None
    if match is None or step is None:
        return
    row = f"{EVERY} {_as_typed(step) or match['step']}{text.strip().removeprefix(match['step'])}"
    hint = (
        f'write "{row}" for a row of angles; tapers stand in a file of their own, one a line: --tapers FILE'
    )
    raise UsageError.about("--angles", f"{text!r} is neither a row of angles nor a file", hint=hint)


def _as_typed(angle: Angle) -> str:
    """Return an angle of whole seconds as `1d10m`, no text for any other."""
    if angle.arcseconds.denominator != 1:
        return ""
    minutes, seconds = divmod(int(angle.arcseconds), 60)
    parts = {"d": minutes // 60, "m": minutes % 60, "s": seconds}
    return "".join(f"{count}{mark}" for mark, count in parts.items() if count)


def _step(text: str) -> Angle | None:
    """Return a step of angles, None where the text is none (then it names a file)."""
    try:
        read = read_angle(text)
    except TextError:
        return None
    if not read.angle.arcseconds:
        raise UsageError.about("--angles", "a step of zero", hint=_HINT)
    return read.angle


def _end(text: str) -> Angle:
    """Return one end of a row of angles."""
    try:
        return read_angle(text).angle
    except TextError as error:
        raise error.named("--angles") from None


def _taper_lines(text: str, unit: Unit, bar: SineBar) -> Iterator[Wanted]:
    """Return the set-ups of a call-out: a flat's one angle, a cone's half and included angle."""
    read = read_call_out(text, bare_unit=unit)
    if isinstance(read, Flat):
        yield _on_bar("tapers", text, setting_angle(read, None), bar)
        return
    for use in Use:
        yield _on_bar("tapers", f"{text}, {use.value}", setting_angle(read, use), bar)


def _on_bar(kind: str, label: str, angle: Angle, bar: SineBar) -> Wanted:
    """Return the line of an angle on a bar."""
    height = stack_height(angle, bar)
    return Wanted(kind=kind, label=label, height=height, unit=bar.unit, asked=angle, bar=bar)


def _lines(one: Wanted, outcome: Outcome, stock: Stock, choice: Choice) -> Iterator[Line]:
    """Return a line with its answer, or two where blocks under both rolls do what one stack cannot."""
    if isinstance(outcome, Found):
        built = outcome.stacks[0]
        done = angle_by(built, one.asked, one.bar) if one.asked and one.bar else None
        error = done.error_arcsec if done else None
        yield Line(wanted=one, built=built, plan=plan(built.blocks, stock.end_only), error_arcsec=error)
        return
    two = _under_both(one, outcome, stock, choice.begun())
    if two is None:
        yield Line(wanted=one, sentence=outcome.sentence)
        return
    stacks = two.stack.outcome.stacks if isinstance(two.stack.outcome, Found) else ()
    for built, steps, role in zip(stacks, two.stack.plans, two.stack.roles, strict=True):
        wanted = replace(one, label=f"{one.label} {role}")
        yield Line(wanted=wanted, built=built, plan=steps, error_arcsec=two.error_arcsec)


def _under_both(one: Wanted, outcome: Outcome, stock: Stock, choice: Choice) -> AngleAnswer | None:
    """Return the answer of two stacks under both rolls of a bar; None where there is none.

    `outcome` is that of a single stack: no way out of it is looked for, a card names none.
    """
    if one.asked is None or one.bar is None or not rolls_are_free(one.bar):
        return None
    request = choice.request(stock, [one.height])
    single = answer_of((laid_under(one.asked, one.bar),), request, outcome, stock, choice)
    answer = on_bar(single, one.asked, bar=one.bar, choice=choice)
    return answer if isinstance(answer.stack.outcome, Found) and answer.stack.roles else None


def _plain(text: str, bare: bool, unit: Unit) -> str:  # noqa: FBT001  (a field of what was read)
    """Return a height as it was typed, with its unit."""
    return f"{text} {unit.value}" if bare else text


def _places(angle: Angle) -> int:
    """Return the decimals of a second an angle needs."""
    return 0 if angle.arcseconds.denominator == 1 else 2
