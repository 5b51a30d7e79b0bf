"""The kinds of requests, how many there are of each, and one chunk of them asked and checked.

    >>> run_chunk(seed=1, number=7)      # a Chunk: what was counted, and every disagreement

A chunk is one drawer, written as two files in different orders, and `SIZE`
requests of it.  Each request depends on seed, chunk and place alone.
"""

from __future__ import annotations

import re
import time
from collections import Counter
from dataclasses import dataclass, field, replace
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from gaugestack.answers.angleblocks import AngleChoice, angle_blocks
from gaugestack.answers.options import Choice
from gaugestack.answers.stock import load
from gaugestack.blocks import Basis
from gaugestack.stacks import anglejudge, differencejudge, judge, nearby
from gaugestack.stacks.anglerequest import AngleFound, AngleImpossible
from gaugestack.stacks.difference import compose_difference
from gaugestack.stacks.differencerequest import DifferenceFound, DifferenceRequest
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.explain import nearest as nearest_said
from gaugestack.stacks.request import Found, Impossible
from gaugestack.stacks.solve import compose
from tests.promise import enumeration
from tests.promise.angles import (
    NAMES as ANGLE_NAMES,
)
from tests.promise.angles import (
    Halves,
    angle_ask,
    angle_faults,
    drawn_angles,
    nearest_angles,
    told_angles,
)
from tests.promise.asks import Ways, ask_of
from tests.promise.drawers import State, cells, drawn, issued, shipped_names
from tests.promise.oracles import Oracle
from tests.promise.together import Combos, difference, several
from tests.promise.told import Answer, faults

SIZE = 50
"""Requests of one chunk."""
WORKERS = (2, 2, 3, 4)
GOLDEN = 0.6180339887498949
LIMIT = 1.0
"""Effort for one question; what is not decided by then is counted as undecided."""
MIDDLE = 45
"""Pieces of the sets that several stacks at once are taken from; smaller ones are enumerated instead."""
TALLEST = 40_000_000
"""Cells of a table of all sums of a set, above which its tallest stacks are not asked for."""
NEAREST = 6
"""Of the impossible requests of large sets one in so many is asked for the nearest lengths too."""


USUAL = Ways(top={"in": 5, "mm": 125})


AS_FOUND = State()

TABLES = 3
"""Of the requests of small sets one in so many is asked of the tables too, beside the enumeration."""


@dataclass(frozen=True, kw_only=True)
class Kind:
    """A kind of requests: its share in per cent, the state of its drawers, how requests are drawn."""

    share: float
    state: State = AS_FOUND
    ways: Ways = USUAL
    angles: bool = False


SMALL = {"in": 8, "mm": 200}
KINDS = {
    "one stack, whole and incomplete sets": Kind(share=48),
    "one stack, taller than the usual": Kind(share=3, ways=Ways(top={"in": 12, "mm": 300}, tall=0.6)),
    "one stack, certified lengths": Kind(
        share=3,
        state=State(certified=True),
        ways=Ways(top={"in": 3, "mm": 60}, basis=("certified",), coarse=True, options=0.2),
    ),
    "one stack, small sets": Kind(
        share=32,
        state=State(most=11, certified=True),
        ways=Ways(top=SMALL, basis=("nominal", "certified"), made=0.75),
    ),
    "two and three stacks, small sets": Kind(
        share=5,
        state=State(most=7, certified=True),
        ways=Ways(top=SMALL, targets=(2, 2, 2, 3), basis=("nominal", "certified"), made=0.9),
    ),
    "two and three stacks": Kind(
        share=0.5,
        state=State(faces=False),
        ways=Ways(top={"in": 4, "mm": 100}, targets=(2, 2, 3), keep=False),
    ),
    "two stacks for a difference, small sets": Kind(
        share=4.5,
        state=State(most=7, certified=True),
        ways=Ways(top=SMALL, basis=("nominal", "certified"), difference=True),
    ),
    "two stacks for a difference": Kind(
        share=1,
        state=State(faces=False, certified=True),
        ways=Ways(
            top=SMALL, basis=("nominal", "nominal", "certified"), keep=False, difference=True, coarse=True
        ),
    ),
    "angle gauge blocks": Kind(share=3, angles=True),
}
MOST_PIECES = {3: 6, 2: 8}
"""Pieces of a pool that is enumerated, by the number of stacks."""


@dataclass(kw_only=True)
class Chunk:
    """What came of a chunk: its kind, how answers ended and how far the table spoke, disagreements."""

    number: int
    kind: str
    counts: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)
    seconds: float = 0.0


def kind_of(number: int) -> str:
    """Return the kind of a chunk; any run of chunks has each about as often as its share says."""
    place, end = (number * GOLDEN) % 1 * 100, 0.0
    for name, kind in KINDS.items():
        end += kind.share
        if place < end:
            return name
    raise AssertionError("the shares add up to less than 100")


