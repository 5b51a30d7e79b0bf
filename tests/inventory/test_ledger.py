"""The ledger: what it takes, what it refuses, and what stands in the file."""

import datetime as dt
import time
from dataclasses import replace

import pytest
import yaml

from gaugestack.blocks import Trust
from gaugestack.errors import RefusedFile, UsageError
from gaugestack.inventory import ledger
from gaugestack.inventory.events import KEYS_OF, TRUSTS, Event, Kind, Record, faults_of
from gaugestack.inventory.ledger import append, ledger_of_bytes, ledger_path, read_ledger
from gaugestack.inventory.ledgerlines import (
    decoded,
    deviation_text,
    head_line,
    is_torn_head,
    is_torn_record,
    line_of,
)
from gaugestack.inventory.setfile import set_of_text
from gaugestack.lengths import Length, Unit, read_length

NOW = dt.datetime(2026, 2, 3, 9, 15)  # noqa: DTZ001  # the ledger's clock is the wall's
DAY = dt.date(2026, 2, 3)
SET = """\
format: 1
name: Bench set
unit: in
blocks:
  - {from: 0.101, to: 0.109, step: 0.001}
  - {size: 0.050, pieces: 2, wear: true}
  - {size: 0.500, serial: K-117}
  - {size: 0.600, serial: A}
  - {size: 0.600, serial: B}
  - {size: 1.000, pieces: 2}
absent: [0.109]
"""
BENCH, _ = set_of_text(SET, file="bench.yaml")
HEAD = '- {format: 1, ledger of: "Bench set"}\n'
TAIL = "written: 2026-02-03T09:15:00}\n"
DETAILS = {
    "to": "Ola",
    "back": dt.date(2026, 2, 10),
    "job": "MT3 socket",
    "why": "scratched",
    "deviation": Length(-4 * 25_400),
    "variation": Length(2 * 25_400),
    "uncertainty": Length(25_400),
    "trust": Trust.OWN_COMPARISON,
    "source": "comparator, against the laboratory's own",
    "record": 1,
}


def event(kind, size="0.105in", on=DAY, **details):
    required = {key: DETAILS[key] for key in KEYS_OF[Kind(kind)].required}
    length = read_length(size).length
    return Event(kind=Kind(kind), on=on, size=length, unit=Unit.INCH, **{**required, **details})


def read(text):
    return ledger_of_bytes(text.encode(), BENCH, file="bench.ledger.yaml")


def record(n, middle, tail=TAIL):
    return f"- {{n: {n}, on: 2026-02-03, {middle}, {tail}"


def problems(text):
    with pytest.raises(RefusedFile) as caught:
        read(text)
    return [f"{p.place.line}:{p.place.column} {p.sentence}" for p in caught.value.problems]


@pytest.fixture
def bench(tmp_path):
    path = tmp_path / "bench.yaml"
    path.write_text(SET, encoding="utf-8")
    return path


def refusal(path, *events):
    with pytest.raises(UsageError) as caught:
        append(path, BENCH, events, NOW)
    return [f"{p.place}: {p.sentence}" for p in caught.value.problems]


# ---- the file


def test_the_ledger_lies_beside_its_set_file():
    assert str(ledger_path("sets/bench.yaml")) == "sets/bench.ledger.yaml"


def test_a_set_without_a_ledger_has_an_empty_one(bench):
    ledger = read_ledger(bench, BENCH)

    assert (ledger.records, ledger.torn, ledger.warnings) == ((), (), ())


def test_an_empty_file_is_an_empty_ledger(bench):
    ledger_path(bench).touch()

    assert read_ledger(bench, BENCH).records == ()
    assert append(bench, BENCH, [event("missing")], NOW)[0].n == 1


