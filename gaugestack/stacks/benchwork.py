"""What practice asks for around a stack: preparation, joining, soaking, clamps, weight, parting.

    >>> for one in advice(plan.stack): print(one.action, one.reason, one.basis)

One small function a rule; each piece of advice says what it rests on: a source
by its title, or `common practice`.  Which block goes where is wringing.py's
business.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from gaugestack.lengths import PM_PER_INCH, PM_PER_MM, Length, Unit, small_text
from gaugestack.stacks.wringing import PART_SOURCE

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from gaugestack.blocks import Block, Stack

TALL = Length(100 * PM_PER_MM)
"""Above this a stack tips over more easily than it parts: tie rods or a holder (common practice)."""
BARE_HAND = Length(4 * PM_PER_INCH)
"""Above this blocks are handled with gloves (US Army subcourse MM0478)."""
HEAVY = 0.5
"""Kilograms from which a stack is handled as a weight (common practice)."""
SLIPPERY = 5.0
"""Degrees above which unclamped steel work may slide (friction 0.1: 5.7 degrees, computed)."""
NARROW = Length(10 * PM_PER_MM)
"""Rectangular blocks above this are 35 mm wide, others 30 mm (ASME B89.1.9-2002, table 1)."""
DENSITIES = (("tungsten carbide", 14700), ("chrom", 6850), ("ceramic", 6050), ("zirconia", 6050))
"""Kilograms a cubic metre by a word of the material's name; steel is taken for all others."""
STEEL_DENSITY = 7850
STEEL_PER_KELVIN = 11.5e-6

STILL_AIR = "computed for a bare 9 mm x 30 mm steel block in still air, 10 W/(m2 K), 460 J/(kg K)"
SOAK_SOURCE = f"20 to 30 min on a plate is common practice; {STILL_AIR}"
TRANSPORT_SOURCE = "US Army TB 9-5210-205-40, step 8 m (written for calibration; the first inch counted too)"
SOLVENT_SOURCE = "block maker care notes; alcohol is allowed by US Army TB 9-5210-205-40, step 8"
STONE_SOURCE = (
    "trade journal article on wringability (burrs); stopping at the first grating feel: common practice"
)
FILM_SOURCE = "NPL FAQ on end standards (film); textbooks and block maker notes (crossing and sliding)"
HAND_SOURCE = "US Army subcourse OD1642 (fingertips, short times); MM0478 (gloves above 4 in)"
MIXED_SOURCE = "FAQ of a gauge supplier (like with like); different expansion: NIST Monograph 180, 3.3"
TALL_SOURCE = "tie rods or holders above 100 to 150 mm: common practice"
WEIGHT_SOURCE = "sections: ASME B89.1.9-2002, table 1; steel 7850 kg/m3; the limit is common practice"
SLIDE_SOURCE = "statics, computed for friction 0.1 to 0.15"


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """One thing practice asks for: a `topic` for scripts, what to do, why, and what that rests on."""

    topic: str
    action: str
    reason: str
    basis: str


def advice(stack: Stack, tilt: float = 0.0) -> tuple[Advice, ...]:
    """Return what practice asks for around a stack, in the order of the work.

    `tilt` is the angle in degrees the work then lies at, 0 where it lies level.
    """
    before = (one for rule in _BEFORE for one in rule(stack))
    after = (one for rule in _AFTER for one in rule(stack))
    return (*before, *after, *work_may_slide(tilt), *part_the_same_day(stack))


def soak_the_set(stack: Stack) -> Iterator[Advice]:
    """Let a set that comes from elsewhere take the temperature of the room, longer for long blocks."""
    hours = transport_hours(max(block.nominal for block in stack.blocks))
    yield Advice(
        topic="soak",
        action=f"Case from another room or fresh from the wash: {hours} h open beside the plate first",
        reason="8 h, and 1 h an inch for blocks over 1 in",
        basis=TRANSPORT_SOURCE,
    )


def clean_with_spirits(stack: Stack) -> Iterator[Advice]:
    """Clean with what leaves a trace of film, never with chlorinated solvents."""
    del stack
    yield Advice(
        topic="clean",
        action="Lint-free cloth and mineral spirits, again just before wringing; no chlorinated solvent",
        reason="an hour's dust scratches; alcohol burns, and leaves steel so bare that it may rust",
        basis=SOLVENT_SOURCE,
    )


def feel_for_burrs(stack: Stack) -> Iterator[Advice]:
    """Take burrs off steel with the gauge block stone; hard materials chip instead."""
    hard = any(density_of(block) != STEEL_DENSITY for block in stack.blocks)
    chips = "; carbide and ceramic chip rather than burr: a chipped edge stays out" if hard else ""
    yield Advice(
        topic="stone",
        action="Feel for burrs; only where one clicks, two or three light strokes on the gauge block stone",
        reason=f"a burr holds the faces apart and scores the next one{chips}",
        basis=STONE_SOURCE,
    )


def join_by_sliding(stack: Stack) -> Iterator[Advice]:
    """Cross the faces, press lightly, swing into line; never force."""
    if len(stack.blocks) > 1:
        yield Advice(
            topic="join",
            action="Cross the faces, press lightly, swing into line; stop at the first grating feel",
            reason="a trace of film lets them grab; forced, they are scratched for good",
            basis=FILM_SOURCE,
        )


def keep_hands_short(stack: Stack) -> Iterator[Advice]:
    """Hold blocks by the fingertips and not for long, with gloves when they are long."""
    gloves = any(block.nominal > BARE_HAND for block in stack.blocks)
    yield Advice(
        topic="hands",
        action="Gloves or forceps, and put it down soon"
        if gloves
        else "Fingertips only, and put it down soon",
        reason=f"1 K from the hand makes this stack {warmth_text(stack)} longer (steel)",
        basis=HAND_SOURCE,
    )


