"""What `--json` gives is what the schemas say; `closed` ones, so that no field comes without its schema."""

from __future__ import annotations

import json
import shlex
from copy import deepcopy
from functools import cache

import pytest
import typer
from jsonschema import Draft202012Validator

from gaugestack.answers import angleblocks as angle_answers
from gaugestack.answers import job as job_answers
from gaugestack.answers import stack as stack_answers
from gaugestack.cli.commands import app
from gaugestack.stacks.angleblocks import compose_angle
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.request import Undecided
from gaugestack.stacks.sequence import sequence
from gaugestack.stacks.sequencerequest import JobUndecided
from gaugestack.stacks.solve import compose
from tests.docs.test_help_examples import commands as help_commands
from tests.schemas import corpus, write
from tests.schemas.answers import answer_schemas
from tests.schemas.seen import fields, given
from tests.schemas.shapes import STACKS_MAY, closed
from tests.stacks import making as stacks

SCHEMAS = answer_schemas()
STRICT = {name: Draft202012Validator(closed(schema)) for name, schema in SCHEMAS.items()}
OPEN = {name: Draft202012Validator(schema) for name, schema in SCHEMAS.items()}
COMMANDS = corpus.commands()


@cache
def answers():
    """Return the answer of every command of the corpus."""
    bench = corpus.Bench()
    try:
        return {command: bench.answer(*command) for command in COMMANDS}
    finally:
        bench.close()


def name_of(answer):
    return answer["schema"].removeprefix("gaugestack/")


def faults(checker, answer):
    return [f"{'/'.join(map(str, e.absolute_path))}: {e.message}" for e in checker.iter_errors(answer)]


def by_schema():
    """Return one answer of each schema, the longest."""
    found = {}
    for answer in answers().values():
        name = name_of(answer)
        if len(json.dumps(answer)) > len(json.dumps(found.get(name, ""))):
            found[name] = answer
    return found


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_schema_is_one(name):
    Draft202012Validator.check_schema(SCHEMAS[name])


def test_the_files_carried_are_the_schemas_of_the_tests():
    carried = {path.name: path.read_text(encoding="utf-8") for path in write.SHIPPED.iterdir()}

    assert carried == write.files()


@pytest.mark.parametrize("command", COMMANDS, ids=shlex.join)
def test_an_answer_is_what_its_schema_says_and_nothing_more(command):
    answer = answers()[command]

    assert faults(STRICT[name_of(answer)], answer) == []


UNDECIDED = {"best", "at_least", "reason"}
"""Shown by answers that the corpus does not hold: a search must be cut short for them."""


def test_every_field_of_a_schema_is_shown_by_some_answer():
    """What an impossible or undecided stack says has one shape, and is shown of one answer at least."""
    known = set().union(*(fields(name, schema) for name, schema in SCHEMAS.items()))
    seen = {found for a in answers().values() for found in given(name_of(a), SCHEMAS[name_of(a)], a)}
    words = {path.rpartition("/")[2] for _, path in seen}

    unseen = {(owner, path) for owner, path in known - seen if path.rpartition("/")[2] not in STACKS_MAY}

    assert unseen == set()
    assert STACKS_MAY.keys() - words <= UNDECIDED


def test_every_command_with_json_is_among_those_tried():
    with_json = {
        name
        for name, command in help_commands(typer.main.get_command(app))
        if any("--json" in param.opts for param in command.params)
    }
    tried = {name for name in with_json for words in COMMANDS if shlex.join(words).startswith(f"{name} ")}

    assert tried | {"set list", "tapers"} == with_json


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_schema_is_that_of_an_answer(name):
    assert name in by_schema()


def renamed(value):
    """Yield a value again and again, each time with one field named otherwise."""
    if isinstance(value, dict):
        for key, part in value.items():
            rest = {other: field for other, field in value.items() if other != key}
            yield {**rest, f"{key}_": part}
            for changed in renamed(part):
                yield {**value, key: changed}
    if isinstance(value, list) and value:
        for changed in renamed(value[0]):
            yield [changed, *value[1:]]


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_field_named_otherwise_is_noticed_wherever_it_stands(name):
    unnoticed = [changed for changed in renamed(by_schema()[name]) if STRICT[name].is_valid(changed)]

    assert unnoticed == []


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_consumer_s_check_lets_a_new_field_pass_and_misses_an_old_one(name):
    answer = deepcopy(by_schema()[name])
    answer["added_later"] = {"any": ["thing"]}
    assert OPEN[name].is_valid(answer)

    for key in SCHEMAS[name]["required"]:
        assert not OPEN[name].is_valid({other: part for other, part in answer.items() if other != key})


@pytest.mark.parametrize(
    ("field", "wrong"),
    [
        ("tolerance", "0.00005"),
        ("tolerance", "0.000050 in"),
        ("tolerance", 0.00005),
        ("tolerance", "-0.00005 in"),
        ("basis", "nominell"),
        ("outcome", "failed"),
        ("at_hand", "81"),
        ("at_hand", -1),
        ("version", 2),
        ("stacks", {}),
    ],
)
def test_a_value_of_another_kind_is_refused(field, wrong):
    answer = answers()["stack", "1.2345in", "--set", "inch-81"]

    assert OPEN["stack"].is_valid(answer)
    assert not OPEN["stack"].is_valid({**answer, field: wrong})


def told(*words):
    """Return the answer of one command, run anew."""
    bench = corpus.Bench()
    try:
        return bench.answer(*words)
    finally:
        bench.close()


def test_an_undecided_stack_has_its_schema(monkeypatch):
    [found] = compose(stacks.request(5, pool=[stacks.block(2), stacks.block(3)])).stacks
    outcome = Undecided(best=(found,), at_least=2, sentence="the limit was reached")
    monkeypatch.setattr(stack_answers, "explained", lambda *_, **__: outcome)

    answer = told("stack", "0.6202in", "--set", "inch-81")

    assert (answer["outcome"], faults(STRICT["stack"], answer)) == ("undecided", [])


def test_undecided_angle_blocks_have_their_schema(monkeypatch):
    monkeypatch.setattr(
        angle_answers, "compose_angle", lambda request, _: compose_angle(request, Effort(limit=0.0))
    )

    answer = told("angle-blocks", "8d59m", "--set", "angle-16")

    assert (answer["outcome"], faults(STRICT["angle-blocks"], answer)) == ("undecided", [])


def test_an_undecided_job_has_its_schema(monkeypatch):
    def cut_short(request, *effort):
        found = sequence(request, *effort)
        return JobUndecided(plan=found.plan, at_least=found.plan.wrings - 1)

    monkeypatch.setattr(job_answers, "sequence", cut_short)

    answer = told("job", "monday.yaml", "--set", "inch-81")

    assert (answer["outcome"], faults(STRICT["job"], answer)) == ("undecided", [])
