"""Which blocks are fit on a day, why the others are not, and what a block was used for."""

import datetime as dt

import pytest

from gaugestack.blocks import Trust
from gaugestack.errors import RefusedFile
from gaugestack.inventory.events import KEYS_OF, Event, Kind, Record
from gaugestack.inventory.setfile import set_of_text
from gaugestack.inventory.state import JobUse, calibrations_of, fold, history, jobs_that_used
from gaugestack.lengths import Length, Unit, read_length
from gaugestack.trend import Calibration

UIN = 25_400
NOW = dt.datetime(2026, 2, 3, 9, 15)  # noqa: DTZ001  # the ledger's clock is the wall's
DAY, NEXT = dt.date(2026, 2, 3), dt.date(2026, 2, 4)
SET = """\
format: 1
name: Bench set
unit: in
retire_beyond: 25 µin
blocks:
  - {size: 0.105}
  - {size: 0.107}
  - {size: 0.109}
  - {size: 0.200, serial: A}
  - {size: 0.200, serial: B}
  - {size: 0.050, pieces: 2, wear: true}
absent: [0.109]
certificate:
  date: 2026-01-15
  source: laboratory report
  uncertainty: {fixed: 3 µin, per_length: 2 µin/in, coverage: 3}
  deviations: {0.105: -3}
"""
BENCH, _ = set_of_text(SET, file="bench.yaml")
DETAILS = {
    "to": "Ola",
    "job": "MT3 socket",
    "why": "scratched",
    "deviation": Length(-4 * UIN),
    "trust": Trust.OWN_COMPARISON,
}


def event(kind, size="0.105in", on=DAY, **details):
    required = {key: DETAILS[key] for key in KEYS_OF[Kind(kind)].required}
    length = read_length(size).length
    return Event(kind=Kind(kind), on=on, size=length, unit=Unit.INCH, **{**required, **details})


def numbered(*events):
    return tuple(Record(n=n, event=each, written=NOW) for n, each in enumerate(events, start=1))


def state_of(*events, size="0.105 in", on=NEXT, job="", block_set=BENCH):
    state = fold(block_set, numbered(*events), on, job)
    return next(piece for piece in state.pieces if piece.block.engraved == size)


def test_without_records_what_is_there_is_fit_and_what_is_absent_is_not():
    state = fold(BENCH, (), DAY)

    assert state.fit == BENCH.blocks
    assert [(piece.block.engraved, piece.reasons) for piece in state.unfit] == [("0.109 in", ("absent",))]
    assert [piece.block for piece in state.pieces] == list(BENCH.issued)


def test_an_absent_block_that_is_found_is_fit():
    assert state_of(event("found", "0.109in"), size="0.109 in").fit


@pytest.mark.parametrize(
    ("kind", "reason"),
    [
        ("missing", "missing since 2026-02-03"),
        ("lent", "lent to Ola since 2026-02-03"),
        ("standing", "standing in MT3 socket since 2026-02-03"),
        ("does not wring", "does not wring since 2026-02-03"),
        ("suspect", "suspect since 2026-02-03: scratched"),
        ("reserved", "reserved for MT3 socket since 2026-02-03"),
        ("worn", "worn since 2026-02-03"),
        ("retired", "retired since 2026-02-03"),
    ],
)
def test_a_block_is_unfit_and_the_reason_is_said(kind, reason):
    piece = state_of(event(kind))

    assert (piece.fit, piece.reasons, piece.since) == (False, (reason,), DAY)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("missing", "found"),
        ("lent", "returned"),
        ("standing", "apart"),
        ("does not wring", "wrings"),
        ("suspect", "cleared"),
        ("reserved", "released"),
    ],
)
def test_a_block_is_fit_again_after_the_closing_event(first, second):
    piece = state_of(event(first), event(second, on=NEXT))

    assert (piece.fit, piece.reasons, piece.since) == (True, (), None)


@pytest.mark.parametrize("kind", ["used", "calibrated", "one good face"])
def test_some_events_leave_a_block_fit(kind):
    assert state_of(event(kind)).fit


def test_a_block_with_one_good_face_is_fit_for_an_end_only():
    piece = state_of(event("one good face"))

    assert (piece.fit, piece.end_only) == (True, True)
    assert not state_of(event("one good face"), event("both faces good")).end_only


def test_the_set_names_the_blocks_for_an_end():
    state = fold(
        BENCH, numbered(event("one good face"), event("one good face", "0.107in"), event("lent")), NEXT
    )

    assert [block.engraved for block in state.end_only] == ["0.107 in"]


def test_a_block_reserved_for_the_job_is_fit_for_it_and_for_no_other():
    assert state_of(event("reserved"), job="MT3 socket").fit
    assert not state_of(event("reserved"), job="sine plate").fit
    assert not state_of(event("reserved")).fit


