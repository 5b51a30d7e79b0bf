"""Free orders of more set-ups than can be searched to the end: a good chain, and a bound.

    >>> chain_of(states, 30)     # set-ups, each put where it saves most

No proof; `most_saved` says what nothing can beat.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from gaugestack.stacks.sequencegains import Gains, bits_of, ones

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.stacks.sequencegains import State

Saved = list[list[int]]
"""Joints that any two set-ups can keep at most, extra blocks not yet taken off."""


def chain_of(states: Sequence[State], setups: int) -> list[int]:
    """Return an order of the set-ups: each, in the order asked, put in where the chain then saves most."""
    saved = _saved(states, setups)
    chain: list[int] = []
    for setup in range(setups):
        places = [[*chain[:at], setup, *chain[at:]] for at in range(len(chain) + 1)]
        chain = max(places, key=lambda one: _sum(one, saved))
    for _ in range(setups):
        better = max(_moves(chain), key=lambda one: _sum(one, saved))
        if _sum(better, saved) <= _sum(chain, saved):
            break
        chain = better
    return chain


def most_saved(states: Sequence[State], setups: int) -> int:
    """Return what no order saves more than: every set-up but one saves at most its best pair."""
    best = [max(row) for row in _saved(states, setups)]
    return sum(best) - min(best)


def _moves(chain: list[int]) -> list[list[int]]:
    """Return the chain with every part of it turned round."""
    ends = range(len(chain) + 1)
    return [[*chain[:a], *reversed(chain[a:b]), *chain[b:]] for a in ends for b in ends if b > a]


def _sum(chain: list[int], saved: Saved) -> int:
    """Return what a chain saves, pair by pair."""
    return sum(saved[a][b] for a, b in pairwise(chain))


def _saved(states: Sequence[State], setups: int) -> Saved:
    """Return what any two set-ups can save together."""
    of_setup = [bits_of(i for i, state in enumerate(states) if state.setup == n) for n in range(setups)]
    gains = Gains(states, of_setup)
    return [[_most_saved_by(gains, bits, other) for other in of_setup] for bits in of_setup]


def _most_saved_by(gains: Gains, bits: int, other: int) -> int:
    """Return what the states of one set-up save at most with those of another, both given as bits."""
    found = 0
    for index in ones(bits):
        row = gains.at_least[index]
        found = max(found, max((gain for gain, reached in enumerate(row) if reached & other), default=0))
    return found
