"""The whole budget of a stack or of an angle: the answers of `budget stack` and `budget angle`.

    >>> answer = stack_budget(["15.752mm"], stock=stock, wish=Wish())
    >>> answer.known[0].budget.expanded        # nm

Composes as `stack` and `angle` do, on the best known lengths, then tells how
well the result is known, whether a drawing's tolerance is met, and what to
improve first.  On wish it corrects the target for warmth and chooses the stack
by its uncertainty.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from gaugestack.angles.angle import read_angle
from gaugestack.angles.sine import stack_height
from gaugestack.answers.choosing import chosen_by_doubt
from gaugestack.answers.circumstances import BarSaid, Circumstances, doubt_nm
from gaugestack.answers.difference import rolls_are_free, with_difference
from gaugestack.answers.knowing import AngleView, KnownResult, StackView, View, Wanted, known_results
from gaugestack.answers.options import Choice, read_height
from gaugestack.answers.stack import MOST_HEIGHTS, compose_heights
from gaugestack.answers.uncertainty import best_basis, known_of
from gaugestack.errors import TextError, UsageError
from gaugestack.lengths import Length, ReadLength, Unit, exact_text, read_length
from gaugestack.stacks.request import Found
from gaugestack.stacks.wringing import plan
from gaugestack.uncertainty.correction import Warm, corrected_height
from gaugestack.uncertainty.decision import Verdict
from gaugestack.uncertainty.materials import Role, expansion

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.leastdoubt import Search
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.uncertainty.conditions import Conditions


_KEPT = {Unit.INCH: 2540, Unit.MILLIMETRE: 1000}
"""A corrected height is kept to 0.1 µin or 1 nm, in picometres: far below what is known of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What is wanted beside the stack itself, as it was typed.

    drawing     the drawing's tolerance, plus and minus: a length, or an angle for an angle
    over        length over which an angle's uncertainty is told as a taper error
    least       choose the stack of the least uncertainty
    within      choose the fewest blocks whose uncertainty keeps this length (angle for an angle)
    correct     correct the target for what warmth does
    best_basis  take certified lengths where their uncertainty is stated, whatever `Choice.basis` says
    """

    circumstances: Circumstances = field(default_factory=Circumstances)
    bar: BarSaid = field(default_factory=BarSaid)
    drawing: str | None = None
    over: str | None = None
    least: bool = False
    within: str | None = None
    correct: bool = False
    best_basis: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class BudgetAnswer:
    """Stacks, how well each is known, and under which circumstances.

    `asked` are the heights before a correction, `stack.heights` after it.
    `angle` and `bar` are None for plain heights; `known` is empty where there is
    no stack.  `lines` name every circumstance; `search` tells what was looked at
    where the stack was chosen by its uncertainty.
    """

    stack: StackAnswer
    asked: tuple[ReadLength, ...]
    known: tuple[KnownResult, ...]
    lines: tuple[str, ...]
    angle: Angle | None = None
    bar: SineBar | None = None
    search: Search | None = None
    remarks: tuple[str, ...] = ()

    @property
    def verdicts(self) -> tuple[Verdict, ...]:
        """The decisions there are, and a no or cannot tell for an uncertainty limit that is not kept."""
        found = [result.decision.verdict for result in self.known if result.decision]
        if self.search and not self.search.met:
            found.append(Verdict.NO if self.search.proven else Verdict.CANNOT_TELL)
        return tuple(found)


def stack_budget(
    heights: Sequence[str], *, stock: Stock, choice: Choice | None = None, wish: Wish | None = None
) -> BudgetAnswer:
    """Return the stacks for heights as typed and how well each is known.

    Raises UsageError as `stack` does, for circumstances that cannot be, and where
    nothing says how far a block may be off.
    """
    wish = wish or Wish()
    if not 0 < len(heights) <= MOST_HEIGHTS:
        raise UsageError.about("HEIGHT", f"{len(heights)} heights; 1 to {MOST_HEIGHTS} at once")
    asked = tuple(read_height(text, stock) for text in heights)
    conditions = wish.circumstances.conditions()
    view = StackView(conditions=conditions, k=wish.circumstances.coverage_factor())
    wanted = Wanted(
        drawing=None if wish.drawing is None else _plus_and_minus(wish.drawing, stock),
        limit=None if wish.within is None else doubt_nm("--within-uncertainty", wish.within),
        least=wish.least,
    )
    laid = tuple(_corrected(read, stock, conditions) for read in asked) if wish.correct else asked
    answer, search = _composed(laid, (stock, choice or Choice(), wish), view, wanted)
    return BudgetAnswer(
        stack=answer,
        asked=asked,
        known=_known(answer, choice, view, asked, wanted),
        lines=tuple(line for line in conditions.lines(stock.unit) if not line.startswith("bar ")),
        search=search,
        remarks=_remarks(answer, conditions, wish),
    )


def angle_budget(
    text: str, *, bar: SineBar, stock: Stock, choice: Choice | None = None, wish: Wish | None = None
) -> BudgetAnswer:
    """Return the stack for an angle as typed on a bar and how well the angle is known.

    Raises UsageError as `angle` does, and as `stack_budget` does.
    """
    wish = wish or Wish()
    asked = _angle("ANGLE", text)
    conditions, limits = wish.circumstances.conditions(), wish.bar.limits(bar)
    view = AngleView(
        conditions=conditions,
        k=wish.circumstances.coverage_factor(),
        angle=asked,
        bar=bar,
        limits=limits,
        over=_over(wish.over, bar),
    )
    wanted = Wanted(
        drawing=None if wish.drawing is None else _seconds("--drawing-tolerance", wish.drawing),
        limit=None if wish.within is None else _seconds("--within-uncertainty", wish.within),
        least=wish.least,
    )
    height = _read(stack_height(asked, bar), bar)
    laid = _corrected(height, stock, conditions, against_bar=True) if wish.correct else height
    answer, search = _composed((laid,), (stock, choice or Choice(), wish), view, wanted)
    return BudgetAnswer(
        stack=answer,
        asked=(height,),
        known=_known(answer, choice, view, (height,), wanted),
        lines=(
            *(line for line in conditions.lines(bar.unit) if not line.startswith("part ")),
            *limits.lines(bar.unit),
        ),
        angle=asked,
        bar=bar,
        search=search,
        remarks=(*_remarks(answer, conditions, wish), *_about_bar(bar, wish)),
    )


def _about_bar(bar: SineBar, wish: Wish) -> tuple[str, ...]:
    """Return what is believed of the bar where nobody gave its centre distance's limit."""
    if wish.bar.centre is not None:
        return ()
    if bar.error:
        return ("the bar's measured error is used, but nothing says how sure it is: say --bar-limit",)
    return ("nobody measured the bar: its limit is the usual one; say --bar-limit where it is known",)


