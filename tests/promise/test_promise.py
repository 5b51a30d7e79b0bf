"""The smoke run of the promise, and that what it holds answers against can fail.

Four hundred seeded requests of every kind; the whole run is tests/promise/run.py.
"""

import json
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from random import Random

import pytest

from gaugestack.stacks import preference
from tests.promise import kinds, run
from tests.promise.asks import Ask
from tests.promise.drawers import Drawer, State, drawn, issued
from tests.promise.enumeration import enumerated
from tests.promise.kinds import KINDS, kind_of, run_chunk
from tests.promise.oracles import Oracle
from tests.promise.told import Answer, faults

RUN = Path(__file__).with_name("run.py")
pytestmark = pytest.mark.slow


SMOKE = {
    "one stack, whole and incomplete sets": 60,
    "one stack, taller than the usual": 15,
    "one stack, certified lengths": 30,
    "one stack, small sets": 90,
    "two and three stacks, small sets": 60,
    "two and three stacks": 10,
    "two stacks for a difference, small sets": 60,
    "two stacks for a difference": 15,
    "angle gauge blocks": 30,
}
"""How many requests of each kind are asked here: the slow ones seldom."""


@pytest.mark.parametrize("kind", KINDS)
def test_answers_are_those_of_the_tables(kind):
    chunk = run_chunk(20, 0, size=SMOKE[kind], kind=kind)

    assert chunk.faults == []
    spoke = sum(n for ended, n in chunk.counts.items() if "silent" not in ended and "bound" not in ended)
    assert spoke >= SMOKE[kind] * 0.7, chunk.counts


@pytest.mark.parametrize("kind", ["one stack, whole and incomplete sets", "one stack, certified lengths"])
def test_a_wrong_order_of_preference_is_seen(kind, monkeypatch):
    """The smallest blocks first, where the largest are promised."""
    right = preference._size_digits

    def smallest_first(draft):
        for digit in right(draft):
            yield replace(digit, expression=digit.upper - digit.expression)

    monkeypatch.setattr(preference, "_size_digits", smallest_first)

    assert any("the table says" in fault for fault in run_chunk(20, 0, size=20, kind=kind).faults)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if SMOKE[kind] > 20])
def test_a_better_stack_missed_is_seen_in_every_kind(kind, monkeypatch):
    """The program is not told of every third block."""
    right, with_blocks = kinds.Choice.request, kinds.AngleChoice

    def without_every_third(choice, stock, targets):
        request = right(choice, stock, targets)
        gone = [block for block in request.pool if block not in request.kept_in][::3]
        return replace(request, pool=tuple(block for block in request.pool if block not in gone))

    monkeypatch.setattr(kinds.Choice, "request", without_every_third)
    monkeypatch.setattr(kinds, "AngleChoice", lambda **said: with_blocks(without=("1d",), **said))
    found = run_chunk(20, 1, size=30, kind=kind).faults

    assert any(
        "the table says" in fault or "the table makes it" in fault or "halves" in fault for fault in found
    )


def test_an_answer_that_hangs_on_the_order_of_the_file_is_seen(monkeypatch):
    right, asked = kinds.compose, []

    def every_second_another(request, effort):
        asked.append(request)
        outcome = right(request, effort)
        if len(asked) % 2 or not isinstance(outcome, kinds.Found):
            return outcome
        built = outcome.stacks[0]
        return replace(outcome, stacks=(replace(built, blocks=built.blocks[::-1]),))

    monkeypatch.setattr(kinds, "compose", every_second_another)
    found = run_chunk(20, 0, size=20, kind="one stack, small sets").faults

    assert any("another order" in fault for fault in found)


def test_a_nearest_height_that_is_not_the_nearest_is_seen(monkeypatch):
    right = kinds.nearest_said

    def farther(request, outcome, effort):
        for way in right(request, outcome, effort):
            blocks = [*way.built.blocks, *(block for block in request.pool if block not in way.built.blocks)]
            yield replace(way, built=replace(way.built, blocks=tuple(blocks[: len(way.built.blocks) + 1])))

    monkeypatch.setattr(kinds, "nearest_said", farther)
    found = run_chunk(20, 0, size=20, kind="one stack, small sets").faults

    assert any("is said to be" in fault for fault in found)


INCH = 25_400_000_000
DRAWER = Drawer(name="inch-81", unit="in", pieces=tuple(issued("inch-81")))
BY_TEXT = {piece.text: piece for piece in DRAWER.pieces}
ASK = Ask(unit="in", targets=(INCH * 12345 // 10000,), tolerance=0, pool=DRAWER.pool)
TOLD = Oracle(DRAWER, kinds.USUAL).told(ASK)


def pieces(*texts):
    return tuple(BY_TEXT[text] for text in texts)


def answer(*texts):
    """Return an answer of these blocks of the set of 81, its length said as it is."""
    used = pieces(*texts)
    length = sum(piece.size for piece in used)
    return Answer(ended="found", stacks=(tuple(piece.name for piece in used),), lengths=(length,))


def test_the_right_answer_has_no_fault():
    assert list(faults(ASK, answer("1.000", "0.134", "0.1005"), TOLD)) == []


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        (("1.000", "0.135", "0.1005"), "add up"),
        (("1.000", "0.134", "0.1004"), "add up"),
        (("0.900", "0.134", "0.1005", "0.100"), "the table says"),
        (("0.950", "0.134", "0.1005", "0.050"), "the table says"),
        (("0.134", "0.1005", "1.000", "1.000"), "stands twice"),
        ((), "0 blocks"),
    ],
)
def test_a_planted_fault_is_seen(texts, said):
    assert any(said in fault for fault in faults(ASK, answer(*texts), TOLD))


