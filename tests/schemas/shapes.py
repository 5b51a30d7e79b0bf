"""Short ways to write JSON Schema (draft 2020-12), and what several answers share.

    form({"name": TEXT, "bar": ref("bar")}, {"serial": TEXT})     required fields, then others
    whole("gaugestack/x", schema)                                  with the definitions it names
    closed(schema)                                                 admits no field it does not know

A form leaves unknown fields alone: fields are added to answers, and a consumer's
check must not fail for one.  `closed` is what the tests use.
"""

from __future__ import annotations

from copy import deepcopy

from gaugestack.angles.taper import Use
from gaugestack.blocks import Basis, Trust
from gaugestack.inventory.events import Kind
from gaugestack.stacks.request import Proof

DIALECT = "https://json-schema.org/draft/2020-12/schema"
VERSION = 1

TEXT = {"type": "string"}
SAID = {"type": "string", "minLength": 1}
TRUTH = {"type": "boolean"}
COUNT = {"type": "integer", "minimum": 0}
FROM_ONE = {"type": "integer", "minimum": 1}
NUMBER = {"type": "number"}
POSITIVE = {"type": "number", "minimum": 0}
SHARE = {"type": "number", "minimum": 0, "maximum": 1}
DAY = {"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$", "format": "date"}
CODE = {"type": "string", "pattern": "^[2-9A-HJKMNP-Z]{4}-[2-9A-HJKMNP-Z]{4}$"}


def ref(name):
    """Name a shared definition."""
    return {"$ref": f"#/$defs/{name}"}


def each(item, **more):
    """Return a list of an item."""
    return {"type": "array", "items": item, **more}


def one_of(*words):
    """Return an enumeration of texts."""
    return {"enum": [str(word) for word in words]}


def or_null(schema):
    """Return a schema that admits null too."""
    return {"anyOf": [schema, {"type": "null"}]}


def form(required, others=None, cases=None):
    """Return an object; `cases` are the fields that each outcome requires besides."""
    schema = {
        "type": "object",
        "properties": {**required, **(others or {})},
        "required": sorted(required),
    }
    if cases:
        schema["allOf"] = [
            {
                "if": {"properties": {"outcome": {"const": outcome}}, "required": ["outcome"]},
                "then": {"required": sorted(fields)},
            }
            for outcome, fields in cases.items()
            if fields
        ]
    return schema


def whole(name, schema, says):
    """Return a schema as it is shipped: its head, and every definition it names."""
    fields = {"schema": {"const": name}, "version": {"const": VERSION}, **schema["properties"]}
    body = {**schema, "properties": fields, "required": sorted({"schema", "version", *schema["required"]})}
    return {"$schema": DIALECT, "title": name, "description": says, **body, **definitions(body, SHARED)}


def definitions(schema, shared):
    """Return `$defs` with every definition that a schema names, those that they name too."""
    found = {}
    waiting = sorted(named(schema))
    while waiting:
        name = waiting.pop()
        if name not in found:
            found[name] = shared[name]
            waiting += sorted(named(shared[name]))
    return {"$defs": dict(sorted(found.items()))} if found else {}


def named(schema):
    """Return the names of the definitions that a schema names itself."""
    if isinstance(schema, list):
        return {name for part in schema for name in named(part)}
    if not isinstance(schema, dict):
        return set()
    own = {schema["$ref"].rpartition("/")[2]} if isinstance(schema.get("$ref"), str) else set()
    return own | {name for part in schema.values() for name in named(part)}


def closed(schema):
    """Return a schema in which no object has a field that it does not name."""
    if isinstance(schema, list):
        return [closed(part) for part in schema]
    if not isinstance(schema, dict):
        return deepcopy(schema)
    shut = {key: closed(part) for key, part in schema.items()}
    if schema.get("type") == "object" and "properties" in schema:
        shut.setdefault("additionalProperties", False)
    return shut


BUILT = {
    "target": ref("length"),
    "length": ref("length"),
    "nominal_length": ref("length"),
    "deviation": ref("deviation"),
    "blocks": each(ref("block"), minItems=1),
}
PLANNED = {**BUILT, "steps": each(ref("step"), minItems=1)}
SET_HEAD = form({"name": SAID, "file": TEXT, "pieces": COUNT})
PIECE = {"nominal": ref("engraved")}
PIECE_MAY = {"serial": SAID, "wear": {"const": True}}

