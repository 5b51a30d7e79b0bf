"""What the tables say of several heights at once, and of two stacks whose difference counts.

    >>> several(ask, oracle)       # every stack of every height, dealt without a common piece
    >>> difference(ask, combos)    # every sum of up to three pieces against every other

Nominal lengths, plain requests: no blocks with one good face, none kept in.
"""

from __future__ import annotations

from itertools import combinations, product

import numpy as np

from tests.promise.asks import in_order
from tests.promise.told import Told, preference

MOST_STEPS = 60_000
MOST_STACKS = 3000
MOST_DEALT = 12_000_000
LIFTS = 2
"""Blocks above the fewest that are looked at."""


def several(ask, oracle):
    """Return the best stacks of several heights, or a lower bound where there are too many to try."""
    top = max(ask.targets) + ask.tolerance
    table = oracle.table(ask, ask.pool, top)
    if table is None:
        return Told()
    least = []
    for place in range(len(ask.targets)):
        options = _options(ask, table, place)
        if not options:
            return Told(possible=False)
        least.append(min(cost // table.count for cost, _ in options))
    for lift in range(LIFTS + 1):
        dealt = _dealt(ask, table, least, lift)
        if dealt is None:
            return Told(least=sum(least) + lift)
        if dealt:
            return Told(possible=True, best=min(dealt))
    return Told(least=sum(least) + LIFTS + 1)


def _options(ask, table, place):
    """Return cost and height of everything within the tolerance of a target."""
    aim = ask.targets[place] - ask.length(ask.pair(place))
    low, high = -((ask.tolerance - aim) // table.step), (aim + ask.tolerance) // table.step
    room = len(table.pieces) if ask.most is None else ask.most - len(ask.pair(place))
    found = table.costs_of(low, high)
    return [
        (cost, height)
        for cost, height in found
        if cost // table.count <= room and (height or ask.pair(place))
    ]


def _dealt(ask, table, least, lift):
    """Return the preference of the best deals with so many blocks above the fewest; None for too many."""
    best = []
    for shares in product(range(lift + 1), repeat=len(least)):
        if sum(shares) != lift:
            continue
        lists = []
        for place, (count, more) in enumerate(zip(least, shares, strict=True)):
            stacks = _stacks(ask, table, place, count + more)
            if stacks is None:
                return None
            lists.append(stacks)
        some = _apart(ask, table, lists)
        if some is None:
            return None
        best += some
    return best


def _stacks(ask, table, place, count):
    """Return every stack of exactly `count` pieces for a target; None for too many."""
    if ask.most is not None and count + len(ask.pair(place)) > ask.most:
        return []
    found = []
    for _, height in _options(ask, table, place):
        stacks = table.stacks(height, count, MOST_STEPS)
        if stacks is None or len(found) + len(stacks) > MOST_STACKS:
            return None
        found += stacks
    return found


def _apart(ask, table, lists):
    """Return the preference of the best way to take one stack of each list without a common piece."""
    if np.prod([len(one) for one in lists], dtype=float) > MOST_DEALT:
        return None
    if not all(lists):
        return []
    place = {piece.name: n for n, piece in enumerate(table.pieces)}
    marks = [_marks(one, place) for one in lists]
    chosen = np.stack(np.meshgrid(*(np.arange(len(one)) for one in lists), indexing="ij"), -1)
    chosen = chosen.reshape(-1, len(lists))
    for a, b in combinations(range(len(lists)), 2):
        shared = (marks[a][chosen[:, a]] & marks[b][chosen[:, b]]).any(axis=1)
        chosen = chosen[~shared]
    figures = [[_figures(ask, place, stack) for stack in one] for place, one in enumerate(lists)]
    for figure in range(3):
        total = sum(np.array([f[figure] for f in figures[n]])[chosen[:, n]] for n in range(len(lists)))
        chosen = chosen[total == total.min()] if len(chosen) else chosen
    if len(chosen) > MOST_STACKS:
        first = [preference(ask, [s if n == 0 else () for n in range(len(lists))])[-2:] for s in lists[0]]
        keep = min(first[n] for n in set(chosen[:, 0].tolist()))
        chosen = np.array([row for row in chosen if first[row[0]] == keep])
    return [preference(ask, [lists[n][at] for n, at in enumerate(row)]) for row in chosen]


def _figures(ask, place, stack):
    """Return the miss, the thin pieces and the uses of one stack."""
    miss = abs(ask.length([*stack, *ask.pair(place)]) - ask.targets[place])
    return miss, sum(piece.thin for piece in stack), sum(map(ask.uses, stack))


def _marks(stacks, place):
    """Return the pieces of each stack as bits, shape (stacks, 4)."""
    marks = np.zeros((len(stacks), 4), dtype=np.uint64)
    for row, stack in enumerate(stacks):
        for piece in stack:
            word, bit = divmod(place[piece.name], 64)
            marks[row, word] |= np.uint64(1 << bit)
    return marks


class Combos:
    """Every choice of up to three pieces of a pool, by length."""

    def __init__(self, ask):
        self.pieces = in_order(ask, ask.pool)
        size = np.array([piece.length(ask.basis) for piece in self.pieces], dtype=np.int64)
        self.index, self.length = [], []
        for count in range(4):
            rows = list(combinations(range(len(size)), count))
            index = np.array(rows, dtype=np.int16).reshape(len(rows), count)
            length = size[index].sum(axis=1)
            order = np.argsort(length, kind="stable")
            self.index.append(index[order])
            self.length.append(length[order])


def difference(ask, combos):
    """Return the best two stacks of up to four free pieces; otherwise that it takes more."""
    standing = len(ask.pairs) > 0
    for count in range(0 if standing else 2, 5):
        found = []
        for high in range(count + 1):
            low = count - high
            if max(high, low) < 4 and (standing or min(high, low) > 0):
                found += _differences(ask, combos, high, low)
        if standing and count == 4:
            return Told(least=4)
        if found:
            return Told(possible=True, best=min(found))
    return Told(least=5)


def _differences(ask, combos, high, low):
    """Return the preference of the best of these numbers of pieces; both stacks keep the largest count."""
    if ask.most is not None and max(high, low) + 2 * bool(ask.pairs) > ask.most:
        return []
    aim = ask.targets[0] - (ask.length(ask.pair(0)) - ask.length(ask.pair(1)))
    above, below = combos.length[high], combos.length[low]
    first = np.searchsorted(above, below + aim - ask.tolerance)
    times = np.searchsorted(above, below + aim + ask.tolerance, side="right") - first
    b = np.repeat(np.arange(len(below)), times)
    a = np.arange(len(b)) - np.repeat(np.cumsum(times) - times, times) + np.repeat(first, times)
    left, right = combos.index[high][a], combos.index[low][b]
    shared = np.zeros(len(a), dtype=bool)
    for one in range(high):
        for other in range(low):
            shared |= left[:, one] == right[:, other]
    a, b, left, right = a[~shared], b[~shared], left[~shared], right[~shared]
    best = _best(ask, combos, (np.abs(above[a] - below[b] - aim), left, right))
    pieces = combos.pieces
    both = [([pieces[n] for n in left[at]], [pieces[n] for n in right[at]]) for at in best]
    return [min(preference(ask, stacks) for stacks in both)] if both else []


def _best(ask, combos, found):
    """Return the places of the pairs that come first by miss, thin pieces, uses and the low stack."""
    miss, left, right = found
    if not len(miss):
        return ()
    thin = np.array([piece.thin for piece in combos.pieces], dtype=np.int64)
    uses = np.array([ask.uses(piece) for piece in combos.pieces], dtype=np.int64)
    size = np.array([piece.size for piece in combos.pieces], dtype=np.int64)
    both = [figure[left].sum(axis=1) + figure[right].sum(axis=1) for figure in (thin, uses)]
    figures = (miss, *both, size[right].sum(axis=1))
    first = np.lexsort(figures[::-1])[0]
    return np.flatnonzero(np.logical_and.reduce([one == one[first] for one in figures]))
