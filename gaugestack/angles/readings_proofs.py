"""Independent checks of a set-up, each with what it cannot detect.

    >>> len(proofs_for("bar")) > 3
    True

A check that shares its error with the set-up proves nothing about that error,
so each says its blind side.  Data only.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["bar", "lathe", "plug", "bore"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """One check: what to do, what it finds, what it cannot detect, and how well that is known."""

    name: str
    kind: Kind
    do: str
    finds: str
    cannot_detect: str
    basis: Literal["seen", "common practice", "derived"]


PROOFS: tuple[Proof, ...] = (
    Proof(
        name="bar on the bare plate",
        kind="bar",
        do="lay the bar on the plate without blocks and sweep its top",
        finds="unequal rolls, a top that is not parallel to them, dirt",
        cannot_detect="a wrong centre distance; a wrong stack",
        basis="common practice",
    ),
    Proof(
        name="bar end for end",
        kind="bar",
        do="turn the bar round on the same stack and sweep again",
        finds="rolls of unequal diameter, a plate out of level along the bar",
        cannot_detect="a wrong centre distance; a wrong stack; half taken for included angle",
        basis="common practice",
    ),
    Proof(
        name="second stack of different blocks",
        kind="bar",
        do="build the same height from other blocks and compare both with the indicator",
        finds="a wrong or bad block, dirt, a bad wring",
        cannot_detect="a wrong height computed; a fault of a block both stacks share; heat common to both",
        basis="common practice",
    ),
    Proof(
        name="second bar length",
        kind="bar",
        do="set the same angle on a bar of another centre distance",
        finds="a wrong centre distance, a height reckoned for another bar",
        cannot_detect="half taken for included angle; a misread call-out",
        basis="common practice",
    ),
    Proof(
        name="sweep along the top",
        kind="bar",
        do="indicate the top of the part at both ends of the longest span",
        finds="part and set-up that differ in angle",
        cannot_detect="which of them is wrong; an axis askew on the bar; a bulge between the ends",
        basis="seen",
    ),
    Proof(
        name="part end for end",
        kind="bar",
        do="turn the part round on a bar set to the included angle and sweep again from the other side",
        finds="a part that is not round, a burr, a skewed seat",
        cannot_detect="an error of the angle set",
        basis="common practice",
    ),
    Proof(
        name="indicator over a known travel",
        kind="lathe",
        do="run the carriage, or the slide, over a measured travel and read the rise",
        finds="half taken for included angle, a wrong swing",
        cannot_detect="a tool off centre height; work that bends; on slow tapers a mixed-up travel",
        basis="common practice",
    ),
    Proof(
        name="two-collar test cut",
        kind="lathe",
        do="turn two collars a known distance apart and measure both without taking the work out",
        finds="the angle the machine really cuts, ways and pivot included",
        cannot_detect="a flank that is not straight between the collars; tool wear between the two cuts",
        basis="seen",
    ),
    Proof(
        name="copy of a good taper",
        kind="lathe",
        do="indicate along a known taper held true while the slide moves: it reads the same all along",
        finds="any wrong swing, without a calculation",
        cannot_detect="an error of the known taper; an indicator off centre height, which shows a curve",
        basis="seen",
    ),
    Proof(
        name="diameters at two heights",
        kind="plug",
        do="measure over rolls on two pairs of equal stacks",
        finds="the half angle, free of the roll diameter",
        cannot_detect="unequal stacks of one pair; a plug that leans; a flank that is not straight",
        basis="seen",
    ),
    Proof(
        name="blue and a light twist",
        kind="plug",
        do="blue the gauge, turn it about one eighth of a turn and look where it rubs",
        finds="contact, straightness and roundness at once: the last word on a fit",
        cannot_detect="how large the error is; an error of the gauge itself; too much blue hides all",
        basis="seen",
    ),
    Proof(
        name="two other balls",
        kind="bore",
        do="measure the bore with a second pair of balls",
        finds="a misread height, a ball on a burr, a bore that is not straight",
        cannot_detect="a face that is not square to the bore, which tips every height alike",
        basis="derived",
    ),
)


def proofs_for(kind: Kind) -> tuple[Proof, ...]:
    """Return the checks of one kind of set-up, the quickest first."""
    return tuple(proof for proof in PROOFS if proof.kind == kind)
