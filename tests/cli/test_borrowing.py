"""Two sets together: blocks labelled by set, units mixed exactly, the mixing named, rungs there too."""

import pytest

from tests.cli.shell import gaugestack

INCH = "format: 1\nname: Bench set\nunit: in\nblocks:\n  - {size: 0.1}\n  - {size: 0.2}\n"
METRIC = "format: 1\nname: Ola's set\nunit: mm\nmaterial: ceramic\nblocks:\n  - {size: 5}\n  - {size: 10}\n"


@pytest.fixture
def both(set_file):
    return ("--set", set_file(INCH, "a.yaml"), "--set", set_file(METRIC, "b.yaml"))


def flat(done):
    return " ".join(done.out.split())


def test_every_block_on_the_screen_says_whose_it_is(both):
    done = gaugestack("stack", "12.54mm", "--tolerance", "0", *both)

    assert done.code == 0
    assert "from A: Bench set + B: Ola's set" in flat(done)
    assert "0.100 in [A]" in done.out
    assert "10 mm [B]" in done.out
    assert ": 2 blocks, exactly" in done.out


def test_json_names_the_set_of_every_block(both):
    (built,) = gaugestack("stack", "12.54mm", "--tolerance", "0", *both, "--json").json["stacks"]

    assert {block["nominal"]: block["set"] for block in built["blocks"]} == {
        "0.100 in": "Bench set",
        "10 mm": "Ola's set",
    }
    assert built["deviation"] in ("0 in", "0 mm")


def test_the_mixing_is_named_with_units_and_materials(both):
    done = gaugestack("stack", "12.54mm", "--tolerance", "0", *both)

    assert (
        "blocks of 2 sets stand together: Ola's set (mm, ceramic) and Bench set (in, steel), "
        "inch and millimetre sizes added up exactly"
    ) in flat(done)


def test_a_stack_of_one_set_names_no_mixing(both):
    done = gaugestack("stack", "15mm", "--tolerance", "0", *both)

    assert done.code == 0
    assert "stand together" not in done.out


def test_the_heights_of_a_mixed_stack_are_all_in_millimetres(both):
    done = gaugestack("stack", "12.54mm", "--tolerance", "0", *both)

    assert [line.rpartition("= ")[2] for line in done.out.splitlines() if "│  = " in line] == [
        "12.54 mm",
        "10 mm",
    ]


def test_one_set_needs_no_letters(set_file):
    done = gaugestack("stack", "0.3in", "--set", set_file(INCH))

    assert "[A]" not in done.out
    assert "from Bench set, 2 pieces" in done.out


def test_two_sets_of_one_name_are_told_apart(set_file):
    done = gaugestack("stack", "0.4in", "--set", set_file(INCH, "a.yaml"), "--set", set_file(INCH, "b.yaml"))

    assert "A: Bench set + B: Bench set (2)" in flat(done)
    assert "blocks of 2 sets stand together: Bench set" in flat(done)


def test_an_impossible_height_has_the_nearest_on_both_sides(both):
    done = gaugestack("stack", "12.5mm", "--tolerance", "0", *both)
    ways = gaugestack("stack", "12.5mm", "--tolerance", "0", *both, "--json").json["ways_out"]

    assert done.code == 1
    assert [(way["kind"], way["sentence"]) for way in ways] == [
        ("below", "the nearest below is 2.42 mm away"),
        ("above", "the nearest above is 0.04 mm away"),
    ]
    assert "12.54 mm = " in done.out
    assert "0.100 in [A]" in done.out


def test_the_nearest_of_two_shipped_sets_says_how_far_was_looked():
    done = gaugestack("stack", "7.00003mm", "--tolerance", "0", "--set", "inch-81", "--set", "metric-88")

    assert done.code in (0, 1)
    if done.code:
        assert "the nearest below" in done.out


def test_a_borrowed_ledger_counts(set_file):
    own, lent = set_file(INCH, "a.yaml"), set_file(METRIC, "b.yaml")
    assert gaugestack("record", "reserved", "10", "--job", "gear box", "--set", lent).code == 0

    done = gaugestack("stack", "12.54mm", "--tolerance", "0", "--set", own, "--set", lent)

    assert done.code == 1
    assert "10 mm (reserved for gear box since" in flat(done)
