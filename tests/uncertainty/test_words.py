"""What the budgets say to a person, to the letter: refusals and their hints, doubts and who says so."""

import math

import pytest

from gaugestack.angles.angle import Angle
from gaugestack.angles.sine import bar_of_length
from gaugestack.blocks import Basis, Block, CalibrationUncertainty, Certificate, Stack, Trust
from gaugestack.errors import TextError, UsageError
from gaugestack.grades_tables import Standard
from gaugestack.lengths import Length, Unit
from gaugestack.uncertainty.angle import BarLimits, angle_uncertainty, turned_by_yaw, usual_limits
from gaugestack.uncertainty.budget import Budget, Component, degrees_from_reliability, second_order
from gaugestack.uncertainty.conditions import Conditions
from gaugestack.uncertainty.correction import Warm
from gaugestack.uncertainty.decision import (
    Tolerance,
    decide,
    dominant_line,
    improve_first,
    ratio_line,
)
from gaugestack.uncertainty.distribution import Distribution
from gaugestack.uncertainty.knowledge import Knowledge, drift_limits, length_components
from gaugestack.uncertainty.materials import Role, expansion
from gaugestack.uncertainty.stack import Height, stack_uncertainty
from gaugestack.uncertainty.student import coverage_factor
from gaugestack.uncertainty.temperature import read_temperature, read_temperature_difference

MM = 1_000_000_000
STATED = CalibrationUncertainty(fixed=Length(50_000), per_length=500_000, coverage="2")
CERTIFICATE = Certificate(number="K-1", uncertainty=STATED)
BAR = bar_of_length(Length(100 * MM), Unit.MILLIMETRE)
LIMITS = Tolerance(lower=-500, upper=500, unit="nm")


def block(millimetres, **more):
    return Block(nominal=Length(millimetres * MM), unit=Unit.MILLIMETRE, **more)


def certified(millimetres, **more):
    return block(millimetres, deviation=Length(0), **more)


def doubt(value, **more):
    return Component(**{"name": "film", "unit": "nm", "value": value, **more})


def budget(*components, **more):
    return Budget(quantity="stack", unit="nm", components=components, **more)


def bottom(*blocks, low=(), **more):
    more.setdefault("knowledge", {"": Knowledge(certificate=CERTIFICATE)})
    return Height(stack=Stack(blocks=blocks), low=Stack(blocks=low), **more)


SCALE_HINT = "write a temperature like 20 °C or 68 °F"
DIFFERENCE_HINT = "write a difference like 0.5 K, 0.5 °C or 1 °F"

