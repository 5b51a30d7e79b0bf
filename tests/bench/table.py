"""Rows to a Markdown table and to JSON."""

from __future__ import annotations

import json
from statistics import median
from typing import TYPE_CHECKING

from rows import share

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rows import Row

HEADS = (
    "figure", "n", "median ms", "p90", "p99", "max",
    "beside", "n", "median ms", "ratio", "goal", "remarks",
)  # fmt: skip
RIGHT = {"n", "median ms", "p90", "p99", "max", "ratio", "goal"}


def markdown(rows: Iterable[Row], about: str) -> str:
    """Return the table with a line on how it was measured above it."""
    rule = ["---:" if head in RIGHT else "---" for head in HEADS]
    lines = [_line(HEADS), _line(rule), *(_line(_cells(row)) for row in rows)]
    return "\n".join([about, "", *lines]) + "\n"


def as_json(rows: Iterable[Row]) -> str:
    """Return the rows as JSON text, for the smoke test."""
    return json.dumps([_entry(row) for row in rows], indent=1, sort_keys=True) + "\n"


def _cells(row: Row) -> list[str]:
    """Return the cells of one row."""
    if row.ratio is None:
        return [row.figure, *[""] * 5, row.beside, *[""] * 3, _goal(row), row.missing]
    marks = (median(row.ours), share(row.ours, 0.9), share(row.ours, 0.99), max(row.ours))
    return [
        row.figure,
        str(len(row.ours)),
        *map(_ms, marks),
        row.beside,
        str(len(row.peer)),
        _ms(median(row.peer)),
        f"{row.ratio:.0f}x" if row.ratio >= 100 else f"{row.ratio:.3g}x",
        _goal(row),
        _remarks(row),
    ]


def _goal(row: Row) -> str:
    """Return the goal in words."""
    return f"{'at most' if row.goal.floor else 'at least'} {row.goal.aim:g}x"


def _remarks(row: Row) -> str:
    """Return what else must be known to read the ratio."""
    remarks = [] if row.holds(row.goal.aim) else ["goal missed"]
    for check in row.checks:
        late = f" (peer ran out of time on {check.timeouts})" if check.timeouts else ""
        remarks.append(f"{check.what} {check.agreed} of {check.compared}{late}")
    return "; ".join([*remarks, row.note] if row.note else remarks)


def _ms(seconds: float) -> str:
    """Return a time in milliseconds with about three figures."""
    ms = seconds * 1000
    return f"{ms:.2f}" if ms < 10 else f"{ms:.1f}" if ms < 100 else f"{ms:.0f}"


def _line(cells: Iterable[str]) -> str:
    """Return one line of the table."""
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _entry(row: Row) -> dict[str, object]:
    """Return one row for JSON."""
    return {
        "figure": row.figure,
        "beside": row.beside,
        "median_ms": median(row.ours) * 1000 if row.ours else None,
        "peer_median_ms": median(row.peer) * 1000 if row.peer else None,
        "ratio": row.ratio,
        "goal": row.goal.aim,
        "fails": row.goal.fails,
        "floor": row.goal.floor,
        "passes": row.holds(row.goal.fails),
        "compared": sum(check.compared for check in row.checks),
        "disagreed": sum(check.compared - check.agreed for check in row.checks),
        "missing": row.missing,
    }
