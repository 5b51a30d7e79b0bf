"""The search behind sequence.py: which stack for each set-up, in which order, wrung how.

    >>> Search(states, setups=6, free=True).run()

Numbers only.  Two steps, both exact:

    1. Without the orders inside the stacks: a table over the sets of set-ups
       still to come, every row the best score of each stack standing first.
       Stacks are bits of long integers, so a row takes few operations.  Two
       stacks save at most what `Bounds` allows them, looked at alone.
    2. A walk from the first set-up to the last that carries all orders the
       present stack may have, with what each has saved; the table cuts what
       cannot reach the score wanted.  The score wanted begins at the table's
       best and comes down until a walk ends: that is the proof.

The score counts WRING for a joint saved, less WRING + 1 for a block more than
the fewest: fewest wrings first, fewest blocks next.  Of equal scores the walk
finds the one whose set-ups, then stacks, then orders come first.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from gaugestack.stacks.sequencegains import WRING, Gains, bits_of, ones
from gaugestack.stacks.sequencejoints import MOST_ORDERED, Joints, joints, orders

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.stacks.sequencegains import State

MOST_NODES = 10_000
"""Steps of all walks together; a job that needs more is left undecided."""

PROBE = 800
"""Steps of a short walk for a good answer once the proof is given up."""

Levels = dict[int, int]
"""Scores and the bits of the states that have them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """The states in their order and the order of pieces in each; `score` saved."""

    states: tuple[int, ...]
    orders: tuple[tuple[int, ...], ...]
    score: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """The best walk known, and the score nothing can beat; equal where it is proven the best."""

    walk: Walk
    bound: int


@dataclass(slots=True, kw_only=True)
class _Step:
    """One step of a walk: its state, for each order of it the score before it, and the order before that."""

    state: int
    scores: dict[tuple[int, ...], int]
    came: dict[tuple[int, ...], tuple[int, ...]] = field(default_factory=dict)


class OutOfNodes(Exception):  # noqa: N818  (no error: the walk has used up its steps)
    """A walk has used up its steps."""


