import math
from fractions import Fraction

import mpmath
import pytest

from gaugestack.angles.angle import Angle
from gaugestack.angles.callout import read_call_out, read_taper
from gaugestack.angles.readings import (
    acceptance,
    carriage_reading,
    collar_cut,
    collar_spacing,
    error_of_top_reading,
    half_of_carriage_reading,
    half_of_slide_reading,
    reading_per_minute,
    slide_reading,
    top_reading,
)
from gaugestack.angles.readings_balls import InBore, half_of_balls, mouth_of_ball, top_of_ball
from gaugestack.angles.readings_discs import angle_of_discs, corner_distance, disc_spacing
from gaugestack.angles.readings_proofs import PROOFS, proofs_for
from gaugestack.angles.readings_rolls import (
    OverRolls,
    Stands,
    end_diameter_of_rolls,
    half_of_rolls,
    over_rolls,
)
from gaugestack.angles.sketch import WIDEST, Geometry, sketch
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, Unit, read_length

mpmath.mp.dps = 50
IN, MM = Unit.INCH, Unit.MILLIMETRE
MILLIMETRE = 1_000_000_000
CONES = ["1:200", "0.60235in/ft", "3in/ft", "7:24", "30deg/side"]


def cone(text):
    return read_taper(text, bare_unit=None)


def pm(text):
    return read_length(text, signed=True).length


def refusal(function, *arguments, **more):
    with pytest.raises(UsageError) as refused:
        function(*arguments, **more)
    return str(refused.value)


def tangent(taper):
    return mpmath.mpf(taper.exact_rate.numerator) / taper.exact_rate.denominator / 2


def half(taper):
    return mpmath.atan(tangent(taper))


@pytest.mark.parametrize("text", CONES)
def test_the_slide_shows_the_sine_and_the_carriage_the_tangent(text):
    taper, travel = cone(text), pm("3in")
    assert abs(slide_reading(taper, travel).per_side - travel * mpmath.sin(half(taper))) < 1
    assert abs(carriage_reading(taper, travel).per_side - travel * mpmath.tan(half(taper))) < 1
    assert abs(slide_reading(taper, travel).on_diameter - 2 * travel * mpmath.sin(half(taper))) < 1
    assert abs(carriage_reading(taper, travel).on_diameter - 2 * travel * mpmath.tan(half(taper))) < 1
    assert slide_reading(taper, travel).travel == carriage_reading(taper, travel).travel == travel
    assert slide_reading(taper, travel).per_side < carriage_reading(taper, travel).per_side


@pytest.mark.parametrize("text", CONES)
def test_a_reading_gives_back_the_half_angle(text):
    taper, travel = cone(text), pm("75mm")
    slide = half_of_slide_reading(slide_reading(taper, travel).per_side, travel=travel, unit=MM)
    carriage = half_of_carriage_reading(carriage_reading(taper, travel).per_side, travel=travel, unit=MM)
    assert abs(slide - taper.half) < 1e-4
    assert abs(carriage - taper.half) < 1e-4


def test_a_reading_longer_than_its_travel_is_refused_with_the_amount():
    assert half_of_slide_reading(pm("10mm"), travel=pm("10mm"), unit=MM).degrees == 90
    assert half_of_slide_reading(pm("-5mm"), travel=pm("10mm"), unit=MM).degrees == pytest.approx(-30)
    assert refusal(half_of_slide_reading, pm("12mm"), travel=pm("10mm"), unit=MM) == (
        "reading: 12 mm over 10 mm is impossible: 2 mm too much\n  no angle has a sine above 1"
    )
    assert refusal(half_of_slide_reading, pm("-12mm"), travel=pm("10mm"), unit=MM) == (
        "reading: -12 mm over 10 mm is impossible: 2 mm too much\n  no angle has a sine above 1"
    )
    assert refusal(half_of_slide_reading, pm("1mm"), travel=Length(0), unit=MM) == (
        "reading: over 0 mm: the length must be above zero"
    )
    assert refusal(half_of_carriage_reading, pm("1mm"), travel=Length(0), unit=MM) == (
        "travel: 0 mm is not above zero"
    )


