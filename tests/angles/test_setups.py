from fractions import Fraction

import mpmath
import pytest

from gaugestack.angles.angle import Angle, dms_text, read_angle
from gaugestack.angles.callout import read_call_out, read_taper
from gaugestack.angles.plates import (
    Seat,
    Views,
    bar_setting,
    compound_plate,
    flat_setting,
    from_stack,
    plate_setting,
    true_tilt,
)
from gaugestack.angles.published_step import table_step_error
from gaugestack.angles.setups import (
    Graduated,
    attachment_setting,
    compound_swing,
    half_of_offset,
    tailstock_offset,
)
from gaugestack.angles.sine import KNOWN_BARS, SineBar, angle_of, height
from gaugestack.angles.taper import taper_of_rate
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, Unit, exact_text, read_length

mpmath.mp.dps = 50
FIVE = KNOWN_BARS[0]
LEVELLED = SineBar(
    name="plate",
    centre_distance=read_length("5in").length,
    unit=Unit.INCH,
    base_height=read_length("0.5in").length,
)


def cone(text):
    return read_taper(text, bare_unit=None)


def pm(text):
    return read_length(text).length


def deg(number):
    return Angle.from_degrees(Fraction(number))


def test_the_compound_slide_is_swung_to_the_half_angle_or_reads_its_complement():
    swing = compound_swing(cone("14.25deg included"))
    assert swing.swing == deg("7.125")
    assert swing.other_scale == deg("82.875")
    assert compound_swing(cone("45deg/side")).other_scale == deg(45)


def test_an_offset_is_the_hypotenuse_times_the_sine_and_the_shop_rule_is_larger():
    offset = tailstock_offset(
        cone("3in/ft"), between_centres=pm("8in"), taper_length=pm("4in"), unit=Unit.INCH
    )
    half = mpmath.atan(mpmath.mpf(1) / 8)
    assert abs(offset.exact - pm("8in") * mpmath.sin(half)) < 1
    assert offset.usual == pm("1in")
    assert offset.excess == offset.usual - offset.exact > 0
    assert offset.end_difference == pm("1in")
    assert offset.sentence == (
        "the offset is 0.124 of the length, above 1/50 (common practice): the centres bear on their edges"
    )


def test_an_offset_of_a_fiftieth_is_sensible():
    taper = cone("1:25.01")
    found = tailstock_offset(taper, between_centres=pm("10in"), taper_length=pm("10in"), unit=Unit.INCH)
    assert found.share < Fraction(1, 50)
    assert found.sentence == ""
    steeper = tailstock_offset(
        cone("1:24.9"), between_centres=pm("10in"), taper_length=pm("1in"), unit=Unit.INCH
    )
    assert "above 1/50" in steeper.sentence


def test_an_offset_of_exactly_a_fiftieth_is_still_sensible():
    # sin(half) = 1/50, so tan(half) = 1 / sqrt(2499)
    taper = taper_of_rate(Fraction(float(2 / mpmath.sqrt(2499))), call_out="", reading="")
    found = tailstock_offset(taper, between_centres=pm("50mm"), taper_length=pm("9mm"), unit=Unit.MILLIMETRE)
    assert (found.exact, found.share) == (pm("1mm"), Fraction(1, 50))
    assert found.sentence == ""


def test_a_tailstock_that_does_not_go_so_far_is_refused_with_the_amount():
    exact = tailstock_offset(
        cone("1:8"), between_centres=pm("8in"), taper_length=pm("4in"), unit=Unit.INCH
    ).exact

    def limited(limit):
        return tailstock_offset(
            cone("1:8"), between_centres=pm("8in"), taper_length=pm("4in"), unit=Unit.INCH, limit=limit
        )

    assert limited(exact).exact == exact
    with pytest.raises(UsageError) as refused:
        limited(pm("0.25in"))
    # 8 in sin(atan(1 / 16)), to 0.01 µin
    offset = 8 * mpmath.sin(mpmath.atan(mpmath.mpf(1) / 16))
    assert str(refused.value) == (
        f"offset: an offset of {mpmath.nstr(offset, 8)} in is {mpmath.nstr(offset - 0.25, 8)} in "
        "more than the tailstock goes, 0.25 in\n  swing the compound slide or use a taper attachment"
    )