def _known(
    answer: StackAnswer,
    choice: Choice | None,
    view: View,
    asked: tuple[ReadLength, ...],
    wanted: Wanted,
) -> tuple[KnownResult, ...]:
    """Return how well each stack found is known."""
    if not isinstance(answer.outcome, Found):
        return ()
    known = known_of(answer.stock, choice.wear if choice else None)
    return known_results(answer, known, view, asked, wanted)


def _composed(
    laid: tuple[ReadLength, ...],
    of: tuple[Stock, Choice, Wish],
    view: View,
    wanted: Wanted,
) -> tuple[StackAnswer, Search | None]:
    """Return the stacks, chosen by their uncertainty where that was wished."""
    stock, choice, wish = of
    basis = best_basis(stock) if wish.best_basis else choice.basis
    choice = replace(choice, basis=basis)
    if wanted.least and wanted.limit is not None:
        raise UsageError.about("--least-uncertainty", "beside --within-uncertainty: choose by one of the two")
    answer = compose_heights(laid, stock, choice)
    if isinstance(view, AngleView) and rolls_are_free(view.bar):
        answer = with_difference(answer, stock, choice).stack
    if not (wanted.least or wanted.limit is not None) or not isinstance(answer.outcome, Found):
        return answer, None
    known, first = known_of(stock, choice.wear), answer.outcome.stacks[0]
    search = chosen_by_doubt(answer.request, first, known, view, wanted.limit)
    found = replace(
        answer,
        outcome=Found(stacks=(search.built,)),
        plans=(plan(search.built.blocks, answer.request.end_only),),
    )
    return found, search