def test_a_picometre_is_a_length_and_one_too_many_is_too_many():
    assert half_of_slide_reading(Length(1), travel=Length(1), unit=MM).degrees == 90
    assert half_of_carriage_reading(Length(1), travel=Length(1), unit=MM).degrees == pytest.approx(45)
    assert refusal(half_of_slide_reading, Length(11), travel=Length(10), unit=MM) == (
        "reading: 0.000000011 mm over 0.00000001 mm is impossible: 0.000000001 mm too much\n"
        "  no angle has a sine above 1"
    )
    least = OverRolls(low=Length(0), high=Length(1), low_stack=Length(0), high_stack=Length(1))
    assert half_of_rolls(least, stands=Stands.SMALL_END_DOWN, unit=MM).radians == pytest.approx(
        math.atan(0.5)
    )


def test_a_level_top_reads_nothing_and_a_minute_shows_over_the_span():
    assert top_reading(Angle.from_degrees(0), pm("3in")) == 0
    assert abs(reading_per_minute(pm("3in")) - pm("3in") * mpmath.tan(mpmath.pi / 10800)) < 1
    steep = Angle(arcseconds=Fraction(60))
    assert top_reading(steep, pm("3in")) > 0
    assert abs(error_of_top_reading(top_reading(steep, pm("3in")), span=pm("3in"), unit=IN) - steep) < 1e-5
    slow = Angle(arcseconds=Fraction(-60))
    assert top_reading(slow, pm("3in")) == -top_reading(steep, pm("3in"))
    with pytest.raises(UsageError, match="span: 0 in is not above zero"):
        error_of_top_reading(pm("1mm"), span=Length(0), unit=IN)


def plug_radius(taper, end, height, stands):
    return mpmath.mpf(end) / 2 + stands.sign * height * tangent(taper)


@pytest.mark.parametrize("stands", Stands)
@pytest.mark.parametrize("text", CONES)
@pytest.mark.parametrize("stack", ["0mm", "25mm"])
def test_the_rolls_touch_plate_and_flank_by_coordinates(text, stands, stack):
    # second derivation: a circle on the stack that touches the flank, by its distance to the flank line
    taper, end, roll = cone(text), pm("60mm"), pm("10mm")
    over = over_rolls(taper, end, roll, pm(stack), stands=stands)
    centre_x, centre_y = mpmath.mpf(over) / 2 - mpmath.mpf(roll) / 2, pm(stack) + mpmath.mpf(roll) / 2
    flank_x = plug_radius(taper, end, centre_y, stands)
    distance = (centre_x - flank_x) * mpmath.cos(half(taper))
    assert abs(distance - mpmath.mpf(roll) / 2) < 2


@pytest.mark.parametrize("stands", Stands)
@pytest.mark.parametrize("text", CONES)
def test_two_sizes_over_rolls_give_back_angle_and_end(text, stands):
    taper, end, roll = cone(text), pm("60mm"), pm("10mm")
    low, high = (over_rolls(taper, end, roll, pm(h), stands=stands) for h in ("2mm", "27mm"))
    measured = OverRolls(low=low, high=high, low_stack=pm("2mm"), high_stack=pm("27mm"))
    found = half_of_rolls(measured, stands=stands, unit=MM)
    assert abs(found - taper.half) < 1e-4
    assert abs(end_diameter_of_rolls(low, found, roll, pm("2mm"), stands=stands, unit=MM) - end) < 10


def rolls(low="40mm", high="42mm", low_stack="0mm", high_stack="25mm"):
    return OverRolls(low=pm(low), high=pm(high), low_stack=pm(low_stack), high_stack=pm(high_stack))


@pytest.mark.parametrize(
    ("measured", "sentence"),
    [
        (rolls(high_stack="-1mm"), "high stack: the high stacks are 1 mm below the low ones"),
        (rolls(high_stack="0mm"), "high stack: both pairs of stacks are the same height"),
        (rolls(low_stack="-1mm"), "low stack: -1 mm is below the plate"),
        (
            rolls(high="39mm"),
            (
                "over rolls: with the small end down the size over the rolls should grow the other way: "
                "off by 1 mm\n  measure again, or say which end stands on the plate"
            ),
        ),
        (
            rolls(high="40mm"),
            (
                "over rolls: both sizes are the same: no taper\n"
                "  measure again, or say which end stands on the plate"
            ),
        ),
    ],
)
def test_rolls_that_cannot_be_are_refused_with_the_amount(measured, sentence):
    assert refusal(half_of_rolls, measured, stands=Stands.SMALL_END_DOWN, unit=MM) == sentence


