"""Entries to physical pieces: which are twice there, which describe another.

    blocks = build_blocks(entries, Head(name="Bench set", unit=Unit.INCH), findings)

The rules for equal sizes.  An ordinary size stands once in a file, unless its
entries are single pieces with serials of their own, or one single entry with a
serial, deviation or note describes a piece that a range gives: then it is
that piece, not a second one.  Wear blocks are a kind apart.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

from gaugestack.blocks import Block, in_order
from gaugestack.lengths import Length, Unit, engraved_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gaugestack.inventory.blockentries import Entry
    from gaugestack.inventory.findings import Findings

_SECOND = "for several equal pieces write pieces: 2, or give each an entry with its serial"
_SHOWN = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """What every piece takes from the head of its file."""

    name: str
    unit: Unit
    material: str = "steel"


@dataclass(frozen=True, slots=True, kw_only=True)
class Issued:
    """Every piece the entries describe, in canonical order.

    `whole` is false where an entry could not be read: then a size that is not
    here may still be one of the set's, and nobody is blamed for naming it.
    """

    blocks: tuple[Block, ...]
    unit: Unit
    whole: bool = True

    def by_size(self) -> dict[Length, list[tuple[int, Block]]]:
        """Return the pieces of each size with their index."""
        by_size: dict[Length, list[tuple[int, Block]]] = {}
        for index, block in enumerate(self.blocks):
            by_size.setdefault(block.nominal, []).append((index, block))
        return by_size


def build_blocks(entries: Iterable[Entry], head: Head, findings: Findings) -> tuple[Block, ...]:
    """Return every piece the entries describe, in canonical order."""
    in_file_order = sorted(entries, key=lambda entry: (entry.line, entry.node.place.column))
    by_size = _range_sizes((entry for entry in in_file_order if entry.step), head.unit, findings)
    groups: dict[tuple[Length, bool], list[Entry]] = {}
    for entry in in_file_order:
        if not entry.step:
            groups.setdefault((entry.first, entry.wear), []).append(entry)
    _refuse_same_serials(groups, head.unit, findings)
    blocks: list[Block] = []
    for (size, wear), singles in groups.items():
        ranged = None if wear else by_size.pop(size, None)
        _refuse_same_size(singles, ranged, head.unit, findings)
        material = ranged.material if ranged else ""
        blocks += [block for entry in singles for block in _blocks(entry, size, head, material)]
    blocks += [block for size, entry in by_size.items() for block in _blocks(entry, size, head)]
    return in_order(blocks)


def _range_sizes(ranges: Iterable[Entry], unit: Unit, findings: Findings) -> dict[Length, Entry]:
    """Return the range of each size; ranges that give the same sizes are a problem."""
    by_size: dict[Length, Entry] = {}
    for entry in ranges:
        again: dict[int, list[Length]] = {}
        for size in entry.sizes():
            first = by_size.setdefault(size, entry)
            if first is not entry:
                again.setdefault(first.line, []).append(size)
        for line, sizes in again.items():
            sentence = f"this range gives {_some(sizes, unit)} again: first in line {line}"
            findings.add(entry.node.problem(sentence, hint="a size belongs to one range"))
    return by_size


def _some(sizes: list[Length], unit: Unit) -> str:
    """Name up to three sizes and count the others."""
    named = ", ".join(engraved_text(size, unit) for size in islice(sizes, _SHOWN))
    return f"{named} and {len(sizes) - _SHOWN} more" if len(sizes) > _SHOWN else named


def _refuse_same_serials(
    groups: dict[tuple[Length, bool], list[Entry]], unit: Unit, findings: Findings
) -> None:
    """Refuse one serial on two pieces of the same size."""
    seen: dict[tuple[Length, str], Entry] = {}
    for entry in (entry for group in groups.values() for entry in group if entry.serial):
        first = seen.setdefault((entry.first, entry.serial), entry)
        if first is not entry:
            size = engraved_text(entry.first, unit)
            sentence = f"serial {entry.serial!r} of {size} stands twice: first in line {first.line}"
            findings.add(entry.node.problem(sentence))


def _refuse_same_size(singles: list[Entry], ranged: Entry | None, unit: Unit, findings: Findings) -> None:
    """Refuse a size that stands twice and could be one piece or two."""
    if ranged and len(singles) == 1 and _describes(singles[0]):
        return
    first = ranged or singles[0]
    serials = {entry.serial for entry in singles}
    if ranged is None and (len(singles) == 1 or "" not in serials):
        return
    for entry in singles if ranged else singles[1:]:
        size = engraved_text(entry.first, unit)
        sentence = f"{size} stands twice: first in line {first.line}"
        findings.add(entry.node.problem(sentence, hint=_SECOND))


def _describes(entry: Entry) -> bool:
    """Return whether a single entry tells more about a piece without counting pieces."""
    tells = bool(entry.serial or entry.note) or entry.deviation is not None
    return tells and entry.pieces is None


def _blocks(entry: Entry, size: Length, head: Head, material: str = "") -> list[Block]:
    """Return the pieces an entry gives of one size; `material` is that of the range it describes."""
    count = 1 if entry.step else entry.count
    return [
        Block(
            nominal=size,
            unit=head.unit,
            serial=entry.serial,
            copy=copy,
            wear=entry.wear,
            material=entry.material or material or head.material,
            deviation=entry.deviation,
            trust=entry.trust,
            note=entry.note,
            owner=head.name,
            place=entry.node.place,
        )
        for copy in range(1, count + 1)
    ]
