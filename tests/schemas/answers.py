"""The shape of every answer of `--json`, by the name in its field `schema`."""

from __future__ import annotations

from gaugestack.angles.fit import ByFriction, Holding
from gaugestack.angles.plates import Seat, Views
from gaugestack.angles.readings_rolls import Stands
from gaugestack.angles.setups import Graduated
from gaugestack.blocks import DueState
from gaugestack.inventory.jobfile import Order, Wanted
from gaugestack.stacks.health import Verdict as Condition
from gaugestack.stacks.ranking import PurchaseProof
from gaugestack.trend import Direction
from gaugestack.uncertainty.decision import Verdict
from gaugestack.uncertainty.distribution import Distribution
from tests.schemas.shapes import (
    ANGLE,
    ANGLE_MAY,
    CODE,
    CONE,
    COUNT,
    DAY,
    ENDED,
    FROM_ONE,
    NUMBER,
    PIECE,
    PIECE_MAY,
    PLANNED,
    POSITIVE,
    SAID,
    SET_HEAD,
    SHARE,
    SHARED,
    STACKS,
    STACKS_MAY,
    TEXT,
    TRUTH,
    each,
    form,
    one_of,
    or_null,
    ref,
    whole,
)

LENGTH, DEVIATION = ref("length"), ref("deviation")
DEGREES, ARCSEC = ref("degrees"), ref("arcsec")
REMARKS, BAR, BLOCK = ref("remarks"), ref("bar"), ref("block")
BLOCKS = each(BLOCK)


def planned(role, **more):
    """Return a stack as it is wrung, which has a role among others."""
    return form({**PLANNED, "role": role}, more)


def stacks_of(item):
    """Return the fields about stacks, where a stack has a shape of its own."""
    return {**STACKS, "stacks": each(item)}


LISTED = form(
    {
        "stacks": each(form({**SHARED["built"]["properties"], "count": FROM_ONE})),
        "complete": or_null(TRUTH),
    }
)
PROOF_STACK = form(
    {"outcome": ref("outcome")},
    {"stack": ref("built"), "reason": SAID},
    {"found": ("stack",), "impossible": ("reason",), "undecided": ("reason",)},
)
STACK = form(
    {**STACKS, "remarks": REMARKS},
    {
        **STACKS_MAY,
        "next_best": LISTED,
        "trade_offs": LISTED,
        "proof_stack": PROOF_STACK,
        "bench_work": each(ref("bench_work")),
    },
    ENDED,
)
ANGLE_ANSWER = form(ANGLE, {**ANGLE_MAY, "bench_work": each(ref("bench_work"))}, ENDED)


def listed(schema):
    """Return the shape of a list of answers: what all share once, then what is each one's own."""
    own = {**schema, "properties": {**schema["properties"], **ROW}}
    shared = [key for key in SHARED_ONCE if key in own["properties"]]
    gone = (*shared, *NOT_IN_A_LIST)
    own["properties"] = {key: field for key, field in own["properties"].items() if key not in gone}
    own["required"] = sorted({*schema["required"], *ROW} - set(shared))
    head = {key: schema["properties"][key] for key in shared}
    counts = form(dict.fromkeys(("found", "impossible", "undecided"), COUNT))
    return form({**head, "file": SAID, "counts": counts, "answers": each(own, minItems=1)})


ROW = {"line": COUNT, "name": TEXT, "asked": SAID}
NOT_IN_A_LIST = ("next_best", "trade_offs", "proof_stack", "bench_work")
"""What is answered of one target alone."""
SHARED_ONCE = ("set", "sets", "at_hand", "basis", "bar")

# tapers

