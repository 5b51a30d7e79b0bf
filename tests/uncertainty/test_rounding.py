import pytest

from gaugestack.lengths import Unit
from gaugestack.uncertainty.rounding import length_text, limit_text, two_digits, two_digits_up


@pytest.mark.parametrize(
    ("value", "nearest", "up"),
    [
        (31.66, "32", "32"),
        (92.48, "92", "93"),
        (93.0, "93", "93"),
        (72.788, "73", "73"),
        (36.394, "36", "37"),
        (9.96, "10", "10"),
        (99.6, "100", "100"),
        (0.0996, "0.10", "0.10"),
        (0.0312, "0.031", "0.032"),
        (1234.5, "1200", "1300"),
        (0, "0", "0"),
    ],
)
def test_two_digits_count_and_an_expanded_uncertainty_is_never_rounded_down(value, nearest, up):
    assert (two_digits(value), two_digits_up(value)) == (nearest, up)


def test_noise_of_the_last_place_does_not_round_up():
    assert two_digits_up(73 * (1 + 1e-14)) == "73"


@pytest.mark.parametrize(
    ("nanometres", "unit", "text"),
    [
        (92.48, Unit.MILLIMETRE, "0.093 µm"),
        (1604.6, Unit.MILLIMETRE, "1.7 µm"),
        (92.48, Unit.INCH, "3.7 µin"),
        (1604.6, Unit.INCH, "64 µin"),
        (253.0, Unit.INCH, "10 µin"),
        (1600, Unit.MILLIMETRE, "1.6 µm"),
        (0, Unit.INCH, "0 µin"),
    ],
)
def test_a_length_is_printed_in_the_small_unit_without_a_sign(nanometres, unit, text):
    assert length_text(nanometres, unit) == text


@pytest.mark.parametrize(
    ("nanometres", "unit", "text"),
    [(5080, Unit.INCH, "200 µin"), (1000, Unit.INCH, "39.37 µin"), (25, Unit.MILLIMETRE, "0.025 µm")],
)
def test_a_limit_is_said_in_the_unit_of_the_work(nanometres, unit, text):
    assert limit_text(nanometres, unit) == text
