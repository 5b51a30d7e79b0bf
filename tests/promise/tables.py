"""The independent tables: what the pieces make, found in another way than the program finds it.

    Prefixes    nominal sizes: a plain dynamic programme with one row for every prefix
                of the pieces, so that the best stack itself can be read off, block by block
    Layers      certified lengths: for each number of pieces one long number, a bit a
                length on the certificate's own grid
    Counts      nominal sizes over the whole range: the fewest pieces a height

All take sizes as whole numbers of a step, and pieces from the one preferred most.
"""

from __future__ import annotations

from functools import reduce
from math import gcd

import numpy as np

NEVER = 60_000
COUNT = 128
"""What a piece costs; a thin one costs one more."""
WIDE_NEVER, WIDE_COUNT, WIDE_THIN = 2**30, 2**22, 2**15
"""The same with uses, each of which costs one."""
MOST_CELLS = 40_000_000


class Prefixes:
    """The least cost of every height from the last j pieces, for every j.

    `rows[j][h]`; a height beyond a row cannot be made.  The cost counts
    pieces, then thin ones, then uses where they are counted.
    """

    def __init__(self, pieces, step, top, uses=None):
        self.pieces, self.step = tuple(pieces), step
        self.wide = uses is not None
        self.never = WIDE_NEVER if self.wide else NEVER
        count, thin = (WIDE_COUNT, WIDE_THIN) if self.wide else (COUNT, 1)
        self.sizes = [piece.size // step for piece in self.pieces]
        self.costs = [count + thin * p.thin + (uses(p) if uses else 0) for p in self.pieces]
        self.count = count
        kind = np.int32 if self.wide else np.uint16
        row = np.zeros(1, dtype=kind)
        self.rows = [row]
        for size, cost in zip(reversed(self.sizes), reversed(self.costs), strict=True):
            longer = np.full(min(top, len(row) - 1 + size) + 1, self.never, dtype=kind)
            longer[: len(row)] = row
            if size < len(longer):
                taken = longer[size:]
                part = row[: len(taken)]
                np.minimum(taken[: len(part)], part + kind(cost), out=taken[: len(part)])
            row = longer
            self.rows.append(row)

    def cost(self, height, last=None):
        """Return the least cost of a height from the last pieces (all of them by default), or None."""
        row = self.rows[len(self.pieces) if last is None else last]
        if not 0 <= height < len(row) or row[height] >= self.never:
            return None
        return int(row[height])

    def costs_of(self, low, high):
        """Return (cost, height) of every height from low to high that can be made."""
        row = self.rows[-1]
        low, high = max(low, 0), min(high, len(row) - 1)
        part = row[low : high + 1] if low <= high else row[:0]
        return [(int(part[n]), low + int(n)) for n in np.flatnonzero(part < self.never)]

    def stack(self, height):
        """Return the pieces of the least cost for a height, of which the largest blocks come first."""
        cost, chosen = self.cost(height), []
        for place, piece in enumerate(self.pieces):
            rest = self.cost(height - self.sizes[place], len(self.pieces) - place - 1)
            if rest is not None and rest == cost - self.costs[place]:
                chosen.append(piece)
                height, cost = height - self.sizes[place], rest
        assert (height, cost) == (0, 0)
        return chosen

    def stacks(self, height, count, most):
        """Return every stack of exactly `count` pieces for a height; None above `most` steps of search."""
        found, steps, chosen = [], 0, []

        def walk(place, height, count):
            nonlocal steps
            if count == 0:
                if height == 0:
                    found.append(tuple(chosen))
                return
            for at in range(place, len(self.pieces) - count + 1):
                steps += 1
                if steps > most:
                    return
                rest = height - self.sizes[at]
                cost = self.cost(rest, len(self.pieces) - at - 1)
                if cost is not None and cost // self.count <= count - 1:
                    chosen.append(at)
                    walk(at + 1, rest, count - 1)
                    chosen.pop()

        walk(0, height, count)
        return None if steps > most else [tuple(self.pieces[at] for at in stack) for stack in found]


class Counts:
    """The fewest pieces of every height up to the sum of all, 255 where there is no stack."""

    def __init__(self, pieces, step):
        sizes = sorted((piece.size // step for piece in pieces), reverse=True)
        self.step, self.row = step, np.full(sum(sizes) + 1, 255, dtype=np.uint8)
        self.row[0] = 0
        for size in sizes:
            with_it = self.row[:-size] + np.uint8(1)
            with_it[self.row[:-size] == 255] = 255
            self.row[size:] = np.minimum(self.row[size:], with_it)

    def below(self, height, most):
        """Return the largest height below, with at most so many pieces; zero is one; None for none."""
        found = np.flatnonzero(self.row[: max(min(height, len(self.row)), 0)] <= most)
        return int(found[-1]) if len(found) else None

    def above(self, height, most):
        """Return the smallest height above, with at most so many pieces; zero is one; None for none."""
        start = max(height + 1, 0)
        found = np.flatnonzero(self.row[start:] <= most)
        return int(found[0]) + start if len(found) else None


class Layers:
    """For each number of pieces up to `deepest`, the lengths they make, as bits of a long number."""

    def __init__(self, pieces, basis, top, deepest):
        self.pieces, self.basis = tuple(pieces), basis
        lengths = [piece.length(basis) for piece in self.pieces]
        self.step = reduce(gcd, lengths, 0) or 1
        self.sizes = [length // self.step for length in lengths]
        self.top = min(top // self.step, sum(self.sizes))
        self.deepest = min(deepest, len(self.pieces))
        self.bits = [1] + [0] * self.deepest
        mask = (1 << (self.top + 1)) - 1
        for n, size in enumerate(sorted(self.sizes), 1):
            for count in range(min(n, self.deepest), 0, -1):
                self.bits[count] |= (self.bits[count - 1] << size) & mask
        self.bytes = [b.to_bytes(self.top // 8 + 1, "little") for b in self.bits]

    def makes(self, count, size):
        """Return whether exactly `count` pieces make this many steps."""
        return 0 <= size <= self.top and bool(self.bytes[count][size >> 3] >> (size & 7) & 1)

    def misses(self, count, aim, within):
        """Return |miss| of every length of `count` pieces within a distance of the aim, in picometres."""
        low, high = max(-((within - aim) // self.step), 0), min((aim + within) // self.step, self.top)
        return {abs(s * self.step - aim) for s in range(low, high + 1) if self.makes(count, s)}

    def upto(self, most):
        """Return the lengths of at most so many pieces, as bits."""
        return reduce(int.__or__, self.bits[: most + 1])

    def stacks(self, length, count, most):
        """Return every stack of exactly `count` pieces of a length; None above `most` steps of search."""
        found, steps, chosen = [], 0, []

        def walk(place, size, count):
            nonlocal steps
            if count == 0:
                found.append(tuple(chosen))
                return
            for at in range(place, len(self.pieces) - count + 1):
                steps += 1
                if steps > most:
                    return
                if self.makes(count - 1, size - self.sizes[at]):
                    chosen.append(at)
                    walk(at + 1, size - self.sizes[at], count - 1)
                    chosen.pop()

        if length % self.step == 0 and self.makes(count, length // self.step):
            walk(0, length // self.step, count)
        return None if steps > most else [tuple(self.pieces[at] for at in stack) for stack in found]


def sums_of(pieces, basis):
    """Return the step and every length any number of pieces makes, as bits; None where that is too much."""
    lengths = [piece.length(basis) for piece in pieces]
    step = reduce(gcd, lengths, 0) or 1
    if sum(lengths) // step > MOST_CELLS:
        return None
    bits = 1
    for length in sorted(lengths):
        bits |= bits << (length // step)
    return step, bits


def last_below(bits, limit):
    """Return the highest bit below a limit, or None."""
    part = bits & ((1 << max(limit, 0)) - 1)
    return part.bit_length() - 1 if part else None


def first_from(bits, start):
    """Return the lowest bit from a start on, or None."""
    part = bits >> max(start, 0)
    return (part & -part).bit_length() - 1 + max(start, 0) if part else None
