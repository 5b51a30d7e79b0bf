"""Does a taper hold by itself?  By what is published, and by friction; never a promise.

    >>> from gaugestack.angles.callout import read_taper
    >>> fit(read_taper("morse 3", bare_unit=None)).published.holding
    <Holding.SELF_HOLDING: 'self-holding'>

A cone holds by friction where tan(half angle) is below the coefficient of
friction; the coefficient is only known as a range, so the answer may be `may`.
Nothing here replaces a drawbar.
Source of the rule: statics of a cone; a forum of engineers says the same (seen).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from gaugestack.angles.angle import Angle, short_degrees_text

if TYPE_CHECKING:
    from gaugestack.angles.published import Published
    from gaugestack.angles.taper import Taper


class Holding(StrEnum):
    """What a taper does without a drawbar, as published."""

    SELF_HOLDING = "self-holding"
    SELF_RELEASING = "self-releasing"
    NOT_CLASSIFIED = "not classified"


class ByFriction(StrEnum):
    """What friction of a stated range does."""

    HOLDS = "holds over the whole range"
    MAY_HOLD = "may hold or release, as the surfaces are"
    RELEASES = "releases over the whole range"


@dataclass(frozen=True, slots=True, kw_only=True)
class Classification:
    """A published classification and the document it comes from."""

    holding: Holding
    source: str
    basis: Literal["seen", "memory", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FrictionRange:
    """Coefficients of static friction of a pair, as a source gives them."""

    pair: str
    low: Fraction
    high: Fraction
    source: str
    basis: Literal["seen", "memory"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FrictionVerdict:
    """What one range makes of a taper; `needed` is tan(half angle), the least friction that holds."""

    friction: FrictionRange
    needed: float
    verdict: ByFriction


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """All that is said about a taper's holding, with the cautions that go with it."""

    published: Classification
    by_friction: tuple[FrictionVerdict, ...]
    cautions: tuple[str, ...]


_PAGE = "national laboratory engineering page on friction, quoting two engineering handbooks"
_GUIDE = "engineering guide to drives, table 7.21"
FRICTION: tuple[FrictionRange, ...] = (
    FrictionRange(
        pair="steel on steel, static",
        low=Fraction("0.15"),
        high=Fraction("0.30"),
        source=_PAGE,
        basis="seen",
    ),
    FrictionRange(
        pair="steel on steel, static, greased",
        low=Fraction("0.12"),
        high=Fraction("0.35"),
        source=_GUIDE,
        basis="seen",
    ),
    FrictionRange(
        pair="steel on steel, static, dry",
        low=Fraction("0.12"),
        high=Fraction("0.60"),
        source=_GUIDE,
        basis="seen",
    ),
)
"""Published ranges; they differ because surfaces do."""
RETENTION = (
    "A taper that is not self-holding needs positive retention (a drawbar, a nut, a screw) before anything "
    "spins. Follow the machine maker's instructions and the local rules."
)
FRICTION_ALONE = (
    "A self-holding taper holds by friction alone: only clean, seated, and while the load is less than "
    "friction carries. Where the machine maker wants positive retention (a drawbar, a nut, a screw) fit it "
    "before anything spins, and follow the local rules."
)
MILLING = "A self-holding taper can still shake loose under side load: milling needs a drawbar too."
UNKNOWN = "No published classification: treat it as not self-holding."
_MOST_HOLDING = Fraction(1, 16)
_LEAST_RELEASING = Angle.from_degrees(16)
_HOLDING_SOURCE = (
    "Machinery's Handbook, standard tapers: about 2 to 3 degrees; "
    "ISO 296:1991, clause 1: about 4 to 5 percent"
)
_SLOW_SOURCE = "ASME B5.10, self-holding series up to 3/4 in/ft"
_RELEASING_SOURCE = "Machinery's Handbook and ASME B5.10, steep tapers: about 16 degrees and more"


def classification(taper: Taper, published: Published | None = None) -> Classification:
    """Return the published classification: of the named taper, else by its included angle.

    Self-holding up to 1:16 on diameter (3.58 degrees; about 2 to 3 degrees
    seen, the 3/4 in/ft series from memory), self-releasing from 16 degrees;
    nothing is published for what lies between.
    """
    if published is not None and published.holding != "not classified":
        holding = Holding(published.holding)
        return Classification(holding=holding, source=published.document, basis=published.basis)
    if taper.included >= _LEAST_RELEASING:
        return Classification(holding=Holding.SELF_RELEASING, source=_RELEASING_SOURCE, basis="seen")
    if taper.included <= Angle.from_degrees(3):
        return Classification(holding=Holding.SELF_HOLDING, source=_HOLDING_SOURCE, basis="seen")
    if taper.exact_rate <= _MOST_HOLDING:
        return Classification(holding=Holding.SELF_HOLDING, source=_SLOW_SOURCE, basis="memory")
    return Classification(holding=Holding.NOT_CLASSIFIED, source="no document known", basis="none")


def by_friction(taper: Taper, friction: FrictionRange) -> FrictionVerdict:
    """Return what a range of friction makes of a cone: it holds where tan(half) is below the coefficient.

    Source: statics of a cone.
    """
    needed = taper.exact_rate / 2
    if needed < friction.low:
        verdict = ByFriction.HOLDS
    elif needed < friction.high:
        verdict = ByFriction.MAY_HOLD
    else:
        verdict = ByFriction.RELEASES
    return FrictionVerdict(friction=friction, needed=float(needed), verdict=verdict)


def fit(
    taper: Taper, *, published: Published | None = None, friction: tuple[FrictionRange, ...] = FRICTION
) -> Fit:
    """Return classification, friction and cautions of a taper; one on what retains it always stands first."""
    known = classification(taper, published)
    verdicts = tuple(by_friction(taper, one) for one in friction)
    cautions = [FRICTION_ALONE, MILLING] if known.holding is Holding.SELF_HOLDING else [RETENTION]
    if known.holding is Holding.NOT_CLASSIFIED:
        cautions.append(UNKNOWN)
    if known.holding is Holding.SELF_RELEASING and any(
        v.verdict is not ByFriction.RELEASES for v in verdicts
    ):
        half = short_degrees_text(taper.half)
        cautions.append(f"At {half} per side friction may still stick it: do not count on it either way.")
    return Fit(published=known, by_friction=verdicts, cautions=tuple(cautions))
