"""What the certificate of a set file gives the blocks: values, trust, remarks."""

from pathlib import Path

import pytest

from gaugestack.blocks import Trust
from gaugestack.errors import RefusedFile
from gaugestack.inventory.setfile import load_set, set_of_text

UIN = 25_400
HEAD = "format: 1\nunit: in\nblocks:\n  - {from: 0.1001, to: 0.1003, step: 0.0001}\n"
TABLE = "Nominal (in),Deviation (µin)\n0.1001,-4\n0.1003,+2\n"


def written(tmp_path, tail, table=TABLE, head=HEAD):
    (tmp_path / "values.csv").write_text(table, encoding="utf-8")
    path = tmp_path / "bench.yaml"
    path.write_text(head + tail, encoding="utf-8")
    return path


def read(text):
    return set_of_text(text, file="bench.yaml")[0]


def refused(path):
    with pytest.raises(RefusedFile) as caught:
        load_set(path)
    return [(str(problem.place), problem.sentence) for problem in caught.value.problems]


def test_a_table_beside_the_set_file_gives_the_deviations(tmp_path):
    tail = "certificate: {source: laboratory report, table: values.csv, value: deviation}\n"

    block_set, _ = load_set(written(tmp_path, tail))

    assert [(block.deviation, block.trust) for block in block_set.blocks] == [
        (2 * UIN, Trust.LABORATORY_REPORT),
        (None, Trust.NOMINAL_ONLY),
        (-4 * UIN, Trust.LABORATORY_REPORT),
    ]
    assert block_set.remarks == (
        f"{tmp_path / 'values.csv'}: columns parted by commas, decimals written with a point",
        f"{tmp_path / 'values.csv'}: no row for 0.1002 in",
    )


def test_a_table_is_looked_for_in_the_folder_that_is_given(tmp_path):
    path = written(
        tmp_path, "certificate: {table: values.csv, value: wear, columns: {deviation: Deviation}}\n"
    )

    block_set, _ = set_of_text(path.read_text(encoding="utf-8"), file="elsewhere/bench.yaml", folder=tmp_path)

    assert [block.deviation for block in block_set.blocks] == [-2 * UIN, None, 4 * UIN]


def test_the_column_of_the_values_may_be_called_by_their_kind(tmp_path):
    path = written(tmp_path, "certificate: {table: values.csv, value: wear, columns: {wear: Deviation}}\n")

    block_set, _ = load_set(path)

    assert [block.deviation for block in block_set.blocks] == [-2 * UIN, None, 4 * UIN]


def test_one_column_is_not_named_twice(tmp_path):
    columns = "columns: {wear: Deviation, deviation: Deviation}"
    path = written(tmp_path, f"certificate: {{table: values.csv, value: wear, {columns}}}\n")

    assert [sentence for _, sentence in refused(path)] == ["columns: deviation and wear are the same column"]


def test_a_kind_the_values_are_not_names_no_column(tmp_path):
    path = written(tmp_path, "certificate: {table: values.csv, value: actual, columns: {wear: Deviation}}\n")

    assert "wear" in refused(path)[0][1]


def test_a_unit_that_is_missing_is_asked_for_as_a_length_or_a_small_one(tmp_path):
    path = written(
        tmp_path, "certificate: {table: values.csv, value: deviation}\n", "Nominal,Deviation\n0.1001,2\n"
    )
    with pytest.raises(RefusedFile) as error:
        load_set(path)

    assert [problem.hint for problem in error.value.problems] == [
        "write it in brackets, Nominal (in) or Nominal (mm), or state table_unit: {nominal: mm}",
        "write it in brackets, Deviation (µin) or Deviation (µm), or state table_unit: {deviation: µm}",
    ]


def test_columns_and_units_may_be_named_in_the_set_file(tmp_path):
    tail = (
        "certificate:\n  table: values.csv\n  value: actual\n"
        "  columns: {nominal: Size, deviation: Length, serial: S/N, variation: v}\n"
        "  table_unit: {nominal: in, deviation: mm, variation: nm}\n"
    )
    table = "Size;Length;S/N;v\n0,1001;2,5425;;30\n"

    block_set, _ = load_set(written(tmp_path, tail, table))

    assert (block_set.blocks[-1].deviation, block_set.blocks[-1].variation) == (-40_000, 30_000)


