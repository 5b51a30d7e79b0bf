"""Records that were a mistake: struck by later ones, never taken out."""

import datetime as dt

import pytest

from gaugestack.blocks import Trust
from gaugestack.errors import UsageError
from gaugestack.inventory.events import Event, Kind, Record
from gaugestack.inventory.ledger import append, ledger_of_bytes, ledger_path, read_ledger
from gaugestack.inventory.setfile import set_of_text
from gaugestack.inventory.state import calibrations_of, fold, history, jobs_that_used
from gaugestack.inventory.strikes import standing, struck_by
from gaugestack.lengths import Length, Unit, read_length

NOW = dt.datetime(2026, 2, 3, 9, 15)  # noqa: DTZ001  # the ledger's clock is the wall's
DAY = dt.date(2026, 2, 3)
BENCH, _ = set_of_text(
    "format: 1\nname: Bench set\nunit: in\nblocks: [{size: 0.105}, {size: 0.107}, {size: 0.2, serial: A}]\n",
    file="bench.yaml",
)
HEAD = '- {format: 1, ledger of: "Bench set"}\n'


def event(kind, size="0.105in", **details):
    length = read_length(size).length
    return Event(kind=Kind(kind), on=DAY, size=length, unit=Unit.INCH, **details)


def void(number, size="0.105in", **details):
    return event("void", size, record=number, why="a slip", **details)


def numbered(*events):
    return tuple(Record(n=n, event=each, written=NOW) for n, each in enumerate(events, start=1))


def state_of(*events, on=DAY):
    return fold(BENCH, numbered(*events), on).pieces[1]


@pytest.fixture
def bench(tmp_path):
    return tmp_path / "bench.yaml"


def recorded(bench, *events):
    return append(bench, BENCH, events, NOW)


def refused(bench, *events):
    with pytest.raises(UsageError) as caught:
        recorded(bench, *events)
    return [problem.sentence for problem in caught.value.problems]


def test_without_a_void_everything_counts():
    records = numbered(event("missing"), event("found"))

    assert standing(records) == (records, ())
    assert struck_by(records) == {}


def test_a_void_takes_its_record_and_itself_out_of_what_counts():
    records = numbered(event("missing"), event("missing", "0.107in"), void(1))

    assert standing(records) == (records[1:2], ())
    assert struck_by(records) == {1: records[2]}


def test_a_struck_condition_does_not_keep_a_block_from_use():
    lost = event("missing", "0.107in")

    assert not state_of(lost).fit
    assert state_of(lost, void(1, "0.107in")).fit


def test_what_is_struck_later_was_true_on_no_earlier_day():
    late = Event(
        kind=Kind.VOID, on=dt.date(2026, 3, 1), size=read_length("0.107in").length, unit=Unit.INCH,
        record=1, why="a slip",
    )  # fmt: skip

    assert state_of(event("missing", "0.107in"), late, on=DAY).fit


def test_a_struck_job_and_a_struck_calibration_do_not_count():
    measured = {"deviation": Length(25_400), "trust": Trust.OWN_COMPARISON}
    records = numbered(event("used", job="A"), event("used", job="B"), event("calibrated", **measured))
    block = next(block for block in BENCH.blocks if block.engraved == "0.105 in")
    struck = (*records, *[Record(n=n, event=void(n - 3), written=NOW) for n in (4, 6)])

    assert [use.job for use in jobs_that_used(struck, block)] == ["B"]
    assert calibrations_of(BENCH, struck, block) == ()
    assert len(history(struck, block)) == len(struck)


def test_a_void_is_appended_and_read_again(bench):
    recorded(bench, event("missing"))
    recorded(bench, void(1))

    ledger = read_ledger(bench, BENCH)
    assert [record.event.record for record in ledger.records] == [None, 1]
    assert ledger.warnings == ()
    assert ledger_path(bench).read_text().count("\n") == 3


@pytest.mark.parametrize(
    ("number", "size", "sentence"),
    [
        (9, "0.105in", "there is no record 9 before it"),
        (2, "0.107in", "record 2 is about 0.105 in"),
        (1, "0.105in", "record 1 is struck already, by record 3"),
        (3, "0.105in", "record 3 strikes another: record again what it took away"),
    ],
)
def test_a_void_that_strikes_nothing_is_refused(bench, number, size, sentence):
    recorded(bench, event("suspect", why="short"), event("missing"))
    recorded(bench, void(1))

    assert refused(bench, void(number, size)) == [sentence]


def test_a_void_cannot_strike_what_is_recorded_after_it(bench):
    assert refused(bench, void(2), event("missing")) == ["there is no record 2 before it"]


def test_a_void_under_which_a_later_record_is_no_longer_true_is_refused(bench):
    recorded(bench, event("missing"), event("found"))

    assert refused(bench, void(1)) == [
        "record 2, of 2026-02-03, could not be true then: 0.105 in is not missing"
    ]


def test_both_records_can_be_struck_at_once(bench):
    recorded(bench, event("missing"), event("found"))
    recorded(bench, void(1), void(2))

    assert standing(read_ledger(bench, BENCH).records) == ((), ())


def test_a_struck_record_can_be_made_again(bench):
    recorded(bench, event("missing"))
    recorded(bench, void(1))

    assert [record.n for record in recorded(bench, event("missing"))] == [3]


def test_a_void_needs_the_record_and_the_reason(bench):
    assert refused(bench, event("void")) == [
        "void needs why: what is wrong",
        "void needs record: the number of the record to strike",
    ]


def test_no_other_event_strikes_a_record(bench):
    assert refused(bench, event("missing", record=1)) == ["missing has no record"]


def test_a_line_by_hand_without_the_serial_can_be_struck(bench):
    line = '- {n: 1, on: 2026-02-03, event: missing, size: "0.200 in", written: 2026-02-03T09:15:00}\n'
    ledger_path(bench).write_text(HEAD + line, encoding="utf-8")

    (record,) = recorded(bench, void(1, "0.2in"))
    assert record.event.serial == "A"
    assert standing(read_ledger(bench, BENCH).records) == ((), ())


def test_a_void_by_hand_that_strikes_nothing_is_a_warning():
    line = (
        '- {n: 1, on: 2026-02-03, event: void, size: "0.105 in", record: 7, why: "x", '
        "written: 2026-02-03T09:15:00}\n"
    )
    ledger = ledger_of_bytes((HEAD + line).encode(), BENCH, file="bench.ledger.yaml")

    assert [problem.sentence for problem in ledger.warnings] == [
        "void on 2026-02-03, but there is no record 7 before it"
    ]


def test_a_number_of_a_record_by_hand_is_a_whole_number():
    line = '- {n: 1, on: 2026-02-03, event: void, size: "0.105 in", record: x, why: "y", written: z}\n'
    with pytest.raises(Exception, match="record is a whole number"):
        ledger_of_bytes((HEAD + line).encode(), BENCH, file="bench.ledger.yaml")
