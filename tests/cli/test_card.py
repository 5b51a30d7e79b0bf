"""The commands `card box`, `card setup` and `card check`, as scripts and printers meet them."""

import io
import sys
import warnings

import pytest

from gaugestack.cli.counting import counting
from tests.cli.shell import gaugestack

BOATYARD = "demo/boatyard-inch.yaml"
SET = "format: 1\nname: Bench\nunit: mm\nblocks:\n  - {from: 1, to: 9, step: 1}\n  - {size: 50}\n"


@pytest.fixture
def bench(set_file):
    return set_file(SET, "bench.yaml")


def code_of(text):
    return text.partition("card code ")[2][:9]


def test_a_box_card_prints_as_text():
    done = gaugestack(
        "card", "box", "--set", BOATYARD, "--angles", "every 15d", "--bar", "5in", "--on", "2026-11-25"
    )

    assert done.code == 0
    assert done.out.startswith("BOX CARD: Boatyard inch set\ncard code ")
    assert "30°00'00\"" in done.out
    assert done.err == ""
    assert max(map(len, done.out.splitlines())) <= 80


def test_a_card_for_a_label_printer_is_40_columns():
    done = gaugestack(
        "card", "box", "--set", BOATYARD, "--angles", "every 30d", "--bar", "5in", "--form", "text40"
    )

    assert max(map(len, done.out.splitlines())) <= 40


@pytest.mark.parametrize(
    ("name", "begins"), [("card.html", "<!DOCTYPE html>"), ("card.svg", "<svg"), ("card.txt", "BOX CARD")]
)
def test_the_output_s_name_tells_the_form(name, begins, tmp_path):
    path = tmp_path / name
    done = gaugestack("card", "box", "--set", "inch-81", "--output", path)

    assert (done.code, done.out) == (0, "")
    assert path.read_text(encoding="utf-8").startswith(begins)


def test_lines_without_a_stack_are_said_on_stderr(tmp_path):
    heights = tmp_path / "heights.txt"
    heights.write_text("0.6202\n0.0503\n", encoding="utf-8")
    done = gaugestack("card", "box", "--set", BOATYARD, "--heights", heights)

    assert done.code == 0
    assert "lines without a stack: 1" in done.err
    assert "no stack: " in done.out


def test_a_card_is_never_written_over_a_set_file(bench):
    done = gaugestack("card", "box", "--set", bench, "--output", bench)

    assert done.code == 2
    assert bench.read_text(encoding="utf-8") == SET


def test_a_box_card_is_of_one_set():
    done = gaugestack("card", "box", "--set", "inch-81", "--set", "metric-88")

    assert done.code == 2
    assert "one set" in done.err


@pytest.mark.parametrize(
    ("arguments", "option"),
    [
        (("--form", "word"), "--form"),
        (("--paper", "a99"), "--paper"),
        (("--angles", "every 5d", "--bar", "no such bar"), "--bar"),
        (("--angles", "every 0d", "--bar", "5in"), "--angles"),
    ],
)
def test_a_wrong_argument_is_named(arguments, option):
    done = gaugestack("card", "box", "--set", "inch-81", *arguments)

    assert done.code == 2
    assert done.err.startswith(option)


def test_a_file_of_heights_that_cannot_be_read_is_refused(tmp_path):
    done = gaugestack("card", "box", "--set", "inch-81", "--heights", tmp_path / "none.txt")

    assert done.code == 3
    assert "none.txt" in done.err


@pytest.mark.parametrize(
    "what",
    [
        ("stack", "0.6202in"),
        ("angle", "7d7m30s", "--bar", "5in"),
        ("taper", "morse", "3", "--for", "inspection", "--bar", "5in"),
    ],
)
def test_a_set_up_card_is_made_of_each_kind(what):
    done = gaugestack("card", "setup", *what, "--set", BOATYARD)

    assert done.code == 0
    assert "SET-UP CARD" in done.out
    assert "checked by" in done.out


def test_a_small_angle_is_set_up_with_two_stacks():
    done = gaugestack("card", "setup", "angle", "1d", "--bar", "5in", "--set", BOATYARD)

    assert done.code == 0
    assert "Stack under the high roll" in done.out
    assert "Stack under the low roll" in done.out


def test_a_cone_needs_its_use():
    done = gaugestack("card", "setup", "taper", "3in/ft", "--bar", "5in", "--set", "inch-81")

    assert done.code == 2
    assert done.err.startswith("--for")


@pytest.mark.parametrize(
    ("what", "option"),
    [
        (("stack", "1in", "--bar", "5in"), "--bar"),
        (("angle", "7d", "--bar", "5in", "--for", "compound"), "--for"),
        (("cone", "7d"), "KIND"),
    ],
)
def test_what_means_nothing_for_a_set_up_is_refused(what, option):
    done = gaugestack("card", "setup", *what, "--set", "inch-81")

    assert done.code == 2
    assert done.err.startswith(option)


def test_a_height_that_cannot_be_made_makes_no_card(tmp_path):
    path = tmp_path / "card.html"
    done = gaugestack("card", "setup", "stack", "0.0503in", "--set", BOATYARD, "--output", path)

    assert done.code == 1
    assert "Not possible" in done.err
    assert not path.exists()


def test_a_fresh_card_holds(bench):
    code = code_of(gaugestack("card", "box", "--set", bench).out)
    done = gaugestack("card", "check", code, "--set", bench)

    assert done.code == 0
    assert f"{code} holds" in done.out


