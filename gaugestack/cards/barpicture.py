"""A sine bar on its stack, drawn to scale with the angle it sets.

    >>> svg = set_up_svg(answer)                               # of the command `angle`
    >>> svg = bar_svg(answer.asked, answer.bar, plan.stack)    # from its parts

Angle, centre distance, height and rolls are to scale, all by the same factor;
rolls of unknown diameter are drawn a tenth of the centre distance and the
drawing says so.  The bar's body and the width of the blocks are not the real ones.
"""

from __future__ import annotations

import cmath
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.cards.anglescreen import bar_said, both
from gaugestack.cards.stackpicture import pile_of, stack_papers
from gaugestack.cards.svg import BODY, NOTE, filled, fitted
from gaugestack.cards.svgpaper import HEADED, LEADING, MARGIN, PITCH, Paper, beneath
from gaugestack.lengths import PM_PER_MM, engraved_text, exact_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.blocks import Stack

NARROWEST = 150.0
FACTORS = (5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02)
"""Scales drawings are made in, the largest first."""
_LABELS = 52.0
"""What the labels take on the right."""
_HIGHEST = 150.0
_DRAWN_ROLL = 10
"""Rolls of unknown diameter are drawn this part of the centre distance."""
_BEYOND = 4.0
_FOOT = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _SetUp:
    """The set-up in millimetres of paper: x to the right, y up from the plate."""

    factor: float
    length: float
    roll: float
    base: float
    height: float
    turn: float

    @property
    def low(self) -> complex:
        """The centre of the roll that stays down."""
        return complex(self.roll, self.base + self.roll)

    @property
    def along(self) -> complex:
        """One millimetre along the bar."""
        return cmath.rect(1, self.turn)

    @property
    def high(self) -> complex:
        """The centre of the roll on the stack."""
        return self.low + self.length * self.along

    @property
    def pile(self) -> float:
        """How wide the blocks are drawn."""
        return max(8.0, 1.4 * self.roll)

    @property
    def body(self) -> float:
        """How far the bar's top lies above the centres of its rolls."""
        return 1.2 * self.roll

    @property
    def reach(self) -> float:
        """The radius of the arc that shows the angle: just beyond the bar's end."""
        return self.length + self.roll + _BEYOND

    @property
    def right(self) -> float:
        """Where the drawing ends and the labels begin."""
        return max(self.low.real + self.reach, self.high.real + self.pile / 2 + _BEYOND) + 2

    @property
    def top(self) -> float:
        """The highest point of the drawing."""
        ends = (self.low + self.reach * self.along, self.high + self.roll * self.along)
        return max(ends[0].imag, (ends[1] + self.body * self.along * 1j).imag + BODY + 4)


def set_up_svg(answer: AngleAnswer) -> str | None:
    """Return the drawing of an answer of `angle`, its stacks beneath; None where there is no stack."""
    stacks = [plan.stack for plan in answer.stack.plans]
    if not stacks:
        return None
    low = stacks[1] if len(stacks) > 1 else None
    paper = bar_paper(answer.asked, answer.bar, stacks[0], low=low)
    return beneath([paper, *stack_papers(answer.stack)])


def bar_svg(
    angle: Angle, bar: SineBar, stack: Stack, *, low: Stack | None = None, width_mm: float = 190.0
) -> str:
    """Return the drawing of a bar on its stack as a whole SVG file; never narrower than 150 mm.

    `low` is the stack under the other roll, where the difference of two sets the angle.
    """
    return bar_paper(angle, bar, stack, low=low, width_mm=width_mm).text()


def bar_paper(
    angle: Angle, bar: SineBar, stack: Stack, *, low: Stack | None = None, width_mm: float = 190.0
) -> Paper:
    """Return the sheet with a bar on its stack, or on two."""
    width = max(width_mm, NARROWEST)
    drawn = _fitting(angle, bar, low.length() if low else bar.base_height, width - _LABELS - 2 * MARGIN)
    title = f"{both(angle)} on {bar_said(bar, measured=False)}"
    lines = [
        *(line for said in _stacks_said(bar, stack, low) for line in filled(said, width - 2 * MARGIN, NOTE)),
        *filled(_scale_said(drawn.factor, bar), width - 2 * MARGIN, NOTE),
    ]
    room = max(drawn.top, 3 * PITCH) + MARGIN
    height = HEADED + len(lines) * LEADING + room + _FOOT
    paper = Paper(width, height, title=title, description=" ".join(lines))
    paper.heading(title)
    paper.notes(lines, height - HEADED)
    shift = complex(MARGIN + _left(drawn), _FOOT)
    _piles(paper, drawn, shift, (stack, low))
    _bar(paper, drawn, shift, f"{exact_text(bar.effective, bar.unit)} centres")
    height_said = f"{engraved_text(stack.length(), bar.unit)} {'high ' if low else ''}stack"
    _labels(paper, drawn, shift, (both(angle), height_said))
    return paper