def test_the_file_holds_a_head_and_one_line_a_record(bench):
    append(bench, BENCH, [event("lent", to="Ola, boat 4", back=dt.date(2026, 2, 10))], NOW)
    append(bench, BENCH, [event("used", "0.5in")], NOW)

    assert ledger_path(bench).read_text(encoding="utf-8") == (
        '- {format: 1, ledger of: "Bench set"}\n'
        '- {n: 1, on: 2026-02-03, event: lent, size: "0.105 in", to: "Ola, boat 4", back: 2026-02-10, '
        "written: 2026-02-03T09:15:00}\n"
        '- {n: 2, on: 2026-02-03, event: used, size: "0.500 in", serial: "K-117", job: "MT3 socket", '
        "written: 2026-02-03T09:15:00}\n"
    )


def test_what_is_written_is_only_ever_added_to(bench):
    append(bench, BENCH, [event("missing")], NOW)
    before = ledger_path(bench).read_bytes()
    append(bench, BENCH, [event("found")], NOW)

    assert ledger_path(bench).read_bytes().startswith(before)


def test_the_whole_file_is_valid_yaml(bench):
    nasty = 'quote " backslash \\ colon: hash # brace } µ 測 🙂'
    append(bench, BENCH, [event("suspect", why=nasty), event("calibrated", "0.5in", **measured())], NOW)

    nodes = yaml.safe_load(ledger_path(bench).read_text(encoding="utf-8"))

    assert [next(iter(node)) for node in nodes] == ["format", "n", "n"]
    assert nodes[1]["why"] == nasty


def measured():
    return {key: DETAILS[key] for key in ("deviation", "variation", "uncertainty", "trust", "source")}


@pytest.mark.parametrize("kind", list(Kind))
def test_every_kind_of_event_reads_back_as_it_was_written(kind):
    keys = KEYS_OF[kind]
    details = {key: DETAILS[key] for key in (*keys.required, *keys.optional)}
    written = Record(n=1, event=event(kind, "0.5in", serial="K-117", **details), written=NOW)
    line = line_of(written)

    quick = read(HEAD + line).records
    careful = read(HEAD + line.replace(", on:", ",  on:")).records

    assert quick == careful == (written,)


