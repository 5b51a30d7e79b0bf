"""A job file to a Job: many set-ups that are made one after the other.

    job = load_job(Path("job.yaml"))

Format 1:

    format: 1                  required
    name:, note:               texts
    set:                       name or file of the set; else the caller's
    bar:                       length or name of the sine bar; else the caller's
    order: free                free: in whatever order takes the fewest wrings;
                               fixed: in the order of the file, as without it
    setups:                    required, in the order of the file:
      - {name: jaw, height: 0.6202in}
      - {name: wedge, angle: 7d7m30s, bar: 5in}
      - {name: socket, taper: 3in/ft, for: compound}

A set-up has one of height, angle and taper.  A cone says what it is set up
for; a flat has only one angle and does not.  `bar` stands with angle or taper.
Every text is read here once, so that all mistakes of the file are said at
once; what it means on a set and a bar is worked out by the layer above, from
the same text with its place.  The file is never written to.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path, PurePath
from typing import TYPE_CHECKING

from gaugestack.angles.angle import read_angle
from gaugestack.angles.callout import read_call_out
from gaugestack.angles.flat import is_flat
from gaugestack.angles.taper import Use
from gaugestack.errors import TextError
from gaugestack.inventory.fields import NAME_LIMIT, NOTE_LIMIT, Fields, fields_of, items_of
from gaugestack.inventory.findings import Findings
from gaugestack.inventory.located import parse
from gaugestack.inventory.setformat import fields_of_format
from gaugestack.inventory.textfile import read_text_file
from gaugestack.lengths import Unit, read_length

if TYPE_CHECKING:
    from gaugestack.errors import Place
    from gaugestack.inventory.nodes import Node, Scalar

KEYS = ("format", "name", "note", "set", "bar", "order", "setups")
SETUP_KEYS = ("name", "height", "angle", "taper", "for", "bar", "note")
MOST_SETUPS = 100


class Order(StrEnum):
    """Whether the set-ups may change places."""

    FREE = "free"
    FIXED = "fixed"


class Wanted(StrEnum):
    """What a set-up asks for; the values are the keys of the file."""

    HEIGHT = "height"
    ANGLE = "angle"
    TAPER = "taper"


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """One set-up of a job as it is written.

    `wanted` says how `text` is to be read; `text` and `bar` carry their
    places, so that a later complaint can point at them.  `use` is given with
    a cone only; `bar` is None where the job's or the caller's bar is meant.
    """

    name: str
    wanted: Wanted
    text: Scalar
    place: Place
    use: Use | None = None
    bar: Scalar | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """Everything a job file says, set-ups in the order of the file."""

    name: str
    setups: tuple[SetUp, ...]
    order: Order = Order.FIXED
    set: Scalar | None = None
    bar: Scalar | None = None
    file: str = ""


def load_job(path: Path | str) -> Job:
    """Return the job a file describes.  Raises RefusedFile with every problem of the file."""
    return job_of_text(read_text_file(path), file=str(path))


def job_of_text(text: str, *, file: str) -> Job:
    """Return the job a text describes; `file` names it in places.  Raises RefusedFile."""
    findings = Findings()
    fields = fields_of_format(parse(text, file=file), "a job file", KEYS, findings)
    job = _read_job(fields, file, findings)
    findings.refuse_if_any()
    return job


def _read_job(fields: Fields, file: str, findings: Findings) -> Job:
    """Return what the fields describe; harmless values where something is wrong."""
    name = fields.text("name") or PurePath(file).stem
    fields.text("note", NOTE_LIMIT)
    order = fields.choice("order", [order.value for order in Order])
    fields.need("setups")
    return Job(
        name=name,
        setups=_read_setups(fields.get("setups"), findings),
        order=Order(order or Order.FIXED),
        set=_named(fields, "set"),
        bar=_named(fields, "bar"),
        file=file,
    )


def _read_setups(node: Node | None, findings: Findings) -> tuple[SetUp, ...]:
    """Return the set-ups that could be read, each name once."""
    items = items_of(node, "setups", findings)
    if node is not None and len(items) > MOST_SETUPS:
        findings.stop(node.problem(f"{len(items)} set-ups: a job has at most {MOST_SETUPS}"))
    if node is not None and not items and not len(findings):
        findings.add(node.problem("setups is empty: a job has at least one set-up"))
    setups: dict[str, SetUp] = {}
    for number, item in enumerate(items, start=1):
        fields = fields_of(item, "a set-up", SETUP_KEYS, findings)
        setup = fields and _read_setup(fields, number, findings)
        if not setup:
            continue
        first = setups.setdefault(setup.name.casefold(), setup)
        if first is not setup:
            sentence = f"the set-up {setup.name!r} stands twice: first in line {first.place.line}"
            findings.add(item.problem(sentence))
    return tuple(setups.values())


def _read_setup(fields: Fields, number: int, findings: Findings) -> SetUp | None:
    """Return one set-up; one without a name is called by its number.  None where nothing can be had."""
    name = fields.text("name") or f"set-up {number}"
    fields.text("note", NOTE_LIMIT)
    bar, use = _named(fields, "bar"), fields.choice("for", [use.value for use in Use])
    wanted = [one for one in Wanted if one.value in fields]
    if len(wanted) != 1:
        hint = "write {height: 0.6202in}, {angle: 7d7m30s} or {taper: 3in/ft, for: compound}"
        sentence = f"a set-up has one of height, angle and taper, not {len(wanted)}"
        findings.add(fields.node.problem(sentence, hint=hint))
        return None
    text = fields.scalar(wanted[0].value)
    if text is None or not _readable(text, wanted[0], findings):
        return None
    _refuse_idle(fields, wanted[0], text, findings)
    return SetUp(
        name=name,
        wanted=wanted[0],
        text=text,
        place=fields.node.place,
        use=Use(use) if use else None,
        bar=bar,
    )


def _readable(text: Scalar, wanted: Wanted, findings: Findings) -> bool:
    """Return whether a text can be read; what it says is left to the layer above.

    A bare height takes the unit of the set, which is not known here; either
    does for a look.
    """
    try:
        match wanted:
            case Wanted.HEIGHT:
                read_length(text.text, bare_unit=Unit.INCH)
            case Wanted.ANGLE:
                read_angle(text.text)
            case Wanted.TAPER:
                read_call_out(text.text, bare_unit=Unit.INCH)
    except TextError as error:
        findings.add(text.text_problem(error))
        return False
    return True


def _refuse_idle(fields: Fields, wanted: Wanted, text: Scalar, findings: Findings) -> None:
    """Refuse a key that the set-up has no use for, and a cone that does not say what it is for."""
    cone = wanted is Wanted.TAPER and not is_flat(text.text)
    if "bar" in fields and wanted is Wanted.HEIGHT:
        findings.add(fields.key("bar").problem("a height needs no bar"))
    if "for" in fields and not cone:
        what = (
            "a flat has one angle only"
            if wanted is Wanted.TAPER
            else f"it has no meaning with {wanted.value}"
        )
        findings.add(fields.key("for").problem(f"'for' belongs to a cone: {what}"))
    if cone and "for" not in fields:
        hint = "write for: compound (half the angle) or for: inspection (all of it)"
        findings.add(text.problem("a taper needs to say what it is set up for", hint=hint))


def _named(fields: Fields, key: str) -> Scalar | None:
    """Return the text of a set or a bar with its place, checked as a name is."""
    return fields.scalar(key) if fields.text(key, 4 * NAME_LIMIT) else None
