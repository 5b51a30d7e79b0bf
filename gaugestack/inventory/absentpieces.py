"""The `absent:` list: which pieces of the set are not there.

    present, absent = part_absent(node, issued, findings)

An item is a size, or {size, wear: true} for a wear block, or {size, serial}
for one of several pieces.  What goes missing later is the ledger's affair.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.blocks import in_order
from gaugestack.inventory.fields import SERIAL_LIMIT, fields_of, items_of, scalar_of, size_of
from gaugestack.inventory.nodes import Mapping
from gaugestack.lengths import Length, engraved_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gaugestack.blocks import Block
    from gaugestack.errors import Problem
    from gaugestack.inventory.findings import Findings
    from gaugestack.inventory.nodes import Node
    from gaugestack.inventory.pieces import Issued
    from gaugestack.lengths import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wanted:
    """One item of the list."""

    node: Node
    size: Length
    wear: bool = False
    serial: str = ""


def part_absent(
    node: Node | None, issued: Issued, findings: Findings
) -> tuple[tuple[Block, ...], tuple[Block, ...]]:
    """Return the pieces that are there and those that are absent, both in canonical order."""
    blocks, by_size = issued.blocks, issued.by_size()
    gone: set[int] = set()
    for item in items_of(node, "absent", findings):
        wanted = _read_item(item, issued.unit, findings)
        if wanted is None:
            continue
        fitting = [
            index
            for index, block in by_size.get(wanted.size, [])
            if block.wear == wanted.wear and wanted.serial in ("", block.serial)
        ]
        left = [index for index in fitting if index not in gone]
        problem = _problem_of(wanted, issued, fitting, left)
        if problem is None:
            gone.update(left[-1:])
        elif issued.whole:
            findings.add(problem)
    present = (block for index, block in enumerate(blocks) if index not in gone)
    return in_order(present), in_order(blocks[index] for index in gone)


def nearest_size(size: Length, sizes: Iterable[Length], unit: Unit) -> str:
    """Return a hint with the size of the set nearest to `size`."""
    closest = min(sizes, key=lambda known: (abs(known - size), known), default=None)
    return f"nearest size of the set: {engraved_text(closest, unit)}" if closest else ""


def _read_item(item: Node, unit: Unit, findings: Findings) -> _Wanted | None:
    """Return what one item names."""
    if isinstance(item, Mapping):
        fields = fields_of(item, "an absent piece", ("size", "wear", "serial"), findings)
        if fields is None or not fields.need("size"):
            return None
        size = fields.size("size", unit)
        wear, serial = fields.truth("wear"), fields.text("serial", SERIAL_LIMIT)
        return None if size is None else _Wanted(node=item, size=size, wear=wear, serial=serial)
    scalar = scalar_of(item, "an absent piece", findings)
    size = None if scalar is None else size_of(scalar, unit, findings)
    return None if size is None else _Wanted(node=item, size=size)


def _problem_of(wanted: _Wanted, issued: Issued, fitting: list[int], left: list[int]) -> Problem | None:
    """Return what is wrong with an item: no such size, kind or serial, several, or too often."""
    text = engraved_text(wanted.size, issued.unit)
    if not fitting:
        return _none_fits(wanted, issued, text)
    if len({issued.blocks[index].serial for index in fitting}) > 1:
        hint = f"write {{size: {text.split(maxsplit=1)[0]}, serial: ...}}"
        sentence = f"several {text} blocks differ by their serials: say which is absent"
        return wanted.node.problem(sentence, hint=hint)
    if not left:
        return wanted.node.problem(_too_often(len(fitting), text))
    return None


def _none_fits(wanted: _Wanted, issued: Issued, text: str) -> Problem:
    """Say that the size is not there, or not of the kind or serial that was named."""
    sizes = issued.by_size()
    if wanted.size not in sizes:
        hint = nearest_size(wanted.size, sizes, issued.unit)
        return wanted.node.problem(f"{text} is no size of this set", hint=hint)
    number = text.split(maxsplit=1)[0]
    if wanted.serial:
        return wanted.node.problem(f"no {text} block has the serial {wanted.serial!r}")
    if wanted.wear:
        return wanted.node.problem(f"no {text} block is a wear block", hint=f"write {number} alone")
    hint = f"write {{size: {number}, wear: true}}"
    return wanted.node.problem(f"only wear blocks are {text}", hint=hint)


def _too_often(pieces: int, text: str) -> str:
    """Say that a size is listed more often than it has pieces."""
    if pieces == 1:
        return f"{text} is listed twice"
    return f"{text} is listed more often than its {pieces} pieces"
