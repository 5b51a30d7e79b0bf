"""Does a printed card still hold?  The answer of the command `card check`.

    >>> checked = check_card("K7QF-2M9P", stock)
    >>> checked.holds, checked.since

The code on the card is compared with that of the set as it stands.  Where it
differs, the ledger is gone back record by record: if an earlier state had the
card's code, the records since are named.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.answers.fingerprint import code_of, fingerprint, looks_like_a_code, read_code
from gaugestack.answers.setcheck import checked
from gaugestack.errors import UsageError

if TYPE_CHECKING:
    from gaugestack.answers.stock import Stock
    from gaugestack.inventory.events import Record

_PRINTED = re.compile(r"card\s+code\W*(?:<[^<>]*>\s*)*([0-9A-Z]{4}-[0-9A-Z]{4})", re.IGNORECASE)
FURTHEST_BACK = 1000
"""Records gone back at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardChecked:
    """Whether the card with the code `printed` still holds for a set whose code is `current`.

    `since` holds the ledger's records written after the card, where the ledger
    tells that; `known` is whether it does.  `remarks` are what else the holder
    of a card should know.
    """

    stock: Stock
    printed: str
    current: str
    known: bool
    since: tuple[Record, ...] = ()
    remarks: tuple[str, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether the card still holds."""
        return self.printed == self.current


def code_in(text: str, argument: str = "CODE") -> str:
    """Return the one code in a text: the code itself, or a whole card in any form.

    Raises UsageError where there is none, more than one, or a mistyped one.
    """
    if looks_like_a_code(text):
        words = [text]
    else:
        words = list(dict.fromkeys(found.upper() for found in _PRINTED.findall(text)))
    if not words:
        raise UsageError.about(
            argument, "no card code here", hint="type the eight characters, like K7QF-2M9P"
        )
    if len(words) > 1:
        raise UsageError.about(argument, f"several card codes here: {', '.join(words)}", hint="type one")
    code = read_code(words[0])
    if code is None:
        raise UsageError.about(
            argument,
            f"{words[0]!r} is no card code: a character is wrong",
            hint="look again; there is no 0, O, 1, I or L in a code",
        )
    return code


def check_card(code: str, stock: Stock) -> CardChecked:
    """Return whether a card with this code holds for a stock as it stands on its day."""
    current = fingerprint(stock)
    since = () if code == current else _since(code, stock)
    return CardChecked(
        stock=stock,
        printed=code,
        current=current,
        known=bool(since) or code == current,
        since=since,
        remarks=checked(stock, stock.on).problems,
    )


def _since(code: str, stock: Stock) -> tuple[Record, ...]:
    """Return the records after which a card with this code no longer held; () where none tells."""
    if len(stock.sets) != 1 or not stock.records or stock.on is None:
        return ()
    from gaugestack.inventory.state import fold  # noqa: PLC0415  (only where there is a ledger)

    records = stock.records[0]
    for known in reversed(range(max(0, len(records) - FURTHEST_BACK), len(records))):
        state = fold(stock.block_set, records[:known], stock.on)
        if code_of(stock.sets, stock.bars, state.pieces) == code:
            return records[known:]
    return ()
