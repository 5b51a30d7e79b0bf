"""Every rule behind a wringing plan with what it rests on, for `--why`.

    >>> print(why_text(plans, tilt))

Stands below the ordinary screen, which stays as it is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.screen import page, wrapped
from gaugestack.errors import visible
from gaugestack.stacks.benchwork import advice
from gaugestack.stacks.wringing import MANY_BLOCKS

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.cards.jsonform import Form
    from gaugestack.stacks.wringing import WringingPlan

CHOICE = (
    ("fewest blocks", "every joint adds heat, film and error", "block maker user manual; training texts"),
    ("then the smallest deviation, the fewest thin blocks", "thin ones bend", "ISO 3650:1998, 7.2"),
    ("then the largest blocks first", "so that one answer is left", "this program's own tie-break"),
    ("no film is added for a joint", "a block's length holds one already", "ISO 3650:1998, clause 3"),
)
"""How the stack was chosen: the rule, its reason, what it rests on."""


def why_text(plans: Sequence[WringingPlan], tilt: float = 0.0) -> str:
    """Return the rules of the choice, of the order and of the bench work; empty without a plan."""
    return page(("", *_choice(), *_plans(plans), *_work(plans, tilt))) if plans else ""


def why_form(plans: Sequence[WringingPlan], tilt: float = 0.0) -> list[Form]:
    """Return the bench work of each stack for scripts; the steps carry their own basis."""
    return [
        {
            "advice": [
                _advice_form(one.topic, one.action, one.reason, one.basis) for one in advice(p.stack, tilt)
            ]
        }
        for p in plans
    ]


def _advice_form(topic: str, action: str, reason: str, basis: str) -> Form:
    """Return one piece of advice."""
    return {"topic": topic, "action": action, "reason": reason, "basis": basis}


def _choice() -> Iterator[str]:
    """Return how stacks are chosen."""
    yield "why these blocks:"
    for rule, reason, basis in CHOICE:
        yield from _rule(rule, reason, basis)


def _plans(plans: Sequence[WringingPlan]) -> Iterator[str]:
    """Return the steps of every stack, each kind of step once."""
    seen: set[tuple[str, str]] = set()
    yield ""
    yield "why this order:"
    for step in (step for plan in plans for step in plan.steps):
        key = (step.action, step.reason)
        if key not in seen:
            seen.add(key)
            yield from _rule(step.action, step.reason, step.basis)
    if any(len(plan.stack.blocks) > MANY_BLOCKS for plan in plans):
        yield from _rule("more blocks than practice likes", "usually 4, at most 5", "training texts")


def _work(plans: Sequence[WringingPlan], tilt: float) -> Iterator[str]:
    """Return the bench work of every stack, what is the same for all once."""
    seen: set[str] = set()
    yield ""
    yield "at the bench:"
    for one in (one for plan in plans for one in advice(plan.stack, tilt)):
        if one.action not in seen:
            seen.add(one.action)
            yield from _rule(one.action, one.reason, one.basis)


def _rule(rule: str, reason: str, basis: str) -> Iterator[str]:
    """Return one rule: what, why, and what that rests on."""
    yield from wrapped(visible(f"{rule}: {reason}"), "  - ", "    ")
    yield from wrapped(visible(f"[{basis}]"), "    ", "     ")