def run_chunk(seed: int, number: int, *, size: int = SIZE, kind: str = "", only: int | None = None) -> Chunk:
    """Ask and check the requests of a chunk, or one of them."""
    kind = kind or kind_of(number)
    chunk, start = Chunk(number=number, kind=kind), time.perf_counter()
    with TemporaryDirectory() as folder:
        bench = (AngleBench if KINDS[kind].angles else Bench)(seed, chunk, Path(folder))
        for n in range(size) if only is None else (only,):
            random = Random(f"{seed} {number} {n}")  # noqa: S311  (repeatable, not secret)
            try:
                ended, found = bench.request(random)
            except Exception as error:  # noqa: BLE001  (whatever is raised is a broken promise)
                ended, found = "raised", [f"raised {error!r}"]
            chunk.counts[ended] += 1
            chunk.faults += [f"--seed {seed} --again {number}:{n}  {bench.said}: {one}" for one in found]
    chunk.seconds = time.perf_counter() - start
    return chunk


class Bench:
    """One drawer in two files, and what the tables say of it."""

    def __init__(self, seed, chunk, folder):
        self.kind, self.said = KINDS[chunk.kind], ""
        random = Random(f"{seed} {chunk.number}")  # noqa: S311  (repeatable, not secret)
        self.drawer = drawn(random, random.choice(_names(self.kind)), self.kind.state)
        self.stocks = [
            load([str(self.drawer.write(folder / way, shuffle))])
            for way, shuffle in (("as listed", None), ("shuffled", random))
        ]
        self.oracle, self.combos = Oracle(self.drawer, self.kind.ways), {}

    def request(self, random):
        """Ask one request twice; return how it ended and what is wrong."""
        ask = self.ask = ask_of(random, self.drawer, self.kind.ways)
        self.said = f"{self.drawer.name} {_said(ask)}"
        effort = Effort(limit=LIMIT, seed=random.randint(2, 10**6), workers=random.choice(WORKERS))
        near = self.kind.state.most is not None or not random.randrange(NEAREST)
        first, wrong = self._answer(ask, 0, Effort(limit=LIMIT), near=near)
        second, _ = self._answer(ask, 1, effort)
        told, other = self._told(ask)
        wrong += list(faults(ask, first, told))
        if "undecided" in (first.ended, second.ended):
            return "undecided, table: silent", wrong
        if replace(first, nearest=()) != second:
            wrong.append(f"another order, seed and {effort.workers} workers give {second}, not {first}")
        if other.possible is not None and other.best != told.best[: len(other.best)]:
            wrong.append(f"the tables disagree: {told} and {other}")
        if near and first.ended == "impossible" and len(ask.targets) == 1 and not ask.difference:
            wrong += list(self._nearest_faults(ask, first))
        return f"{first.ended}, table: {told.speaks}", wrong

    def _answer(self, ask, which, effort, *, near=False):
        """Return the program's answer from one of the files, and what the judge says against it."""
        words = ask.words()
        if which:
            words |= {key: words[key][::-1] for key in ("without", "keep")}
        choice = Choice(basis=Basis(ask.basis), **words)
        targets = list(ask.targets) * (2 if ask.difference else 1)
        request = choice.request(self.stocks[which], targets)
        if request.tolerance != ask.tolerance:
            return Answer(ended="refused"), [f"tolerance {request.tolerance}, not {ask.tolerance}"]
        if ask.difference:
            asked = DifferenceRequest(target=ask.targets[0], rules=replace(request, targets=ask.targets))
            outcome = compose_difference(asked, effort)
            stacks = (outcome.high, outcome.low) if isinstance(outcome, DifferenceFound) else ()
            broken = differencejudge.broken_rules(asked, *stacks) if stacks else ()
        else:
            outcome = compose(request, effort)
            stacks = outcome.stacks if isinstance(outcome, Found) else ()
            broken = judge.broken_rules(request, stacks) if stacks else ()
        ways = ()
        if near and isinstance(outcome, Impossible) and len(targets) == 1:
            ways = tuple(map(_way, nearest_said(request, outcome, Effort())))
        return _plain(outcome, stacks, ways), [f"the judge: {sentence}" for sentence in broken]

    def _told(self, ask):
        """Return what the table says, and what a second one says where there are two."""
        piles = max(len(ask.targets), 2 if ask.difference else 1)
        if self.kind.state.most is not None and len(ask.pool) <= MOST_PIECES.get(piles, 12):
            both = piles == 1 and ask.targets[0] // 10_000 % TABLES == 0
            return enumeration.enumerated(ask), self.oracle.told(ask) if both else enumeration.Told()
        if ask.difference:
            key = (ask.pool, ask.basis, ask.less_used)
            if key not in self.combos:
                self.combos = {key: Combos(ask)}
            return difference(ask, self.combos[key]), enumeration.Told()
        if piles > 1:
            plain = ask.basis == "nominal" and not ask.keep and not any(p.one_face for p in ask.pool)
            return (several(ask, self.oracle) if plain else enumeration.Told()), enumeration.Told()
        return self.oracle.told(ask), enumeration.Told()

    def _nearest_faults(self, ask, answer):
        """Return where the nearest lengths said are not the table's."""
        said = {side: length for side, length, _ in answer.nearest}
        looked = {side: most for side, _, most in answer.nearest if most is not None}
        if ask.basis == "certified":  # where none of so many is found, nothing is said of the limit either
            looked |= {side: _looked_at(len(ask.pool)) for side in ("below", "above") if side not in said}
        if self.kind.state.most is not None and len(ask.pool) <= 12 and not looked:
            known = {"below": None, "above": None} | enumeration.nearest(ask)
        else:
            known = self.oracle.nearest(ask, looked)
        for side, length in known.items():
            if said.get(side) != length:
                yield f"the nearest {side} is said to be {said.get(side)}, the table has {length}"


