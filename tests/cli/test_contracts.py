"""What scripts rely on: exit codes, streams, schemas, the default set and tolerance."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from gaugestack.answers import stack as stack_answers
from gaugestack.stacks import judge
from gaugestack.stacks.request import Undecided
from tests.cli.shell import gaugestack

ROOT = Path(__file__).parents[2]
TWO = "format: 1\nname: two\nunit: in\nblocks:\n  - {size: 0.1}\n  - {size: 0.2}\n"
ANSWERS = {
    "gaugestack/stack": ["stack", "0.6202in"],
    "gaugestack/angle": ["angle", "7d7m30s", "--bar", "5in"],
    "gaugestack/taper": ["taper", "3in/ft", "--bar", "5in"],
    "gaugestack/set": ["set", "show", "inch-81"],
    "gaugestack/set-check": ["set", "check", "inch-81"],
    "gaugestack/sets": ["set", "list"],
    "gaugestack/reach": ["reach", "0.6202in"],
    "gaugestack/reach-range": ["reach", "0.2..0.3in"],
    "gaugestack/set-matters": ["set", "matters", "inch-81"],
    "gaugestack/set-buy": ["set", "buy", "inch-28", "--like", "inch-81"],
    "gaugestack/set-health": ["set", "health", "inch-81"],
}


def process(*arguments, **environment):
    """Run the command as a process of its own."""
    kept = {key: value for key, value in os.environ.items() if key != "GAUGESTACK_SET"}
    return subprocess.run(
        [sys.executable, "-m", "gaugestack", *arguments],
        cwd=ROOT,
        env={**kept, "PYTHONUTF8": "1", **environment},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


@pytest.mark.parametrize("schema", ANSWERS)
def test_every_answer_is_one_sorted_json_object_with_schema_and_version(schema):
    done = gaugestack(*ANSWERS[schema], "--json")
    form = done.json

    assert (done.code, done.err) == (0, "")
    assert (form["schema"], form["version"]) == (schema, 1)
    assert done.out == json.dumps(form, indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def test_a_stack_gives_target_length_deviation_and_blocks_in_wringing_order():
    [stack] = gaugestack("stack", "0.6202in", "--set", "inch-81", "--json").json["stacks"]

    assert (stack["target"], stack["length"], stack["deviation"]) == ("0.6202 in", "0.6202 in", "0 in")
    assert [block["nominal"] for block in stack["blocks"]] == ["0.400 in", "0.1002 in", "0.120 in"]
    assert {"nominal", "length"} <= set(stack["blocks"][0])


def test_serial_and_wear_are_said_of_the_blocks_that_have_them(set_file):
    path = set_file(TWO + "  - {size: 0.050, wear: true, pieces: 2}\n  - {size: 0.4, serial: K-117}\n")
    [stack] = gaugestack("stack", "0.7in", "--wear", "own", "--set", path, "--json").json["stacks"]

    assert [block.get("wear") for block in stack["blocks"]] == [True, None, None, True]
    assert [block.get("serial") for block in stack["blocks"] if block["nominal"].startswith("0.4")] == [
        "K-117"
    ]


def test_an_angle_adds_its_height_and_what_the_stack_achieves():
    form = gaugestack("angle", "7d7m30s", "--bar", "5in", "--set", "inch-81", "--json").json

    assert form["angle_degrees"] == 7.125
    assert form["height"] == "0.62017226 in"
    assert form["achieved_angle_degrees"] == pytest.approx(7.125320, abs=1e-6)
    assert form["error_arcsec"] == pytest.approx(1.154, abs=1e-3)


def test_a_taper_adds_both_angles_and_both_heights_and_labels_its_stacks():
    form = gaugestack("taper", "3in/ft", "--bar", "5in", "--set", "inch-81", "--json").json

    assert form["half_angle_degrees"] == pytest.approx(7.125016348902, abs=1e-11)
    assert form["included_angle_degrees"] == pytest.approx(14.250032697804, abs=1e-11)
    assert (form["half_height"], form["included_height"]) == ("0.62017367 in", "1.23076923 in")
    assert [stack["role"] for stack in form["stacks"]] == ["compound", "inspection"]


@pytest.mark.parametrize(("use", "height"), [("compound", "0.62017367 in"), ("inspection", "1.23076923 in")])
def test_a_taper_for_one_use_has_one_stack(use, height):
    form = gaugestack("taper", "3in/ft", "--bar", "5in", "--for", use, "--json").json

    assert [(stack["role"], stack["target"]) for stack in form["stacks"]] == [(use, height)]


def test_a_set_is_shown_with_one_entry_a_physical_piece(set_file):
    path = set_file(TWO + "  - {size: 0.05, wear: true, pieces: 2}\nabsent: [0.2]\n")
    form = gaugestack("set", "show", path, "--json").json

    assert [(block["nominal"], block["fit_for_use"]) for block in form["blocks"]] == [
        ("0.200 in", False),
        ("0.100 in", True),
        ("0.050 in", True),
        ("0.050 in", True),
    ]


def test_a_set_checked_says_what_it_makes_without_a_gap():
    form = gaugestack("set", "check", "inch-81", "--json").json

    assert form["every_step"][0].endswith(" in")
    assert "every_step" not in gaugestack("set", "show", "inch-81", "--json").json


def test_the_list_names_every_shipped_set_with_pieces_and_source():
    sets = gaugestack("set", "list", "--json").json["sets"]

    assert {"inch-81", "metric-88", "metric-112"} <= {one["name"] for one in sets}
    assert all(one["pieces"] and one["source"] for one in sets)


@pytest.mark.parametrize("command", [["stack", "0.6202in"], ["angle", "5deg", "--bar", "5in"]])
def test_the_default_tolerance_is_half_the_step_and_named(command):
    form = gaugestack(*command, "--set", "inch-81", "--json").json

    assert form["tolerance"] == "0.00005 in"
    assert form["tolerance_reason"] == "half the set's step of 0.0001 in"
    assert "0.00005 in (half the set's" in " ".join(gaugestack(*command, "--set", "inch-81").out.split())


def test_a_height_between_two_grid_points_gets_the_nearer_one():
    [stack] = gaugestack("stack", "0.62017in", "--set", "inch-81", "--json").json["stacks"]

    assert (stack["length"], stack["deviation"]) == ("0.6202 in", "0.00003 in")


def test_tolerance_0_asks_for_exactly_the_height():
    assert gaugestack("stack", "0.62017in", "--tolerance", "0", "--set", "inch-81").code == 1
    assert gaugestack("stack", "0.6202in", "--tolerance", "0", "--set", "inch-81").code == 0


def test_two_arguments_are_two_stacks_of_different_blocks():
    stacks = gaugestack("stack", "0.6202in", "0.7303in", "--set", "inch-81", "--json").json["stacks"]
    used = [block["nominal"] for stack in stacks for block in stack["blocks"]]

    assert [stack["target"] for stack in stacks] == ["0.6202 in", "0.7303 in"]
    assert len(used) == len(set(used))


def test_a_bare_number_takes_the_set_s_unit_and_the_answer_says_so():
    form = gaugestack("stack", "15.752", "--set", "metric-88", "--json").json

    assert form["stacks"][0]["target"] == "15.752 mm"
    assert any("metric-88" in remark for remark in form["remarks"])


def test_without_set_the_environment_counts_and_then_the_default(set_file, monkeypatch):
    assert gaugestack("stack", "0.3in", "--json").json["set"]["name"] == "inch-81"
    monkeypatch.setenv("GAUGESTACK_SET", str(set_file(TWO)))
    assert gaugestack("stack", "0.3in", "--json").json["set"]["name"] == "two"
    assert gaugestack("stack", "0.3in", "--set", "inch-36", "--json").json["set"]["name"] == "inch-36"


def test_the_set_that_was_taken_is_named_on_the_screen():
    assert gaugestack("stack", "0.3in").out.startswith("from inch-81, 81 pieces")


def test_an_impossible_height_is_an_honest_no_with_proof_and_ways_out(set_file):
    done = gaugestack("stack", "0.25in", "--tolerance", "0", "--set", set_file(TWO), "--json")

    assert (done.code, done.err) == (1, "")
    assert done.json["outcome"] == "impossible"
    assert done.json["stacks"] == []
    assert done.json["proof"]
    assert {"below", "above"} <= {way["kind"] for way in done.json["ways_out"]}


def test_an_impossible_angle_is_an_honest_no_on_stdout(set_file):
    done = gaugestack("angle", "30deg", "--bar", "5in", "--set", set_file(TWO))

    assert (done.code, done.err) == (1, "")
    assert "Not possible" in done.out


def test_a_taper_with_one_impossible_set_up_is_an_honest_no(set_file):
    path = set_file("format: 1\nunit: in\nblocks: [{size: 0.62017367}]\n")
    done = gaugestack("taper", "3in/ft", "--bar", "5in", "--tolerance", "1uin", "--set", path, "--json")

    assert (done.code, [stack["role"] for stack in done.json["stacks"]]) == (1, ["compound"])


def test_an_undecided_search_leaves_with_4(monkeypatch):
    outcome = Undecided(best=(), at_least=2, sentence="the limit was reached")
    monkeypatch.setattr(stack_answers, "explained", lambda *_, **__: outcome)
    done = gaugestack("stack", "0.6202in", "--json")

    assert (done.code, done.json["outcome"], done.json["at_least"]) == (4, "undecided", 2)


def test_an_answer_the_judge_refuses_leaves_with_70_and_is_not_shown(monkeypatch):
    monkeypatch.setattr(judge, "broken_rules", lambda *_, **__: ("a block stands in it twice",))
    done = gaugestack("stack", "0.6202in")

    assert (done.code, done.out) == (70, "")
    assert "a block stands in it twice" in done.err
    assert "fault of the program" in done.err


def test_what_nobody_foresaw_leaves_with_70_and_not_with_the_1_of_an_honest_no(monkeypatch):
    monkeypatch.setattr(stack_answers, "explained", lambda *_, **__: 1 // 0)
    done = gaugestack("stack", "0.6202in")

    assert (done.code, done.out) == (70, "")
    assert "ZeroDivisionError" in done.err
    assert "fault of the program" in done.err


def test_a_process_ends_with_the_same_codes_and_keeps_its_streams_apart(tmp_path):
    yes = process("stack", "0.6202in", "--set", "inch-81", "--json")
    no = process("stack", "0.0503in", "--set", "inch-81")
    usage = process("stack", "banana")
    refused = process("stack", "1in", "--set", str(tmp_path / "gone.yaml"))

    assert [done.returncode for done in (yes, no, usage, refused)] == [0, 1, 2, 3]
    assert [bool(done.stdout) for done in (yes, no, usage, refused)] == [True, True, False, False]
    assert [bool(done.stderr) for done in (yes, no, usage, refused)] == [False, False, True, True]


def test_a_process_repeats_its_answer_to_the_byte():
    assert len({process("angle", "7d7m30s", "--bar", "5in", "--json").stdout for _ in range(2)}) == 1


def test_a_terminal_without_drawing_characters_gets_plain_ones():
    done = process("angle", "7d7m30s", "--bar", "5in", PYTHONUTF8="0", PYTHONIOENCODING="ascii")

    assert done.returncode == 0
    assert done.stdout.isascii()
    assert "uin of height" in done.stdout


def test_a_closed_pipe_ends_quietly():
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        [sys.executable, "-m", "gaugestack", "set", "list"],
        cwd=ROOT,
        stdout=writer,
        stderr=subprocess.PIPE,
        check=False,
    )
    os.close(writer)

    assert (done.returncode, done.stderr) == (141, b"")


def test_the_version_is_said():
    done = process("--version")

    assert (done.returncode, done.stdout.split()[0]) == (0, "gaugestack")


def help_texts():
    """Return the command lines of every help text."""
    from gaugestack.cli.commands import PAGES  # noqa: PLC0415

    return [
        line
        for name, page in PAGES.items()
        for line in ([[name]] if isinstance(page, str) else [[name, inner] for inner in page.pages])
    ]


@pytest.mark.parametrize("command", help_texts(), ids=" ".join)
def test_every_command_has_a_help_text_with_an_example(command):
    done = gaugestack(*command, "--help")

    assert done.code == 0
    assert "Example: gaugestack " + command[0] in " ".join(done.out.split())
    assert max(len(line) for line in done.out.splitlines()) <= 80