@pytest.mark.parametrize(
    ("deviation", "unit", "text"),
    [
        (-4 * 25_400, Unit.INCH, "-4 µin"),
        (25_400 // 2, Unit.INCH, "+0.5 µin"),
        (0, Unit.INCH, "0 µin"),
        (120_000, Unit.MILLIMETRE, "+0.12 µm"),
        (1, Unit.INCH, "0.000000001 mm"),
    ],
)
def test_a_deviation_is_written_exactly(deviation, unit, text):
    assert deviation_text(Length(deviation), unit) == text
    assert read_length(text, signed=True).length == deviation


def test_several_events_are_one_write(bench, monkeypatch):
    writes = []
    monkeypatch.setattr(
        "gaugestack.inventory.ledgerfile.os.write", lambda _, data: writes.append(data) or 9999
    )
    append(bench, BENCH, [event("missing"), event("missing", "0.106in")], NOW)

    assert [write.count(b"\n") for write in writes] == [3]


def test_no_event_writes_nothing(bench):
    assert append(bench, BENCH, [], NOW) == ()
    assert read_ledger(bench, BENCH).records == ()


def test_a_refused_event_makes_no_file(bench):
    refusal(bench, event("found"))

    assert not ledger_path(bench).exists()


def test_an_acknowledged_record_says_what_was_written(bench):
    (acknowledged,) = append(bench, BENCH, [event("missing", "0.5in")], NOW)

    assert (acknowledged.event.serial, acknowledged.written) == ("K-117", NOW)
    assert read_ledger(bench, BENCH).records == (acknowledged,)


def test_a_thousand_records_read_in_less_than_a_third_of_a_second():
    lines = [record(n, 'event: used, size: "0.105 in", job: "MT3"') for n in range(1, 1001)]
    text = HEAD + "".join(lines)
    read(text)
    best = min(_seconds(text) for _ in range(3))

    assert best < 0.3


def _seconds(text):
    begin = time.perf_counter()
    read(text)
    return time.perf_counter() - begin


# ---- events that are refused


@pytest.mark.parametrize(
    ("wanted", "sentence"),
    [
        (event("found"), "found: 0.105 in is not missing"),
        (event("returned"), "returned: 0.105 in is not lent"),
        (event("apart"), "apart: 0.105 in stands in no job"),
        (event("wrings"), "wrings: 0.105 in wrings already"),
        (event("both faces good"), "both faces good: 0.105 in has two good faces already"),
        (event("cleared"), "cleared: 0.105 in is not suspect"),
        (event("released"), "released: 0.105 in is not reserved"),
        (event("used", "0.109in"), "used: 0.109 in is absent from the set"),
        (event("missing", "0.109in"), "missing: 0.109 in is absent from the set"),
        (event("missing", "0.1055in"), "missing: 0.1055 in is no size of this set"),
        (event("missing", "0.05in"), "missing: only wear blocks are 0.050 in"),
        (event("missing", wear=True), "missing: no 0.105 in block is a wear block"),
        (event("missing", serial="X"), "missing: no 0.105 in block has the serial 'X'"),
        (event("missing", "0.5in", serial="X"), "missing: no 0.500 in block has the serial 'X'"),
        (event("missing", "0.6in"), "missing: several 0.600 in blocks differ by their serials: say which"),
        (event("calibrated", "1in"), "calibrated: 2 blocks are 1.000 in: whose deviation is this?"),
        (event("lent", to=""), "lent: lent needs to: who has it"),
        (event("used", job=""), "used: used needs job: which job"),
        (event("suspect", why=""), "suspect: suspect needs why: what is wrong"),
        (event("missing", to="Ola"), "missing: missing has no to"),
        (
            event("lent", back=dt.date(2026, 2, 2)),
            "lent: back 2026-02-02 lies before 2026-02-03, the day it was lent",
        ),
        (event("used", job="x" * 81), "used: job is longer than 80 characters"),
        (event("used", job="a\u202eb"), "used: job holds a character that cannot be seen"),
        (event("used", job="a\nb"), "used: job holds a character that cannot be seen"),
        (event("used", job=" a"), "used: job begins or ends with a space"),
        (
            event("calibrated", deviation=Length(10**9)),
            "calibrated: a deviation of +39370.1 µin at 0.105 in: a slip?",
        ),
        (
            event("calibrated", uncertainty=Length(0)),
            "calibrated: an uncertainty lies above 0 and up to 0.1 mm",
        ),
        (
            event("calibrated", variation=Length(-1)),
            "calibrated: a variation in length lies between 0 and 0.1 mm",
        ),
        (
            event("calibrated", trust=Trust.NOMINAL_ONLY),
            f"calibrated: a measured deviation comes from one of {', '.join(TRUSTS)}",
        ),
        (replace(event("missing"), unit=Unit.MILLIMETRE), "missing: this set is engraved in in"),
    ],
)
def test_an_event_that_cannot_be_is_refused(bench, wanted, sentence):
    assert refusal(bench, wanted) == [sentence]


@pytest.mark.parametrize(
    ("before", "wanted", "sentence"),
    [
        ("missing", "missing", "0.105 in is missing since 2026-02-03"),
        ("missing", "lent", "0.105 in is missing since 2026-02-03"),
        ("lent", "lent", "0.105 in is lent to Ola since 2026-02-03"),
        ("lent", "standing", "0.105 in is lent to Ola since 2026-02-03"),
        ("lent", "used", "0.105 in is lent to Ola since 2026-02-03"),
        ("standing", "standing", "0.105 in is standing in MT3 socket since 2026-02-03"),
        ("standing", "lent", "0.105 in is standing in MT3 socket since 2026-02-03"),
        ("does not wring", "does not wring", "0.105 in does not wring since 2026-02-03"),
        ("one good face", "one good face", "0.105 in has one good face since 2026-02-03"),
        ("suspect", "suspect", "0.105 in is suspect since 2026-02-03: scratched"),
        ("reserved", "reserved", "0.105 in is reserved for MT3 socket since 2026-02-03"),
        ("worn", "worn", "0.105 in is worn since 2026-02-03"),
        ("retired", "retired", "0.105 in is retired since 2026-02-03"),
        ("retired", "used", "0.105 in is retired since 2026-02-03"),
        ("retired", "missing", "0.105 in is retired since 2026-02-03"),
        ("missing", "calibrated", "0.105 in is missing since 2026-02-03"),
    ],
)
def test_an_event_that_contradicts_the_ledger_is_refused(bench, before, wanted, sentence):
    append(bench, BENCH, [event(before)], NOW)

    assert refusal(bench, event(wanted)) == [f"{wanted}: {sentence}"]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("missing", "found"),
        ("missing", "retired"),
        ("lent", "returned"),
        ("lent", "missing"),
        ("lent", "reserved"),
        ("lent", "calibrated"),
        ("standing", "apart"),
        ("standing", "used"),
        ("does not wring", "wrings"),
        ("one good face", "both faces good"),
        ("suspect", "cleared"),
        ("suspect", "used"),
        ("reserved", "released"),
        ("reserved", "standing"),
        ("worn", "retired"),
        ("used", "used"),
        ("calibrated", "calibrated"),
    ],
)
def test_an_event_that_follows_from_the_ledger_is_recorded(bench, first, second):
    append(bench, BENCH, [event(first)], NOW)
    append(bench, BENCH, [event(second)], NOW)

    assert [record.event.kind for record in read_ledger(bench, BENCH).records] == [first, second]


