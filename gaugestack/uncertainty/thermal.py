"""What warmth does when one body is set against another: the shift, and its doubts.

    sides = (blocks_side, part_side)
    shift(sides, 1.5)                        # in the unit of the weights
    thermal_components(sides, conditions, unit)

Two bodies share the room's temperature and each differs a little from it.  The
result moves by sum of weight x coefficient x warmth over everything they are
made of.  That is a sum of products, so its variance needs the second-order
terms, and with them it is exact.  Coefficients of different materials, and of
blocks and other bodies, are taken as independent even where they bear one name.

Does not know stacks or bars: they give the weights.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.uncertainty.budget import Component, second_order
from gaugestack.uncertainty.distribution import Distribution

if TYPE_CHECKING:
    from gaugestack.uncertainty.conditions import Conditions
    from gaugestack.uncertainty.materials import Expansion


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """Something of one material: the result moves by `weight` for each unit of strain."""

    weight: float
    expansion: Expansion


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One body, or all blocks: `above` kelvin warmer than the room, right within `limit`."""

    name: str
    parts: tuple[Segment, ...]
    above: float
    limit: float

    @property
    def growth(self) -> float:
        """What one kelvin does to the result through this side."""
        return math.fsum(part.weight * part.expansion.per_kelvin for part in self.parts)


def shift(sides: tuple[Side, ...], room_above: float) -> float:
    """Return how far the result is moved; `room_above` is the room above 20 °C in kelvin.

    Nothing at all where both sides are of one coefficient and equally warm.
    """
    grown = [
        part.weight * part.expansion.per_kelvin * (room_above + side.above)
        for side in sides
        for part in side.parts
    ]
    return math.fsum(grown)


def thermal_components(sides: tuple[Side, ...], conditions: Conditions) -> tuple[Component, ...]:
    """Return first-order terms of the room, each side's warmth and each coefficient, then the products.

    Terms that are exactly nothing are left out.
    """
    room = Component(
        name="room temperature",
        value=conditions.room_limit,
        unit="K",
        distribution=Distribution.RECTANGULAR,
        sensitivity=math.fsum(side.growth for side in sides),
        source="circumstances",
    )
    found = [room]
    for side in sides:
        found += _of_side(side, room, conditions.room_above_reference)
    return tuple(component for component in found if component.contribution)


def _of_side(side: Side, room: Component, room_above: float) -> list[Component]:
    """Return the terms of one side: its warmth, its coefficients, and their products."""
    warmth = Component(
        name=f"warmth of the {side.name} against the room",
        value=side.limit,
        unit="K",
        distribution=Distribution.RECTANGULAR,
        sensitivity=side.growth,
        source="circumstances",
    )
    found = [warmth]
    for part in side.parts:
        growth = _coefficient(side, part, room_above)
        of = f"{part.expansion.material} of the {side.name}"
        found += [
            growth,
            second_order(growth, room, mixed=part.weight, name=f"expansion of {of} x room temperature"),
            second_order(growth, warmth, mixed=part.weight, name=f"expansion of {of} x its warmth"),
        ]
    return found


def _coefficient(side: Side, part: Segment, room_above: float) -> Component:
    """Return the term of one expansion coefficient."""
    expansion = part.expansion
    return Component(
        name=f"expansion of {expansion.material} of the {side.name}",
        value=expansion.half_width,
        unit="1/K",
        distribution=Distribution.RECTANGULAR,
        sensitivity=part.weight * (room_above + side.above),
        source=f"{expansion.source} ({expansion.basis})",
    )