def test_the_problems_of_a_table_carry_its_name(tmp_path):
    path = written(tmp_path, "certificate: {table: values.csv, value: deviation}\n", TABLE + "0.2,1\n")

    assert refused(path) == [(f"{tmp_path / 'values.csv'}:4:1", "no block of this set is 0.200 in")]


def test_the_set_file_is_mended_before_its_table_is_read(tmp_path):
    tail = "certificate: {table: values.csv, value: deviation}\nnmae: x\n"

    assert refused(written(tmp_path, tail, TABLE + "0.2,1\n")) == [
        (f"{tmp_path / 'bench.yaml'}:6:1", "a set file has no key 'nmae'")
    ]


def test_a_deviation_in_an_entry_and_in_the_table_is_refused(tmp_path):
    head = HEAD + "  - {size: 0.1001, deviation: 1}\n"
    path = written(tmp_path, "certificate: {table: values.csv, value: deviation}\n", head=head)

    assert refused(path) == [
        (
            f"{tmp_path / 'values.csv'}:2:1",
            "the deviation of 0.1001 in is given twice: also in line 5 of the set file",
        )
    ]


def test_deviations_take_the_source_of_their_certificate():
    block_set = read(HEAD + "certificate: {source: own comparison, deviations: {0.1001: 1}}\n")

    assert block_set.certificate.source is Trust.OWN_COMPARISON
    assert [block.trust for block in block_set.blocks] == [
        Trust.NOMINAL_ONLY,
        Trust.NOMINAL_ONLY,
        Trust.OWN_COMPARISON,
    ]
    assert block_set.remarks == ()


def test_a_number_and_a_date_alone_make_no_laboratory_report():
    block_set = read(HEAD + "certificate: {number: A, date: 2026-02-03, deviations: {0.1001: 1}}\n")

    assert block_set.blocks[-1].trust is Trust.UNVERIFIED_SHEET
    (remark,) = block_set.remarks
    assert remark == (
        "no source: (laboratory report, own comparison or unverified sheet) in the certificate: "
        "read as an unverified sheet"
    )


def test_a_certificate_without_values_needs_no_source():
    assert read(HEAD + "certificate: {number: A, date: 2026-02-03}\n").remarks == ()


@pytest.mark.parametrize(
    ("tail", "trust"),
    [("", Trust.UNVERIFIED_SHEET), (", trust: laboratory report", Trust.LABORATORY_REPORT)],
)
def test_the_deviation_of_an_entry_has_its_own_trust(tail, trust):
    block_set = read(f"format: 1\nunit: in\nblocks:\n  - {{size: 0.5, deviation: 3{tail}}}\n")

    assert block_set.blocks[0].trust is trust


@pytest.mark.parametrize(
    ("head", "remarks"),
    [
        ("standard: DIN EN ISO 3650\ngrade: 1\n", ()),
        ("standard: ASME B89.1.9-2002\ngrade: AS-1\n", ()),
        (
            "standard: ISO 3560\n",
            ("'ISO 3560' is no standard whose grades are known (did you mean 'ISO 3650'?)",),
        ),
        (
            "standard: ASME B89.1.9\ngrade: AS1\n",
            ("ASME B89.1.9 has no grade 'AS1' that is known here (did you mean 'AS-1'?)",),
        ),
        ("grade: 2\n", ("grade '2' without a standard: what it allows cannot be said",)),
    ],
)
def test_a_standard_or_grade_that_is_not_known_is_a_remark(head, remarks):
    assert read(head + HEAD).remarks == remarks


def test_remarks_do_not_make_two_sets_differ():
    with_source = HEAD + "certificate: {source: unverified sheet, deviations: {0.1001: 1}}\n"
    without = HEAD + "certificate: {deviations: {0.1001: 1}}\n"

    assert read(with_source) == read(without)


def test_an_empty_name_of_a_table_is_a_folder():
    with pytest.raises(RefusedFile, match="this is a directory, not a file"):
        set_of_text(HEAD + "certificate: {table: ''}\n", file=str(Path("bench.yaml")))
