"""The shape of a set file of format 1, for editors that check YAML while it is written.

Admits every file that the program reads, but for a text spelled like nothing
(`null`), and refuses what one entry by itself shows.  What takes reckoning
(ranges that overlap, a deviation that is a slip) is the program's affair:
`gaugestack set check FILE`.
"""

from __future__ import annotations

from gaugestack.blocks import MOST_PIECES
from gaugestack.inventory.barfile import KINDS, MOST_BARS
from gaugestack.inventory.blockentries import MOST_OF_ONE, TRUSTED
from gaugestack.inventory.certtablehead import ValueKind
from gaugestack.inventory.fields import NAME_LIMIT, NOTE_LIMIT, SERIAL_LIMIT
from gaugestack.inventory.setfile import BASES, SOURCE_LIMIT
from gaugestack.lengths import _UNITS, LONGEST_TEXT, Unit
from tests.schemas.shapes import DIALECT, definitions, ref

_DECIMAL = r"([0-9]+([.][0-9]*)?|[.][0-9]+)"
_FRACTION = r"(([0-9]{1,12})(\s*-\s*|\s+))?[0-9]{1,12}\s*/\s*[0-9]{1,12}"
_SIGN = "[+\N{MINUS SIGN}-]?"
_MU = "[\N{MICRO SIGN}\N{GREEK SMALL LETTER MU}\N{GREEK CAPITAL LETTER MU}]"
_UNSEEN = r"\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff"


def _any_case(word):
    """Return a pattern of a word in any case; a micro sign stands for a mu."""
    return "".join(_MU if c in _MU else f"[{c.lower()}{c.upper()}]" if c.isalpha() else c for c in word)


_UNIT = f"({'|'.join(_any_case(word) for word in sorted(_UNITS, key=lambda word: (-len(word), word)))})"


def _number_or(pattern, says, **limits):
    """Return a bare number, or a text of a pattern."""
    text = {"type": "string", "maxLength": LONGEST_TEXT, "pattern": pattern}
    return {"description": says, "anyOf": [{"type": "number", **limits}, text]}


def _text(limit, says, **more):
    """Return a text of a limited length; YAML makes numbers of some texts."""
    return {
        "description": says,
        "type": ["string", "number", "boolean"],
        "maxLength": limit,
        "pattern": f"^[^{_UNSEEN}]*$",
        **more,
    }


def _word(words, says):
    """Return one word of several."""
    return {"description": says, "enum": [str(word) for word in words]}


def _whole(largest, says):
    """Return a whole number from 1."""
    text = {"type": "string", "pattern": "^[1-9][0-9]{0,5}$"}
    number = {"type": "integer", "minimum": 1, "maximum": largest}
    return {"description": says, "anyOf": [number, text]}


def _day(says):
    """Return a day."""
    return {
        "description": says,
        "type": "string",
        "format": "date",
        "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$",
    }


def _mapping(fields, required=(), says="", **more):
    """Return a mapping that has no other keys."""
    head = {"description": says} if says else {}
    needed = {"required": list(required)} if required else {}
    return {**head, "type": "object", "properties": fields, **needed, "additionalProperties": False, **more}


_LENGTH = f"^\\s*[+]?\\s*({_FRACTION}|{_DECIMAL})\\s*({_UNIT})?\\s*$"
_SIGNED = f"^\\s*{_SIGN}\\s*({_FRACTION}|{_DECIMAL})\\s*({_UNIT})?\\s*$"
_PER_LENGTH = f"^\\s*{_SIGN}\\s*{_DECIMAL}\\s*{_UNIT}\\s*/\\s*([0-9][^/]*|[.][0-9][^/]*)?{_UNIT}\\s*$"
_MATERIAL = _text(NAME_LIMIT, "What it is made of; without it the set's material, steel where none is said.")
_NOTE = _text(NOTE_LIMIT, "What you want to remember.")
_SERIAL = _text(SERIAL_LIMIT, "The number engraved on this one piece.")
_TRUTH = {"enum": [True, False, "true", "false"]}

