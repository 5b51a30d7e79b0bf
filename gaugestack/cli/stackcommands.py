"""What `stack` prints where more than the best stack is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cli.shared import finish, leave, pen
from gaugestack.errors import UsageError

if TYPE_CHECKING:
    from gaugestack.answers.options import Choice
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock


def beside(
    answer: StackAnswer,
    stock: Stock,
    choice: Choice,
    wanted: tuple[int | None, bool, bool],
    *,
    json: bool,
) -> None:
    """Print the best stack and what is wanted beside it: next best, proof stack, trade-offs."""
    from gaugestack.answers.alternatives import Beside, alternatives  # noqa: PLC0415

    count, proof, trade_offs = wanted
    if count is not None and count < 1:
        raise UsageError.about("--next", f"{count} stacks: at least 1 is listed")
    asked = Beside(next_best=count or 0, proof=proof, trade_offs=trade_offs)
    found = alternatives(answer, stock, asked, choice)
    if json:
        from gaugestack.cards import jsonform  # noqa: PLC0415
        from gaugestack.cards.alternativesform import alternatives_form  # noqa: PLC0415

        finish(jsonform.text(alternatives_form(found)))
    else:
        from gaugestack.cards.alternativescreen import alternatives_text  # noqa: PLC0415

        finish(alternatives_text(found, pen()))
    leave(*found.outcomes)
