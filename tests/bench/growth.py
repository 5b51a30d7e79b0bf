"""How the work grows: sets of 81 to 403 blocks, lists of 1 to 100 heights, and many at once.

A list is answered whole, table and wringing plans included; its floor is one
bare CP-SAT model a height that holds the blocks of the answer and nothing else.
"""

from __future__ import annotations

from functools import partial
from random import Random
from typing import TYPE_CHECKING

import numpy as np
from cases import SEED
from nominal import joint_checks
from peers import bare_cp_sat, plain_cp_sat
from rows import Check, Goal, Row, timed
from several import JOINT, ends

from gaugestack.answers.batch import stack_each
from gaugestack.answers.stack import MOST_HEIGHTS
from gaugestack.answers.stock import load
from gaugestack.blocks import grid, in_order
from gaugestack.lengths import Length, Unit, exact_text
from gaugestack.stacks import reach
from gaugestack.stacks.request import Found, StackRequest
from gaugestack.stacks.solve import Composer

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from plan import Plan

    from gaugestack.answers.stack import StackAnswer
    from gaugestack.stacks.request import Outcome

GROWN = {
    "81 blocks": ("inch-81",),
    "122 blocks": ("metric-122",),
    "244 blocks (two sets)": ("metric-122", "metric-122"),
    "403 blocks (four sets)": ("metric-122", "metric-122", "metric-112", "metric-47"),
}
BARE = "floor: a bare CP-SAT model of the answer's own blocks, a height"
TOP_MM = 100
"""Heights up to 100 mm, or the same in inches; at once up to a quarter of that."""
COARSE = {Unit.INCH: 25_400_000, Unit.MILLIMETRE: 10_000_000}
"""0.001 in and 0.01 mm: of finer steps a set has too few blocks for ten stacks at once."""