def test_an_absent_block_can_be_found(bench):
    append(bench, BENCH, [event("found", "0.109in"), event("missing", "0.109in")], NOW)

    assert len(read_ledger(bench, BENCH).records) == 2


def test_a_stack_of_another_job_is_not_taken_apart(bench):
    append(bench, BENCH, [event("standing", job="A")], NOW)

    assert refusal(bench, event("apart", job="B")) == [
        "apart: 0.105 in is standing in A since 2026-02-03, not B"
    ]
    assert append(bench, BENCH, [event("apart", job="A")], NOW)


def test_events_of_one_call_follow_one_another(bench):
    append(bench, BENCH, [event("lent"), event("returned"), event("lent", to="Per")], NOW)

    assert refusal(bench, event("lent")) == ["lent: 0.105 in is lent to Per since 2026-02-03"]


def test_all_faults_of_all_events_are_said_and_nothing_is_recorded(bench):
    said = refusal(bench, event("missing"), event("lent", to=""), event("used", "0.2in"))

    assert said == ["lent: lent needs to: who has it", "used: 0.200 in is no size of this set"]
    assert not ledger_path(bench).exists()


def test_identical_pieces_are_taken_one_after_the_other(bench):
    append(bench, BENCH, [event("lent", "1in", to="Ola"), event("lent", "1in", to="Per")], NOW)

    assert refusal(bench, event("lent", "1in")) == ["lent: 1.000 in is lent to Ola since 2026-02-03"]


def test_a_full_ledger_takes_no_more_records(bench, monkeypatch):
    monkeypatch.setattr(ledger, "MOST_RECORDS", 1)
    append(bench, BENCH, [event("missing")], NOW)

    assert refusal(bench, event("found")) == ["ledger: a ledger holds at most 1 records"]


def test_an_earlier_day_may_be_recorded_later(bench):
    append(bench, BENCH, [event("lent", on=dt.date(2026, 3, 1))], NOW)
    append(bench, BENCH, [event("used", on=dt.date(2026, 2, 1))], NOW)

    assert [record.n for record in read_ledger(bench, BENCH).records] == [1, 2]