@pytest.mark.parametrize(
    ("between", "length", "sentence"),
    [
        (
            "4in",
            "4.5in",
            (
                "taper length: the taper is 0.5 in longer than the work between centres\n"
                "  give the whole length between the centre points"
            ),
        ),
        ("4in", "0in", "taper length: 0 in is not above zero"),
        ("0in", "1in", "between centres: 0 in is not above zero"),
    ],
)
def test_an_offset_needs_a_taper_that_fits_on_the_work(between, length, sentence):
    between, length = (read_length(text, signed=True).length for text in (between, length))
    with pytest.raises(UsageError) as refused:
        tailstock_offset(cone("1:20"), between_centres=between, taper_length=length, unit=Unit.INCH)
    assert str(refused.value) == sentence


def test_a_taper_as_long_as_the_work_may_be_cut():
    for length in (pm("4in"), Length(1)):
        assert tailstock_offset(
            cone("1:20"), between_centres=pm("4in"), taper_length=length, unit=Unit.INCH
        ).exact


def test_an_offset_turns_the_half_angle_back():
    found = tailstock_offset(
        cone("1:20"), between_centres=pm("250mm"), taper_length=pm("9mm"), unit=Unit.INCH
    )
    half = half_of_offset(found.exact, between_centres=pm("250mm"), unit=Unit.MILLIMETRE)
    assert abs(half - cone("1:20").half) < 1e-5
    with pytest.raises(UsageError) as refused:
        half_of_offset(pm("11mm"), between_centres=pm("10mm"), unit=Unit.MILLIMETRE)
    assert str(refused.value) == (
        "offset: 11 mm over 10 mm is impossible: 1 mm too much\n  no angle has a sine above 1"
    )


@pytest.mark.parametrize(
    ("graduated", "text"),
    [
        (Graduated.PER_FOOT, "3 in/ft"),
        (Graduated.HALF, "7.125° half angle"),
        (Graduated.INCLUDED, "14.25° included angle"),
    ],
)
def test_an_attachment_is_set_by_what_its_scale_counts(graduated, text):
    setting = attachment_setting(cone("3in/ft"), graduated)
    assert setting.text == text
    assert setting.graduated is graduated
    assert setting.half == cone("3in/ft").half
    assert setting.included.arcseconds == 2 * setting.half.arcseconds
    assert setting.per_foot == 3


def test_an_attachment_whose_scale_is_not_said_is_asked_about_with_every_setting():
    with pytest.raises(UsageError) as refused:
        attachment_setting(cone("3in/ft"), None)
    assert str(refused.value) == (
        "graduated: what does the scale of the attachment count?\n"
        "  inches per foot on diameter: 3 in/ft; degrees of the half angle: 7.125° half angle; "
        "degrees of the included angle: 14.25° included angle"
    )


@pytest.mark.parametrize(
    ("seat", "included", "one_stack"),
    [
        (Seat.FLANK_ON_BAR, True, True),
        (Seat.AXIS_ON_BAR, False, True),
        (Seat.BAR_ON_FLANK, True, False),
        (Seat.BAR_ABOVE_AXIS, False, False),
    ],
)
def test_a_seat_decides_the_angle_and_whether_one_stack_sets_it(seat, included, one_stack):
    taper = cone("1:8")
    setting = bar_setting(taper, LEVELLED, seat)
    assert setting.angle == (taper.included if included else taper.half)
    assert setting.rise == height(setting.angle, LEVELLED)
    assert setting.stack == (setting.rise + pm("0.5in") if one_stack else None)
    kind, how = (
        "included" if included else "half",
        "one stack" if one_stack else "a difference of two stacks",
    )
    assert setting.sentence == f"the {kind} angle, {dms_text(setting.angle)}, by {how}"


def test_a_wedge_and_a_plate_take_their_whole_angle():
    wedge = read_call_out("flat 1:12", bare_unit=None)
    setting = flat_setting(wedge, FIVE)
    assert setting.angle == wedge.angle
    assert setting.stack == setting.rise == height(wedge.angle, FIVE)
    assert setting.sentence == "the whole angle of the wedge, 4°45'49\", by one stack"
    face = plate_setting(deg(30), LEVELLED)
    assert (face.stack, face.rise) == (pm("3in"), pm("2.5in"))
    assert face.sentence == "the angle of the face, 30°00'00\", by one stack"
    assert plate_setting(deg(30), FIVE).caution is None
    assert plate_setting(deg(60), FIVE).caution is not None


