"""The JSON forms and the help of the commands around set-ups; their twins in Python."""

import json

import pytest

import gaugestack as library
from tests.cli.shell import gaugestack

BAR = ["--bar", "5in"]
FORMS = {
    "swing": ["lathe", "swing", "1:20"],
    "offset": ["lathe", "offset", "1:50", "--between", "10in", "--length", "3in"],
    "attachment": ["lathe", "attachment", "1:20", "--scale", "half"],
    "collars": ["lathe", "collars", "1:20", "--difference", "0.1in"],
    "rolls": ["measure", "rolls", "1:20", "--end-diameter", "20mm", "--roll", "6mm", "--stack", "1in"],
    "balls": ["measure", "balls", "--large", "40mm", "--small", "32mm", "--tops", "8mm", "-76mm"],
    "discs": ["measure", "discs", "--discs", "1.5in", "1in", "--gap", "0"],
    "bar-on-part": ["measure", "bar", "1:10", "--low-stack", "1in", *BAR],
    "plate": ["plate", "20deg", "30deg", "--views", "part", "--bottom", "5in"],
    "correct": ["correct", "30deg", "--error", "0d1m", *BAR],
    "from-stack": ["from-stack", "0.25in", *BAR],
    "proof": ["proof", "1:20"],
    "tapers": ["tapers"],
    "taper": ["taper", "flat", "1:12", *BAR],
}


@pytest.mark.parametrize("name", FORMS)
def test_every_answer_is_one_sorted_json_object_with_schema_and_version(name):
    done = gaugestack(*FORMS[name], "--json")
    form = done.json

    assert (done.code, done.err) == (0, "")
    assert (form["schema"], form["version"]) == (f"gaugestack/{name}", 1)
    assert done.out == json.dumps(form, indent=2, sort_keys=True, ensure_ascii=False) + "\n"


@pytest.mark.parametrize("name", FORMS)
def test_every_command_has_an_example_that_runs(name):
    words = FORMS[name][: 1 + (FORMS[name][0] in {"lathe", "measure"})]
    shown = " ".join(gaugestack(*words, "--help").out.replace(" \\\n", " ").split())
    example = shown.partition("Example: gaugestack ")[2]

    assert example
    assert gaugestack(*example.split()).code == 0


@pytest.mark.parametrize(
    "name", [*(name.replace("-", "_") for name in FORMS if name != "bar-on-part"), "bar_on_part"]
)
def test_every_answer_has_its_twin_in_python(name):
    assert name in library.__all__
    assert callable(getattr(library, name))


def test_a_word_from_a_user_cannot_move_the_cursor():
    out = gaugestack("from-stack", "0.25in", *BAR).out + gaugestack("proof", "x\x1b[31m").err

    assert "\x1b" not in out
