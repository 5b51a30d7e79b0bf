"""A list of answers as JSON: what all share once, then every answer as its own command gives it.

    >>> batch_form("stack", head, rows)

`answers` stand in the order of the list.  Each has the fields of the form
"gaugestack/stack" or "gaugestack/angle" of its target alone, but for those
that are the same in all of them (`set`, `sets`, `at_hand`, `basis`, `bar`),
which stand once; and besides `line`, `name` and `asked`, what the list said.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from gaugestack.cards.batchrows import FOUND, IMPOSSIBLE, UNDECIDED, line_of
from gaugestack.cards.jsonform import Form, angle_form, bar_form, headed, source_fields, stack_form

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.batch import Ready
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.inventory.targetsfile import Target

SHARED = ("set", "sets", "at_hand", "basis", "bar")
_HEAD = ("schema", "version")


def stack_row(target: Target, answer: StackAnswer) -> Form:
    """Return the answer to one height of a list."""
    return _row(target, stack_form(answer))


def angle_row(target: Target, answer: AngleAnswer) -> Form:
    """Return the answer to one angle of a list."""
    return _row(target, angle_form(answer))


def batch_form(kind: str, file: str, made: Ready, bar: SineBar | None, rows: Sequence[Form]) -> Form:
    """Return the form "gaugestack/stack-list" or "gaugestack/angle-list"."""
    counts = Counter(row["outcome"] for row in rows)
    form: Form = {
        "file": file,
        **source_fields(made.stock, made.plain),
        "counts": {word: counts[word] for word in (FOUND, IMPOSSIBLE, UNDECIDED)},
        "answers": list(rows),
    }
    if bar:
        form["bar"] = bar_form(bar)
    return headed(f"{kind}-list", form)


def _row(target: Target, form: Form) -> Form:
    """Return a form of one target without what stands once for all."""
    own = {key: value for key, value in form.items() if key not in (*SHARED, *_HEAD)}
    return {**own, "line": line_of(target), "name": target.name, "asked": target.text}
