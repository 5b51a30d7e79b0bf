"""Whatever stands in a text, a reader returns a value or refuses it with a sentence, and nothing else."""

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.angles.angle import read_angle
from gaugestack.angles.callout import read_call_out
from gaugestack.errors import GaugestackError, OurBug
from gaugestack.inventory.anglesetfile import angle_set_of_text
from gaugestack.inventory.barfile import bars_of_text
from gaugestack.inventory.certtable import TableLayout, ValueKind, table_of_text
from gaugestack.inventory.jobfile import job_of_text
from gaugestack.inventory.ledger import ledger_of_bytes
from gaugestack.inventory.setfile import set_of_text
from gaugestack.inventory.targetsfile import Wanted, targets_of_text
from gaugestack.lengths import Unit, counted, read_length, small_bare

SET = (
    "format: 1\nunit: in\nname: Bench\nblocks:\n  - {from: 0.101, to: 0.103, step: 0.001}\n  - {size: 0.5}\n"
)
BENCH, _ = set_of_text(SET, file="bench.yaml")
WRITTEN = dt.datetime(2026, 2, 3, 9, 15).isoformat()  # noqa: DTZ001  # the ledger's clock is the wall's
LEDGER = (
    '- {format: 1, ledger of: "Bench"}\n'
    f'- {{n: 1, on: 2026-02-03, event: missing, size: "0.5 in", written: {WRITTEN}}}\n'
)
JOB = "format: 1\nname: m\nbar: 5in\nsetups:\n  - {name: a, height: 1in}\n  - {name: b, angle: 5deg}\n"
BARS = "format: 1\nunit: mm\nbars:\n  - {name: a, centre_distance: 100, error: -2}\n"
ANGLES = "format: 1\nblocks: [1deg, 3deg, 30m, 20s]\n"
TABLE = "Nominal (in),Deviation (µin)\n0.101,+3\n0.5,-2\n"
TARGETS = 'height,name,tolerance\n0.6202in,jaw,\n"5/8""",#3 plug,10 µin\n# a note\n15.752 mm,,0\n'
LIST = "0.6202in\n15.752 mm  # plug\n5/8\n"
WANTED = Wanted(word="height", read=lambda text: read_length(text, bare_unit=Unit.INCH), unit=Unit.INCH)
READERS = {
    "length": ("1-3/8in", lambda text: read_length(text, bare_unit=Unit.INCH, signed=True)),
    "deviation": ("-3 µin", lambda text: small_bare(text, Unit.INCH)),
    "cell": ("+0.25", lambda text: counted(text, read_length("1um").length)),
    "angle": ("7°07'30\"", lambda text: read_angle(text, signed=True)),
    "call-out": ("1in to 0.75in over 4in", lambda text: read_call_out(text, bare_unit=None)),
    "set": (SET, lambda text: set_of_text(text, file="f")),
    "bars": (BARS, lambda text: bars_of_text(text, file="f")),
    "job": (JOB, lambda text: job_of_text(text, file="f")),
    "angle set": (ANGLES, lambda text: angle_set_of_text(text, file="f")),
    "targets": (TARGETS, lambda text: targets_of_text(text, file="f", wanted=WANTED)),
    "list": (LIST, lambda text: targets_of_text(text, file="f", wanted=WANTED)),
    "ledger": (LEDGER, lambda text: ledger_of_bytes(text.encode("utf-8", "replace"), BENCH, file="f")),
    "table": (
        TABLE,
        lambda text: table_of_text(
            text, file="f", layout=TableLayout(value=ValueKind.DEVIATION), block_set=BENCH
        ),
    ),
}
ODD = [
    "0",
    "-",
    "1e9",
    "9" * 30,
    "NaN",
    "\0",
    "\t",
    "\n",
    "\r",
    "{",
    "}",
    "[",
    "]",
    ": ",
    ",",
    "#",
    "'",
    '"',
    "|",
]
ODD += [
    "&a ",
    "*a",
    "!!x ",
    "- ",
    "? ",
    "---\n",
    "<<: ",
    "~",
    "٣",
    "½",
    "/0",
    "2026-02-30",
    "\ufeff",
    "\xa0",
    "\u202e",
]


@st.composite
def mutated(draw, text):
    """Draw a text with a few pieces cut out, doubled, or put in."""
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.sampled_from([0, 1, 3, 20])))
        put = draw(st.one_of(st.sampled_from(ODD), st.just(text[start:end] * 2), st.text(max_size=3)))
        text = text[:start] + put + text[end:]
    return text


def refused(read, text):
    """Return the error of the library with which a text is refused, None where it is read."""
    try:
        read(text)
    except GaugestackError as error:
        return error
    return None


@pytest.mark.parametrize("name", READERS)
@settings(max_examples=120, deadline=2000)
@given(st.data())
def test_a_text_is_read_or_refused_with_a_sentence(name, data):
    text, read = READERS[name]
    changed = data.draw(mutated(text))

    refusal = refused(read, changed)

    if refusal is not None:
        assert not isinstance(refusal, OurBug)
        assert all(problem.sentence for problem in refusal.problems)
        assert str(refusal)


@pytest.mark.parametrize("name", [name for name in READERS if name != "angle set"])
def test_the_text_the_mutations_begin_from_is_read(name):
    text, read = READERS[name]

    assert read(text) is not None
