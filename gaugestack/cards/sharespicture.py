"""What an uncertainty comes from, drawn as bars: the share of each doubt, largest first.

    >>> svg = budget_svg(answer)           # of `budget stack` and `budget angle`
    >>> svg = shares_svg([chart])          # from its parts

A full frame is the whole variance, its black part the share; the figures stand
beside it.  The terminal has the same bars in budgetscreen.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.cards.anglescreen import bar_said, both
from gaugestack.cards.budgetscreen import SMALL, adds, films_together
from gaugestack.cards.svg import BODY, NOTE, filled, fitted
from gaugestack.cards.svgpaper import HEADED, LEADING, MARGIN, Paper, beneath
from gaugestack.lengths import exact_text
from gaugestack.uncertainty.decision import dominant_line

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.answers.budget import BudgetAnswer
    from gaugestack.answers.knowing import KnownResult

WIDTH = 180.0
_NAMES, _BAR, _ROW, _FOOT = 74.0, 60.0, 6.0, 4.0
_HIGH = 3.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """One doubt: its name, its share of the variance from 0 to 1, what it adds as text."""

    name: str
    share: float
    adds: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """The shares of one result, largest first, its heading and a sentence or two."""

    title: str
    notes: tuple[str, ...]
    shares: tuple[Share, ...]


def budget_svg(answer: BudgetAnswer) -> str:
    """Return the drawing of every result of a budget, each beneath the one before.

    Raises ValueError where the budget has no result.
    """
    return shares_svg(
        [_chart(title, known) for title, known in zip(_titles(answer), answer.known, strict=True)]
    )


def shares_svg(charts: Sequence[Chart]) -> str:
    """Return the drawing of shares as a whole SVG file.  Raises ValueError without a chart."""
    if not charts:
        raise ValueError("no result, no shares")
    return beneath(_paper(chart) for chart in charts)


def _titles(answer: BudgetAnswer) -> Iterator[str]:
    """Return the heading of each result: the angle on its bar, or the height."""
    if answer.angle is not None and answer.bar is not None:
        yield f"{both(answer.angle)} on {bar_said(answer.bar, measured=False)}"
        return
    for asked in answer.asked:
        yield exact_text(asked.length, asked.unit)


def _chart(title: str, known: KnownResult) -> Chart:
    """Return the shares of one result; small ones are drawn together."""
    lines = films_together(known.budget.lines())
    small = [line for line in lines if line.share < SMALL]
    shares = [
        Share(name=line.name, share=line.share, adds=adds(known, line.contribution))
        for line in lines
        if line.share >= SMALL
    ]
    if small:
        together = math.hypot(*(line.contribution for line in small))
        share = math.fsum(line.share for line in small)
        shares.append(Share(name=f"{len(small)} smaller ones", share=share, adds=adds(known, together)))
    return Chart(
        title=title,
        notes=(
            f"right within {known.expanded} (k = {known.budget.k:.2f})",
            dominant_line(known.budget),
        ),
        shares=tuple(shares),
    )


def _paper(chart: Chart) -> Paper:
    """Return the sheet of one result."""
    notes = [line for note in chart.notes for line in filled(note, WIDTH - 2 * MARGIN, NOTE)]
    height = HEADED + len(notes) * LEADING + 9 + len(chart.shares) * _ROW + _FOOT
    paper = Paper(WIDTH, height, title=chart.title, description=_described(chart))
    paper.heading(chart.title)
    paper.notes(notes, height - HEADED)
    head = height - HEADED - len(notes) * LEADING - 7
    left = MARGIN + _NAMES + 2
    for x, words in ((MARGIN, "in doubt"), (left, "share of the variance"), (left + _BAR + 14, "adds")):
        paper.label(complex(x, head), words, ink="note", size=NOTE)
    for row, share in enumerate(chart.shares, 1):
        foot = head - row * _ROW
        paper.label(complex(MARGIN, foot), fitted(share.name, _NAMES, BODY), size=BODY)
        corner, part = complex(left, foot - 0.6), min(1.0, max(0.0, share.share))
        paper.box(corner, complex(_BAR, _HIGH), "thin")
        paper.box(corner, complex(_BAR * part, _HIGH), "full")
        paper.label(complex(left + _BAR + 12, foot), f"{share.share:.0%}", size=BODY, anchor="end")
        paper.label(complex(left + _BAR + 14, foot), share.adds, size=BODY)
    return paper


def _described(chart: Chart) -> str:
    """Return in words what the drawing shows."""
    shares = (f"{share.name}: {share.share:.0%}, adds {share.adds}" for share in chart.shares)
    return "; ".join((*chart.notes, *shares)) + "."