PUBLISHED = {
    "name": SAID,
    "title": SAID,
    "document": SAID,
    "edition": TEXT,
    "basis": one_of("seen", "memory"),
    "defining": SAID,
    "note": TEXT,
}
CLASSIFIED = {
    "classification": one_of(*Holding),
    "source": SAID,
    "basis": one_of("seen", "memory", "none"),
}
FRICTION = form(
    {
        "pair": SAID,
        "low": POSITIVE,
        "high": POSITIVE,
        "needed": POSITIVE,
        "verdict": one_of(*ByFriction),
        "source": SAID,
    }
)
HOLDING = form({**CLASSIFIED, "by_friction": each(FRICTION), "cautions": each(SAID)})
SHORT_CUT = form(
    {
        "height": LENGTH,
        "height_error": DEVIATION,
        "angle_degrees": DEGREES,
        "angle_error_arcsec": ARCSEC,
    }
)
ROLE_WORD = one_of("compound", "inspection", "flat")
ROLE_STACK = planned(ROLE_WORD, roll=ref("roll"))
ROLE = form(
    {
        **ANGLE,
        "role": ROLE_WORD,
        "stacks": each(ROLE_STACK),
        "ten_minute_table": form({"angle_degrees": DEGREES, "error_arcsec": ARCSEC}),
    },
    {**ANGLE_MAY, "short_cut": SHORT_CUT},
    ENDED,
)
TAPER = form(
    {
        "call_out": SAID,
        "reading": SAID,
        "bar": BAR,
        "remarks": REMARKS,
        "outcome": ref("outcome"),
        "roles": each(ROLE, minItems=1),
        "stacks": each(ROLE_STACK),
    },
    {
        "half_angle_degrees": DEGREES,
        "included_angle_degrees": DEGREES,
        "half_height": LENGTH,
        "included_height": LENGTH,
        "taper_per_foot": ref("per_foot"),
        "one_in": ref("one_in"),
        "holding": HOLDING,
        "published": form(PUBLISHED),
        "flat_angle_degrees": DEGREES,
        "flat_height": LENGTH,
        "slope": POSITIVE,
        "bench_work": each(ref("bench_work")),
    },
)
TAPER["oneOf"] = [
    {
        "required": [
            "half_angle_degrees", "included_angle_degrees", "half_height", "included_height",
            "taper_per_foot", "one_in", "holding",
        ]
    },
    {"required": ["flat_angle_degrees", "flat_height", "slope"]},
]  # fmt: skip
TAPERS = form(
    {
        "tapers": each(
            form(
                {
                    **PUBLISHED,
                    "half_angle_degrees": DEGREES,
                    "included_angle_degrees": DEGREES,
                    "one_in": ref("one_in"),
                    "taper_per_foot": ref("per_foot"),
                    "holding": form(CLASSIFIED),
                },
                {"gauge_line": LENGTH, "large_end": LENGTH, "small_end": LENGTH, "length": LENGTH},
            )
        )
    }
)

# sets

SET_FIELDS = {
    "name": SAID,
    "unit": one_of("in", "mm"),
    "standard": TEXT,
    "grade": TEXT,
    "material": TEXT,
    "source": TEXT,
    "file": TEXT,
    "pieces": COUNT,
    "step": LENGTH,
    "lowest": LENGTH,
    "highest": LENGTH,
    "blocks": each(
        form({**PIECE, "fit_for_use": TRUTH}, {**PIECE_MAY, "set": SAID, "reasons": each(SAID, minItems=1)})
    ),
    "bars": each(BAR),
    "remarks": REMARKS,
}
RUN = {"type": "array", "items": LENGTH, "minItems": 2, "maxItems": 2}
NAMED = each(ref("named_block"))
CHECKED = {
    "on": or_null(DAY),
    "problems": each(SAID),
    "calibration": form(
        {
            "state": one_of(*DueState),
            "due": or_null(DAY),
            "days": or_null({"type": "integer"}),
            "superseded": TRUTH,
        }
    ),
    "outside_grade": each(form({**PIECE, "reasons": each(SAID, minItems=1)}, PIECE_MAY)),
    "grade_met": or_null(
        form(
            {
                "grade": or_null(SAID),
                "limited_by": NAMED,
                "without_values": COUNT,
                "outside_tables": NAMED,
                "length_only": TRUTH,
            }
        )
    ),
    "trust": {
        "type": "object",
        "propertyNames": ref("trust"),
        "additionalProperties": FROM_ONE,
    },
    "lent": each(form({**PIECE, "to": SAID, "back": or_null(DAY), "overdue": TRUTH}, PIECE_MAY)),
}
LIST = form(
    {"sets": each(form({"name": SAID, "pieces": FROM_ONE, "title": SAID, "source": TEXT}), minItems=1)}
)