@pytest.mark.parametrize(
    ("on", "overdue", "reason"),
    [
        (dt.date(2026, 2, 10), False, "lent to Ola since 2026-02-03, back 2026-02-10"),
        (dt.date(2026, 2, 11), True, "lent to Ola since 2026-02-03, back 2026-02-10 (overdue)"),
    ],
)
def test_a_lent_block_is_overdue_after_the_day_it_was_promised(on, overdue, reason):
    piece = state_of(event("lent", back=dt.date(2026, 2, 10)), on=on)

    assert (piece.overdue, piece.reasons, piece.lent_to) == (overdue, (reason,), "Ola")
    assert piece.back_on == dt.date(2026, 2, 10)


def test_a_loan_without_a_promise_is_never_overdue():
    assert not state_of(event("lent"), on=dt.date(2036, 1, 1)).overdue


def test_events_after_the_day_do_not_count():
    assert state_of(event("missing", on=NEXT), on=DAY).fit
    assert not state_of(event("missing", on=NEXT), on=NEXT).fit


def test_the_day_of_an_event_counts_before_its_number():
    assert state_of(event("returned", on=NEXT), event("lent", on=DAY)).fit


def test_events_of_one_day_count_in_the_order_they_were_written():
    assert state_of(event("lent"), event("returned")).fit
    assert not state_of(event("lent"), event("returned"), event("lent")).fit


def test_several_reasons_are_said_in_the_order_they_arose():
    piece = state_of(event("worn", on=NEXT), event("lent"))

    assert piece.reasons == ("lent to Ola since 2026-02-03", "worn since 2026-02-04")
    assert piece.since == DAY


def test_uses_are_counted():
    assert state_of(event("used"), event("used"), event("missing")).uses == 2


def test_a_serial_tells_equal_sizes_apart():
    state = fold(BENCH, numbered(event("missing", "0.2in", serial="B")), NEXT)

    assert [piece.block.serial for piece in state.unfit if piece.block.serial] == ["B"]


def test_wear_blocks_go_one_after_the_other_and_come_back_in_any_order():
    gone = [event("missing", "0.05in", wear=True), event("lent", "0.05in", wear=True)]

    def copies(*events):
        state = fold(BENCH, numbered(*events), NEXT)
        return [piece.fit for piece in state.pieces if piece.block.wear]

    assert copies(gone[0]) == [False, True]
    assert copies(*gone) == [False, False]
    assert copies(*gone, event("found", "0.05in", wear=True)) == [True, False]
    assert copies(*gone, event("returned", "0.05in", wear=True)) == [False, True]


@pytest.mark.parametrize(
    ("first", "second", "fit"),
    [("missing", "lent", False), ("missing", "returned", False), ("lent", "lent", False)],
)
def test_a_record_that_contradicts_never_makes_a_block_fit(first, second, fit):
    assert state_of(event(first), event(second)).fit is fit


def test_of_two_loans_that_contradict_the_first_one_stands():
    piece = state_of(event("lent"), event("lent", on=NEXT, to="Per"))

    assert (piece.lent_to, piece.since) == ("Ola", DAY)


def test_a_contradicting_condition_counts_once_the_other_is_over():
    assert not state_of(event("missing"), event("suspect"), event("found")).fit


# ---- calibrations and the owner's limit


def test_the_newest_calibration_counts():
    piece = state_of(event("calibrated", variation=Length(UIN), uncertainty=Length(2 * UIN)))

    assert (piece.block.deviation, piece.block.variation) == (-4 * UIN, UIN)
    assert piece.block.trust is Trust.OWN_COMPARISON
    assert (piece.calibrated, piece.uncertainty) == (DAY, 2 * UIN)


def test_a_certificate_of_the_set_file_that_is_newer_counts():
    piece = state_of(event("calibrated", on=dt.date(2026, 1, 14)))

    assert (piece.block.deviation, piece.calibrated) == (-3 * UIN, None)
    assert state_of(event("calibrated", on=dt.date(2026, 1, 15))).block.deviation == -4 * UIN


def test_a_certificate_of_a_later_day_was_not_there_yet():
    piece = state_of(event("calibrated", on=dt.date(2026, 1, 10)), on=dt.date(2026, 1, 12))

    assert piece.block.deviation == -4 * UIN


@pytest.mark.parametrize(
    ("deviation", "reasons"),
    [
        (-25, ()),
        (25, ()),
        (-26, ("worn beyond the owner's limit of 25.0 µin: -26.0 µin",)),
        (26, ("worn beyond the owner's limit of 25.0 µin: +26.0 µin",)),
    ],
)
def test_a_block_beyond_the_owners_limit_is_worn(deviation, reasons):
    piece = state_of(event("calibrated", deviation=Length(deviation * UIN)))

    assert (piece.reasons, piece.fit) == (reasons, not reasons)


