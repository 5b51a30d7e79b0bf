"""The command `set check`: calibration, grade, trust and loans, and when it says no."""

import pytest

from tests.cli.shell import gaugestack

SET = """\
format: 1
name: Bench set
unit: in
standard: ASME B89.1.9
grade: AS-1
blocks:
  - {from: 0.101, to: 0.109, step: 0.001}
  - {size: 0.200, serial: K-1, deviation: +2, trust: own comparison}
certificate:
  date: 2026-02-03
  due: 2027-02-03
  source: laboratory report
  deviations: {0.105: DEVIATION, 0.106: +1}
"""


@pytest.fixture
def bench(set_file):
    def write(deviation="-6"):
        return set_file(SET.replace("DEVIATION", deviation), "bench.yaml")

    return write


def check(path, on="2026-06-01", *words):
    return gaugestack("set", "check", path, "--on", on, *words)


def record(path, *words):
    done = gaugestack("record", *words, "--set", path)
    assert done.code == 0, done.err


def flat(done):
    """Return the screen with its wrapped lines joined."""
    return " ".join(done.out.split())


def test_a_set_in_order_is_a_yes(bench):
    done = check(bench())

    assert done.code == 0
    assert "Problems" not in done.out
    assert "calibration due 2027-02-03, in 247 days" in flat(done)
    assert "values 2 laboratory report, 1 own comparison, 7 nominal only" in flat(done)


def test_the_grade_that_is_still_met_says_on_what_grounds(bench):
    assert "it still meets AS-1 (by 3 known deviations; lengths only" in flat(check(bench()))
    assert "kept from better by 0.105 in" in flat(check(bench()))


def test_a_block_that_leaves_its_grade_is_named_and_is_a_no(bench):
    done = check(bench("-12"))

    assert done.code == 1
    assert "0.105 in: the deviation -12.00 µin is outside grade AS-1" in flat(done)
    assert "it still meets AS-2" in flat(done)


@pytest.mark.parametrize(
    ("on", "code", "said"),
    [
        ("2027-01-03", 0, "due 2027-02-03, in 31 days"),
        ("2027-01-04", 0, "due 2027-02-03, in 30 days (soon)"),
        ("2027-02-03", 0, "due 2027-02-03, in 0 days (soon)"),
        ("2027-02-04", 1, "OVERDUE by 1 day, it was due 2027-02-03"),
    ],
)
def test_the_calibration_is_due_soon_and_then_overdue(bench, on, code, said):
    done = check(bench(), on)

    assert done.code == code
    assert said in flat(done)


def test_a_calibration_in_the_ledger_does_away_with_the_due_day_of_the_file(bench):
    path = bench()
    for size in ("0.105", "0.106", "0.200"):
        details = ("--deviation", "1", "--trust", "own-comparison", "--on", "2027-01-05")
        record(path, "calibrated", size, *details)

    done = check(path, "2027-06-01")

    assert done.code == 0
    assert "every value at hand is of a later one" in flat(done)


def test_a_loan_is_shown_and_an_overdue_one_is_a_no(bench):
    path = bench()
    record(path, "lent", "0.107", "--to", "Ola", "--on", "2026-03-01", "--back", "2026-03-10")

    before, after = check(path, "2026-03-10"), check(path, "2026-03-11")

    assert (before.code, after.code) == (0, 1)
    assert "lent 0.107 in to Ola, back 2026-03-10" in flat(before)
    assert "0.107 in is lent to Ola and was promised for 2026-03-10" in flat(after)


def test_a_block_out_of_use_no_longer_keeps_the_set_from_its_grade(bench):
    path = bench("-12")
    record(path, "retired", "0.105", "--on", "2026-03-01")

    assert check(path).code == 0


def test_json_says_all_of_it(bench):
    path = bench("-12")
    record(path, "lent", "0.107", "--to", "Ola", "--on", "2026-03-01", "--back", "2026-03-10")

    answer = check(path, "2027-03-01", "--json").json

    assert answer["schema"] == "gaugestack/set-check"
    assert answer["calibration"] == {
        "state": "overdue", "due": "2027-02-03", "days": -26, "superseded": False,
    }  # fmt: skip
    assert [block["nominal"] for block in answer["outside_grade"]] == ["0.105 in"]
    assert answer["grade_met"]["grade"] == "AS-2"
    assert answer["trust"] == {"laboratory report": 2, "own comparison": 1, "nominal only": 6}
    assert answer["lent"] == [{"nominal": "0.107 in", "to": "Ola", "back": "2026-03-10", "overdue": True}]
    assert len(answer["problems"]) == 3


def test_a_shipped_set_has_nothing_to_be_seen_to():
    done = gaugestack("set", "check", "inch-81")

    assert done.code == 0
    assert "nominal only" in done.out


def test_a_set_without_any_deviation_has_no_grade_to_speak_of(set_file):
    path = set_file(SET.partition("certificate:")[0].replace(", deviation: +2, trust: own comparison", ""))

    assert "no deviation is known, so nothing can be said" in flat(check(path))


def test_a_block_with_one_good_face_is_remarked(bench):
    path = bench()
    record(path, "one-good-face", "0.107", "--on", "2026-03-01")

    assert "0.107 in: one good face, so it stands at an end" in flat(check(path))


def test_a_set_calibrated_in_its_ledger_only_is_not_said_to_have_no_values(set_file):
    path = set_file(SET.partition("certificate:")[0].replace(", deviation: +2, trust: own comparison", ""))
    before = flat(check(path))
    record(path, "calibrated", "0.105", "--deviation", "1", "--trust", "own-comparison", "--on", "2026-03-01")

    assert "has no certificate: heights are nominal" in before
    assert "has no certificate: heights are nominal" not in flat(check(path))


@pytest.mark.parametrize("command", ["show", "check", "matters", "buy", "health"])
def test_a_set_named_twice_must_be_the_same(command, set_file):
    small = set_file("format: 1\nname: Small\nunit: mm\nblocks: [{from: 1, to: 3, step: 1}]\n")
    done = gaugestack("set", command, small, "--set", "metric-47")

    assert (done.code, done.out) == (2, "")
    assert f"--set: this names metric-47, the argument {small}" in done.err
    assert gaugestack("set", command, small, "--set", small).code == 0
