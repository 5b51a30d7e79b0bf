from fractions import Fraction

import pytest

from gaugestack.angles.angle import Angle
from gaugestack.angles.sine import angle_of, bar_of_length, height
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, Unit
from gaugestack.uncertainty.correction import Warm, corrected_height, correction
from gaugestack.uncertainty.materials import Role, expansion

MM = 1_000_000_000
STEEL = expansion("steel", Role.BLOCK)
ALUMINIUM = expansion("aluminium", Role.WORK)


@pytest.mark.parametrize("celsius", [-10, 20, 24.5, Fraction(200, 9), 60])
def test_equal_bodies_equally_warm_need_no_correction(celsius):
    both = Warm(expansion=STEEL, celsius=celsius)
    assert correction(Length(100 * MM), against=both, blocks=both) == 0


# Computed: 1.16 µm on 100 mm of aluminium against steel for 1 K.
def test_aluminium_work_wants_a_higher_stack_in_a_warm_room():
    more = correction(
        Length(100 * MM),
        against=Warm(expansion=ALUMINIUM, celsius=21),
        blocks=Warm(expansion=STEEL, celsius=21),
    )
    assert more / 1_000_000 == pytest.approx(1.16, abs=1e-4)


def test_hand_warm_blocks_want_a_lower_stack():
    less = correction(
        Length(100 * MM), against=Warm(expansion=STEEL), blocks=Warm(expansion=STEEL, celsius=21)
    )
    assert less / 1_000_000 == pytest.approx(-1.15, abs=1e-4)


# 4 in of steel 5 °F warm at 6.4e-6 per °F: 128 µin (computed).
def test_four_inches_of_steel_five_fahrenheit_warm_are_off_by_128_microinches():
    four_inches = Length(4 * 25_400_000_000)
    warm = Warm(expansion=STEEL, celsius=20 + Fraction(25, 9))
    assert -correction(four_inches, against=Warm(expansion=STEEL), blocks=warm) / 25_400 == pytest.approx(
        128, abs=0.5
    )


def test_the_corrected_height_undoes_what_the_warmth_turns():
    bar = bar_of_length(Length(100 * MM), Unit.MILLIMETRE)
    wanted = Angle.from_degrees(30)
    rail = Warm(expansion=STEEL, celsius=20)
    hand = Warm(expansion=STEEL, celsius=25)
    laid = corrected_height(height(wanted, bar), against=rail, blocks=hand)
    stands = Length(round(laid * hand.stretch))
    assert angle_of(stands, bar) - wanted == pytest.approx(0, abs=1e-5)
    wrong = Length(round(height(wanted, bar) * hand.stretch))
    assert angle_of(wrong, bar) - wanted == pytest.approx(6.85, abs=0.01)


@pytest.mark.parametrize("celsius", [-10.1, 60.1, 68, float("nan")])
def test_a_temperature_no_bench_has_is_refused(celsius):
    with pytest.raises(UsageError, match="is no temperature of a bench"):
        Warm(expansion=STEEL, celsius=celsius)