# what a set reaches

SPAN = form({"low": LENGTH, "high": LENGTH, "step": LENGTH, "heights": COUNT})
GAP = form({"first": LENGTH, "last": LENGTH, "heights": FROM_ONE}, {"times": FROM_ONE, "every": LENGTH})
AT_MOST = form({"blocks": FROM_ONE, "heights": COUNT, "share": SHARE, "share_as_issued": SHARE})
WORTH = each(form({"block": BLOCK, "lost": COUNT, "longer": COUNT}))
PURCHASE = or_null(
    form({"blocks": BLOCKS, "restored": COUNT, "proof": one_of(*PurchaseProof), "bound": or_null(COUNT)})
)
SURVEYED = {
    "sets": each(SET_HEAD, minItems=1),
    "at_hand": COUNT,
    "pieces": COUNT,
    "remarks": REMARKS,
}
BESIDE = {
    "beside": SAID,
    "there": COUNT,
    "of": COUNT,
    "missing": BLOCKS,
    "away": BLOCKS,
    "extra": BLOCKS,
}
MOST = or_null(FROM_ONE)
LOOKED = {"heights": COUNT, "most": MOST}
LOOKED_MAY = {"range": SPAN, "listed": each(LENGTH, minItems=1)}
SURVEY = {
    "range": SPAN,
    "most": MOST,
    "at_most": each(AT_MOST),
    "lost": each(GAP),
    "longer": COUNT,
    "every_step": or_null(RUN),
    "every_step_as_issued": or_null(RUN),
}
REACH = form(
    {**STACKS, "as_issued": or_null(ref("built")), "back": BLOCKS, "remarks": REMARKS}, STACKS_MAY, ENDED
)
REACH_RANGE = form(
    {
        **SURVEYED,
        **SURVEY,
        "missing": BLOCKS,
        "reachable": COUNT,
        "gaps": each(GAP),
        "longest_run": or_null(RUN),
    }
)
SET_MATTERS = form({**SURVEYED, **LOOKED, "made": COUNT, "blocks": WORTH}, LOOKED_MAY)
SET_BUY = form(
    {**SURVEYED, **LOOKED, **BESIDE, "count": FROM_ONE, "made": COUNT, "alone": WORTH, "purchase": PURCHASE},
    LOOKED_MAY,
)
SET_HEALTH = form(
    {
        **SURVEYED,
        **BESIDE,
        **SURVEY,
        "verdict": one_of(*Condition),
        "sentences": each(SAID, minItems=1),
        "worst": WORTH,
        "purchase": PURCHASE,
    }
)

# a job

JOB_BLOCKS = each(BLOCK)
TASK = {
    "name": SAID,
    "wanted": one_of(*Wanted),
    "text": SAID,
    "height": LENGTH,
    "line": FROM_ONE,
}
TASK_MAY = {"for": ref("use"), "angle_degrees": DEGREES, "bar": BAR}
JOB = form(
    {
        "name": SAID,
        "file": TEXT,
        "set": SET_HEAD,
        "order": one_of(*Order),
        "tolerance": LENGTH,
        "tolerance_reason": SAID,
        "basis": ref("basis"),
        "setups": FROM_ONE,
        "counted": SAID,
        "cautions": each(form({"setups": each(SAID, minItems=1), "sentence": SAID})),
        "outcome": ref("outcome"),
        "steps": each(
            form(
                {
                    **TASK,
                    "setup": FROM_ONE,
                    "stack": ref("built"),
                    "keep_wrung": each(JOB_BLOCKS),
                    "part": JOB_BLOCKS,
                    "take_off": JOB_BLOCKS,
                    "add": JOB_BLOCKS,
                    "wrings": COUNT,
                },
                {**TASK_MAY, "error_arcsec": ARCSEC},
            )
        ),
    },
    {
        "failures": each(form({**TASK, "reason": SAID}, TASK_MAY), minItems=1),
        "wrings": COUNT,
        "naive_wrings": COUNT,
        "at_least": COUNT,
        "reason": SAID,
    },
    {
        "found": ("wrings", "naive_wrings", "at_least"),
        "undecided": ("wrings", "naive_wrings", "at_least", "reason"),
        "impossible": ("failures",),
    },
)