def like_with_like(stack: Stack) -> Iterator[Advice]:
    """Mind stacks of several materials: they grow differently."""
    materials = sorted({block.material for block in stack.blocks})
    if len(materials) > 1:
        yield Advice(
            topic="materials",
            action=f"{' and '.join(materials)} together: hard ones outside, work near 20 \N{DEGREE SIGN}C",
            reason="they wring well and expand differently",
            basis=MIXED_SOURCE,
        )


def tie_tall_stacks(stack: Stack) -> Iterator[Advice]:
    """Hold stacks above 100 mm with tie rods or a holder."""
    if stack.length() > TALL:
        yield Advice(
            topic="clamp",
            action="Above 100 mm: tie rods or a holder, nipped up lightly",
            reason="a tall stack tips over before it parts, and a hard clamp shortens it",
            basis=TALL_SOURCE,
        )


def mind_the_weight(stack: Stack) -> Iterator[Advice]:
    """Say what a heavy stack weighs, as rectangular and as square blocks."""
    light, heavy = masses(stack)
    if heavy >= HEAVY:
        yield Advice(
            topic="weight",
            action=f"About {light:.1f} kg, of square blocks {heavy:.1f} kg: both hands, low over the bench",
            reason="a joint holds the weight of a stack only while nothing jerks it",
            basis=WEIGHT_SOURCE,
        )


def soak_the_stack(stack: Stack) -> Iterator[Advice]:
    """Let a stack that was in the hand lose its warmth before it is trusted."""
    yield Advice(
        topic="soak",
        action=f"Then 20 to 30 min on the metal plate; standing in still air {still_air_minutes(stack)} min",
        reason="until 1 K of hand warmth is down to 0.1 K; equal warmth of work and blocks cancels most",
        basis=SOAK_SOURCE,
    )


def work_may_slide(tilt: float) -> Iterator[Advice]:
    """Stop work that lies steeper than friction holds."""
    if tilt > SLIPPERY:
        yield Advice(
            topic="slide",
            action="Put a stop or a clamp to the work",
            reason=f"at {tilt:.1f} degrees steel may slide on steel: friction holds to 5 or 8 degrees",
            basis=SLIDE_SOURCE,
        )


def part_the_same_day(stack: Stack) -> Iterator[Advice]:
    """Part a stack within the working day."""
    if len(stack.blocks) > 1:
        yield Advice(
            topic="part",
            action="Slide apart within 8 h, with the motion that wrung it; wipe, acid-free oil, own place",
            reason="steel faces left wrung seize, and tear when they are pulled",
            basis=f"{PART_SOURCE}; two German reference pages (8 h)",
        )


_BEFORE: tuple[Callable[[Stack], Iterator[Advice]], ...] = (
    soak_the_set,
    clean_with_spirits,
    feel_for_burrs,
    keep_hands_short,
    like_with_like,
    join_by_sliding,
)
_AFTER: tuple[Callable[[Stack], Iterator[Advice]], ...] = (tie_tall_stacks, mind_the_weight, soak_the_stack)


def transport_hours(longest: int) -> int:
    """Return the hours a set soaks after transport: 8, and one for each inch of blocks over 1 in.

    `longest` is the longest block in picometres; a part of an inch counts whole.
    Source: US Army TB 9-5210-205-40, step 8 m.
    """
    return 8 + (ceil(longest / PM_PER_INCH) if longest > PM_PER_INCH else 0)


def still_air_minutes(stack: Stack) -> int:
    """Return the minutes in which a stack of steel loses nine tenths of its warmth in still air.

    2.3 time constants of a bare 9 mm x 30 mm bar as long as the stack, rounded
    up to 5 min; the coefficient of the air is assumed, so it is an estimate.
    """
    return ceil(2.302585 * time_constant_minutes(stack.length()) / 5) * 5


def time_constant_minutes(length: int) -> float:
    """Return the time constant in minutes of a steel bar 9 mm x 30 mm, `length` picometres long.

    Density x heat capacity x volume over film coefficient x surface:
    7850 kg/m3, 460 J/(kg K), 10 W/(m2 K).
    """
    long = length / PM_PER_MM
    depth = 9 * 30 * long / (2 * (9 * 30 + 9 * long + 30 * long)) / 1000
    return 7850 * 460 * depth / 10 / 60


def masses(stack: Stack) -> tuple[float, float]:
    """Return the mass of a stack in kilograms: of rectangular and of square blocks, holes not counted."""
    cubes = [(block.nominal / PM_PER_MM, density_of(block) * 1e-9, _width(block)) for block in stack.blocks]
    rectangular = sum(length * density * width * 9 for length, density, width in cubes)
    square = sum(length * density * 24.1**2 for length, density, _ in cubes)
    return rectangular, square


def density_of(block: Block) -> int:
    """Return the density of a block's material in kg/m3; steel where the material is not known."""
    name = block.material.casefold()
    return next((density for word, density in DENSITIES if word in name), STEEL_DENSITY)


def warmth_text(stack: Stack) -> str:
    """Return how much longer 1 K makes a stack of steel."""
    unit = stack.blocks[0].unit
    grown = round(stack.length() * STEEL_PER_KELVIN)
    return small_text(grown, unit, 0 if unit is Unit.INCH else 2).lstrip("+")


def _width(block: Block) -> int:
    """Return the width of a rectangular block in millimetres."""
    return 35 if block.nominal > NARROW else 30
