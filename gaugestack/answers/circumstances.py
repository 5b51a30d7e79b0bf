"""The circumstances of a set-up as somebody typed them, for the budgets.

    >>> Circumstances(temperature="21.5 °C", part_material="aluminium").conditions()

Every text is read with its unit: a bare 68 is asked back, never guessed at.
What nobody gave keeps the default that the answer prints as assumed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from gaugestack.angles.angle import read_angle
from gaugestack.errors import TextError, UsageError
from gaugestack.lengths import read_length
from gaugestack.uncertainty.angle import BarLimits, usual_limits
from gaugestack.uncertainty.budget import refuse_no_coverage
from gaugestack.uncertainty.conditions import Conditions
from gaugestack.uncertainty.knowledge import PM_PER_NM
from gaugestack.uncertainty.materials import Expansion, Role, expansion
from gaugestack.uncertainty.temperature import read_temperature, read_temperature_difference

if TYPE_CHECKING:
    from gaugestack.angles.sine import SineBar

_NUMBER = r"[0-9]{1,4}(?:\.[0-9]{0,6})?"
_OWN_EXPANSION = re.compile(rf"\s*({_NUMBER})\s*(?:\N{{PLUS-MINUS SIGN}}|\+/-|\+-)\s*({_NUMBER})\s*")
_OWN_HINT = "or its growth in millionths a kelvin and how far that may be off: 23.1+-1.2"
_MILLIONTH = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Circumstances:
    """What was typed of the circumstances; None and empty texts take the default.

    temperature         of the room, with its scale
    temperature_limit   how far that may be off, a difference
    blocks_above        how much warmer than the room; so bar_above, part_above
    warmth_limit        how far those may be off, for blocks, bar and part alike
    part_material       a known material or COEFFICIENT+-LIMIT; so bar_material
    block_materials     each MATERIAL=COEFFICIENT+-LIMIT, for blocks of that material
    film                how far a wrung joint may be off, a length
    joints_together     all joints go wrong the same way
    foot_joint          whether the stack's foot on the plate counts as a joint
    shared              how much of a certificate's uncertainty is common: 0 to 1, or a percentage
    k                   coverage factor; None: by the degrees of freedom, for 95.45 %
    """

    temperature: str | None = None
    temperature_limit: str | None = None
    blocks_above: str | None = None
    bar_above: str | None = None
    part_above: str | None = None
    warmth_limit: str | None = None
    part_material: str | None = None
    bar_material: str | None = None
    block_materials: tuple[str, ...] = ()
    film: str | None = None
    joints_together: bool = False
    foot_joint: bool = True
    shared: str | None = None
    k: str | None = None

    def conditions(self) -> Conditions:
        """Return the circumstances as values.  Raises UsageError naming the option."""
        given = {**self._temperatures(), **self._materials(), **self._joints()}
        return Conditions(**given, given=tuple(given))

    def coverage_factor(self) -> float | None:
        """Return k, or None where it follows from the degrees of freedom.  Raises UsageError."""
        if self.k is None:
            return None
        factor = _number("--k", self.k)
        refuse_no_coverage("--k", factor)
        return factor

    def _temperatures(self) -> dict[str, Any]:
        """Return what was given of temperatures."""
        found: dict[str, Any] = {}
        if self.temperature is not None:
            found["room"] = _temperature(self.temperature)
        if self.temperature_limit is not None:
            found["room_limit"] = _limit("--temperature-limit", self.temperature_limit)
        for name in ("blocks_above", "bar_above", "part_above"):
            text = getattr(self, name)
            if text is not None:
                found[name] = _difference(f"--{name.replace('_', '-')}", text)
        if self.warmth_limit is not None:
            limit = _limit("--warmth-limit", self.warmth_limit)
            found |= {"blocks_limit": limit, "bar_limit": limit, "part_limit": limit}
        return found

    def _materials(self) -> dict[str, Any]:
        """Return what was given of materials."""
        found: dict[str, Any] = {}
        for name in ("part_material", "bar_material"):
            text = getattr(self, name)
            if text is not None:
                found[name] = _material(f"--{name.replace('_', '-')}", text)
        if self.block_materials:
            found["block_expansions"] = tuple(_block_material(text) for text in self.block_materials)
        return found

    def _joints(self) -> dict[str, Any]:
        """Return what was given of joints and certificates."""
        found: dict[str, Any] = {}
        if self.film is not None:
            found["wringing_limit"] = doubt_nm("--film", self.film)
        if self.joints_together:
            found["joints_together"] = True
        if not self.foot_joint:
            found["foot_joint"] = False
        if self.shared is not None:
            found["calibration_shared"] = _part("--shared", self.shared)
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class BarSaid:
    """What was typed of a bar's limits, each a length but the yaw, an angle; None takes the usual one."""

    centre: str | None = None
    rolls: str | None = None
    face: str | None = None
    plate: str | None = None
    yaw: str | None = None

    def limits(self, bar: SineBar) -> BarLimits:
        """Return the limits of a bar.  Raises UsageError naming the option."""
        given = {
            "centre_distance": _maybe("--bar-limit", self.centre),
            "roll_difference": _maybe("--rolls-limit", self.rolls),
            "parallelism": _maybe("--face-limit", self.face),
            "face_flatness": _maybe("--face-limit", self.face),
            "plate_flatness": _maybe("--plate-limit", self.plate),
            "yaw_degrees": None if self.yaw is None else _yaw(self.yaw),
        }
        said = {name: value for name, value in given.items() if value is not None}
        usual = usual_limits(bar)
        if not said:
            return usual
        names = ", ".join(name.replace("_", " ") for name in said)
        source = "given" if len(said) == len(given) else f"{names} given; the rest {usual.source}"
        return replace(usual, **said, source=source)


