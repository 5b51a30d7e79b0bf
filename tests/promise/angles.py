"""Angle gauge blocks: sets in some state, requests, and what a join of halves says of them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import yaml

from tests.promise.told import Told

if TYPE_CHECKING:
    from random import Random

SETS = Path(__file__).parents[2] / "sets"
SECONDS = {"d": 3600, "'": 60, '"': 1}
NAMES = tuple(sorted(path.stem for path in SETS.glob("angle-*.yaml")))


@dataclass(frozen=True, kw_only=True)
class AngleDrawer:
    """The angles of a set in seconds, by their engraving; those absent; whether there is a square."""

    name: str
    angles: tuple[tuple[str, int], ...]
    absent: tuple[str, ...]
    square: bool

    @property
    def pool(self):
        """The angles at hand, the largest first; the square, which is never turned, is marked."""
        there = [(size, False) for text, size in self.angles if text not in self.absent]
        return tuple(sorted([*there, *([(90 * 3600, True)] if self.square else [])], reverse=True))

    def write(self, folder, shuffle=None):
        """Write the set file; return its path."""
        folder.mkdir(parents=True, exist_ok=True)
        path, texts = folder / "angles.yaml", [text for text, _ in self.angles]
        if shuffle:
            shuffle.shuffle(texts)
        lines = ["format: 1", "kind: angle", f"name: {self.name}", "blocks:"]
        lines += [f"  - {{angle: {text}}}" for text in texts]
        lines += ["square: true"] if self.square else []
        lines += [f"absent: [{', '.join(self.absent)}]"] if self.absent else []
        path.write_text("\n".join(lines) + "\n", encoding="utf-8")
        return path


@dataclass(frozen=True, kw_only=True)
class AngleAsk:
    """An angle in seconds; the tolerance in tenths of a second."""

    target: int
    tenths: int
    most: int | None
    pool: tuple[tuple[int, bool], ...]


def drawn_angles(random: Random, name: str) -> AngleDrawer:
    """Return a shipped set of angle blocks with some of them absent."""
    read = yaml.load((SETS / f"{name}.yaml").read_text(encoding="utf-8"), yaml.BaseLoader)  # noqa: S506  (BaseLoader makes texts only)
    texts = [text for entry in read["blocks"] for text in entry["angles"]]
    angles = tuple((text, int(text[:-1]) * SECONDS[text[-1]]) for text in texts)
    absent = tuple(random.sample(texts, random.choice([0, 0, 1, 2, 4])))
    return AngleDrawer(name=name, angles=angles, absent=absent, square=read.get("square") == "true")


def angle_ask(random: Random, drawer: AngleDrawer) -> AngleAsk:
    """Return a random angle, on the grid or between, low, high or too high."""
    pool = drawer.pool
    top = sum(size for size, _ in pool)
    target = random.choice([random.randint(1, top), random.randint(1, 3600), random.randint(1, top + 40)])
    if random.random() < 0.3:
        chosen = random.sample(pool, min(len(pool), random.randint(1, 6)))
        signed = sum(size if square else random.choice([-1, 1]) * size for size, square in chosen)
        target = abs(signed) or 1
    most = random.randint(1, 8) if random.random() < 0.3 else None
    return AngleAsk(target=target, tenths=random.choice([0, 5, 10, 15, 25, 60]), most=most, pool=pool)


class Halves:
    """Every way to add, turn or leave each half of the blocks, sorted by what it comes to."""

    def __init__(self, pool):
        self.pool, half = pool, len(pool) // 2
        self.sides = [self._ways(pool[:half]), self._ways(pool[half:])]

    @staticmethod
    def _ways(blocks):
        ways = product(*((0, 1) if square else (0, 1, -1) for _, square in blocks))
        signs = np.array(list(ways), dtype=np.int8).reshape(-1, len(blocks))
        total = signs.astype(np.int64) @ np.array([size for size, _ in blocks], dtype=np.int64)
        order = np.argsort(total, kind="stable")
        return signs[order], total[order], (signs[order] != 0).sum(axis=1)

    def between(self, low, high, most):
        """Return the signs of every sum from low to high, above zero, of at most so many blocks."""
        low = max(low, 1)
        (signs_a, total_a, count_a), (signs_b, total_b, count_b) = self.sides
        first = np.searchsorted(total_b, low - total_a)
        times = np.maximum(np.searchsorted(total_b, high - total_a, side="right") - first, 0)
        a = np.repeat(np.arange(len(total_a)), times)
        b = np.arange(len(a)) - np.repeat(np.cumsum(times) - times, times) + np.repeat(first, times)
        few = count_a[a] + count_b[b] <= (len(self.pool) if most is None else most)
        return np.concatenate((signs_a[a[few]], signs_b[b[few]]), axis=1)


def angle_preference(ask, signs):
    """Return the preference of one way: count, miss, turned, then the largest first, added before turned."""
    total = sum(size * int(sign) for (size, _), sign in zip(ask.pool, signs, strict=True))
    taken = [(-(sign == 1), -(sign == -1)) for sign in map(int, signs)]
    return (
        sum(sign != 0 for sign in map(int, signs)),
        abs(total - ask.target),
        sum(sign == -1 for sign in map(int, signs)),
        [flag for both in taken for flag in both],
    )


def told_angles(ask, halves):
    """Return the best answer of an angle, or that there is none."""
    low, high = -((ask.tenths - 10 * ask.target) // 10), (10 * ask.target + ask.tenths) // 10
    signs = halves.between(low, high, ask.most)
    if not len(signs):
        return Told(possible=False)
    counts = (signs != 0).sum(axis=1)
    few = signs[counts == counts.min()]
    return Told(possible=True, best=min(angle_preference(ask, one) for one in few))


def nearest_angles(ask, halves):
    """Return the nearest angles outside the tolerance, with at most so many blocks."""
    sizes = np.array([size for size, _ in ask.pool], dtype=np.int64)
    low, high = -((ask.tenths - 10 * ask.target) // 10), (10 * ask.target + ask.tenths) // 10
    found, top = {}, sum(size for size, _ in ask.pool)
    width = 1
    while width < 16 * top and len(found) < 2:  # the last one is wider than any angle
        for side, ends in (("below", (low - width, min(low - 1, top))), ("above", (high + 1, high + width))):
            signs = halves.between(*ends, ask.most) if side not in found else ()
            if len(signs):
                totals = signs.astype(np.int64) @ sizes
                found[side] = int(totals.max() if side == "below" else totals.min())
        width *= 8
    return found


def angle_faults(ask, placed, lengths, told):
    """Return where angle blocks are not what was asked; `placed` holds (size, turned) or is None."""
    if placed is None:
        if told.possible:
            yield f"said to be impossible; the halves make it: {told.best}"
        return
    signs = {size: -1 if turned else 1 for size, turned in placed}
    total = sum(size * sign for size, sign in signs.items())
    squares = {size for size, square in ask.pool if square}
    if len(signs) != len(placed) or not set(signs) <= {size for size, _ in ask.pool}:
        yield "a block stands twice or is not in the set"
        return
    if abs(Fraction(total) - ask.target) * 10 > ask.tenths or [total] != list(lengths):
        yield f"the blocks add up to {total}"
    if any(signs.get(size) == -1 for size in squares) or (ask.most is not None and len(signs) > ask.most):
        yield "the square turned, or too many blocks"
    got = angle_preference(ask, [signs.get(size, 0) for size, _ in ask.pool])
    if told.possible is False or got != told.best:
        yield f"answer {got}, the halves say {told.best or 'impossible'}"
