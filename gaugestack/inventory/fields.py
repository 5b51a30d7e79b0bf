"""Fields of a mapping, read one by one; every mistake goes to the findings.

    fields = fields_of(node, "a block", ("size", "pieces"), findings)
    size = fields.size("size", Unit.INCH)

Each reader returns a harmless value (None, "", False) after a mistake, so that
the reading goes on and finds the next.  Knows no rule that joins two fields.
"""

from __future__ import annotations

import re
import unicodedata
from datetime import date
from typing import TYPE_CHECKING

from gaugestack.errors import Place, Problem, TextError, nearest, visible
from gaugestack.inventory.nodes import Mapping, Node, Scalar, Sequence
from gaugestack.lengths import Length, Unit, read_length, small_bare

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gaugestack.inventory.findings import Findings

LARGEST_SIZE = Length(1_000_000_000_000)
"""1 m: ISO 3650:1998, clause 1, ends there."""
NAME_LIMIT = 80
NOTE_LIMIT = 200
SERIAL_LIMIT = 40
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


class Fields:
    """The fields of one mapping."""

    __slots__ = ("_findings", "_nodes", "node")

    def __init__(self, node: Mapping, findings: Findings) -> None:
        """Take the fields as they stand; `fields_of` checks the keys."""
        self.node = node
        self._findings = findings
        self._nodes = {key.text: value for key, value in node.pairs}

    def __contains__(self, key: str) -> bool:
        """Whether the field is there."""
        return key in self._nodes

    def get(self, key: str) -> Node | None:
        """Return the field's node as it stands."""
        return self._nodes.get(key)

    def key(self, key: str) -> Scalar | Mapping:
        """Return the node of a field's key, or of the whole mapping where the field is absent."""
        return next((name for name, _ in self.node.pairs if name.text == key), self.node)

    def need(self, *keys: str) -> bool:
        """Return whether all of these fields are there; each that is not is a problem."""
        missing = [key for key in keys if key not in self._nodes]
        for key in missing:
            self._findings.add(self.node.problem(f"the key {key!r} is missing"))
        return not missing

    def scalar(self, key: str) -> Scalar | None:
        """Return the one value of a field, or None where it is absent or no single value."""
        node = self._nodes.get(key)
        return None if node is None else scalar_of(node, key, self._findings)

    def text(self, key: str, limit: int = NAME_LIMIT) -> str:
        """Return a text of at most `limit` characters that can all be seen."""
        scalar = self.scalar(key)
        return "" if scalar is None else _seen_text(scalar, key, limit, self._findings)

    def truth(self, key: str) -> bool:
        """Return whether `true` stands in the field; only true and false are read."""
        scalar = self.scalar(key)
        if scalar is None:
            return False
        if scalar.text not in ("true", "false"):
            self._findings.add(scalar.problem(f"{key} is true or false, not {scalar.text!r}"))
        return scalar.text == "true"

    def choice(self, key: str, allowed: Iterable[str]) -> str:
        """Return one of the allowed words, or nothing."""
        scalar = self.scalar(key)
        if scalar is None or scalar.text in (words := tuple(allowed)):
            return scalar.text if scalar else ""
        sentence = f"{key} is {', '.join(words[:-1])} or {words[-1]}, not {scalar.text!r}"
        self._findings.add(scalar.problem(sentence))
        return ""

    def size(self, key: str, unit: Unit) -> Length | None:
        """Return an engraved size."""
        scalar = self.scalar(key)
        return None if scalar is None else size_of(scalar, unit, self._findings)

    def deviation(self, key: str, unit: Unit) -> Length | None:
        """Return a signed deviation; a bare number counts µin or µm."""
        scalar = self.scalar(key)
        return None if scalar is None else deviation_of(scalar, unit, self._findings)

    def whole(self, key: str, largest: int) -> int | None:
        """Return a whole number from 1 to `largest`."""
        scalar = self.scalar(key)
        if scalar is None:
            return None
        if re.fullmatch(r"[1-9][0-9]{0,5}", scalar.text) and int(scalar.text) <= largest:
            return int(scalar.text)
        sentence = f"{key} is a whole number from 1 to {largest}, not {scalar.text!r}"
        self._findings.add(scalar.problem(sentence))
        return None

    def day(self, key: str) -> date | None:
        """Return a date written YYYY-MM-DD that stands in the calendar."""
        scalar = self.scalar(key)
        if scalar is None:
            return None
        if not _DAY.fullmatch(scalar.text):
            hint = "write year-month-day, as in 2026-02-03"
            self._findings.add(scalar.problem(f"{scalar.text!r} is not a date", hint=hint))
            return None
        try:
            return date.fromisoformat(scalar.text)
        except ValueError:
            self._findings.add(scalar.problem(f"the calendar has no {scalar.text}"))
            return None


