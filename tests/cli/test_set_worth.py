"""The commands `set matters`, `set buy` and `set health`."""

import pytest

from gaugestack.answers.health import FIRST
from tests.cli.golden import BOATYARD
from tests.cli.shell import gaugestack

SMALL = """\
format: 1
name: Small set
unit: mm
blocks: [{size: 1}, {size: 2}, {size: 4}, {size: 8}, {size: 16}, {size: 32}]
absent: [16, 32]
"""
SECOND_HAND = (
    "format: 1\nname: Find\nunit: mm\nblocks: [{size: 1}, {size: 2}, {size: 2, wear: true, pieces: 2}]\n"
)


def named(values):
    return [value["block"]["nominal"] for value in values]


def test_each_block_has_its_costs_the_dearest_first(set_file):
    done = gaugestack("set", "matters", set_file(SMALL), "--range", "1..15mm", "--json")

    assert (done.code, done.json["schema"], done.json["made"]) == (0, "gaugestack/set-matters", 15)
    assert named(done.json["blocks"]) == ["8 mm", "4 mm", "2 mm", "1 mm"]
    assert {value["lost"] for value in done.json["blocks"]} == {8}


def test_listed_heights_are_the_only_ones_that_count(set_file, tmp_path):
    jobs = tmp_path / "jobs.txt"
    jobs.write_text("3\n4 mm   # the vice jaw\n\n", encoding="utf-8")
    done = gaugestack("set", "matters", set_file(SMALL), "--heights", jobs, "--height", "8", "--json")

    assert sorted(done.json["listed"]) == ["3 mm", "4 mm", "8 mm"]
    assert {value["block"]["nominal"]: value["lost"] for value in done.json["blocks"]} == {
        "1 mm": 1,
        "2 mm": 1,
        "4 mm": 1,
        "8 mm": 1,
    }


def test_a_block_nothing_misses_is_named_below_the_table():
    done = gaugestack("set", "matters", "metric-88", "--height", "3")

    assert "no height misses:" in done.out


def test_a_faulty_file_of_heights_is_refused_with_every_line(tmp_path):
    jobs = tmp_path / "jobs.txt"
    jobs.write_text("3\nfour\n-5\n", encoding="utf-8")
    done = gaugestack("set", "matters", "metric-88", "--heights", jobs)

    assert done.code == 3
    assert f"{jobs}:2:1: no number here" in done.err
    assert f"{jobs}:3:1: below zero" in done.err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--range", "1..2mm", "--height", "3"], "a range and listed heights at once"),
        (["--most", "0"], "0 blocks make no stack"),
        (["--range", "3mm"], "is no range of heights"),
        (["--height", "x"], "no number here"),
    ],
)
def test_heights_that_cannot_count_are_refused(words, said):
    done = gaugestack("set", "matters", "metric-88", *words)

    assert (done.code, done.out) == (2, "")
    assert said in done.err


def test_the_absent_blocks_that_restore_most_are_bought_first_with_proof(set_file):
    words = ("--range", "1..63mm", "--most", "6", "--count", "1", "--json")
    done = gaugestack("set", "buy", set_file(SMALL), *words)

    assert (done.json["schema"], done.json["made"]) == ("gaugestack/set-buy", 15)
    assert done.json["purchase"]["proof"] == "exact"
    assert (done.json["purchase"]["restored"], done.json["purchase"]["bound"]) == (16, 16)
    assert [block["nominal"] for block in done.json["purchase"]["blocks"]] == ["32 mm"]


def test_two_blocks_restore_together_more_than_each_alone(set_file):
    words = ["--range", "1..63mm", "--most", "6", "--count", "2", "--json"]
    done = gaugestack("set", "buy", set_file(SMALL), *words)

    assert (done.json["purchase"]["restored"], done.json["purchase"]["bound"]) == (48, 48)
    assert [value["lost"] for value in done.json["alone"]] == [16, 16]


def test_listed_heights_decide_what_to_buy(set_file):
    done = gaugestack("set", "buy", set_file(SMALL), "--height", "33", "--json")

    assert [block["nominal"] for block in done.json["purchase"]["blocks"]] == ["32 mm"]


def test_nothing_absent_is_nothing_to_buy():
    done = gaugestack("set", "buy", "metric-88")

    assert done.code == 0
    assert "Nothing to buy: no piece is recorded as gone. --like SET" in done.out


