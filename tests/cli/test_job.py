"""The command `job`: the set-up sheet, its count of wrings, and everything wrong with a file at once."""

from pathlib import Path

import pytest

from tests.cli.shell import gaugestack

DEMO = Path(__file__).parents[2] / "demo" / "saturday-job.yaml"
TWO = """\
format: 1
name: two spacers
set: inch-81
setups:
  - {name: spacer, height: 0.6202in}
  - {name: next one, height: 0.6203}
"""


@pytest.fixture
def job_file(tmp_path):
    def write(text, name="job.yaml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write


def names(blocks):
    return [block["nominal"] for block in blocks]


def test_a_job_is_planned_in_the_fewest_wrings():
    done = gaugestack("job", DEMO, "--json")

    assert (done.code, done.json["schema"], done.json["outcome"]) == (0, "gaugestack/job", "found")
    assert (done.json["wrings"], done.json["naive_wrings"], done.json["at_least"]) == (5, 12, 5)
    assert sorted(step["setup"] for step in done.json["steps"]) == [1, 2, 3, 4, 5, 6]


def test_every_step_says_what_stays_what_comes_off_and_what_goes_on(job_file):
    first, second = gaugestack("job", job_file(TWO), "--json").json["steps"]

    assert sorted(names(first["add"])) == sorted(names(first["stack"]["blocks"]))
    assert len(second["keep_wrung"]) == 1
    held = [*second["keep_wrung"][0], *second["part"], *second["add"]]
    assert sorted(names(held)) == sorted(names(second["stack"]["blocks"]))
    gone = [name for name in names(first["stack"]["blocks"]) if name not in names(second["stack"]["blocks"])]
    assert sorted(names(second["take_off"])) == sorted(gone)


def test_the_wrings_of_the_steps_add_up():
    form = gaugestack("job", DEMO, "--json").json

    assert sum(step["wrings"] for step in form["steps"]) == form["wrings"]
    assert form["wrings"] <= form["naive_wrings"]


def test_the_sheet_is_read_at_80_columns():
    done = gaugestack("job", DEMO)

    assert "5 wrings in all, 12 with every stack made afresh; no plan takes fewer" in done.out
    assert "counted: a joint made counts one wring" in done.out
    assert "    take off    0.1009 in" in done.out
    assert max(map(len, done.out.splitlines())) <= 80


def test_the_order_of_the_file_is_kept_unless_it_is_free(job_file):
    fixed = gaugestack("job", DEMO, "--order", "fixed", "--json").json
    free = gaugestack("job", DEMO, "--json").json

    assert [step["setup"] for step in fixed["steps"]] == [1, 2, 3, 4, 5, 6]
    assert [step["setup"] for step in free["steps"]] != [1, 2, 3, 4, 5, 6]
    assert free["wrings"] <= fixed["wrings"]
    assert gaugestack("job", job_file(TWO), "--json").json["order"] == "fixed"


def test_angles_and_tapers_become_heights_on_their_bars():
    """5 in x sin(7 degrees 7 minutes 30 seconds) = 0.62017226 in (computed).; 3 in/ft: half of 14.25."""
    steps = {step["name"]: step for step in gaugestack("job", DEMO, "--json").json["steps"]}

    assert steps["jaw angle"]["height"] == "0.62017226 in"
    assert steps["jaw angle"]["bar"]["centre_distance"] == "5 in"
    assert steps["shaft cone"]["for"] == "compound"
    assert abs(steps["shaft cone"]["angle_degrees"] - 7.125016) < 1e-6
    assert "bar" not in steps["spacer"]


def test_a_bare_height_is_read_in_the_unit_of_the_set(job_file):
    assert gaugestack("job", job_file(TWO), "--json").json["steps"][1]["height"] == "0.6203 in"


def test_the_set_of_the_caller_comes_before_the_job_s(job_file):
    path = job_file(TWO.replace("0.6203}", "0.6203in}"))

    assert gaugestack("job", path, "--json").json["set"]["name"] == "inch-81"
    assert gaugestack("job", path, "--set", "inch-88", "--json").json["set"]["name"] == "inch-88"


def test_a_set_file_stands_beside_the_job_file():
    assert gaugestack("job", DEMO, "--json").json["set"]["name"] == "Boatyard inch set"


def test_everything_wrong_with_the_set_ups_is_said_at_once_with_its_place(job_file):
    path = job_file(
        "format: 1\nbar: 6ink\nsetups:\n"
        "  - {name: a, angle: 95d, bar: 5in}\n"
        "  - {name: b, angle: 7d}\n"
        "  - {name: c, angle: 8d}\n"
        "  - {name: d, angle: 0d, bar: 5in}\n"
    )
    done = gaugestack("job", path)

    assert done.code == 3
    assert [line for line in done.err.splitlines() if "job.yaml:" in line] == [
        f"{path}:4:22: a sine bar stands below 90 degrees",
        f"{path}:2:6: 'ink' is not a unit of length",
        f"{path}:7:22: the bar lies flat on the plate: no blocks",
    ]


def test_an_angle_without_a_bar_is_refused_and_with_one_it_is_not(job_file):
    path = job_file("format: 1\nsetups:\n  - {name: a, angle: 7d}\n")

    assert "'a' needs a sine bar" in gaugestack("job", path).err
    assert gaugestack("job", path, "--bar", "5in").code == 0


def test_an_unknown_set_is_shown_where_it_stands(job_file):
    done = gaugestack("job", job_file(TWO.replace("inch-81", "inch-82")))

    assert (done.code, "job.yaml:3:6: no shipped set is called 'inch-82'" in done.err) == (3, True)


def test_all_set_ups_that_cannot_be_made_are_named(job_file):
    path = job_file(
        "format: 1\nset: inch-81\nsetups:\n"
        "  - {name: low, height: 0.0503in}\n  - {name: fine, height: 1in}\n  - {name: high, height: 90in}\n"
    )
    done = gaugestack("job", path, "--json")

    assert (done.code, done.json["outcome"]) == (1, "impossible")
    assert [failure["name"] for failure in done.json["failures"]] == ["low", "high"]
    assert "low: 0.0503in" in gaugestack("job", path).out


def test_an_order_that_is_none_is_refused(job_file):
    assert gaugestack("job", job_file(TWO), "--order", "fre").code == 2


def test_a_block_kept_out_is_in_no_stack():
    form = gaugestack("job", DEMO, "--without", "0.119", "--json").json

    assert "0.119 in" not in [name for step in form["steps"] for name in names(step["stack"]["blocks"])]


def test_an_angle_too_small_for_one_stack_is_told_the_two_that_set_it(job_file):
    text = TWO + "  - {name: slight, angle: 0d12m, bar: 5in}\n"
    done = gaugestack("job", job_file(text))

    assert done.code == 1
    assert "by itself, not in a plan:" in done.out
    assert "one under each roll" in done.out


def test_a_set_up_says_the_angle_its_stack_gives_not_the_one_asked_for(job_file):
    text = TWO + "  - {name: steep, angle: 60d, bar: 5in}\n"
    assert (
        'gives       59°59\'57.8", error -2.2"; 4.3301 in, -27.0 µin off'
        in gaugestack("job", job_file(text)).out
    )


@pytest.fixture
def steep(tmp_path):
    path = tmp_path / "steep.yaml"
    path.write_text(
        "format: 1\nname: Steep\nbar: 5in\nsetups:\n"
        "  - {name: high, angle: 50d}\n  - {name: shank, taper: morse 3, for: inspection}\n"
        "  - {name: nose, taper: 3.5in/ft, for: inspection}\n  - {name: key, taper: flat 1:100}\n",
        encoding="utf-8",
    )
    return path


def test_a_job_says_what_to_take_care_of(steep):
    said = " ".join(gaugestack("job", steep, "--set", "inch-81").out.split())

    assert "CAUTION: high: 50°00'00\" is above 45°" in said
    assert "CAUTION: shank: A self-holding taper holds by friction alone" in said
    assert "CAUTION: nose: A taper that is not self-holding needs positive retention" in said
    assert "CAUTION: key" not in said


def test_the_json_and_the_sheet_of_a_job_say_the_cautions_of_the_screen(steep):
    """Not above 45 degrees, and what keeps a taper in (common practice), wherever the plan is read."""
    given = gaugestack("job", steep, "--set", "inch-81", "--json").json["cautions"]
    screen, sheet = (
        " ".join(gaugestack(*words, steep, "--set", "inch-81").out.split())
        for words in (("job",), ("card", "job"))
    )

    assert {name for one in given for name in one["setups"]} == {"high", "shank", "nose"}
    for one in given:
        said = f"{', '.join(one['setups'])}: {one['sentence']}"
        assert f"CAUTION: {said}" in screen
        assert f"caution {said}" in sheet


def test_the_cautions_of_an_impossible_job_are_in_its_json_too(tmp_path):
    path = tmp_path / "far.yaml"
    path.write_text(
        "format: 1\nname: Far\nbar: 5in\nsetups:\n"
        "  - {name: far, height: 0.0004in}\n  - {name: high, angle: 50d}\n",
        encoding="utf-8",
    )
    found = gaugestack("job", path, "--set", "inch-81", "--json").json

    assert (found["outcome"], [one["setups"] for one in found["cautions"]]) == ("impossible", [["high"]])
