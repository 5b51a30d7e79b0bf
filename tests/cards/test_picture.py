"""Rules that every picture keeps: size, words, room, ink, names that break nothing."""

import re

import pytest

from gaugestack.cards.barpicture import bar_svg
from gaugestack.cards.sharespicture import shares_svg
from gaugestack.cards.stackpicture import stack_svg
from gaugestack.cards.trendpicture import trend_svg
from tests.cards import drawings, samples

EVERY = pytest.mark.parametrize("draw", samples.DRAWINGS.values(), ids=samples.DRAWINGS)
DRAWN = {"svg", "title", "desc", "rect", "path", "circle", "text", "g"}


def named(name):
    plate = samples.SineBar(name=name, centre_distance=10**11, unit=samples.MILLIMETRE)
    stack = samples.stack("10", "1.0005", unit=samples.MILLIMETRE, serial=name)
    limits = (samples.LimitLine(name=name, lower=-(10**6), upper=10**6),)
    return {
        "stack": stack_svg(stack, samples.MILLIMETRE),
        "bar": bar_svg(samples.angle("6d"), plate, stack),
        "trend": trend_svg(samples.wear(name=name, limits=limits)),
        "shares": shares_svg([samples.chart((name, 1.0), title=name)]),
    }


@pytest.mark.parametrize("name", samples.DRAWINGS)
def test_a_drawing_is_as_it_was_last_looked_at(name):
    assert samples.DRAWINGS[name]() == (samples.GOLDEN / f"{name}.svg").read_text(encoding="utf-8")


def test_every_kept_drawing_is_still_drawn():
    assert {path.stem for path in samples.GOLDEN.glob("*.svg")} == set(samples.DRAWINGS)


@EVERY
def test_a_unit_of_a_drawing_is_a_millimetre(draw):
    root = drawings.parsed(draw())
    _, _, width, height = root.get("viewBox").split()

    assert (root.get("width"), root.get("height")) == (f"{width}mm", f"{height}mm")


@EVERY
def test_a_drawing_has_a_title_a_description_a_language_and_says_it_is_an_image(draw):
    root = drawings.parsed(draw())
    names = {node.get("id"): node.text for node in root if node.get("id")}

    assert (root.get("lang"), root.get("role")) == ("en", "img")
    assert names[root.get("aria-labelledby")] == root.find(f"{drawings.SVG}title").text != ""
    assert names[root.get("aria-describedby")] == root.find(f"{drawings.SVG}desc").text != ""


def test_no_two_drawings_share_a_name_inside():
    names = [
        node.get("id")
        for draw in samples.DRAWINGS.values()
        for node in drawings.parsed(draw())
        if node.get("id")
    ]

    assert len(names) == len(set(names)) == 2 * len(samples.DRAWINGS)


@EVERY
def test_no_words_lie_on_others_or_leave_the_sheet(draw):
    assert drawings.overlaps(draw()) == []
    assert drawings.outside(draw()) == []


@EVERY
def test_no_words_are_smaller_than_8_points(draw):
    assert drawings.smallest_size(draw()) >= drawings.EIGHT_POINTS


@EVERY
def test_only_black_white_and_the_grey_of_thin_lines_are_used(draw):
    assert set(re.findall(r"#[0-9a-f]{3,6}\b", draw())) <= {"#111", "#555", "#ffffff"}


@pytest.mark.parametrize("name", samples.HOSTILE, ids=range(len(samples.HOSTILE)))
@pytest.mark.parametrize("picture", ["stack", "bar", "trend", "shares"])
def test_no_name_breaks_a_drawing(name, picture):
    text = named(name)[picture]

    assert {node.tag.removeprefix(drawings.SVG) for node in drawings.parsed(text).iter()} <= DRAWN
    assert not re.search("[\x00-\x08\x1b\u202a-\u202e]", text)
    assert drawings.overlaps(text) == []
    assert drawings.outside(text) == []


@pytest.mark.parametrize("picture", ["stack", "bar", "trend", "shares"])
def test_a_script_in_a_name_stands_there_as_text(picture):
    text = named("<script>")[picture]

    assert "&lt;script&gt;" in text
    assert "<script" not in text