REFUSED = [
    (lambda: doubt(math.nan), "film: not a finite number\n  how far off may it be?"),
    (
        lambda: doubt(-5),
        (
            "film: an uncertainty of -5 nm: it cannot be below zero\n"
            "  write how far it may be off, without a sign"
        ),
    ),
    (
        lambda: doubt(5, divisor=0),
        (
            "film: a coverage factor k of 0: it is above zero\n"
            "  a certificate prints it beside U; usually k = 2"
        ),
    ),
    (
        lambda: doubt(5, degrees_of_freedom=0.5),
        "film: 0.5 degrees of freedom: one reading more than one is the least\n  readings minus one",
    ),
    (budget, "stack: a budget without a single component\n  name a doubt"),
    (
        lambda: budget(doubt(5), coverage_factor=-1),
        (
            "stack: a coverage factor k of -1: it is above zero\n"
            "  a certificate prints it beside U; usually k = 2"
        ),
    ),
    (
        lambda: degrees_from_reliability(25),
        (
            "reliability: a reliability of 25: it lies above 0 and below 0.7\n"
            "  0.25 says: the limit itself is sure to a quarter"
        ),
    ),
    (
        lambda: coverage_factor(95, 10),
        (
            "probability: a coverage probability of 95: it lies above 0 and at most 0.9999\n"
            "  0.95 says: right 95 times in 100"
        ),
    ),
    (
        lambda: coverage_factor(0.95, 16.7),
        (
            "degrees of freedom: 16.7 degrees of freedom: a whole number from 1 is wanted\n"
            "  readings minus one; cut, not rounded"
        ),
    ),
    (lambda: Conditions(part_above=math.nan), "part above: not a finite number\n  degrees, like 21.5"),
    (
        lambda: Conditions(wringing_limit=-25),
        "wringing limit: a limit of -25: it is zero or above\n  how far it may be off, without a sign",
    ),
    (
        lambda: Conditions(calibration_shared=1.5),
        "calibration shared: a share of 1.5: it lies from 0 (each alone) to 1 (all together)",
    ),
    (
        lambda: Warm(expansion=expansion("steel", Role.BLOCK), celsius=68),
        "temperature: 68 °C is no temperature of a bench\n  -10 °C to 60 °C; 68 °F is 20 °C",
    ),
    (lambda: Tolerance(lower=2, upper=1), "tolerance: limits from 2 to 1: the lower one comes first"),
    (lambda: decide(0, LIMITS, -1), "decision: a value and an uncertainty from zero are wanted"),
    (lambda: improve_first(budget(doubt(0))), "stack: nothing is in doubt here: nothing to improve"),
    (
        lambda: doubt(5, distribution="rectangle"),
        "distribution: 'rectangle' is no distribution that is known here\n  did you mean 'rectangular'?",
    ),
    (
        lambda: doubt(5, distribution="bell"),
        (
            "distribution: 'bell' is no distribution that is known here\n"
            "  known: arcsine, normal, product, rectangular, triangular"
        ),
    ),
    (
        lambda: length_components(block(50), Knowledge(), Basis.NOMINAL, 1.0),
        (
            "block 50 mm: nothing says how far the block 50 mm may be off\n"
            "  give its set a certificate with an uncertainty, or a standard and a grade"
        ),
    ),
    (
        lambda: length_components(
            certified(50),
            Knowledge(
                certificate=Certificate(
                    number="K-1", uncertainty=CalibrationUncertainty(fixed=Length(1), coverage="0")
                )
            ),
            Basis.CERTIFIED,
            1.0,
        ),
        (
            "certificate K-1: a coverage factor k of 0: it is above zero\n"
            "  a certificate prints it beside U; usually k = 2"
        ),
    ),
    (
        lambda: length_components(
            certified(50),
            Knowledge(
                certificate=Certificate(uncertainty=CalibrationUncertainty(fixed=Length(1), coverage="0"))
            ),
            Basis.CERTIFIED,
            1.0,
        ),
        (
            "certificate: a coverage factor k of 0: it is above zero\n"
            "  a certificate prints it beside U; usually k = 2"
        ),
    ),
    (
        lambda: drift_limits((block(50),), Knowledge(), -1),
        "years: -1 years since the calibration: zero or above",
    ),
    (
        lambda: expansion("Qqq  qqq", Role.BLOCK),
        (
            "material: 'Qqq  qqq' has no expansion coefficient here; known: steel, chrome carbide, "
            "tungsten carbide, zirconia, martensitic stainless steel, austenitic stainless steel, "
            "grey cast iron, aluminium, brass, bronze\n"
            "  or give the coefficient and how far it may be off"
        ),
    ),
    (
        lambda: expansion("Carbom steel", Role.WORK),
        (
            "material: 'Carbom steel' has no expansion coefficient here; known: steel, "
            "martensitic stainless steel, austenitic stainless steel, grey cast iron, aluminium, brass, "
            "bronze, chrome carbide, tungsten carbide, zirconia\n"
            "  did you mean 'carbon steel'?"
        ),
    ),
    (bottom, "stack: a stack without blocks\n  name its blocks"),
    (
        lambda: bottom(certified(50), drift_limits=(1.0, 2.0)),
        "drift: 2 drift limits for 1 blocks\n  one for each block, from the bottom up",
    ),
    (
        lambda: turned_by_yaw(Angle.from_degrees(30), 90),
        "yaw: work turned by 90°: it lies from 0° to below 90°\n  how far it may be turned, without a sign",
    ),
    (
        lambda: angle_uncertainty(Angle.from_degrees(90), BAR, bottom(certified(50)), Conditions()),
        "angle: 90°: a sine bar stands from 0 to below 90 degrees\n  set it from another face of the work",
    ),
    (
        lambda: read_temperature("68"),
        f"argument: 68: °F? (68 °F is 20 °C)\n    68\n    ^^\n  {SCALE_HINT}",
    ),
    (
        lambda: read_temperature("293 K"),
        f"argument: kelvin are for differences here\n    293 K\n        ^\n  {SCALE_HINT}",
    ),
    (
        lambda: read_temperature("90 °C  "),
        f"argument: 90 °C is too hot for a bench: 90 °F?\n    90 °C\n    ^^^^^\n  {SCALE_HINT}",
    ),
    (
        lambda: read_temperature("20 °X  "),
        "argument: '°X' is no scale of temperature\n    20 °X\n       ^^\n  °C or °F",
    ),
    (lambda: read_temperature(""), f"argument: no temperature here\n  {SCALE_HINT}"),
    (
        lambda: read_temperature("  warm"),
        f"argument: no temperature here\n      warm\n      ^\n  {SCALE_HINT}",
    ),
    (
        lambda: read_temperature("20 °C" + " " * 28 + "."),
        f"argument: too long to be a temperature\n    20 °C{' ' * 28}.\n    {' ' * 32}^^\n  {SCALE_HINT}",
    ),
    (
        lambda: read_temperature_difference("5  "),
        f"argument: 5 of what: K, °C or °F?\n    5\n    ^\n  {DIFFERENCE_HINT}",
    ),
    (
        lambda: read_temperature_difference("71 K "),
        (
            "argument: a difference larger than between any two benches\n"
            f"    71 K\n    ^^^^\n  {DIFFERENCE_HINT}"
        ),
    ),
    (
        lambda: read_temperature_difference("x"),
        f"argument: no temperature here\n    x\n    ^\n  {DIFFERENCE_HINT}",
    ),
]


