"""Every state of a block, from its record to the stacks that honour it and the answer that names it."""

import pytest

from tests.cli.shell import gaugestack

SET = """\
format: 1
name: Bench set
unit: in
retire_beyond: 25 µin
blocks:
  - {size: 0.100}
  - {size: 0.200}
  - {size: 0.400}
  - {size: 0.050, pieces: 2, wear: true}
"""
STATES = {
    "missing": ((), "missing since 2026-02-03", "found"),
    "lent": (("--to", "Ola"), "lent to Ola since 2026-02-03", "returned"),
    "standing": (("--job", "gear box"), "standing in gear box since 2026-02-03", "apart"),
    "does-not-wring": ((), "does not wring since 2026-02-03", "wrings"),
    "suspect": (("--why", "reads short"), "suspect since 2026-02-03: reads short", "cleared"),
    "reserved": (("--job", "gear box"), "reserved for gear box since 2026-02-03", "released"),
    "worn": ((), "worn since 2026-02-03", None),
    "retired": ((), "retired since 2026-02-03", None),
}


@pytest.fixture
def bench(set_file):
    return set_file(SET, "bench.yaml")


def record(bench, event, size, *words, on="2026-02-03"):
    done = gaugestack("record", event, size, *words, "--on", on, "--set", bench)
    assert done.code == 0, done.err


def stack(bench, height, *words, on="2026-03-01"):
    return gaugestack("stack", height, "--tolerance", "0", "--on", on, "--set", bench, *words)


def flat(done):
    return " ".join(done.out.split())


@pytest.mark.parametrize("state", STATES)
def test_a_block_out_of_use_is_not_used_and_the_answer_names_the_state(bench, state):
    words, reason, _ = STATES[state]
    record(bench, state, "0.200", *words)

    done = stack(bench, "0.3in")

    assert done.code == 1
    assert f"it could be made with 0.200 in ({reason})" in flat(done)


@pytest.mark.parametrize("state", STATES)
def test_json_names_the_block_and_the_state_too(bench, state):
    words, reason, _ = STATES[state]
    record(bench, state, "0.200", *words)

    ways = stack(bench, "0.3in", "--json").json["ways_out"]

    (restore,) = [way for way in ways if way["kind"] == "restore"]
    assert [block["nominal"] for block in restore["blocks"]] == ["0.200 in"]
    assert reason in restore["sentence"]


@pytest.mark.parametrize("state", STATES)
def test_before_the_day_it_was_still_used(bench, state):
    record(bench, state, "0.200", *STATES[state][0])

    assert stack(bench, "0.3in", on="2026-02-02").code == 0


@pytest.mark.parametrize("state", [state for state in STATES if STATES[state][2]])
def test_what_ends_the_state_gives_the_block_back(bench, state):
    words, _, closing = STATES[state]
    record(bench, state, "0.200", *words)
    record(bench, closing, "0.200", on="2026-02-10")

    assert stack(bench, "0.3in").code == 0


@pytest.mark.parametrize("state", STATES)
def test_a_struck_state_gives_the_block_back(bench, state):
    record(bench, state, "0.200", *STATES[state][0])
    assert gaugestack("record", "void", "1", "--why", "a slip", "--set", bench).code == 0

    assert stack(bench, "0.3in").code == 0


@pytest.mark.parametrize("state", STATES)
def test_a_stack_that_does_not_need_the_block_is_made_without_it(bench, state):
    record(bench, state, "0.200", *STATES[state][0])

    assert stack(bench, "0.5in").code == 0


def test_a_block_reserved_for_the_job_is_used_for_it(bench):
    record(bench, "reserved", "0.200", "--job", "gear box")

    assert stack(bench, "0.3in", "--job", "gear box").code == 0
    assert stack(bench, "0.3in", "--job", "MT3 socket").code == 1


def test_an_overdue_loan_is_said_to_be(bench):
    record(bench, "lent", "0.200", "--to", "Ola", "--back", "2026-02-10")

    assert "lent to Ola since 2026-02-03, back 2026-02-10 (overdue)" in flat(stack(bench, "0.3in"))


