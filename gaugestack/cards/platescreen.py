"""What `plate`, `correct` and `from-stack` print, for a terminal of 80 columns.

>>> print(plate_text(answer, pen))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text
from gaugestack.angles.flat import Flat
from gaugestack.angles.taper import Use
from gaugestack.cards.anglescreen import bar_said, both
from gaugestack.cards.certifiedscreen import fine_text
from gaugestack.cards.drawing import LINES, Pen
from gaugestack.cards.gaugescreen import stack_lines
from gaugestack.cards.rows import cone_said, figure_lines, head, row, shown
from gaugestack.cards.screen import blocks_line, page, remark_lines
from gaugestack.lengths import Length, Unit, exact_text, small_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from gaugestack.answers.correct import Change, CorrectAnswer
    from gaugestack.answers.fromstack import FromStackAnswer
    from gaugestack.answers.plate import PlateAnswer
    from gaugestack.blocks import Block


def plate_text(answer: PlateAnswer, pen: Pen = LINES, figures: Iterable[str] = ()) -> str:
    """Return the screen of `plate`: both plates, the true tilt, two stacks from one set."""
    plate, done = answer.plate, answer.achieved
    lines = [*head(f"views {both(answer.first)} and {both(answer.second)}: {plate.views.value}")]
    for name, angle, bar, height in (
        ("bottom plate", plate.bottom_angle, answer.bottom_bar, plate.bottom_stack),
        ("top plate", plate.top_angle, answer.top_bar, plate.top_stack),
    ):
        lines += row(name, f"{both(angle)} on {bar_said(bar)}: {exact_text(height, bar.unit)}")
    lines += row("true tilt", f"{both(plate.tilt)} of the top")
    lines += row("direction", f"{both(plate.direction)} from the first view's plane to the second's")
    lines += row("uncorrected", f"the second angle as seen would be {both(plate.left_over)} too much")
    if done:
        said = f"errors: bottom {arcsec_text(done.bottom_error)}, top {arcsec_text(done.top_error)}"
        lines += row("stacks give", f"{said}, tilt {arcsec_text(done.tilt_error)}")
    lines += [*figure_lines(figures), "", "== two stacks at once: the bottom plate's, then the top plate's"]
    return page((*lines, *stack_lines(answer.stack, pen), *remark_lines(dict.fromkeys(answer.remarks))))


def correct_text(answer: CorrectAnswer, pen: Pen = LINES) -> str:
    """Return the screen of `correct`: error, new angle and height, school form, what to change."""
    found, unit = answer.correction, answer.bar.unit
    over = 100 * (found.over_correction - 1)
    lines = [
        *head(f"{both(found.old_angle)} on {bar_said(answer.bar)}"),
        *_called_lines(answer),
        *row("measured", f"{arcsec_text(found.error.arcseconds)}, {_way(found.error.arcseconds > 0)}"),
        *row("set now", f"{both(found.new_angle)}"),
        *row("height", f"{shown(found.old_height, unit)} -> {shown(found.new_height, unit)}"),
        *row("change", f"{_signed(found.change, answer)}, by L (sin new - sin old)"),
        *row(
            "school form",
            f"{_signed(found.school_change, answer)}, L rise / span: {over:.1f} % too much",
        ),
    ]
    if answer.bar.base_height:
        lines += row("base", f"{exact_text(answer.bar.base_height, unit)} more under the plate in both")
    if answer.part:
        lines += row("on the part", f"the error was {answer.part.text}")
    if answer.resolution.below:
        lines += row("TOO SMALL", answer.resolution.sentence)
    lines += _change_lines(answer)
    if answer.achieved is not None and answer.error_arcsec is not None:
        lines += row("stack gives", f"{both(answer.achieved)}, error {arcsec_text(answer.error_arcsec)}")
    lines += ["", *stack_lines(answer.new, pen)]
    return page((*lines, *remark_lines(answer.remarks)))


def from_stack_text(answer: FromStackAnswer, figures: Iterable[str] = ()) -> str:
    """Return the screen of `from-stack`: the angle, then what it is on each seat."""
    unit = answer.blocks[0].unit
    lines = [
        *head(f"{exact_text(answer.length, unit)} on {bar_said(answer.bar)}"),
        *row("angle", both(answer.angle)),
        *_certified_lines(answer),
        *row("as a flat", f"slope {float(answer.flat.exact_slope):.6f}: a wedge of this one angle"),
    ]
    for found in answer.seats:
        taper = found.taper
        lines += ["", f"  {found.seat.value}:"]
        lines += row("taper", f"{taper.one_in_text}, {taper.per_foot_text} on diameter")
        lines += row("half angle", both(taper.half))
        lines += row("included", both(taper.included))
    return page((*lines, *figure_lines(figures), *remark_lines(answer.remarks)))


def _certified_lines(answer: FromStackAnswer) -> Iterator[str]:
    """Return the sum and the angle by certified lengths, where the set knows deviations."""
    found, unit = answer.certified, answer.blocks[0].unit
    if found is None:
        return
    off = fine_text(Length(found.length - answer.length), unit)
    known = f"{found.counted} of {len(answer.blocks)} known, {', '.join(found.sources)}"
    yield from row("certified", f"{exact_text(found.length, unit)}, {off} ({known})")
    if found.angle is None:
        yield from row("its angle", "none: that sum leaves the bar")
        return
    turned = arcsec_text(found.angle - answer.angle, 2)
    yield from row("its angle", f"{both(found.angle)}, {turned} from that of the sizes")


def _called_lines(answer: CorrectAnswer) -> Iterator[str]:
    """Say of which taper the angle was set, and which of its angles it is."""
    if isinstance(answer.called, Flat):
        yield from row("taper", answer.called.reading)
    elif answer.called is not None:
        which = "half" if answer.use is Use.COMPOUND else "included"
        yield from row("taper", f"{cone_said(answer.called)}: its {which} angle was set")


def _signed(length: int, answer: CorrectAnswer) -> str:
    """Return a change of height with its sign."""
    unit = answer.bar.unit
    small = small_text(length, unit, 0 if unit is Unit.INCH else 1)
    return f"{'+' if length > 0 else ''}{shown(length, unit)} ({small})"


def _way(steep: bool) -> str:  # noqa: FBT001  (a fact, not a switch)
    """Say which way a bar is set wrong."""
    return "set too steep" if steep else "set too slow"


def _change_lines(answer: CorrectAnswer) -> Iterator[str]:
    """Return the old stack and what goes and comes."""
    if answer.standing:
        yield from row("old stack", blocks_line(answer.standing))
    if answer.change:
        yield from row("do", _change_said(answer.change, answer.standing))


def _change_said(change: Change, standing: Sequence[Block]) -> str:
    """Say what goes out of the old stack and what comes in."""
    if not change.out and not change.into:
        return "leave the stack as it stands: no other of the set comes nearer"
    out = f"take out {blocks_line(change.out)}" if change.out else "take out nothing"
    into = f"put in {blocks_line(change.into)}" if change.into else "put in nothing"
    kept = "a new stack: changing one block does not reach it"
    if len(change.out) == len(standing) == 1 and not change.one_block:
        kept = "nothing of the old stack stays"
    elif change.keeps_the_rest:
        kept = "one block changes" if change.one_block else "the rest of the stack stays"
    return f"{out}, {into} ({kept})"
