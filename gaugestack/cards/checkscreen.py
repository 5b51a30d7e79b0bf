"""What `set check` adds to the screen and the JSON of a set.

>>> screen.set_text(answer, extra=check_lines(answer.checked))
>>> {**jsonform.set_form(answer, "set-check"), **check_fields(answer.checked)}
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from gaugestack.blocks import DueState
from gaugestack.cards.screen import wrapped
from gaugestack.errors import visible

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from gaugestack.answers.setcheck import Checked
    from gaugestack.blocks import Block
    from gaugestack.grades import GradeMet

MOST_NAMED = 6
"""Blocks named in one line before the rest is counted."""


def check_lines(checked: Checked) -> Iterator[str]:
    """Return the lines about calibration, grade, trust and loans, then the problems."""
    yield ""
    for label, said in (
        ("calibration", _calibration(checked)),
        ("grade", _grade(checked)),
        ("values", ", ".join(f"{count} {trust}" for trust, count in checked.trusts)),
        ("lent", _lent(checked)),
    ):
        if said:
            yield from wrapped(visible(said), f"  {label:<13}", " " * 15)
    for number, problem in enumerate(checked.problems):
        if not number:
            yield ""
            yield "Problems:"
        yield from wrapped(visible(problem), " -  ", "    ")


def check_fields(checked: Checked) -> dict[str, Any]:
    """Return the fields that "gaugestack/set-check" adds to those of a set."""
    return {
        "on": checked.on.isoformat() if checked.on else None,
        "problems": list(checked.problems),
        "calibration": {
            "state": checked.due.state.value,
            "due": checked.due_day.isoformat() if checked.due_day else None,
            "days": checked.due.days,
            "superseded": checked.superseded,
        },
        "outside_grade": [
            {**_block(found.block), "reasons": list(found.sentences)} for found in checked.outside
        ],
        "grade_met": _met_fields(checked.met) if checked.met else None,
        "trust": {trust.value: count for trust, count in checked.trusts},
        "lent": [
            {
                **_block(piece.block),
                "to": piece.lent_to,
                "back": piece.back_on.isoformat() if piece.back_on else None,
                "overdue": piece.overdue,
            }
            for piece in checked.lent
        ],
    }


def _block(block: Block) -> dict[str, Any]:
    """Return what tells a block from others."""
    form: dict[str, Any] = {"nominal": block.engraved}
    if block.serial:
        form["serial"] = block.serial
    if block.wear:
        form["wear"] = True
    return form


def _met_fields(met: GradeMet) -> dict[str, Any]:
    """Return the grade that is still met, and by what."""
    return {
        "grade": met.grade,
        "limited_by": [_block(block) for block in met.limited_by],
        "without_values": len(met.without_values),
        "outside_tables": [_block(block) for block in met.outside_tables],
        "length_only": met.length_only,
    }


def _calibration(checked: Checked) -> str:
    """Say how the calibration stands."""
    due = checked.due
    if due.state is DueState.NONE:
        return ""
    if checked.superseded:
        return f"was due {checked.due_day}; every value at hand is of a later one"
    days = abs(due.days or 0)
    count = f"{days} day{'s' * (days != 1)}"
    if due.state is DueState.OVERDUE:
        return f"OVERDUE by {count}, it was due {checked.due_day}"
    return f"due {checked.due_day}, in {count}{' (soon)' * (due.state is DueState.DUE_SOON)}"


def _grade(checked: Checked) -> str:
    """Say which grade the set as it stands still meets, and on what grounds."""
    met = checked.met
    if met is None:
        return ""
    valued = sum(count for _, count in checked.trusts) - len(met.without_values)
    if not valued:
        return "no deviation is known, so nothing can be said"
    said = f"as it stands it still meets {met.grade}" if met.grade else "as it stands it meets none"
    grounds = [f"by {valued} known deviation{'s' * (valued > 1)}"]
    if met.length_only:
        grounds.append("lengths only: the variation is not known of every block")
    if met.limited_by and met.grade:
        grounds.append(f"kept from better by {_named(met.limited_by)}")
    return f"{said} ({'; '.join(grounds)})"


def _lent(checked: Checked) -> str:
    """Name what is lent, to whom, and when it is due back."""
    said = []
    for piece in checked.lent:
        back = f", back {piece.back_on}" if piece.back_on else ""
        late = " (OVERDUE)" if piece.overdue else ""
        said.append(f"{piece.block.engraved} to {piece.lent_to}{back}{late}")
    return "; ".join(said)


def _named(blocks: Iterable[Block]) -> str:
    """Name a few blocks and count the others."""
    names = [block.engraved for block in blocks]
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return f"{', '.join(names[:MOST_NAMED])}{more}"