def test_an_earlier_day_that_makes_a_later_record_untrue_is_refused(bench):
    append(bench, BENCH, [event("lent", on=dt.date(2026, 3, 1))], NOW)

    assert refusal(bench, event("missing", on=dt.date(2026, 2, 1))) == [
        "lent: record 1, of 2026-03-01, could not be true then: 0.105 in is missing since 2026-02-01"
    ]


def test_an_event_has_no_fault_of_its_own_where_it_says_what_its_kind_needs():
    assert all(faults_of(event(kind)) == () for kind in Kind)


# ---- ledgers that are refused

GOOD = record(1, 'event: missing, size: "0.105 in"')


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            '- {format: 2, ledger of: "Bench set"}\n',
            ["1:12 format '2' is not known: this program reads format 1"],
        ),
        ('- {format: 1, ledger of: "Other"}\n', ["1:26 this is the ledger of 'Other', not of 'Bench set'"]),
        ("- {format: 1}\n", ["1:3 the key 'ledger of' is missing"]),
        (GOOD, ["1:1 a ledger begins with its head"]),
        ("nonsense\n", ["1:1 a ledger begins with its head"]),
        ("format: 1\n", ["1:1 the head of a ledger is written in one line"]),
        (HEAD + "nonsense\n", ["2:1 a record is written in one line"]),
        (HEAD + "- nonsense\n", ["2:1 a record is written in one line"]),
        (HEAD + "- {n: 1}, {n: 2}\n", ["2:9 a list item or the end of the list is wanted here"]),
        (HEAD + "- [1]\n", ["2:1 a record is written in one line"]),
        (HEAD + record(1, 'event: mising, size: "0.105 in"'), ["2:33 no event is called 'mising'"]),
        (HEAD + record(1, "event: missing"), ["2:3 the key 'size' is missing"]),
        (HEAD + record(1, 'event: lent, size: "0.105 in"'), ["2:3 lent needs to: who has it"]),
        (HEAD + record(1, 'event: missing, size: "0.105 in", job: "A"'), ["2:65 missing has no job"]),
        (HEAD + record(1, 'event: missing, size: "0.105 in", jub: "A"'), ["2:60 a record has no key 'jub'"]),
        (HEAD + record(1, 'event: missing, size: "0.2 in"'), ["2:42 0.200 in is no size of this set"]),
        (HEAD + record(1, 'event: missing, size: "2.7 mm"'), ["2:42 2.7 mm is no size of this set"]),
        (HEAD + record(1, 'event: missing, size: "2.54 mm"'), ["2:48 mixed units: a size in the other unit"]),
        (
            HEAD + record(1, 'event: missing, size: "0,105 in"'),
            ["2:50 a comma: write the decimal point as a point"],
        ),
        (HEAD + GOOD.replace("02-03,", "02-30,"), ["2:14 the calendar has no 2026-02-30"]),
        (HEAD + GOOD.replace("09:15:00", "25:15:00"), ["2:69 the calendar has no 2026-02-03T25:15:00"]),
        (HEAD + GOOD.replace("T09:15:00", ""), ["2:69 '2026-02-03' is no day and time"]),
        (
            HEAD + GOOD + record(3, 'event: found, size: "0.105 in"'),
            ["3:4 record 3 stands where record 2 is wanted"],
        ),
        (HEAD + GOOD + GOOD, ["3:4 record 1 stands where record 2 is wanted"]),
        (
            HEAD + record(0, 'event: missing, size: "0.105 in"'),
            ["2:7 n is a whole number from 1 to 999999, not '0'"],
        ),
        (HEAD + GOOD.replace("n: 1", "n: 1, n: 1"), ["2:10 the key 'n' stands twice: first in line 2"]),
        (HEAD + GOOD.replace("missing", "!x missing"), ["2:33 tags (!) are not read"]),
        (HEAD + GOOD.replace(", written", "\0, written"), ["2:58 a control character (U+0000) in the text"]),
    ],
)
def test_a_fault_of_the_ledger_is_said_with_its_place(text, said):
    assert problems(text) == said


