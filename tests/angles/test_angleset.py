from fractions import Fraction

import pytest

from gaugestack.angles.angle import Angle, read_angle
from gaugestack.angles.angleset import RIGHT_ANGLE, AngleBlock, AngleSet, grid, in_order


def block(text, **more):
    return AngleBlock(angle=read_angle(text).angle, **more)


@pytest.mark.parametrize(
    ("text", "engraved"),
    [
        ("41d", "41°"),
        ("3m", "3'"),
        ("18s", '18"'),
        ("41d30m", "41°30'"),
        ("1d0m6s", '1°6"'),
        ("0d9m59s", "9'59\""),
        ("0.1s", '0.1"'),
        ("2m30.5s", "2'30.5\""),
        ("59.96s", "1'"),
        ("90d", "90°"),
    ],
)
def test_an_angle_block_is_engraved_without_empty_parts(text, engraved):
    assert block(text).engraved == engraved


def test_angle_blocks_stand_largest_first_the_square_before_its_equal_then_by_serial():
    expected = [
        block("90d", square=True),
        block("90d", serial="a"),
        block("41d", serial="a"),
        block("41d", serial="b"),
        block("3s"),
    ]

    assert list(in_order(reversed(expected))) == expected


def test_a_set_of_angle_blocks_knows_what_it_was_issued_with_and_its_square():
    square, there, gone = block("90d", square=True), block("27s"), block("41d")
    angle_set = AngleSet(name="set", blocks=(square, there), absent=(gone,))

    assert angle_set.issued == (square, gone, there)
    assert angle_set.gauges == (there,)


@pytest.mark.parametrize(
    ("texts", "step"),
    [
        (["41d", "27s"], Fraction(9)),
        (["41d", "27m", "3s"], Fraction(3)),
        (["0.1s", "0.25s"], Fraction(1, 20)),
        (["1d", "18s", "0.3s"], Fraction(3, 10)),
        ([], Fraction(0)),
    ],
)
def test_the_step_of_a_set_goes_a_whole_number_of_times_into_every_block(texts, step):
    blocks = tuple(block(text) for text in texts)

    assert grid(blocks) == step
    assert AngleSet(name="set", blocks=(), absent=blocks).finest_step == Angle(arcseconds=step)
    assert all((one.angle.arcseconds / step).denominator == 1 for one in blocks)


def test_a_square_is_ninety_degrees():
    assert Angle.from_degrees(90) == RIGHT_ANGLE
