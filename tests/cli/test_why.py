"""`--why` shows what every rule rests on, and without it nothing changes."""

import pytest

from tests.cli.shell import gaugestack

COMMANDS = {
    "stack": ("stack", "0.6202in", "--set", "inch-81"),
    "angle": ("angle", "7d7m30s", "--bar", "5in", "--set", "inch-81"),
    "taper": ("taper", "3in/ft", "--bar", "5in", "--set", "inch-81"),
}


@pytest.mark.parametrize("name", COMMANDS)
def test_without_it_the_screen_is_as_compact_as_ever(name):
    plain = gaugestack(*COMMANDS[name]).out

    assert "at the bench:" not in plain
    assert gaugestack(*COMMANDS[name], "--why").out.startswith(plain)


@pytest.mark.parametrize("name", COMMANDS)
def test_with_it_every_rule_has_its_basis(name):
    out = gaugestack(*COMMANDS[name], "--why").out
    why = out[out.index("why these blocks:") :].splitlines()

    rules, bases = ([line for line in why if line.startswith(lead)] for lead in ("  - ", "    ["))
    assert len(rules) == len(bases) > 10
    assert max(map(len, out.splitlines())) <= 80


def test_it_names_the_soak_and_the_reason_for_it():
    out = gaugestack(*COMMANDS["stack"], "--why").out

    assert "8 h open beside the plate" in out
    assert "20 to 30 min on the metal plate" in out
    assert "US Army TB 9-5210-205-40" in out


def test_steep_work_wants_a_stop():
    assert "Put a stop" in gaugestack(*COMMANDS["angle"], "--why").out
    assert "Put a stop" not in gaugestack("angle", "2d", "--bar", "5in", "--set", "inch-81", "--why").out


def test_a_tall_stack_wants_tie_rods():
    assert "tie rods" in gaugestack("stack", "150mm", "--set", "metric-112", "--why").out
    assert "tie rods" not in gaugestack("stack", "90mm", "--set", "metric-112", "--why").out


@pytest.mark.parametrize("name", COMMANDS)
def test_in_json_the_bench_work_is_added_only_on_request(name):
    assert "bench_work" not in gaugestack(*COMMANDS[name], "--json").json
    form = gaugestack(*COMMANDS[name], "--why", "--json").json

    assert len(form["bench_work"]) == len(form["stacks"])
    assert {"topic", "action", "reason", "basis"} == set(form["bench_work"][0]["advice"][0])


def test_an_impossible_height_has_no_reasons_below_it():
    plain = gaugestack("stack", "0.0503in", "--set", "inch-81")

    assert gaugestack("stack", "0.0503in", "--set", "inch-81", "--why").out == plain.out
