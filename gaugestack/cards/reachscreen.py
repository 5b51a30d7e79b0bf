"""What a set reaches, as plain text for a terminal of 80 columns: `reach HEIGHT` and `reach LOW..HIGH`.

>>> print(range_text(answer, LINES))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.drawing import LINES, Pen
from gaugestack.cards.reachpicture import blocks_said, picture, share_text
from gaugestack.cards.screen import (
    at_hand,
    blocks_line,
    deviation_said,
    outcome_lines,
    page,
    remark_lines,
    source_said,
    wrapped,
)
from gaugestack.errors import visible
from gaugestack.lengths import engraved_text, exact_text
from gaugestack.stacks.reach import MOST_BLOCKS
from gaugestack.stacks.request import Found

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.answers.reach import RangeAnswer, ReachAnswer
    from gaugestack.lengths import Unit
    from gaugestack.stacks.request import Built
    from gaugestack.stacks.survey import Gap, Span, Stretch, Survey

MOST_GAPS = 12
"""Gaps written out before the rest is counted."""


def reach_text(answer: ReachAnswer, pen: Pen = LINES) -> str:
    """Return the screen of `reach HEIGHT`."""
    now = answer.at_hand
    lines = wrapped(visible(source_said(now)), "from ", "     ")
    if isinstance(now.outcome, Found):
        lines += ["", *_reached(answer, now.outcome.stacks[0])]
    else:
        lines += outcome_lines(now, pen)
    return page((*lines, *remark_lines(visible(remark) for remark in now.remarks)))


def range_text(answer: RangeAnswer, pen: Pen = LINES) -> str:
    """Return the screen of `reach LOW..HIGH`."""
    found, unit = answer.found, answer.stock.unit
    lines = wrapped(visible(f"{answer.stock.name}, {at_hand(answer.stock)}"), "from ", "     ")
    lines += wrapped(f"{span_said(found.span, unit)}; {limit_said(found.most)}", "", "  ")
    lines += ["", *picture(found, unit, pen), "", *_summary(found, unit)]
    lines += _gap_lines("Cannot be made", found.gaps, unit)
    if found.lost and found.lost != found.gaps:
        lines += _gap_lines("Of these, the set as issued made", found.lost, unit)
    return page((*lines, *remark_lines(visible(remark) for remark in answer.remarks)))


def span_said(span: Span, unit: Unit) -> str:
    """Say which heights were looked at."""
    low, high, step = (exact_text(length, unit) for length in (span.low, span.high, span.step))
    return f"{low} to {high} in steps of {step}: {heights_said(span.heights)}"


def limit_said(most: int) -> str:
    """Say how many blocks a stack may have."""
    return "any number of blocks" if most >= MOST_BLOCKS else f"at most {blocks_said(most)}"


def heights_said(count: int) -> str:
    """Return a number of heights with its word."""
    return f"{count} height{'s' * (count != 1)}"


def gap_said(gap: Gap, unit: Unit) -> str:
    """Say one gap, or a series of equal ones."""
    first, last = exact_text(gap.first, unit), exact_text(gap.last, unit)
    said = first if gap.first == gap.last else f"{first} to {last}"
    return (
        said if gap.times == 1 else f"{said}, {gap.times} times, each {exact_text(gap.every, unit)} further"
    )


def _between(gap: Gap, unit: Unit) -> str:
    """Say the ends of a gap, or its one height."""
    first, last = exact_text(gap.first, unit), exact_text(gap.last, unit)
    return first if gap.first == gap.last else f"{first} to {last}"


def _reached(answer: ReachAnswer, built: Built) -> Iterator[str]:
    """Return the stack at hand, and that of the set as issued where it is shorter."""
    height = answer.at_hand.heights[0]
    asked, count = exact_text(height.length, height.unit), len(built.blocks)
    yield f"{asked}: yes, {blocks_said(count)}, {deviation_said(built)}"
    yield from _stack_lines(built)
    if not answer.issued:
        return
    reasons = {withheld.block: withheld.reason for withheld in answer.at_hand.request.withheld}
    count, off = len(answer.issued.blocks), deviation_said(answer.issued)
    yield f"the set as issued made it with {blocks_said(count)}, {off}"
    yield from _stack_lines(answer.issued)
    for block in answer.back:
        yield from wrapped(visible(f"{block.engraved}: {reasons[block]}"), " -  ", "    ")


def _stack_lines(built: Built) -> list[str]:
    """Return a stack as it is pulled from the box."""
    lead = f"  {engraved_text(built.length, built.blocks[0].unit)} = "
    return wrapped(blocks_line(built.blocks), lead, " " * len(lead))


def _summary(found: Survey, unit: Unit) -> Iterator[str]:
    """Say the numbers of a range: share, longest run, every step."""
    made, before = found.within(found.most), sum(found.counts_issued[: found.most + 1])
    said = f"{made} of {heights_said(found.span.heights)} can be made, {share_text(found.share(found.most))}"
    now_as_before = made == before and not found.longer
    yield said + (
        "" if now_as_before else f"; as issued {before}, {share_text(found.share_issued(found.most))}"
    )
    if found.longer:
        yield f"{heights_said(found.longer)} take more blocks than as issued"
    if found.stretch:
        yield f"longest run without a gap: {_run_said(found.stretch, unit)}"
    if len(found.gaps) > MOST_GAPS:
        yield f"widest gap: {_between(max(found.gaps, key=_width), unit)}"
    run, run_issued = found.every_step, found.every_step_issued
    if run or run_issued:
        said = f"every step {_run_said(run, unit)}" if run else "no step"
        yield f"any number of blocks, any height: {said}"
    if run_issued and run_issued != run:
        yield f"  as issued {_run_said(run_issued, unit)}"


def _run_said(run: Stretch, unit: Unit) -> str:
    """Say a run of heights."""
    first, last = exact_text(run.first, unit), exact_text(run.last, unit)
    return first if first == last else f"{first} to {last}"


def _gap_lines(title: str, gaps: Sequence[Gap], unit: Unit) -> Iterator[str]:
    """Return the gaps, the first dozen of them."""
    if not gaps:
        return
    yield ""
    yield f"{title}, {heights_said(_heights(gaps))}:"
    for gap in gaps[:MOST_GAPS]:
        yield from wrapped(gap_said(gap, unit), "  ", "    ")
    rest = gaps[MOST_GAPS:]
    if rest:
        yield f"  and {heights_said(_heights(rest))} more, in {len(rest)} more gaps; --json names them all"


def _width(gap: Gap) -> int:
    """Return how far a gap reaches."""
    return gap.last - gap.first


def _heights(gaps: Sequence[Gap]) -> int:
    """Return how many heights the gaps hold."""
    return sum(gap.heights for gap in gaps)
