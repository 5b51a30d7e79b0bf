"""The budget of a stack: blocks, joints, drift, and warmth against the part it is set for.

    height = Height(stack=stack, knowledge={"Bench set": knowledge_of(block_set)})
    result = stack_uncertainty(height, Conditions())
    result.budget.expanded        # nm
    result.shift                  # nm the stack is too high by against the part; correct for it

A difference set-up has a `low` stack, whose doubts count against those of the
other.  Nothing is added to the length for joints: a certified length holds one
film (ISO 3650:1998, clause 3), and the film is only a doubt.
Does not choose blocks, and does not correct: see correction.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from gaugestack.blocks import Basis, Stack, Trust
from gaugestack.errors import UsageError
from gaugestack.uncertainty.budget import USUAL_PROBABILITY, Budget, Component, scaled
from gaugestack.uncertainty.distribution import Distribution
from gaugestack.uncertainty.knowledge import PM_PER_NM, Knowledge, length_components
from gaugestack.uncertainty.materials import Role, expansion
from gaugestack.uncertainty.thermal import Segment, Side, shift, thermal_components

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from gaugestack.blocks import Block
    from gaugestack.uncertainty.conditions import Conditions
    from gaugestack.uncertainty.materials import Expansion

_NO_STACK = Stack(blocks=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Height:
    """What makes a height, and what is known of its blocks.

    `low` is the stack that counts against the other in a difference set-up.
    `knowledge` goes by the owner of a block; `recalibrated` holds the blocks that know
    better than their owner.  `drift_limits` says how far each block may have changed
    since it was calibrated, nm, for the blocks of `stack` and then of `low`, and
    `drift_sources` who says so; empty where nobody says.
    """

    stack: Stack
    low: Stack = _NO_STACK
    knowledge: Mapping[str, Knowledge] = field(default_factory=dict)
    basis: Basis = Basis.CERTIFIED
    drift_limits: tuple[float, ...] = ()
    drift_sources: tuple[str, ...] = ()
    recalibrated: Mapping[Block, Knowledge] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse a height of nothing and drift limits that are not one a block."""
        if not self.stack.blocks:
            raise UsageError.about("stack", "a stack without blocks", hint="name its blocks")
        blocks = len(self.stack.blocks) + len(self.low.blocks)
        if self.drift_limits and len(self.drift_limits) != blocks:
            sentence = f"{len(self.drift_limits)} drift limits for {blocks} blocks"
            raise UsageError.about("drift", sentence, hint="one for each block, from the bottom up")

    def known(self, block: Block) -> Knowledge:
        """Return what is known of a block."""
        return self.recalibrated.get(block) or self.knowledge.get(block.owner, Knowledge())

    @property
    def counted(self) -> tuple[tuple[Block, int], ...]:
        """Every block with +1, or -1 where it lies in the low stack."""
        return (*((b, 1) for b in self.stack.blocks), *((b, -1) for b in self.low.blocks))

    @property
    def length(self) -> int:
        """The height in picometres."""
        return sum(block.length(self.basis) * sign for block, sign in self.counted)


@dataclass(frozen=True, slots=True, kw_only=True)
class StackUncertainty:
    """The budget in nm; `shift` is how much too high the stack stands against the part, in nm.

    The budget holds for a result corrected by the shift.
    """

    budget: Budget
    shift: float


def stack_uncertainty(
    height: Height, conditions: Conditions, *, probability: float = USUAL_PROBABILITY
) -> StackUncertainty:
    """Return the budget of the height as it stands, against a part whose size is wanted at 20 °C.

    Model: sum of lengths + films + drift + L (alpha_blocks t_blocks - alpha_part t_part), t above 20 °C;
    form of JCGM 100:2008, H.1.  Raises UsageError where nothing is known of a block or a material.
    """
    sides = (blocks_side(height, conditions, 1.0), _part_side(height, conditions))
    found = (*height_components(height, conditions), *thermal_components(sides, conditions))
    budget = Budget(
        quantity="stack",
        unit="nm",
        components=found,
        probability=probability,
        remarks=height_remarks(height),
    )
    return StackUncertainty(budget=budget, shift=shift(sides, conditions.room_above_reference))