# angle blocks

ANGLE_BLOCKS = form(
    {
        "set": SET_HEAD,
        "at_hand": COUNT,
        "tolerance_arcsec": ARCSEC,
        "tolerance_reason": SAID,
        "angle_degrees": DEGREES,
        "angle_arcsec": ARCSEC,
        "remarks": REMARKS,
        "outcome": ref("outcome"),
    },
    {
        **SHARED["angle_built"]["properties"],
        "steps": each(ref("step"), minItems=1),
        "proof": ref("proof"),
        "reason": SAID,
        "below": ref("angle_built"),
        "above": ref("angle_built"),
        "at_least": COUNT,
        "best": or_null(ref("angle_built")),
    },
    {
        "found": ("achieved_angle_degrees", "error_arcsec", "blocks", "steps"),
        "impossible": ("proof", "reason"),
        "undecided": ("reason", "at_least", "best"),
    },
)

# lathe and measuring

READING = form({"per_side": DEVIATION, "on_diameter": DEVIATION, "per_minute": DEVIATION})
MEASURED = {"measured": ref("measured")}
SWING = form(
    {
        **CONE,
        "swing_degrees": DEGREES,
        "other_scale_degrees": DEGREES,
        "readings": each(form({"travel": LENGTH, "slide": READING, "carriage": READING})),
    },
    {**MEASURED, "along": one_of("slide", "carriage")},
)
OFFSET = form(
    {
        **CONE,
        "between_centres": LENGTH,
        "taper_length": LENGTH,
        "offset": LENGTH,
        "shop_rule_offset": LENGTH,
        "shop_rule_excess": DEVIATION,
        "diameter_difference": LENGTH,
        "share_of_length": POSITIVE,
        "caution": or_null(SAID),
    },
    MEASURED,
)
ATTACHMENT = form({**CONE, "setting": SAID, "scale_counts": one_of(*Graduated)})
COLLARS = form({**CONE, "spacing": LENGTH, "diameter_difference": LENGTH}, MEASURED)
CONE_MAY = {**CONE, **MEASURED}
HIGH_LOW = form({"low": LENGTH, "high": LENGTH})
SIDE = one_of("left", "right")
ROLLS = form(
    {
        "stands": one_of(*Stands),
        "over_rolls": HIGH_LOW,
        "stack_heights": form({"low": LENGTH, "high": LENGTH}),
        "roll": or_null(LENGTH),
        "end_diameter": or_null(LENGTH),
        "remarks": REMARKS,
    },
    {
        **CONE_MAY,
        "outcome": ref("outcome"),
        "stacks": each(form({**PLANNED, "role": SIDE, "pair": ref("roll")})),
        "pairs": each(form({**STACKS, "pair": ref("roll")}, STACKS_MAY, ENDED), minItems=1),
    },
)
BALL = form({"diameter": LENGTH, "top": DEVIATION})
BALLS = form(
    {"large_ball": BALL, "small_ball": BALL, "centre_distance": LENGTH, "mouth": DEVIATION}, CONE_MAY
)
DISCS = form(
    {
        "angle_degrees": DEGREES,
        "large_disc": LENGTH,
        "small_disc": LENGTH,
        "centre_distance": LENGTH,
        "gap": DEVIATION,
        "error_arcsec": or_null(ARCSEC),
    },
    {**STACKS, **STACKS_MAY},
)
DISCS["dependentRequired"] = {"outcome": sorted(STACKS)}
ON_PART = form(
    {
        "seat": one_of(*Seat),
        "bar": BAR,
        "angle_degrees": DEGREES,
        "rise": LENGTH,
        "heights": form({"low": LENGTH, "high": LENGTH}),
        "achieved_angle_degrees": or_null(DEGREES),
        "error_arcsec": or_null(ARCSEC),
    },
    {**CONE_MAY, **stacks_of(planned(ref("roll"))), **STACKS_MAY},
    ENDED,
)
PLATE = form(
    {
        **stacks_of(planned(one_of("bottom", "top"))),
        "first_view_degrees": DEGREES,
        "second_view_degrees": DEGREES,
        "views": one_of(*Views),
        "bottom_angle_degrees": DEGREES,
        "top_angle_degrees": DEGREES,
        "bottom_height": LENGTH,
        "top_height": LENGTH,
        "bottom_bar": BAR,
        "top_bar": BAR,
        "true_tilt_degrees": DEGREES,
        "direction_degrees": DEGREES,
        "left_over_if_uncorrected_degrees": DEGREES,
        "remarks": REMARKS,
    },
    {
        **STACKS_MAY,
        "achieved_bottom_degrees": DEGREES,
        "achieved_top_degrees": DEGREES,
        "achieved_tilt_degrees": DEGREES,
        "bottom_error_arcsec": ARCSEC,
        "top_error_arcsec": ARCSEC,
        "tilt_error_arcsec": ARCSEC,
    },
    ENDED,
)
CORRECT = form(
    {
        **STACKS,
        "old_angle_degrees": DEGREES,
        "error_degrees": DEGREES,
        "error_measured_arcsec": ARCSEC,
        "new_angle_degrees": DEGREES,
        "old_height": LENGTH,
        "new_height": LENGTH,
        "change": DEVIATION,
        "school_change": DEVIATION,
        "over_correction": NUMBER,
        "below_resolution": TRUTH,
        "resolution": SAID,
        "old_stack": BLOCKS,
        "achieved_angle_degrees": or_null(DEGREES),
        "error_arcsec": or_null(ARCSEC),
        "bar": BAR,
        "remarks": REMARKS,
    },
    {
        **STACKS_MAY,
        **CONE,
        "for": ref("use"),
        "take_out": BLOCKS,
        "put_in": BLOCKS,
        "one_block_changes": TRUTH,
        "rest_stays": TRUTH,
        "diameter_error": DEVIATION,
        "diameter_error_said": SAID,
    },
    ENDED,
)
FROM_STACK = form(
    {
        "blocks": each(LENGTH, minItems=1),
        "length": LENGTH,
        "bar": BAR,
        "angle_degrees": DEGREES,
        "flat_slope": POSITIVE,
        "seats": each(form({**CONE, "seat": one_of(*Seat)})),
        "remarks": REMARKS,
    },
    {
        "certified": form(
            {
                "length": LENGTH,
                "deviation": DEVIATION,
                "counted": FROM_ONE,
                "known_from": each(ref("trust"), minItems=1),
                "angle_degrees": or_null(DEGREES),
                "difference_arcsec": or_null(NUMBER),
            }
        )
    },
)
PROOF = form(
    {
        "checks": each(
            form(
                {
                    "name": SAID,
                    "set_up": SAID,
                    "do": SAID,
                    "finds": SAID,
                    "cannot_detect": SAID,
                    "basis": one_of("seen", "common practice", "derived"),
                }
            )
        ),
        "readings": each(
            form({"span": LENGTH, "per_minute": DEVIATION, "half_for_included": or_null(DEVIATION)})
        ),
    },
    {
        **CONE,
        "angle_degrees": DEGREES,
        "reversal": form(
            {
                "span": LENGTH,
                "part": DEVIATION,
                "fixture": DEVIATION,
                "part_arcsec": ARCSEC,
                "fixture_arcsec": ARCSEC,
            }
        ),
    },
)

