"""The certified basis on the screen and in JSON: deviations, trust, the certified sum, what is not known."""

import pytest

from tests.cli.shell import gaugestack

SET = """\
format: 1
name: Bench set
unit: in
blocks:
  - {size: 0.100, deviation: -4 µin, trust: own comparison}
  - {size: 0.200, deviation: +1.5 µin}
  - {size: 0.300}
certificate:
  source: laboratory report
  deviations: {0.300: +2}
"""


@pytest.fixture
def bench(set_file):
    return set_file(SET)


def stack(path, height, *words):
    return gaugestack("stack", height, "--set", path, "--tolerance", "20uin", *words)


def certified(path, height, *words):
    return stack(path, height, "--basis", "certified", *words)


def flat(done):
    return " ".join(done.out.split())


def test_each_block_stands_with_its_deviation_and_where_it_is_known_from(bench):
    lines = certified(bench, "0.6in").out.splitlines()
    table = lines[next(n for n, line in enumerate(lines) if "known from" in line) + 1 :][:4]

    assert {" ".join(line.split()[1:]) for line in table} == {
        "0.300 in +2.0 µin laboratory report",
        "0.200 in +1.5 µin unverified sheet",
        "0.100 in -4.0 µin own comparison",
        "-0.5 µin 0.5999995 in",
    }


def test_the_running_totals_stay_nominal(bench):
    assert "= 0.600 in" in certified(bench, "0.6in").out


def test_json_has_deviation_trust_and_both_sums(bench):
    (built,) = certified(bench, "0.6in", "--json").json["stacks"]

    assert (built["length"], built["nominal_length"], built["deviation"]) == (
        "0.5999995 in",
        "0.6 in",
        "-0.0000005 in",
    )
    blocks = {block["nominal"]: block for block in built["blocks"]}
    assert blocks["0.100 in"]["deviation"] == "-0.000004 in"
    assert blocks["0.100 in"]["trust"] == "own comparison"
    assert blocks["0.100 in"]["length"] == "0.099996 in"


def test_a_value_nobody_vouches_for_is_remarked(bench):
    assert "1 of 3 blocks is known from an unverified sheet" in flat(certified(bench, "0.6in"))


def test_a_value_that_is_not_known_is_remarked_and_counts_as_none(set_file):
    path = set_file(SET.replace("certificate:\n  source: laboratory report\n  deviations: {0.300: +2}\n", ""))

    done = certified(path, "0.4in")

    assert "0.300 in taken as 0 nominal only" in flat(done)
    assert "1 of 2 blocks is nominal only: no deviation is known" in flat(done)
    blocks = certified(path, "0.4in", "--json").json["stacks"][0]["blocks"]
    assert [block.get("deviation") for block in blocks if block["trust"] == "nominal only"] == [None]


def test_values_a_laboratory_reports_need_no_remark(bench):
    assert "known from an" not in certified(bench, "0.3in").out


def test_on_the_nominal_basis_nothing_of_it_is_shown(bench):
    done = stack(bench, "0.6in")

    assert "known from" not in done.out
    assert "no better than that" not in done.out


def test_a_calibration_in_the_ledger_counts(bench):
    words = ("calibrated", "0.300", "--deviation", "-9", "--trust", "own-comparison", "--set", bench)
    assert gaugestack("record", *words).code == 0

    done = certified(bench, "0.3in")

    assert "-9.0 µin own comparison" in flat(done)


def test_the_angle_shows_them_too(bench):
    words = (
        "angle",
        "6d53m",
        "--bar",
        "5in",
        "--basis",
        "certified",
        "--tolerance",
        "0.001in",
        "--set",
        bench,
    )

    done = gaugestack(*words)
    form = gaugestack(*words, "--json").json

    assert "laboratory report" in done.out
    assert "1 of 3 blocks is known from an unverified sheet" in flat(done)
    assert all("trust" in block for block in form["stacks"][0]["blocks"])


def test_no_line_is_wider_than_the_screen(bench):
    assert max(map(len, certified(bench, "0.6in").out.splitlines())) < 80


def notes(done):
    return " ".join(done.out.split()).partition("note: ")[2]


def test_on_the_nominal_basis_blocks_known_to_deviate_are_named(bench):
    out = notes(stack(bench, "0.6in"))

    assert (
        "1 block is known to deviate by own comparison (0.100 in -4.0 µin); --basis certified counts it"
        in out
    )
    assert "1 block is known to deviate by an unverified sheet (0.200 in +1.5 µin)" in out
    assert "0.300 in +2" not in out


def test_json_and_the_budgets_name_the_blocks_known_to_deviate(bench):
    graded = bench.read_text(encoding="utf-8").replace("blocks:", "standard: ISO 3650\ngrade: 0\nblocks:", 1)
    bench.write_text(graded, encoding="utf-8")
    said = (
        "1 block is known to deviate by an unverified sheet (0.200 in +1.5 µin); --basis certified counts it"
    )

    assert said in stack(bench, "0.6in", "--json").json["remarks"]
    for words in (("stack", "0.6in"), ("angle", "7d", "--bar", "5in", "--tolerance", "0.1in")):
        done = gaugestack("budget", *words, "--set", bench, "--basis", "nominal", "--json")
        assert said in done.json["remarks"]


def test_more_blocks_than_four_are_named_by_their_number(set_file):
    sizes = ", ".join(f"{{size: 0.{n}, deviation: -{n} µin}}" for n in range(1, 7))
    path = set_file(f"format: 1\nname: Sheet\nunit: in\nblocks: [{sizes}]\n")
    out = notes(gaugestack("stack", "2.1in", "--set", path))

    assert "6 blocks are known to deviate by an unverified sheet (" in out
    assert " and 2 more); --basis certified counts them" in out


def test_on_the_certified_basis_and_with_nothing_known_no_block_is_named(bench, set_file):
    zero = set_file("format: 1\nname: Even\nunit: in\nblocks: [{size: 0.3, deviation: 0}]\n", "even.yaml")

    assert "known to deviate" not in certified(bench, "0.6in").out
    assert "known to deviate" not in gaugestack("stack", "0.3in", "--set", zero).out


def test_blocks_known_to_deviate_under_both_rolls_are_named_too(bench):
    words = ("1d8m45.4s", "--bar", "5in", "--set", bench, "--without", "0.1in", "--tolerance", "0.001in")
    found = gaugestack("angle", *words, "--json").json

    assert len(found["stacks"]) == 2
    assert any("by an unverified sheet (0.200 in +1.5 µin)" in said for said in found["remarks"])
