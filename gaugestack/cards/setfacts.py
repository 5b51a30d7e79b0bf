"""What every card says of its set, and how blocks are named on it.

    >>> dict(set_facts(stock))["certificate"]

One line a fact; blocks that are out are gathered by the reason.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from gaugestack.blocks import DueState, due_state
from gaugestack.cards.sheet import safe
from gaugestack.lengths import Unit, engraved_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block, BlockSet

CARE = "By tonight: slide every stack apart, wipe, oil, back in the case."
UNIT_WORDS = {Unit.INCH: "inches", Unit.MILLIMETRE: "millimetres"}
MOST_SIZES = 40
"""Sizes named in one line before the rest is counted."""
MOST_NOTES = 12


def warning(code: str) -> str:
    """Return the line that says when not to trust a card."""
    return (
        f"If the ledger or the set file has changed since this day, ask before using the card: "
        f"gaugestack card check {code} --set FILE"
    )


def set_facts(stock: Stock) -> Iterator[tuple[str, str]]:
    """Return what a card says of its set in one glance."""
    there, issued = stock.at_hand(), len(stock.pieces)
    yield "pieces", f"{there}" if there == issued else f"{there} of {issued}"
    for block_set in stock.sets:
        known = (block_set.standard, block_set.grade and f"grade {block_set.grade}", block_set.material)
        named = "standard" if block_set.standard else "grade" if block_set.grade else "material"
        if any(known):
            yield named, safe(", ".join(word for word in known if word).removeprefix("grade "))
        yield "certificate", certificate_said(block_set, stock)


def certificate_said(block_set: BlockSet, stock: Stock) -> str:
    """Say number, day and due day of a certificate, and how it stands."""
    certificate = block_set.certificate
    if certificate is None:
        known = sum(block.deviation is not None for block in stock.fit if block.owner in ("", block_set.name))
        calibrated = f"{known} block{'s' * (known != 1)} calibrated, by the ledger or the set file"
        return f"none; {calibrated}" if known else "none: sizes are nominal"
    words = [safe(certificate.number, 40) or "without a number"]
    words += [f"of {certificate.date}"] if certificate.date else []
    words += [f"due {certificate.due}"] if certificate.due else ["no due day"]
    state = due_state(certificate, stock.on).state if stock.on else DueState.NONE
    said = ", ".join(words)
    return f"{said} - {state.value.upper()}" if state in (DueState.DUE_SOON, DueState.OVERDUE) else said


def out_facts(stock: Stock) -> Iterator[tuple[str, str]]:
    """Return the blocks that are out, by their reason, those with one good face, and notes."""
    out: dict[str, list[Block]] = {}
    for piece in stock.pieces:
        if not piece.fit:
            out.setdefault(safe("; ".join(piece.reasons)), []).append(piece.block)
    namer = Namer(stock)
    for reason, blocks in out.items():
        yield "not here", f"{reason}: {namer.few(blocks)}"
    if stock.end_only:
        yield "ends only", f"one good face: {namer.few(stock.end_only)}"
    noted = [piece for piece in stock.pieces if piece.block.note]
    for piece in noted[:MOST_NOTES]:
        yield "note", f"{namer.name(piece.block)}: {safe(piece.block.note)}"
    if len(noted) > MOST_NOTES:
        yield "note", f"{len(noted) - MOST_NOTES} more blocks have a note"


class Namer:
    """Names blocks as they are engraved: a serial only where it is needed to tell two pieces apart."""

    def __init__(self, stock: Stock) -> None:
        """Look which sizes are there more than once."""
        self.unit = stock.unit
        self.owners = len(stock.sets) > 1
        self._pieces = Counter((piece.block.nominal, piece.block.wear) for piece in stock.pieces)

    def name(self, block: Block) -> str:
        """Return one block, without its unit where that is the set's own."""
        size = bare(block.engraved, self.unit)
        several = self._pieces[block.nominal, block.wear] > 1
        serial = f"#{safe(block.serial, 12)}" if block.serial and several else ""
        owner = f" ({safe(block.owner, 16)})" if self.owners else ""
        return f"{size}{' wear' if block.wear else ''}{serial}{owner}".replace(" ", "\N{NO-BREAK SPACE}")

    def line(self, blocks: Iterable[Block]) -> str:
        """Return blocks in their order."""
        return " ".join(self.name(block) for block in blocks)

    def few(self, blocks: Iterable[Block]) -> str:
        """Return blocks from the smallest, counted beyond forty."""
        names = [self.name(block) for block in sorted(blocks, key=lambda block: block.nominal)]
        more = f" and {len(names) - MOST_SIZES} more" if len(names) > MOST_SIZES else ""
        return " ".join(names[:MOST_SIZES]) + more


def bare(text: str, unit: Unit) -> str:
    """Return a length's text without its unit, where that is the given one."""
    return text.removesuffix(f" {unit.value}")


def total_said(length: int, unit: Unit) -> str:
    """Return the total of a stack without its unit."""
    return bare(engraved_text(length, unit), unit)