class Search:
    """The search over given states, which are sorted by set-up and then by preference."""

    def __init__(self, states: Sequence[State], setups: int, *, free: bool, nodes: int = MOST_NODES) -> None:
        """Work out what any two states can save; `nodes` limits the walks together."""
        self.states = tuple(states)
        self.setups = setups
        self.free = free
        self.limit = nodes
        self.nodes = 0
        self.all = (1 << setups) - 1
        self.of_setup = [bits_of(i for i, s in enumerate(states) if s.setup == n) for n in range(setups)]
        self.gains = Gains(self.states, self.of_setup)
        self.table: dict[int, Levels] = {}
        self._orders: dict[int, tuple[tuple[tuple[int, ...], Joints], ...]] = {}
        self._failed: set[tuple[int, int, frozenset[tuple[tuple[int, ...], int]]]] = set()

    def run(self) -> Result:
        """Return the best walk and the bound."""
        self._fill()
        bound = max(self.table[self.all])
        wanted, best = bound, None
        while best is None:
            try:
                best = self._best_from(wanted)
            except OutOfNodes:
                walk = self._probed(bound)
                return Result(walk=walk, bound=max(bound, walk.score))
            if best is None:
                bound = wanted - 1
                wanted = self._lower(wanted)
        return Result(walk=best, bound=best.score)

    def straight(self) -> Walk:
        """Return a good walk without proof: at each step what saves most by now and by the table."""
        first = next(ones(_at_least(self.table[self.all], max(self.table[self.all]))))
        path = [_Step(state=first, scores=dict.fromkeys((order for order, _ in self.orders(first)), 0))]
        left = self.all & ~(1 << self.states[first].setup)
        while left:
            path.append(self._best_next(path[-1], left))
            left &= ~(1 << self.states[path[-1].state].setup)
        return self._finished(path)

    def _probed(self, bound: int) -> Walk:
        """Return the best of the straight walk and what short walks find, the highest score first."""
        straight = self.straight()
        wanted = bound if self.limit else straight.score
        while wanted > straight.score:
            self.nodes = max(0, self.limit - PROBE)
            try:
                found = self._walk(wanted)
            except OutOfNodes:
                found = None
            if found:
                return found
            wanted = self._lower(wanted)
        return straight

    def _best_next(self, step: _Step, left: int) -> _Step:
        """Return the best next step among those that promise most."""
        had = max(step.scores.values()) - self.states[step.state].price
        setups = self._after(left)
        promise = max(
            had + gain * WRING + score
            for gain, reached in enumerate(self.gains.at_least[step.state])
            for score, bits in self.table[left].items()
            if reached & bits & setups
        )
        likely = [self._onward(step, state, -promise) for state in ones(self._next(step, left, promise))]
        return max(likely, key=lambda one: max(one.scores.values()) + self.score(left, one.state))

    def _best_from(self, wanted: int) -> Walk | None:
        """Return the best walk of at least the score wanted, or None where there is none."""
        best = self._walk(wanted)
        while best is not None:
            better = self._walk(best.score + 1)
            if better is None:
                return best
            best = better
        return None

    def _lower(self, wanted: int) -> int:
        """Return the next score to want: first all of the same wrings, then of one more."""
        floor = -(-wanted // WRING) * WRING - self.setups
        return floor if wanted > floor else floor - WRING

    def _fill(self) -> None:
        """Fill the table: for each set of set-ups still to come, the best score with each state first."""
        starts = range(self.setups) if self.free else (self.setups - 1,)
        for setup in starts:
            self._put(1 << setup, self.of_setup[setup], 0)
        for come in range(1, self.all + 1) if self.free else self._tails():
            self.table[come] = _settled(self.table[come])
            self._extend(come)

    def _tails(self) -> Iterator[int]:
        """Return the sets of set-ups to come in a fixed order, the shortest first."""
        for count in range(1, self.setups + 1):
            yield self.all ^ ((1 << (self.setups - count)) - 1)

    def _extend(self, come: int) -> None:
        """Put every set-up that may stand before those to come."""
        levels = self.table[come]
        top = max(levels)
        before = self._before(come)
        for score, bits in levels.items():
            for gain, reached in enumerate(self.gains.reached(bits, top - score)):
                self._put_before(come, before, reached, score + gain * WRING)

    def _put_before(self, come: int, before: Sequence[int], reached: int, score: int) -> None:
        """Note a score for the states reached of each set-up that may stand before those to come."""
        for setup in before:
            fitting = reached & self.of_setup[setup]
            if fitting:
                self._put(come | 1 << setup, fitting, score)

    def _before(self, come: int) -> Sequence[int]:
        """Return the set-ups that may stand right before those to come."""
        if self.free:
            return [setup for setup in range(self.setups) if not come >> setup & 1]
        first = (come & -come).bit_length() - 1
        return [first - 1] if first else []

    def _put(self, come: int, bits: int, score: int) -> None:
        """Note a score for states, less what their extra blocks cost."""
        levels = self.table.setdefault(come, {})
        for price, dear in self.gains.dear.items():
            if bits & dear:
                levels[score - price] = levels.get(score - price, 0) | (bits & dear)

    def score(self, come: int, state: int) -> int:
        """Return the best score of the set-ups to come with this state first, by the table."""
        return next(score for score, bits in self.table[come].items() if bits >> state & 1)

    def _walk(self, wanted: int) -> Walk | None:
        """Return the first walk of at least the score wanted, or None."""
        self._failed = set()
        firsts = _at_least(self.table[self.all], wanted)
        for state in ones(firsts):
            step = _Step(state=state, scores=dict.fromkeys((o for o, _ in self.orders(state)), 0))
            found = self._go([step], self.all, wanted)
            if found:
                return found
        return None

    def _go(self, path: list[_Step], come: int, wanted: int) -> Walk | None:
        """Walk on from the last step; `come` holds its set-up and those after it."""
        step = path[-1]
        left = come & ~(1 << self.states[step.state].setup)
        if not left:
            return self._finished(path)
        key = (come, step.state, frozenset((o, s - wanted) for o, s in step.scores.items()))
        if key in self._failed:
            return None
        self.nodes += 1
        if self.nodes > self.limit:
            raise OutOfNodes
        for state in ones(self._next(step, left, wanted)):
            onward = self._onward(step, state, wanted - self.score(left, state))
            found = self._go([*path, onward], left, wanted) if onward.scores else None
            if found:
                return found
        self._failed.add(key)
        return None

    def _next(self, step: _Step, left: int, wanted: int) -> int:
        """Return the bits of the states that may come next if the score wanted is to be reached."""
        had = max(step.scores.values()) - self.states[step.state].price
        bits = 0
        for gain, reached in enumerate(self.gains.at_least[step.state]):
            bits |= reached & _at_least(self.table[left], wanted - had - gain * WRING)
        return bits & self._after(left)

    def _after(self, left: int) -> int:
        """Return the bits of the states that may stand next where these set-ups are left."""
        if self.free:
            return -1
        return self.of_setup[(left & -left).bit_length() - 1]

    def _onward(self, step: _Step, state: int, least: int) -> _Step:
        """Return the step to a state: for each of its orders the best score, if that is `least` or more."""
        price = self.states[step.state].price
        common = set(self.states[step.state].pieces) & set(self.states[state].pieces)
        before: dict[Joints, tuple[int, tuple[int, ...]]] = {}
        for order, made in self.orders(step.state):
            if order in step.scores:
                rank = (step.scores[order] - price, order)
                shared = _within(made, common)
                if shared not in before or _better(rank, before[shared]):
                    before[shared] = rank
        onward = _Step(state=state, scores={})
        reached: dict[Joints, tuple[int, tuple[int, ...]]] = {}
        for order, made in self.orders(state):
            shared = _within(made, common)
            if shared not in reached:
                ranks = [(score + WRING * len(shared & had), came) for had, (score, came) in before.items()]
                reached[shared] = min(ranks, key=lambda rank: (-rank[0], rank[1]))
            score, came = reached[shared]
            if score >= least:
                onward.scores[order], onward.came[order] = score, came
        return onward

    def orders(self, state: int) -> tuple[tuple[tuple[int, ...], Joints], ...]:
        """Return the orders a state may stand in, each with its joints; one only for a tall stack."""
        if state not in self._orders:
            it = self.states[state]
            found = orders(it.pieces, it.thin, it.one_face)
            kept = [next(found)] if len(it.pieces) > MOST_ORDERED else found
            self._orders[state] = tuple((order, joints(order)) for order in kept)
        return self._orders[state]

    def _finished(self, path: Sequence[_Step]) -> Walk:
        """Return the walk of a path that has no set-up left, its orders chosen from the last back."""
        last = path[-1]
        order = min(last.scores, key=lambda one: (-last.scores[one], one))
        score = last.scores[order] - self.states[last.state].price
        chosen = [order]
        for step in reversed(path[1:]):
            order = step.came[order]
            chosen.append(order)
        return Walk(states=tuple(step.state for step in path), orders=tuple(reversed(chosen)), score=score)


def _settled(levels: Levels) -> Levels:
    """Return a row from the best score down, every state at its best."""
    seen, best = 0, {}
    for score in sorted(levels, reverse=True):
        fresh = levels[score] & ~seen
        if fresh:
            best[score] = fresh
            seen |= fresh
    return best


def _at_least(levels: Levels, wanted: int) -> int:
    """Return the bits of all states with at least the score wanted."""
    bits = 0
    for score, held in levels.items():
        if score >= wanted:
            bits |= held
    return bits


def _within(made: Joints, common: set[int]) -> Joints:
    """Return the joints between common pieces."""
    return frozenset(joint for joint in made if joint[0] in common and joint[1] in common)


def _better(one: tuple[int, tuple[int, ...]], other: tuple[int, tuple[int, ...]]) -> bool:
    """Return whether one rank comes first: the higher score, then the earlier order."""
    return (-one[0], one[1]) < (-other[0], other[1])
