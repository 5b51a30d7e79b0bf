"""A sine bar on its stack, drawn to scale with the angle it sets.

    >>> svg = bar_svg(answer.asked, answer.bar, plan.stack)

Angle, centre distance, height and rolls are to scale, all by the same factor;
rolls of unknown diameter are drawn a tenth of the centre distance and the
drawing says so.  The bar's body and the width of the blocks are not the real ones.
"""

from __future__ import annotations

import cmath
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.angle import dms_text, short_degrees_text
from gaugestack.blocks import Basis
from gaugestack.cards.svg import BODY, NOTE, filled, fitted
from gaugestack.cards.svgpaper import HEADED, LEADING, MARGIN, PITCH, Paper
from gaugestack.lengths import PM_PER_MM, engraved_text, exact_text

if TYPE_CHECKING:
    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
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


def bar_svg(angle: Angle, bar: SineBar, stack: Stack, *, width_mm: float = 190.0) -> str:
    """Return the drawing of a bar on its stack as a whole SVG file; never narrower than 150 mm."""
    return bar_paper(angle, bar, stack, width_mm=width_mm).text()


def bar_paper(angle: Angle, bar: SineBar, stack: Stack, *, width_mm: float = 190.0) -> Paper:
    """Return the sheet with a bar on its stack."""
    width = max(width_mm, NARROWEST)
    drawn = _fitting(angle, bar, width - _LABELS - 2 * MARGIN)
    title = f"{_both(angle)} on {_bar_said(bar)}"
    lines = [
        *filled(_stack_said(bar, stack), width - 2 * MARGIN, NOTE),
        *filled(_scale_said(drawn.factor, bar), width - 2 * MARGIN, NOTE),
    ]
    room = max(drawn.top, 3 * PITCH) + MARGIN
    height = HEADED + len(lines) * LEADING + room + _FOOT
    paper = Paper(width, height, title=title, description=" ".join(lines))
    paper.heading(title)
    paper.notes(lines, height - HEADED)
    shift = complex(MARGIN + _left(drawn), _FOOT)
    _pile(paper, drawn, shift, stack)
    _bar(paper, drawn, shift, f"{exact_text(bar.effective, bar.unit)} centres")
    _labels(paper, drawn, shift, (_both(angle), f"{engraved_text(stack.length(), bar.unit)} stack"))
    return paper


def _fitting(angle: Angle, bar: SineBar, room: float) -> _SetUp:
    """Return the set-up in the largest scale that fits the room."""
    found = [_set_up(angle, bar, factor) for factor in FACTORS]
    fits = (one for one in found if one.right + _left(one) <= room and one.top <= _HIGHEST)
    return next(fits, found[-1])


def _set_up(angle: Angle, bar: SineBar, factor: float) -> _SetUp:
    """Return the set-up in one scale."""
    diameter = bar.roll_diameter or bar.effective // _DRAWN_ROLL
    length = factor * bar.effective / PM_PER_MM
    base = factor * bar.base_height / PM_PER_MM
    turn = angle.radians
    return _SetUp(
        factor=factor,
        length=length,
        roll=factor * diameter / PM_PER_MM / 2,
        base=base,
        height=base + length * cmath.rect(1, turn).imag,
        turn=turn,
    )


def _left(drawn: _SetUp) -> float:
    """Return how far the bar leans out to the left of its lower roll."""
    corner = drawn.low + complex(-drawn.roll, drawn.body + BODY + 5) * drawn.along
    return max(0.0, -corner.real)


def _pile(paper: Paper, drawn: _SetUp, shift: complex, stack: Stack) -> None:
    """Draw the plate, the stack under the high roll, and what carries the low one of a plate."""
    paper.plate(shift - 2, drawn.right)
    corner = shift + drawn.high.real - drawn.pile / 2
    below, whole = 0, stack.length()
    for index, block in enumerate(stack.blocks):
        size = complex(drawn.pile, drawn.height * block.nominal / whole)
        place = corner + 1j * drawn.height * below / whole
        paper.box(place, size, "block")
        if block.wear:
            paper.hatch(place, size)
            face = place if index == 0 else place + 1j * size.imag
            paper.line(face, face + size.real, "heavy")
        below += block.nominal
    if drawn.base:
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


def _both(angle: Angle) -> str:
    """Return an angle in degrees, minutes, seconds and in decimal degrees."""
    return f"{dms_text(angle, 1)} ({short_degrees_text(angle, 4)})"


def _bar_said(bar: SineBar) -> str:
    """Name a bar by its name and centre distance."""
    length = exact_text(bar.effective, bar.unit)
    return f"a {length} bar" if bar.name == length.replace(" ", "") else f"bar {bar.name}, {length} centres"


def _stack_said(bar: SineBar, stack: Stack) -> str:
    """Name the blocks from the plate up, and what sets a plate level."""
    sizes = " + ".join(block.engraved + (" (wear)" if block.wear else "") for block in stack.blocks)
    whole = engraved_text(stack.length(Basis.NOMINAL), bar.unit)
    level = f"; {exact_text(bar.base_height, bar.unit)} of it set the plate level" if bar.base_height else ""
    return f"Stack from the plate up: {sizes} = {whole}{level}."


def _scale_said(factor: float, bar: SineBar) -> str:
    """Say the scale, and what is not drawn as it is."""
    scale = f"{factor:g}:1" if factor >= 1 else f"1:{1 / factor:g}"
    rolls = (
        f"rolls {exact_text(bar.roll_diameter, bar.unit)}"
        if bar.roll_diameter
        else "rolls of unknown diameter, drawn a tenth of the centre distance"
    )
    return f"Drawn {scale}; {rolls}."
