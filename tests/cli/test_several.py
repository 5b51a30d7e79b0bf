"""Several heights from one set at once: stacks in their order, or which fail and what would free them."""

from tests.cli.shell import gaugestack

SET = ("--set", "metric-112")


def test_stacks_stand_in_the_order_asked_and_share_no_block():
    done = gaugestack("stack", "41.125mm", "17.36mm", "41.125mm", *SET, "--json")

    blocks = [block["nominal"] for stack in done.json["stacks"] for block in stack["blocks"]]
    assert done.code == 0
    assert [stack["target"] for stack in done.json["stacks"]] == ["41.125 mm", "17.36 mm", "41.125 mm"]
    assert len(blocks) == len(set(blocks))


def test_heights_that_fail_only_together_are_named():
    done = gaugestack("stack", "1.0005mm", "5mm", "2.0005mm", *SET, "--json")

    assert (done.code, done.json["failing"]) == (1, [1, 3])
    assert done.json["reason"].startswith("1.0005 mm and 2.0005 mm can each be made, but not at once")


def test_what_would_free_them_is_named():
    out = gaugestack("stack", "1.0005mm", "5mm", "2.0005mm", *SET).out

    assert "with a second 1.0005 mm all can be made at once" in out
    assert "without 2.0005 mm all the others can be made at once" in out


def test_the_one_height_that_fails_by_itself_is_named():
    done = gaugestack("stack", "5mm", "0.3mm", *SET)

    assert done.code == 1
    assert "Not possible, 0.3 mm:" in done.out
    assert gaugestack("stack", "5mm", "0.3mm", *SET, "--json").json["failing"] == [2]


def test_a_single_height_is_named_by_its_question_alone():
    assert "Not possible: " in gaugestack("stack", "0.3mm", *SET).out
    assert "failing" not in gaugestack("stack", "0.3mm", *SET, "--json").json
