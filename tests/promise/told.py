"""What the tables say of a request, and where the program's answer is not what they say.

    told = single(ask, cache)           what the table says
    faults(ask, answer, told)           sentences; none where all is well

`Told` says how far it can speak: the whole order of preference, the count and
the miss, or nothing at all.
"""

from __future__ import annotations

from dataclasses import dataclass

from tests.promise.asks import order


@dataclass(frozen=True, kw_only=True)
class Told:
    """`best` is the preference of the best answer, as far as known: count, miss, thin, uses, sizes, pieces.

    `possible` is None where the table says nothing of it, `best` may be shorter
    than the whole order; `least` is a lower bound of the first of it.
    """

    possible: bool | None = None
    best: tuple[object, ...] = ()
    least: int = 0

    @property
    def speaks(self):
        """How far the table speaks, in a word."""
        if self.possible is None:
            return "bound" if self.least else "silent"
        if not self.possible:
            return "impossible"
        return "order" if len(self.best) > 2 else "count and miss"


@dataclass(frozen=True, kw_only=True)
class Answer:
    """The program's answer in plain values: how it ended, and the pieces of each stack by their names."""

    ended: str
    stacks: tuple[tuple[tuple[object, ...], ...], ...] = ()
    lengths: tuple[int, ...] = ()
    proof: str = ""
    nearest: tuple[tuple[str, int, int | None], ...] = ()
    """Side, length, and the largest number of blocks looked at where that was not the end."""


def preference(ask, stacks):
    """Return the preference of stacks of pieces without their wear pairs: the least is the best."""
    used = [piece for stack in stacks for piece in stack]
    whole = [[*stack, *ask.pair(place)] for place, stack in enumerate(stacks)]
    lengths = [ask.length(stack) for stack in whole]
    if ask.difference:
        miss, low = abs(lengths[0] - lengths[1] - ask.targets[0]), (sum(p.size for p in stacks[1]),)
    else:
        miss, low = sum(abs(n - target) for n, target in zip(lengths, ask.targets, strict=True)), ()
    thin, uses = sum(piece.thin for piece in used), sum(map(ask.uses, used))
    return (len(used), miss, thin, uses, *low, *order(ask, stacks))


def keeps_the_rules(ask, stacks):
    """Return whether stacks (with their wear pairs) keep every rule, by arithmetic of our own."""
    return not list(broken(ask, stacks))


def broken(ask, stacks):
    """Return what is wrong with stacks of pieces, wear pairs outermost."""
    used = [piece.name for stack in stacks for piece in stack]
    fit = {piece.name for piece in ask.pool}
    if len(set(used)) != len(used):
        yield "a piece stands twice"
    lengths = [ask.length(stack) for stack in stacks]
    off = (
        [lengths[0] - lengths[1] - ask.targets[0]]
        if ask.difference
        else [length - target for length, target in zip(lengths, ask.targets, strict=True)]
    )
    if any(abs(one) > ask.tolerance for one in off):
        yield f"the blocks add up to {lengths}, off by {off}"
    if not {piece.name for piece in ask.keep} <= set(used):
        yield "a piece to be kept in is left out"
    for place, stack in enumerate(stacks):
        pair = [piece.name for piece in ask.pair(place)]
        inner = stack[1:-1] if pair else stack
        if pair and {stack[0].name, stack[-1].name} != set(pair):
            yield "the wear pair is not outermost"
        if not {piece.name for piece in inner} <= fit:
            yield "a piece is not fit, or kept out"
        if not stack or (ask.most is not None and len(stack) > ask.most):
            yield f"{len(stack)} blocks in a stack"
        ends = 0 if pair or len(stack) < 2 else 2
        if sum(piece.one_face for piece in inner) > ends:
            yield "a piece with one good face has no end"


def faults(ask, answer, told):
    """Return where the answer is not what arithmetic and table say."""
    if answer.ended == "undecided":
        return
    if answer.ended == "impossible":
        if told.possible:
            yield f"said to be impossible ({answer.proof}); the table makes it: {told.best}"
        return
    known = {piece.name: piece for piece in (*ask.pool, *(p for pair in ask.pairs for p in pair))}
    if not all(name in known for stack in answer.stacks for name in stack):
        yield "a piece that may not be used"
        return
    stacks = [[known[name] for name in stack] for stack in answer.stacks]
    yield from broken(ask, stacks)
    if [ask.length(stack) for stack in stacks] != list(answer.lengths):
        yield f"said lengths {answer.lengths} are not the sums of the blocks"
    got = preference(ask, [stack[1:-1] if ask.pair(n) else stack for n, stack in enumerate(stacks)])
    if told.possible is False:
        yield f"the table shows it impossible, the answer is {got}"
    if got[0] < told.least:
        yield f"{got[0]} blocks, fewer than the table's {told.least}"
    if told.possible and got[: len(told.best)] != told.best:
        yield f"answer {got}, the table says {told.best}"
