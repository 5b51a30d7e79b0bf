from fractions import Fraction

import pytest

from gaugestack.errors import TextError
from gaugestack.uncertainty.temperature import read_temperature, read_temperature_difference


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("68 °F", 20),  # US Army TB 9-5210-205-40, step 8 m: 68 °F is 20 °C exactly
        ("68F", 20),
        ("68 degF", 20),
        ("20 °C", 20),
        ("20C", 20),
        ("21.5 deg C", Fraction(43, 2)),
        (" 20.000 \N{DEGREE CELSIUS} ", 20),
        ("-10 °C", -10),
        ("60 °C", 60),
        ("14 fahrenheit", -10),
        ("+140 °F", 60),
        ("\N{MINUS SIGN}4 °C", -4),
    ],
)
def test_a_temperature_is_read_to_exact_degrees_celsius(text, celsius):
    assert read_temperature(text).celsius == celsius


def test_a_temperature_knows_how_far_it_is_above_twenty():
    assert read_temperature("77 °F").above_reference == 5


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("68", "68: °F? (68 °F is 20 °C)"),
        ("72.5", "72.5: °F? (72.5 °F is 22.5 °C)"),
        ("20", "20: °C?"),
        ("-10", "-10: °C?"),
        ("-11", "-11: °C or °F?"),
        ("40", "40: °C?"),
        ("41", "41: °F? (41 °F is 5 °C)"),
        ("140", "140: °F? (140 °F is 60 °C)"),
        ("141", "141: °C or °F?"),
        ("500", "500: °C or °F?"),
        ("68 °C", "68 °C is too hot for a bench: 68 °F?"),
        ("140 °C", "140 °C is too hot for a bench: 140 °F?"),
        ("141 °C", "141 °C is no temperature of a bench"),
        ("60.1 °C", "60.1 °C is too hot for a bench: 60.1 °F?"),
        ("-10.1 °C", "-10.1 °C is no temperature of a bench"),
        ("13.9 °F", "13.9 °F is no temperature of a bench"),
        ("140.1 °F", "140.1 °F is no temperature of a bench"),
        ("293 K", "kelvin are for differences here"),
        ("20 °X", "'°X' is no scale of temperature"),
        ("20,5 °C", "',5 °C' is no scale of temperature"),
        ("warm", "no temperature here"),
        ("", "no temperature here"),
        ("   ", "no temperature here"),
        ("nan °C", "no temperature here"),
        ("2e1 °C", "'e1 °C' is no scale of temperature"),
        ("20 °C" + " " * 40, "too long to be a temperature"),
    ],
)
def test_what_is_no_temperature_is_refused_with_its_sentence(text, sentence):
    with pytest.raises(TextError) as caught:
        read_temperature(text)
    assert caught.value.sentence == sentence


@pytest.mark.parametrize(
    ("text", "kelvin"),
    [
        ("0.5 K", Fraction(1, 2)),
        ("2 °C", 2),
        ("9 °F", 5),
        ("+/-0.5 K", Fraction(1, 2)),
        ("±1 °C", 1),
        ("-5 kelvin", -5),
        ("70 K", 70),
    ],
)
def test_a_difference_is_read_to_exact_kelvin(text, kelvin):
    assert read_temperature_difference(text) == kelvin


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("5", "5 of what: K, °C or °F?"),
        ("70.1 K", "a difference larger than between any two benches"),
        ("5 m", "'m' is no scale of temperature"),
    ],
)
def test_what_is_no_difference_is_refused_with_its_sentence(text, sentence):
    with pytest.raises(TextError) as caught:
        read_temperature_difference(text)
    assert caught.value.sentence == sentence


def test_a_temperature_keeps_the_text_it_was_written_as():
    assert read_temperature("  68 °F ").text == "68 °F"


def test_a_text_of_32_characters_is_not_too_long():
    assert read_temperature("20 °C" + " " * 27).celsius == 20


@pytest.mark.parametrize(("text", "start"), [("", 0), (" ", 0), ("   ", 2), ("  warm", 2)])
def test_the_caret_of_a_text_without_a_number_stays_within_it(text, start):
    with pytest.raises(TextError) as caught:
        read_temperature(text)
    assert (caught.value.start, caught.value.end) == (start, start + 1)


def test_the_caret_stands_under_the_scale_that_is_none():
    with pytest.raises(TextError) as caught:
        read_temperature("20 °X")
    assert (caught.value.start, caught.value.end) == (3, 5)
