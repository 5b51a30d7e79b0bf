"""A bar on its stack on paper: angle, centre distance and height measured."""

import cmath
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.angles.angle import Angle
from gaugestack.angles.sine import height
from gaugestack.blocks import Block, Stack
from gaugestack.cards.barpicture import bar_svg
from gaugestack.lengths import read_length
from tests.cards.drawings import SVG, moved, outside, overlaps, rectangles, words
from tests.cards.samples import INCH, MILLIMETRE, PLATE, angle, bar, stack


def rolls(text):
    """Return centre and radius of both rolls, the lower one first, y upward."""
    circles = [
        node for node, _ in moved(text) if node.tag == f"{SVG}circle" and node.get("fill") == "#ffffff"
    ]
    found = [(complex(float(n.get("cx")), -float(n.get("cy"))), float(n.get("r"))) for n in circles]
    return sorted(found, key=lambda roll: roll[0].real)


def pile(text):
    """Return how high the blocks are drawn together."""
    return sum(
        size.imag for _, size in rectangles(text, "#ffffff") if size.real == pytest.approx(8, abs=0.01)
    )


def exact_stack(asked, sine_bar):
    return Stack(blocks=(Block(nominal=height(asked, sine_bar), unit=sine_bar.unit),))


def test_angle_and_centre_distance_are_to_the_scale_it_names():
    text = bar_svg(angle("7d7m30s"), bar("5in"), stack("0.4", "0.1002", "0.12"))
    (low, _), (high, _) = rolls(text)

    assert math.degrees(cmath.phase(high - low)) == pytest.approx(7.125, abs=0.02)
    assert abs(high - low) == pytest.approx(127 / 2, rel=0.005)
    assert any(said.startswith("Drawn 1:2") for said in words(text))


def test_the_title_of_a_measured_bar_stands_whole():
    measured = replace(bar("5in"), name="bench bar", error=read_length("80uin").length)
    title = words(bar_svg(angle("7d7m30s"), measured, stack("0.4", "0.1002", "0.12")))[0]

    assert title == "7°07'30.0\" (7.125°) on bench bar, 5.00008 in centres"


def test_the_stack_is_to_the_same_scale():
    assert pile(bar_svg(angle("7d7m30s"), bar("5in"), stack("0.4", "0.1002", "0.12"))) == pytest.approx(
        0.6202 * 25.4 / 2, rel=0.005
    )


def test_rolls_are_to_the_scale_where_their_diameter_is_known():
    text = bar_svg(angle("15d"), PLATE, stack("70", "1.76", unit=MILLIMETRE))
    (low, radius), (high, _) = rolls(text)

    assert radius / abs(high - low) == pytest.approx(10 / 200, rel=0.005)
    assert any("rolls 20 mm" in said for said in words(text))


def test_rolls_of_unknown_diameter_are_said_to_be_so():
    text = bar_svg(angle("15d"), bar("100mm"), stack("25.882", unit=MILLIMETRE))

    assert any("rolls of unknown diameter" in said for said in words(text))


def test_the_high_roll_rests_on_the_stack_and_the_low_one_on_the_plate():
    text = bar_svg(angle("30d"), bar("100mm"), stack("50", unit=MILLIMETRE))
    (low, radius), (high, _) = rolls(text)

    assert high.imag - low.imag == pytest.approx(50, abs=0.05)
    assert radius == 5


def test_the_words_name_angle_bar_height_and_blocks():
    said = " ".join(words(bar_svg(angle("7d7m30s"), bar("5in"), stack("0.4", "0.1002", "0.12"))))

    for text in (
        "7°07'30.0\" (7.125°)",
        "5 in centres",
        "0.6202 in stack",
        "0.400 in + 0.1002 in + 0.120 in",
    ):
        assert text in said


def test_a_difference_shows_both_stacks():
    text = bar_svg(angle("0d3m"), bar("5in"), stack("0.105"), low=stack("0.1006"))

    assert any(said.startswith("High stack") for said in words(text))
    assert any(said.startswith("Low stack") for said in words(text))
    assert len([1 for _, size in rectangles(text, "#ffffff") if size.imag < 2]) == 2


def test_what_sets_a_plate_level_is_said():
    said = " ".join(words(bar_svg(angle("15d"), PLATE, stack("70", "1.76", unit=MILLIMETRE))))

    assert "20 mm of it set the plate level" in said


@settings(max_examples=80, deadline=None)
@given(
    st.integers(1, 89 * 60),
    st.sampled_from(["10mm", "1in", "100mm", "5in", "10in", "500mm", "2m"]),
    st.sampled_from([150, 190, 250]),
)
def test_no_label_lies_on_another_whatever_the_angle(minutes, length, width):
    sine_bar, asked = bar(length), Angle(arcseconds=60 * minutes)
    text = bar_svg(asked, sine_bar, exact_stack(asked, sine_bar), width_mm=width)

    assert overlaps(text) == []
    assert outside(text) == []


def test_an_inch_bar_answers_in_inches():
    assert "0.6202 in stack" in words(bar_svg(angle("7d7m30s"), bar("5in"), stack("0.6202", unit=INCH)))
