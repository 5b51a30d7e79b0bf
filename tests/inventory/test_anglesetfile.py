"""Angle set files: what they may say, and every mistake with its place."""

import pytest

from gaugestack.errors import RefusedFile, UsageError
from gaugestack.inventory.anglesetfile import angle_set_of_text, load_angle_set
from gaugestack.inventory.shipped import find_angle_set, shipped_angle_names, shipped_names

HEAD = "format: 1\nkind: angle\n"


def read(text):
    """Return the set of a text that follows the head."""
    return angle_set_of_text(HEAD + text, file="a.yaml")


def problems(text, head=HEAD):
    """Return (line, column, sentence) of every problem."""
    with pytest.raises(RefusedFile) as refused:
        angle_set_of_text(head + text, file="a.yaml")
    return [(p.place.line, p.place.column, p.sentence) for p in refused.value.problems]


def test_blocks_come_in_canonical_order_with_their_engraving():
    found = read("blocks:\n  - {angles: [3', 9d, 30\"]}\n  - {angle: 41d30', serial: K}\nsquare: true\n")
    assert [block.engraved for block in found.blocks] == ["90°", "41°30'", "9°", "3'", '30"']
    assert [block.square for block in found.blocks] == [True, False, False, False, False]
    assert (found.blocks[1].serial, found.finest_step.arcseconds) == ("K", 30)
    assert len(found.gauges) == 4


def test_tenths_of_minutes_and_seconds_are_read():
    found = read("blocks:\n  - {angles: [0.05', 0.5\"]}\n")
    assert [block.engraved for block in found.blocks] == ['3"', '0.5"']


def test_name_and_source_are_kept():
    found = read("name: Mine\nsource: a list\nbasis: seen\nblocks: [{angle: 1d}]\n")
    assert (found.name, found.source) == ("Mine", "a list (seen)")
    assert read("blocks: [{angle: 1d}]\n").name == "a"


def test_absent_blocks_are_set_apart():
    found = read("blocks: [{angles: [1d, 3d]}]\nsquare: true\nabsent: [3d, 90d]\n")
    assert [block.engraved for block in found.blocks] == ["1°"]
    assert [block.engraved for block in found.absent] == ["90°", "3°"]
    assert len(found.issued) == 3


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("blocks: [{angle: 3}]\n", (3, 18, "degrees, minutes or seconds? the mark is missing")),
        ("blocks: [{angle: 91d}]\n", (3, 18, "an angle block lies above 0 and up to 90 degrees")),
        ("blocks: [{angle: 0d}]\n", (3, 18, "an angle block lies above 0 and up to 90 degrees")),
        ("blocks: [{angle: 0.25s}]\n", (3, 18, "not a whole number of tenths of a second")),
        ("blocks: [{angle: 3x}]\n", (3, 19, "'x' is not a mark of degrees, minutes or seconds")),
        ("blocks: [{angle: 1d}, {angle: 60'}]\n", (3, 31, "1° stands twice")),
        ("blocks: []\n", (3, 9, "blocks is empty: a set has at least one block")),
        ("blocks: [{serial: K}]\n", (3, 10, "a block needs angle or angles, one of them")),
        (
            "blocks: [{angles: [1d], serial: K}]\n",
            (3, 25, "a serial belongs to one block: give it with angle"),
        ),
        ("blocks: [{angle: 1d}]\nabsent: [2d]\n", (4, 10, "2°00'00.0\" is no block of this set")),
        ("blocks: [{angle: 1d}]\nabsent: [1d, 1d]\n", (4, 14, "1° is listed twice")),
        ("blocks: [{angle: 1d}]\nsquares: true\n", (4, 1, "an angle set file has no key 'squares'")),
        (
            "blocks: [{angle: 1d}]\npieces: 2\n",
            (4, 9, "pieces says 2, but the blocks add up to 1 (the square not counted)"),
        ),
        (
            "blocks: [{angles: [90d, 89d, 88d, 87d, 86d]}]\n",
            (3, 9, "the blocks add up to more than a full turn: no set does"),
        ),
    ],
)
def test_a_mistake_is_named_with_its_place(text, expected):
    assert problems(text) == [expected]


def test_the_kind_is_wanted_and_only_angle_is_known():
    assert problems("blocks: [{angle: 1d}]\n", "format: 1\n") == [(1, 1, "the key 'kind' is missing")]
    assert problems("blocks: [{angle: 1d}]\n", "format: 1\nkind: length\n") == [
        (2, 7, "kind is angle here, not 'length'")
    ]


def test_all_mistakes_are_said_at_once():
    assert len(problems("blocks:\n  - {angle: 3}\n  - {angle: 1d}\n  - {angle: 1d}\npieces: x\n")) == 2


def test_more_blocks_than_any_set_has_stop_the_reading():
    sizes = ", ".join(f"{number}'" for number in range(1, 60)) + ', 1", 2"'
    assert problems(f"blocks: [{{angles: [{sizes}]}}]\n")[0][2].startswith("more than 60 blocks")


def test_shipped_angle_sets_are_kept_apart_from_sets_of_lengths():
    assert shipped_angle_names() == ("angle-12", "angle-12-square", "angle-13", "angle-16")
    assert not set(shipped_angle_names()) & set(shipped_names())


@pytest.mark.parametrize("name", shipped_angle_names())
def test_a_shipped_angle_set_is_found_by_its_name_and_bears_it(name):
    assert load_angle_set(find_angle_set(name)).name == name


def test_an_unknown_name_is_refused_and_a_file_is_not():
    with pytest.raises(UsageError, match="no shipped set of angle blocks is called 'angle-14'"):
        find_angle_set("angle-14")
    assert find_angle_set("mine.yaml").name == "mine.yaml"
