"""The command `record`: one append a call, in the ledger beside the set file."""

import datetime as dt

import pytest

from gaugestack.inventory.ledger import ledger_path, read_ledger
from gaugestack.inventory.setfile import load_set
from tests.cli.shell import gaugestack

SET = """\
format: 1
name: Bench set
unit: in
blocks:
  - {from: 0.101, to: 0.109, step: 0.001}
  - {size: 0.050, pieces: 2, wear: true}
  - {size: 0.600, serial: A}
  - {size: 0.600, serial: B}
absent: [0.109]
"""
TODAY = dt.datetime.now(tz=dt.UTC).astimezone().date()


@pytest.fixture
def bench(set_file):
    return set_file(SET, "bench.yaml")


def records(bench):
    return read_ledger(bench, load_set(bench)[0]).records


def record(bench, *words):
    return gaugestack("record", *words, "--set", bench)


def test_several_blocks_are_recorded_in_one_call(bench):
    done = record(bench, "missing", "0.105", "0.107")

    assert done.code == 0
    assert [(r.n, r.event.kind, r.event.piece, r.event.on) for r in records(bench)] == [
        (1, "missing", "0.105 in", TODAY),
        (2, "missing", "0.107 in", TODAY),
    ]


def test_the_screen_says_what_was_written_and_how_the_blocks_stand(bench):
    done = record(bench, "lent", "0.105", "--to", "Ola", "--on", "2026-02-03", "--back", "2026-02-10")

    assert done.out.splitlines()[1] == "   1  2026-02-03  lent       0.105 in, to Ola, back 2026-02-10"
    assert "0.105 in is not fit: lent to Ola since 2026-02-03" in done.out
    assert "11 of 13 pieces are fit for use" in done.out
    assert all(len(line) < 80 for line in done.out.splitlines())


def test_blocks_stand_in_the_order_they_were_named(bench):
    named = ["0.102 in", "0.600 in", "0.101 in", "0.600 in"]
    words = ("lent", "0.102", "0.600#B", "0.101", "0.600#A", "--to", "Ola", "--on", "2026-02-03")
    lines = record(bench, *words).out.splitlines()

    written = [line for line in lines if "  lent  " in line]
    standing = [line for line in lines if " is not fit" in line]
    assert [size for size, line in zip(named, written, strict=True) if size in line] == named
    assert [size for size, line in zip(named, standing, strict=True) if size in line] == named
    assert ["B" in line.partition(" is ")[0] for line in standing] == [False, True, False, False]


def test_json_says_the_same(bench):
    answer = record(bench, "suspect", "0.600#B", "--why", "reads short", "--json").json

    assert answer["schema"] == "gaugestack/record"
    assert answer["ledger"] == str(ledger_path(bench))
    assert [(r["event"], r["size"], r["serial"], r["why"]) for r in answer["records"]] == [
        ("suspect", "0.600 in", "B", "reads short")
    ]
    assert [(b["nominal"], b["fit_for_use"]) for b in answer["blocks"]] == [("0.600 in", False)]


def test_an_event_of_several_words_takes_hyphens(bench):
    assert record(bench, "one-good-face", "0.105").code == 0
    assert [r.event.kind for r in records(bench)] == ["one good face"]


def test_a_wear_block_is_meant_where_it_is_said(bench):
    record(bench, "worn", "0.050", "--wear")

    assert records(bench)[0].event.piece == "0.050 in wear block"


def test_used_blocks_carry_the_name_of_the_job(bench):
    record(bench, "used", "--job", "MT3 socket", "0.105", "0.107")

    assert {r.event.job for r in records(bench)} == {"MT3 socket"}


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["mising", "0.105"], "no event is called 'mising'"),
        (["lent", "0.105"], "--to: lent needs to: who has it"),
        (["used", "0.105"], "--job: used needs job: which job"),
        (["missing", "0.105", "--to", "Ola"], "--to: missing has no to"),
        (["missing"], "SIZE: a size is wanted"),
        (["missing", "0.2345"], "0.2345 in is no size of this set"),
        (["missing", "0.600"], "several 0.600 in blocks differ by their serials"),
        (["missing", "0.600#C"], "no 0.600 in block has the serial 'C'"),
        (["missing", "0.600#A", "--serial", "A"], "0.600#A names its serial already"),
        (["missing", "0.109"], "0.109 in is absent from the set"),
        (["lent", "0.105", "--to", "x", "--back", "soon"], "--back: 'soon' is no day"),
        (["missing", "0.105", "--on", "soon"], "--on: 'soon' is no day"),
        (["calibrated", "0.105", "--deviation", "x", "--trust", "own-comparison"], "--deviation"),
        (["calibrated", "0.105", "--deviation", "1", "--trust", "a-guess"], "'a-guess' is no source"),
        (["void", "3", "--why", "a slip"], "the ledger has no record 3"),
        (["void", "x", "--why", "a slip"], "the ledger has no record x"),
        (["missing", "0.105", "--value", "wear"], "--value: this is about a certificate table"),
    ],
)
def test_what_cannot_be_recorded_is_a_wrong_use_and_leaves_no_ledger(bench, words, message):
    done = record(bench, *words)

    assert (done.code, done.out) == (2, "")
    assert message in done.err
    assert not ledger_path(bench).exists()


