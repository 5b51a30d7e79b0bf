"""Many targets, each answered for itself, one after the other: blocks sorted out and table built once.

    >>> answers = tuple(stack_each(["0.6202in", "15.752mm"], stock=stock))
    >>> outcomes = tuple(batch(heights, stock, choice))

The stacks are alternatives and may share blocks; every answer is that of the
function for one target alone.  `Heights` and `Angles` hold all that such an
answer depends on, so that several processes can share a list.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

from gaugestack.angles.angle import read_angle
from gaugestack.angles.sine import stack_height
from gaugestack.answers.angle import asked_on_bar, bare_said, laid_under, on_bar
from gaugestack.answers.options import Choice, read_height
from gaugestack.answers.stack import answer_of
from gaugestack.answers.summary import of_stack
from gaugestack.blocks import total
from gaugestack.inventory.targetsfile import Target, Wanted
from gaugestack.lengths import Length, read_length
from gaugestack.stacks import reach
from gaugestack.stacks.explain import explained
from gaugestack.stacks.solve import Composer

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.lengths import ReadLength
    from gaugestack.stacks.reach import Reach
    from gaugestack.stacks.request import Outcome, StackRequest


_NONE = Length(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """A stock and a choice made ready for single targets: the request but for its target, the table."""

    stock: Stock
    choice: Choice
    plain: StackRequest
    table: Reach | None

    def request(self, height: Length) -> StackRequest:
        """Return the request of one height."""
        return replace(self.plain, targets=(height,))

    def within(self, tolerance: str | None) -> Ready:
        """Return the same for one target, its effort begun; another tolerance, as typed, where it has one."""
        if tolerance is None:
            return replace(self, choice=self.choice.begun())
        choice = replace(self.choice, tolerance=tolerance).begun()
        plain = replace(self.plain, tolerance=choice.allowed(self.stock))
        return replace(self, choice=choice, plain=plain)

    def answer(self, read: ReadLength) -> StackAnswer:
        """Return the answer to one height, as `compose_heights` gives it."""
        request = self.request(read.length)
        outcome = explained(request, self.choice.begun().effort, self.table)
        return answer_of((read,), request, outcome, self.stock, self.choice)


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """What single heights are made of; `highest` is the greatest height a table is built for."""

    stock: Stock
    choice: Choice
    highest: Length = _NONE

    @property
    def wanted(self) -> Wanted:
        """What the lines of a list are."""
        return Wanted(word="height", read=self.read, unit=self.stock.unit)

    def read(self, text: str) -> ReadLength:
        """Return a height as typed.  Raises TextError."""
        return read_length(text, bare_unit=self.stock.unit)

    def up_to(self, targets: Sequence[Target]) -> Heights:
        """Return the same, ready for the highest of these targets.  Raises UsageError."""
        tops = (_top(read_height(each.text, self.stock).length, each, self) for each in targets)
        return replace(self, highest=max(tops, default=_NONE))

    def begin(self) -> Callable[[Target], StackAnswer]:
        """Return the function that answers a target.  Raises UsageError for an option that cannot be met."""
        return partial(self._answer, self.made())

    def made(self) -> Ready:
        """Return what all answers share.  Raises UsageError for an option that cannot be met."""
        return ready(self.stock, self.choice, self.highest)

    def _answer(self, made: Ready, target: Target) -> StackAnswer:
        """Return the answer to one target."""
        answer = made.within(target.tolerance).answer(self.read(target.text))
        return replace(answer, known=of_stack(answer.outcome, self.stock, self.choice.wear))


@dataclass(frozen=True, slots=True, kw_only=True)
class Angles:
    """What single angles are set with; `highest` is the greatest height a table is built for."""

    stock: Stock
    choice: Choice
    bar: SineBar
    bars: tuple[SineBar, ...] = ()
    difference: bool = False
    highest: Length = _NONE

    @property
    def wanted(self) -> Wanted:
        """What the lines of a list are."""
        return Wanted(word="angle", read=self.height, unit=self.stock.unit)

    def height(self, text: str) -> Length:
        """Return the height an angle as typed takes.  Raises UsageError."""
        return stack_height(read_angle(text).angle, self.bar)

    def up_to(self, targets: Sequence[Target]) -> Angles:
        """Return the same, ready for the highest of these targets.  Raises UsageError."""
        tops = (_top(asked_on_bar(each.text, self.bar).length, each, self) for each in targets)
        return replace(self, highest=max(tops, default=_NONE))

    def begin(self) -> Callable[[Target], AngleAnswer]:
        """Return the function that answers a target.  Raises UsageError for an option that cannot be met."""
        return partial(self._answer, self.made())

    def made(self) -> Ready:
        """Return what all answers share.  Raises UsageError for an option that cannot be met."""
        return ready(self.stock, self.choice, self.highest)

    def _answer(self, made: Ready, target: Target) -> AngleAnswer:
        """Return the answer to one target."""
        read, mine = read_angle(target.text), made.within(target.tolerance)
        single = mine.answer(laid_under(read.angle, self.bar))
        answer = on_bar(
            single,
            read.angle,
            bar=self.bar,
            bars=self.bars,
            choice=mine.choice,
            difference=self.difference,
        )
        return replace(answer, remarks=(*bare_said(read), *answer.remarks))


def stack_each(
    heights: Iterable[str | Target], *, stock: Stock, choice: Choice | None = None
) -> Iterator[StackAnswer]:
    """Yield the answer to each height by itself, the same that `stack` gives to it alone.

        >>> answers = gaugestack.stack_each(["0.6202in", "15.752mm"], stock=stock)
        >>> [len(answer.plans[0].stack.blocks) for answer in answers]

    A `Target` may have a tolerance of its own.  Raises UsageError, at the
    first answer, for a text that is no height or an option that cannot be met.
    """
    targets = _targets(heights)
    work = Heights(stock=stock, choice=choice or Choice())
    yield from map(work.up_to(targets).begin(), targets)


def angle_each(
    angles: Iterable[str | Target],
    *,
    bar: SineBar,
    stock: Stock,
    bars: Sequence[SineBar] = (),
    choice: Choice | None = None,
    difference: bool = False,
) -> Iterator[AngleAnswer]:
    """Yield the answer to each angle by itself, the same that `angle` gives to it alone; raises likewise."""
    targets = _targets(angles)
    work = Angles(stock=stock, choice=choice or Choice(), bar=bar, bars=tuple(bars), difference=difference)
    yield from map(work.up_to(targets).begin(), targets)


def batch(heights: Sequence[Length], stock: Stock, choice: Choice) -> Iterator[Outcome]:
    """Yield the outcome of each height by itself, unexplained, each composed when it is asked for.

    Raises UsageError for an option that cannot be met.
    """
    if not heights:
        return
    made = ready(stock, choice, max(heights))
    known: dict[Length, Outcome] = {}
    for height in heights:
        if height not in known:
            effort = made.choice.begun().effort
            known[height] = Composer(made.request(height), effort, made.table).outcome()
        yield known[height]


def ready(stock: Stock, choice: Choice, highest: Length) -> Ready:
    """Return a stock made ready for heights up to `highest`.  Raises UsageError, RefusedFile."""
    plain = choice.request(stock, [highest])
    return Ready(stock=stock, choice=choice, plain=plain, table=_table(plain, highest))


def _targets(given: Iterable[str | Target]) -> tuple[Target, ...]:
    """Return targets; a text alone is one."""
    return tuple(Target(text=each) if isinstance(each, str) else each for each in given)


def _top(height: Length, target: Target, work: Heights | Angles) -> Length:
    """Return how high a table must reach for a height and the tolerance of its target."""
    if target.tolerance is None:
        return height
    return Length(height + replace(work.choice, tolerance=target.tolerance).allowed(work.stock))


def _table(request: StackRequest, highest: Length) -> Reach | None:
    """Return the table of the request's free blocks as far as any of its heights can need."""
    free = request.free
    strays = sum(abs(block.deviation or 0) for block in free)
    return reach.table(free, min(highest + request.tolerance + strays, total(free)))