@pytest.mark.parametrize("odd", ["\r", "\x85", "\u2028", "\u2029"])
def test_what_ends_a_line_in_yaml_alone_is_refused_at_its_own_place(odd):
    text = f"{HEAD}{record(1, 'event: missing, size: 0.105')}"
    line = f'- {{n: 2, on: 2026-02-03, event: lent, size: 0.101, to: "Ola{odd}boat"'

    said = f"3:60 a line break (U+{ord(odd):04X}) in the middle of a line"
    assert problems(f"{text}{line}, {TAIL}") == [said]


def test_all_faults_of_a_ledger_are_said_at_once():
    text = HEAD + GOOD + "nonsense\n" + record(3, 'event: fund, size: "0.105 in"') + GOOD

    assert problems(text) == [
        "3:1 a record is written in one line",
        "4:33 no event is called 'fund'",
        "5:4 record 1 stands where record 4 is wanted",
    ]


def test_an_unknown_event_names_the_nearest_one():
    with pytest.raises(RefusedFile) as caught:
        read(HEAD + record(1, 'event: retruned, size: "0.105 in"'))

    assert caught.value.problems[0].hint == "did you mean 'returned'?"


def test_bytes_that_are_no_text_are_refused_with_their_line():
    with pytest.raises(RefusedFile) as caught:
        ledger_of_bytes(HEAD.encode() + b"- {n: \xff\xfe}\n" + GOOD.encode(), BENCH, file="x")

    assert [p.sentence for p in caught.value.problems] == ["this line is not UTF-8 text"]


def test_a_faulty_ledger_is_not_added_to(bench):
    ledger_path(bench).write_text(HEAD + "nonsense\n", encoding="utf-8")

    with pytest.raises(RefusedFile):
        append(bench, BENCH, [event("missing")], NOW)

    assert ledger_path(bench).read_text(encoding="utf-8") == HEAD + "nonsense\n"


@pytest.mark.parametrize(
    "text",
    [
        HEAD + "# a note of the owner\n\n" + GOOD,
        HEAD + GOOD.replace("\n", "\r\n"),
        "\ufeff" + HEAD + GOOD,
        HEAD + GOOD.rstrip("\n"),
        HEAD + "- {event: missing, size: 0.105, n: 1, written: 2026-02-03T09:15:00, on: 2026-02-03}",
        HEAD + record(1, 'event: missing, size: 0.105in, serial: ""'),
    ],
)
def test_a_record_written_by_hand_is_read(text):
    (found,) = read(text).records

    assert found == Record(n=1, event=event("missing"), written=NOW)


def test_a_record_may_follow_a_file_that_ends_without_a_newline(bench):
    ledger_path(bench).write_text(HEAD + GOOD.rstrip("\n"), encoding="utf-8")
    append(bench, BENCH, [event("found")], NOW)

    assert len(read_ledger(bench, BENCH).records) == 2


# ---- warnings


def test_a_clock_that_went_back_is_a_warning():
    earlier = record(2, 'event: found, size: "0.105 in"').replace("09:15", "09:14")
    ledger = read(HEAD + GOOD + earlier)

    assert [record.n for record in ledger.records] == [1, 2]
    assert [w.sentence for w in ledger.warnings] == [
        "the clock went back: written 2026-02-03 09:14:00, after 2026-02-03 09:15:00"
    ]
    assert (ledger.warnings[0].place.line, ledger.warnings[0].place.column) == (3, 58)


def test_the_same_second_is_no_clock_that_went_back():
    assert read(HEAD + GOOD + record(2, 'event: found, size: "0.105 in"')).warnings == ()


