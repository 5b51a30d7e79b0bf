"""A stack drawn to scale, in the order it is wrung: one unit of the drawing is a millimetre.

    >>> svg = stack_svg(plan.stack, Unit.INCH)

Printed at its own size it is as high as the stack itself; above 200 mm it is
smaller and says so.  Heights are to scale, widths are not.  On the right stands
each block with its number in the order, on the left the height reached.  Wear
blocks are hatched and their marked face is a heavy line; nothing depends on colour.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.svg import BODY, NOTE, filled, fitted
from gaugestack.cards.svgpaper import HEADED, LEADING, MARGIN, PITCH, Paper, beneath
from gaugestack.lengths import PM_PER_MM, engraved_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.answers.stack import StackAnswer
    from gaugestack.blocks import Block, Stack
    from gaugestack.lengths import Unit

NARROWEST = 90.0
"""Below this width in millimetres the labels find no room."""
HIGHEST = 200.0
"""A stack drawn higher is drawn smaller."""
REDUCTIONS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
_LEFT, _GAP = 33.0, 5.0
_FOOT = 24.0
_SHARE = 0.2
_SPACE = 2 * "\N{NO-BREAK SPACE}"
_PROOF = 50.0
"""The length of the line that proves the scale of a print, in millimetres."""


def stack_svg(stack: Stack, unit: Unit, *, width_mm: float = 120.0) -> str:
    """Return the drawing of a stack as a whole SVG file; never narrower than 90 mm."""
    return stack_paper(stack, unit, width_mm=width_mm).text()


def stacks_svg(answer: StackAnswer) -> str | None:
    """Return the drawing of every stack of an answer, one beneath the other; None where there is none."""
    return beneath(stack_papers(answer)) if answer.plans else None


def stack_papers(answer: StackAnswer) -> list[Paper]:
    """Return the sheet of each stack of an answer, with its role where it has one."""
    roles = answer.roles or ("",) * len(answer.plans)
    return [
        stack_paper(plan.stack, answer.stock.unit, role=role)
        for plan, role in zip(answer.plans, roles, strict=True)
    ]


def stack_paper(
    stack: Stack, unit: Unit, *, width_mm: float = 120.0, role: str = "", highest_mm: float = HIGHEST
) -> Paper:
    """Return the sheet with a stack, drawn smaller above `highest_mm`; `role` stands before its height."""
    width = max(width_mm, NARROWEST)
    reduction = reduction_of(_millimetres(stack.length()), highest_mm)
    notes = filled(_scale_said(stack, reduction), width - 2 * MARGIN, NOTE)
    room = max(_millimetres(stack.length()) / reduction, len(stack.blocks) * PITCH)
    height = HEADED + len(notes) * LEADING + _GAP + room + _FOOT
    paper = Paper(width, height, title=_title(stack, unit, role), description=described(stack, unit))
    paper.heading(paper.title)
    paper.notes(notes, height - HEADED)
    wide = _SHARE * width
    pile = pile_of(paper, stack.blocks, complex(_LEFT, _FOOT), (wide, reduction))
    bounds = (_FOOT + BODY / 2, _FOOT + room)
    paper.column(_totals(stack, unit, pile), _LEFT - _GAP, bounds)
    right = _LEFT + wide + _GAP
    paper.column(_names(stack, pile, width - right - MARGIN), right, bounds)
    _ground(paper, right)
    return paper


def reduction_of(millimetres: float, room: float) -> int:
    """Return how many times smaller a length is drawn so that it fits the room."""
    return next((times for times in REDUCTIONS if millimetres / times <= room), REDUCTIONS[-1])


def pile_of(
    paper: Paper, blocks: Sequence[Block], foot: complex, shape: tuple[float, float]
) -> list[tuple[complex, complex]]:
    """Draw blocks on one another; return the lower left corner and the size of each.

    `foot` is the lower left corner of the pile, `shape` its width in millimetres
    and how many times smaller its heights are drawn.
    """
    width, reduction = shape
    found, below = [], 0
    for index, block in enumerate(blocks):
        corner = foot + 1j * _millimetres(below) / reduction
        size = complex(width, _millimetres(block.nominal) / reduction)
        paper.box(corner, size, "block")
        if block.wear:
            paper.hatch(corner, size)
            face = corner if index == 0 else corner + 1j * size.imag
            paper.line(face, face + width, "heavy")
        found.append((corner, size))
        below += block.nominal
    return found


def described(stack: Stack, unit: Unit) -> str:
    """Return in words what the drawing of a stack shows, from the plate up."""
    totals = stack.running_totals()
    words = (
        f"{index}: {_name(block)}, height reached {engraved_text(total, unit)}"
        for index, (block, total) in enumerate(zip(stack.blocks, totals, strict=True), 1)
    )
    return f"From the plate up, {'; '.join(words)}."


def _totals(stack: Stack, unit: Unit, pile: Sequence[tuple[complex, complex]]) -> list[tuple[complex, str]]:
    """Return the height reached at the top face of each block."""
    totals = stack.running_totals()
    return [
        (corner + 1j * size.imag, engraved_text(total, unit))
        for (corner, size), total in zip(pile, totals, strict=True)
    ]


def _names(stack: Stack, pile: Sequence[tuple[complex, complex]], room: float) -> list[tuple[complex, str]]:
    """Return number, size and mark of each block at the middle of its side, cut to the room."""
    return [
        (corner + size.real + 0.5j * size.imag, fitted(f"{index}:{_SPACE}{_name(block)}", room, BODY))
        for index, (block, (corner, size)) in enumerate(zip(stack.blocks, pile, strict=True), 1)
    ]


def _name(block: Block) -> str:
    """Return a block as it is spoken of in a drawing."""
    return _SPACE.join(_name_parts(block))


def _name_parts(block: Block) -> Iterator[str]:
    """Return the size, and what sets a block apart."""
    yield block.engraved
    if block.wear:
        yield "wear"
    if block.serial:
        yield f"#{block.serial}"


def _ground(paper: Paper, right: float) -> None:
    """Draw the plate, and the line that proves the scale of a print."""
    paper.plate(complex(_LEFT - _GAP, _FOOT), right - _LEFT + 2)
    paper.label(complex(_LEFT - _GAP - 1, _FOOT - 3), "plate", size=NOTE, anchor="end")
    proof = complex(MARGIN, 10.5)
    for end in (0.0, _PROOF):
        paper.line(proof + end - 1j, proof + end + 1j, "edge")
    paper.line(proof, proof + _PROOF, "edge")
    said = "this line is 50 mm where the print is true"
    paper.label(proof - 5.5j, fitted(said, paper.width - 2 * MARGIN, NOTE), size=NOTE)


def _title(stack: Stack, unit: Unit, role: str) -> str:
    """Return the title of the drawing."""
    count = len(stack.blocks)
    lead = f"{role}, " if role else ""
    return f"{lead}{engraved_text(stack.length(), unit)}: {count} block{'s' * (count > 1)}"


def _scale_said(stack: Stack, reduction: int) -> str:
    """Say how the drawing compares with the stack, and how it is read."""
    size = "as high as the stack itself" if reduction == 1 else f"heights drawn 1:{reduction}"
    wear = "; heavy line: marked face of a wear block, out" if any(b.wear for b in stack.blocks) else ""
    return f"{size}; left: height reached, right: order{wear}"


def _millimetres(length: int) -> float:
    """Return a length in millimetres, for drawing only."""
    return length / PM_PER_MM