def test_the_same_sizes_the_other_way_up_are_allowed():
    assert half_of_rolls(rolls(), stands=Stands.SMALL_END_DOWN, unit=MM).degrees > 0
    assert half_of_rolls(rolls(low="42mm", high="40mm"), stands=Stands.LARGE_END_DOWN, unit=MM).degrees > 0


def test_rolls_wider_than_the_size_over_them_are_refused_with_the_amount():
    taper, down = cone("1:20"), Stands.SMALL_END_DOWN
    # d (1 + cot(45 deg - half / 2)) of a roll of 10 mm, less 20 mm
    alone = 10 * (1 + mpmath.cot(mpmath.pi / 4 - half(taper) / 2)) - 20
    assert refusal(
        end_diameter_of_rolls, pm("20mm"), taper.half, pm("10mm"), Length(0), stands=down, unit=MM
    ) == (
        f"over rolls: the rolls alone are {mpmath.nstr(alone, 7)} mm more than the size over them\n"
        "  check the roll diameter and the stack"
    )
    assert refusal(
        end_diameter_of_rolls, pm("20mm"), taper.half, Length(0), Length(0), stands=down, unit=MM
    ) == ("roll: 0 mm is not above zero")


@pytest.mark.parametrize(("end", "left"), [(0, False), (1, True)])
def test_a_plug_is_left_between_the_rolls_from_one_picometre_on(end, left):
    taper, down = cone("1:20"), Stands.SMALL_END_DOWN
    over = Length(over_rolls(taper, Length(0), pm("10mm"), Length(0), stands=down) + end)
    asked = (over, taper.half, pm("10mm"), Length(0))
    if left:
        assert end_diameter_of_rolls(*asked, stands=down, unit=MM) == end
    else:
        assert "0 mm more than the size over them" in refusal(
            end_diameter_of_rolls, *asked, stands=down, unit=MM
        )


@pytest.mark.parametrize("text", CONES)
@pytest.mark.parametrize("mouth", ["21mm", "26mm"])
def test_a_ball_touches_the_bore_by_coordinates(text, mouth):
    taper, ball = cone(text), pm("20mm")
    top = top_of_ball(taper, pm(mouth), ball, unit=MM)
    depth = mpmath.mpf(ball) / 2 - top
    wall = mpmath.mpf(pm(mouth)) / 2 - depth * tangent(taper)
    assert abs(wall * mpmath.cos(half(taper)) - mpmath.mpf(ball) / 2) < 2
    assert abs(mouth_of_ball(ball, top, taper.half, unit=MM) - pm(mouth)) < 10


@pytest.mark.parametrize(("mouth", "above"), [("21mm", True), ("40mm", False)])
def test_a_top_above_the_face_is_positive_and_below_it_negative(mouth, above):
    assert (top_of_ball(cone("30deg/side"), pm(mouth), pm("20mm"), unit=MM) > 0) == above


def test_two_balls_give_back_the_half_angle_above_and_below_the_face():
    taper = cone("30deg/side")
    tops = {ball: top_of_ball(taper, pm("24mm"), pm(ball), unit=MM) for ball in ("20mm", "5mm")}
    assert tops["20mm"] > 0 > tops["5mm"]
    balls = InBore(large=pm("20mm"), small=pm("5mm"), large_top=tops["20mm"], small_top=tops["5mm"])
    assert abs(half_of_balls(balls, unit=MM) - taper.half) < 1e-4


@pytest.mark.parametrize(
    ("large", "small", "large_top", "small_top", "sentence"),
    [
        ("8mm", "12mm", "0mm", "-9mm", "large ball: the large ball is 4 mm below the small one"),
        ("8mm", "8mm", "0mm", "-9mm", "large ball: both balls are the same size: no angle"),
        (
            "12mm",
            "8mm",
            "0mm",
            "-3mm",
            (
                "ball heights: the centres stand 1 mm apart, and 2 mm is the least any cone allows: "
                "1 mm too little\n  a top above the face is positive, below it negative"
            ),
        ),
        (
            "12mm",
            "8mm",
            "0mm",
            "-4mm",
            (
                "ball heights: the centres stand 2 mm apart, and 2 mm is the least any cone allows: "
                "0 mm too little\n  a top above the face is positive, below it negative"
            ),
        ),
        ("12mm", "0mm", "0mm", "-9mm", "small ball: 0 mm is not above zero"),
    ],
)
def test_balls_that_cannot_be_are_refused_with_the_amount(large, small, large_top, small_top, sentence):
    balls = InBore(large=pm(large), small=pm(small), large_top=pm(large_top), small_top=pm(small_top))
    assert refusal(half_of_balls, balls, unit=MM) == sentence