def fields_of(node: Node, what: str, known: Iterable[str], findings: Findings) -> Fields | None:
    """Return the fields of a mapping; every unknown key is a problem.

    `what` names the thing in the sentence.  None where the node is no mapping.
    """
    if not isinstance(node, Mapping):
        findings.add(node.problem(f"{what} is written with keys and values", hint="as in {key: value}"))
        return None
    words = tuple(known)
    for key, _ in node.pairs:
        if key.text not in words:
            sentence = f"{what} has no key {key.text!r}"
            findings.add(key.problem(sentence, hint=nearest(key.text, words)))
    return Fields(node, findings)


def items_of(node: Node | None, what: str, findings: Findings) -> tuple[Node, ...]:
    """Return the items of a list; anything else is a problem."""
    if node is None or isinstance(node, Sequence):
        return node.items if node else ()
    findings.add(node.problem(f"{what} is a list", hint="each item on its own line after a dash"))
    return ()


def scalar_of(node: Node, what: str, findings: Findings) -> Scalar | None:
    """Return the node if it is one value; a list, a mapping or nothing is a problem."""
    if not isinstance(node, Scalar):
        findings.add(node.problem(f"{what} takes one value"))
        return None
    if node.missing:
        findings.add(node.problem(f"{what} has no value", hint="write a value or leave the key away"))
        return None
    return node


def size_of(scalar: Scalar, unit: Unit, findings: Findings) -> Length | None:
    """Return an engraved size: above zero, at most 1 m, in the unit of the set."""
    try:
        read = read_length(scalar.text, bare_unit=unit)
    except TextError as error:
        findings.add(scalar.text_problem(error))
        return None
    if read.unit is not unit:
        hint = f"this set is engraved in {'inches' if unit is Unit.INCH else 'millimetres'}"
        findings.add(scalar.problem("mixed units: a size in the other unit", hint=hint))
        return None
    if read.length > LARGEST_SIZE:
        findings.add(scalar.problem("longer than 1 m: no gauge block is", hint="check the unit"))
        return None
    return read.length


def deviation_of(scalar: Scalar, unit: Unit, findings: Findings) -> Length | None:
    """Return a signed deviation in any unit; a bare number counts µin beside inches, µm beside mm."""
    try:
        return small_bare(scalar.text, unit)
    except TextError as error:
        findings.add(scalar.text_problem(error))
        return None


def _seen_text(scalar: Scalar, key: str, limit: int, findings: Findings) -> str:
    """Return a scalar's text, refusing one that is too long or hides characters."""
    text = scalar.text.strip()
    hidden = next((c for c in text if visible(c) != c), "")
    if hidden:
        findings.add(_hidden_problem(scalar, key, hidden))
    if len(text) > limit:
        findings.add(scalar.problem(f"{key} is longer than {limit} characters"))
    return text


def _hidden_problem(scalar: Scalar, key: str, hidden: str) -> Problem:
    """Point at a character that cannot be seen, or at the text where it is written as an escape."""
    name = unicodedata.name(hidden, "control character").lower()
    sentence = f"{key} holds a character that cannot be seen (U+{ord(hidden):04X}, {name})"
    found = scalar.source.find(hidden, scalar.place.column - 1)
    if found < 0:
        return scalar.problem(sentence)
    place = Place(file=scalar.place.file, line=scalar.place.line, column=found + 1)
    return Problem(place=place, sentence=sentence, source=scalar.source, start=found)