# budgets

FREEDOM = or_null(POSITIVE)
COMPONENT = form(
    {
        "name": SAID,
        "value": POSITIVE,
        "unit": one_of("nm", "arcsec", "K", "1/K", "1/K K"),
        "distribution": one_of(*Distribution),
        "divisor": or_null(POSITIVE),
        "degrees_of_freedom": FREEDOM,
        "standard": POSITIVE,
        "sensitivity": NUMBER,
        "contribution": NUMBER,
        "share": NUMBER,
        "together_with": TEXT,
        "source": TEXT,
    }
)
BUDGET_ENTRY = form(
    {
        "quantity": one_of("stack", "angle"),
        "unit": one_of("nm", "arcsec"),
        "combined": POSITIVE,
        "effective_degrees_of_freedom": FREEDOM,
        "k": POSITIVE,
        "k_given": TRUTH,
        "probability": or_null(SHARE),
        "expanded": POSITIVE,
        "components": each(COMPONENT, minItems=1),
        "lines": each(
            form({"name": SAID, "contribution": POSITIVE, "share": NUMBER, "degrees_of_freedom": FREEDOM}),
            minItems=1,
        ),
        "expanded_text": SAID,
        "off_at_20": NUMBER,
        "shift": NUMBER,
        "stands_off": NUMBER,
        "dominant": SAID,
        "remarks": REMARKS,
    },
    {
        "improve_first": form({"name": SAID, "expanded_with_half": POSITIVE}),
        "decision": form(
            {
                "verdict": one_of(*Verdict),
                "sentence": SAID,
                "tolerance": POSITIVE,
                "ratio": or_null(POSITIVE),
                "ratio_sentence": SAID,
                "rule": {"const": "ISO 14253-1"},
            }
        ),
        "growth": SAID,
        "taper_error": TEXT,
    },
)
BUDGET = form(
    {
        **STACKS,
        "quantity": one_of("stack", "angle"),
        "asked": each(LENGTH, minItems=1),
        "laid": each(LENGTH, minItems=1),
        "budgets": each(BUDGET_ENTRY),
        "circumstances": each(SAID),
        "remarks": REMARKS,
    },
    {
        **STACKS_MAY,
        "angle_degrees": DEGREES,
        "bar": form({"name": TEXT, "centre_distance": LENGTH}),
        "search": form(
            {
                "sentence": SAID,
                "searched": FROM_ONE,
                "most_blocks": FROM_ONE,
                "proven": TRUTH,
                "met": TRUTH,
                "limit": or_null(POSITIVE),
                "expanded": POSITIVE,
                "expanded_of_usual_stack": POSITIVE,
            }
        ),
    },
    ENDED,
)

