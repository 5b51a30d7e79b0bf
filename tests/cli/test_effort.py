"""How long a search goes on: one budget an answer, more with --effort, exit code 4 at its end."""

import pytest

from gaugestack.answers import options
from gaugestack.answers.job import JobChoice
from gaugestack.answers.options import Choice
from gaugestack.errors import UsageError
from gaugestack.stacks.effort import USUAL
from tests.cli.shell import gaugestack

HARD = ("0.3566in", "0.8167in", "2.2994in", "1.7685in", "1.1362in", "1.7364in")


@pytest.fixture
def little_effort(monkeypatch):
    """Make the usual effort end after the first searches."""
    monkeypatch.setattr(options, "USUAL", 0.02)


@pytest.mark.usefixtures("little_effort")
def test_at_the_limit_the_answer_is_undecided_and_says_what_is_known():
    done = gaugestack("stack", *HARD, "--set", "inch-81")

    assert done.code == 4
    assert "Undecided: the limit on effort was reached" in done.out
    assert "blocks are needed" in done.out
    assert "--effort 10 searches ten times as long" in done.out


@pytest.mark.usefixtures("little_effort")
def test_more_effort_decides_what_less_did_not():
    two = ("stack", "0.6202in", "4.1365in", "3.0001in", "--set", "inch-81")

    assert (gaugestack(*two).code, gaugestack(*two, "--effort", "100").code) == (4, 0)


@pytest.mark.usefixtures("little_effort")
def test_an_undecided_answer_repeats():
    assert gaugestack("stack", *HARD, "--json").out == gaugestack("stack", *HARD, "--json").out


@pytest.mark.parametrize("number", ["0", "-1"])
def test_less_than_the_usual_effort_is_refused(number):
    done = gaugestack("stack", "0.6202in", "--effort", number)

    assert done.code == 2
    assert f"--effort: {number} times the usual" in done.err


def test_a_choice_begins_once_and_every_answer_anew():
    choice = Choice(times=3)
    begun = choice.begun()

    assert (begun.effort.limit, choice.effort) == (3 * USUAL, None)
    assert begun.begun() is begun
    assert choice.begun().effort is not begun.effort
    assert begun == choice


def test_the_choice_of_a_job_has_effort_too():
    with pytest.raises(UsageError):
        JobChoice(choice=Choice(times=0)).choice.begun()