def _looked_at(pieces):
    """Return how many blocks the nearest certified length may have, of so many pieces."""
    return max(k for k in range(1, pieces + 1) if nearby._halves(pieces, k) <= nearby.MOST_HALVES)


def _names(kind):
    """Return the sets a kind is drawn from: for tall stacks those whose sums all fit a table."""
    names = shipped_names()
    if kind.state.most is not None:
        return [name for name in names if "wear" not in name]
    if kind.ways.tall:
        return [name for name in names if cells(name) < TALLEST]
    if len(kind.ways.targets) > 1:
        return [name for name in names if len(issued(name)) >= MIDDLE]
    return [name for name in names for _ in range(1 if "wear" in name else 12)]


def _said(ask):
    """Return a request in a line."""
    words = {key: value for key, value in ask.words().items() if value not in (None, (), False)}
    return f"{'difference ' * ask.difference}{ask.targets} pm, {ask.basis}, {words}"


def _plain(outcome, stacks, near):
    """Return an outcome in plain values."""
    ended = "found" if stacks else "impossible" if isinstance(outcome, Impossible) else "undecided"
    return Answer(
        ended=ended,
        stacks=tuple(tuple(map(_name, built.blocks)) for built in stacks),
        lengths=tuple(built.length for built in stacks),
        proof=f"{outcome.proof} {outcome.failing}" if ended == "impossible" else "",
        nearest=near,
    )


def _name(block):
    return (block.nominal, block.wear, block.owner, block.serial, block.copy)


def _way(way):
    """Return a way out in plain values, with the limit its sentence names."""
    limit = re.search(r"of at most (\d+) blocks", way.sentence)
    return way.kind, way.built.length, int(limit[1]) if limit else None


class AngleBench:
    """One drawer of angle blocks in two files."""

    def __init__(self, seed, chunk, folder):
        random = Random(f"{seed} {chunk.number}")  # noqa: S311  (repeatable, not secret)
        self.drawer, self.said = drawn_angles(random, random.choice(ANGLE_NAMES)), ""
        self.files = [self.drawer.write(folder / "a"), self.drawer.write(folder / "b", random)]
        self.halves = Halves(self.drawer.pool)

    def request(self, random):
        """Ask one angle twice; return how it ended and what is wrong."""
        ask = angle_ask(random, self.drawer)
        self.said = f"{self.drawer.name} {ask.target} seconds within {ask.tenths} tenths, most {ask.most}"
        effort = Effort(seed=random.randint(2, 10**6), workers=random.choice(WORKERS))
        first, second = (
            self._answer(ask, path, effort)
            for path, effort in zip(self.files, (Effort(), effort), strict=True)
        )
        told = told_angles(ask, self.halves)
        placed, lengths, broken, near = first
        wrong = [f"the judge: {sentence}" for sentence in broken]
        wrong += angle_faults(ask, placed, lengths, told)
        if first != second:
            wrong.append(f"another order, seed and {effort.workers} workers give {second}, not {first}")
        if placed is None and near != (nearest := nearest_angles(ask, self.halves)):
            wrong.append(f"the nearest angles are said to be {near}, the halves have {nearest}")
        return f"{'found' if placed else 'impossible'}, table: {told.speaks}", wrong

    @staticmethod
    def _answer(ask, path, effort):
        """Return the blocks in plain values, their sum, what the judge says, the nearest where impossible."""
        choice = AngleChoice(tolerance=f'{ask.tenths / 10}"', most=ask.most)
        answer = angle_blocks(f'{ask.target}"', name=str(path), choice=choice, effort=effort)
        outcome = answer.outcome
        if isinstance(outcome, AngleImpossible):
            sides = (("below", outcome.below), ("above", outcome.above))
            return None, [], (), {side: built.angle.arcseconds for side, built in sides if built}
        assert isinstance(outcome, AngleFound)
        built = outcome.built
        placed = tuple((int(one.block.angle.arcseconds), one.turned) for one in built.placed)
        return placed, [built.angle.arcseconds], anglejudge.broken_rules(answer.request, built), {}