def _fitting(angle: Angle, bar: SineBar, base: int, room: float) -> _SetUp:
    """Return the set-up in the largest scale that fits the room; `base` lies below the low roll."""
    found = [_set_up(angle, bar, base, factor) for factor in FACTORS]
    fits = (one for one in found if one.right + _left(one) <= room and one.top <= _HIGHEST)
    return next(fits, found[-1])


def _set_up(angle: Angle, bar: SineBar, base: int, factor: float) -> _SetUp:
    """Return the set-up in one scale."""
    diameter = bar.roll_diameter or bar.effective // _DRAWN_ROLL
    length = factor * bar.effective / PM_PER_MM
    turn = angle.radians
    below = factor * base / PM_PER_MM
    return _SetUp(
        factor=factor,
        length=length,
        roll=factor * diameter / PM_PER_MM / 2,
        base=below,
        height=below + length * cmath.rect(1, turn).imag,
        turn=turn,
    )


def _left(drawn: _SetUp) -> float:
    """Return how far the bar leans out to the left of its lower roll."""
    corner = drawn.low + complex(-drawn.roll, drawn.body + BODY + 5) * drawn.along
    return max(0.0, -corner.real, drawn.pile / 2 - drawn.roll)


def _piles(paper: Paper, drawn: _SetUp, shift: complex, stacks: tuple[Stack, Stack | None]) -> None:
    """Draw the plate, the stack under the high roll, and what stands under the low one."""
    high, low = stacks
    paper.plate(shift - _left(drawn) - 2, drawn.right + _left(drawn))
    shape = (drawn.pile, 1 / drawn.factor)
    pile_of(paper, high.blocks, shift + drawn.high.real - drawn.pile / 2, shape)
    if low:
        pile_of(paper, low.blocks, shift + drawn.low.real - drawn.pile / 2, shape)
    elif drawn.base:
        paper.box(shift, complex(2 * drawn.roll, drawn.base), "hidden")


def _bar(paper: Paper, drawn: _SetUp, shift: complex, centres: str) -> None:
    """Draw the bar, its rolls and its centre distance."""
    low, high = (shift + centre for centre in (drawn.low, drawn.high))
    along, square, roll = drawn.along, drawn.along * 1j, drawn.roll
    ends = (low - roll * along, high + roll * along)
    paper.path((ends[0], ends[1], ends[1] + drawn.body * square, ends[0] + drawn.body * square), "block")
    for centre in (low, high):
        paper.circle(centre, roll, "block")
        paper.circle(centre, 0.6, "dot")
    over = (drawn.body + 2.5) * square
    for centre in (low, high):
        paper.line(centre, centre + over + square, "thin")
    paper.across(low + over, high + over, "")
    paper.label_along(low + over, high + over, centres)


def _labels(paper: Paper, drawn: _SetUp, shift: complex, said: tuple[str, str]) -> None:
    """Draw angle and height, and write what they are in a column on the right."""
    low, foot = shift + drawn.low, shift + drawn.high.real + drawn.pile / 2 + 2
    paper.line(low, low + drawn.reach + 1, "thin")
    paper.line(low, low + (drawn.reach + 1) * drawn.along, "thin")
    degrees = drawn.turn * 180 / cmath.pi
    paper.arc(low, drawn.reach, 0, degrees, "edge")
    paper.across(foot, foot + 1j * drawn.height, "")
    paper.line(foot - 2 + 1j * drawn.height, foot + 1 + 1j * drawn.height, "thin")
    points = [
        (foot + 0.5j * drawn.height, said[1]),
        (low + drawn.reach * cmath.rect(1, drawn.turn / 2), said[0]),
    ]
    points.sort(key=lambda point: point[0].imag)
    x = shift.real + drawn.right + 3
    room = paper.width - x - MARGIN
    labels = [(point, fitted(words, room, BODY)) for point, words in points]
    paper.column(labels, x, (_FOOT + BODY / 2, paper.height))


def _stacks_said(bar: SineBar, stack: Stack, low: Stack | None) -> Iterator[str]:
    """Name the blocks of each stack from the plate up, and what sets a plate level."""
    level = f"; {exact_text(bar.base_height, bar.unit)} of it set the plate level" if bar.base_height else ""
    yield f"{'High stack' if low else 'Stack'} from the plate up: {_sum_said(bar, stack)}{level}."
    if low:
        yield f"Low stack from the plate up: {_sum_said(bar, low)}."


def _sum_said(bar: SineBar, stack: Stack) -> str:
    """Name the blocks of a stack and their sum."""
    sizes = " + ".join(block.engraved + (" (wear)" if block.wear else "") for block in stack.blocks)
    return f"{sizes} = {engraved_text(stack.length(), bar.unit)}"


def _scale_said(factor: float, bar: SineBar) -> str:
    """Say the scale, and what is not drawn as it is."""
    scale = f"{factor:g}:1" if factor >= 1 else f"1:{1 / factor:g}"
    rolls = (
        f"rolls {exact_text(bar.roll_diameter, bar.unit)}"
        if bar.roll_diameter
        else "rolls of unknown diameter, drawn a tenth of the centre distance"
    )
    return f"Drawn {scale}; {rolls}."
