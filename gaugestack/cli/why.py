"""The option `--why`: what a wringing plan rests on, below the answer or in its JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cli.shared import finish

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.cards.jsonform import Form
    from gaugestack.stacks.wringing import WringingPlan


def show_why(plans: Sequence[WringingPlan], tilt: float = 0.0, *, why: bool) -> None:
    """Print the rules behind some plans where that is asked for; `tilt` in degrees."""
    if why:
        from gaugestack.cards.whyscreen import why_text  # noqa: PLC0415

        finish(why_text(plans, tilt))


def with_why(form: Form, plans: Sequence[WringingPlan], tilt: float = 0.0, *, why: bool) -> Form:
    """Return a form with the bench work of each stack where that is asked for."""
    if not why:
        return form
    from gaugestack.cards.whyscreen import why_form  # noqa: PLC0415

    return {**form, "bench_work": why_form(plans, tilt)}
