"""The drawing of a range: its size, its words, nothing that depends on colour."""

import re
import xml.etree.ElementTree as ET

import pytest

from gaugestack.answers.reach import reach_range
from gaugestack.answers.stock import load, stock_of
from gaugestack.blocks import Block, BlockSet
from gaugestack.cards.reachsvg import range_svg
from gaugestack.cards.svg import ELLIPSIS, wide
from gaugestack.lengths import PM_PER_MM, Length, Unit

SVG = "{http://www.w3.org/2000/svg}"


def drawn(stock, text, most=None):
    return range_svg(reach_range(text, stock=stock, most=most))


def parsed(text):
    return ET.fromstring(text)  # noqa: S314  (our own text)


def set_named(name):
    blocks = tuple(
        Block(nominal=Length(size * PM_PER_MM), unit=Unit.MILLIMETRE, owner=name) for size in (4, 2, 1)
    )
    return stock_of(BlockSet(name=name, unit=Unit.MILLIMETRE, blocks=blocks[:2], absent=blocks[2:]))


def words(root):
    return [node.text for node in root.iter(f"{SVG}text")]


def test_a_unit_of_the_drawing_is_a_millimetre():
    root = parsed(drawn(load(["metric-88"]), "4..50mm", 4))
    _, _, width, height = root.get("viewBox").split()

    assert (root.get("width"), root.get("height")) == (f"{width}mm", f"{height}mm")


def test_the_drawing_says_in_words_what_it_shows():
    root = parsed(drawn(set_named("Bench"), "1..7mm"))

    assert root.get("aria-labelledby") == root.find(f"{SVG}title").get("id")
    assert root.get("aria-describedby") == root.find(f"{SVG}desc").get("id")
    assert root.find(f"{SVG}title").text == "What Bench reaches"
    assert "at most 1 block: 28.5 %, as issued 42.8 %" in root.find(f"{SVG}desc").text


def test_each_count_has_its_strip_and_both_shares():
    said = words(parsed(drawn(set_named("Bench"), "1..7mm")))

    assert [text for text in said if "block" in text and text[0].isdigit() and "mm" not in text] == [
        "1 block",
        "2 blocks",
        "3 blocks",
    ]
    assert {"now", "as issued", "100 %"} <= set(said)


@pytest.mark.parametrize(
    "name", ["<script>alert(1)</script> & 'x'", "a]]>b", "\u202egnirts \x1b[31m", "x" * 400]
)
def test_no_name_of_a_set_breaks_the_drawing(name):
    root = parsed(drawn(set_named(name), "1..7mm"))

    assert {node.tag.removeprefix(SVG) for node in root.iter()} <= {
        "svg",
        "g",
        "title",
        "desc",
        "rect",
        "path",
        "text",
    }
    assert all(len(text) <= 100 for text in words(root))


def test_drawings_of_several_ranges_stand_in_one_page_with_names_of_their_own():
    texts = [drawn(set_named("Bench"), span) for span in ("1..7mm", "2..7mm")]
    names = [name for text in texts for name in re.findall(r' id="([^"]+)"', text)]

    assert len(names) == len(set(names)) == 4


def test_a_long_title_is_cut_where_the_paper_ends():
    title = next(text for text in words(parsed(drawn(set_named("W" * 90), "1..7mm"))) if "W" in text)

    assert title.endswith(ELLIPSIS)
    assert 1.1 * wide(title, 5) <= 180 - 2 * 6


def test_only_black_grey_and_white_are_used():
    text = drawn(set_named("Bench"), "1..7mm")

    assert set(re.findall(r"#[0-9a-f]+", text)) == {"#111", "#aaa", "#ffffff"}


def test_a_whole_set_has_no_grey_but_in_the_legend():
    assert drawn(load(["metric-88"]), "4..50mm", 4).count("#aaa") == 1


def test_what_is_not_quite_all_shows_a_nick_and_what_is_not_quite_nothing_a_line():
    text = drawn(load(["metric-88"]), "1..100mm", 3)

    assert "V34.7" in text  # 9 mm strip from 26 mm: a line of 0.3 mm above its foot


def test_one_height_alone_is_drawn_too():
    assert "7" in words(parsed(drawn(set_named("Bench"), "7..7mm")))


def test_a_range_without_a_reachable_height_is_drawn_empty():
    root = parsed(drawn(set_named("Bench"), "9..12mm"))

    assert not [text for text in words(root) if text.endswith("blocks")][1:]
