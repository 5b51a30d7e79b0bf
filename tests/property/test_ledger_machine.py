"""The ledger against a plain dictionary: reopened, torn, with a clock that jumps."""

import datetime as dt
import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from gaugestack.blocks import Trust
from gaugestack.errors import UsageError
from gaugestack.inventory.events import Event, Kind
from gaugestack.inventory.ledger import append, ledger_path, read_ledger
from gaugestack.inventory.ledgerlines import line_of
from gaugestack.inventory.setfile import set_of_text
from gaugestack.inventory.state import fold
from gaugestack.lengths import Length, Unit

SIZES = (Length(2_540_000_000), Length(2_565_400_000), Length(25_400_000_000))
BENCH, _ = set_of_text(
    "format: 1\nname: Bench set\nunit: in\nblocks:\n"
    "  - {size: 0.100}\n  - {size: 0.101, serial: K-1}\n  - {size: 1.000}\nabsent: [1.000]\n",
    file="bench.yaml",
)
START = dt.datetime(2026, 2, 3, 9, 15)  # noqa: DTZ001  # the ledger's clock is the wall's
CLOSES = {
    "found": "missing",
    "returned": "lent",
    "apart": "standing",
    "wrings": "does not wring",
    "both faces good": "one good face",
    "cleared": "suspect",
    "released": "reserved",
}
OPENS = (*CLOSES.values(), "worn", "retired")
BARS = {*OPENS, "absent"} - {"one good face"}
TEXTS = st.text(
    st.characters(blacklist_categories=("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")), min_size=1, max_size=20
).filter(lambda text: text == text.strip())
DETAILS = {
    "lent": {"to": TEXTS},
    "standing": {"job": TEXTS},
    "used": {"job": TEXTS},
    "reserved": {"job": TEXTS},
    "suspect": {"why": TEXTS},
    "calibrated": {
        "deviation": st.integers(-25_000_000, 25_000_000).map(Length),
        "trust": st.sampled_from([Trust.LABORATORY_REPORT, Trust.OWN_COMPARISON, Trust.UNVERIFIED_SHEET]),
        "uncertainty": st.none() | st.integers(1, 1_000_000).map(Length),
    },
}
EVENTS = st.sampled_from([kind.value for kind in Kind if kind is not Kind.VOID]).flatmap(
    lambda kind: st.fixed_dictionaries(DETAILS.get(kind, {})).map(lambda details: (kind, details))
)


PLAIN = {"to": "", "job": "", "deviation": None, "trust": None, "uncertainty": None}


class Model:
    """What is known of one block, as plainly as can be."""

    def __init__(self, *, absent):
        self.marks = {"absent"} if absent else set()
        self.uses = 0
        self.deviation = None

    def allows(self, kind):  # noqa: PLR0911  # one line a rule
        gone = bool(self.marks & {"missing", "absent"})
        away = gone or bool(self.marks & {"lent", "retired"})
        if kind == "found":
            return gone
        if kind in CLOSES:
            return CLOSES[kind] in self.marks and not (kind == "returned" and gone)
        if kind in self.marks:
            return False
        if kind == "retired":
            return True
        if kind == "calibrated":
            return not gone
        if kind in ("used", "standing"):
            return not away
        if kind == "lent":
            return not away and "standing" not in self.marks
        return not gone and "retired" not in self.marks

    def take(self, kind, details):
        if kind == "found":
            self.marks -= {"missing", "absent"}
        elif kind in CLOSES:
            self.marks.discard(CLOSES[kind])
        elif kind in OPENS:
            self.marks.add(kind)
        elif kind == "used":
            self.uses += 1
        else:
            self.deviation = details["deviation"]


def replayed(records):
    """Return the models after the records that are not struck, or None where they contradict."""
    struck = {record.event.record for record in records if record.event.kind is Kind.VOID}
    models = {size: Model(absent=size == SIZES[2]) for size in SIZES}
    for record in records:
        event = record.event
        if event.kind is Kind.VOID or record.n in struck:
            continue
        if not models[event.size].allows(event.kind.value):
            return None
        models[event.size].take(event.kind.value, {"deviation": event.deviation})
    return models


