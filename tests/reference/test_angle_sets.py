"""The shipped angle sets against published lists, ranges and combinations.

Where a list was read in its source the row says "seen"; where not, "memory";
"computed" values agree with a second computation made apart from this program.
"""

from fractions import Fraction

import pytest

from gaugestack.angles.angle import Angle, read_angle
from gaugestack.inventory.anglesetfile import load_angle_set
from gaugestack.inventory.shipped import find_angle_set, shipped_angle_names
from gaugestack.stacks import anglejudge
from gaugestack.stacks.angleblocks import AngleTable, compose_angle
from gaugestack.stacks.anglerequest import AngleBuilt, AngleFound, AngleRequest, Placed

# name: degrees, minutes, seconds, square, source, basis
COMPOSITIONS = {
    "angle-16": (
        [1, 3, 5, 15, 30, 45], [1, 3, 5, 20, 30], [1, 3, 5, 20, 30], False,
        "trade set lists; NBSIR 80-1967 (1980) for 16 sizes from 1 second to 45 degrees", "memory",
    ),
    "angle-13": (
        [1, 3, 9, 27, 41], [1, 3, 9, 27], [3, 6, 18, 30], True,
        "NPL specification MOY/SCMI/18, issue 6 (2001); 3 seconds derived from the range", "seen",
    ),
    "angle-12": (
        [1, 3, 9, 27, 41], [1, 3, 9, 27], [6, 18, 30], False,
        "NPL specification MOY/SCMI/18, issue 6 (2001)", "seen",
    ),
    "angle-12-square": (
        [1, 3, 9, 27, 41], [1, 3, 9, 27], [3, 9, 27], True,
        "Mechanical Engineer's Data Handbook, 7.2.1", "seen",
    ),
}  # fmt: skip

# name: step in seconds, every step is made up to, how many are made, which above that are not
COVERAGE = {
    # 0 to 99 degrees in steps of 1 second, 356 400 angles: from memory; the rest computed
    "angle-16": (1, "99:39:39", 359_995, ("99:39:40", "99:40:00", "99:40:20", "99:59:40")),
    # 3" to 81 deg 40' 57" in steps of 3", 98 019 values: seen, doi 10.1177/014233129301500108
    "angle-13": (3, "81:40:57", 98_019, ()),
    "angle-12": (6, "81:40:54", 49_009, ()),  # computed
    "angle-12-square": (3, "81:40:39", 98_013, ()),  # computed
}
WITH_SQUARE_TO = {
    # computed: 90 degrees more
    "angle-13": "171:40:57",
    "angle-12-square": "171:40:39",
}

# set, angle, published blocks, source, basis
COMBINATIONS = [
    ("angle-13", "57:34:09", "41d 27d -9d 1d -3d 27' 9' -3' 1' 6\" 3\"", "course slides, question 2", "seen"),
    (
        "angle-13",
        "37:16:42",
        "27d 9d 1d 27' -9' -1' -18\"",
        "course slides, a figure",
        "target seen, computed",
    ),
    (
        "angle-13",
        "34:16:42",
        "27d 9d 1d -3d 27' -9' -1' -18\"",
        "textbook problem",
        "target memory, computed",
    ),
    ("angle-13", "0:34:00", "27' 9' -3' 1'", "engineering metrology question 2", "seen"),
]


def shipped(name):
    """Return a shipped angle set."""
    return load_angle_set(find_angle_set(name))


def seconds(text):
    """Return whole seconds."""
    return int(read_angle(text).angle.arcseconds)


def without_square(name):
    """Return the table of a set's gauges."""
    return AngleTable(shipped(name).gauges)


def placed(text, blocks):
    """Return the block a signed word names."""
    size = read_angle(text.removeprefix("-")).angle
    return Placed(block=next(b for b in blocks if b.angle == size), turned=text.startswith("-"))


def test_every_shipped_angle_set_is_checked():
    assert set(shipped_angle_names()) == set(COMPOSITIONS) == set(COVERAGE)


@pytest.mark.parametrize("name", COMPOSITIONS)
def test_the_pieces_are_those_of_the_list(name):
    degrees, minutes, small, square, _, basis = COMPOSITIONS[name]
    found = shipped(name)
    sizes = [3600 * d for d in degrees] + [60 * m for m in minutes] + small
    assert sorted(int(b.angle.arcseconds) for b in found.gauges) == sorted(sizes)
    assert any(b.square for b in found.blocks) == square
    assert found.source.endswith(f"({basis})")


@pytest.mark.parametrize("name", COVERAGE)
def test_every_second_of_the_range_is_made_or_not_as_stated(name):
    step, to, reachable, missing = COVERAGE[name]
    table = without_square(name)
    made = {steps * int(table.step) for steps in table.angles(1, table.zero)}
    assert int(table.step) == step
    assert made.issuperset(range(step, seconds(to) + 1, step))
    assert len(made) == reachable
    gone = set(range(step, table.zero * step + 1, step)) - made
    assert gone == {seconds(text) for text in missing}
    assert all(second % step == 0 for second in made)


@pytest.mark.parametrize("name", WITH_SQUARE_TO)
def test_the_square_takes_the_range_ninety_degrees_further(name):
    table = AngleTable(shipped(name).blocks)
    whole = seconds(WITH_SQUARE_TO[name]) // int(table.step)
    assert table.angles(1, table.zero) == list(range(1, whole + 1))


def test_the_sixteen_make_every_second_to_99_degrees():
    table = without_square("angle-16")
    assert len(table.angles(1, 99 * 3600)) == 356_400


@pytest.mark.parametrize(("name", "target", "words", "source", "basis"), COMBINATIONS)
def test_a_published_combination_is_one_and_ours_takes_no_more_blocks(name, target, words, source, basis):
    gauges = shipped(name).gauges
    request = AngleRequest(target=read_angle(target).angle, pool=gauges)
    published = AngleBuilt(target=request.target, placed=tuple(placed(w, gauges) for w in words.split()))
    assert anglejudge.broken_rules(request, published) == (), (source, basis)
    assert len(compose_angle(request).built.placed) <= len(published.placed)


@pytest.mark.parametrize("name", COVERAGE)
def test_the_solver_takes_as_many_blocks_as_the_table_says(name):
    found = shipped(name)
    table = AngleTable(found.blocks)
    for second in range(table.zero // 40, table.zero, table.zero // 37):
        angle = Angle(arcseconds=second * table.step)
        outcome = compose_angle(AngleRequest(target=angle, pool=found.blocks), table=table)
        if table.count(angle) is None:
            assert not isinstance(outcome, AngleFound)
        else:
            assert len(outcome.built.placed) == table.count(angle)
            assert outcome.built.deviation == Fraction(0)