def test_a_block_beyond_the_limit_of_its_owner_is_worn(bench):
    words = ("--deviation", "-26", "--trust", "own-comparison")
    record(bench, "calibrated", "0.200", *words)

    done = stack(bench, "0.3in")

    assert done.code == 1
    assert "worn beyond the owner's limit of 25.0 µin: -26.0 µin" in flat(done)


def test_a_block_at_the_limit_of_its_owner_is_still_used(bench):
    record(bench, "calibrated", "0.200", "--deviation", "-25", "--trust", "own-comparison")

    assert stack(bench, "0.3in").code == 0


def test_an_absent_block_is_named(set_file):
    path = set_file(SET + "absent: [0.200]\n")

    assert "it could be made with 0.200 in (absent)" in flat(stack(path, "0.3in"))


def test_a_missing_wear_block_leaves_no_pair(bench):
    record(bench, "missing", "0.050", "--wear")

    done = stack(bench, "0.3in", "--wear", "own")

    assert done.code == 2
    assert "no pair of wear blocks" in done.err


# ---- one good face


def order(done):
    return [block["nominal"] for block in done.json["stacks"][0]["blocks"]]


@pytest.mark.parametrize("size", ["0.100", "0.200", "0.400"])
def test_a_block_with_one_good_face_stands_at_an_end(bench, size):
    record(bench, "one-good-face", size)

    done = stack(bench, "0.7in", "--json")

    assert done.code == 0
    assert order(done).index(f"{size} in") in (0, 2)


def test_its_good_face_is_told_to_lie_inward(bench):
    record(bench, "one-good-face", "0.400")

    assert "one good face" in flat(stack(bench, "0.7in"))


def test_a_third_one_has_no_end_left_and_the_answer_says_so(bench):
    for size in ("0.100", "0.200", "0.400"):
        record(bench, "one-good-face", size)

    done = stack(bench, "0.7in")

    assert done.code == 1
    assert "0.400 in, 0.200 in, 0.100 in (one good face, at an end only)" in flat(done)


def test_under_a_wear_pair_it_has_no_end(bench):
    record(bench, "one-good-face", "0.200")

    done = stack(bench, "0.4in", "--wear", "own")

    assert done.code == 1
    assert "0.200 in (one good face, at an end only)" in flat(done)


# ---- use counts


USED = """\
format: 1
name: Bench set
unit: in
blocks:
  - {size: 0.100, serial: A}
  - {size: 0.100, serial: B}
  - {size: 0.300}
  - {size: 0.400}
  - {size: 0.200}
  - {size: 0.500}
"""


def test_of_equals_the_less_used_is_taken_where_that_is_asked(set_file):
    path = set_file(USED, "bench.yaml")
    record(path, "used", "0.100#A", "--job", "MT3 socket")

    def serial(*words):
        blocks = stack(path, "0.1in", "--json", *words).json["stacks"][0]["blocks"]
        return blocks[0]["serial"]

    assert serial() == "A"
    assert serial("--less-used") == "B"


def test_of_different_sizes_the_less_used_stack_is_taken_where_that_is_asked(set_file):
    path = set_file(USED, "bench.yaml")
    plain = order(stack(path, "0.7in", "--json"))
    for size in plain:
        record(path, "used", size.removesuffix(" in"), "--job", "MT3 socket")

    assert order(stack(path, "0.7in", "--json")) == plain
    spared = order(stack(path, "0.7in", "--json", "--less-used"))
    assert set(spared).isdisjoint(plain)
    assert len(spared) == len(plain)


def test_uses_that_were_struck_do_not_count(set_file):
    path = set_file(USED, "bench.yaml")
    record(path, "used", "0.100#A", "--job", "MT3 socket")
    assert gaugestack("record", "void", "1", "--why", "a slip", "--set", path).code == 0

    blocks = stack(path, "0.1in", "--json", "--less-used").json["stacks"][0]["blocks"]
    assert blocks[0]["serial"] == "A"


def test_uses_after_the_day_do_not_count(set_file):
    path = set_file(USED, "bench.yaml")
    record(path, "used", "0.100#A", "--job", "MT3 socket", on="2026-05-01")

    blocks = stack(path, "0.1in", "--json", "--less-used").json["stacks"][0]["blocks"]
    assert blocks[0]["serial"] == "A"