class LedgerMachine(RuleBasedStateMachine):
    """Everything that can happen to a ledger, in any order."""

    @initialize()
    def begin(self):
        self.directory = tempfile.TemporaryDirectory()
        self.path = Path(self.directory.name) / "bench.yaml"
        self.file = ledger_path(self.path)
        self.clock = START
        self.models = {size: Model(absent=size == SIZES[2]) for size in SIZES}
        self.acknowledged = []
        self.torn = 0
        self.back = 0

    def teardown(self):
        if hasattr(self, "directory"):
            self.directory.cleanup()

    @rule(size=st.sampled_from(SIZES), said=EVENTS)
    def append_one(self, size, said):
        kind, details = said
        event = Event(kind=Kind(kind), on=START.date(), size=size, unit=Unit.INCH, **details)
        before = self.file.read_bytes() if self.file.exists() else b""
        if not self.models[size].allows(kind):
            with pytest.raises(UsageError):
                append(self.path, BENCH, [event], self.clock)
            assert (self.file.read_bytes() if self.file.exists() else b"") == before
            return
        if self.acknowledged and self.clock < self.acknowledged[-1].written:
            self.back += 1
        self.acknowledged += append(self.path, BENCH, [event], self.clock)
        self.models[size].take(kind, details)
        assert self.file.read_bytes().startswith(before)

    @precondition(lambda self: self.acknowledged)
    @rule(share=st.floats(0, 1))
    def a_record_is_struck(self, share):
        target = self.acknowledged[min(int(share * len(self.acknowledged)), len(self.acknowledged) - 1)]
        event = replace(target.event, **PLAIN, kind=Kind.VOID, record=target.n, why="a slip")
        void = replace(target, n=len(self.acknowledged) + 1, event=event)
        struck = {record.event.record for record in self.acknowledged}
        models = replayed([*self.acknowledged, void])
        if target.event.kind is Kind.VOID or target.n in struck or models is None:
            with pytest.raises(UsageError):
                append(self.path, BENCH, [event], self.clock)
            return
        if self.clock < self.acknowledged[-1].written:
            self.back += 1
        self.acknowledged += append(self.path, BENCH, [event], self.clock)
        self.models = models

    @rule(seconds=st.integers(-100_000, 100_000))
    def the_clock_jumps(self, seconds):
        self.clock += dt.timedelta(seconds=seconds)

    @precondition(lambda self: self.acknowledged)
    @rule(share=st.floats(0, 1), zeros=st.integers(0, 3))
    def a_write_is_torn(self, share, zeros):
        last = self.acknowledged[-1]
        unfinished = type(last)(n=last.n + 1, event=last.event, written=last.written)
        line = line_of(unfinished).encode()
        cut = line[: 1 + int(share * (len(line) - 4))]
        data = self.file.read_bytes()
        own_line = b"" if data.endswith(b"\n") else b"\n"
        self.file.write_bytes(data + own_line + cut + b"\0" * zeros)
        self.torn += 1

    @invariant()
    def nothing_acknowledged_is_ever_lost(self):
        ledger = read_ledger(self.path, BENCH)

        assert list(ledger.records) == self.acknowledged
        assert len(ledger.torn) == self.torn
        assert len(ledger.warnings) == self.back

    @invariant()
    def the_state_is_that_of_the_model(self):
        state = fold(BENCH, self.acknowledged, START.date())
        for piece in state.pieces:
            model = self.models[piece.block.nominal]
            assert piece.fit is not bool(model.marks & BARS)
            assert len(piece.reasons) == len(model.marks & BARS)
            assert piece.end_only is ("one good face" in model.marks)
            assert (piece.uses, piece.block.deviation) == (model.uses, model.deviation)


TestLedgerMachine = LedgerMachine.TestCase
TestLedgerMachine.settings = settings(max_examples=60, stateful_step_count=30, deadline=None)