def test_a_record_that_contradicts_is_a_warning_and_blocks_no_new_record(bench):
    ledger_path(bench).write_text(HEAD + GOOD + GOOD.replace("n: 1", "n: 2"), encoding="utf-8")

    assert [w.sentence for w in read_ledger(bench, BENCH).warnings] == [
        "missing on 2026-02-03, but 0.105 in is missing since 2026-02-03"
    ]
    assert append(bench, BENCH, [event("found")], NOW)[0].n == 3


# ---- torn lines

FULL = record(1, 'event: suspect, size: "0.105 in", why: "brace } and µ \\" quote"').encode()


@pytest.mark.parametrize("cut", range(1, len(FULL) - 2))
def test_a_line_cut_anywhere_is_torn_alone_or_with_records_after_it(cut):
    torn = HEAD.encode() + FULL[:cut]
    for data, count in (
        (torn, 0),
        (torn + b"\n", 0),
        (torn + b"\0\0\0", 0),
        (torn + b"\n" + GOOD.encode(), 1),
    ):
        ledger = ledger_of_bytes(data, BENCH, file="x")

        assert (len(ledger.records), len(ledger.torn)) == (count, 1)
        assert ledger.torn[0].place.line == 2


def test_a_line_that_lacks_only_its_newline_is_a_record():
    assert len(ledger_of_bytes(HEAD.encode() + FULL[:-1], BENCH, file="x").records) == 1


@pytest.mark.parametrize("cut", range(1, len(HEAD) - 2))
def test_a_head_cut_anywhere_is_torn_and_a_new_one_follows(bench, cut):
    ledger_path(bench).write_text(HEAD[:cut], encoding="utf-8")
    append(bench, BENCH, [event("missing")], NOW)

    assert ledger_path(bench).read_text(encoding="utf-8").startswith(f"{HEAD[:cut]}\n{HEAD}- {{n: 1,")
    assert len(read_ledger(bench, BENCH).torn) == 1


def test_a_torn_line_keeps_its_bytes_and_the_next_record_its_own_line(bench):
    torn = HEAD.encode() + FULL[:40]
    ledger_path(bench).write_bytes(torn)
    append(bench, BENCH, [event("missing")], NOW)

    assert ledger_path(bench).read_bytes() == torn + b"\n" + GOOD.encode()


@pytest.mark.parametrize(
    "line",
    [
        "- {n: 7, on: 2026-02",
        "- {n: 1, on: 2026-02-03, event: lent, to: Ola} and",
        "- {n: 1, foo: bar",
        "- {n: 1, event: lent, on: 2026",
        "- {n: 1, size: nonsense {",
        "{n: 1, on",
        "n",
    ],
)
def test_nonsense_does_not_pass_for_a_torn_line(line):
    assert not is_torn_record(line, 1)
    assert problems(f"{HEAD}{line}\n{GOOD}")


def test_an_acknowledged_line_that_was_cut_by_hand_is_not_passed_over():
    second = record(2, 'event: found, size: "0.105 in"')

    assert problems(HEAD + GOOD[:40] + "\n" + second)[0].endswith("record 2 stands where record 1 is wanted")


def test_the_number_of_a_torn_line_may_be_cut_too():
    assert is_torn_record("- {n: 1", 12)
    assert not is_torn_record("- {n: 2", 12)


def test_a_head_of_another_kind_is_not_torn():
    assert not is_torn_head("- {format: 2")
    assert not is_torn_head(head_line("Bench set").rstrip())
    assert is_torn_head('- {format: 1, ledger of: "Ben')


def test_half_a_character_reads_as_the_replacement_character():
    assert decoded("µ".encode()[:1]) == "\N{REPLACEMENT CHARACTER}"
    assert decoded("aµ".encode()[:2] + b"\0\0") == "a\N{REPLACEMENT CHARACTER}"
    assert decoded(b"a\xffb") is None
    assert decoded(b"\xb5") is None
