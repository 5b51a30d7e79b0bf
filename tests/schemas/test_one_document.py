"""What `--json` writes, to a consumer that knows no Python: one strict document, whatever the outcome.

RFC 8259: no NaN and no Infinity (section 6); names of an object unique, or the
outcome is unpredictable (section 4); whole numbers within 2**53 - 1 on either
side interoperate (section 6).
"""

from __future__ import annotations

import json
import shlex
from functools import cache

import pytest

from gaugestack.answers import angleblocks as angle_answers
from gaugestack.stacks.angleblocks import compose_angle
from gaugestack.stacks.effort import Effort
from tests.cli.shell import gaugestack as run
from tests.docs.test_help_examples import COMMANDS
from tests.schemas import corpus

WITHOUT = {
    "schema": "is JSON already",
    "completion": "a script for a shell",
    "card box": "paper",
    "card setup": "paper",
    "card job": "paper",
}
"""Commands without --json, and what they give instead."""
NAMES_OF = {
    name: {option for param in command.params for option in param.opts} for name, command in COMMANDS.items()
}
ANSWERING = [name for name, options in NAMES_OF.items() if "--json" in options]
NEVER_NO = {
    "from-stack", "history", "lathe attachment", "lathe offset", "proof", "record",
    "set buy", "set copy", "set health", "set list", "set matters", "set show", "tapers",
}  # fmt: skip
"""Commands that ask for nothing that could be impossible, and judge nothing."""


@cache
def done():
    """Return how every command of the corpus ended, with --json."""
    bench = corpus.Bench()
    try:
        return {command: bench.done(*command) for command in corpus.commands()}
    finally:
        bench.close()


def once(pairs):
    """Return an object whose names are unique."""
    names = [name for name, _ in pairs]
    assert len(names) == len(set(names)), f"a name twice: {names}"
    return dict(pairs)


def unknown(word):
    raise AssertionError(f"{word} is no JSON")


def whole(digits):
    """Return a whole number that every reader holds exactly."""
    assert abs(int(digits)) < 2**53, digits
    return int(digits)


def document(text):
    """Return the one document a text is, read strictly."""
    return json.loads(text, object_pairs_hook=once, parse_constant=unknown, parse_int=whole)


def name_of(words):
    """Return the command that a command line names."""
    return next(name for name in COMMANDS if f"{shlex.join(words)} ".startswith(f"{name} "))


@pytest.mark.parametrize(
    "text", ['{"a": 1, "a": 2}', "[NaN]", "[-Infinity]", "[9007199254740992]", "{} {}", ""]
)
def test_the_strict_reader_refuses(text):
    with pytest.raises((AssertionError, ValueError)):
        document(text)


def test_every_command_answers_as_json_or_gives_something_else():
    assert set(COMMANDS) - set(ANSWERING) == set(WITHOUT)


@pytest.mark.parametrize("command", corpus.commands(), ids=shlex.join)
def test_stdout_is_one_strict_document_and_stderr_is_silent(command):
    found = done()[command]

    assert found.code in (0, 1)
    assert found.out.endswith("}\n")
    assert document(found.out)["version"] == 1
    assert found.err == ""


def test_an_undecided_answer_is_one_strict_document_too(monkeypatch):
    monkeypatch.setattr(
        angle_answers, "compose_angle", lambda request, _: compose_angle(request, Effort(limit=0.0))
    )

    found = run("angle-blocks", "8d59m", "--set", "angle-16", "--json")

    assert (found.code, found.err) == (4, "")
    assert document(found.out)["outcome"] == "undecided"


def test_an_honest_no_is_among_them_for_every_command_that_has_one():
    noes = {name_of(command) for command, found in done().items() if found.code == 1}

    assert set(ANSWERING) - noes == NEVER_NO


@pytest.mark.parametrize("name", [name for name in ANSWERING if "--set" in NAMES_OF[name]])
def test_a_refused_file_leaves_stdout_empty(name):
    example = shlex.split(COMMANDS[name].epilog.removeprefix("Example: gaugestack "))
    example = shlex.split(name) if name.startswith("set ") else example
    bench = corpus.Bench()
    try:
        found = bench.done(*example, "--set", "nosuch.yaml")
    finally:
        bench.close()

    assert (found.code, found.out) == (3, "")
    assert found.err.startswith("nosuch.yaml:1:1: there is no such file")


@pytest.mark.parametrize("name", ANSWERING)
def test_a_wrong_command_line_leaves_stdout_empty(name):
    bench = corpus.Bench()
    try:
        found = bench.done(*shlex.split(name), "--no-such-option")
    finally:
        bench.close()

    assert (found.code, found.out) == (2, "")
    assert found.err
