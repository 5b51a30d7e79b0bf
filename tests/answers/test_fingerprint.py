"""The short code of a set: what changes it, what does not, and slips in typing it."""

import datetime as dt
from dataclasses import replace

import pytest

from gaugestack.answers.fingerprint import LETTERS, code_of, fingerprint, looks_like_a_code, read_code
from gaugestack.answers.stock import load, stock_of
from gaugestack.blocks import Block, BlockSet
from gaugestack.inventory.setfile import load_set
from gaugestack.lengths import PM_PER_MM, Length, Unit

SET = """format: 1
name: Bench
unit: mm
blocks:
  - {from: 1, to: 3, step: 1}
  - {size: 10}
"""


def bench(**changes):
    blocks = tuple(
        Block(nominal=Length(size * PM_PER_MM), unit=Unit.MILLIMETRE, owner="Bench") for size in (10, 5, 2)
    )
    return replace(BlockSet(name="Bench", unit=Unit.MILLIMETRE, blocks=blocks), **changes)


def code(block_set):
    return fingerprint(stock_of(block_set))


def test_a_code_is_eight_characters_that_are_not_taken_for_others():
    found = code(bench())

    assert len(found) == 9
    assert found[4] == "-"
    assert not set(found) & set("0O1IL")


def test_the_same_set_has_the_same_code_again():
    assert code(bench()) == code(bench())


def test_how_a_file_is_written_does_not_count(tmp_path):
    other = SET.replace("{from: 1, to: 3, step: 1}", "{size: 3.000}\n  - {size: 1}\n  - {size: 2.0}  # note")
    codes = set()
    for name, text in (("one.yaml", SET), ("two.yaml", other)):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        codes.add(code(load_set(path)[0]))

    assert len(codes) == 1


@pytest.mark.parametrize(
    "changes",
    [
        {"name": "Other"},
        {"grade": "0"},
        {"material": "ceramic"},
        {"retire_beyond": Length(1_000_000)},
        {"blocks": bench().blocks[:2]},
        {"blocks": bench().blocks[:2], "absent": bench().blocks[2:]},
        {"blocks": (replace(bench().blocks[0], deviation=Length(1)), *bench().blocks[1:])},
    ],
)
def test_what_a_set_is_changes_its_code(changes):
    assert code(bench(**changes)) != code(bench())


def test_the_day_alone_does_not_change_a_code():
    days = (dt.date(2026, 1, 1), dt.date(2027, 1, 1))

    assert len({fingerprint(load(["inch-81"], on=day)) for day in days}) == 1


def test_the_bars_a_set_describes_count():
    pieces = stock_of(bench()).pieces
    bar = load(["demo/boatyard-inch.yaml"]).bars[:1]

    assert code_of([bench()], bar, pieces) != code_of([bench()], (), pieces)


@pytest.mark.parametrize(
    "typed", [str.lower, str.upper, lambda c: c.replace("-", ""), lambda c: f" {c.replace('-', ' ')} "]
)
def test_a_code_is_read_however_it_is_typed(typed):
    found = code(bench())

    assert read_code(typed(found)) == found


def test_every_single_wrong_character_is_noticed():
    found = code(bench()).replace("-", "")
    wrong = [
        found[:place] + letter + found[place + 1 :]
        for place in range(len(found))
        for letter in LETTERS
        if letter != found[place]
    ]

    assert [word for word in wrong if read_code(word)] == []


def test_two_neighbours_changed_are_noticed():
    found = code(bench()).replace("-", "")
    swapped = [
        found[:i] + found[i + 1] + found[i] + found[i + 2 :] for i in range(6) if found[i] != found[i + 1]
    ]

    assert swapped
    assert [word for word in swapped if read_code(word)] == []


@pytest.mark.parametrize("text", ["", "K7QF", "K7QF-2M9XX", "0000-0000", "card.html"])
def test_what_is_no_code_is_not_read(text):
    assert read_code(text) is None


@pytest.mark.parametrize(
    ("text", "meant"), [("K7QF-2M9X", True), ("k7qf2m9x", True), ("card.txt", False), ("a.html", False)]
)
def test_what_was_meant_as_a_code_is_seen(text, meant):
    assert looks_like_a_code(text) is meant