def vertical_of(first, second, views):
    """Unit normals by matrices: the part's face, its slopes given in two views, on both plates."""
    plate = compound_plate(deg(first), deg(second), bottom=FIVE, top=FIVE, views=views)
    b, t = (
        mpmath.radians(mpmath.mpf(a.arcseconds.numerator) / a.arcseconds.denominator / 3600)
        for a in (plate.bottom_angle, plate.top_angle)
    )
    turn_y = mpmath.matrix([[mpmath.cos(b), 0, mpmath.sin(b)], [0, 1, 0], [-mpmath.sin(b), 0, mpmath.cos(b)]])
    turn_x = mpmath.matrix([[1, 0, 0], [0, mpmath.cos(t), -mpmath.sin(t)], [0, mpmath.sin(t), mpmath.cos(t)]])
    return plate, turn_y * turn_x


@pytest.mark.parametrize(("first", "second"), [(20, 15), (20, 30), (10, 15), (44, 3), (1, 40)])
def test_a_plate_surface_has_both_slopes_in_its_two_upright_planes(first, second):
    _, turn = vertical_of(first, second, Views.OF_THE_PLATE)
    normal = turn * mpmath.matrix([0, 0, 1])
    assert abs(abs(normal[0] / normal[2]) - mpmath.tan(mpmath.radians(first))) < 1e-12
    assert abs(abs(normal[1] / normal[2]) - mpmath.tan(mpmath.radians(second))) < 1e-12


@pytest.mark.parametrize(("first", "second"), [(20, 15), (20, 30), (10, 15), (44, 3), (1, 40)])
def test_a_part_face_with_both_slopes_in_its_views_comes_level(first, second):
    plate, turn = vertical_of(first, second, Views.OF_THE_PART)
    # the top plate (turn about x) takes the first view, the bottom plate (about y) the corrected second
    slope_y, slope_x = mpmath.tan(mpmath.radians(first)), mpmath.tan(mpmath.radians(second))
    face = mpmath.matrix([-slope_x, slope_y, 1])
    face = face / mpmath.norm(face)
    level = turn * face
    assert abs(level[2] - 1) < 1e-12
    assert abs(level[0]) < 1e-12
    assert plate.top_angle == deg(first)


@pytest.mark.parametrize("views", Views)
def test_the_true_tilt_joins_both_slopes_and_has_a_direction(views):
    plate = compound_plate(deg(20), deg(15), bottom=FIVE, top=LEVELLED, views=views)
    tangents = [mpmath.tan(mpmath.radians(a)) for a in (20, 15)]
    assert mpmath.degrees(mpmath.atan(mpmath.hypot(*tangents))) == pytest.approx(
        plate.tilt.degrees, abs=1e-12
    )
    assert plate.direction.degrees == pytest.approx(
        float(mpmath.degrees(mpmath.atan2(tangents[1], tangents[0]))), abs=1e-12
    )
    assert plate.top_stack == height(plate.top_angle, LEVELLED) + pm("0.5in")
    assert plate.bottom_stack == height(plate.bottom_angle, FIVE)
    assert plate.views is views
    corrected = mpmath.degrees(mpmath.atan(tangents[1] * mpmath.cos(mpmath.radians(20))))
    assert plate.left_over.degrees == pytest.approx(float(15 - corrected), abs=1e-12)


def test_a_small_tilt_stays_sharp():
    one = Angle(arcseconds=Fraction(1, 100))
    assert float(true_tilt(one, one).arcseconds) == pytest.approx(0.01 * 2**0.5, rel=1e-9)