def test_a_set_without_a_record_is_measured_against_a_shipped_one(set_file):
    done = gaugestack("set", "buy", set_file(SECOND_HAND), "--like", "metric-88", "--height", "5", "--json")

    assert (done.json["beside"], done.json["there"], done.json["of"]) == ("metric-88", 2, 88)
    assert [block["nominal"] for block in done.json["purchase"]["blocks"]] == ["5 mm"]
    assert [block["nominal"] for block in done.json["extra"]] == ["2 mm", "2 mm"]


@pytest.mark.parametrize(
    ("like", "said"),
    [("inch-81", "metric-88 is in mm, inch-81 in in"), ("metric-wear-2", "have no piece in common")],
)
def test_sets_that_cannot_be_compared_are_not(like, said):
    done = gaugestack("set", "health", "metric-88", "--like", like)

    assert done.code == 2
    assert said in done.err


def test_a_purchase_of_no_block_is_refused():
    assert "at least one block is bought" in gaugestack("set", "buy", BOATYARD, "--count", "0").err


def test_a_lent_block_comes_back_and_is_not_to_be_bought(set_file):
    path = set_file(SMALL)
    words = ["record", "lent", "8", "--to", "Ola", "--on", "2026-03-01", "--set", path]
    assert gaugestack(*words).code == 0
    done = gaugestack("set", "buy", path, "--range", "1..63mm", "--most", "6", "--json")

    assert [block["nominal"] for block in done.json["away"]] == ["8 mm"]
    assert [block["nominal"] for block in done.json["missing"]] == ["32 mm", "16 mm"]
    assert done.json["remarks"] == ["away, and not to be bought: 8 mm"]


def test_a_complete_set_is_said_to_be_complete():
    done = gaugestack("set", "health", "inch-81", "--json")

    assert (done.json["schema"], done.json["verdict"]) == ("gaugestack/set-health", "complete")
    assert (done.json["missing"], done.json["purchase"]) == ([], None)


def test_a_second_hand_set_says_what_is_lost_and_what_to_buy():
    done = gaugestack("set", "health", BOATYARD, "--like", "inch-81", "--on", "2027-03-01", "--json")

    assert done.json["verdict"] == "heights lost"
    assert done.json["sentences"][0] == "76 of the 81 pieces of inch-81 are there and fit for use"
    assert done.json["sentences"][1].endswith("; a whole inch-81 100 %")
    assert done.json["worst"][0]["block"]["nominal"] == "0.1002 in"
    assert len(done.json["purchase"]["blocks"]) == 3
    assert "certificate demo-0117 (laboratory report) overdue since 2027-02-03" in done.json["remarks"]


def test_what_to_buy_and_the_health_report_name_equally_many_blocks():
    """The report counts to the same heights where it says what to buy first."""
    like = ("--like", "inch-81", "--json")
    bought = gaugestack("set", "buy", BOATYARD, *like).json["purchase"]
    told = gaugestack("set", "health", BOATYARD, *like).json["purchase"]

    assert bought["blocks"] == told["blocks"]
    assert (len(bought["blocks"]), FIRST) == (3, 3)


def test_a_set_coarser_than_its_issued_step_still_gets_its_values(set_file):
    text = "format: 1\nname: Coarse\nunit: mm\nblocks: [{size: 1}, {size: 2}, {size: 4}]\nabsent: [1]\n"
    done = gaugestack("set", "matters", set_file(text), "--range", "1..7mm", "--json")

    assert (done.json["heights"], done.json["made"]) == (7, 3)


def test_a_set_without_a_piece_left_says_so_and_what_to_buy(set_file):
    path = set_file("format: 1\nname: Gone\nunit: mm\nblocks: [{size: 1}, {size: 2}]\nabsent: [1, 2]\n")

    assert "No block at hand makes a difference." in gaugestack("set", "matters", path).out
    assert "Buy first: 2 mm, 1 mm" in gaugestack("set", "buy", path, "--count", "2").out
    assert "without 1 mm: 1 height lost, 0 take more blocks" in gaugestack("set", "health", path).out
    assert "any number of blocks, any height: no step" in gaugestack("reach", "1..3mm", "--set", path).out


def test_a_set_of_wear_blocks_alone_has_no_heights_to_count():
    for words in (["set", "health", "metric-wear-2"], ["reach", "1..2mm", "--set", "metric-wear-2"]):
        assert (gaugestack(*words).code, "no ordinary block" in gaugestack(*words).err) == (2, True)