class Grown:
    """Blocks of one or several sets, and random heights on the grid of the first."""

    def __init__(self, words: str, names: Sequence[str]) -> None:
        """Load the sets."""
        self.words = words
        self.stock = load(names)
        self.pool = in_order(self.stock.fit)
        self.step = grid(self.pool)
        top = TOP_MM * 1_000_000_000
        self.table = reach.table(self.pool, top)

    def coarse(self, count: int) -> list[Length]:
        """Return random heights for stacks at once: short ones, on the step that most blocks have."""
        step = COARSE[self.stock.unit]
        return [Length(-(-height // step) * step) for height in self.heights(count, part=4)]

    def heights(self, count: int, part: int = 1) -> list[Length]:
        """Return random heights from the range without gaps, up to a part of the whole."""
        assert self.table is not None
        last = self.table.top // part
        gaps = np.flatnonzero(self.table.cost[: last + 1] >= self.table.limit)
        first = int(gaps[-1]) + 1 if len(gaps) else 1
        random = Random(f"{SEED} {self.words} {count}")  # noqa: S311  (repeatable, not secret)
        return [Length(random.randint(first, last) * self.step) for _ in range(count)]

    def answers(self, heights: Sequence[Length]) -> list[StackAnswer]:
        """Return the whole answers of a list."""
        texts = [exact_text(height, self.stock.unit) for height in heights]
        return list(stack_each(texts, stock=self.stock))

    def at_once(self, heights: Sequence[Length]) -> Outcome:
        """Return stacks of different blocks for all heights."""
        return Composer(
            StackRequest(targets=tuple(heights), tolerance=Length(0), pool=self.pool), table=self.table
        ).outcome()

    def chosen(self, outcome: Outcome) -> tuple[tuple[int, ...], ...] | None:
        """Return the numbers of the blocks of each stack, of equal ones the first; None without a stack."""
        if not isinstance(outcome, Found):
            return None
        sizes = [block.nominal for block in self.pool]
        return tuple(tuple(sorted(sizes.index(b.nominal) for b in built.blocks)) for built in outcome)

    def fewest(self, heights: Sequence[Length]) -> int:
        """Return how many blocks the heights take at least, each from the whole set."""
        assert self.table is not None
        return sum(self.table.count(height // self.step) or 0 for height in heights)


def growth_rows(plan: Plan) -> Iterator[Row]:
    """Return the rows of every size that is in the plan."""
    for words, names in list(GROWN.items())[: plan.sizes]:
        grown = Grown(words, names)
        grown.answers(grown.heights(1))
        yield _beside_plain(grown, plan)
        for number in plan.lists:
            yield _list_row(grown, number, plan.repeats)
        for number in plan.at_once:
            yield _at_once_row(grown, number, plan)


def _beside_plain(grown: Grown, plan: Plan) -> Row:
    """Return the row of one height beside the plain model."""
    heights = grown.heights(plan.joint)
    sizes = [block.nominal // grown.step for block in grown.pool]
    thin = [block.thin for block in grown.pool]
    runs = [timed(partial(grown.answers, [height])) for height in heights]
    ours = tuple(seconds for seconds, _ in runs)
    beside = [
        timed(partial(plain_cp_sat, sizes, thin, [height // grown.step], plan.plain_limit))
        for height in heights[: plan.joint // 3]
    ]
    answers = [answer for _, answer in beside]
    pairs = [(a, answer[0].outcome) for a, (_, answer) in zip(answers, runs, strict=False) if a.counted]
    agreed = sum(isinstance(o, Found) and len(o.stacks[0].blocks) == len(a.stacks[0]) for a, o in pairs)
    return Row(
        figure=f"list of 1, {grown.words}",
        beside="plain CP-SAT model, 1 worker, all stages",
        goal=Goal(aim=10, fails=1),
        ours=ours,
        same=ours[: len(beside)],
        peer=tuple(seconds for seconds, _ in beside),
        checks=(Check(what="same count", compared=len(pairs), agreed=agreed),),
    )


def _list_row(grown: Grown, number: int, repeats: int) -> Row:
    """Return the row of lists of so many heights, each list timed whole."""
    drawn = grown.heights(number * repeats)
    lists = [drawn[start : start + number] for start in range(0, len(drawn), number)]
    turns = [(mine, timed(partial(_bare, mine[1]))[0]) for mine in map(partial(_answered, grown), lists)]
    ours = tuple(seconds for (seconds, _), _ in turns)
    answers = [answer for (_, found), _ in turns for answer in found]
    found = sum(isinstance(answer.outcome, Found) for answer in answers)
    return Row(
        figure=f"list of {number}, {grown.words}",
        beside=BARE,
        goal=Goal(aim=10, fails=100, floor=True),
        ours=ours,
        same=ours,
        peer=tuple(theirs for _, theirs in turns),
        checks=(Check(what="made", compared=len(drawn), agreed=found),),
        note=f"{len(drawn) / sum(ours):.0f} heights/s on one core",
    )


def _answered(grown: Grown, heights: Sequence[Length]) -> tuple[float, list[StackAnswer]]:
    """Return how long a list took, and its answers."""
    return timed(partial(grown.answers, heights))


def _bare(answers: Sequence[StackAnswer]) -> None:
    """Let the bare solver find each answer among its own blocks."""
    for answer in answers:
        if isinstance(answer.outcome, Found):
            built = answer.outcome.stacks[0]
            bare_cp_sat([block.nominal for block in built.blocks], built.target)


def _at_once_row(grown: Grown, number: int, plan: Plan) -> Row:
    """Return the row of so many heights at once, of different blocks; no figures where that cannot be."""
    heights = grown.coarse(number)
    figure = f"{number} heights at once, {grown.words}, every 0.001 in or 0.01 mm"
    row = {"figure": figure, "beside": JOINT, "goal": Goal(aim=5, fails=0.5)}
    least, there = grown.fewest(heights), len(grown.pool)
    if least > there:
        return Row(**row, missing=f"cannot be: they take at least {least} blocks")
    if number > MOST_HEIGHTS:
        said = f"not asked: at most {MOST_HEIGHTS} at once; these take at least {least} of {there} blocks"
        return Row(**row, missing=said)
    seconds, outcome = timed(partial(grown.at_once, heights))
    sizes = [block.nominal // grown.step for block in grown.pool]
    thin = [block.thin for block in grown.pool]
    steps = [height // grown.step for height in heights]
    beside, answer = timed(partial(plain_cp_sat, sizes, thin, steps, plan.joint_limit))
    return Row(
        **row,
        ours=(seconds,),
        same=(seconds,),
        peer=(beside,),
        checks=joint_checks([answer], [grown.chosen(outcome)])[1:],
        note=f"{ends([outcome])}; at least {least} of {there} blocks",
    )
