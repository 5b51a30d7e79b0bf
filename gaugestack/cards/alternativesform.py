"""What stands beside the best stack as JSON, in further fields of the form "gaugestack/stack".

>>> text(alternatives_form(beside))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.alternativescreen import proof_said
from gaugestack.cards.jsonform import Form, built_form, stack_form
from gaugestack.stacks.request import Found, Impossible

if TYPE_CHECKING:
    from gaugestack.answers.alternatives import Alternatives
    from gaugestack.stacks.alternatives import Listed


def alternatives_form(answer: Alternatives) -> Form:
    """Return the form "gaugestack/stack" with `next_best`, `trade_offs` and `proof_stack` where asked for."""
    form = stack_form(answer.first)
    if answer.next_best:
        form["next_best"] = _listed(answer.next_best)
    if answer.trade_offs:
        form["trade_offs"] = _listed(answer.trade_offs)
    if answer.proof:
        form["proof_stack"] = _proof(answer)
    return form


def _listed(listed: Listed) -> Form:
    """Return a list of stacks; `complete` is null where it was not decided."""
    stacks = [{**built_form(built), "count": len(built.blocks)} for built in listed.stacks]
    return {"stacks": stacks, "complete": listed.complete}


def _proof(answer: Alternatives) -> Form:
    """Return the second stack, or why there is none."""
    if isinstance(answer.proof, Found):
        return {"outcome": "found", "stack": built_form(answer.proof.stacks[0])}
    word = "impossible" if isinstance(answer.proof, Impossible) else "undecided"
    return {"outcome": word, "reason": proof_said(answer)}