@pytest.mark.parametrize(("use", "said"), REFUSED)
def test_what_is_refused_is_told_with_its_place_and_what_to_do(use, said):
    with pytest.raises((UsageError, TextError)) as caught:
        use()
    assert str(caught.value) == said


@pytest.mark.parametrize(
    ("ratio", "said"),
    [
        (4.25, "the tolerance is 4.2 times the uncertainty: good (4 is the usual least)"),
        (math.inf, "the tolerance is any number of times the uncertainty: good (4 is the usual least)"),
        (2.5, "the tolerance is only 2.5 times the uncertainty: 4 is the usual least"),
        (0.5, "the uncertainty is larger than the tolerance: this set-up cannot prove it met"),
    ],
)
def test_the_worth_of_a_ratio_is_told_in_these_words(ratio, said):
    assert ratio_line(ratio) == said


def test_where_nothing_is_in_doubt_the_main_doubt_is_told_to_be_none():
    assert dominant_line(budget(doubt(0))) == "nothing is in doubt here: every limit was given as zero"


def told(component):
    """Return all that the table of a budget tells of a component, without its size."""
    return (component.name, component.unit, component.distribution.value, component.group, component.source)


FILM = "limit per joint, common practice"
CALIBRATION = ("nm", "normal", "calibration, certificate K-1 of the set")


def test_every_doubt_of_a_certified_stack_tells_what_it_is_and_who_says_so():
    piece = certified(50, variation=Length(60_000))
    height = bottom(piece, drift_limits=(20.0,), drift_sources=("ISO 3650",))
    found = stack_uncertainty(height, Conditions(part_material="brass", room=21)).budget.components
    assert [told(component) for component in found] == [
        ("calibration of 50 mm", *CALIBRATION, "U = 75 nm, k = 2"),
        ("variation over the face of 50 mm", "nm", "triangular", "", "certificate"),
        ("wringing film 1", "nm", "rectangular", "", FILM),
        ("drift of 50 mm since it was calibrated", "nm", "rectangular", "", "ISO 3650"),
        ("room temperature", "K", "rectangular", "", "circumstances"),
        ("warmth of the blocks against the room", "K", "rectangular", "", "circumstances"),
        (
            "expansion of steel of the blocks",
            "1/K",
            "rectangular",
            "",
            "ISO 3650:1998, 6.2.2 (memory)",
        ),
        (
            "expansion of steel of the blocks x room temperature",
            "1/K K",
            "product",
            "",
            "product of two doubts, JCGM 100:2008, 5.1.2, note",
        ),
        (
            "expansion of steel of the blocks x its warmth",
            "1/K K",
            "product",
            "",
            "product of two doubts, JCGM 100:2008, 5.1.2, note",
        ),
        ("warmth of the part against the room", "K", "rectangular", "", "circumstances"),
        (
            "expansion of brass of the part",
            "1/K",
            "rectangular",
            "",
            "printed values 18.0e-6 to 21.6e-6 (derived)",
        ),
        (
            "expansion of brass of the part x room temperature",
            "1/K K",
            "product",
            "",
            "product of two doubts, JCGM 100:2008, 5.1.2, note",
        ),
        (
            "expansion of brass of the part x its warmth",
            "1/K K",
            "product",
            "",
            "product of two doubts, JCGM 100:2008, 5.1.2, note",
        ),
    ]


