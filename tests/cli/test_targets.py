"""Whole lists: table, JSON and CSV, names and tolerances, files and stdin, what is refused, how it ends."""

import csv
import io
import json
import sys
from unittest import mock

import pytest

from gaugestack.answers import batch
from gaugestack.stacks.request import Undecided
from tests.cli.shell import gaugestack

LIST = "height,name,tolerance\n0.6202in,jaw,\n15.752mm,plug,0.5um\n0.0503,nothing,\n5/8in,,0\n"
BOATYARD = "demo/boatyard-inch.yaml"
SET = ("--set", "inch-81")


@pytest.fixture
def listed(tmp_path):
    """Return a function that writes a list and names it."""

    def write(text, name="list.csv"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return str(path)

    return write


def rows_of(done):
    """Return the rows of a CSV answer, each by the names of its columns."""
    return list(csv.DictReader(io.StringIO(done.out)))


def test_a_table_has_a_row_for_every_line_in_its_order(listed):
    done = gaugestack("stack", "--targets", listed(LIST), *SET)
    table = done.out.splitlines()

    assert (done.code, done.err) == (1, "")
    assert "4 heights, each for itself: 2 made, 2 not possible" in table
    assert "   2  jaw      0.6202 in  exactly  0.400 + 0.1002 + 0.120 in" in table
    assert [line.split()[0] for line in table if line[:4].strip().isdigit()] == ["2", "3", "4", "5"]


def test_an_impossible_line_says_why_and_what_is_nearest(listed):
    out = " ".join(gaugestack("stack", "--targets", listed("0.0503\n"), *SET).out.split())

    assert (
        "not possible: no combination of the blocks reaches it within the tolerance; "
        "nearest 0.050 in below, 0.100 in above" in out
    )


def test_what_is_to_be_said_of_many_lines_is_said_once():
    notes = gaugestack_of("0.6202\n0.6203\n12.3456\n12.3457\n12.3458\n12.3459\n0.5in\n").out

    assert notes.count("6 heights without a unit, read as inches, the unit of inch-81") == 1
    assert "note: lines 3, 4, 5 and 1 more: 9 blocks: every joint" in notes


def gaugestack_of(text, *more, command=("stack",)):
    """Run a command on a list from standard input."""
    stream = io.TextIOWrapper(io.BytesIO(text.encode("utf-8")), encoding="utf-8")
    with mock.patch.object(sys, "stdin", stream):
        return gaugestack(*command, "--targets", "-", *more)


def test_no_line_of_a_table_is_wider_than_80_columns(listed):
    wide = "height,name\n" + "".join(f"{n}.3456in,名前が長い-{'x' * 40}\n" for n in range(1, 9)) + "99m,far\n"
    out = gaugestack("stack", "--targets", listed(wide), "--set", "inch-81", "--set", "metric-47").out

    def columns(line):
        return sum(2 if ord(character) > 0x2E80 else 1 for character in line)

    assert max(map(columns, out.splitlines())) <= 80


def test_every_answer_of_json_is_that_of_its_height_alone(listed):
    form = gaugestack("stack", "--targets", listed(LIST), "--set", BOATYARD, "--json").json
    shared = {key: form[key] for key in ("set", "sets", "at_hand", "basis")}
    tolerances = [(), ("--tolerance", "0.5um"), (), ("--tolerance", "0")]

    assert (form["schema"], form["version"]) == ("gaugestack/stack-list", 1)
    assert form["counts"] == {"found": 2, "impossible": 2, "undecided": 0}
    for answer, more in zip(form["answers"], tolerances, strict=True):
        alone = gaugestack("stack", answer["asked"], *more, "--set", BOATYARD, "--json").json
        said = {key: answer.pop(key) for key in ("line", "name", "asked")}
        assert {**shared, **answer, "schema": "gaugestack/stack", "version": 1} == alone, said


def test_every_angle_of_json_is_that_of_its_angle_alone(listed):
    path = listed("angle,name\n7d7m30s,taper\n12.5,\n60deg,steep\n0d3m,small\n")
    form = gaugestack("angle", "--targets", path, "--bar", "5in", *SET, "--json").json
    shared = {key: form[key] for key in ("set", "sets", "at_hand", "basis", "bar")}

    assert form["schema"] == "gaugestack/angle-list"
    assert [answer["name"] for answer in form["answers"]] == ["taper", "", "steep", "small"]
    for answer in form["answers"]:
        alone = gaugestack("angle", answer["asked"], "--bar", "5in", *SET, "--json").json
        for key in ("line", "name", "asked"):
            del answer[key]
        assert {**shared, **answer, "schema": "gaugestack/angle", "version": 1} == alone


def test_json_is_one_sorted_object_that_names_the_list(listed):
    path = listed(LIST)
    done = gaugestack("stack", "--targets", path, "--json")

    assert done.out == json.dumps(done.json, indent=2, sort_keys=True, ensure_ascii=False) + "\n"
    assert done.json["file"] == path
    assert gaugestack_of(LIST, "--json").json["file"] == "standard input"


def test_csv_has_numbers_a_spreadsheet_can_reckon_with(listed):
    done = gaugestack("stack", "--targets", listed(LIST), "--csv", *SET)
    jaw, plug, nothing, last = rows_of(done)

    assert done.code == 1
    assert jaw == {
        "line": "2",
        "name": "jaw",
        "asked": "0.6202in",
        "outcome": "found",
        "unit": "in",
        "target": "0.6202",
        "length": "0.6202",
        "deviation": "0",
        "blocks": "3",
        "stack": "0.400 + 0.1002 + 0.120 in",
        "reason": "",
    }
    assert (plug["unit"], plug["target"], plug["length"], plug["outcome"]) == (
        "mm",
        "15.752",
        "",
        "impossible",
    )
    assert nothing["reason"].startswith("not possible: ")
    assert last["line"] == "5"


def test_csv_of_inch_heights_and_metric_blocks_stands_in_millimetres(listed):
    [row] = rows_of(
        gaugestack(
            "stack", "--targets", listed("1.0002in\n"), "--csv", "--set", "metric-47", "--tolerance", "1um"
        )
    )

    assert (row["unit"], row["target"], row["length"]) == ("mm", "25.40508", "25.405")


def test_csv_of_angles_adds_the_angle_set_and_its_error(listed):
    done = gaugestack("angle", "--targets", listed("7d7m30s\n0d3m\n"), "--bar", "5in", "--csv", *SET)
    first, second = rows_of(done)

    assert (first["angle_degrees"], first["error_arcsec"]) == ("7.125", "1.153377")
    assert second["stack"] == "high: 0.105 in; low: 0.1006 in"
    assert (second["length"], second["blocks"]) == ("0.0044", "2")


@pytest.mark.parametrize("name", ["=HYPERLINK(1)", "+1", "-1", "@sum", "=1\ttab"])
def test_csv_holds_no_formula(listed, name):
    path = listed(f'height,name\n0.62in,"{name}"\n+0.63in,plain\n')
    first, second = rows_of(gaugestack("stack", "--targets", path, "--csv", *SET))

    assert first["name"].startswith("'")
    assert second["asked"] == "'+0.63in"
    assert second["name"] == "plain"


def test_a_stack_of_a_serial_that_looks_like_a_formula_is_text(listed, set_file):
    path = set_file("format: 1\nname: a\nunit: in\nblocks:\n  - {size: 0.1, serial: '=1+1'}\n")
    [row] = rows_of(gaugestack("stack", "--targets", listed("0.1\n"), "--csv", "--set", path))

    assert not row["stack"].startswith("=")


def test_the_certified_basis_and_wear_blocks_stand_in_a_list_as_alone(listed):
    options = ("--basis", "certified", "--wear", "own", "--set", BOATYARD, "--on", "2026-11-25", "--json")
    form = gaugestack("stack", "--targets", listed("0.6202\n"), *options).json
    alone = gaugestack("stack", "0.6202", *options).json

    assert form["answers"][0]["stacks"] == alone["stacks"]
    assert form["answers"][0]["wear_pair"] == alone["wear_pair"] == "0.050 in"
    assert form["basis"] == "certified"


def test_a_screen_tells_of_the_wear_pair_that_every_stack_has(listed):
    out = gaugestack("stack", "--targets", listed("0.6202\n"), "--wear", "own", "--set", BOATYARD).out

    assert "wear pair 2 x 0.050 in is part of every stack" in out


def test_every_mistake_of_a_list_is_named_and_nothing_is_answered(listed):
    path = listed("0.6\nbanana\n-1\n")
    done = gaugestack("stack", "--targets", path, *SET)

    assert (done.code, done.out) == (3, "")
    assert f"{path}:2:1: no number here\n    banana\n    ^\n" in done.err
    assert f"{path}:3:1: below zero: a length is above zero" in done.err


def test_standard_input_is_named_as_such():
    done = gaugestack_of("0.6\nbanana\n")

    assert (done.code, done.out) == (3, "")
    assert done.err.startswith("standard input:2:1: no number here")


@pytest.mark.parametrize("text", ["", " \n", "# nothing\n"])
def test_an_empty_list_is_refused(text):
    done = gaugestack_of(text)

    assert (done.code, done.out) == (3, "")
    assert done.err.startswith("standard input:1:1: ")


@pytest.mark.parametrize(
    ("angle", "sentence"),
    [("90deg", "a sine bar stands below 90 degrees"), ("0deg", "the bar lies flat on the plate: no blocks")],
)
def test_an_angle_no_bar_sets_is_refused_at_its_place(angle, sentence):
    done = gaugestack_of(f"89d\n{angle}\n", "--bar", "5in", command=("angle",))

    assert (done.code, done.out) == (3, "")
    assert done.err.startswith(f"standard input:2:1: {sentence}\n    {angle}\n")


def test_a_heading_of_the_other_command_is_no_heading():
    assert gaugestack_of("angle\n7d\n").code == 3
    assert gaugestack_of("angle\n7d\n", "--bar", "5in", command=("angle",)).code == 0


@pytest.mark.parametrize(
    "options",
    [
        ("0.5in",),
        ("--next", "2"),
        ("--proof-stack",),
        ("--trade-offs",),
        ("--why",),
        ("--svg", "picture.svg"),
        ("--csv", "--json"),
    ],
)
def test_what_is_for_one_height_is_refused_beside_a_list(listed, options):
    done = gaugestack("stack", *options, "--targets", listed("0.6\n"), *SET)

    assert (done.code, done.out) == (2, "")


def test_csv_is_for_lists_only():
    assert gaugestack("stack", "0.6in", "--csv").code == 2
    assert gaugestack("angle", "7d", "--bar", "5in", "--csv").code == 2
    assert gaugestack("angle", "--bar", "5in").err.startswith("ANGLE: an angle is wanted")
    assert gaugestack("stack").err.startswith("HEIGHT: a height is wanted")


def test_an_option_that_cannot_be_met_is_told_once(listed):
    done = gaugestack("stack", "--targets", listed("0.6\n0.7\n"), "--without", "0.1234", *SET)

    assert (done.code, done.out, done.err.count("--without")) == (2, "", 1)


def test_a_list_that_can_be_made_leaves_with_0_one_that_cannot_with_1():
    assert gaugestack_of("0.6\n0.7\n").code == 0
    assert gaugestack_of("0.6\n0.0503\n").code == 1


def test_an_undecided_line_leaves_with_4_and_an_impossible_one_beside_it_with_1(monkeypatch):
    real = batch.explained

    def explained(request, *more):
        undecided = request.targets[0] == 15_240_000_000
        return Undecided(at_least=2) if undecided else real(request, *more)

    monkeypatch.setattr(batch, "explained", explained)
    done = gaugestack_of("0.6\n0.7\n")

    assert done.code == 4
    assert "undecided: the limit on effort was reached" in done.out
    assert "1 made, 1 undecided" in done.out
    assert gaugestack_of("0.6\n0.0503\n").code == 1


def test_nothing_is_said_on_stderr_where_no_terminal_is():
    assert gaugestack_of("0.6\n" * 30).err == ""


def test_the_bar_counts_on_stderr_where_a_terminal_is():
    class Terminal(io.StringIO):
        encoding = "utf-8"

        def isatty(self):
            return True

    stream, out = Terminal(), io.StringIO()
    listed = io.TextIOWrapper(io.BytesIO(b"0.6\n" * 30))
    from gaugestack.cli.boundary import guarded  # noqa: PLC0415
    from gaugestack.cli.commands import app  # noqa: PLC0415

    with (
        mock.patch.object(sys, "argv", ["gaugestack", "stack", "--targets", "-", "--csv"]),
        mock.patch.object(sys, "stderr", stream),
        mock.patch.object(sys, "stdout", out),
        mock.patch.object(sys, "stdin", listed),
        mock.patch.dict("os.environ", {"TERM": "xterm"}),
    ):
        assert guarded(app) == 0
    assert "composing" in stream.getvalue()
    assert "composing" not in out.getvalue()
