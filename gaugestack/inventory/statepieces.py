"""Which piece an event means, and what the event makes of it.

    shelf = Shelf(block_set)
    pieces, contradictions = shelf.run(records)

The rules of what can follow what.  A closing event needs the condition it
closes; a block that is gone can only be found; nothing is lent twice.  Events
are taken in the order of their days, those of one day in the order written;
those a later record strikes are not taken at all.

A record that contradicts the ones before it (the set file was edited since, or
the ledger by hand) is named, and taken on the safe side: it may make a block
unfit, never fit.  Does not read files and says nothing about fitness.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from gaugestack.inventory.absentpieces import nearest_size
from gaugestack.inventory.events import Kind, piece_name
from gaugestack.inventory.strikes import standing
from gaugestack.lengths import engraved_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from gaugestack.blocks import Block, BlockSet
    from gaugestack.inventory.events import Event, Record
    from gaugestack.lengths import Length

CLOSES: Mapping[Kind, Kind] = MappingProxyType(
    {
        Kind.FOUND: Kind.MISSING,
        Kind.RETURNED: Kind.LENT,
        Kind.APART: Kind.STANDING,
        Kind.WRINGS: Kind.DOES_NOT_WRING,
        Kind.BOTH_FACES_GOOD: Kind.ONE_GOOD_FACE,
        Kind.CLEARED: Kind.SUSPECT,
        Kind.RELEASED: Kind.RESERVED,
    }
)
"""What a closing event ends."""
OPENS = (*CLOSES.values(), Kind.WORN, Kind.RETIRED)
"""The events after which a block is in a condition of that name."""
_GONE = (Kind.MISSING,)
_GONE_OR_RETIRED = (Kind.MISSING, Kind.RETIRED)
_NOT_HERE = (Kind.MISSING, Kind.LENT, Kind.RETIRED)
_HINDERED_BY: Mapping[Kind, tuple[Kind, ...]] = MappingProxyType(
    {
        **dict.fromkeys(OPENS, _GONE_OR_RETIRED),
        Kind.LENT: (*_NOT_HERE, Kind.STANDING),
        Kind.STANDING: _NOT_HERE,
        Kind.USED: _NOT_HERE,
        Kind.CALIBRATED: _GONE,
        Kind.RETURNED: _GONE,
        Kind.RETIRED: (),
    }
)
_IS_NOT: Mapping[Kind, str] = MappingProxyType(
    {
        Kind.MISSING: "is not missing",
        Kind.LENT: "is not lent",
        Kind.STANDING: "stands in no job",
        Kind.DOES_NOT_WRING: "wrings already",
        Kind.ONE_GOOD_FACE: "has two good faces already",
        Kind.SUSPECT: "is not suspect",
        Kind.RESERVED: "is not reserved",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A block and what the records say of it.

    `marks` holds the open conditions, each with the event that began it;
    `calibration` is the newest one; `absent` means the set file lacks it.
    """

    block: Block
    absent: bool = False
    marks: Mapping[Kind, Event] = field(default_factory=dict)
    calibration: Event | None = None
    uses: int = 0

    @property
    def name(self) -> str:
        """The piece as it is spoken of."""
        return piece_name(self.block.engraved, self.block.serial, wear=self.block.wear)

    def refusal(self, event: Event) -> str:
        """Return why the event cannot be true of this piece now; nothing where it can."""
        hindering = (event.kind, *_HINDERED_BY.get(event.kind, ()))
        for kind in hindering:
            if kind in self.marks:
                return f"{self.name} {sentence_of(self.marks[kind])}"
            if kind is Kind.MISSING and self.absent:
                return f"{self.name} is absent from the set"
        return self._not_open(event)

    def _not_open(self, event: Event) -> str:
        """Say that there is nothing an event could close, or that it is another job's."""
        closed = CLOSES.get(event.kind)
        if closed is None or (closed is Kind.MISSING and self.absent):
            return ""
        mark = self.marks.get(closed)
        if mark is None:
            return f"{self.name} {_IS_NOT[closed]}"
        if event.job and mark.job != event.job:
            return f"{self.name} {sentence_of(mark)}, not {event.job}"
        return ""

    def after(self, event: Event) -> Piece:
        """Return the piece after the event, whether or not it contradicts what was before."""
        if event.kind is Kind.USED:
            return replace(self, uses=self.uses + 1)
        if event.kind is Kind.CALIBRATED:
            return replace(self, calibration=event)
        if event.kind in OPENS:
            return replace(self, marks={**self.marks, event.kind: event})
        left = {kind: mark for kind, mark in self.marks.items() if kind is not CLOSES[event.kind]}
        return replace(self, marks=left, absent=self.absent and event.kind is not Kind.FOUND)


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """A record that cannot be true after the ones before it, and why."""

    record: Record
    sentence: str