_DEFINITIONS = {
    "size": _number_or(
        _LENGTH,
        "An engraved size, above zero and at most 1 m; a bare number counts the set's unit.",
        exclusiveMinimum=0,
        maximum=1000,
    ),
    "length": _number_or(_LENGTH, "A length; a bare number counts the set's unit.", exclusiveMinimum=0),
    "deviation": _number_or(
        _SIGNED,
        "Actual minus nominal; a bare number counts µin in an inch set, µm in a metric one.",
    ),
    "range": _mapping(
        {
            "from": ref("size"),
            "to": ref("size"),
            "step": ref("size"),
            "material": _MATERIAL,
            "note": _NOTE,
        },
        ("from", "to", "step"),
        "One piece of each size from `from` to `to`; the steps end exactly on `to`.",
    ),
    "single": _mapping(
        {
            "size": ref("size"),
            "pieces": _whole(MOST_OF_ONE, "How many equal pieces there are; 1 where nothing is said."),
            "wear": {"description": "true for wear blocks, which stand at the ends only.", **_TRUTH},
            "material": _MATERIAL,
            "serial": _SERIAL,
            "deviation": ref("deviation"),
            "trust": _word(
                TRUSTED, "Where the deviation comes from; unverified sheet where nothing is said."
            ),
            "note": _NOTE,
        },
        ("size",),
        "One size, or what is to be said about one piece of a range.",
        dependentRequired={"trust": ["deviation"]},
        **{
            "if": {"required": ["pieces"], "properties": {"pieces": {"not": {"enum": [1, "1"]}}}},
            "then": {"properties": {"serial": False, "deviation": False}},
        },
    ),
    "entry": {
        "type": "object",
        "if": {"anyOf": [{"required": [key]} for key in ("from", "to", "step")]},
        "then": ref("range"),
        "else": ref("single"),
    },
    "absent": {
        "if": {"type": "object"},
        "then": _mapping({"size": ref("size"), "wear": _TRUTH, "serial": _SERIAL}, ("size",)),
        "else": ref("size"),
    },
    "columns": _mapping(
        {
            key: _text(NAME_LIMIT, f"The name of the column of the {what}.")
            for key, what in {
                "nominal": "nominal sizes",
                "deviation": "values",
                "actual": "values, where they are actual sizes",
                "wear": "values, where they are wear",
                "serial": "serials",
                "variation": "variations in length",
            }.items()
        },
        says="What the table's columns are called, where not by their plain names.",
    ),
    "table_unit": _mapping(
        {
            key: {
                "type": "string",
                "pattern": f"^\\s*({_DECIMAL}\\s*|{_FRACTION}\\s*)?{_UNIT}\\s*$",
            }
            for key in ("nominal", "deviation", "actual", "wear", "variation")
        },
        says="What the table's columns count, where no header says it.",
    ),
    "uncertainty": _mapping(
        {
            "fixed": _number_or(_SIGNED, "The part for any length, in µin or µm where bare.", minimum=0),
            "per_length": {
                "description": "What it grows by with the length, as in 1 µin/in.",
                "type": "string",
                "pattern": _PER_LENGTH,
            },
            "coverage": {
                "description": "The coverage factor k; 2 where nothing is said.",
                "anyOf": [
                    {"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 1000},
                    {"type": "string", "pattern": "^[0-9]{1,3}([.][0-9]{1,4})?$"},
                ],
            },
        },
        ("fixed",),
        "The certificate's expanded uncertainty.",
    ),
    "certificate": _mapping(
        {
            "number": _text(NAME_LIMIT, "The certificate's number."),
            "date": _day("The day of the certificate."),
            "due": _day("The day the next calibration is due."),
            "temperature": {
                "description": "The temperature its values hold for, from 0 to 50 °C.",
                "type": "string",
                "pattern": "^[+-]?[0-9]{1,3}([.][0-9]{1,3})?\\s*°\\s*[CF]$",
            },
            "source": _word(
                TRUSTED, "How far its values may be trusted; unverified sheet where nothing is said."
            ),
            "uncertainty": ref("uncertainty"),
            "deviations": {
                "description": "Deviations by size; each belongs to one piece.",
                "type": "object",
                "propertyNames": {"pattern": _LENGTH},
                "additionalProperties": ref("deviation"),
            },
            "table": _text(4096, "A table of the values, a CSV file beside this file."),
            "value": _word(
                ValueKind, "What the table's values are; wear is positive where a block is short."
            ),
            "columns": ref("columns"),
            "table_unit": ref("table_unit"),
        },
        says="The head of the certificate, and its values.",
        dependentRequired={
            "table": ["value"],
            "value": ["table"],
            "columns": ["table"],
            "table_unit": ["table"],
        },
        **{"not": {"required": ["table", "deviations"]}},
    ),
    "bar": _mapping(
        {
            "name": _text(NAME_LIMIT, "What you call it; a command names it so.", minLength=1),
            "centre_distance": ref("length"),
            "error": ref("deviation"),
            "roll_diameter": ref("length"),
            "kind": _word(KINDS, "single, or compound for a compound plate."),
            "base_height": _number_or(_SIGNED, "How much higher the stack's seat is than the hinge's."),
        },
        ("name", "centre_distance"),
        "A sine bar or plate; its lengths may be in any unit.",
    ),
}


def set_file_schema():
    """Return the schema of a set file."""
    body = _mapping(
        {
            "format": {"description": "The format of this file.", "enum": [1, "1"]},
            "name": _text(NAME_LIMIT, "What you call the set; else it is called after its file."),
            "unit": _word(Unit, "The unit engraved on the blocks, and of bare numbers here."),
            "standard": _text(NAME_LIMIT, "The standard its grade is one of, as ASME B89.1.9 or ISO 3650."),
            "grade": _text(NAME_LIMIT, "The grade by that standard."),
            "material": _MATERIAL,
            "source": _text(SOURCE_LIMIT, "Where this list of blocks comes from."),
            "basis": _word(BASES, "How well the list is known."),
            "pieces": _whole(MOST_PIECES, "How many pieces were issued; checked against the blocks."),
            "blocks": {
                "description": "Every block as issued: ranges and single sizes.",
                "type": "array",
                "minItems": 1,
                "items": ref("entry"),
            },
            "absent": {
                "description": "The sizes that are not there.",
                "type": "array",
                "items": ref("absent"),
            },
            "certificate": ref("certificate"),
            "retire_beyond": _number_or(
                _SIGNED, "Your own limit: a block that deviates further is worn.", exclusiveMinimum=0
            ),
            "bars": {
                "description": "Sine bars that belong to the set.",
                "type": "array",
                "maxItems": MOST_BARS,
                "items": ref("bar"),
            },
            "note": _NOTE,
        },
        ("format", "unit", "blocks"),
    )
    head = {
        "$schema": DIALECT,
        "title": "gaugestack set file, format 1",
        "description": "A set file, for editors; `set check` sees what no schema does.",
    }
    return {**head, **body, **definitions(body, _DEFINITIONS)}