@pytest.mark.parametrize(
    ("first", "second", "screen"),
    [
        (0, 15, "first view: not above zero\n  one slope alone needs a single sine plate"),
        (15, 0, "second view: not above zero\n  one slope alone needs a single sine plate"),
        (
            95,
            15,
            "first view: 95°00'00\" is 5°00'00\" above 90° or at it\n  turn the part to another view",
        ),
        (
            15,
            90,
            "second view: 90°00'00\" is 0°00'00\" above 90° or at it\n  turn the part to another view",
        ),
    ],
)
def test_a_view_angle_no_compound_plate_sets_is_refused_with_the_amount(first, second, screen):
    with pytest.raises(UsageError) as refused:
        compound_plate(deg(first), deg(second), bottom=FIVE, top=FIVE, views=Views.OF_THE_PART)
    assert str(refused.value) == screen


def test_a_view_angle_of_half_a_second_is_an_angle():
    half = Angle(arcseconds=Fraction(1, 2))
    plate = compound_plate(half, half, bottom=FIVE, top=FIVE, views=Views.OF_THE_PART)
    assert plate.top_stack == plate.bottom_stack == height(half, FIVE)


@pytest.mark.parametrize("seat", Seat)
def test_a_stack_on_the_bench_gives_back_the_taper_it_was_built_for(seat):
    taper = cone("0.60235in/ft")
    rise = bar_setting(taper, LEVELLED, seat).rise
    stack = Length(rise + LEVELLED.base_height)
    found = from_stack(stack, LEVELLED, seat)
    assert found.taper.per_foot_text == "0.60235 in/ft"
    assert abs(found.taper.half - taper.half) < 1e-4
    assert (found.seat, found.angle) == (seat, angle_of(rise, LEVELLED))
    assert found.taper.call_out == exact_text(stack, Unit.INCH)
    assert found.taper.reading == (
        f"{exact_text(stack, Unit.INCH)} on plate: {dms_text(found.angle)}, {seat.value}"
    )


def test_a_stack_below_the_base_height_is_refused_with_the_amount():
    def refusal(stack, bar, seat):
        with pytest.raises(UsageError) as refused:
            from_stack(pm(stack), bar, seat)
        return str(refused.value)

    assert refusal("0.4in", LEVELLED, Seat.FLANK_ON_BAR) == "stack: 0.4 in is 0.1 in below the base height"
    assert refusal("0.5in", LEVELLED, Seat.FLANK_ON_BAR) == "stack: the bar lies level: no angle"
    assert refusal("5.6in", LEVELLED, Seat.FLANK_ON_BAR) == (
        "height: 5.1 in is more than the centre distance, 5 in\n  no angle has a sine above 1"
    )
    assert refusal("5in", FIVE, Seat.AXIS_ON_BAR) == (
        "stack: the bar stands upright: no cone has that half angle"
    )


def test_a_flank_on_an_upright_bar_is_a_cone_of_ninety_degrees_and_a_picometre_is_a_rise():
    assert from_stack(pm("5in"), FIVE, Seat.FLANK_ON_BAR).taper.half.degrees == pytest.approx(45)
    least = from_stack(Length(LEVELLED.base_height + 1), LEVELLED, Seat.AXIS_ON_BAR)
    assert least.angle.radians == pytest.approx(1 / LEVELLED.centre_distance)


@pytest.mark.parametrize(
    ("angle", "step", "book", "error", "worst"),
    [
        ("7d7m30s", "10m", "7°10'00\"", 150, 300),
        ("7d7m30s", "1m", "7°08'00\"", 30, 30),
        ("7d4m0s", "10m", "7°00'00\"", -240, 300),
        ("7d10m", "10m", "7°10'00\"", 0, 300),
        ("7d0.25s", "1s", "7°00'00\"", Fraction(-1, 4), Fraction(1, 2)),
        ("7d0.2s", "0.5s", "7°00'00\"", Fraction(-1, 5), Fraction(1, 4)),
    ],
)
def test_a_book_in_coarse_steps_is_off_by_its_rounding(angle, step, book, error, worst):
    found = table_step_error(read_angle(angle).angle, read_angle(step).angle)
    assert dms_text(found.book_angle) == book
    assert found.error_arcsec == error
    assert found.worst_arcsec == worst


def test_a_table_without_a_step_is_refused():
    with pytest.raises(UsageError) as refused:
        table_step_error(deg(1), deg(0))
    assert str(refused.value) == "step: a table's step is above zero\n  like 1m or 10m"
