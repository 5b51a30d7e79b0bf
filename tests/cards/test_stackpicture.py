"""A stack on paper: its heights measured, its words, its order."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.blocks import Block, Stack
from gaugestack.cards.stackpicture import stack_svg
from gaugestack.lengths import PM_PER_MM, Length
from tests.cards.drawings import SVG, moved, outside, overlaps, page, points, rectangles, words
from tests.cards.samples import HIGH, INCH, MILLIMETRE, TALL, THIN, stack

WITHIN = 0.005
"""A print is true to half a percent."""


def heights(text):
    """Return the drawn heights of the blocks, the lowest block first."""
    return [size.imag for corner, size in sorted(rectangles(text, "#ffffff"), key=lambda box: -box[0].imag)]


def heavy(text):
    return [points(node)[0].imag for node, _ in moved(text) if node.get("stroke-width") == "0.9"]


def metric(sizes):
    blocks = (Block(nominal=Length(size * 10**6), unit=MILLIMETRE) for size in sizes)
    return Stack(blocks=tuple(blocks))


def test_blocks_are_drawn_as_high_as_they_are():
    drawn = heights(stack_svg(TALL, INCH))
    real = [block.nominal / PM_PER_MM for block in TALL.blocks]

    assert sum(drawn) == pytest.approx(sum(real), rel=WITHIN)
    assert drawn == pytest.approx(real, abs=0.02)


def test_a_stack_above_200_mm_is_drawn_smaller_and_says_so():
    text = stack_svg(HIGH, MILLIMETRE)

    assert sum(heights(text)) == pytest.approx(246.0005 / 2, rel=WITHIN)
    assert any("1:2" in said for said in words(text))


def test_a_stack_of_200_mm_is_drawn_as_high_as_it_is():
    text = stack_svg(stack("100", "100", unit=MILLIMETRE), MILLIMETRE)

    assert sum(heights(text)) == pytest.approx(200, rel=WITHIN)
    assert not any("1:2" in said for said in words(text))


def test_the_line_that_proves_a_print_is_50_mm():
    text = stack_svg(THIN, MILLIMETRE)
    lengths = [abs(points(node)[1] - points(node)[0]) for node, _ in moved(text) if node.tag == f"{SVG}path"]

    assert 50.0 in lengths
    assert "this line is 50 mm where the print is true" in words(text)


def test_each_block_has_its_number_its_size_and_the_height_reached():
    said = " ".join(words(stack_svg(stack("0.4", "0.1002", "0.12"), INCH))).replace("\xa0", " ")

    assert all(text in said for text in ("1:  0.400 in", "2:  0.1002 in", "3:  0.120 in"))
    assert all(text in said for text in ("0.5002 in", "0.6202 in"))


def test_the_first_block_stands_on_the_plate():
    text = stack_svg(THIN, MILLIMETRE)
    lowest = max(corner.imag + size.imag for corner, size in rectangles(text, "#ffffff"))

    assert lowest == pytest.approx(page(text)[1] - 24.0, abs=0.01)
    assert "plate" in words(text)


def test_wear_blocks_show_their_marked_face_outside():
    text = stack_svg(TALL, INCH)
    boxes = rectangles(text, "#ffffff")

    assert sorted(heavy(text)) == pytest.approx(
        [min(c.imag for c, _ in boxes), max(c.imag + s.imag for c, s in boxes)], abs=0.02
    )


def test_a_stack_without_wear_blocks_shows_none():
    text = stack_svg(THIN, MILLIMETRE)

    assert heavy(text) == []
    assert not any("wear" in said for said in words(text))


def test_a_width_too_narrow_for_the_labels_is_widened():
    assert page(stack_svg(THIN, MILLIMETRE, width_mm=20))[0] == 90
    assert page(stack_svg(THIN, MILLIMETRE, width_mm=140))[0] == 140


def test_no_size_is_cut_at_the_narrowest_width():
    said = words(stack_svg(stack(*["1.0005"] * 11, "500", unit=MILLIMETRE), MILLIMETRE, width_mm=90))

    assert {"11:\xa0\xa01.0005 mm", "12:\xa0\xa0500 mm"} <= set(said)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(500, 100_000), min_size=1, max_size=24), st.sampled_from([90, 120, 190]))
def test_no_label_lies_on_another_whatever_the_stack(sizes, width):
    text = stack_svg(metric(sizes), MILLIMETRE, width_mm=width)

    assert overlaps(text) == []
    assert outside(text) == []
