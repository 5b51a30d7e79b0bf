"""How well a stack and an angle are known, through the command."""

import json
import subprocess
import sys

import pytest

from tests.cli.budgetscreens import GOLDEN, SCREENS, screen
from tests.cli.shell import gaugestack

GRADED = """\
format: 1
name: Graded
unit: mm
standard: ISO 3650
grade: "0"
blocks:
  - {from: 1.001, to: 1.009, step: 0.001}
  - {from: 1.01, to: 1.49, step: 0.01}
  - {from: 10, to: 100, step: 10}
bars:
  - {name: bench, centre_distance: 100}
"""
CERTIFIED = """\
format: 1
name: Certified
unit: mm
blocks: [{size: 10}, {size: 20}, {size: 30}]
certificate:
  number: demo-1
  date: 2026-01-01
  source: laboratory report
  uncertainty: {fixed: 0.05 µm, per_length: 0.5 µm/m, coverage: 2}
  deviations: {10: +0.1, 20: -0.2, 30: 0}
"""
STILL = ["--temperature-limit", "0K", "--warmth-limit", "0K"]


@pytest.fixture
def graded(set_file):
    return ["--set", set_file(GRADED, "graded.yaml")]


@pytest.fixture
def certified(set_file):
    return ["--set", set_file(CERTIFIED, "certified.yaml"), "--on", "2026-01-01"]