# the ledger and cards

RECORD_ANSWER = form(
    {
        "set": SAID,
        "ledger": SAID,
        "records": each(ref("record"), minItems=1),
        "blocks": each(ref("piece"), minItems=1),
        "at_hand": COUNT,
        "pieces": FROM_ONE,
        "remarks": REMARKS,
    }
)
TREND = form(
    {"direction": or_null(one_of(*Direction))},
    {
        "why": SAID,
        "sentence": SAID,
        "calibrations": FROM_ONE,
        "slope_per_year": DEVIATION,
        "lowest_per_year": DEVIATION,
        "highest_per_year": DEVIATION,
    },
)
TREND["oneOf"] = [
    {"properties": {"direction": {"const": None}}, "required": ["why"]},
    {
        "properties": {"direction": one_of(*Direction)},
        "required": ["sentence", "calibrations", "slope_per_year", "lowest_per_year", "highest_per_year"],
    },
]
LEAVING = form(
    {
        "expected": or_null(DAY),
        "earliest": or_null(DAY),
        "latest": or_null(DAY),
        "already": TRUTH,
        "sure": TRUTH,
    }
)
HISTORY = form(
    {
        "set": SAID,
        "on": DAY,
        "block": ref("piece"),
        "alike": FROM_ONE,
        "records": each(ref("record")),
        "since": or_null(DAY),
        "jobs": each(form({"job": SAID, "first": DAY, "last": DAY})),
        "calibrations": each(form({"on": DAY, "deviation": DEVIATION})),
        "trend": TREND,
        "limits": each(
            form(
                {
                    "limit": SAID,
                    "lower": DEVIATION,
                    "upper": DEVIATION,
                    "inside": or_null(TRUTH),
                    "leaving": or_null(LEAVING),
                }
            )
        ),
        "remarks": REMARKS,
    }
)
CARD_CHECK = form(
    {
        "set": SAID,
        "printed": CODE,
        "now": CODE,
        "holds": TRUTH,
        "since": or_null(each(form({"n": FROM_ONE, "on": DAY, "event": ref("event"), "piece": SAID}))),
        "remarks": REMARKS,
    }
)

