"""A shipped set in some state, drawn from a seed: pieces absent, worn, lent, certified, twice there.

    >>> drawer = drawn(Random("7"), "inch-81", State(certified=True))
    >>> drawer.write(folder, shuffle=None)      # bench.yaml and its ledger, in the order of the shipped set
    >>> drawer.write(other, shuffle=Random(8))  # the same pieces written in another order and another way

Reads sets/*.yaml by itself, as decimals; shares no code with the program, so
that what a set holds is not taken from the reader under test.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache, reduce
from math import gcd
from pathlib import Path
from typing import TYPE_CHECKING

import yaml

if TYPE_CHECKING:
    from random import Random

SETS = Path(__file__).parents[2] / "sets"
PICOMETRES = {"in": 25_400_000_000, "mm": 1_000_000_000}
FINE = {"in": 25_400, "mm": 10_000}
"""Steps of a drawn certificate: 1 µin, 0.01 µm."""
FINE_WORDS = {"in": ("µin", 1), "mm": ("nm", 10)}
THIN = 2_500_000_000
"""Up to 2.5 mm a block is thin: ISO 3650:1998, 7.2."""
OUT = ("absent", "missing", "lent", "worn", "retired", "does not wring", "suspect")
"""States in which a piece is not fit for use."""
DETAILS = {"lent": ', to: "Ola, boat 4"', "suspect": ', why: "reads short"'}
DAY = "2026-02-03"


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One piece as the drawer knows it; `size` and `deviation` in picometres, `text` the size in its unit."""

    text: str
    unit: str
    size: int
    serial: str = ""
    copy: int = 1
    wear: bool = False
    deviation: int | None = None
    state: str = ""
    uses: int = 0
    owner: str = ""

    @property
    def name(self):
        """What tells the piece from every other."""
        return (self.size, self.wear, self.owner, self.serial, self.copy)

    @property
    def fit(self):
        return self.state not in OUT

    @property
    def thin(self):
        return self.size <= THIN

    @property
    def one_face(self):
        return self.state == "one good face"

    def length(self, basis):
        return self.size + (self.deviation or 0 if basis == "certified" else 0)


@dataclass(frozen=True, kw_only=True)
class Drawer:
    """Every piece of one set as issued, and the step of its sizes in picometres."""

    name: str
    unit: str
    pieces: tuple[Piece, ...]

    @property
    def step(self):
        """The greatest common divisor of the sizes, of the wear blocks where there are no others."""
        sizes = [piece.size for piece in self.pieces if not piece.wear]
        return reduce(gcd, sizes or [piece.size for piece in self.pieces])

    @property
    def pool(self):
        """The pieces fit for use that are no wear blocks."""
        return tuple(piece for piece in self.pieces if piece.fit and not piece.wear)

    @property
    def wear(self):
        return tuple(piece for piece in self.pieces if piece.fit and piece.wear)

    def write(self, folder, shuffle=None):
        """Write set file and ledger into a folder; return the path of the set file."""
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / "bench.yaml"
        path.write_text(_set_text(self, shuffle), encoding="utf-8")
        ledger = _ledger_text(self, shuffle)
        if ledger:
            path.with_name("bench.ledger.yaml").write_text(ledger, encoding="utf-8")
        return path


@cache
def shipped(name):
    """Return unit and entries of a shipped set, numbers as texts."""
    read = yaml.load((SETS / f"{name}.yaml").read_text(encoding="utf-8"), yaml.BaseLoader)  # noqa: S506  (BaseLoader makes texts only)
    return read["unit"], read["blocks"]


@cache
def shipped_names():
    """Return the names of the shipped sets of gauge blocks."""
    return tuple(sorted(path.stem for path in SETS.glob("*.yaml") if not path.stem.startswith("angle-")))


def issued(name):
    """Return the pieces of a shipped set, smallest first."""
    unit, entries = shipped(name)
    pieces = [piece for entry in entries for piece in _of_entry(entry, unit, name)]
    return sorted(pieces, key=lambda piece: piece.name)


@cache
def cells(name):
    """Return how many cells a table of all sums of a shipped set has, a row a piece."""
    sizes = [piece.size for piece in issued(name)]
    return sum(sizes) // reduce(gcd, sizes) * len(sizes)


def _of_entry(entry, unit, owner):
    more = {"unit": unit, "owner": owner, "wear": entry.get("wear") == "true"}
    if "size" in entry:
        for copy in range(1, int(entry.get("pieces", "1")) + 1):
            yield _piece(entry["size"], copy=copy, **more)
        return
    first, last, step = (Decimal(entry[key]) for key in ("from", "to", "step"))
    for n in range(int((last - first) / step) + 1):
        yield _piece(str(first + n * step), **more)


def _piece(text, *, unit, **more):
    size = Decimal(text) * PICOMETRES[unit]
    assert size == int(size)
    return Piece(text=text, unit=unit, size=int(size), **more)


@dataclass(frozen=True, kw_only=True)
class State:
    """What may have happened to a drawer: thinned to `most` pieces, certified, pieces with one good face."""

    most: int | None = None
    certified: bool = False
    faces: bool = True


def drawn(random: Random, name: str, state: State) -> Drawer:
    """Return a shipped set in a random state; one in four as it was issued, but for its certificate."""
    pieces, most = issued(name), state.most
    unit = pieces[0].unit
    if most is not None or random.random() < 0.75:
        pieces = _changed(random, pieces, state)
    if state.certified:
        pieces = _certified(random, pieces)
    return Drawer(name=name, unit=unit, pieces=tuple(sorted(pieces, key=lambda piece: piece.name)))