def test_a_ball_too_large_for_the_mouth_sits_on_the_edge_and_is_refused():
    taper = cone("30deg/side")
    # it touches at the face itself where its radius times cos(half) is half of the mouth
    mouth = pm("20mm")
    largest = int(mouth / mpmath.cos(mpmath.radians(30)))
    assert top_of_ball(taper, mouth, Length(largest - 1000), unit=MM) > 0
    # a ball of diameter d touches (d / 2 - mouth / 2 cos) / sin above the face, measured along the axis
    sits = (
        "ball: the ball would touch the cone {} mm above the face: it sits on the edge\n  take a smaller ball"
    )
    cosine, sine = mpmath.cos(mpmath.radians(30)), mpmath.sin(mpmath.radians(30))
    above = (mpmath.mpf(25) / 2 / cosine - 10) / (sine / cosine) - mpmath.mpf(25) / 2 * sine
    assert refusal(top_of_ball, taper, mouth, pm("25mm"), unit=MM) == sits.format(mpmath.nstr(above, 8))
    # a ball of 20 mm whose top is 19 mm up has its centre 9 mm up and touches r sin(half) = 5 mm below that
    assert refusal(mouth_of_ball, pm("20mm"), pm("19mm"), taper.half, unit=MM) == sits.format("4")
    assert refusal(mouth_of_ball, Length(0), pm("19mm"), taper.half, unit=MM) == (
        "ball: 0 mm is not above zero"
    )
    assert refusal(top_of_ball, taper, mouth, Length(0), unit=MM) == "ball: 0 mm is not above zero"


def test_a_ball_may_touch_the_bore_at_its_very_edge():
    # a ball half out of a straight bore touches at the face; one of 20 mm in a bore of 30 degrees per side
    # does so with its top 10 + 10 sin(30) = 15 mm up
    assert mouth_of_ball(pm("20mm"), pm("10mm"), Angle.from_degrees(0), unit=MM) == pm("20mm")
    edge = mouth_of_ball(pm("20mm"), Length(pm("15mm") - 1), Angle.from_degrees(30), unit=MM)
    assert abs(edge - 20 * MILLIMETRE * mpmath.cos(mpmath.pi / 6)) < 3


@pytest.mark.parametrize("text", CONES)
def test_discs_touch_both_sides_by_coordinates(text):
    whole, large, sine = cone(text).included, pm("50mm"), mpmath.sin(half(cone(text)))
    small = Length(int(large * (1 - sine) / (1 + sine) * 9 / 10))
    found = disc_spacing(whole, large=large, small=small, unit=MM)
    # both centres lie on the bisector, each as far from the apex as its radius over the sine
    small_centre = mpmath.mpf(large) / 2 / sine - found.centre_distance
    assert abs(small_centre * sine - mpmath.mpf(small) / 2) < 2
    assert abs(angle_of_discs(large=large, small=small, gap=found.gap, unit=MM) - whole) < 1e-3


def test_touching_discs_have_no_gap_and_overlapping_ones_are_refused():
    touching = angle_of_discs(large=pm("3in"), small=pm("1in"), gap=Length(0), unit=IN)
    assert touching.degrees == pytest.approx(60)
    assert disc_spacing(touching, large=pm("3in"), small=pm("1in"), unit=IN).gap == 0
    assert refusal(disc_spacing, touching, large=pm("1in"), small=pm("2in"), unit=IN) == (
        "large disc: the large disc is 1 in below the small one"
    )
    assert refusal(disc_spacing, touching, large=pm("4in"), small=pm("2in"), unit=IN) == (
        "discs: the discs would overlap by 1 in\n  take discs that differ more in size"
    )
    assert refusal(angle_of_discs, large=pm("3in"), small=pm("1in"), gap=pm("-1in"), unit=IN) == (
        "gap: the discs overlap by 1 in"
    )
    assert refusal(angle_of_discs, large=pm("1in"), small=pm("2in"), gap=Length(0), unit=IN) == (
        "large disc: the large disc is 1 in below the small one"
    )
    assert refusal(angle_of_discs, large=pm("1in"), small=pm("1in"), gap=Length(0), unit=IN) == (
        "large disc: both discs are the same size: no angle"
    )
    assert refusal(angle_of_discs, large=pm("1in"), small=Length(0), gap=Length(0), unit=IN) == (
        "small disc: 0 in is not above zero"
    )
    for degrees in (0, 180):
        assert refusal(
            disc_spacing, Angle.from_degrees(degrees), large=pm("3in"), small=pm("1in"), unit=IN
        ) == ("angle: two discs stand in an angle above 0 and below 180 degrees")


