"""What the tables say of requests too large to enumerate.

    >>> Oracle(drawer, ways).told(ask)         # one target, nominal or certified
    >>> Oracle(drawer, ways).nearest(ask, {})  # the nearest lengths outside the tolerance

Blocks with one good face, and blocks kept in, are put in place first, in every
way there is; the tables then hold the rest.  One oracle serves all requests of
a drawer, so that its tables are built once.
"""

from __future__ import annotations

from functools import reduce
from itertools import combinations
from math import gcd

from tests.promise.asks import in_order
from tests.promise.drawers import PICOMETRES
from tests.promise.tables import Counts, Layers, Prefixes, first_from, last_below, sums_of
from tests.promise.told import Told, preference

DEEPEST = 7
"""Numbers of pieces the certified table holds."""
MOST_ROWS = 60_000_000
"""Cells of all rows together; above that the last row alone is kept in mind by shortening the range."""
MOST_STEPS = 40_000
"""Steps of search after which the stacks of one length are left uncounted."""


class Oracle:
    """The tables of one drawer, built when they are first asked for."""

    def __init__(self, drawer, ways):
        self.drawer, self.top = drawer, ways.top[drawer.unit] * PICOMETRES[drawer.unit]
        self.prefixes, self.layers, self.counts, self.sums = {}, {}, {}, {}

    def told(self, ask):
        """Return what the tables say of a request for one stack."""
        return self._certified(ask) if ask.basis == "certified" else self._nominal(ask)

    def placed(self, ask):
        """Return every way to place the blocks with one good face: what is forced in, and the pieces left."""
        faces = [piece for piece in ask.free if piece.one_face]
        rest = tuple(piece for piece in ask.free if not piece.one_face)
        room = (0 if ask.pair(0) else 2) - sum(piece.one_face for piece in ask.keep)
        for count in range(min(room, len(faces)) + 1):
            for chosen in combinations(faces, count):
                yield (*ask.keep, *chosen), rest

    def table(self, ask, rest, height):
        """Return the prefix table of pieces up to a height at least."""
        pieces = tuple(in_order(ask, rest))
        step = reduce(gcd, (piece.size for piece in pieces), 0) or 1
        key = (tuple(piece.name for piece in pieces), ask.less_used)
        table = self.prefixes.get(key)
        if table is None or table.asked < height:
            usual = self.top if rest == tuple(p for p in self.drawer.pool if not p.one_face) else 0
            asked = max(height, usual)
            if asked // step * len(pieces) > 3 * MOST_ROWS:
                return None
            table = Prefixes(pieces, step, asked // step, ask.uses if ask.less_used else None)
            table.asked = asked
            if len(self.prefixes) > 3:
                self.prefixes.pop(next(iter(self.prefixes)))
            self.prefixes[key] = table
        return table

    def _nominal(self, ask):
        """Return the best of all placings."""
        best = None
        for forced, rest in self.placed(ask):
            standing = [*forced, *ask.pair(0)]
            aim = ask.targets[0] - ask.length(standing)
            if aim + ask.tolerance < 0:
                continue
            table = self.table(ask, rest, aim + ask.tolerance)
            if table is None:
                return Told()
            found = self._best_nominal(ask, table, aim, forced)
            best = min(filter(None, (best, found)), default=None)
        return Told(possible=best is not None, best=best or ())

    def _best_nominal(self, ask, table, aim, forced):
        """Return the best preference with some blocks forced in, or None."""
        low, high = -((ask.tolerance - aim) // table.step), (aim + ask.tolerance) // table.step
        standing = len(forced) + len(ask.pair(0))
        alone = sum(piece.one_face for piece in forced) > 0 and standing < 2
        choices = [
            (cost // table.count, abs(height * table.step - aim), cost, height)
            for cost, height in table.costs_of(low, high)
            if height or (standing and not alone)
        ]
        if ask.most is not None:
            choices = [one for one in choices if one[0] + standing <= ask.most]
        if not choices:
            return None
        best = min(choices)[:2]
        heights = [height for count, miss, _, height in choices if (count, miss) == best]
        return min(preference(ask, [[*forced, *table.stack(height)]]) for height in heights)

    def _layers(self, ask, rest):
        """Return the certified table of pieces."""
        pieces = tuple(in_order(ask, rest))
        key = tuple(piece.name for piece in pieces)
        if key not in self.layers:
            if len(self.layers) > 5:
                self.layers.pop(next(iter(self.layers)))
            self.layers[key] = Layers(pieces, "certified", self.top * 6 // 5, DEEPEST)
        return self.layers[key]

    def _certified(self, ask):
        """Return the best of all placings by certified lengths, as far as the table goes."""
        found, deeper = [], []
        for forced, rest in self.placed(ask):
            standing = [*forced, *ask.pair(0)]
            aim = ask.targets[0] - ask.length(standing)
            if aim + ask.tolerance < 0:
                continue
            layers = self._layers(ask, rest)
            if aim + ask.tolerance > layers.top * layers.step and layers.top < sum(layers.sizes):
                return Told()
            alone = any(piece.one_face for piece in forced) and len(standing) < 2
            most = len(rest) if ask.most is None else ask.most - len(standing)
            start = 0 if standing and not alone else 1
            best, left_open = self._best_certified(ask, layers, aim, (forced, range(start, most + 1)))
            found += [best] if best else []
            deeper += [layers.deepest + 1 + len(forced)] if left_open else []
        if not found:
            return Told() if deeper else Told(possible=False)
        short = min(best[:2] for best in found)
        if deeper and min(deeper) <= short[0]:
            return Told()
        equal = [best for best in found if best[:2] == short]
        return Told(possible=True, best=short if short in equal else min(equal))

    def _best_certified(self, ask, layers, aim, wanted):
        """Return the best preference with some blocks forced in, and whether more could still do it."""
        forced, counts = wanted
        for count in counts:
            if count > layers.deepest:
                return None, count <= len(layers.pieces)
            misses = layers.misses(count, aim, ask.tolerance)
            if misses:
                miss, short = min(misses), (count + len(forced), min(misses))
                stacks = []
                for length in {aim - miss, aim + miss}:
                    some = layers.stacks(length, count, MOST_STEPS)
                    if some is None:
                        return short, False
                    stacks += some
                whole = [preference(ask, [[*forced, *stack]]) for stack in stacks]
                return min(whole, default=short), False
        return None, False

    def nearest(self, ask, at_most):
        """Return the nearest allowed lengths below and above, None for none; sides not known are left out.

        `at_most` gives for a side the largest number of blocks that was looked at.
        """
        find = self._near_certified if ask.basis == "certified" else self._near_nominal
        found, known = {}, {"below", "above"}
        for forced, rest in self.placed(ask):
            for side in ("below", "above"):
                length, sure = find(ask, forced, rest, (side, at_most.get(side)))
                if not sure:
                    known.discard(side)
                elif length is not None:
                    better = max if side == "below" else min
                    found[side] = better(found.get(side, length), length)
        return {side: found.get(side) for side in known}

    def _near_nominal(self, ask, forced, rest, looked):
        """Return the nearest length on a side with some blocks forced in, and whether that is known."""
        side, _ = looked
        step = reduce(gcd, (piece.size for piece in rest), 0) or 1
        key = tuple(piece.name for piece in rest)
        if key not in self.counts:
            self.counts[key] = Counts(rest, step) if sum(p.size for p in rest) // step < 8_000_000 else None
            if len(self.counts) > 4:
                self.counts.pop(next(iter(self.counts)))
        counts = self.counts[key]
        if counts is None:
            return None, False
        standing = [*forced, *ask.pair(0)]
        most = 254 if ask.most is None else ask.most - len(standing)
        aim = ask.targets[0] - ask.length(standing)
        if most < 0:
            return None, True
        alone = any(piece.one_face for piece in forced) and len(standing) < 2
        zero = bool(standing) and not alone
        if side == "below":
            height = counts.below(-((ask.tolerance - aim) // step), most)
            height = None if height == 0 and not zero else height
        else:
            height = counts.above((aim + ask.tolerance) // step, most)
            height = counts.above(0, most) if height == 0 and not zero else height
        return (None if height is None else height * step + ask.length(standing)), True

    def _near_certified(self, ask, forced, rest, looked):
        """Return the same for certified lengths; `looked` holds the side and how many blocks that took in."""
        side, limit = looked
        standing = [*forced, *ask.pair(0)]
        limits = [one - len(standing) for one in (limit, ask.most) if one is not None]
        most = min(limits, default=None)
        if most is not None and most < 0:
            return None, True
        held = self._bits(ask, rest, most)
        if held is None:
            return None, False
        step, bits, top = held
        alone = any(piece.one_face for piece in forced) and len(standing) < 2
        bits &= ~0 if standing and not alone else ~1
        aim = ask.targets[0] - ask.length(standing)
        if side == "below":
            size = last_below(bits, -((ask.tolerance - aim) // step))
            sure = aim - ask.tolerance <= top * step
        else:
            size = first_from(bits, (aim + ask.tolerance) // step + 1)
            sure = size is not None or top * step >= sum(piece.length(ask.basis) for piece in rest)
        return (None if size is None else size * step + ask.length(standing)), sure

    def _bits(self, ask, rest, most):
        """Return step, lengths as bits, and how far they reach; None where that is not known."""
        if most is not None and most < len(rest):
            layers = self._layers(ask, rest)
            return (layers.step, layers.upto(most), layers.top) if most <= layers.deepest else None
        key = tuple(piece.name for piece in rest)
        if key not in self.sums:
            if len(self.sums) > 4:
                self.sums.pop(next(iter(self.sums)))
            self.sums[key] = sums_of(rest, ask.basis)
        held = self.sums[key]
        return held and (*held, held[1].bit_length() - 1)
