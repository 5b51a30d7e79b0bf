"""The command `reach`: one height, or a range, beside the set as issued."""

import xml.etree.ElementTree as ET

import pytest

from tests.cli.golden import BOATYARD
from tests.cli.shell import gaugestack

MM_BASE_55 = """\
format: 1
name: Base 1 mm set
unit: mm
blocks:
  - {from: 1.001, to: 1.009, step: 0.001}
  - {from: 1.01, to: 1.09, step: 0.01}
  - {from: 1.1, to: 1.9, step: 0.1}
  - {from: 1, to: 24, step: 1}
  - {from: 25, to: 100, step: 25}
"""


def out_of_box(*sizes):
    return [word for size in sizes for word in ("--without", size)]


def at_most(done, blocks):
    return next(row for row in done.json["at_most"] if row["blocks"] == blocks)


def test_a_height_that_is_made_says_the_stack_and_the_shorter_one_as_issued():
    done = gaugestack("reach", "0.6202in", "--set", BOATYARD)

    assert done.code == 0
    assert "0.6202 in: yes, 4 blocks, exactly" in done.out
    assert "the set as issued made it with 3 blocks, exactly" in done.out
    assert " -  0.1002 in: absent" in done.out


def test_a_height_made_as_short_as_ever_says_nothing_of_the_set_as_issued():
    done = gaugestack("reach", "0.5in", "--set", BOATYARD)

    assert (done.code, "as issued" in done.out) == (0, False)


def test_a_height_that_is_lost_leaves_with_one_and_says_what_restores_it():
    done = gaugestack("reach", "0.2002in", "--set", BOATYARD, "--json")

    assert (done.code, done.json["outcome"], done.json["proof"]) == (1, "impossible", "table")
    ways = {way["kind"]: way for way in done.json["ways_out"]}
    assert list(ways) == ["below", "above", "restore", "as issued"]
    assert [block["nominal"] for block in ways["restore"]["blocks"]] == ["0.1002 in"]
    assert ways["below"]["stack"]["length"] == "0.2001 in"
    assert ways["above"]["stack"]["length"] == "0.2003 in"


def test_a_height_made_has_a_form_with_both_stacks():
    done = gaugestack("reach", "0.6202in", "--set", BOATYARD, "--json")

    assert (done.json["schema"], done.json["version"]) == ("gaugestack/reach", 1)
    assert len(done.json["stacks"][0]["blocks"]) == 4
    assert len(done.json["as_issued"]["blocks"]) == 3
    assert [block["nominal"] for block in done.json["back"]] == ["0.1002 in"]


def test_a_largest_count_is_kept_for_a_height():
    assert gaugestack("reach", "0.6202in", "--set", BOATYARD, "--most", "4").code == 0
    assert gaugestack("reach", "0.6202in", "--set", BOATYARD, "--most", "3").code == 1


@pytest.mark.parametrize(
    ("gone", "share"),
    [((), 1), (("1.005",), 0.969), (("1.005", "1.06", "1.3"), 0.909), (("10", "20"), 1)],
    ids=str,
)
def test_the_shares_of_a_55_piece_set_are_the_ones_computed_once(set_file, gone, share):
    path = set_file(MM_BASE_55)
    done = gaugestack(
        "reach", "4..50mm", "--step", "1um", "--most", "5", "--set", path, *out_of_box(*gone), "--json"
    )

    assert done.json["range"]["heights"] == 46_001
    assert at_most(done, 5)["share"] == pytest.approx(share, abs=0.0005)
    assert at_most(done, 5)["share_as_issued"] == 1