@pytest.mark.parametrize("name", SCREENS)
def test_a_screen_is_as_it_was_last_looked_at(name):
    assert screen(name) == (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", SCREENS)
def test_no_line_of_a_screen_is_wider_than_80_columns(name):
    assert [line for line in screen(name).splitlines() if len(line) > 80] == []


def test_every_kept_screen_has_its_command():
    assert {path.stem for path in GOLDEN.glob("*.txt")} == set(SCREENS)


def test_the_form_holds_every_component_and_their_shares_sum_to_one(graded):
    done = gaugestack("budget", "stack", "41.25", *graded, "--json")
    form = done.json
    [budget] = form["budgets"]

    assert (done.code, form["schema"], form["version"]) == (0, "gaugestack/budget", 1)
    assert done.out == json.dumps(form, indent=2, sort_keys=True, ensure_ascii=False) + "\n"
    assert sum(row["share"] for row in budget["components"]) == pytest.approx(1)
    assert sum(row["contribution"] ** 2 for row in budget["components"]) == pytest.approx(
        budget["combined"] ** 2
    )
    assert budget["expanded"] == pytest.approx(budget["k"] * budget["combined"])
    assert {"distribution", "divisor", "degrees_of_freedom", "sensitivity", "source"} <= set(
        budget["components"][0]
    )


def test_every_circumstance_is_printed_and_marked_where_nobody_gave_it(graded):
    lines = gaugestack(
        "budget", "stack", "30", "--temperature", "20C", "--part-material", "brass", *graded, "--json"
    ).json["circumstances"]

    assert lines[0] == "room 20 °C, right within 2 K (room limit assumed)"
    assert "brass" in lines[2]
    assert "brass (assumed)" not in lines[2]
    assert lines[1].endswith("(assumed)")


# By hand: one block of 30 mm, U = 0.05 + 0.5e-6 x 30 mm = 65 nm, k = 2, nothing else in doubt.
def test_a_certificate_alone_gives_its_own_uncertainty_back(certified):
    form = gaugestack("budget", "stack", "30", "--film", "0mm", *STILL, *certified, "--json").json

    assert form["basis"] == "certified"
    assert form["budgets"][0]["expanded"] == pytest.approx(65, abs=1e-3)


# By hand: 10 and 20 mm, 55 and 60 nm: together 115 nm, alone the root of 55^2 + 60^2.
@pytest.mark.parametrize(("shared", "expanded"), [("1", 115), ("100%", 115), ("0", 81.394), ("0%", 81.394)])
def test_how_much_a_certificate_s_blocks_go_wrong_together_can_be_switched(certified, shared, expanded):
    form = gaugestack(
        "budget", "stack", "30", "--without", "30", "--film", "0mm", *STILL, "--shared", shared, *certified,
        "--json",
    ).json  # fmt: skip

    assert form["budgets"][0]["expanded"] == pytest.approx(expanded, abs=1e-2)


def test_k_can_be_fixed(certified):
    of = lambda k: gaugestack("budget", "stack", "30", "--k", k, *certified, "--json").json["budgets"][0]  # noqa: E731

    assert of("3")["expanded"] == pytest.approx(1.5 * of("2")["expanded"])
    assert (of("3")["k"], of("3")["probability"]) == (3, None)


# ISO 14253-1 with U as guard band; U is 65 nm here and the deviation 0.
@pytest.mark.parametrize(
    ("height", "tolerance", "code", "verdict"),
    [("30", "0.1um", 0, "yes"), ("30", "0.05um", 4, "cannot tell"), ("29.999", "0.5um", 1, "no")],
)
def test_a_drawing_s_tolerance_is_decided_and_the_exit_code_says_it(
    certified, height, tolerance, code, verdict
):
    done = gaugestack(
        "budget", "stack", height, "--tolerance", "2um", "--film", "0mm", *STILL, *certified,
        "--drawing-tolerance", tolerance, "--json",
    )  # fmt: skip

    assert (done.code, done.json["budgets"][0]["decision"]["verdict"]) == (code, verdict)


def test_a_decision_tells_the_ratio_and_what_to_improve_first(graded):
    done = gaugestack("budget", "stack", "30", "--drawing-tolerance", "2um", *graded)

    assert "times the uncertainty" in done.out
    assert "improve first" in done.out


def test_an_impossible_height_is_an_honest_no(graded):
    done = gaugestack("budget", "stack", "0.7", *graded)

    assert (done.code, done.err) == (1, "")
    assert "Not possible" in done.out


# 5 K hand-warm steel blocks, 50 mm on a 100 mm bar: 11.5e-6 x 5 x tan 30 degrees is 6.8 to 6.9 seconds.
def test_a_hand_warm_stack_moves_30_degrees_by_6_9_seconds(graded):
    form = gaugestack(
        "budget", "angle", "30deg", "--bar", "bench", "--blocks-above", "5K", *graded, "--json"
    ).json

    assert form["budgets"][0]["shift"] == pytest.approx(6.85, abs=0.06)


def test_steel_bar_and_blocks_at_one_temperature_do_not_move_the_angle_at_all(graded):
    form = gaugestack(
        "budget", "angle", "30deg", "--bar", "100mm", "--temperature", "31C", *graded, "--json"
    ).json

    assert form["budgets"][0]["shift"] == 0


# Computed from 3 µm on 100 mm (IS 5359:1969, as quoted in a textbook): 0.5 and 6.2 seconds as limits.
@pytest.mark.parametrize(("angle", "limit"), [("5deg", 0.541), ("45deg", 6.188)])
def test_a_bar_s_tolerance_grows_with_the_tangent(graded, angle, limit):
    form = gaugestack("budget", "angle", angle, "--bar", "100mm", *graded, "--json").json
    [row] = [r for r in form["budgets"][0]["components"] if r["name"] == "centre distance of the bar"]

    assert abs(row["value"] * row["sensitivity"]) == pytest.approx(limit, abs=1e-3)


# A second of arc is 4.85e-6, so U seconds over 50 mm are U x 242.4 nm.
def test_an_angle_is_told_as_a_taper_error_over_a_length(graded):
    form = gaugestack("budget", "angle", "30deg", "--bar", "100mm", "--over", "50mm", *graded, "--json").json
    budget = form["budgets"][0]
    micrometres = float(budget["taper_error"].split(" ")[0])

    assert budget["taper_error"].endswith("over 50 mm of the work")
    assert micrometres == pytest.approx(budget["expanded"] * 0.2424, rel=0.06)


def test_two_stacks_under_both_rolls_are_one_angle_with_one_budget(graded):
    form = gaugestack("budget", "angle", "0d5m", "--bar", "100mm", *graded, "--json").json
    [budget] = form["budgets"]
    signs = {row["sensitivity"] > 0 for row in budget["components"] if row["name"].startswith("grade")}

    assert len(form["stacks"]) == 2
    assert signs == {True, False}
    assert abs(budget["off_at_20"]) < 2
    assert "low roll" in gaugestack("budget", "angle", "0d5m", "--bar", "100mm", *graded).out


@pytest.mark.parametrize(("tolerance", "code"), [("1m", 0), ("4s", 4)])
def test_an_angle_s_tolerance_is_decided_in_seconds(graded, tolerance, code):
    done = gaugestack("budget", "angle", "30deg", "--bar", "100mm", "--drawing-tolerance", tolerance, *graded)

    assert done.code == code


# By hand: aluminium 23.1e-6, steel 11.5e-6, 10 K: 100 mm part grows 11.6 µm more than its stack.
def test_the_target_is_corrected_where_part_and_blocks_differ(graded):
    form = gaugestack(
        "budget", "stack", "100", "--temperature", "30C", "--part-material", "aluminium",
        "--correct-temperature", *graded, "--json",
    ).json  # fmt: skip

    assert form["asked"] == ["100 mm"]
    assert float(form["laid"][0].split()[0]) == pytest.approx(100.0116, abs=2e-5)
    budget = form["budgets"][0]
    assert budget["shift"] == pytest.approx(-11600, rel=2e-3)
    assert budget["stands_off"] == pytest.approx(budget["off_at_20"] + budget["shift"])


def test_without_a_correction_the_height_stays_and_the_shift_is_told(graded):
    form = gaugestack(
        "budget", "stack", "100", "--temperature", "30C", "--part-material", "aluminium", *graded, "--json"
    ).json

    assert form["laid"] == form["asked"] == ["100 mm"]
    assert form["budgets"][0]["stands_off"] == pytest.approx(-11600, rel=2e-3)


def test_a_warm_sine_height_is_corrected_so_that_the_angle_stands_right(graded):
    options = ["budget", "angle", "30deg", "--bar", "100mm", "--blocks-above", "5K", *graded, "--json"]
    plain, corrected = (
        gaugestack(*options, *more).json["budgets"][0] for more in ([], ["--correct-temperature"])
    )

    assert plain["stands_off"] == pytest.approx(6.85, abs=0.06)
    assert abs(corrected["stands_off"]) < abs(plain["stands_off"])


def test_the_least_uncertainty_is_said_with_its_proof(graded):
    form = gaugestack("budget", "stack", "41.25", "--least-uncertainty", *graded, "--json").json

    assert form["search"]["proven"]
    assert "no stack of more blocks can be known better" in form["search"]["sentence"]
    assert form["search"]["expanded"] <= form["search"]["expanded_of_usual_stack"]


def test_the_fewest_blocks_within_a_limit_are_the_usual_stack_where_that_keeps_it(graded):
    usual = gaugestack("stack", "41.25", *graded, "--json").json["stacks"]
    form = gaugestack("budget", "stack", "41.25", "--within-uncertainty", "5um", *graded, "--json").json

    assert form["stacks"] == [{k: v for k, v in usual[0].items() if k != "uncertainty"}]
    assert form["search"]["met"]


def test_a_limit_that_no_stack_keeps_is_an_honest_no(graded):
    done = gaugestack("budget", "stack", "41.25", "--within-uncertainty", "1nm", *graded, "--json")

    assert (done.code, done.json["search"]["met"], done.json["search"]["proven"]) == (1, False, True)


WRONG = {
    "68 for °F": (["--temperature", "68"], "68: °F? (68 °F is 20 °C)"),
    "68 °C": (["--temperature", "68C"], "68 °F?"),
    "20 without a scale": (["--temperature", "20"], "20: °C?"),
    "a limit below zero": (["--temperature-limit", "-1K"], "cannot be below zero"),
    "a limit of what": (["--warmth-limit", "1"], "of what: K, °C or °F?"),
    "k of zero": (["--k", "0"], "k of 0: it is above zero"),
    "k below zero": (["--k", "-2"], "it is above zero"),
    "k of words": (["--k", "two"], "'two' is no number"),
    "a film below zero": (["--film", "-5nm"], "cannot be below zero"),
    "a film without a unit": (["--film", "25"], "a unit is missing"),
    "no material": (["--part-material", ""], "which material?"),
    "an unknown material": (["--part-material", "aluminum foil"], "no expansion coefficient"),
    "a block material without growth": (["--block-material", "steel"], "is no material with its growth"),
    "more than all": (["--shared", "150%"], "all together"),
    "no tolerance": (["--drawing-tolerance", "0"], "above zero"),
    "within zero": (["--within-uncertainty", "0mm"], "within zero"),
    "two choices": (["--least-uncertainty", "--within-uncertainty", "1um"], "one of the two"),
}


@pytest.mark.parametrize("name", WRONG)
def test_bad_input_is_refused_with_a_sentence(graded, name):
    options, sentence = WRONG[name]
    done = gaugestack("budget", "stack", "30", *options, *graded)

    assert (done.code, done.out) == (2, "")
    assert sentence in done.err
    assert done.err.startswith(options[0])


def test_a_number_between_odd_blanks_is_read(graded):
    assert gaugestack("budget", "stack", "30", "--k", "\x1f2\xa0", *graded).code == 0


@pytest.mark.parametrize(
    ("option", "text"),
    [("--bar-limit", "-3um"), ("--drawing-tolerance", "10"), ("--yaw", "2h"), ("--over", "x")],
)
def test_bad_input_about_an_angle_is_refused_by_its_option(graded, option, text):
    done = gaugestack("budget", "angle", "30deg", "--bar", "100mm", option, text, *graded)

    assert (done.code, done.out) == (2, "")
    assert done.err.startswith(option)


def test_several_heights_are_not_chosen_by_their_uncertainty(graded):
    assert gaugestack("budget", "stack", "20", "30", "--least-uncertainty", *graded).code == 2


def test_a_set_that_tells_nothing_is_refused_with_what_it_lacks():
    done = gaugestack("budget", "stack", "30", "--set", "metric-88")

    assert (done.code, done.out) == (2, "")
    assert "nothing says how far the block" in done.err
    assert "a standard and a grade" in done.err


def test_blocks_of_a_material_nobody_knows_are_refused_with_the_known_ones(set_file):
    path = set_file(GRADED.replace('grade: "0"', 'grade: "0"\nmaterial: unobtainium'))
    done = gaugestack("budget", "stack", "30", "--set", path)

    assert done.code == 2
    assert "unobtainium" in done.err
    assert gaugestack("stack", "30", "--set", path).code == 0


def test_a_material_of_one_s_own_can_be_given(set_file):
    path = set_file(GRADED.replace('grade: "0"', 'grade: "0"\nmaterial: unobtainium'))
    done = gaugestack("budget", "stack", "30", "--set", path, "--block-material", "unobtainium=9+-1")

    assert done.code == 0


def test_a_stack_says_in_one_line_how_well_it_is_known_once_its_set_tells_enough(graded):
    done = gaugestack("stack", "41.25", *graded)
    form = gaugestack("stack", "41.25", *graded, "--json").json["stacks"][0]["uncertainty"]

    assert [line for line in done.out.splitlines() if line.startswith("  right within ")]
    assert f"right within {form['expanded']} (95%)" in done.out
    assert "20 °C within 2 K" in form["assumed"]


def test_a_certificate_without_a_grade_tells_of_the_certified_length(certified):
    stack = gaugestack("stack", "30", *certified, "--json").json["stacks"][0]

    assert stack["uncertainty"]["basis"] == "certified"


def test_an_angle_says_in_one_line_how_well_it_is_known(graded):
    done = gaugestack("angle", "30deg", "--bar", "100mm", *graded)
    form = gaugestack("angle", "30deg", "--bar", "100mm", *graded, "--json").json

    assert f"right within {form['uncertainty']['expanded']} (95%)" in done.out


@pytest.mark.parametrize("command", [["stack", "15.75"], ["angle", "30deg", "--bar", "100mm"]])
def test_a_set_that_tells_nothing_adds_nothing(command):
    done = gaugestack(*command, "--set", "metric-88")

    assert "right within" not in done.out
    assert "uncertainty" not in gaugestack(*command, "--set", "metric-88", "--json").out


def test_a_plain_stack_of_a_set_that_tells_nothing_loads_nothing_of_uncertainty():
    program = (
        "import sys; sys.argv = ['gaugestack', 'stack', '15.75', '--set', 'metric-88']\n"
        "from gaugestack.cli.main import main\n"
        "try: main()\n"
        "finally: print(*sys.modules, file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)

    assert [name for name in done.stderr.split() if name.startswith("gaugestack.uncertainty")] == []
    assert "gaugestack.answers.stack" in done.stderr


@pytest.mark.parametrize("command", ["stack", "angle"])
def test_each_command_has_a_help_text_with_an_example(command):
    done = gaugestack("budget", command, "--help")

    assert done.code == 0
    assert f"Example: gaugestack budget {command}" in " ".join(done.out.split())
    assert max(len(line) for line in done.out.splitlines()) <= 80