def test_one_faulty_block_keeps_all_from_being_recorded(bench):
    assert record(bench, "missing", "0.105", "0.2345").code == 2
    assert not ledger_path(bench).exists()


def test_a_shipped_set_has_no_ledger_and_the_hint_makes_a_copy():
    done = gaugestack("record", "missing", "0.105", "--set", "inch-81")

    assert done.code == 2
    assert "gaugestack set copy inch-81 my-set.yaml" in done.err


def test_without_a_set_nothing_is_recorded():
    done = gaugestack("record", "missing", "0.105")

    assert done.code == 2
    assert "say whose ledger" in done.err


def test_the_set_of_the_environment_is_taken(bench, monkeypatch):
    monkeypatch.setenv("GAUGESTACK_SET", str(bench))

    assert gaugestack("record", "missing", "0.105").code == 0
    assert len(records(bench)) == 1


def test_a_faulty_ledger_is_a_refused_file(bench):
    ledger_path(bench).write_text("nonsense\n", encoding="utf-8")
    done = record(bench, "missing", "0.105")

    assert done.code == 3
    assert "bench.ledger.yaml" in done.err


def test_a_mistake_is_struck_and_no_longer_bites(bench):
    record(bench, "missing", "0.105")
    done = record(bench, "void", "1", "--why", "it was the 0.106")

    assert done.code == 0
    assert "strikes record 1, it was the 0.106" in done.out
    assert "0.105 in is fit for use" in done.out


def test_a_void_without_its_reason_is_refused(bench):
    record(bench, "missing", "0.105")

    assert "--why" in record(bench, "void", "1").err


def test_a_day_ahead_is_said_to_change_nothing_yet(bench):
    done = record(bench, "retired", "0.105", "--on", str(TODAY + dt.timedelta(days=3)))

    assert "lies ahead" in done.out
    assert "0.105 in is fit for use" in done.out


# ---- certificate tables


TABLE = "Size,Dev\n0.101,-2\n0.102,+3\n"
LAYOUT = ("--value", "deviation", "--columns", "nominal=Size,deviation=Dev")
UNITS = ("--table-unit", "nominal=in,deviation=µin")
TRUST = ("--trust", "laboratory-report")


@pytest.fixture
def table(tmp_path):
    def write(text):
        path = tmp_path / "values.csv"
        path.write_text(text, encoding="utf-8")
        return ("--table", path)

    return write


def test_a_certificate_table_is_recorded_as_one_append(bench, table):
    words = (*table(TABLE), *LAYOUT, *UNITS, *TRUST, "--on", "2026-02-03", "--source", "report 7")
    done = record(bench, "calibrated", *words)

    assert done.code == 0, done.err
    assert [(r.event.piece, r.event.deviation, r.event.trust, r.event.source) for r in records(bench)] == [
        ("0.101 in", -2 * 25_400, "laboratory report", "report 7"),
        ("0.102 in", 3 * 25_400, "laboratory report", "report 7"),
    ]
    assert "no row for 0.600 in" in done.out


def test_a_unit_alone_is_that_of_the_values(bench, table):
    text = "Nominal (in),Wear\n0.101,2\n"
    record(bench, "calibrated", *table(text), "--value", "wear", "--table-unit", "µin", *TRUST)

    assert [r.event.deviation for r in records(bench)] == [-2 * 25_400]


def test_a_row_of_an_absent_block_is_said_and_left_out(bench, table):
    done = record(bench, "calibrated", *table(TABLE + "0.109,1\n"), *LAYOUT, *UNITS, *TRUST)

    assert "a row for 0.109 in, though the set file says absent" in done.out.replace("\n      ", " ")
    assert len(records(bench)) == 2


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ((*UNITS, *TRUST, *LAYOUT[2:]), "--value: say what the values of the table are"),
        ((*UNITS, *TRUST, *LAYOUT[2:], "--value", "length"), "'length' is no kind of value"),
        ((*UNITS, *LAYOUT), "--trust: calibrated needs trust"),
        ((*UNITS, *TRUST, *LAYOUT[:2], "--columns", "Size"), "--columns: 'Size' names no column"),
        ((*TRUST, *LAYOUT, "--table-unit", "elbow"), "--table-unit: 'elbow' is no unit of length"),
        ((*UNITS, *TRUST, *LAYOUT, "--deviation", "1"), "--deviation: the table says it"),
        ((*UNITS, *TRUST, *LAYOUT, "0.101"), "without sizes"),
    ],
)
def test_what_is_not_said_of_a_table_is_not_guessed(bench, table, words, message):
    done = record(bench, "calibrated", *table(TABLE), *words)

    assert done.code == 2
    assert message in done.err
    assert not ledger_path(bench).exists()


def test_a_table_is_for_calibrations_only(bench, table):
    assert record(bench, "missing", *table(TABLE), *LAYOUT, *UNITS).code == 2


def test_a_rejected_row_refuses_the_table_by_its_place(bench, table):
    done = record(bench, "calibrated", *table(TABLE + "0.2345,1\n"), *LAYOUT, *UNITS, *TRUST)

    assert done.code == 3
    assert "values.csv:4" in done.err
    assert not ledger_path(bench).exists()