def test_without_a_limit_of_the_owner_no_deviation_is_too_large():
    bench, _ = set_of_text(SET.replace("retire_beyond: 25 µin\n", ""), file="bench.yaml")

    assert state_of(event("calibrated", deviation=Length(-100 * UIN)), block_set=bench).fit


@pytest.mark.parametrize(
    ("text", "limit"),
    [("25 µin", 25 * UIN), ("25", 25 * UIN), ("0.5 µm", 500_000)],
)
def test_the_owners_limit_is_read_from_the_set_file(text, limit):
    bench, _ = set_of_text(SET.replace("25 µin", text), file="bench.yaml")

    assert bench.retire_beyond == limit


@pytest.mark.parametrize("text", ["0", "-25 µin", "1 mm"])
def test_a_limit_that_cannot_be_is_refused(text):
    with pytest.raises(RefusedFile) as caught:
        set_of_text(SET.replace("25 µin", text), file="bench.yaml")

    assert [str(p.place) + " " + p.sentence for p in caught.value.problems] == [
        "bench.yaml:4:16 retire_beyond lies above 0 and up to 0.1 mm"
    ]


# ---- history

PAST = numbered(
    event("used", job="C", on=dt.date(2026, 3, 1)),
    event("used", job="A", on=dt.date(2026, 1, 1)),
    event("standing", job="B", on=dt.date(2026, 2, 1)),
    event("apart", on=dt.date(2026, 2, 2)),
    event("used", job="A", on=dt.date(2026, 2, 5)),
    event("used", "0.107in", job="D"),
)


def test_the_history_of_a_block_goes_by_its_days():
    block = next(block for block in BENCH.blocks if block.engraved == "0.105 in")

    assert [record.n for record in history(PAST, block)] == [2, 3, 4, 5, 1]


def test_a_serial_has_its_own_history():
    past = numbered(event("used", "0.2in", serial="A"), event("used", "0.2in", serial="B"))
    block = next(block for block in BENCH.blocks if block.serial == "B")

    assert [record.n for record in history(past, block)] == [2]


def test_a_wear_block_has_its_own_history():
    past = numbered(event("used", "0.05in", wear=True))
    block = next(block for block in BENCH.blocks if block.wear)

    assert len(history(past, block)) == 1


def test_the_jobs_that_used_a_block_are_named_with_their_days():
    block = next(block for block in BENCH.blocks if block.engraved == "0.105 in")

    assert jobs_that_used(PAST, block) == (
        JobUse(job="A", first=dt.date(2026, 1, 1), last=dt.date(2026, 2, 5)),
        JobUse(job="B", first=dt.date(2026, 2, 1), last=dt.date(2026, 2, 1)),
        JobUse(job="C", first=dt.date(2026, 3, 1), last=dt.date(2026, 3, 1)),
    )


def test_only_the_jobs_since_a_day_are_asked_for():
    block = next(block for block in BENCH.blocks if block.engraved == "0.105 in")

    assert [use.job for use in jobs_that_used(PAST, block, since=dt.date(2026, 2, 1))] == ["B", "A", "C"]
    assert [use.job for use in jobs_that_used(PAST, block, since=dt.date(2026, 2, 2))] == ["A", "C"]


def test_the_calibrations_of_a_block_are_those_of_the_set_file_and_the_ledger():
    past = numbered(
        event("calibrated", on=NEXT, uncertainty=Length(2 * UIN)),
        event("calibrated", on=dt.date(2025, 1, 1), deviation=Length(0)),
        event("used"),
        event("calibrated", "0.107in"),
    )
    block = next(block for block in BENCH.blocks if block.engraved == "0.105 in")
    # (3 µin + 2 µin/in x 0.105 in) x 2 / 3 = 2.14 µin
    certificate = Calibration(on=dt.date(2026, 1, 15), deviation=Length(-3 * UIN), uncertainty=Length(54_356))

    assert calibrations_of(BENCH, past, block) == (
        Calibration(on=dt.date(2025, 1, 1), deviation=Length(0)),
        certificate,
        Calibration(on=NEXT, deviation=Length(-4 * UIN), uncertainty=Length(2 * UIN)),
    )


def test_a_certificate_that_was_recorded_too_counts_once():
    past = numbered(event("calibrated", on=dt.date(2026, 1, 15), deviation=Length(-3 * UIN)))
    block = next(block for block in BENCH.blocks if block.engraved == "0.105 in")

    assert len(calibrations_of(BENCH, past, block)) == 1
    assert len(calibrations_of(BENCH, (), block)) == 1


def test_a_block_without_a_deviation_has_no_calibration():
    block = next(block for block in BENCH.blocks if block.engraved == "0.107 in")

    assert calibrations_of(BENCH, (), block) == ()


def test_a_calibration_of_the_ledger_is_not_taken_for_one_of_the_set_file():
    past = numbered(event("calibrated"))
    known = state_of(event("calibrated")).block

    assert [c.deviation for c in calibrations_of(BENCH, past, known)] == [-3 * UIN, -4 * UIN]