SHARED = {
    "length": {
        "description": "An exact length with its unit; nothing is rounded.",
        "type": "string",
        "pattern": "^(0|[1-9][0-9]*)([.][0-9]*[1-9])? (in|mm)$",
    },
    "deviation": {
        "description": "An exact length, below zero where it is short.",
        "type": "string",
        "pattern": "^-?(0|[1-9][0-9]*)([.][0-9]*[1-9])? (in|mm)$",
    },
    "engraved": {
        "description": "A size as it is engraved on the block.",
        "type": "string",
        "pattern": "^(0|[1-9][0-9]*)([.][0-9]+)? (in|mm)$",
    },
    "degrees": {
        "description": "An angle in degrees, rounded to 12 decimals.",
        "type": "number",
        "minimum": -360,
        "maximum": 360,
    },
    "arcsec": {"description": "An angle in seconds of arc, rounded to 6 decimals.", "type": "number"},
    "one_in": {
        "description": "A ratio on diameter.",
        "type": "string",
        "pattern": "^1:(0|[1-9][0-9]*)([.][0-9]+)?$",
    },
    "per_foot": {
        "description": "Taper per foot on diameter.",
        "type": "string",
        "pattern": "^(0|[1-9][0-9]*)([.][0-9]+)? in/ft$",
    },
    "outcome": one_of("found", "impossible", "undecided"),
    "basis": one_of(*Basis),
    "trust": one_of(*Trust),
    "proof": one_of(*Proof),
    "event": one_of(*Kind),
    "use": one_of(*Use),
    "roll": one_of("high", "low"),
    "remarks": each(SAID),
    "set_head": SET_HEAD,
    "step": form({"action": SAID, "reason": SAID, "basis": SAID}),
    "block": form(
        PIECE,
        {
            **PIECE_MAY,
            "length": ref("length"),
            "trust": ref("trust"),
            "deviation": ref("deviation"),
            "set": SAID,
        },
    ),
    "named_block": form(PIECE, PIECE_MAY),
    "built": form(BUILT),
    "bar": form(
        {"name": TEXT, "centre_distance": ref("length"), "kind": one_of("single", "compound")},
        {
            "nominal_centre_distance": ref("length"),
            "centre_distance_error": ref("deviation"),
            "base_height": ref("deviation"),
        },
    ),
    "known": form(
        {
            "expanded": SAID,
            "k": POSITIVE,
            "basis": ref("basis"),
            "dominant": SAID,
            "assumed": SAID,
            "sentence": SAID,
        }
    ),
    "planned": form(PLANNED, {"uncertainty": ref("known"), "role": ref("roll")}),
    "way": form(
        {
            "kind": one_of(
                "below",
                "above",
                "more blocks",
                "without wear blocks",
                "restore",
                "as issued",
                "alone",
                "one good face",
                "leave out",
                "second piece",
                "difference",
                "single stack",
                "other bar",
                "effort",
            ),
            "sentence": SAID,
        },
        {
            "stack": ref("built"),
            "blocks": each(ref("block"), minItems=1),
            "achieved_angle_degrees": ref("degrees"),
            "error_arcsec": ref("arcsec"),
        },
    ),
    "placed": form(
        {"nominal": SAID, "arcsec": ref("arcsec"), "turned": TRUTH},
        {"square": {"const": True}, "serial": SAID},
    ),
    "angle_built": form(
        {
            "achieved_angle_degrees": ref("degrees"),
            "error_arcsec": ref("arcsec"),
            "blocks": each(ref("placed"), minItems=1),
        }
    ),
    "record": form(
        {
            "n": FROM_ONE,
            "written": {
                "type": "string",
                "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}([+-][0-9]{2}:[0-9]{2})?$",
            },
            "on": DAY,
            "event": ref("event"),
            "size": ref("engraved"),
        },
        {
            "serial": SAID,
            "to": SAID,
            "job": SAID,
            "why": SAID,
            "source": SAID,
            "deviation": ref("deviation"),
            "variation": ref("length"),
            "uncertainty": ref("length"),
            "wear": {"const": True},
            "back": DAY,
            "trust": ref("trust"),
            "record": FROM_ONE,
            "struck_by": FROM_ONE,
        },
    ),
    "piece": form(
        {
            "nominal": ref("engraved"),
            "fit_for_use": TRUTH,
            "reasons": each(SAID),
            "end_only": TRUTH,
            "uses": COUNT,
            "trust": ref("trust"),
        },
        {**PIECE_MAY, "deviation": ref("deviation"), "calibrated": DAY},
    ),
    "advice": form({"topic": SAID, "action": SAID, "reason": SAID, "basis": SAID}),
    "bench_work": form({"advice": each(ref("advice"))}),
    "difference": form(
        {"target": ref("length"), "length": ref("length"), "deviation": ref("deviation")},
    ),
    "measured": form(
        {
            "half_angle_degrees": ref("degrees"),
            "included_angle_degrees": ref("degrees"),
            "one_in": ref("one_in"),
            "taper_per_foot": ref("per_foot"),
            "half_angle_error_arcsec": or_null(ref("arcsec")),
        },
        {
            "diameter_error": ref("deviation"),
            "diameter_error_said": SAID,
            "accepted": TRUTH,
            "verdict": SAID,
            "outside_by_arcsec": ref("arcsec"),
            "move_at_indicator": ref("deviation"),
            "indicator_radius": ref("length"),
        },
    ),
}
"""What several answers share, by the name in `$defs`."""

STACKS = {
    "set": ref("set_head"),
    "sets": each(ref("set_head"), minItems=1),
    "at_hand": COUNT,
    "tolerance": ref("length"),
    "tolerance_reason": SAID,
    "basis": ref("basis"),
    "stacks": each(ref("planned")),
    "outcome": ref("outcome"),
}
STACKS_MAY = {
    "wear_pair": ref("engraved"),
    "reason": SAID,
    "best": each(ref("built")),
    "at_least": COUNT,
    "proof": ref("proof"),
    "ways_out": each(ref("way")),
    "failing": each(FROM_ONE, minItems=1),
}
ENDED = {
    "found": (),
    "impossible": ("proof", "reason", "ways_out"),
    "undecided": ("reason", "best", "at_least"),
}
"""What each outcome of a stack requires besides."""
CONE = {
    "call_out": SAID,
    "reading": SAID,
    "half_angle_degrees": ref("degrees"),
    "included_angle_degrees": ref("degrees"),
    "one_in": ref("one_in"),
    "taper_per_foot": ref("per_foot"),
    "remarks": ref("remarks"),
}
ANGLE = {
    **STACKS,
    "angle_degrees": ref("degrees"),
    "height": ref("length"),
    "achieved_angle_degrees": or_null(ref("degrees")),
    "error_arcsec": or_null(ref("arcsec")),
    "height_per_arcsec_nm": NUMBER,
    "bar": ref("bar"),
    "caution": or_null(SAID),
    "smallest_angle_degrees": or_null(ref("degrees")),
    "remarks": ref("remarks"),
}
ANGLE_MAY = {**STACKS_MAY, "uncertainty": ref("known"), "difference": ref("difference")}