def test_discs_that_overlap_by_no_more_than_a_rounding_touch():
    # at 60 degrees the centres stand large - small apart, so the gap is (large - 3 small) / 2
    sixty, small = Angle.from_degrees(60), pm("10mm")
    assert disc_spacing(sixty, large=Length(3 * small - 2), small=small, unit=MM).gap == 0
    assert refusal(disc_spacing, sixty, large=Length(3 * small - 3), small=small, unit=MM).startswith(
        "discs: the discs would overlap by "
    )


def test_discs_stand_far_apart_in_half_a_second():
    whole = Angle(arcseconds=Fraction(1, 2))
    found = disc_spacing(whole, large=pm("11mm"), small=pm("10mm"), unit=MM).centre_distance
    assert found == pytest.approx(MILLIMETRE / (2 * math.sin(math.radians(1 / 14400))), rel=1e-12)


def test_a_disc_in_a_right_corner_reaches_its_diameter():
    assert corner_distance(Angle.from_degrees(90), pm("2in")) == pm("2in")


def test_collars_stand_where_their_difference_is_round():
    assert collar_spacing(cone("1:20"), pm("1mm"), unit=MM) == pm("20mm")
    with pytest.raises(UsageError, match="difference: 0 mm is not above zero"):
        collar_spacing(cone("1:20"), Length(0), unit=MM)


@pytest.mark.parametrize(("large", "sign"), [("31mm", 0), ("31.01mm", 1), ("30.99mm", -1)])
def test_a_collar_cut_says_which_way_the_machine_errs(large, sign):
    cut = collar_cut(cone("1:20"), large=pm(large), small=pm("30mm"), spacing=pm("20mm"), unit=MM)
    rate = (mpmath.mpf(pm(large)) - pm("30mm")) / pm("20mm")
    exact = (mpmath.atan(rate / 2) - mpmath.atan(mpmath.mpf(1) / 40)) * 648000 / mpmath.pi
    assert cut.rate == Fraction(pm(large) - pm("30mm"), pm("20mm"))
    assert cut.half.radians == pytest.approx(float(mpmath.atan(rate / 2)), rel=1e-14)
    assert abs(mpmath.mpf(float(cut.error_arcsec)) - exact) < 1e-8
    assert (cut.error_arcsec > 0) - (cut.error_arcsec < 0) == sign


def test_collars_that_do_not_fall_are_refused_with_the_amount():
    def told(large, spacing):
        return refusal(
            collar_cut, cone("1:20"), large=pm(large), small=pm("30mm"), spacing=pm(spacing), unit=MM
        )

    assert told("29mm", "20mm") == "large: the large collar is 1 mm below the small one"
    assert told("30mm", "20mm") == "large: both collars are the same: no taper"
    assert told("31mm", "0mm") == "spacing: 0 mm is not above zero"


@pytest.mark.parametrize(
    ("error", "outside", "accepted", "by"),
    [
        (0, True, True, 0),
        (10, True, True, 0),
        (11, True, False, 1),
        (-1, True, False, 1),
        (0, False, True, 0),
        (-10, False, True, 0),
        (-11, False, False, 1),
        (1, False, False, 1),
    ],
)
def test_a_fit_errs_only_to_the_side_that_bears_at_the_large_end(error, outside, accepted, by):
    taper = cone("1:20")
    measured = Angle(arcseconds=taper.half.arcseconds + error)
    found = acceptance(taper, measured, band_arcsec=Fraction(10), outside=outside)
    assert found.accepted == accepted
    assert found.by_arcsec == by
    way, end = ("steep" if error > 0 else "slow"), ("large" if abs(error) > 10 else "small")
    assert found.sentence == (
        "inside the band, tight at the large end"
        if accepted
        else f'+1.0" outside the band: too {way}, bears at the {end} end only'
    )