def _corrected(
    read: ReadLength, stock: Stock, conditions: Conditions, *, against_bar: bool = False
) -> ReadLength:
    """Return the height to lay so that it is right in these circumstances."""
    if against_bar:
        body, above = expansion(conditions.bar_material, Role.WORK), conditions.bar_above
    else:
        body, above = expansion(conditions.part_material, Role.WORK), conditions.part_above
    own = {given.material: given for given in conditions.block_expansions}
    material = stock.block_set.material
    blocks = own.get(material) or expansion(material, Role.BLOCK)
    length = corrected_height(
        read.length,
        against=Warm(expansion=body, celsius=conditions.room + above),
        blocks=Warm(expansion=blocks, celsius=conditions.room + conditions.blocks_above),
    )
    kept = Length(round(length / _KEPT[read.unit]) * _KEPT[read.unit])
    return replace(read, length=kept, text=exact_text(kept, read.unit))


def _remarks(answer: StackAnswer, conditions: Conditions, wish: Wish) -> tuple[str, ...]:
    """Return what the person should know beyond the stack's own remarks."""
    said = list(answer.remarks)
    used = {block.material for plan_ in answer.plans for block in plan_.stack.blocks}
    material = answer.stock.block_set.material
    if wish.correct and used - {material}:
        said.append(f"corrected as if all blocks were {material}; {', '.join(sorted(used))} stand in it")
    if conditions.room == 20.0 and not conditions.blocks_above and wish.correct:
        said.append(
            "all at 20 \N{DEGREE SIGN}C: there is little to correct; say --temperature, --blocks-above"
        )
    return tuple(said)


def _plus_and_minus(text: str, stock: Stock) -> float:
    """Return a drawing's tolerance in nm.  Raises UsageError."""
    try:
        read = read_length(text, bare_unit=stock.unit)
    except TextError as error:
        raise error.named("--drawing-tolerance") from None
    return read.length / 1000


def _seconds(option: str, text: str) -> float:
    """Return an angle above zero in seconds.  Raises UsageError."""
    try:
        read = read_angle(text)
    except TextError as error:
        raise error.named(option) from None
    if read.bare:
        sentence = f"{read.text} of what: degrees, minutes or seconds?"
        raise UsageError.about(option, sentence, hint="write it like 10s or 0.5m")
    if read.angle.arcseconds <= 0:
        raise UsageError.about(option, "it is above zero", hint="write it like 10s or 0.5m")
    return float(read.angle.arcseconds)


def _angle(argument: str, text: str) -> Angle:
    """Return the angle a text names.  Raises UsageError."""
    try:
        return read_angle(text).angle
    except TextError as error:
        raise error.named(argument) from None


def _over(text: str | None, bar: SineBar) -> Length:
    """Return the length a taper error is told over: the bar's own unless another was given."""
    if text is None:
        return bar.centre_distance
    try:
        return read_length(text, bare_unit=bar.unit).length
    except TextError as error:
        raise error.named("--over") from None


def _read(length: Length, bar: SineBar) -> ReadLength:
    """Return a height as if it had been typed in the bar's unit."""
    return ReadLength(length=length, unit=bar.unit, bare=False, text=exact_text(length, bar.unit))
