"""The command `history`: records, jobs, calibrations and wear of one block."""

import pytest

from tests.cli.shell import gaugestack

SET = """\
format: 1
name: Bench set
unit: in
standard: ASME B89.1.9
grade: AS-1
retire_beyond: 25 µin
blocks:
  - {from: 0.101, to: 0.109, step: 0.001}
  - {size: 0.050, pieces: 2, wear: true}
  - {size: 0.600, serial: A}
  - {size: 0.600, serial: B}
certificate:
  date: 2022-01-15
  source: laboratory report
  deviations: {0.105: +1}
"""


@pytest.fixture
def bench(set_file):
    return set_file(SET, "bench.yaml")


def record(bench, *words):
    done = gaugestack("record", *words, "--set", bench)
    assert done.code == 0, done.err


def history(bench, *words):
    return gaugestack("history", *words, "--set", bench, "--on", "2026-06-01")


def calibrated(bench, *pairs):
    for day, deviation in pairs:
        details = ("--deviation", deviation, "--uncertainty", "0.2", "--trust", "own-comparison")
        record(bench, "calibrated", "0.105", *details, "--on", day)


def test_everything_that_happened_is_told_in_the_order_of_its_days(bench):
    record(bench, "lent", "0.105", "--to", "Ola", "--on", "2026-02-03")
    record(bench, "returned", "0.105", "--on", "2026-02-10")
    record(bench, "used", "0.105", "--job", "MT3", "--on", "2026-02-02")

    answer = history(bench, "0.105", "--json").json

    assert answer["schema"] == "gaugestack/history"
    assert [(r["n"], r["event"]) for r in answer["records"]] == [(3, "used"), (1, "lent"), (2, "returned")]
    assert answer["block"]["fit_for_use"] is True


def test_a_struck_record_stays_in_the_history_and_says_so(bench):
    record(bench, "used", "0.105", "--job", "MT3", "--on", "2026-02-02")
    record(bench, "void", "1", "--why", "it was the 0.106", "--on", "2026-02-03")

    done = history(bench, "0.105")

    assert "[struck by record 2: it was the 0.106]" in done.out.replace("\n" + " " * 18, " ")
    assert "No job is recorded to have used it." in done.out


def test_the_jobs_of_a_block_that_turned_out_bad(bench):
    record(bench, "used", "0.105", "--job", "old job", "--on", "2026-01-02")
    record(bench, "used", "0.105", "--job", "MT3 socket", "--on", "2026-03-02")
    record(bench, "used", "0.106", "--job", "another", "--on", "2026-03-02")

    every = history(bench, "0.105", "--json").json["jobs"]
    since = history(bench, "0.105", "--jobs", "--since", "2026-02-01")

    assert [use["job"] for use in every] == ["old job", "MT3 socket"]
    assert "2026-03-02                MT3 socket" in since.out
    assert "old job" not in since.out
    assert "Wear:" not in since.out


def test_records_after_the_day_are_not_told(bench):
    record(bench, "used", "0.105", "--job", "later", "--on", "2026-09-02")

    assert history(bench, "0.105", "--json").json["records"] == []


def test_the_wear_is_told_with_how_sure_it_is_and_when_it_leaves_each_limit(bench):
    calibrated(bench, ("2023-01-15", "-1"), ("2024-01-15", "-3"), ("2025-01-15", "-5"))

    done = history(bench, "0.105")
    answer = history(bench, "0.105", "--json").json

    assert "Wear: wears: -2.0 µin a year (95 %:" in done.out
    assert answer["trend"]["direction"] == "wears"
    assert [limit["limit"] for limit in answer["limits"]] == ["grade AS-1 as new", "the owner's own limit"]
    grade, own = (limit["leaving"] for limit in answer["limits"])
    assert grade["sure"]
    assert grade["expected"] < own["expected"]
    assert "expected to leave it about" in done.out.replace("\n    ", " ")


def test_growth_is_a_question_and_no_error(bench):
    calibrated(bench, ("2023-01-15", "3"), ("2024-01-15", "5"), ("2025-01-15", "7"))

    done = history(bench, "0.105")

    assert done.code == 0
    assert "stable steel does not grow; ask the laboratory" in done.out.replace("\n  ", " ")


def test_two_calibrations_make_no_trend(bench):
    calibrated(bench, ("2023-01-15", "-1"))

    done = history(bench, "0.105")

    assert "no trend yet: 2 calibrations: a trend needs at least 3" in done.out


def test_a_calibration_that_was_struck_does_not_bend_the_trend(bench):
    calibrated(bench, ("2023-01-15", "-1"), ("2024-01-15", "-3"), ("2025-01-15", "-50"))
    record(bench, "void", "3", "--why", "read off the wrong row")

    answer = history(bench, "0.105", "--json").json

    assert [found["on"] for found in answer["calibrations"]] == ["2022-01-15", "2023-01-15", "2024-01-15"]


def test_pieces_nothing_tells_apart_share_their_history(bench):
    assert "2 pieces share this history" in history(bench, "0.050", "--wear").out


def test_a_block_of_nothing_recorded(bench):
    assert "nothing is recorded about it" in history(bench, "0.102").out


def test_a_shipped_set_has_nothing_recorded():
    assert gaugestack("history", "0.105", "--set", "inch-81").code == 0


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["0.2345"], "Bench set has no 0.2345 in"),
        (["0.600"], "0.600 names no one block"),
        (["0.600#C"], "serials: A, B"),
        (["0.050"], "0.050 in is a wear block: say --wear"),
        (["0.105", "--wear"], "0.105 in is an ordinary block"),
        (["0.105", "--since", "soon"], "--since: 'soon' is no day"),
        (["a lot"], "SIZE"),
    ],
)
def test_a_text_that_names_no_one_block_is_a_wrong_use(bench, words, message):
    done = history(bench, *words)

    assert done.code == 2
    assert message in done.err


def test_no_line_is_wider_than_the_screen(bench):
    calibrated(bench, ("2023-01-15", "-1"), ("2024-01-15", "-3"), ("2025-01-15", "-5"))
    record(bench, "suspect", "0.105", "--why", "reads short " * 8 + "again")

    assert max(len(line) for line in history(bench, "0.105").out.splitlines()) < 80


def test_small_deviations_of_a_metric_block_are_not_rounded_away(set_file):
    path = set_file("format: 1\nname: Metric\nunit: mm\nblocks:\n  - {size: 1.005}\n")
    words = ("--deviation", "-0.045", "--trust", "own-comparison", "--on", "2026-02-01")
    record(path, "calibrated", "1.005", *words)

    assert "-0.045 µm (own comparison, 2026-02-01)" in history(path, "1.005").out
