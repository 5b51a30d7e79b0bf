"""The `blocks:` list: entries to sizes, each with the line that gave it.

    entries = read_entries(node, unit, findings)

An entry is a range {from, to, step} or one size {size}.  A deviation may carry
`trust:`, where it comes from; without it it is an unverified sheet.  What the entries
mean together (twice the same size, descriptions) is said in pieces.py.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.blocks import MOST_PIECES, Trust
from gaugestack.inventory.fields import NOTE_LIMIT, SERIAL_LIMIT, Fields, fields_of, items_of
from gaugestack.inventory.nodes import Sequence
from gaugestack.lengths import Length, Unit, engraved_text, exact_text, small_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gaugestack.errors import Problem
    from gaugestack.inventory.findings import Findings
    from gaugestack.inventory.nodes import Mapping, Node

_RANGE = ("from", "to", "step", "material", "note")
_SINGLE = ("size", "pieces", "wear", "material", "serial", "deviation", "trust", "note")
_ENDS = ("from", "to", "step")
_PLAIN_SIZE = re.compile(r"[0-9]{1,4}(?:\.[0-9]{1,6})?")
_NO_STEP = Length(0)
MOST_OF_ONE = 99
TRUSTED = (Trust.LABORATORY_REPORT, Trust.OWN_COMPARISON, Trust.UNVERIFIED_SHEET)
"""What a file may say of where its values come from."""
LARGEST_DEVIATION = Length(100_000_000)
"""0.1 mm (common practice): many times what any grade allows a gauge block of 1 m."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of the list: a range (`step` above zero) or one size.

    `pieces` is None where the file does not say, which means one.
    """

    node: Mapping
    first: Length
    last: Length
    step: Length = _NO_STEP
    pieces: int | None = None
    wear: bool = False
    material: str = ""
    serial: str = ""
    deviation: Length | None = None
    trust: Trust = Trust.NOMINAL_ONLY
    note: str = ""

    @property
    def count(self) -> int:
        """How many pieces the entry gives."""
        if self.step:
            return (self.last - self.first) // self.step + 1
        return self.pieces or 1

    @property
    def line(self) -> int:
        """The line the entry begins in."""
        return self.node.place.line

    def sizes(self) -> Iterable[Length]:
        """Return the sizes of the entry, each once."""
        if not self.step:
            return (self.first,)
        return (Length(size) for size in range(self.first, self.last + 1, self.step))


def read_entries(node: Node | None, unit: Unit, findings: Findings) -> tuple[Entry, ...]:
    """Return the entries that could be read, 1000 pieces at most."""
    items = items_of(node, "blocks", findings)
    if isinstance(node, Sequence) and not items:
        findings.add(node.problem("blocks is empty: a set has at least one block"))
    entries: list[Entry] = []
    count = 0
    for item in items:
        entry = _read_entry(item, unit, findings)
        if entry is None:
            continue
        count += entry.count
        if count > MOST_PIECES:
            findings.add(_too_many(entry, count))
            break
        entries.append(entry)
    return tuple(entries)


def too_large(deviation: Length, size: Length) -> bool:
    """Return whether a deviation is above 0.1 mm or 1 % of the size: a slip, no gauge block."""
    return abs(deviation) > min(LARGEST_DEVIATION, size // 100)


def deviation_sentence(deviation: Length, size: Length, unit: Unit) -> str:
    """Say that a deviation cannot be meant."""
    return f"a deviation of {small_text(deviation, unit)} at {engraved_text(size, unit)}: a slip?"


def _too_many(entry: Entry, count: int) -> Problem:
    """Say that the file describes too many pieces."""
    sentence = f"{count} pieces up to here: a set file describes at most {MOST_PIECES}"
    return entry.node.problem(sentence, hint="check from, to and step" if entry.step else "")


def _read_entry(node: Node, unit: Unit, findings: Findings) -> Entry | None:
    """Return one entry of either kind."""
    keys = _keys(node)
    if keys & set(_ENDS):
        return _read_range(node, keys, unit, findings)
    if not keys & {"size"}:
        text = getattr(node, "text", "")
        size = text if _PLAIN_SIZE.fullmatch(text) else "0.050"
        hint = f"write {{size: {size}}} or {{from: 0.101, to: 0.149, step: 0.001}}"
        findings.add(node.problem("a block needs a size, or from, to and step", hint=hint))
        return None
    return _read_single(node, unit, findings)


def _keys(node: Node) -> set[str]:
    """Return the keys of a mapping; none for anything else."""
    return {key.text for key, _ in getattr(node, "pairs", ())}


def _read_range(node: Node, keys: set[str], unit: Unit, findings: Findings) -> Entry | None:
    """Return a range; whatever belongs to one piece does not fit it."""
    foreign = keys & (set(_SINGLE) - set(_RANGE))
    fields = fields_of(node, "a range", (*_RANGE, *foreign), findings)
    if fields is None:
        return None
    for key in sorted(foreign):
        hint = "give that piece an entry of its own: {size: ...}"
        findings.add(fields.key(key).problem(f"{key!r} does not fit a range", hint=hint))
    first, last, step = (fields.size(key, unit) for key in _ENDS)
    material, note = fields.text("material"), fields.text("note", NOTE_LIMIT)
    if not fields.need(*_ENDS) or first is None or last is None or step is None or foreign:
        return None
    entry = Entry(node=fields.node, first=first, last=last, step=step, material=material, note=note)
    return entry if _divides(entry, fields, unit, findings) else None


def _divides(entry: Entry, fields: Fields, unit: Unit, findings: Findings) -> bool:
    """Return whether a range goes up and ends exactly on `to`."""
    to = fields.get("to") or entry.node
    if entry.last < entry.first:
        findings.add(to.problem("'to' is below 'from'"))
        return False
    over = (entry.last - entry.first) % entry.step
    if over:
        below = engraved_text(entry.last - over, unit)
        above = engraved_text(entry.last - over + entry.step, unit)
        sentence = f"the steps do not end on 'to': {exact_text(over, unit)} is left over"
        findings.add(to.problem(sentence, hint=f"the steps reach {below} and {above}"))
    return not over


def _read_single(node: Node, unit: Unit, findings: Findings) -> Entry | None:
    """Return the entry of one size."""
    fields = fields_of(node, "a block", _SINGLE, findings)
    if fields is None:
        return None
    size = fields.size("size", unit)
    pieces, serial = fields.whole("pieces", MOST_OF_ONE), fields.text("serial", SERIAL_LIMIT)
    deviation = fields.deviation("deviation", unit)
    wear, material, note = fields.truth("wear"), fields.text("material"), fields.text("note", NOTE_LIMIT)
    _one_piece(fields, pieces, findings)
    if size is None:
        return None
    if deviation is not None and too_large(deviation, size):
        about = fields.get("deviation") or node
        findings.add(about.problem(deviation_sentence(deviation, size, unit)))
    return Entry(
        node=fields.node, first=size, last=size, pieces=pieces, wear=wear,
        material=material, serial=serial, deviation=deviation, note=note,
        trust=_trust(fields, findings),
    )  # fmt: skip


def _trust(fields: Fields, findings: Findings) -> Trust:
    """Return where the entry's deviation comes from; without one there is nothing to trust."""
    stated = fields.choice("trust", TRUSTED)
    if "deviation" in fields:
        return Trust(stated or Trust.UNVERIFIED_SHEET)
    if "trust" in fields:
        findings.add(fields.key("trust").problem("'trust' belongs to a deviation, and there is none"))
    return Trust.NOMINAL_ONLY


def _one_piece(fields: Fields, pieces: int | None, findings: Findings) -> None:
    """Refuse one serial or one deviation for several pieces."""
    if pieces is None or pieces == 1:
        return
    for key in ("serial", "deviation"):
        about = fields.get(key)
        if about is not None:
            hint = "write one entry a piece, each with its serial"
            findings.add(about.problem(f"one {key} for {pieces} pieces", hint=hint))