class Shelf:
    """The pieces of a set as issued, found by what an event calls them."""

    __slots__ = ("_by_name", "_pieces", "_unit")

    def __init__(self, block_set: BlockSet) -> None:
        """Lay out every piece of the set, the absent ones too."""
        absent = {block.order for block in block_set.absent}
        self._unit = block_set.unit
        self._pieces = tuple(Piece(block=block, absent=block.order in absent) for block in block_set.issued)
        self._by_name: dict[tuple[Length, bool], list[int]] = {}
        for index, piece in enumerate(self._pieces):
            self._by_name.setdefault((piece.block.nominal, piece.block.wear), []).append(index)

    def run(self, records: Iterable[Record]) -> tuple[tuple[Piece, ...], tuple[Contradiction, ...]]:
        """Return every piece after the records, and the records that contradict others.

        Every record must name a piece: `naming_fault` is empty for its event.
        A void that strikes nothing is a contradiction too.
        """
        pieces = list(self._pieces)
        counting, faults = standing(records)
        contradictions = [Contradiction(record=record, sentence=sentence) for record, sentence in faults]
        for record in sorted(counting, key=lambda record: (record.event.on, record.n)):
            indices = self._indices(record.event)
            refusals = [pieces[index].refusal(record.event) for index in indices]
            chosen = next((index for index, no in zip(indices, refusals, strict=True) if not no), None)
            if chosen is None:
                contradictions.append(Contradiction(record=record, sentence=refusals[0]))
                chosen = indices[0]
                pieces[chosen] = _on_the_safe_side(pieces[chosen], record.event)
            else:
                pieces[chosen] = pieces[chosen].after(record.event)
        return tuple(pieces), tuple(contradictions)

    def naming_fault(self, event: Event) -> tuple[str, str]:
        """Return why an event names no one piece, and a hint; two empty texts where it does."""
        indices = self._indices(event)
        if not indices:
            return self._no_such_piece(event)
        blocks = [self._pieces[index].block for index in indices]
        if len({block.serial for block in blocks}) > 1:
            serials = ", ".join(block.serial for block in blocks)
            return f"several {event.piece} blocks differ by their serials: say which", f"serials: {serials}"
        if event.kind is Kind.CALIBRATED and len(blocks) > 1:
            sentence = f"{len(blocks)} blocks are {event.piece}: whose deviation is this?"
            return sentence, "give each a serial in the set file"
        return "", ""

    def serial_of(self, event: Event) -> str:
        """Return the serial of the piece an event names."""
        return self._pieces[self._indices(event)[0]].block.serial

    def _indices(self, event: Event) -> list[int]:
        """Return where the pieces lie that an event's words fit."""
        named = self._by_name.get((event.size, event.wear), [])
        return [i for i in named if event.serial in ("", self._pieces[i].block.serial)]

    def _no_such_piece(self, event: Event) -> tuple[str, str]:
        """Say whether the size, the kind of block or the serial is not there."""
        size = engraved_text(event.size, self._unit)
        if (event.size, event.wear) in self._by_name:
            return f"no {size} block has the serial {event.serial!r}", self._serials(event)
        if (event.size, not event.wear) in self._by_name:
            if event.wear:
                return f"no {size} block is a wear block", "leave wear away"
            return f"only wear blocks are {size}", "say wear: true"
        hint = nearest_size(event.size, (size for size, _ in self._by_name), self._unit)
        return f"{size} is no size of this set", hint

    def _serials(self, event: Event) -> str:
        """Return a hint with the serials there are."""
        serials = [self._pieces[i].block.serial for i in self._by_name[event.size, event.wear]]
        known = ", ".join(serial for serial in serials if serial)
        return f"serials: {known}" if known else "this block has no serial: leave it away"


def words_of(mark: Event) -> str:
    """Return an open condition in words: `lent to Ola since 2026-02-03, back 2026-02-10`."""
    since = f"since {mark.on}"
    match mark.kind:
        case Kind.LENT:
            return f"lent to {mark.to} {since}{f', back {mark.back}' if mark.back else ''}"
        case Kind.STANDING:
            return f"standing in {mark.job} {since}"
        case Kind.RESERVED:
            return f"reserved for {mark.job} {since}"
        case Kind.SUSPECT:
            return f"suspect {since}: {mark.why}"
        case _:
            return f"{mark.kind} {since}"


def sentence_of(mark: Event) -> str:
    """Return an open condition as the end of a sentence about the block."""
    verb = {Kind.DOES_NOT_WRING: "", Kind.ONE_GOOD_FACE: "has "}.get(mark.kind, "is ")
    return f"{verb}{words_of(mark)}"


def _on_the_safe_side(piece: Piece, event: Event) -> Piece:
    """Return the piece after an event that contradicts: an older condition stays, none is closed."""
    if event.kind in CLOSES:
        return piece
    if event.kind in piece.marks:
        return piece
    return piece.after(event)