def test_every_doubt_of_two_stacks_known_by_grade_tells_which_stack_it_is_of():
    known = {"": Knowledge(standard=Standard.ISO_3650, grade="1")}
    still = Conditions(room_limit=0.0, blocks_limit=0.0, part_limit=0.0, joints_together=True)
    height = bottom(block(50), low=(block(10),), knowledge=known, drift_limits=(20.0, 10.0))
    result = stack_uncertainty(height, still).budget
    grade = "limit of the grade, ISO 3650:1998, clause 7, table of te and tv (seen)"
    group = "wringing films, all together"
    assert [told(component) for component in result.components] == [
        ("grade 1 of 50 mm", "nm", "rectangular", "", grade),
        ("grade 1 of 10 mm", "nm", "rectangular", "", grade),
        ("wringing film 1", "nm", "rectangular", group, FILM),
        ("wringing film 1 of the low stack", "nm", "rectangular", group, FILM),
        ("drift of 50 mm since it was calibrated", "nm", "rectangular", "", "given"),
        ("drift of 10 mm since it was calibrated", "nm", "rectangular", "", "given"),
    ]
    assert (result.quantity, result.unit, result.remarks) == ("stack", "nm", ())


def test_a_variation_that_only_the_grade_gives_is_told_to_be_its_tolerance():
    both = Knowledge(standard=Standard.ISO_3650, grade="1", certificate=CERTIFICATE)
    found = length_components(certified(50), both, Basis.CERTIFIED, 1.0)
    assert told(found[-1]) == (
        "variation over the face of 50 mm",
        "nm",
        "triangular",
        "",
        "tolerance of the grade",
    )


def test_the_calibration_of_a_borrowed_block_is_told_to_be_its_owner_s():
    without = Certificate(uncertainty=STATED)
    (only,) = length_components(
        certified(50, owner="the yard"), Knowledge(certificate=without), Basis.CERTIFIED, 1.0
    )
    assert only.group == "calibration, certificate without number of the yard"


def test_every_doubt_of_an_angle_tells_what_it_is_and_who_says_so():
    still = Conditions(room_limit=0.0, blocks_limit=0.0, bar_limit=0.0)
    height = bottom(certified(50))
    result = angle_uncertainty(Angle.from_degrees(30), BAR, height, still).budget
    usual = (
        "assumed: IS 5359:1969, 100 mm bar, as quoted in a metrology textbook; "
        "plate half of grade A, GGG-P-463c; yaw assumed"
    )
    assert [told(component) for component in result.components] == [
        ("calibration of 50 mm", *CALIBRATION, "U = 75 nm, k = 2"),
        ("wringing film 1", "nm", "rectangular", "", FILM),
        ("centre distance of the bar", "nm", "rectangular", "", usual),
        ("difference of the rolls", "nm", "rectangular", "", usual),
        ("parallelism of the working face", "nm", "rectangular", "", usual),
        ("flatness of the working face", "nm", "rectangular", "", usual),
        ("flatness of the plate", "nm", "rectangular", "", usual),
        ("work turned on the bar", "arcsec", "rectangular", "", usual),
    ]
    assert (result.quantity, result.unit) == ("angle", "arcsec")
    assert result.remarks == (
        "drift since the calibration is left out: nobody gave it",
        "nobody measured the bar: its limits are the usual ones",
    )


def test_a_bar_known_to_be_warm_brings_its_own_material_into_doubt():
    warm = Conditions(room_limit=0.0, blocks_limit=0.0, bar_limit=0.0, bar_above=2.0, bar_material="brass")
    found = angle_uncertainty(Angle.from_degrees(30), BAR, bottom(certified(50)), warm).budget.components
    names = [component.name for component in found]
    assert "expansion of brass of the bar" in names
    assert "expansion of steel of the blocks" not in names


def test_a_product_of_two_doubts_carries_both_units_and_where_it_is_from():
    product = second_order(doubt(1, unit="1/K"), doubt(1, unit="K"), mixed=1, name="both")
    assert told(product) == (
        "both",
        "1/K K",
        "product",
        "",
        "product of two doubts, JCGM 100:2008, 5.1.2, note",
    )


