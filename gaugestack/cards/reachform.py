"""Reach, purchases and health as JSON for scripts; shapes as in jsonform.

    >>> text(range_form(answer))

Shares are floats from 0 to 1 rounded to 12 decimals, beside the whole numbers
they come from.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.jsonform import block_form, built_form, headed, stack_fields
from gaugestack.inventory.shipped import file_said
from gaugestack.lengths import exact_text
from gaugestack.stacks.reach import MOST_BLOCKS

if TYPE_CHECKING:
    from collections.abc import Sequence
    from fractions import Fraction

    from gaugestack.answers.comparison import Beside
    from gaugestack.answers.health import BuyAnswer, HealthAnswer, Looked, MattersAnswer
    from gaugestack.answers.reach import RangeAnswer, ReachAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.cards.jsonform import Form
    from gaugestack.lengths import Unit
    from gaugestack.stacks.ranking import BlockValue, Purchase
    from gaugestack.stacks.survey import Gap, Span, Stretch, Survey


def reach_form(answer: ReachAnswer) -> Form:
    """Return the form "gaugestack/reach": `as_issued` is null unless it takes fewer blocks."""
    now = answer.at_hand
    issued = built_form(answer.issued, now.heights[0].unit) if answer.issued else None
    fields = {"as_issued": issued, "back": _blocks(answer.back), "remarks": list(now.remarks)}
    return headed("reach", {**stack_fields(now), **fields})


def range_form(answer: RangeAnswer) -> Form:
    """Return the form "gaugestack/reach-range"; `at_most` counts up to what any height takes."""
    found, unit = answer.found, answer.stock.unit
    form: Form = {
        **_sets(answer.stock),
        "missing": _blocks(answer.missing),
        "range": _span(found.span, unit),
        "most": _most(found.most),
        "at_most": [_count(found, count) for count in range(1, found.top + 1)],
        "reachable": found.within(found.most),
        "longer": found.longer,
        "gaps": [_gap(gap, unit) for gap in found.gaps],
        "lost": [_gap(gap, unit) for gap in found.lost],
        "longest_run": _stretch(found.stretch, unit),
        "every_step": _stretch(found.every_step, unit),
        "every_step_as_issued": _stretch(found.every_step_issued, unit),
        "remarks": list(answer.remarks),
    }
    return headed("reach-range", form)


def matters_form(answer: MattersAnswer) -> Form:
    """Return the form "gaugestack/set-matters": one entry a block at hand, the costliest first."""
    fields = {"made": answer.made, "blocks": _values(answer.values), "remarks": list(answer.remarks)}
    return headed("set-matters", {**_sets(answer.stock), **_looked(answer.looked, answer.stock), **fields})


def buy_form(answer: BuyAnswer) -> Form:
    """Return the form "gaugestack/set-buy": `purchase` is null where nothing is absent."""
    form: Form = {
        **_sets(answer.stock),
        **_looked(answer.looked, answer.stock),
        **_beside(answer.beside),
        "count": answer.count,
        "made": answer.made,
        "alone": _values(answer.alone),
        "purchase": _purchase(answer.purchase),
        "remarks": list(answer.remarks),
    }
    return headed("set-buy", form)


def health_form(answer: HealthAnswer) -> Form:
    """Return the form "gaugestack/set-health"."""
    health, unit = answer.health, answer.stock.unit
    survey = health.survey
    form: Form = {
        **_sets(answer.stock),
        **_beside(answer.beside),
        "verdict": health.verdict.value,
        "sentences": list(answer.sentences),
        "range": _span(survey.span, unit),
        "most": _most(survey.most),
        "at_most": [_count(survey, count) for count in range(1, survey.top + 1)],
        "lost": [_gap(gap, unit) for gap in survey.lost],
        "longer": survey.longer,
        "every_step": _stretch(survey.every_step, unit),
        "every_step_as_issued": _stretch(survey.every_step_issued, unit),
        "worst": _values(health.worst),
        "purchase": _purchase(answer.purchase),
        "remarks": list(answer.remarks),
    }
    return headed("set-health", form)


def _sets(stock: Stock) -> Form:
    """Return the sets, and the pieces at hand."""
    sets = [{"name": s.name, "file": file_said(s.file), "pieces": len(s.blocks)} for s in stock.sets]
    return {"sets": sets, "at_hand": stock.at_hand(), "pieces": len(stock.pieces)}


def _beside(beside: Beside) -> Form:
    """Return what a set was measured against, and what that makes missing."""
    return {
        "beside": beside.name or "as issued",
        "there": beside.there,
        "of": beside.pieces,
        "missing": _blocks(beside.missing),
        "away": _blocks(beside.away),
        "extra": _blocks(beside.extra),
    }


def _looked(looked: Looked, stock: Stock) -> Form:
    """Return the heights that count: a range, or listed ones."""
    form: Form = {"heights": looked.total, "most": looked.most}
    if looked.span:
        return {**form, "range": _span(looked.span, stock.unit)}
    return {**form, "listed": [exact_text(height, stock.unit) for height in looked.listed]}


def _span(span: Span, unit: Unit) -> Form:
    """Return a range."""
    low, high, step = (exact_text(length, unit) for length in (span.low, span.high, span.step))
    return {"low": low, "high": high, "step": step, "heights": span.heights}


def _count(found: Survey, count: int) -> Form:
    """Return how many heights at most so many blocks make, now and as issued."""
    return {
        "blocks": count,
        "heights": found.within(count),
        "share": _share(found.share(count)),
        "share_as_issued": _share(found.share_issued(count)),
    }


def _gap(gap: Gap, unit: Unit) -> Form:
    """Return a gap; `times` and `every` where it returns."""
    form: Form = {
        "first": exact_text(gap.first, unit),
        "last": exact_text(gap.last, unit),
        "heights": gap.heights,
    }
    return form if gap.times == 1 else {**form, "times": gap.times, "every": exact_text(gap.every, unit)}


def _stretch(run: Stretch | None, unit: Unit) -> list[str] | None:
    """Return a run of heights, from and to."""
    return [exact_text(run.first, unit), exact_text(run.last, unit)] if run else None


def _purchase(purchase: Purchase | None) -> Form | None:
    """Return a purchase, its proof, and what no purchase of as many blocks exceeds."""
    if purchase is None:
        return None
    return {
        "blocks": _blocks(purchase.blocks),
        "restored": purchase.restored,
        "proof": purchase.proof.value,
        "bound": purchase.bound,
    }


def _values(values: Sequence[BlockValue]) -> list[Form]:
    """Return what blocks are worth."""
    return [{"block": block_form(v.block), "lost": v.lost, "longer": v.longer} for v in values]


def _blocks(blocks: Sequence[Block]) -> list[Form]:
    """Return blocks."""
    return [block_form(block) for block in blocks]


def _most(most: int) -> int | None:
    """Return a largest count; null is any number."""
    return None if most >= MOST_BLOCKS else most


def _share(share: Fraction) -> float:
    """Return a share rounded to 12 decimals."""
    return round(float(share), 12)
