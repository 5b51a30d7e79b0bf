"""The answer of `card check`, as text and as JSON.

>>> print(card_check_text(checked))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.jsonform import Form, headed
from gaugestack.cards.screen import page, remark_lines, wrapped
from gaugestack.errors import visible

if TYPE_CHECKING:
    from gaugestack.answers.cardcheck import CardChecked

MOST_RECORDS = 12
"""Records named before the rest is counted."""


def card_check_text(found: CardChecked) -> str:
    """Return the screen of `card check`."""
    name = visible(found.stock.name)
    if found.holds:
        lines = wrapped(f"{found.printed} holds: {name} stands as on the card.", "", "  ")
    else:
        said = f"{found.printed} no longer holds: {name} now has the code {found.current}."
        lines = wrapped(said, "", "  ")
        lines += _since(found)
    return page((*lines, *remark_lines(visible(text) for text in found.remarks)))


def _since(found: CardChecked) -> list[str]:
    """Return what happened since the card was printed, or that nobody can tell."""
    if not found.known:
        said = (
            "No earlier state of this ledger has that code: the set file was changed, a day passed that "
            "the ledger waits for, or it is the card of another set. Print a new one."
        )
        return wrapped(said, "", "  ")
    lines = ["Since then:"]
    for record in found.since[:MOST_RECORDS]:
        event = record.event
        lines += wrapped(visible(f"{event.on}  {event.piece}: {event.kind}"), "  ", "    ")
    if len(found.since) > MOST_RECORDS:
        lines.append(f"  and {len(found.since) - MOST_RECORDS} more records")
    return lines


def card_check_form(found: CardChecked) -> Form:
    """Return the form "gaugestack/card-check"."""
    since = [
        {"n": r.n, "on": str(r.event.on), "event": r.event.kind.value, "piece": r.event.piece}
        for r in found.since
    ]
    return headed(
        "card-check",
        {
            "set": found.stock.name,
            "printed": found.printed,
            "now": found.current,
            "holds": found.holds,
            "since": since if found.known else None,
            "remarks": list(found.remarks),
        },
    )
