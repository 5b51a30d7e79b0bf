"""Every kind of text is tried for some seconds with mutated examples; GAUGESTACK_FUZZ_SECONDS says how many.

What fails is cut down and shown; to follow the coverage, by hand: tests/fuzz/run.py.
"""

import os
import random
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path
from time import monotonic

import pytest

from tests.fuzz import checks
from tests.fuzz.checks import MEASURED, trial
from tests.fuzz.kinds import KINDS
from tests.fuzz.mutations import mutated, smaller
from tests.fuzz.seeds import texts

SECONDS = float(os.environ.get("GAUGESTACK_FUZZ_SECONDS", "2"))
LEAST_TRIED = 20


def fault_of(kind, data, *, measured=False):
    """Return what is wrong with the reading of a text; None where nothing is."""
    try:
        trial(kind, data, measured=measured)
    except Exception as error:  # noqa: BLE001  # whatever it is, it is a fault
        return error
    return None


def cut_down(kind, data, error):
    """Return a shorter text that fails with the same type of error."""
    return smaller(data, lambda less: type(fault_of(kind, less)) is error)


@pytest.mark.parametrize("name", KINDS)
def test_the_texts_the_mutations_begin_from_are_read_or_refused_as_promised(name):
    for data in texts(name):
        trial(KINDS[name], data)


@pytest.mark.slow
@pytest.mark.parametrize("name", KINDS)
def test_a_mutated_text_is_read_or_refused_as_promised(name):
    kind, seeds = KINDS[name], texts(name)
    seed = random.SystemRandom().randrange(10**9)
    chance = random.Random(seed)  # noqa: S311  # no secret
    tried, end = 0, monotonic() + SECONDS
    while monotonic() < end or tried < LEAST_TRIED:
        data = mutated(chance, seeds)
        tried += 1
        fault = fault_of(kind, data, measured=tried % MEASURED == 0)
        if fault:
            pytest.fail(f"seed {seed}, text {tried}: {fault!r}\n{cut_down(kind, data, type(fault))!r}")


def test_a_reader_that_does_not_end_is_given_up(monkeypatch):
    monkeypatch.setattr(checks, "STUCK", 0.2)

    def busy():
        with checks.bounded(measured=False):
            while True:
                pass

    with pytest.raises(checks.TooLong):
        busy()


def test_a_reader_that_takes_much_memory_is_noticed():
    def hungry():
        with checks.bounded(measured=True):
            assert bytearray(checks.MOST_BYTES + 1)

    with pytest.raises(AssertionError, match="bytes"):
        hungry()


def test_a_text_that_fails_is_cut_down_to_what_matters():
    assert smaller(b"abcdefghXijkl" * 9, lambda data: b"X" in data) == b"X"


@pytest.mark.skipif(find_spec("atheris") is not None, reason="the fuzzer is installed")
def test_without_the_fuzzer_its_runner_says_what_to_install():
    runner = Path(__file__).with_name("run.py")
    done = subprocess.run([sys.executable, runner, "length"], capture_output=True, text=True, check=False)

    assert (done.returncode, done.stdout) == (2, "")
    assert "pip install -e '.[test,fuzz]'" in done.stderr