ANSWERS = {
    "angle": (ANGLE_ANSWER, "A sine bar set to an angle: angle --json."),
    "angle-list": (listed(ANGLE_ANSWER), "A list of angles: angle --targets FILE --json."),
    "angle-blocks": (ANGLE_BLOCKS, "An angle of angle gauge blocks: angle-blocks --json."),
    "attachment": (ATTACHMENT, "A taper attachment: lathe attachment --json."),
    "balls": (BALLS, "A bore measured over balls: measure balls --json."),
    "bar-on-part": (ON_PART, "The bar laid on the part: measure bar --json."),
    "budget": (BUDGET, "How well a stack or an angle is known: budget --json."),
    "card-check": (CARD_CHECK, "Whether a card still holds: card check --json."),
    "collars": (COLLARS, "The angle tried with two collars: lathe collars --json."),
    "correct": (CORRECT, "The next stack after a reading: correct --json."),
    "discs": (DISCS, "Two discs in an angle: measure discs --json."),
    "from-stack": (FROM_STACK, "What blocks on the bench give: from-stack --json."),
    "history": (HISTORY, "What happened to a block: history --json."),
    "job": (JOB, "Many set-ups in the fewest wrings: job --json."),
    "offset": (OFFSET, "The tailstock set over: lathe offset --json."),
    "plate": (PLATE, "A compound sine plate: plate --json."),
    "proof": (PROOF, "What proves a set-up: proof --json."),
    "reach": (REACH, "Whether a set makes a height: reach --json."),
    "reach-range": (REACH_RANGE, "How much of a range a set makes: reach LOW..HIGH --json."),
    "record": (RECORD_ANSWER, "What was recorded of blocks: record --json."),
    "rolls": (ROLLS, "A plug measured over rolls: measure rolls --json."),
    "set": (form(SET_FIELDS), "Every piece of a set: set show --json."),
    "set-buy": (SET_BUY, "What to buy first: set buy --json."),
    "set-check": (
        form({**SET_FIELDS, **CHECKED}, {"every_step": RUN}),
        "A set checked: set check --json.",
    ),
    "set-copy": (form({"copied": SAID, "file": SAID}), "A set copied: set copy --json."),
    "set-health": (SET_HEALTH, "What a set is worth: set health --json."),
    "set-matters": (SET_MATTERS, "Which blocks matter: set matters --json."),
    "sets": (LIST, "The shipped sets: set list --json."),
    "stack": (STACK, "Heights and their blocks: stack --json."),
    "stack-list": (listed(STACK), "A list of heights: stack --targets FILE --json."),
    "swing": (SWING, "The compound slide swung: lathe swing --json."),
    "taper": (TAPER, "A taper's call-out and its set-ups: taper --json."),
    "tapers": (TAPERS, "What is published of tapers: tapers --json."),
}


def answer_schemas():
    """Return every answer's schema by its name."""
    return {name: whole(f"gaugestack/{name}", schema, says) for name, (schema, says) in ANSWERS.items()}
