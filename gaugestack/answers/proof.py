"""How a set-up is proven: independent checks, each with its blind side, and what a minute shows.

>>> answer = proof("morse 3", kind="bar", spans=("3in",))
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, get_args

from gaugestack.angles.angle import Angle, read_angle
from gaugestack.angles.callout import read_call_out
from gaugestack.angles.readings import error_of_top_reading, reading_per_minute, top_reading
from gaugestack.angles.readings_proofs import PROOFS, Kind, proofs_for
from gaugestack.angles.reversal import reversal
from gaugestack.angles.taper import Taper
from gaugestack.answers.asked import asked_length, kept
from gaugestack.errors import TextError, UsageError, nearest
from gaugestack.lengths import Length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.angles.flat import Flat
    from gaugestack.angles.readings_proofs import Proof
    from gaugestack.lengths import ReadLength, Unit

KINDS: tuple[Kind, ...] = get_args(Kind)
USUAL_SPANS = ("1in", "3in", "100mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofRow:
    """What an indicator shows over a span of a top that should be level, in picometres.

    `minute` for one minute of error, `confused` where half and included angle
    were taken for each other (None without a cone).
    """

    span: ReadLength
    minute: Length
    confused: Length | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReversalAnswer:
    """Two rises over one span, part turned end for end: each share as a rise and as an angle."""

    span: ReadLength
    part: Length
    fixture: Length
    part_angle: Angle
    fixture_angle: Angle


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofAnswer:
    """The checks of a set-up, the readings that go with them, the reversal where it was made."""

    asked: Taper | Flat | Angle | None
    checks: tuple[Proof, ...]
    rows: tuple[ProofRow, ...]
    reversal: ReversalAnswer | None = None


def proof(
    text: str | None = None,
    *,
    kind: str | None = None,
    spans: Sequence[str] = (),
    turned: tuple[str, str] | None = None,
    bare_unit: Unit | None = None,
) -> ProofAnswer:
    """Return the checks of one kind of set-up, or of all; `text` is a call-out or an angle.

    `turned` are two rises over the first span, the part turned end for end
    between them.  Raises UsageError.
    """
    asked = _asked(text, bare_unit)
    read = [asked_length(one, "--span") for one in spans or USUAL_SPANS]
    return ProofAnswer(
        asked=asked,
        checks=PROOFS if kind is None else proofs_for(_kind(kind)),
        rows=tuple(_row(span, asked) for span in read),
        reversal=_reversal(turned, read if spans else []) if turned else None,
    )


def _asked(text: str | None, bare_unit: Unit | None) -> Taper | Flat | Angle | None:
    """Return what a text calls out: a cone, a wedge or, where it is plain, an angle."""
    if text is None:
        return None
    try:
        return read_call_out(text, bare_unit=bare_unit)
    except TextError as error:
        refused = error.named("CALLOUT")
    try:
        return read_angle(text).angle
    except TextError:
        raise refused from None


def _kind(word: str) -> Kind:
    """Return the kind of set-up a word names."""
    for kind in KINDS:
        if kind == word:
            return kind
    raise UsageError.about("--kind", f"{word!r} is no set-up", hint=nearest(word, KINDS))


def _row(span: ReadLength, asked: Taper | Flat | Angle | None) -> ProofRow:
    """Return what the indicator shows over one span."""
    confused = kept(top_reading(asked.half, span.length), span.unit) if isinstance(asked, Taper) else None
    return ProofRow(span=span, minute=kept(reading_per_minute(span.length), span.unit), confused=confused)


def _reversal(turned: tuple[str, str], spans: Sequence[ReadLength]) -> ReversalAnswer:
    """Return the shares of part and fixture in two rises."""
    if len(spans) != 1:
        raise UsageError.about("--span", "a reversal needs the one span both rises were read over")
    span = spans[0]
    first, second = (
        asked_length(text, "--reversal", bare_unit=span.unit, signed=True).length for text in turned
    )
    found = reversal(first, second)
    part, fixture = (Length(round(share)) for share in (found.part, found.fixture))
    angles = [error_of_top_reading(rise, span=span.length, unit=span.unit) for rise in (part, fixture)]
    return ReversalAnswer(
        span=span, part=part, fixture=fixture, part_angle=angles[0], fixture_angle=angles[1]
    )
