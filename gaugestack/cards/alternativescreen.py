"""What stands beside the best stack, as plain text for a terminal of 80 columns.

>>> print(alternatives_text(beside))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.drawing import LINES, Pen, drawn
from gaugestack.cards.screen import blocks_line, deviation_said, page, stack_text, unit_of, wrapped
from gaugestack.errors import visible
from gaugestack.stacks.request import Found, Impossible

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.answers.alternatives import Alternatives
    from gaugestack.stacks.alternatives import Listed
    from gaugestack.stacks.request import Built


def alternatives_text(answer: Alternatives, pen: Pen = LINES) -> str:
    """Return the screen of `stack` with what was asked for beside it."""
    beside = (*_next_lines(answer.next_best), *_trade_lines(answer.trade_offs), *_proof_lines(answer, pen))
    first = stack_text(answer.first, pen)
    return first + page(beside) if beside else first


def _next_lines(listed: Listed | None) -> Iterator[str]:
    """Return the next best stacks, numbered on from the first."""
    if listed is None:
        return
    yield ""
    yield "next best, in the order of preference:"
    for number, built in enumerate(listed.stacks, 2):
        yield from _row(f"{number:>3}", built)
    yield from _end(listed, "there is no other stack")


def _trade_lines(listed: Listed | None) -> Iterator[str]:
    """Return the front of stacks that no other beats in blocks and in deviation."""
    if listed is None:
        return
    yield ""
    yield "fewer blocks against smaller deviation:"
    for built in listed.stacks:
        yield from _row("   ", built)
    if len(listed.stacks) == 1:
        yield "     no stack of more blocks comes nearer"
    yield from _end(listed, "")


def _row(number: str, built: Built) -> Iterator[str]:
    """Return one stack in a row: blocks, deviation, which blocks."""
    count = len(built.blocks)
    lead = f"{number}  {count:>2} block{'s' if count > 1 else ' '}  {deviation_said(built):<14}  "
    yield from wrapped(visible(blocks_line(built.blocks)), lead, " " * len(lead))


def _end(listed: Listed, complete: str) -> Iterator[str]:
    """Say where a list ends before it was asked to."""
    if listed.complete is None:
        yield "     whether there are more was not decided within the limit"
    elif listed.complete and complete:
        yield f"     {complete}"


def _proof_lines(answer: Alternatives, pen: Pen) -> Iterator[str]:
    """Return the second stack of the same height, or why there is none."""
    proof, plan = answer.proof, answer.proof_plan
    if proof is None:
        return
    yield ""
    if not isinstance(proof, Found) or plan is None:
        word = "none" if isinstance(proof, Impossible) else "undecided"
        yield from wrapped(f"proof stack: {word}; {proof_said(answer)}", "", "  ")
        return
    built = proof.stacks[0]
    count = len(built.blocks)
    yield f"proof stack: {count} block{'s' * (count > 1)}, {deviation_said(built)}, none of them in the first"
    yield ""
    yield from drawn(plan.stack, unit_of(built.blocks), pen)
    yield ""
    yield from wrapped(
        "bring both under one indicator: the reading is the same where both are right", "  ", "  "
    )


def proof_said(answer: Alternatives) -> str:
    """Say why there is no proof stack."""
    if isinstance(answer.proof, Impossible):
        return f"without the blocks of the first {answer.proof.sentence}"
    return "the limit on effort was reached before an answer was proven"