def test_a_range_counts_and_names_its_gaps_and_leaves_with_zero():
    done = gaugestack("reach", "0.2..4in", "--set", BOATYARD, "--most", "5", "--json")

    assert (done.code, done.json["schema"]) == (0, "gaugestack/reach-range")
    assert done.json["reachable"] == at_most(done, 5)["heights"] == 37_710
    assert done.json["gaps"][0] == {"first": "0.2002 in", "last": "0.2002 in", "heights": 1}
    assert sum(gap["heights"] for gap in done.json["gaps"]) == 38_001 - 37_710
    assert [block["nominal"] for block in done.json["missing"]][-1] == "0.1002 in"


def test_any_number_of_blocks_is_null_and_a_single_count_is_given():
    assert gaugestack("reach", "1..2mm", "--set", "metric-47", "--json").json["most"] is None
    assert gaugestack("reach", "1..2mm", "--set", "metric-47", "--most", "2", "--json").json["most"] == 2


def test_a_range_of_a_whole_set_shows_no_lost_line():
    done = gaugestack("reach", "3..20mm", "--set", "metric-88", "--most", "4")

    assert "lost" not in done.out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["5..4mm"], "the first height is above the last"),
        (["4..5kg"], "'kg' is not a unit of length"),
        (["..5mm"], "empty: a length is wanted"),
        (["4..5mm", "--tolerance", "1um"], "means nothing for a range"),
        (["4mm", "--step", "1um"], "means nothing for one height"),
        (["4mm", "--svg", "a.svg"], "means nothing for one height"),
        (["4..5mm", "--step", "0.3um"], "take a multiple of 0.0005 mm"),
        (["4..5mm", "--most", "0"], "0 blocks make no stack"),
        (["1..100000mm"], "too many steps"),
        (["4.0001..4.0002mm"], "no multiple of 0.0005 mm"),
        (["4..5mm", "--without", "7.7777"], "has no 7.7777 mm"),
    ],
    ids=str,
)
def test_what_cannot_be_looked_at_is_refused(words, said):
    done = gaugestack("reach", *words, "--set", "metric-88")

    assert (done.code, done.out) == (2, "")
    assert said in done.err


def test_the_wrong_end_of_a_range_is_pointed_at():
    done = gaugestack("reach", "4..5kg", "--set", "metric-88")

    assert done.err.splitlines()[1:3] == ["    4..5kg", "        ^^"]


def test_a_drawing_is_written_beside_the_answer_and_replaced(tmp_path):
    path = tmp_path / "reach.svg"
    path.write_text("old", encoding="utf-8")
    done = gaugestack("reach", "0.2..4in", "--set", BOATYARD, "--most", "5", "--svg", path)

    assert "37710 of 38001" in done.out
    assert ET.parse(path).getroot().get("width") == "180mm"  # noqa: S314  (our own file)
    assert [child.name for child in tmp_path.iterdir()] == ["reach.svg"]


def test_a_drawing_that_cannot_be_written_is_refused_and_leaves_nothing(tmp_path):
    done = gaugestack("reach", "1..2mm", "--set", "metric-47", "--svg", tmp_path / "no" / "reach.svg")

    assert (done.code, done.out) == (2, "")
    assert "the file cannot be written: No such file or directory" in done.err
    assert list(tmp_path.iterdir()) == []


def test_a_drawing_never_replaces_a_file_of_another_kind(set_file):
    path = set_file(MM_BASE_55)
    done = gaugestack("reach", "1..2mm", "--set", path, "--svg", path)

    assert done.code == 2
    assert path.read_text(encoding="utf-8") == MM_BASE_55


def test_two_sets_reach_what_neither_does_alone(set_file):
    one = set_file("format: 1\nname: One\nunit: mm\nblocks: [{size: 1}, {size: 2}]\n", "one.yaml")
    two = set_file("format: 1\nname: Two\nunit: mm\nblocks: [{size: 4}]\n", "two.yaml")
    assert gaugestack("reach", "7mm", "--set", one).code == 1
    done = gaugestack("reach", "1..7mm", "--set", one, "--set", two, "--json")

    assert done.json["reachable"] == 7
    assert [found["name"] for found in done.json["sets"]] == ["One", "Two"]
