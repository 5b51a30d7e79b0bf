"""Every way to deal out the pieces of a small pool, tried one and all.

    >>> enumerated(ask)      # Told: the whole order of preference, or impossible
    >>> nearest(ask)         # {"below": length, "above": length}

Knows no table: it is what the tables are held against too.
"""

from __future__ import annotations

from functools import cache
from itertools import product

import numpy as np

from tests.promise.told import Told, preference


@cache
def deals(pieces, piles):
    """Return every way to deal pieces to piles (1, 2, ...) or to leave them (0), shape (ways, pieces)."""
    ways = list(product(range(piles + 1), repeat=pieces))
    return np.array(ways, dtype=np.int8).reshape(len(ways), pieces)


def enumerated(ask):
    """Return the best answer, or that there is none."""
    dealt, lengths = _allowed(ask)
    off = _off(ask, lengths)
    dealt, off = dealt[(off <= ask.tolerance).all(axis=1)], off[(off <= ask.tolerance).all(axis=1)]
    if not len(dealt):
        return Told(possible=False)
    thin = np.array([piece.thin for piece in ask.pool], dtype=bool)
    uses = np.array([ask.uses(piece) for piece in ask.pool])
    figures = (
        lambda: (dealt > 0).sum(axis=1),
        lambda: off.sum(axis=1),
        lambda: (dealt > 0)[:, thin].sum(axis=1),
        lambda: (dealt > 0) @ uses,
    )
    for figure in figures:
        least = figure() == figure().min()
        dealt, off = dealt[least], off[least]
    return Told(possible=True, best=min(preference(ask, _stacks(ask, row)) for row in dealt))


def nearest(ask):
    """Return the nearest allowed lengths outside the tolerance of one target, on either side."""
    _, lengths = _allowed(ask)
    below = lengths[lengths[:, 0] < ask.targets[0] - ask.tolerance, 0]
    above = lengths[lengths[:, 0] > ask.targets[0] + ask.tolerance, 0]
    sides = {"below": below.max() if len(below) else None, "above": above.min() if len(above) else None}
    return {side: int(length) for side, length in sides.items() if length is not None}


def _allowed(ask):
    """Return every deal that keeps all rules but the tolerance, and the lengths of its stacks."""
    piles = 2 if ask.difference else len(ask.targets)
    dealt = deals(len(ask.pool), piles)
    size = np.array([piece.length(ask.basis) for piece in ask.pool], dtype=np.int64)
    face = np.array([piece.one_face for piece in ask.pool], dtype=bool)
    kept = [n for n, piece in enumerate(ask.pool) if piece in ask.keep]
    good = (dealt[:, kept] > 0).all(axis=1)
    lengths = []
    for pile in range(piles):
        here = dealt == pile + 1
        pair = ask.pair(pile)
        count = here.sum(axis=1) + len(pair)
        ends = np.where(count < 2, 0, 0 if pair else 2)
        good &= (count >= 1) & (here[:, face].sum(axis=1) <= ends)
        good &= count <= (ask.most if ask.most is not None else count.max(initial=0))
        lengths.append(here @ size + ask.length(pair))
    return dealt[good], np.stack(lengths, axis=1)[good]


def _off(ask, lengths):
    """Return how far every answer is off, a column a target."""
    if ask.difference:
        return np.abs(lengths[:, :1] - lengths[:, 1:] - ask.targets[0])
    return np.abs(lengths - np.array(ask.targets, dtype=np.int64))


def _stacks(ask, row):
    """Return the stacks of one deal."""
    piles = 2 if ask.difference else len(ask.targets)
    return [[p for p, at in zip(ask.pool, row, strict=True) if at == pile + 1] for pile in range(piles)]
