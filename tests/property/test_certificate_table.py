"""Certificate tables under Hypothesis: no bytes break the reader, and what is written is read."""

import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.errors import RefusedFile
from gaugestack.inventory.certtable import (
    ColumnTexts,
    TableLayout,
    ValueKind,
    read_table,
    table_of_text,
    with_table,
)
from gaugestack.inventory.setfile import set_of_text
from gaugestack.lengths import Unit, exact_text

SET, _ = set_of_text(
    "format: 1\nunit: mm\nblocks:\n  - {from: 1.001, to: 1.020, step: 0.001}\n  - {size: 50}\n",
    file="bench.yaml",
)
KINDS = st.sampled_from([None, *ValueKind])
UNITS = st.sampled_from(["", "mm", "µm", "0.00001 in"])
GOOD = "Nominal (mm);Deviation (µm);Serial;Variation (µm)\n1,001;-0,05;A;0,1\n1,002;+1;;\n50;0;;0\n"
SCRAPS = st.sampled_from(
    [*';,\t"\n.-+0 5(', '"1"', "1.001", "50", "-4", "µin", "Nominal (mm)", "\u2212", "\x00", "\u202e"]
)


def read_or_refuse(text, layout):
    problems = ()
    try:
        table_of_text(text, file="v.csv", layout=layout, block_set=SET)
    except RefusedFile as refused:
        problems = refused.problems or None
    assert all(p.place.line >= 1 and p.place.column >= 1 and str(p) for p in problems)


@settings(max_examples=200)
@given(st.binary(max_size=300), KINDS)
def test_no_bytes_raise_anything_but_a_refusal(data, kind):
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "v.csv"
        path.write_bytes(data)
        refused = False
        try:
            read_table(path, TableLayout(value=kind), SET)
        except RefusedFile as error:
            refused = bool(error.problems)
        assert refused


@given(st.text(max_size=200), KINDS, UNITS)
def test_no_text_beneath_a_header_breaks_the_reader(text, kind, unit):
    layout = TableLayout(value=kind, units=ColumnTexts(nominal=unit, deviation=unit))

    read_or_refuse("Nominal (mm);Deviation (µm)\n" + text, layout)
    read_or_refuse("nominal,deviation,wear,actual\n" + text, layout)


@settings(max_examples=400)
@given(
    st.lists(st.tuples(st.integers(0, len(GOOD)), st.integers(0, 12), SCRAPS), min_size=1, max_size=4), KINDS
)
def test_no_change_to_a_table_breaks_the_reader(changes, kind):
    text = GOOD
    for start, length, scrap in changes:
        text = text[:start] + scrap + text[start + length :]

    read_or_refuse(text, TableLayout(value=kind, columns=ColumnTexts(deviation="Deviation")))


@given(
    kind=st.sampled_from(list(ValueKind)),
    mark=st.sampled_from(";\t,"),
    decimal=st.sampled_from(".,"),
    end=st.sampled_from(["\n", "\r\n", "\r"]),
    deviations=st.dictionaries(st.integers(0, len(SET.blocks) - 1), st.integers(-(10**7), 10**7), min_size=1),
)
def test_a_written_table_reads_as_it_was_meant(kind, mark, decimal, end, deviations):
    def number(length):
        text = exact_text(length, Unit.MILLIMETRE).removesuffix(" mm")
        return text if mark == "," else text.replace(".", decimal)

    lines = [mark.join(["Serial", "Nominal (mm)", "Value (mm)"])]
    for index, deviation in deviations.items():
        nominal = SET.blocks[index].nominal
        value = {"deviation": deviation, "wear": -deviation, "actual": nominal + deviation}[kind.value]
        lines.append(mark.join(["", number(nominal), number(value)]))
    layout = TableLayout(value=kind, columns=ColumnTexts(deviation="value"))

    table = table_of_text(end.join(lines), file="v.csv", layout=layout, block_set=SET)

    assert [(value.block, value.deviation) for value in table.values] == [
        (SET.blocks[index], deviation) for index, deviation in deviations.items()
    ]
    assert len(table.missing) == len(SET.blocks) - len(deviations)
    certified = with_table(SET, table).blocks
    assert {
        index: block.deviation for index, block in enumerate(certified) if block.deviation is not None
    } == (deviations)
