"""What happened to blocks, from the words typed to the events of a ledger.

    >>> told = Told(event="lent", sizes=("0.105",), on=day, to="Ola", back="2026-12-01")
    >>> events_of(told, block_set, records)

Every text that cannot be read is a UsageError that names its option.  What an
event must say, and whether it can be true, is judged where it is recorded.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING

from gaugestack.blocks import Trust
from gaugestack.errors import Place, Problem, TextError, UsageError, nearest
from gaugestack.inventory.events import TRUSTS, Event, Kind
from gaugestack.lengths import Length, Unit, read_length, small_bare

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.blocks import BlockSet
    from gaugestack.inventory.events import Record

_ALIASES = {"recalibrated": Kind.CALIBRATED, "struck": Kind.VOID}


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a person says happened, as it was typed; texts that were not given are empty.

    event      a kind of event, hyphens for its spaces
    sizes      `SIZE` or `SIZE#SERIAL`; the numbers of records for `void`
    on         the day it happened
    """

    event: str
    sizes: tuple[str, ...] = ()
    on: dt.date
    serial: str = ""
    wear: bool = False
    to: str = ""
    back: str = ""
    job: str = ""
    why: str = ""
    deviation: str = ""
    variation: str = ""
    uncertainty: str = ""
    trust: str = ""
    source: str = ""

    @property
    def details(self) -> tuple[str, ...]:
        """The names of the details that were given."""
        about = ("event", "sizes", "on", "serial", "wear")
        return tuple(f.name for f in fields(self) if f.name not in about and getattr(self, f.name))


def kind_of(text: str) -> Kind:
    """Return the kind of event a word names.  Raises UsageError."""
    plain = text.strip().casefold().replace("-", " ").replace("_", " ")
    if plain in _ALIASES:
        return _ALIASES[plain]
    try:
        return Kind(plain)
    except ValueError:
        words = [kind.value.replace(" ", "-") for kind in Kind]
        raise UsageError.about("EVENT", f"no event is called {text!r}", hint=nearest(text, words)) from None


def events_of(told: Told, block_set: BlockSet, records: Sequence[Record]) -> tuple[Event, ...]:
    """Return one event a size, or one void a record.  Raises UsageError."""
    kind = kind_of(told.event)
    if not told.sizes:
        what = "the number of a record" if kind is Kind.VOID else "a size"
        raise UsageError.about("SIZE", f"{what} is wanted", hint="like 0.105; several at once are one record")
    if kind is Kind.VOID:
        return _voids(told, block_set, records)
    plain = plain_event(told, kind, block_set.unit)
    return tuple(_sized(plain, told, text) for text in told.sizes)


def plain_event(told: Told, kind: Kind, unit: Unit) -> Event:
    """Return the event without its piece.  Raises UsageError for a detail that cannot be read."""
    return Event(
        kind=kind,
        on=told.on,
        size=Length(0),
        unit=unit,
        wear=told.wear,
        to=told.to,
        back=_day(told.back),
        job=told.job,
        why=told.why,
        deviation=_small(told.deviation, unit, "--deviation"),
        variation=_small(told.variation, unit, "--variation"),
        uncertainty=_small(told.uncertainty, unit, "--uncertainty"),
        trust=_trust(told.trust),
        source=told.source,
    )


def size_and_serial(text: str, unit: Unit, argument: str = "SIZE") -> tuple[Length, str]:
    """Return the size and the serial of `SIZE` or `SIZE#SERIAL`.  Raises UsageError."""
    size, _, serial = text.partition("#")
    try:
        return read_length(size, bare_unit=unit).length, serial
    except TextError as error:
        raise error.named(argument) from None


def _sized(plain: Event, told: Told, text: str) -> Event:
    """Return the event of one piece."""
    size, serial = size_and_serial(text, plain.unit)
    if serial and told.serial:
        raise UsageError.about("--serial", f"{text} names its serial already")
    return replace(plain, size=size, serial=serial or told.serial)


def _voids(told: Told, block_set: BlockSet, records: Sequence[Record]) -> tuple[Event, ...]:
    """Return a void for each number of a record."""
    known = {record.n: record.event for record in records}
    plain = plain_event(told, Kind.VOID, block_set.unit)
    events = []
    for text in told.sizes:
        struck = known.get(int(text)) if text.isascii() and text.isdigit() else None
        if struck is None:
            hint = f"there are records 1 to {len(known)}: see gaugestack history" if known else "it is empty"
            raise UsageError.about("void", f"the ledger has no record {text}", hint=hint)
        piece = replace(plain, size=struck.size, serial=struck.serial, wear=struck.wear)
        events.append(replace(piece, record=int(text)))
    return tuple(events)


def _day(text: str) -> dt.date | None:
    """Return the day a block was promised for.  Raises UsageError."""
    if not text:
        return None
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise UsageError.about("--back", f"{text!r} is no day", hint="like 2026-11-25") from None


def _small(text: str, unit: Unit, option: str) -> Length | None:
    """Return a small length; a bare number counts µin beside inches, µm beside millimetres."""
    if not text:
        return None
    try:
        return small_bare(text, unit)
    except TextError as error:
        raise error.named(option) from None


def _trust(text: str) -> Trust | None:
    """Return where a value comes from.  Raises UsageError."""
    plain = text.strip().casefold().replace("-", " ")
    if not plain:
        return None
    if plain in TRUSTS:
        return Trust(plain)
    hint = nearest(plain, [trust.value for trust in TRUSTS])
    problem = Problem(place=Place(file="--trust"), sentence=f"{text!r} is no source of values", hint=hint)
    raise UsageError([problem])
