"""Blocks under both rolls: what `angle` says where no single stack sets it, or where it is asked for."""

from pathlib import Path

from gaugestack.angles.angle import Angle
from gaugestack.angles.sine import KNOWN_BARS, height
from gaugestack.answers.angle import set_angle
from gaugestack.answers.stock import load
from gaugestack.stacks.request import Found
from tests.cli.shell import gaugestack

BOATYARD = str(Path(__file__).parents[2] / "demo" / "boatyard-inch.yaml")
SMALL = ("angle", "0d3m", "--bar", "5in", "--set", "inch-81")


def test_a_small_angle_is_set_by_a_difference_without_being_asked():
    done = gaugestack(*SMALL, "--json")

    assert (done.code, done.json["outcome"]) == (0, "found")
    assert [stack["role"] for stack in done.json["stacks"]] == ["high", "low"]
    assert [stack["target"] for stack in done.json["stacks"]] == ["0.105 in", "0.1006 in"]
    assert [stack["target"] == stack["length"] for stack in done.json["stacks"]] == [True, True]


def test_the_angle_and_its_error_come_from_the_difference():
    """0.0044 in on 5 in: asin(0.00088) = 0.0504203 degrees, 1.513 seconds above 3 minutes (computed)."""
    form = gaugestack(*SMALL, "--json").json

    assert form["difference"]["length"] == "0.0044 in"
    assert (round(form["achieved_angle_degrees"], 7), round(form["error_arcsec"], 3)) == (0.0504203, 1.513)


def test_an_angle_one_stack_sets_keeps_its_one_stack():
    form = gaugestack("angle", "7d7m30s", "--bar", "5in", "--set", "inch-81", "--json").json

    assert len(form["stacks"]) == 1
    assert "role" not in form["stacks"][0]
    assert "difference" not in form


def test_on_request_both_rolls_are_raised_all_the_same():
    done = gaugestack("angle", "7d7m30s", "--bar", "5in", "--set", "inch-81", "--difference", "--json")

    assert done.code == 0
    assert [stack["role"] for stack in done.json["stacks"]] == ["high", "low"]
    assert abs(done.json["error_arcsec"]) < 3


def test_the_screen_says_where_each_stack_stands_and_what_to_mind():
    done = gaugestack(*SMALL)

    assert "difference   0.105 in - 0.1006 in = 0.0044 in, +36.7 µin off" in done.out
    assert "high stack, 0.105 in: 1 block" in done.out
    assert "both rolls are raised" in done.out
    assert "no single stack makes 0.00436332 in" in done.out
    assert max(map(len, done.out.splitlines())) <= 80


def test_a_hinged_plate_has_one_roll_to_raise():
    done = gaugestack("angle", "1deg", "--bar", "sine plate", "--set", BOATYARD, "--difference")

    assert done.code == 2
    assert "has one roll to raise" in done.err


def test_a_hinged_plate_is_not_offered_a_difference():
    done = gaugestack("angle", "0d1m", "--bar", "sine plate", "--set", BOATYARD, "--tolerance", "0", "--json")

    assert (done.code, done.json["outcome"]) == (1, "impossible")


def test_where_two_stacks_cannot_do_it_either_the_ladder_is_the_single_stack_s():
    done = gaugestack(*SMALL, "--tolerance", "0", "--json")

    assert done.code == 1
    assert next(way["kind"] for way in done.json["ways_out"]) == "above"


def test_a_difference_that_cannot_be_is_told_with_the_single_stack_that_can():
    """One block a stack, and the largest block is 4 in: 2.5 in is 4 - 1.5, and there is no 1.5."""
    done = gaugestack("angle", "53d7m48s", "--bar", "5in", "--difference", "--most", "1", "--json")

    assert (done.code, [way["kind"] for way in done.json["ways_out"]]) == (1, ["single stack"])


def test_two_wear_pairs_are_wanted_on_two_stacks():
    done = gaugestack(*SMALL, "--difference", "--wear", "inch-wear-0.050")

    assert done.code == 2
    assert "2 stacks need 2 pairs of wear blocks" in done.err


def test_a_taper_says_under_which_roll_its_stacks_stand():
    form = gaugestack(
        "taper", "1:500", "--bar", "5in", "--for", "compound", "--set", "inch-81", "--json"
    ).json

    assert [(stack["role"], stack["roll"]) for stack in form["stacks"]] == [
        ("compound", "high"),
        ("compound", "low"),
    ]


def test_every_whole_minute_below_the_thinnest_stack_can_be_set():
    """The smallest angle of one stack on a 5 in bar is 34 minutes; below it there is always a difference."""
    stock, bar = load(["inch-81"]), KNOWN_BARS[0]
    for minutes in range(1, 35):
        asked = Angle(arcseconds=60 * minutes)
        answer = set_angle(asked, bar=bar, stock=stock)

        assert isinstance(answer.stack.outcome, Found)
        assert abs(answer.difference.difference - height(asked, bar)) <= stock.step // 2


def test_a_wear_pair_too_tall_for_a_small_angle_leaves_two_bare_stacks_as_a_way_out():
    done = gaugestack(*SMALL, "--wear", "inch-wear-0.050")
    assert done.code == 1
    assert "without wear blocks two stacks make it, one under each roll" in " ".join(done.out.split())


def test_a_search_for_two_stacks_that_was_not_ended_is_said_beside_the_single_stack_s_answer():
    boatyard = Path(__file__).parents[2] / "demo" / "boatyard-inch.yaml"
    asked = ("--bar", "bench bar", "--basis", "certified", "--tolerance", "20uin", "--set", str(boatyard))

    done = gaugestack("angle", "30deg", *asked)

    assert done.code == 1
    assert "Not possible" in done.out
    assert "under each roll, make it was not settled within\n      the limits; --effort 10" in done.out