def test_an_acceptance_band_is_not_below_zero():
    half = cone("1:20").half
    assert refusal(acceptance, cone("1:20"), half, band_arcsec=Fraction(-1)) == 'band: -1.0" is below zero'
    assert acceptance(cone("1:20"), half, band_arcsec=Fraction(0)).accepted


def test_a_band_of_nothing_takes_no_half_second_either():
    steep = Angle(arcseconds=cone("1:20").half.arcseconds + Fraction(1, 2))
    found = acceptance(cone("1:20"), steep, band_arcsec=Fraction(0))
    assert found.by_arcsec == Fraction(1, 2)
    assert found.sentence == '+0.5" outside the band: too steep, bears at the large end only'


def test_a_fit_is_taken_for_an_outside_taper_unless_told():
    steep = Angle(arcseconds=cone("1:20").half.arcseconds + 5)
    assert acceptance(cone("1:20"), steep, band_arcsec=Fraction(10)).accepted
    assert not acceptance(cone("1:20"), steep, band_arcsec=Fraction(10), outside=False).accepted


def test_every_check_says_what_it_cannot_detect():
    assert len({proof.name for proof in PROOFS}) == len(PROOFS)
    for proof in PROOFS:
        assert proof.do
        assert proof.finds
        assert proof.cannot_detect
        assert proof.basis in {"seen", "common practice", "derived"}
    for kind in ("bar", "lathe", "plug", "bore"):
        assert proofs_for(kind)
        assert {proof.kind for proof in proofs_for(kind)} == {kind}


def test_a_second_stack_of_the_same_height_finds_no_wrong_angle():
    second = next(proof for proof in PROOFS if proof.name == "second stack of different blocks")
    assert "a wrong height computed" in second.cannot_detect


@pytest.mark.parametrize("geometry", Geometry)
@pytest.mark.parametrize("call_out", [None, "3in/ft", "flat 1:12"])
def test_a_sketch_is_narrow_plain_and_titled(geometry, call_out):
    read = read_call_out(call_out, bare_unit=None) if call_out else None
    lines = sketch(geometry, read).splitlines()
    assert lines[0] == geometry.value
    assert len(lines) > 6
    assert max(len(line) for line in lines) <= WIDEST
    assert all(line == line.rstrip() and "\t" not in line for line in lines)
    assert all(character.isascii() or character == "°" for line in lines for character in line)


@pytest.mark.parametrize(
    ("geometry", "half"),
    [
        (Geometry.COMPOUND, True),
        (Geometry.CENTRES, True),
        (Geometry.AXIS_ON_BAR, True),
        (Geometry.ROLLS, True),
        (Geometry.BALLS, True),
        (Geometry.COLLARS, True),
        (Geometry.FLANK_ON_BAR, False),
        (Geometry.BAR_ON_FLANK, False),
        (Geometry.DISCS, False),
    ],
)
def test_a_sketch_names_the_angle_to_set_and_the_one_that_is_not_meant(geometry, half):
    lines = sketch(geometry, cone("14.25deg included")).splitlines()
    assert lines[-2:] == (
        [" a/2 = half angle, 7°07'30\"", " (not the included one, 14°15'00\")"]
        if half
        else [" a = included angle, 14°15'00\"", " (not the half one, 7°07'30\")"]
    )


def test_a_sketch_keeps_its_left_margin_and_names_both_angles_of_a_cone():
    assert sketch(Geometry.CONE).splitlines()[:4] == [
        "a cone: the half angle and the included angle",
        "                        ______------|",
        "          ______------              |   \\",
        "     -----  \\ a/2                   |    \\",
    ]
    assert sketch(Geometry.CONE, cone("14.25deg included")).splitlines()[-2:] == [
        " a/2 = half angle, 7°07'30\"",
        " a = included angle, 14°15'00\"",
    ]
    assert sketch(Geometry.COMPOUND_PLATE, cone("1:4")) == sketch(Geometry.COMPOUND_PLATE)


def test_a_wedge_shows_its_one_angle_and_no_cone_shows_under_it():
    assert sketch(Geometry.WEDGE, read_call_out("flat 5deg", bare_unit=None)).endswith(
        "set the whole angle, 5°00'00\""
    )
    assert sketch(Geometry.WEDGE, cone("1:4")) == sketch(Geometry.WEDGE)
    assert sketch(Geometry.COMPOUND, read_call_out("flat 5deg", bare_unit=None)) == sketch(Geometry.COMPOUND)
