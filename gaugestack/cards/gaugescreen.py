"""What the commands of `measure` print, for a terminal of 80 columns.

>>> print(rolls_text(answer, pen))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text
from gaugestack.cards.anglescreen import bar_said, both
from gaugestack.cards.drawing import LINES, Pen
from gaugestack.cards.lathescreen import measured_lines
from gaugestack.cards.rows import cone_said, figure_lines, head, row, shown
from gaugestack.cards.screen import outcome_lines, page, remark_lines, source_said
from gaugestack.errors import visible
from gaugestack.lengths import exact_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from gaugestack.angles.taper import Taper
    from gaugestack.answers.bores import BallsAnswer, DiscsAnswer
    from gaugestack.answers.onpart import OnPartAnswer
    from gaugestack.answers.rolls import RollsAnswer
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.lengths import Length, Unit


def rolls_text(answer: RollsAnswer, pen: Pen = LINES, figures: Iterable[str] = ()) -> str:
    """Return the screen of `measure rolls`."""
    lines = [*_title(answer.taper, "plug over two rolls")]
    lines += row("it stands", f"{answer.stands.value}, on the plate")
    lines += _rolls_sizes(answer)
    if answer.measured:
        lines += ["", "measured:", *measured_lines(answer.measured)]
    lines += figure_lines(figures)
    for number, pair in enumerate(answer.pairs):
        lines += ["", f"== two equal stacks for {'M1' if number else 'M2'}"]
        lines += stack_lines(pair, pen)
    if len(answer.pairs) > 1:
        lines += ["", "  the two pairs are laid one after the other: they may share blocks"]
    remarks = (*answer.remarks, *(text for pair in answer.pairs for text in pair.remarks))
    return page((*lines, *remark_lines(dict.fromkeys(remarks))))


def balls_text(answer: BallsAnswer, figures: Iterable[str] = ()) -> str:
    """Return the screen of `measure balls`."""
    bore, unit = answer.bore, answer.unit
    lines = [*_title(answer.taper, "bore over two balls")]
    for name, ball, top in (
        ("large ball", bore.large, bore.large_top),
        ("small ball", bore.small, bore.small_top),
    ):
        lines += row(name, f"{exact_text(ball, unit)}, its top {_over_face(top, unit)}")
    lines += row("centres", f"{shown(answer.centre_distance, unit)} apart along the axis")
    lines += row("mouth", f"{shown(answer.mouth, unit)} at the face")
    if answer.measured:
        lines += ["", "measured:", *measured_lines(answer.measured)]
    return page((*lines, *figure_lines(figures)))


def discs_text(answer: DiscsAnswer, pen: Pen = LINES, figures: Iterable[str] = ()) -> str:
    """Return the screen of `measure discs`."""
    unit = answer.unit
    large, small = exact_text(answer.large, unit), exact_text(answer.small, unit)
    lines = [*head(f"discs {large} and {small} between two sides")]
    lines += row("whole angle", both(answer.angle))
    if answer.error_arcsec is not None:
        lines += row("error", arcsec_text(answer.error_arcsec))
    lines += row("centres", f"{shown(answer.centre_distance, unit)} apart")
    lines += row("gap", f"{shown(answer.gap, unit)} between the discs" if answer.gap else "none: they touch")
    lines += figure_lines(figures)
    if answer.stack:
        lines += ["", *stack_lines(answer.stack, pen), *remark_lines(answer.stack.remarks)]
    return page(lines)


def on_part_text(answer: OnPartAnswer, pen: Pen = LINES, figures: Iterable[str] = ()) -> str:
    """Return the screen of `measure bar`: both heights under the rolls, their stacks or the cone."""
    unit = answer.bar.unit
    lines = [*_title(answer.taper, "a bar on the part"), f"  with {visible(bar_said(answer.bar))} on it"]
    lines += row("it lies", answer.seat.value)
    lines += row("bar stands", both(answer.angle))
    lines += row("rise", f"{shown(answer.rise, unit)} from the lower roll to the upper one")
    lines += row("under rolls", f"{exact_text(answer.low, unit)} and {exact_text(answer.high, unit)}")
    if answer.achieved:
        off = arcsec_text(answer.achieved - answer.angle)
        lines += row("stacks give", f"{both(answer.achieved)}, error {off}")
    if answer.measured:
        lines += ["", "measured:", *measured_lines(answer.measured)]
    lines += figure_lines(figures)
    if answer.stack:
        lines += ["", "== two stacks at once: the lower roll's, then the upper one's"]
        lines += [*stack_lines(answer.stack, pen), *remark_lines(answer.stack.remarks)]
    return page(lines)


def stack_lines(answer: StackAnswer, pen: Pen) -> Iterator[str]:
    """Return the stacks of an answer, which blocks they come from first."""
    yield from row("from", source_said(answer))
    yield from outcome_lines(answer, pen)


def _title(taper: Taper | None, instead: str) -> list[str]:
    """Return the first line: the cone called out, or what is measured."""
    return head(cone_said(taper) if taper else instead)


def _rolls_sizes(answer: RollsAnswer) -> Iterator[str]:
    """Return roll, end diameter and both sizes over the rolls."""
    over, unit = answer.over, answer.unit
    if answer.roll:
        yield from row("rolls", f"two of {exact_text(answer.roll, unit)}")
    if answer.end_diameter:
        yield from row("end D0", f"{shown(answer.end_diameter, unit)} at the plate")
    for name, size, stack in (("M1", over.low, over.low_stack), ("M2", over.high, over.high_stack)):
        where = f"on two stacks of {exact_text(stack, unit)}" if stack else "on the plate"
        yield from row(f"over rolls {name}", f"{shown(size, unit)}, rolls {where}")
    yield from row("M2 - M1", f"{shown(over.high - over.low, unit)}, whatever the rolls measure")


def _over_face(top: Length, unit: Unit) -> str:
    """Say where a ball's top stands."""
    if not top:
        return "level with the face"
    return f"{shown(abs(top), unit)} {'ABOVE' if top > 0 else 'BELOW'} the face"
