"""A ledger of format 1, frozen: whatever the program becomes, it reads like this."""

import datetime as dt
from pathlib import Path

from gaugestack.blocks import Trust
from gaugestack.inventory.events import Event, Kind, Record
from gaugestack.inventory.ledger import read_ledger
from gaugestack.inventory.ledgerlines import line_of
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.state import fold
from gaugestack.lengths import PM_PER_INCH, Unit

FILE = Path(__file__).with_name("set.yaml")
SET, _ = load_set(FILE)
LEDGER = read_ledger(FILE, SET)


def test_every_kind_of_event_is_in_the_frozen_ledger():
    assert {record.event.kind for record in LEDGER.records} == set(Kind)
    assert [record.n for record in LEDGER.records] == list(range(1, 21))
    assert LEDGER.warnings == ()


def test_the_torn_line_is_named():
    assert [problem.place.line for problem in LEDGER.torn] == [11]


def test_a_calibration_reads_as_written():
    assert LEDGER.records[1] == Record(
        n=2,
        event=Event(
            kind=Kind.CALIBRATED,
            on=dt.date(2026, 2, 3),
            size=PM_PER_INCH // 10,
            unit=Unit.INCH,
            serial="K-117",
            deviation=-4 * 25_400 - 12_700,
            variation=2 * 25_400,
            uncertainty=3 * 25_400,
            trust=Trust.LABORATORY_REPORT,
            source="report 0117",
        ),
        written=dt.datetime.fromisoformat("2026-02-03T09:16:00"),
    )


def test_a_loan_a_wear_block_and_a_quoted_reason_read_as_written():
    lent, missing, suspect = (LEDGER.records[n - 1].event for n in (3, 5, 15))

    assert (lent.to, lent.back) == ("Ola, boat 4", dt.date(2026, 2, 10))
    assert (missing.size, missing.wear) == (PM_PER_INCH // 20, True)
    assert suspect.why == 'reads "short" on the comparator'


def test_the_records_are_still_written_as_these_lines():
    lines = FILE.with_name("set.ledger.yaml").read_text(encoding="utf-8").splitlines(keepends=True)

    assert [line_of(record) for record in LEDGER.records] == lines[1:10] + lines[11:]


def test_the_state_after_all_of_it_is_this():
    state = fold(SET, LEDGER.records, dt.date(2026, 2, 18))

    assert {piece.block.engraved: piece.reasons for piece in state.unfit} == {
        "0.137 in": ("absent",),
        "0.104 in": ("worn since 2026-02-16", "retired since 2026-02-17"),
        "0.050 in": ("missing since 2026-02-11",),
    }


def test_a_struck_record_reads_as_written_and_counts_no_longer():
    used, void = LEDGER.records[18:]

    assert (void.event.record, void.event.why) == (19, "it was the 0.108")
    state = fold(SET, LEDGER.records, used.event.on)
    assert [piece.uses for piece in state.pieces if piece.block.nominal == used.event.size] == [0]
