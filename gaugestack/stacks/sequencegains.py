"""What any two stacks of a job can save each other, as bits of long integers.

    >>> Gains(states, of_setup).at_least[state][2]      # states that may keep 2 joints with it

Numbers only; an upper bound, because two stacks are looked at alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from gaugestack.stacks.sequencejoints import Bounds

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

WRING = 1024
"""What a joint saved counts; more than there are set-ups."""
NOBODY: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """One stack that would do for one set-up: piece numbers, the thin and the one-faced among them.

    `extra` blocks more than the fewest.
    """

    setup: int
    pieces: tuple[int, ...]
    thin: frozenset[int] = NOBODY
    one_face: frozenset[int] = NOBODY
    extra: int = 0

    @property
    def price(self) -> int:
        """What its extra blocks take from the score."""
        return (WRING + 1) * self.extra

    def counts(self, pieces: Iterable[int]) -> tuple[int, int]:
        """Return how many of the pieces are thick, and thin."""
        flags = [piece in self.thin for piece in pieces]
        return len(flags) - sum(flags), sum(flags)


class Gains:
    """For each state the states that may keep 0, 1, 2 ... joints with it.

    at_least  `[state][gain]`: bits of the states of other set-ups that may keep
              so many joints or more; index 0 holds them all
    dear      price of the extra blocks: bits of the states that pay it
    """

    def __init__(self, states: Sequence[State], of_setup: Sequence[int]) -> None:
        """Look at all pairs."""
        self.states = states
        self._bounds = Bounds()
        self._holding = _holding(states)
        self._alike = _alike(states)
        every = (1 << len(states)) - 1
        self.at_least = [self._of(state, every & ~of_setup[state.setup]) for state in states]
        self.dear: dict[int, int] = {}
        for index, state in enumerate(states):
            self.dear[state.price] = self.dear.get(state.price, 0) | 1 << index

    def most(self, state: int) -> int:
        """Return the most joints this state may keep with any other."""
        return len(self.at_least[state]) - 1

    def reached(self, bits: int, slack: int) -> list[int]:
        """Return by gain the states that some of these reach.

        They stand `slack` below the best score of their row: a gain that does
        not make up for it is left out, since the best reaches every state with
        no gain at all.
        """
        lists = [
            self.at_least[state] for state in ones(bits) if self.most(state) * WRING > slack or not slack
        ]
        found = [0] * max(map(len, lists), default=0)
        for gains in lists:
            for gain, reached in enumerate(gains):
                found[gain] |= reached
        return [reached if gain * WRING > slack or not slack else 0 for gain, reached in enumerate(found)]

    def _of(self, state: State, others: int) -> tuple[int, ...]:
        """Return the bits of the states of other set-ups by the joints they may keep."""
        found = [others]
        for count in range(2, len(state.pieces) + 1):
            for common in combinations(state.pieces, count):
                sharing = self._sharing(state, common, others)
                if sharing:
                    self._note(found, state, common, sharing)
        for gain in range(len(found) - 2, 0, -1):
            found[gain] |= found[gain + 1]
        return tuple(found)

    def _sharing(self, state: State, common: tuple[int, ...], others: int) -> int:
        """Return the states that have exactly these pieces in common with a state."""
        for piece in common:
            others &= self._holding[piece]
        if others:
            for piece in set(state.pieces).difference(common):
                others &= ~self._holding[piece]
        return others

    def _note(self, found: list[int], state: State, common: tuple[int, ...], sharing: int) -> None:
        """Note what the states that share these pieces may keep."""
        both, own = state.counts(common), state.counts(set(state.pieces).difference(common))
        for (thick, thin), bits in self._alike.items():
            if bits & sharing:
                gain = self._bounds.most(both, own, (thick - both[0], thin - both[1]))
                found += [0] * (gain + 1 - len(found))
                found[gain] |= bits & sharing


def worth_a_look(states: Sequence[State], setups: int, *, free: bool) -> list[State]:
    """Return the states without those that the first of their set-up always does as well as.

    A stack of more blocks than the fewest must be able to save more, with one
    neighbour before it and one after, than its extra blocks cost; of the
    stacks that can save nothing the first is enough.  Exact: what is left out
    is in no answer.
    """
    of_setup = [bits_of(i for i, state in enumerate(states) if state.setup == n) for n in range(setups)]
    gains, first = Gains(states, of_setup), {(bits & -bits).bit_length() - 1 for bits in of_setup}
    return [
        state
        for index, state in enumerate(states)
        if index in first
        or _best_pair(gains.at_least[index], _beside(state.setup, of_setup, free)) > state.extra
    ]


def _beside(setup: int, of_setup: Sequence[int], free: bool) -> list[int]:  # noqa: FBT001  (private)
    """Return the bits of each set-up that may stand beside this one."""
    if free:
        return [bits for other, bits in enumerate(of_setup) if other != setup]
    return [of_setup[other] for other in (setup - 1, setup + 1) if 0 <= other < len(of_setup)]


def _best_pair(at_least: Sequence[int], beside: Sequence[int]) -> int:
    """Return the most joints kept with two of the set-ups beside together."""
    most = [max(gain for gain, bits in enumerate((-1, *at_least[1:])) if bits & one) for one in beside]
    return sum(sorted(most)[-2:])


def bits_of(numbers: Iterable[int]) -> int:
    """Return the integer with these bits."""
    bits = 0
    for number in numbers:
        bits |= 1 << number
    return bits


def ones(bits: int) -> Iterator[int]:
    """Return the numbers of the bits that are set, ascending."""
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low


def _holding(states: Sequence[State]) -> dict[int, int]:
    """Return for each piece the states that hold it."""
    found: dict[int, int] = {}
    for index, state in enumerate(states):
        for piece in state.pieces:
            found[piece] = found.get(piece, 0) | 1 << index
    return found


def _alike(states: Sequence[State]) -> dict[tuple[int, int], int]:
    """Return the states by their numbers of thick and thin blocks."""
    found: dict[tuple[int, int], int] = {}
    for index, state in enumerate(states):
        counts = state.counts(state.pieces)
        found[counts] = found.get(counts, 0) | 1 << index
    return found
