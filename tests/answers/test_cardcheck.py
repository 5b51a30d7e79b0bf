"""Whether a printed card holds, and what happened since."""

import datetime as dt

import pytest

from gaugestack.answers.cardcheck import check_card, code_in
from gaugestack.answers.fingerprint import fingerprint
from gaugestack.answers.record import record
from gaugestack.answers.stock import load
from gaugestack.answers.told import Told
from gaugestack.errors import UsageError

DAY = dt.date(2026, 11, 25)
NOON = dt.datetime(2026, 11, 25, 12, tzinfo=dt.UTC)
SET = """format: 1
name: Bench
unit: mm
blocks:
  - {from: 1, to: 9, step: 1}
"""


@pytest.fixture
def bench(tmp_path):
    path = tmp_path / "bench.yaml"
    path.write_text(SET, encoding="utf-8")
    return str(path)


def stock(path):
    return load([path], on=DAY)


def told(path, event, size, **details):
    record(Told(event=event, sizes=(size,), on=DAY, **details), name=path, now=NOON)


def test_a_card_holds_while_nothing_happens(bench):
    checked = check_card(fingerprint(stock(bench)), stock(bench))

    assert checked.holds
    assert checked.since == ()


def test_a_lent_block_ends_a_card_and_is_named(bench):
    code = fingerprint(stock(bench))
    told(bench, "lent", "3", to="Ola")
    checked = check_card(code, stock(bench))

    assert not checked.holds
    assert checked.known
    assert [(r.event.kind, r.event.piece) for r in checked.since] == [("lent", "3 mm")]


def test_a_returned_block_lets_the_card_hold_again(bench):
    code = fingerprint(stock(bench))
    told(bench, "lent", "3", to="Ola")
    told(bench, "returned", "3")

    assert check_card(code, stock(bench)).holds


def test_use_alone_does_not_end_a_card(bench):
    code = fingerprint(stock(bench))
    told(bench, "used", "3", job="MT3 socket")

    assert check_card(code, stock(bench)).holds


def test_only_the_records_after_the_card_are_named(bench):
    told(bench, "missing", "2")
    code = fingerprint(stock(bench))
    told(bench, "missing", "5")

    assert [r.event.piece for r in check_card(code, stock(bench)).since] == ["5 mm"]


def test_the_card_of_another_set_is_not_known(bench):
    checked = check_card(fingerprint(load(["metric-88"], on=DAY)), stock(bench))

    assert not checked.holds
    assert not checked.known


@pytest.mark.parametrize(
    "text",
    [
        "K7QF-2M9Z",
        "card code {}, printed",
        '<p class="code">card code <strong>{}</strong>, printed',
        "card\xa0code\xa0{},",
    ],
)
def test_a_code_is_found_in_a_card(text, bench):
    code = fingerprint(stock(bench))

    if "{}" in text:
        assert code_in(text.format(code)) == code
    else:
        with pytest.raises(UsageError, match="a character is wrong"):
            code_in(text)


def test_a_text_without_a_code_is_refused():
    with pytest.raises(UsageError, match="no card code here"):
        code_in("a shopping list")


def test_a_text_with_two_codes_is_refused(bench):
    codes = fingerprint(stock(bench)), fingerprint(load(["metric-88"], on=DAY))

    with pytest.raises(UsageError, match="several card codes"):
        code_in(" ".join(f"card code {code}" for code in codes))
