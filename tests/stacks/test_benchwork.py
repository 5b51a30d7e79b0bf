"""What practice asks for around a stack: each rule where it applies and where it does not.

Published: 8 h plus 1 h per inch over 1 in, 4 in 12 h and 20 in 28 h (US Army TB 9-5210-205-40, step 8 m).
Computed apart from this program: time constants of 16.3, 18.3 and 19.5 min for 25, 50 and 100 mm of steel
9 mm x 30 mm; 100 mm of rectangular steel blocks 0.25 kg, of square ones 0.45 kg.
"""

import pytest

from gaugestack.blocks import Block, Stack
from gaugestack.lengths import PM_PER_INCH, PM_PER_MM, Length, Unit
from gaugestack.stacks.benchwork import (
    STEEL_DENSITY,
    advice,
    density_of,
    masses,
    still_air_minutes,
    time_constant_minutes,
    transport_hours,
    warmth_text,
)
from tests.stacks.making import block


def stack(*blocks):
    return Stack(blocks=blocks)


def topics(*blocks, tilt=0.0):
    return [one.topic for one in advice(stack(*blocks), tilt)]


def said(topic, *blocks, tilt=0.0):
    return [one.action for one in advice(stack(*blocks), tilt) if one.topic == topic]


def test_the_advice_stands_in_the_order_of_the_work():
    assert topics(block(20), block(5)) == ["soak", "clean", "stone", "hands", "join", "soak", "part"]


def test_one_block_alone_is_not_joined_and_not_parted():
    assert topics(block(20)) == ["soak", "clean", "stone", "hands", "soak"]


def test_every_piece_of_advice_says_what_it_rests_on():
    for one in advice(stack(block(100), block(50), block(2, material="tungsten carbide")), 20.0):
        assert one.action
        assert one.reason
        assert one.basis


@pytest.mark.parametrize(("inches", "hours"), [(1, 8), (4, 12), (20, 28)])
def test_a_set_soaks_8_hours_and_one_for_each_inch_over_one(inches, hours):
    assert transport_hours(inches * PM_PER_INCH) == hours


def test_a_part_of_an_inch_counts_whole():
    assert transport_hours(PM_PER_INCH + 1) == 10
    assert transport_hours(2 * PM_PER_INCH + 1) == 11


def test_the_longest_block_gives_the_hours():
    assert "8 h open" in said("soak", block(25), block(20))[0]
    assert "12 h open" in said("soak", block(100), block(20))[0]


@pytest.mark.parametrize(("length", "minutes"), [(25, 16.3), (50, 18.3), (100, 19.5)])
def test_the_time_constant_is_that_of_a_bare_steel_bar(length, minutes):
    assert round(time_constant_minutes(length * PM_PER_MM), 1) == minutes


@pytest.mark.parametrize("millimetres", [0.5, 25, 50, 100, 500])
def test_the_time_constant_is_heat_stored_over_heat_lost(millimetres):
    """Density 7850 kg/m3, 460 J/(kg K), 10 W/(m2 K); in metres and seconds here."""
    a, b, c = 0.009, 0.030, millimetres / 1000
    stored, lost = 7850 * 460 * a * b * c, 10 * 2 * (a * b + b * c + a * c)

    assert time_constant_minutes(millimetres * PM_PER_MM) == pytest.approx(stored / lost / 60)


@pytest.mark.parametrize(("length", "minutes"), [(25, 40), (50, 45), (100, 45)])
def test_nine_tenths_of_the_warmth_take_2_3_time_constants(length, minutes):
    """38 to 45 min for 25 to 100 mm; rounded up to 5 min."""
    assert still_air_minutes(stack(block(length))) == minutes


def test_up_to_100_mm_no_clamp_is_asked_for():
    assert said("clamp", block(100)) == []
    assert said("clamp", block(60), block(40)) == []


def test_above_100_mm_tie_rods_or_a_holder_are():
    assert said("clamp", block(100), block(1)) == ["Above 100 mm: tie rods or a holder, nipped up lightly"]


def test_a_light_stack_is_no_weight():
    assert said("weight", block(100)) == []


def test_a_heavy_stack_says_what_it_weighs():
    assert said("weight", block(100), block(100, copy=2)) == [
        "About 0.5 kg, of square blocks 0.9 kg: both hands, low over the bench"
    ]


def test_100_mm_of_steel_weigh_a_quarter_or_nearly_half_a_kilogram():
    rectangular, square = masses(stack(block(100)))

    assert (round(rectangular, 2), round(square, 2)) == (0.25, 0.46)


def test_short_blocks_are_narrower():
    """10 mm are 30 mm wide, 11 mm are 35 mm wide (ASME B89.1.9-2002, table 1)."""
    ten, eleven = (masses(stack(block(size)))[0] for size in (10, 11))

    assert round(ten / 10 / (eleven / 11), 4) == round(30 / 35, 4)


@pytest.mark.parametrize(
    ("material", "density"),
    [("steel", 7850), ("tungsten carbide", 14700), ("Zirconia ceramic", 6050), ("chromium carbide", 6850)],
)
def test_the_weight_knows_the_usual_materials(material, density):
    assert density_of(block(1, material=material)) == density


def test_a_material_that_is_not_known_weighs_as_steel():
    assert density_of(block(1, material="invented alloy")) == STEEL_DENSITY


def test_blocks_of_one_material_are_not_mixed():
    assert said("materials", block(20), block(5)) == []


def test_mixed_materials_are_named():
    assert said("materials", block(20), block(2, material="tungsten carbide")) == [
        "steel and tungsten carbide together: hard ones outside, work near 20 °C"
    ]


def test_hard_materials_chip_rather_than_burr():
    def reason(*blocks):
        return next(one.reason for one in advice(stack(*blocks)) if one.topic == "stone")

    assert "chip" in reason(block(20), block(2, material="tungsten carbide"))
    assert "chip" not in reason(block(20), block(2))


def test_blocks_above_4_in_are_handled_with_gloves():
    """4 in is 101.6 mm (US Army subcourse MM0478)."""
    assert said("hands", block("101.6")) == ["Fingertips only, and put it down soon"]
    assert said("hands", block(102)) == ["Gloves or forceps, and put it down soon"]


def test_hand_warmth_is_told_in_the_unit_of_the_blocks():
    """1.15 µm per kelvin on 100 mm of steel, 11.5e-6 per kelvin (computed)."""
    inch = Block(nominal=Length(PM_PER_INCH), unit=Unit.INCH)

    assert warmth_text(stack(block(100))) == "1.15 µm"
    assert warmth_text(stack(inch)) == "12 µin"


def test_flat_work_does_not_slide_and_steep_work_may():
    assert said("slide", block(20), tilt=5.0) == []
    assert said("slide", block(20), tilt=5.1) == ["Put a stop or a clamp to the work"]
    assert said("slide", block(20)) == []