def doubt_nm(option: str, text: str) -> float:
    """Return a length that says how far something may be off, in nm.  Raises UsageError."""
    try:
        length = read_length(text, signed=True).length
    except TextError as error:
        raise error.named(option) from None
    if length < 0:
        sentence = f"{text.strip()}: an uncertainty cannot be below zero"
        raise UsageError.about(option, sentence, hint="write how far it may be off, without a sign")
    return length / PM_PER_NM


def _maybe(option: str, text: str | None) -> float | None:
    """Return a limit in nm where one was given."""
    return None if text is None else doubt_nm(option, text)


def _temperature(text: str) -> float:
    """Return a temperature in degrees Celsius."""
    try:
        return float(read_temperature(text).celsius)
    except TextError as error:
        raise error.named("--temperature") from None


def _difference(option: str, text: str) -> float:
    """Return a difference of temperature in kelvin."""
    try:
        return float(read_temperature_difference(text))
    except TextError as error:
        raise error.named(option) from None


def _limit(option: str, text: str) -> float:
    """Return how far a temperature may be off, in kelvin."""
    kelvin = _difference(option, text)
    if kelvin < 0:
        sentence = f"{text.strip()}: an uncertainty cannot be below zero"
        raise UsageError.about(option, sentence, hint="write how far it may be off, without a sign")
    return kelvin


def _material(option: str, text: str) -> str | Expansion:
    """Return a known material's name, or the expansion that was written out."""
    own = _OWN_EXPANSION.fullmatch(text)
    if own:
        return _own_expansion(f"material of {own[1]}e-6/K", own)
    if not text.strip():
        raise UsageError.about(option, "which material?", hint=f"like steel or aluminium, {_OWN_HINT}")
    try:
        return expansion(text, Role.WORK).material
    except UsageError as error:
        first = error.problems[0]
        hint = first.hint if first.hint.startswith("did") else _OWN_HINT
        raise UsageError.about(option, first.sentence, hint=hint) from None


def _block_material(text: str) -> Expansion:
    """Return the expansion of the blocks of a material."""
    name, _, figures = text.partition("=")
    own = _OWN_EXPANSION.fullmatch(figures)
    if own is None or not name.strip():
        sentence = f"{text!r} is no material with its growth"
        raise UsageError.about(
            "--block-material", sentence, hint="like steel=11.5+-0.5 (millionths a kelvin)"
        )
    return _own_expansion(name.strip(), own)


def _own_expansion(name: str, own: re.Match[str]) -> Expansion:
    """Return an expansion that was written out, in millionths a kelvin."""
    return Expansion(
        material=name,
        per_kelvin=float(own[1]) * _MILLIONTH,
        half_width=float(own[2]) * _MILLIONTH,
        source="given",
        basis="given",
    )


def _yaw(text: str) -> float:
    """Return how far the work may be turned, in degrees."""
    try:
        return read_angle(text).angle.degrees
    except TextError as error:
        raise error.named("--yaw") from None


def _part(option: str, text: str) -> float:
    """Return a part of a whole: 0 to 1, or a percentage."""
    bare = text.strip().removesuffix("%")
    part = _number(option, bare) / (100 if bare != text.strip() else 1)
    if not 0 <= part <= 1:
        sentence = f"{text.strip()}: it lies from 0 (each block alone) to 1 (all together)"
        raise UsageError.about(option, sentence)
    return part


def _number(option: str, text: str) -> float:
    """Return a plain number."""
    if not re.fullmatch(rf"\s*-?{_NUMBER}\s*", text):
        raise UsageError.about(option, f"{text.strip()!r} is no number", hint="like 2")
    return float(text.strip())
