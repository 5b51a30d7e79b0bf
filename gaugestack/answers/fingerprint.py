"""The short code of a set as it stands: printed on a card, typed back to ask whether the card still holds.

    >>> fingerprint(stock)
    'K7QF-2M9P'
    >>> read_code("k7qf2m9p")
    'K7QF-2M9P'

It covers what the set file and the ledger together say: the set's head, its
bars, and of every piece its size, deviation and whether it is fit for use.
How the file is written, and how often a block was used, do not count.  The
last character checks the others, so that a slip in typing is told from a card
that no longer holds.
"""

from __future__ import annotations

import json
import re
from hashlib import sha256
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import BlockSet, Certificate
    from gaugestack.inventory.state import PieceState
    from gaugestack.inventory.stockroom import Piece

LETTERS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
"""31 characters, a prime number; none is taken for another (no 0 O, no 1 I L)."""
HASHED = 7
_CODE = re.compile(r"[0-9A-Z]{4}[- ]?[0-9A-Z]{4}")


def fingerprint(stock: Stock) -> str:
    """Return the code of a stock as it stands on its day, like `K7QF-2M9P`."""
    return code_of(stock.sets, stock.bars, stock.pieces)


def code_of(
    sets: Sequence[BlockSet], bars: Iterable[SineBar], pieces: Iterable[Piece] | Iterable[PieceState]
) -> str:
    """Return the code of sets, their bars and the state of every piece."""
    said = [
        [_set_said(block_set) for block_set in sets],
        [[bar.name, bar.effective, bar.base_height, bar.unit.value, bar.kind] for bar in bars],
        [_piece_said(piece) for piece in pieces],
    ]
    text = json.dumps(said, ensure_ascii=True, separators=(",", ":"))
    number = int.from_bytes(sha256(text.encode("ascii")).digest())
    places = [number // len(LETTERS) ** power % len(LETTERS) for power in range(HASHED)]
    word = "".join(LETTERS[place] for place in (*places, _check(places)))
    return f"{word[:4]}-{word[4:]}"


def read_code(text: str) -> str | None:
    """Return a code as it was typed, however its letters and dash were written; None where it is none."""
    word = text.strip().upper().replace("-", "").replace(" ", "")
    if len(word) != HASHED + 1 or not set(word) <= set(LETTERS):
        return None
    places = [LETTERS.index(letter) for letter in word]
    return f"{word[:4]}-{word[4:]}" if places[-1] == _check(places[:-1]) else None


def looks_like_a_code(text: str) -> bool:
    """Tell whether a text was meant as a code: eight letters and digits, perhaps with a dash."""
    return _CODE.fullmatch(text.strip().upper()) is not None


def _check(places: Iterable[int]) -> int:
    """Return the check place: any one wrong character, or two changed places, alters it."""
    return sum(weight * place for weight, place in enumerate(places, 1)) % len(LETTERS)


def _set_said(block_set: BlockSet) -> list[object]:
    """Return what the head of a set says."""
    return [
        block_set.name,
        block_set.unit.value,
        block_set.standard,
        block_set.grade,
        block_set.material,
        block_set.retire_beyond,
        _certificate_said(block_set.certificate),
    ]


def _certificate_said(certificate: Certificate | None) -> list[object]:
    """Return what a certificate says of itself."""
    if certificate is None:
        return []
    known = certificate.uncertainty
    return [
        certificate.number,
        str(certificate.date),
        str(certificate.due),
        certificate.temperature,
        certificate.source.value,
        [known.fixed, known.per_length, known.coverage] if known else [],
    ]


def _piece_said(piece: Piece | PieceState) -> list[object]:
    """Return what tells one state of a piece from another."""
    block = piece.block
    return [
        block.nominal,
        block.unit.value,
        block.serial,
        block.copy,
        block.wear,
        block.material,
        block.deviation,
        block.variation,
        block.trust.value,
        block.note,
        piece.fit,
        piece.fit and piece.end_only,
        piece.lent_to,
        piece.uncertainty,
    ]