def height_components(height: Height, conditions: Conditions) -> tuple[Component, ...]:
    """Return all doubts about the height at 20 °C, in nm: lengths, joints and drift.

    Blocks of one certificate in both stacks of a difference set-up cancel as far as
    they go wrong together.
    """
    found: list[Component] = []
    for block, sign in height.counted:
        own = length_components(block, height.known(block), height.basis, conditions.calibration_shared)
        found += scaled(own, sign)
    found += joint_components(height, conditions)
    sources = height.drift_sources or ("given",) * len(height.drift_limits)
    for (block, sign), limit, source in zip(height.counted, height.drift_limits, sources, strict=False):
        found += _drift(block, sign, limit, source)
    return tuple(found)


def joint_components(height: Height, conditions: Conditions) -> list[Component]:
    """Return one rectangular doubt a joint: between blocks, and under the foot where that counts.

    In one group where they go wrong together; those of a low stack then count against
    the others.  None at all for a limit of 0.
    """
    if conditions.wringing_limit == 0:
        return []
    group = "wringing films, all together" if conditions.joints_together else ""
    found = []
    for stack, sign in ((height.stack, 1), (height.low, -1)):
        joints = len(stack.blocks) - (0 if conditions.foot_joint else 1)
        found += [_joint(number, sign, conditions.wringing_limit, group) for number in range(1, joints + 1)]
    return found


def blocks_side(height: Height, conditions: Conditions, per_nm: float) -> Side:
    """Return the blocks as one warm side, by material; `per_nm` is what 1 nm does to the result."""
    lengths: dict[Expansion, float] = {}
    for block, sign in height.counted:
        grown = _block_expansion(block.material, conditions)
        lengths[grown] = lengths.get(grown, 0.0) + sign * block.nominal / PM_PER_NM
    parts = tuple(Segment(weight=length * per_nm, expansion=grown) for grown, length in lengths.items())
    return Side(name="blocks", parts=parts, above=conditions.blocks_above, limit=conditions.blocks_limit)


def _block_expansion(material: str, conditions: Conditions) -> Expansion:
    """Return the expansion of a block's material: the circumstances' own, else the listed one."""
    own = {given.material: given for given in conditions.block_expansions}
    return own.get(material) or expansion(material, Role.BLOCK)


def _part_side(height: Height, conditions: Conditions) -> Side:
    """Return the part, which counts against the blocks over the same length."""
    grown = expansion(conditions.part_material, Role.WORK)
    length = math.fsum(sign * block.nominal for block, sign in height.counted) / PM_PER_NM
    only = Segment(weight=-length, expansion=grown)
    return Side(name="part", parts=(only,), above=conditions.part_above, limit=conditions.part_limit)


def _joint(number: int, sign: int, limit: float, group: str) -> Component:
    """Return the doubt about one film."""
    return Component(
        name=f"wringing film {number}{' of the low stack' if sign < 0 else ''}",
        value=limit,
        unit="nm",
        distribution=Distribution.RECTANGULAR,
        sensitivity=sign,
        group=group,
        source="limit per joint, common practice",
    )


def _drift(block: Block, sign: int, limit: float, source: str) -> Iterable[Component]:
    """Return the doubt about a block's change since it was calibrated; nothing for a limit of 0."""
    if limit == 0:
        return ()
    drift = Component(
        name=f"drift of {block.engraved} since it was calibrated",
        value=limit,
        unit="nm",
        distribution=Distribution.RECTANGULAR,
        sensitivity=sign,
        source=source,
    )
    return (drift,)


def height_remarks(height: Height) -> tuple[str, ...]:
    """Say what a budget of this height leaves out or believes."""
    left_out = []
    if not height.drift_limits:
        left_out.append("drift since the calibration is left out: nobody gave it")
    if height.basis is Basis.NOMINAL and any(block.deviation is not None for block, _ in height.counted):
        left_out.append("deviations of the certificate are not used: the grade's limits count instead")
    sheets = [b.engraved for b, _ in height.counted if _by_sheet(b, height.basis)]
    if sheets:
        left_out.append(f"deviations of an unverified sheet are believed: {', '.join(sheets)}")
    return tuple(left_out)


def _by_sheet(block: Block, basis: Basis) -> bool:
    """Return whether the length that counts comes from a sheet nobody verified."""
    used = basis is Basis.CERTIFIED and block.deviation is not None
    return used and block.trust is Trust.UNVERIFIED_SHEET
