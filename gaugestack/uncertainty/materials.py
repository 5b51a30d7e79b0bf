"""How much materials grow with warmth, and how far that figure may be off.

    expansion("steel", Role.BLOCK).per_kelvin      # 1.15e-05
    expansion("brass", Role.WORK).half_width       # 1.7e-06

Coefficients near 20 °C with the half-width of a rectangular distribution, for
when no certificate gives them.  Each says its source and basis: seen, memory,
derived (from the spread of printed values) or common practice.  A coefficient
from a certificate is an `Expansion` of your own.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from gaugestack.errors import UsageError, nearest


class Role(StrEnum):
    """What is made of it; blocks are known better than work."""

    BLOCK = "block"
    WORK = "work"


@dataclass(frozen=True, slots=True, kw_only=True)
class Expansion:
    """Linear expansion per kelvin near 20 °C, right within plus and minus `half_width`."""

    material: str
    per_kelvin: float
    half_width: float
    source: str
    basis: str


def _row(material: str, per_kelvin: str, half_width: str, source: str, basis: str) -> Expansion:
    """Return one row; the two figures in millionths per kelvin."""
    return Expansion(
        material=material,
        per_kelvin=float(f"{per_kelvin}e-6"),
        half_width=float(f"{half_width}e-6"),
        source=source,
        basis=basis,
    )


BLOCK_MATERIALS: tuple[Expansion, ...] = (
    _row("steel", "11.5", "1.0", "ISO 3650:1998, 6.2.2", "memory"),
    _row("chrome carbide", "8.4", "0.5", "spread and rounding of printed values", "common practice"),
    _row("tungsten carbide", "4.5", "1.0", "printed values 4.0e-6 to 5.5e-6, by binder", "derived"),
    _row("zirconia", "9.5", "1.0", "printed values 9.2e-6 to 10e-6", "derived"),
)
"""Gauge blocks.  JCGM 100:2008, H.1.3.3, takes plus and minus 2e-6 for its steel block (seen)."""

WORK_MATERIALS: tuple[Expansion, ...] = (
    _row("steel", "11.5", "1.5", "printed values of carbon steel 9.9e-6 to 13.0e-6", "derived"),
    _row("martensitic stainless steel", "10.5", "1.0", "printed values 9.9e-6 to 11.7e-6", "derived"),
    _row("austenitic stainless steel", "17.3", "1.1", "printed values 16.2e-6 to 18.4e-6", "derived"),
    _row("grey cast iron", "10.8", "1.3", "printed values 9.9e-6 to 12.1e-6", "derived"),
    _row("aluminium", "23.1", "1.2", "printed values 22.2e-6 to 24e-6; J. Res. NIST 99 (1994) 31", "derived"),
    _row("brass", "19.9", "1.7", "printed values 18.0e-6 to 21.6e-6", "derived"),
    _row("bronze", "18.5", "2.5", "printed values 16.7e-6 to 21e-6", "derived"),
)
"""Work pieces and sine bars."""

_OTHER_NAMES = {
    "carbide": "tungsten carbide",
    "ceramic": "zirconia",
    "zirconia ceramic": "zirconia",
    "carbon steel": "steel",
    "stainless steel 304": "austenitic stainless steel",
    "stainless steel 316": "austenitic stainless steel",
    "cast iron": "grey cast iron",
    "aluminum": "aluminium",
}


def known_materials(role: Role) -> tuple[str, ...]:
    """Return the names of the materials of a role, those of the other role after them."""
    return tuple(dict.fromkeys(row.material for row in _rows(role)))


def expansion(material: str | Expansion, role: Role) -> Expansion:
    """Return the expansion of a material; work may be of a block's material, and the reverse.

    An `Expansion` of your own is returned as it is.
    Raises UsageError for a material that is not listed, naming all that are.
    """
    if isinstance(material, Expansion):
        return material
    name = " ".join(material.split()).casefold()
    name = _OTHER_NAMES.get(name, name)
    for row in _rows(role):
        if row.material == name:
            return row
    known = known_materials(role)
    sentence = f"{material!r} has no expansion coefficient here; known: {', '.join(known)}"
    close = nearest(name, (*known, *_OTHER_NAMES))
    hint = close if close.startswith("did") else "or give the coefficient and how far it may be off"
    raise UsageError.about("material", sentence, hint=hint)


def _rows(role: Role) -> tuple[Expansion, ...]:
    """Return all rows, those of the role first."""
    if role is Role.BLOCK:
        return (*BLOCK_MATERIALS, *WORK_MATERIALS)
    return (*WORK_MATERIALS, *BLOCK_MATERIALS)
