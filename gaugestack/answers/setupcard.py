"""One set-up on a card: the stack, what it gives, the steps, and the readings that prove it.

    >>> card = height_card("0.6202in", stock=stock)
    >>> card = angle_card("7d30m", bar=bar, stock=stock)

An answer that is no Found makes no card: `card.stack.outcome` says why.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.answers.angle import angle
from gaugestack.answers.fingerprint import fingerprint
from gaugestack.answers.proof import proof
from gaugestack.answers.stack import stack
from gaugestack.answers.taper import FlatAnswer, taper
from gaugestack.errors import UsageError
from gaugestack.lengths import Unit

if TYPE_CHECKING:
    from gaugestack.angles.sine import SineBar
    from gaugestack.angles.taper import Use
    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.options import Choice
    from gaugestack.answers.proof import ProofAnswer
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock

_SPANS = {Unit.INCH: ("1in", "3in", "5in"), Unit.MILLIMETRE: ("50mm", "100mm", "150mm")}


@dataclass(frozen=True, slots=True, kw_only=True)
class SetupCard:
    """One set-up: `asked` in the words of the drawing, `use` of a taper, the answers, the proofs.

    `angle` and `proof` are None for a plain height.
    """

    asked: str
    stack: StackAnswer
    code: str
    use: str = ""
    angle: AngleAnswer | None = None
    proof: ProofAnswer | None = None


def height_card(text: str, *, stock: Stock, choice: Choice | None = None) -> SetupCard:
    """Return the card of one height.  Raises as `stack` does."""
    answer = stack([text], stock=stock, choice=choice)
    return SetupCard(asked=text.strip(), stack=answer, code=fingerprint(stock))


def angle_card(text: str, *, bar: SineBar, stock: Stock, choice: Choice | None = None) -> SetupCard:
    """Return the card of an angle on a bar.  Raises as `angle` does."""
    return _card(text.strip(), angle(text, bar=bar, stock=stock, choice=choice), stock)


def taper_card(
    call_out: str, *, bar: SineBar, stock: Stock, use: Use | None = None, choice: Choice | None = None
) -> SetupCard:
    """Return the card of a taper on a bar; a cone needs its `use`.  Raises as `taper` does."""
    answer = taper(call_out, bar=bar, stock=stock, use=use, choice=choice)
    if isinstance(answer, FlatAnswer):
        return _card(call_out.strip(), answer.angle, stock, "flat")
    if use is None:
        hint = "compound: the half angle, to cut it; inspection: the included angle, to measure the whole"
        raise UsageError.about("--for", "a card shows one set-up of a cone: say which", hint=hint)
    return _card(call_out.strip(), answer.roles[0].angle, stock, use.value)


def _card(asked: str, answer: AngleAnswer, stock: Stock, use: str = "") -> SetupCard:
    """Return the card of an answer with an angle."""
    checks = proof(kind="bar", spans=_SPANS[answer.bar.unit])
    return SetupCard(
        asked=asked, stack=answer.stack, code=fingerprint(stock), use=use, angle=answer, proof=checks
    )
