"""What can happen to a block: the kinds of events and what each one says.

    event = Event(kind=Kind.LENT, on=day, size=size, unit=Unit.INCH, to="Ola, boat 4")
    faults_of(event)        (("to", "lent needs to: ..."), ...) or nothing

An event names a piece by its size, `wear` for a wear block, and the serial
where serials tell pieces of one size apart.  Identical pieces without serials
are not told apart: an event takes the lowest copy it can apply to.  A `void`
event strikes an earlier record of its piece that was a mistake: nothing is
ever taken out of a ledger.
Does not know what happened before, nor how an event is written down.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING

from gaugestack.blocks import Trust
from gaugestack.errors import visible
from gaugestack.inventory.blockentries import LARGEST_DEVIATION, deviation_sentence, too_large
from gaugestack.inventory.fields import NAME_LIMIT, NOTE_LIMIT, SERIAL_LIMIT
from gaugestack.lengths import engraved_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from gaugestack.errors import Place
    from gaugestack.lengths import Length, Unit


class Kind(StrEnum):
    """The kinds of events, in the words of the ledger."""

    MISSING = "missing"
    FOUND = "found"
    LENT = "lent"
    RETURNED = "returned"
    STANDING = "standing"
    APART = "apart"
    DOES_NOT_WRING = "does not wring"
    WRINGS = "wrings"
    ONE_GOOD_FACE = "one good face"
    BOTH_FACES_GOOD = "both faces good"
    SUSPECT = "suspect"
    CLEARED = "cleared"
    RESERVED = "reserved"
    RELEASED = "released"
    WORN = "worn"
    RETIRED = "retired"
    CALIBRATED = "calibrated"
    USED = "used"
    VOID = "void"


@dataclass(frozen=True, slots=True, kw_only=True)
class Keys:
    """What an event of a kind must say and what it may say, beside the piece and the day."""

    required: tuple[str, ...] = ()
    optional: tuple[str, ...] = ()


KEYS_OF: Mapping[Kind, Keys] = MappingProxyType(
    {
        **dict.fromkeys(Kind, Keys()),
        Kind.LENT: Keys(required=("to",), optional=("back",)),
        Kind.STANDING: Keys(required=("job",)),
        Kind.APART: Keys(optional=("job",)),
        Kind.SUSPECT: Keys(required=("why",)),
        Kind.RESERVED: Keys(required=("job",)),
        Kind.RELEASED: Keys(optional=("job",)),
        Kind.USED: Keys(required=("job",)),
        Kind.CALIBRATED: Keys(
            required=("deviation", "trust"), optional=("variation", "uncertainty", "source")
        ),
        Kind.VOID: Keys(required=("record", "why")),
    }
)
TEXT_LIMITS: Mapping[str, int] = MappingProxyType(
    {"serial": SERIAL_LIMIT, "to": NAME_LIMIT, "job": NAME_LIMIT, "why": NOTE_LIMIT, "source": NOTE_LIMIT}
)
MEASURED = ("deviation", "variation", "uncertainty")
"""The details that are lengths."""
TRUSTS = tuple(trust for trust in Trust if trust is not Trust.NOMINAL_ONLY)
"""Where a measured deviation can come from."""
_WANTED: Mapping[str, str] = MappingProxyType(
    {
        "to": "who has it",
        "job": "which job",
        "why": "what is wrong",
        "deviation": "what was measured",
        "trust": f"one of {', '.join(TRUSTS)}",
        "record": "the number of the record to strike",
    }
)
_DETAILS = ("to", "back", "job", "why", "deviation", "variation", "uncertainty", "trust", "source", "record")


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """Something that happened to one piece on one day.

    Details an event of its kind does not have are empty.  `back` is the day a
    lent block was promised; `uncertainty` is the expanded one of a calibration,
    coverage factor 2; lengths in whole picometres.  `record` is the number of
    the record that a void event strikes.
    """

    kind: Kind
    on: dt.date
    size: Length
    unit: Unit
    serial: str = ""
    wear: bool = False
    to: str = ""
    back: dt.date | None = None
    job: str = ""
    why: str = ""
    deviation: Length | None = None
    variation: Length | None = None
    uncertainty: Length | None = None
    trust: Trust | None = None
    source: str = ""
    record: int | None = None

    @property
    def piece(self) -> str:
        """The piece as it is spoken of: `0.100 in (K-117)`, `0.050 in wear block`."""
        return piece_name(engraved_text(self.size, self.unit), self.serial, wear=self.wear)


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """One event as it stands in the ledger: its number from 1, and when it was written down."""

    n: int
    event: Event
    written: dt.datetime
    place: Place | None = field(default=None, compare=False)


def piece_name(engraved: str, serial: str, *, wear: bool) -> str:
    """Return a piece as it is spoken of."""
    return f"{engraved}{' wear block' if wear else ''}{f' ({serial})' if serial else ''}"


def faults_of(event: Event) -> tuple[tuple[str, str], ...]:
    """Return every fault of an event on its own: the key it lies in, and the sentence."""
    return (
        *_missing_and_surplus(event),
        *_text_faults(event),
        *_day_faults(event),
        *_measurement_faults(event),
    )


def _missing_and_surplus(event: Event) -> Iterator[tuple[str, str]]:
    """Find what is missing or too much: an event says all its kind needs and nothing else."""
    keys = KEYS_OF[event.kind]
    for key in _DETAILS:
        said = getattr(event, key) not in ("", None)
        if key in keys.required and not said:
            yield key, f"{event.kind} needs {key}: {_WANTED[key]}"
        elif said and key not in keys.required and key not in keys.optional:
            yield key, f"{event.kind} has no {key}"


def _text_faults(event: Event) -> Iterator[tuple[str, str]]:
    """Find texts that are too long, or hold characters that cannot be seen."""
    for key, limit in TEXT_LIMITS.items():
        text = getattr(event, key)
        if len(text) > limit:
            yield key, f"{key} is longer than {limit} characters"
        if not text.isprintable() and visible(text) != text:
            yield key, f"{key} holds a character that cannot be seen"
        if text != text.strip():
            yield key, f"{key} begins or ends with a space"


def _day_faults(event: Event) -> Iterator[tuple[str, str]]:
    """Find a promise before the loan: a block comes back no earlier than it was lent."""
    if event.back is not None and event.back < event.on:
        yield "back", f"back {event.back} lies before {event.on}, the day it was lent"


def _measurement_faults(event: Event) -> Iterator[tuple[str, str]]:
    """Find lengths that no calibration of a gauge block gives."""
    if event.deviation is not None and too_large(event.deviation, event.size):
        yield "deviation", deviation_sentence(event.deviation, event.size, event.unit)
    if event.variation is not None and not 0 <= event.variation <= LARGEST_DEVIATION:
        yield "variation", "a variation in length lies between 0 and 0.1 mm"
    if event.uncertainty is not None and not 0 < event.uncertainty <= LARGEST_DEVIATION:
        yield "uncertainty", "an uncertainty lies above 0 and up to 0.1 mm"
    if event.trust is Trust.NOMINAL_ONLY:
        yield "trust", f"a measured deviation comes from one of {', '.join(TRUSTS)}"
