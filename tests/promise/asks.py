"""What is asked of a drawer: heights, tolerance, options; drawn from a seed, and put in a person's words."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from tests.promise.drawers import FINE, PICOMETRES, Piece, issued

if TYPE_CHECKING:
    from random import Random

    from tests.promise.drawers import Drawer


@dataclass(frozen=True, kw_only=True)
class Ask:
    """A request in the drawer's own terms; `pool` holds what may be used, lengths in picometres.

    `given` is false where the tolerance is left to the program (half the step).
    """

    unit: str
    targets: tuple[int, ...]
    tolerance: int
    pool: tuple[Piece, ...]
    given: bool = True
    basis: str = "nominal"
    without: tuple[Piece, ...] = ()
    keep: tuple[Piece, ...] = ()
    pairs: tuple[tuple[Piece, Piece], ...] = ()
    wear: str | None = None
    most: int | None = None
    less_used: bool = False
    difference: bool = False

    @property
    def free(self):
        return tuple(piece for piece in self.pool if piece not in self.keep)

    def pair(self, place):
        return self.pairs[place] if self.pairs else ()

    def uses(self, piece):
        return piece.uses if self.less_used else 0

    def length(self, pieces):
        return sum(piece.length(self.basis) for piece in pieces)

    def words(self):
        """Return the options as they are typed."""
        return {
            "tolerance": mm(self.tolerance) if self.given else None,
            "without": tuple(map(_named, self.without)),
            "keep": tuple(map(_named, self.keep)),
            "wear": self.wear,
            "most": self.most,
            "less_used": self.less_used,
        }


def mm(length):
    """Return a length of whole picometres in millimetres, exactly."""
    return f"{Decimal(length) / PICOMETRES['mm']:f}mm"


def _named(piece):
    return f"{piece.text}{piece.unit}" + (f"#{piece.serial}" if piece.serial else "")


@dataclass(frozen=True, kw_only=True)
class Ways:
    """How requests of a kind are drawn: heights up to `top` units, and how many targets."""

    top: dict[str, int]
    targets: tuple[int, ...] = (1,)
    basis: tuple[str, ...] = ("nominal",)
    tall: float = 0.0
    options: float = 0.4
    made: float = 0.2
    keep: bool = True
    coarse: bool = False
    difference: bool = False


def ask_of(random: Random, drawer: Drawer, ways: Ways) -> Ask:
    """Return a random request."""
    targets, basis = random.choice(ways.targets), random.choice(ways.basis)
    pairs, wear = _pairs(random, drawer, targets, ways)
    without = _without(random, drawer, ways)
    pool = tuple(piece for piece in drawer.pool if piece not in without)
    tolerance, given = _tolerance(random, drawer, ways)
    heights, chosen = _heights(random, drawer, pool, (basis, pairs, targets), ways)
    keep = _keep(random, chosen or pool, ways)
    if ways.difference:
        heights = (_difference(random, drawer, pool, basis),)
    return Ask(
        unit=drawer.unit,
        targets=heights,
        tolerance=tolerance,
        given=given,
        pool=pool,
        basis=basis,
        without=without,
        keep=keep,
        pairs=pairs,
        wear=wear,
        most=random.randint(1, 7) if random.random() < ways.options / 2 else None,
        less_used=random.random() < ways.options / 2,
        difference=ways.difference,
    )


def _pairs(random, drawer, targets, ways):
    """Return wear pairs for the targets, and the word that asks for them."""
    stacks = 2 if ways.difference else targets
    if random.random() > ways.options / 2:
        return (), None
    own = [drawer.wear[n : n + 2] for n in range(0, len(drawer.wear) // 2 * 2, 2)]
    if len(own) >= stacks and {piece.size for piece in drawer.wear} == {own[0][0].size}:
        return tuple(own[:stacks]), "own"
    if stacks > 1:
        return (), None
    name = random.choice([f"{kind}-wear-{size}" for kind, size in WEAR if kind == KIND[drawer.unit]])
    return (tuple(issued(name)),), name


KIND = {"in": "inch", "mm": "metric"}
WEAR = (("inch", "0.050"), ("inch", "0.100"), ("metric", "2"), ("metric", "2.5"))


def _without(random, drawer, ways):
    """Return pieces kept out; never a size that a wear block has too."""
    worn = {piece.size for piece in drawer.wear}
    choices = [piece for piece in drawer.pool if piece.size not in worn]
    if not choices or random.random() > ways.options / 2:
        return ()
    return tuple(random.sample(choices, min(len(choices), random.randint(1, 2))))


def _keep(random, pool, ways):
    """Return pieces kept in."""
    if not ways.keep or not pool or random.random() > ways.options / 2:
        return ()
    return tuple(random.sample(pool, min(len(pool), random.choice([1, 1, 2]))))


def _tolerance(random, drawer, ways):
    """Return a tolerance and whether it is given."""
    step, chance = drawer.step, random.random()
    if chance < 0.5:
        return step // 2, False
    if ways.coarse:
        return random.choice([step // 2, step // 4, FINE[drawer.unit] * random.randint(4, 12)]), True
    if chance < 0.7:
        return 0, True
    if chance < 0.85:
        return random.randint(1, step), True
    return random.choice([step // 2, step, 2 * step, FINE[drawer.unit] * random.randint(1, 9)]), True


def _heights(random, drawer, pool, wanted, ways):
    """Return the heights, and the pieces that some of them were made of."""
    basis, pairs, targets = wanted
    left, heights, used = list(pool), [], []
    for place in range(targets):
        if left and random.random() < ways.made:
            chosen = random.sample(left, min(len(left), random.randint(1, 4 if targets == 1 else 3)))
            left = [piece for piece in left if piece not in chosen]
            used += chosen
            pair = pairs[place] if pairs else ()
            heights.append(_beside(random, drawer, sum(p.length(basis) for p in (*chosen, *pair))))
        else:
            heights.append(_height(random, drawer, pool, ways))
    return tuple(heights), tuple(used)


def _beside(random, drawer, height):
    """Return a height, or one a little beside it."""
    fine = FINE[drawer.unit]
    return max(height + random.choice([0, 0, 0, 0, fine, -fine, drawer.step // 2]), 1)


def _height(random, drawer, pool, ways):
    """Return a height above zero: on the grid or off it, low, or tall."""
    step, chance = drawer.step, random.random()
    whole = sum(piece.size for piece in pool)
    top = max(min(ways.top[drawer.unit] * PICOMETRES[drawer.unit], whole), step)
    if chance < ways.tall:
        return max(random.randint(whole // 2, whole + 2 * step) // step * step, step)
    chance = random.random()
    if chance < 0.1 and pool:
        return random.randint(1, max(min(top // step, 3 * min(p.size for p in pool) // step), 1)) * step
    return random.randint(1, top) if chance < 0.2 else random.randint(1, top // step) * step


def _difference(random, drawer, pool, basis):
    """Return a small difference, or one of two stacks of the pool."""
    if len(pool) < 3 or random.random() < 0.6:
        return random.randint(1, 300) * drawer.step
    chosen = random.sample(pool, min(len(pool), random.randint(2, 4)))
    return abs(chosen[0].length(basis) - sum(p.length(basis) for p in chosen[1:])) or drawer.step


def in_order(ask, pieces):
    """Return pieces in the order of choice: the largest first, of equals the least used, then by name."""
    return sorted(pieces, key=lambda p: (-p.size, ask.uses(p), p.owner, p.serial, p.copy))


def order(ask, stacks):
    """Return the last of the order of preference: largest blocks first, stack by stack, then which pieces."""
    places = {piece.name: place for place, piece in enumerate(in_order(ask, ask.pool))}
    tall = [[-piece.size for piece in in_order(ask, stack)] for stack in stacks]
    padded = [one + [0] * (len(ask.pool) - len(one)) for one in tall]
    return padded, [sorted(places[piece.name] for piece in stack) for stack in stacks]
