r"""The circumstances a set-up is used in, with defaults that say they are assumed.

    conditions = Conditions(room=21.5, part_material="aluminium")
    print("\n".join(conditions.lines()))

Everything a shop seldom writes down and that moves the result all the same.
Holds values only; what they do is for stack.py and angle.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from gaugestack.errors import UsageError
from gaugestack.lengths import Unit
from gaugestack.uncertainty.rounding import limit_text

if TYPE_CHECKING:
    from gaugestack.uncertainty.materials import Expansion

SHOP_FILM = 25.0
"""Limit per wrung joint in nm, shop practice (common practice; 1 µin)."""
CAUTIOUS_FILM = 50.0
"""Limit per wrung joint in nm, cautious shop practice (common practice; 2 µin)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    r"""The circumstances; every limit is half a width, plus and minus.

    room                temperature the blocks, bar and part share, °C
    room_limit          how far that may be off, K
    blocks_above        how much warmer than the room the blocks are known to be, K; so bar_above, part_above
    blocks_limit        how far that may be off, K; so bar_limit, part_limit
    bar_material        a name of materials.py, or an Expansion of your own; so part_material
    block_expansions    expansions of your own for the materials of blocks, by their `material`
    wringing_limit      how far one wrung joint may be off, nm
    joints_together     whether all joints go wrong the same way (one hand, one day, one film) or each alone
    foot_joint          whether the stack's foot on the plate counts as a joint too
    calibration_shared  0 to 1: how much the blocks of one certificate go wrong together, as a correlation;
                        1 is the cautious end, since a certificate seldom says
    given               names of the fields somebody gave, even where they gave what is assumed anyway

    The published sources settle neither whether joints go wrong together nor how
    much a certificate's blocks do, so both are switches that are printed.
    Raises UsageError on values no bench has.
    """

    room: float = 20.0
    room_limit: float = 2.0
    blocks_above: float = 0.0
    blocks_limit: float = 0.5
    bar_above: float = 0.0
    bar_limit: float = 0.5
    part_above: float = 0.0
    part_limit: float = 0.5
    bar_material: str | Expansion = "steel"
    part_material: str | Expansion = "steel"
    block_expansions: tuple[Expansion, ...] = ()
    wringing_limit: float = SHOP_FILM
    joints_together: bool = False
    foot_joint: bool = True
    calibration_shared: float = 1.0
    given: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse what no bench has."""
        for name in ("room", "blocks_above", "bar_above", "part_above"):
            if not math.isfinite(getattr(self, name)):
                raise UsageError.about(_said(name), "not a finite number", hint="degrees, like 21.5")
        for name in ("room_limit", "blocks_limit", "bar_limit", "part_limit", "wringing_limit"):
            limit = getattr(self, name)
            if not (math.isfinite(limit) and limit >= 0):
                sentence = f"a limit of {limit:g}: it is zero or above"
                raise UsageError.about(_said(name), sentence, hint="how far it may be off, without a sign")
        if not 0 <= self.calibration_shared <= 1:
            sentence = (
                f"a share of {self.calibration_shared:g}: it lies from 0 (each alone) to 1 (all together)"
            )
            raise UsageError.about(_said("calibration_shared"), sentence)

    @property
    def room_above_reference(self) -> float:
        """How many kelvin the room is above 20 °C."""
        return self.room - 20.0

    def lines(self, unit: Unit = Unit.MILLIMETRE) -> tuple[str, ...]:
        """Return one line a circumstance; `(assumed)` behind what nobody gave; lengths said in `unit`."""
        joints = "all go wrong together" if self.joints_together else "each goes wrong alone"
        foot = "counts as a joint" if self.foot_joint else "is no joint"
        shared = f"{self.calibration_shared:.0%}"
        film = limit_text(self.wringing_limit, unit)
        bar, part = _material(self.bar_material), _material(self.part_material)
        return (
            f"room {self.room:g} °C, right within {self.room_limit:g} K{self._mark('room', 'room_limit')}",
            self._body("blocks"),
            f"{self._body('bar')}; {bar}{self._mark('bar_material')}",
            f"{self._body('part')}; {part}{self._mark('part_material')}",
            f"a wrung joint is right within {film}{self._mark('wringing_limit')}",
            f"joints: {joints}{self._mark('joints_together')}",
            f"the stack's foot on the plate {foot}{self._mark('foot_joint')}",
            f"one certificate's blocks go wrong together to {shared}{self._mark('calibration_shared')}",
        )

    def _body(self, name: str) -> str:
        """Say how warm a body is."""
        above, limit = getattr(self, f"{name}_above"), getattr(self, f"{name}_limit")
        how = (
            f"{abs(above):g} K {'above' if above > 0 else 'below'} the room"
            if above
            else "as warm as the room"
        )
        return f"{name} {how}, right within {limit:g} K{self._mark(f'{name}_above', f'{name}_limit')}"

    def _mark(self, *names: str) -> str:
        """Mark what has its default: one field, or both of a value and its limit, or which of the two."""
        defaults = {item.name: item.default for item in fields(self)}
        assumed = [name for name in names if name not in self.given and getattr(self, name) == defaults[name]]
        if len(assumed) == len(names):
            return " (assumed)"
        return f" ({_said(assumed[0])} assumed)" if assumed else ""


def _material(material: str | Expansion) -> str:
    """Return the name of a material."""
    return material if isinstance(material, str) else material.material


def _said(name: str) -> str:
    """Return a field's name as words."""
    return name.replace("_", " ")