def _changed(random, pieces, state):
    """Return the pieces of a set after some years: fewer, some twice, with a wear pair, in some state."""
    most, name, unit = state.most, pieces[0].owner, pieces[0].unit
    if most is not None:
        ordinary = [piece for piece in pieces if not piece.wear]
        pieces = random.sample(ordinary, min(len(ordinary), random.randint(max(1, most - 4), most)))
    second = random.sample(pieces, min(len(pieces), random.choice([0, 0, 0, 1, 2, 3])))
    second = [piece for piece in second if not piece.wear][: len(pieces) if most is None else 1]
    pieces = [replace(piece, serial="A1") if piece in second else piece for piece in pieces]
    pieces += [replace(piece, serial=random.choice(["B7", "A0"])) for piece in second]
    pairs = random.choice([0, 0, 0, 1, 2, 3])
    if pairs and not any(piece.wear for piece in pieces):
        text = random.choice({"in": ["0.050", "0.100"], "mm": ["2", "1"]}[unit])
        pieces += [_piece(text, unit=unit, owner=name, wear=True, copy=n + 1) for n in range(2 * pairs)]
    return [_in_a_state(random, piece, state) for piece in pieces]


def _in_a_state(random, piece, given):
    """Return a piece gone, or with something the ledger says of it; wear blocks stay as they are."""
    if piece.wear:
        return piece
    full = given.most is None
    if random.random() < (0.06 if full else 0.1):
        return replace(piece, state=random.choice(OUT))
    state = "one good face" if given.faces and random.random() < (0.015 if full else 0.1) else ""
    return replace(piece, state=state, uses=random.randint(1, 3) if random.random() < 0.2 else 0)


def _certified(random, pieces):
    """Return pieces with deviations like a certificate's: few µin, more on worn blocks, some not listed."""
    fine = FINE[pieces[0].unit]
    found = []
    for piece in pieces:
        steps = random.choice([0, *range(-8, 9)])
        if random.random() < 0.05:
            steps -= random.randint(5, 30)
        listed = not piece.wear and random.random() > 0.15 and abs(steps * fine) * 100 <= piece.size
        found.append(replace(piece, deviation=steps * fine if listed else None))
    return found


def _set_text(drawer, shuffle):
    """Return the set file: as shipped with lists beside it, or piece by piece in another order."""
    twice = any(count > 1 for count in Counter(p.size for p in drawer.pieces if not p.wear).values())
    whole = {p.text for p in drawer.pieces} >= {p.text for p in issued(drawer.name)}
    plain = shuffle is None and whole and not twice and not any(p.serial for p in drawer.pieces)
    lines = ["format: 1", f"name: {drawer.name}", f"unit: {drawer.unit}", "blocks:"]
    ordinary = [piece for piece in drawer.pieces if not piece.wear]
    if plain:
        lines += [f"  - {_flow(entry)}" for entry in shipped(drawer.name)[1] if entry.get("wear") != "true"]
    else:
        if shuffle:
            shuffle.shuffle(ordinary)
        lines += [f"  - {_entry(piece, alone=not plain)}" for piece in ordinary]
    wear = Counter(piece.text for piece in drawer.pieces if piece.wear)
    entries = [f"  - {{size: {text}, pieces: {count}, wear: true}}" for text, count in wear.items()]
    lines[4:4] = entries if shuffle else []
    lines += [] if shuffle else entries
    absent = [_absent(piece) for piece in ordinary if piece.state == "absent"]
    lines += [f"absent: [{', '.join(absent)}]"] if absent else []
    listed = [f"{piece.text}: {_deviation(piece)}" for piece in ordinary if piece.deviation is not None]
    if plain and listed:
        lines += ["certificate:", "  source: laboratory report", f"  deviations: {{{', '.join(listed)}}}"]
    return "\n".join(lines) + "\n"


def _flow(entry):
    return "{" + ", ".join(f"{key}: {value}" for key, value in entry.items()) + "}"


def _entry(piece, *, alone):
    entry = {"size": piece.text} | ({"serial": piece.serial} if piece.serial else {})
    if alone and piece.deviation is not None:
        entry |= {"deviation": _deviation(piece), "trust": "laboratory report"}
    return _flow(entry)


def _deviation(piece):
    word, size = FINE_WORDS[piece.unit]
    return f"{piece.deviation // FINE[piece.unit] * size:+d} {word}"


def _absent(piece):
    return f"{{size: {piece.text}, serial: {piece.serial}}}" if piece.serial else piece.text


def _ledger_text(drawer, shuffle):
    """Return the ledger of what happened to the pieces, or nothing."""
    events = []
    for piece in drawer.pieces:
        if piece.state and piece.state != "absent":
            events.append((piece, piece.state, DETAILS.get(piece.state, "")))
        if piece.fit:
            events += [(piece, "used", ', job: "MT3 socket"')] * piece.uses
    if shuffle:
        shuffle.shuffle(events)
    lines = [f'- {{format: 1, ledger of: "{drawer.name}"}}']
    for n, (piece, event, details) in enumerate(events, 1):
        serial = f', serial: "{piece.serial}"' if piece.serial else ""
        lines.append(
            f'- {{n: {n}, on: {DAY}, event: {event}, size: "{piece.text} {piece.unit}"{serial}{details}, '
            f"written: {DAY}T09:00:00}}"
        )
    return "\n".join(lines) + "\n" if events else ""