@pytest.mark.parametrize("form", ["text", "text40", "svg", "html"])
def test_a_whole_card_in_any_form_is_checked(form, bench, tmp_path):
    path = tmp_path / "card"
    gaugestack("card", "box", "--set", bench, "--form", form, "--output", path)

    assert gaugestack("card", "check", path, "--set", bench).code == 0


def test_a_card_no_longer_holds_after_a_loan_and_says_why(bench):
    code = code_of(gaugestack("card", "box", "--set", bench).out)
    assert gaugestack("record", "lent", "9", "--to", "Ola", "--set", bench).code == 0
    done = gaugestack("card", "check", code, "--set", bench)

    assert done.code == 1
    assert "no longer holds" in done.out
    assert "9 mm: lent" in done.out


def test_a_check_answers_as_json(bench):
    code = code_of(gaugestack("card", "box", "--set", bench).out)
    done = gaugestack("card", "check", code, "--set", bench, "--json")

    assert done.json["schema"] == "gaugestack/card-check"
    assert (done.json["holds"], done.json["printed"], done.json["now"]) == (True, code, code)


@pytest.mark.parametrize("code", ["AAAA-AAAB", "nothing", "K7QF-2M9"])
def test_a_slip_in_typing_is_no_verdict(code, bench):
    done = gaugestack("card", "check", code, "--set", bench)

    assert done.code == 2
    assert done.err.startswith("CODE")


def test_long_work_shows_nothing_where_stderr_is_piped():
    done = gaugestack("card", "box", "--set", "inch-81", "--angles", "every 1d", "--bar", "5in")

    assert done.err == ""


def test_long_work_counts_on_a_terminal(monkeypatch):
    class Terminal(io.StringIO):
        def isatty(self):
            return True

    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setenv("TERM", "xterm")
    with counting("composing stacks", 90) as tick:
        for _ in range(90):
            tick()

    assert "composing stacks" in terminal.getvalue()


def test_the_sheet_of_a_job_shows_every_set_up_in_its_order():
    done = gaugestack("card", "job", "demo/saturday-job.yaml")

    assert done.code == 0
    assert done.out.startswith("JOB SHEET: Saturday on the tool post")
    assert done.out.index("jaw angle") < done.out.index("wedge key")
    assert "off 0.1009; add" in " ".join(done.out.split())


def test_a_job_that_cannot_be_made_makes_no_sheet(tmp_path):
    path = tmp_path / "job.yaml"
    path.write_text("format: 1\nname: J\nsetups:\n  - {name: a, height: 0.0503in}\n", encoding="utf-8")
    done = gaugestack("card", "job", path, "--set", BOATYARD)

    assert (done.code, done.out) == (1, "")
    assert "not possible" in done.err


def test_a_card_is_written_as_pdf(tmp_path):
    path = tmp_path / "card.pdf"
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # its own libraries' warnings are not ours
        done = gaugestack("card", "setup", "stack", "0.6202in", "--set", BOATYARD, "--output", path)

    assert (done.code, done.out) == (0, "")
    assert path.read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("name", ["table.csv", "notes", "bench.yaml"])
def test_a_card_is_never_written_over_a_file_that_is_no_card(tmp_path, name):
    path = tmp_path / name
    path.write_text("mine", encoding="utf-8")
    done = gaugestack("card", "box", "--output", str(path))
    assert (done.code, path.read_text(encoding="utf-8")) == (2, "mine")


def test_a_card_is_written_where_its_ending_says_what_it_is(tmp_path):
    path = tmp_path / "card.txt"
    done = gaugestack("card", "box", "--output", str(path))
    assert (done.code, path.exists()) == (0, True)


def test_a_box_card_keeps_to_the_largest_count():
    args = ("card", "box", "--angles", "every 5d from 5d to 10d", "--bar", "5in", "--set", "inch-81")
    few = gaugestack(*args, "--most", "1")

    assert "no stack: it needs more blocks than were allowed" in few.out
    assert "no stack" not in gaugestack(*args).out


def test_a_card_names_what_is_known_of_a_set_and_no_standard_it_has_not(set_file):
    out = gaugestack(
        "card", "box", "--set", set_file("format: 1\nunit: mm\nmaterial: steel\nblocks: [{size: 5}]\n")
    ).out

    assert "standard" not in out
    assert "material     steel" in out
    assert "certificate  none: sizes are nominal" in out


def test_a_card_counts_the_blocks_that_only_the_ledger_calls_calibrated(set_file):
    path = set_file("format: 1\nunit: mm\nblocks: [{size: 5}, {size: 6}]\n")
    record = ("record", "calibrated", "5", "--deviation", "+0.1um", "--trust", "own-comparison")
    assert gaugestack(*record, "--on", "2026-02-03", "--set", path).code == 0
    out = gaugestack("card", "box", "--set", path, "--on", "2026-02-04").out

    assert "certificate  none; 1 block calibrated, by the ledger or the set file" in out


@pytest.mark.parametrize(
    ("bar", "on", "shows"),
    [("100mm", "metric-88", "29.1 µm"), ("100mm", "inch-81", "29.1 µm"), ("5in", "inch-81", "872.7 µin")],
)
def test_what_an_indicator_shows_is_said_in_the_unit_of_the_bar(bar, on, shows):
    """One minute of error over a travel: travel x sin(1') (common practice); 100 mm, 3 in."""
    out = gaugestack("card", "setup", "angle", "5deg", "--bar", bar, "--set", on).out

    assert shows in out.partition("Indicator over the top of the work")[2]
    assert ("µin" in out.partition("Indicator over")[2]) == (bar == "5in")