def test_a_better_stack_of_as_many_blocks_that_was_missed_is_seen():
    few = replace(ASK, targets=(INCH * 4 // 10,), pool=pieces("0.300", "0.250", "0.150", "0.100"))

    assert list(faults(few, answer("0.300", "0.100"), enumerated(few))) == []
    assert any("the table says" in fault for fault in faults(few, answer("0.250", "0.150"), enumerated(few)))


def test_a_wrong_no_and_a_wrong_yes_are_seen():
    impossible = Answer(ended="impossible", proof="table 0")
    never = enumerated(replace(ASK, pool=(BY_TEXT["1.000"],)))

    assert any("said to be impossible" in fault for fault in faults(ASK, impossible, TOLD))
    assert any(
        "shows it impossible" in fault for fault in faults(ASK, answer("1.000", "0.134", "0.1005"), never)
    )


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"pool": tuple(piece for piece in ASK.pool if piece.text != "0.134")}, "may not be used"),
        ({"most": 2}, "3 blocks in a stack"),
        ({"keep": (BY_TEXT["0.050"],)}, "left out"),
        ({"pairs": ((BY_TEXT["2.000"], BY_TEXT["3.000"]),)}, "outermost"),
    ],
)
def test_a_broken_rule_is_seen(changed, said):
    found = faults(replace(ASK, **changed), answer("1.000", "0.134", "0.1005"), replace(TOLD, possible=None))

    assert any(said in fault for fault in found)


def test_the_same_drawer_is_drawn_from_the_same_seed_and_told_two_ways(tmp_path):
    state = State(most=11, certified=True)
    one, other = (drawn(Random(4), "metric-47", state) for _ in range(2))  # noqa: S311  (repeatable)
    as_listed = one.write(tmp_path / "a").read_text(encoding="utf-8")
    shuffled = one.write(tmp_path / "b", Random(1)).read_text(encoding="utf-8")  # noqa: S311  (repeatable)

    assert one == other
    assert as_listed != shuffled
    assert sorted(as_listed.splitlines()[4:]) != as_listed.splitlines()[4:]


def test_every_kind_has_about_its_share():
    drawn_kinds = [kind_of(number) for number in range(2000)]

    assert sum(kind.share for kind in KINDS.values()) == pytest.approx(100)
    for name, kind in KINDS.items():
        assert abs(drawn_kinds.count(name) / 20 - kind.share) < 0.2


def asked(*words):
    return subprocess.run(
        [sys.executable, str(RUN), "--seed", "20", *words],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )


def test_a_run_goes_on_where_it_was_stopped_and_writes_its_figures(tmp_path):
    kept, page = tmp_path / "kept.jsonl", tmp_path / "page.md"
    page.write_text(
        "# Figures\n\n<!-- promise:begin -->\nold\n<!-- promise:end -->\n\nThe end.\n", encoding="utf-8"
    )
    first = asked("--requests", "50", "--kept", str(kept))
    whole = kept.read_text(encoding="utf-8")
    kept.write_text(whole + whole[:40] + "\n", encoding="utf-8")
    again = asked("--requests", "50", "--kept", str(kept), "--write", str(page))

    assert (first.returncode, again.returncode) == (0, 0), first.stderr + again.stderr
    assert kept.read_text(encoding="utf-8") == whole + whole[:40] + "\n"
    assert json.loads(whole)["number"] == 0
    assert "| all | 50 |" in page.read_text(encoding="utf-8")
    assert "old" not in page.read_text(encoding="utf-8")


def test_a_chunk_that_disagreed_is_done_again_and_makes_the_run_fail(tmp_path):
    chunk = run_chunk(20, 0, size=1)
    kept = tmp_path / "kept.jsonl"
    wrong = {**vars(chunk), "faults": ["wrong"], "sources": "0", "on": "2026-11-26"}
    kept.write_text(json.dumps(wrong) + "\n", encoding="utf-8")

    assert run.kept_chunks(kept) == {}
    assert run._report([replace(chunk, faults=["wrong"])]) == 1


def test_a_page_without_marks_is_refused_before_anything_is_asked(tmp_path):
    page = tmp_path / "page.md"
    page.write_text("no marks\n", encoding="utf-8")
    done = asked("--write", str(page))

    assert done.returncode == 2
    assert "<!-- promise:begin -->" in done.stderr
    assert page.read_text(encoding="utf-8") == "no marks\n"