def test_a_height_tells_what_its_budget_leaves_out_and_believes():
    sheet = certified(50, trust=Trust.UNVERIFIED_SHEET)
    other = certified(10, trust=Trust.UNVERIFIED_SHEET)
    grade = {"": Knowledge(standard=Standard.ISO_3650, grade="1", certificate=CERTIFICATE)}
    believed = stack_uncertainty(bottom(sheet, other), Conditions()).budget.remarks
    nominal = stack_uncertainty(
        bottom(sheet, block(2), knowledge=grade, basis=Basis.NOMINAL, drift_limits=(1.0, 1.0)), Conditions()
    ).budget.remarks
    assert believed == (
        "drift since the calibration is left out: nobody gave it",
        "deviations of an unverified sheet are believed: 50 mm, 10 mm",
    )
    assert nominal == ("deviations of the certificate are not used: the grade's limits count instead",)


def test_the_limits_of_a_bar_are_told_one_a_line():
    inch = bar_of_length(Length(127 * MM), Unit.INCH)
    assert usual_limits(BAR).lines() == (
        (
            "bar: assumed: IS 5359:1969, 100 mm bar, as quoted in a metrology textbook; "
            "plate half of grade A, GGG-P-463c; yaw assumed"
        ),
        "centre distance right within 3 µm",
        "rolls alike within 2 µm",
        "working face parallel within 1 µm",
        "working face flat within 1 µm",
        "plate flat within 1.5 µm under the bar",
        "work square on the bar within 0.25°",
    )
    assert usual_limits(inch).lines(Unit.INCH) == (
        (
            "bar: assumed: 0.0002 in on 5 in, common in bought bars; plate half of grade A, GGG-P-463c; "
            "yaw assumed"
        ),
        "centre distance right within 200 µin",
        "rolls alike within 78.74 µin",
        "working face parallel within 39.37 µin",
        "working face flat within 39.37 µin",
        "plate flat within 59.06 µin under the bar",
        "work square on the bar within 0.25°",
    )
    assert BarLimits(centre_distance=500, centre_distance_k=2).lines()[1] == (
        "centre distance right within 0.5 µm, k = 2"
    )


def test_the_circumstances_are_told_one_a_line():
    assert Conditions().lines() == (
        "room 20 °C, right within 2 K (assumed)",
        "blocks as warm as the room, right within 0.5 K (assumed)",
        "bar as warm as the room, right within 0.5 K (assumed); steel (assumed)",
        "part as warm as the room, right within 0.5 K (assumed); steel (assumed)",
        "a wrung joint is right within 0.025 µm (assumed)",
        "joints: each goes wrong alone (assumed)",
        "the stack's foot on the plate counts as a joint (assumed)",
        "one certificate's blocks go wrong together to 100% (assumed)",
    )


def test_circumstances_somebody_gave_are_told_without_the_mark_and_in_the_unit_of_the_part():
    given = Conditions(
        room=21.5,
        room_limit=0.5,
        blocks_above=1.0,
        bar_above=-2.0,
        bar_limit=0.1,
        part_limit=0.2,
        bar_material="brass",
        part_material="zirconia",
        wringing_limit=50.8,
        joints_together=True,
        foot_joint=False,
        calibration_shared=0.25,
        given=("part_above",),
    )
    assert given.lines(Unit.INCH) == (
        "room 21.5 °C, right within 0.5 K",
        "blocks 1 K above the room, right within 0.5 K (blocks limit assumed)",
        "bar 2 K below the room, right within 0.1 K; brass",
        "part as warm as the room, right within 0.2 K; zirconia",
        "a wrung joint is right within 2 µin",
        "joints: all go wrong together",
        "the stack's foot on the plate is no joint",
        "one certificate's blocks go wrong together to 25%",
    )


def test_a_body_given_as_warm_as_the_room_and_no_more_is_marked_for_both():
    assert Conditions(given=("bar_material",)).lines()[2] == (
        "bar as warm as the room, right within 0.5 K (assumed); steel"
    )
    assert Conditions(blocks_limit=0.1).lines()[1] == (
        "blocks as warm as the room, right within 0.1 K (blocks above assumed)"
    )


@pytest.mark.parametrize("distribution", list(Distribution))
def test_a_doubt_says_its_distribution_by_the_word_it_is_read_by(distribution):
    assert doubt(1, distribution=distribution.value).distribution is distribution
