"""Certificate tables: what is read, what is refused and where, and what is told."""

import pytest

from gaugestack.blocks import Trust
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

UIN, UM, MM = 25_400, 1_000_000, 1_000_000_000
INCH, _ = set_of_text(
    "format: 1\nunit: in\nblocks:\n"
    "  - {from: 0.1001, to: 0.1003, step: 0.0001}\n"
    "  - {size: 0.5, serial: A1}\n  - {size: 0.5, serial: B2}\n"
    "  - {size: 1, pieces: 2}\n"
    "  - {size: 0.1001, wear: true}\n"
    "  - {size: 2}\n"
    "absent: [2]\n",
    file="bench.yaml",
)
METRIC, _ = set_of_text(
    "format: 1\nunit: mm\nblocks:\n  - {from: 1.001, to: 1.003, step: 0.001}\n  - {size: 100}\n",
    file="metric.yaml",
)
DEVIATION = TableLayout(value=ValueKind.DEVIATION)
ACTUAL = TableLayout(value=ValueKind.ACTUAL)
WEAR = TableLayout(value=ValueKind.WEAR)
HEAD = "Nominal (in),Deviation (µin),Serial,Variation (µin)\n"


def read(text, layout=DEVIATION, block_set=INCH):
    return table_of_text(text, file="v.csv", layout=layout, block_set=block_set)


def rows(*lines, layout=DEVIATION):
    return read(HEAD + "\n".join(lines) + "\n", layout)


def found(table):
    return [(value.block.engraved, value.deviation) for value in table.values]


def problems(text, layout=DEVIATION, block_set=INCH):
    with pytest.raises(RefusedFile) as caught:
        read(text, layout, block_set)
    return [
        (f"{problem.place.line}:{problem.place.column}", problem.sentence)
        for problem in caught.value.problems
    ]


def hint(text, layout=DEVIATION, block_set=INCH):
    with pytest.raises(RefusedFile) as caught:
        read(text, layout, block_set)
    return caught.value.problems[0].hint


# What the values are


def test_a_deviation_is_actual_minus_nominal():
    assert found(rows("0.1001,-4,,", "0.1002,+0.5,,")) == [("0.1001 in", -4 * UIN), ("0.1002 in", 12_700)]


def test_wear_is_positive_where_the_block_is_smaller():
    text = "Nominal (in),Wear (0.00001 in)\n0.1001,5\n0.1002,-1\n"

    assert found(read(text, WEAR)) == [("0.1001 in", -50 * UIN), ("0.1002 in", 10 * UIN)]


def test_an_actual_size_less_the_nominal_is_the_deviation():
    text = "Nominal (in),Actual (in)\n0.1001,0.1000964\n"

    assert found(read(text, ACTUAL)) == [("0.1001 in", -91_440)]


def test_values_of_an_unstated_kind_are_refused_with_the_three_readings_of_the_first_row():
    text = "Nominal (in),Deviation (µin)\n0.1001,-4\n"

    assert problems(text, TableLayout()) == [
        ("2:8", "it is not stated what the values are: deviations, actual sizes or wear")
    ]
    assert hint(text, TableLayout()) == (
        "value: deviation reads this block as 0.100096 in; value: actual as -0.000004 in; "
        "value: wear as 0.100104 in"
    )


def test_readings_that_cannot_be_worked_out_are_told_in_words():
    text = "Nominal (in),Dev.\n0.1001,-4\n"

    assert hint(text, TableLayout()) == (
        "for '-4': value: deviation, the block is its nominal plus that; "
        "value: actual, it is that long; value: wear, its nominal less that"
    )


# Units


def test_a_unit_stands_in_round_or_square_brackets():
    text = "NOMINAL [mm];deviation (um)\n1.001;0.05\n"

    assert found(read(text, block_set=METRIC)) == [("1.001 mm", 50_000)]


def test_a_column_without_a_unit_is_refused():
    assert problems("Nominal,Deviation (from nominal)\n0.1001,1\n") == [
        ("1:1", "no unit stands in the header of 'Nominal'"),
        ("1:9", "no unit stands in the header of 'Deviation (from nominal)'"),
    ]


def test_a_unit_may_stand_in_the_layout():
    layout = TableLayout(value=ValueKind.DEVIATION, units=ColumnTexts(nominal="in", deviation="µin"))

    assert found(read("Nominal,Deviation (from nominal)\n0.1001,1\n", layout)) == [("0.1001 in", UIN)]


def test_units_that_contradict_each_other_are_refused():
    layout = TableLayout(value=ValueKind.DEVIATION, units=ColumnTexts(deviation="µm"))

    assert problems(HEAD + "0.1001,1,,\n", layout) == [
        ("1:14", "the header's unit is not the 'µm' of table_unit")
    ]


def test_units_that_agree_may_stand_twice():
    layout = TableLayout(value=ValueKind.DEVIATION, units=ColumnTexts(deviation="uin"))

    assert found(read(HEAD + "0.1001,1,,\n", layout)) == [("0.1001 in", UIN)]


def test_a_unit_of_the_layout_that_is_none_is_refused():
    layout = TableLayout(value=ValueKind.DEVIATION, units=ColumnTexts(deviation="lb"))

    assert problems("Nominal (in),Deviation\n0.1001,1\n", layout) == [
        ("1:14", "'lb' is not a unit of length (table_unit: deviation)")
    ]


# Columns


def test_columns_have_the_names_the_layout_gives_in_any_case_and_with_or_without_brackets():
    columns = ColumnTexts(nominal="size", deviation="Dev. (µin)", serial="s/n", variation="V")
    layout = TableLayout(value=ValueKind.DEVIATION, columns=columns)
    text = "No,S/N,Size (in),Dev. (µin),v (µin)\n1,B2,0.5,3,2\n"

    (value,) = read(text, layout).values

    assert (value.block.serial, value.serial, value.deviation, value.variation) == (
        "B2",
        "B2",
        3 * UIN,
        2 * UIN,
    )


def test_a_column_that_is_not_there_is_refused_with_the_nearest():
    layout = TableLayout(value=ValueKind.DEVIATION, columns=ColumnTexts(serial="Serail"))

    assert problems(HEAD + "0.1001,1,,\n", layout) == [("1:1", "there is no column 'Serail'")]
    assert hint(HEAD + "0.1001,1,,\n", layout).startswith("did you mean 'Serial'?")


def test_a_column_that_is_there_twice_is_refused():
    text = "Nominal (in),Deviation (µin),Deviation (µm)\n0.1001,1,1\n"

    assert problems(text) == [("1:30", "two columns are called 'Deviation (µm)'")]


def test_the_full_heading_tells_two_columns_apart():
    columns = ColumnTexts(deviation="Deviation (µm)")
    text = "Nominal (in),Deviation (µin),Deviation (µm)\n0.1001,1,1\n"

    assert found(read(text, TableLayout(value=ValueKind.DEVIATION, columns=columns))) == [("0.1001 in", UM)]


def test_serial_and_variation_may_be_absent():
    (value,) = read("Nominal (in),Deviation (µin)\n0.1001,1\n").values

    assert (value.serial, value.variation) == ("", None)


# Marks between columns and in numbers


@pytest.mark.parametrize(("mark", "name"), [("\t", "tabs"), (";", "semicolons"), (",", "commas")])
def test_the_mark_between_columns_is_found_and_told(mark, name):
    table = read(f"Nominal (in){mark}Deviation (µin)\n0.1001{mark}1\n")

    assert table.delimiter == mark
    assert table.remarks[0] == f"columns parted by {name}, decimals written with a point"


def test_a_comma_in_a_heading_parts_no_columns_where_semicolons_do():
    layout = TableLayout(
        value=ValueKind.DEVIATION,
        columns=ColumnTexts(nominal="Nominal, mm", deviation="Dev., µm"),
        units=ColumnTexts(nominal="mm", deviation="µm"),
    )
    table = read("Nominal, mm;Dev., µm\n1,001;0,05\n", layout, METRIC)

    assert (found(table), table.decimal) == ([("1.001 mm", 50_000)], ",")


@pytest.mark.parametrize("mark", [";", "\t"])
def test_decimal_commas_are_read_where_commas_part_no_columns(mark):
    table = read(f"Nominal (mm){mark}Deviation (µm)\n1,001{mark}+1,5\n1,002{mark}-4\n", block_set=METRIC)

    assert found(table) == [("1.001 mm", 1_500_000), ("1.002 mm", -4 * UM)]
    assert table.remarks[0].endswith("decimals written with a comma")


def test_decimal_commas_between_commas_are_refused():
    text = "Nominal (mm),Deviation (µm)\n1,001,0,05\n1,002,0,10\n"

    assert problems(text, block_set=METRIC) == [
        ("2:1", "decimal commas and commas between the columns cannot be told apart")
    ]


def test_a_quoted_comma_in_a_number_between_commas_is_refused():
    text = 'Nominal (mm),Deviation (µm)\n"1,001",1\n'

    assert problems(text, block_set=METRIC) == [
        ("2:3", "a comma in a number, and this table has decimal points")
    ]


def test_a_number_that_a_comma_has_torn_is_refused_by_its_zeros():
    text = "Nominal (mm),Deviation (µm),Serial\n100,05,\n"

    assert problems(text, block_set=METRIC) == [("2:5", "'05' begins with 0 and has no decimal mark")]


def test_the_rarer_decimal_mark_is_refused():
    text = "Nominal (mm);Deviation (µm)\n1,001;0,5\n1.002;1\n"

    assert problems(text, block_set=METRIC) == [
        ("3:2", "a point in a number, and this table has decimal commas")
    ]


def test_a_byte_order_mark_and_line_ends_of_other_systems_are_no_fault(tmp_path):
    path = tmp_path / "v.csv"
    path.write_bytes(("\ufeff" + HEAD + "0.1001,1,,\r\n").replace("\n", "\r\n").encode())

    assert found(read_table(path, DEVIATION, INCH)) == [("0.1001 in", UIN)]


def test_a_cell_may_stand_in_quotes_with_quotes_inside():
    text = 'Nominal ("),"Deviation, (µin)"\n"0.1001", 1 \n'
    layout = TableLayout(value=ValueKind.DEVIATION, columns=ColumnTexts(deviation="deviation,"))

    assert found(read(text, layout)) == [("0.1001 in", UIN)]


def test_a_quote_that_is_not_closed_is_refused():
    assert ("2:8", "a quote that does not close at the end of its cell") in problems(
        HEAD + '0.1001,"1,,\n0.1002,1,,\n'
    )


def test_blank_lines_and_lines_of_empty_cells_are_passed_over():
    assert found(rows("", "0.1001,1,,", ",,,")) == [("0.1001 in", UIN)]


@pytest.mark.parametrize(
    ("text", "where", "sentence"),
    [
        (" \n;;\n", "1:1", "the table is empty"),
        ("Nominal\n1\n", "1:1", "the header has one column only"),
        ("\nNominal (in),Deviation (µin)\n", "2:1", "there is no row beneath the header"),
    ],
)
def test_a_table_without_rows_or_columns_is_refused(text, where, sentence):
    assert problems(text) == [(where, sentence)]


def test_more_rows_than_any_set_has_pieces_are_refused_at_once():
    assert problems(HEAD + "0.1001,1,,\n" * 2000) == [("1:1", "2000 rows: a set has at most 1000 pieces")]


# Rows


REFUSED_ROWS = [
    ("0.1004,1,,", "2:1", "no block of this set is 0.1004 in"),
    ("0.1001,,,", "2:8", "an empty cell in the column 'Deviation (µin)'"),
    (",1,,", "2:1", "an empty cell in the column 'Nominal (in)'"),
    ("0.1001,n/a,,", "2:8", "no number here"),
    ("0.1001,4 µin,,", "2:10", "a plain number is wanted, without 'µin'"),
    ("0.1001,1e2,,", "2:9", "a plain number is wanted, without 'e2'"),
    ("0.1001,0.00001,,", "2:8", "not a whole number of picometres"),
    ("0.1001,1002,,", "2:8", "a deviation of +1002.0 µin at 0.1001 in: a slip?"),
    ("0.1001,1,,-1", "2:11", "a variation in length lies between 0 and 0.1 mm"),
    ("0.1001,1", "2:8", "too few cells: 2 where the header has 4"),
    ("0.1001,1,,,5", "2:12", "too many cells: 5 where the header has 4"),
    ("0.5,1,,", "2:1", "2 blocks are 0.500 in and the row has no serial: whose value is this?"),
    ("0.5,1,C3,", "2:7", "no 0.500 in block of this set has the serial 'C3'"),
    ("1,1,C3,", "2:1", "2 blocks are 1.000 in and the set gives them no serials: whose value is this?"),
    (f"0.1001,1,{'A' * 41},", "2:10", "serial is longer than 40 characters"),
    ("0.1001,1,A\u202eB,", "2:10", "serial holds a character that cannot be seen"),
]


@pytest.mark.parametrize(("row", "where", "sentence"), REFUSED_ROWS)
def test_a_row_that_cannot_be_used_is_named(row, where, sentence):
    assert problems(f"{HEAD}{row}\n") == [(where, sentence)]


def test_the_caret_stands_under_the_cell():
    with pytest.raises(RefusedFile) as caught:
        rows("0.1004,1,,")

    assert str(caught.value) == (
        "v.csv:2:1: no block of this set is 0.1004 in\n"
        "    0.1004,1,,\n"
        "    ^^^^^^\n"
        "  nearest size of the set: 0.1003 in"
    )


def test_a_second_row_for_a_piece_is_refused():
    assert problems(HEAD + "0.1001,1,,\n0.1002,1,,\n0.1001,1,,\n") == [
        ("4:1", "a second row for the 0.1001 in block: first in line 2")
    ]


def test_rows_of_equal_blocks_are_told_apart_by_their_serials():
    table = rows("0.5,1,b2,", "0.5,2,A1,")

    assert [(value.block.serial, value.deviation) for value in table.values] == [
        ("B2", UIN),
        ("A1", 2 * UIN),
    ]


def test_an_ordinary_block_comes_before_a_wear_block_of_its_size():
    assert not rows("0.1001,1,,").values[0].block.wear


def test_an_actual_size_given_as_a_deviation_is_recognised():
    text = "Nominal (in),Deviation (in)\n0.1001,0.1001004\n"

    assert hint(text) == "this looks like value: actual"


def test_a_deviation_given_as_an_actual_size_is_recognised():
    text = "Nominal (in),Actual (in)\n0.1001,0.000004\n"

    assert problems(text, ACTUAL) == [("2:8", "an actual size of 0.000004 in at 0.1001 in: a slip?")]
    assert hint(text, ACTUAL) == "this looks like value: deviation or wear"


def test_a_deviation_of_one_percent_is_the_largest_that_is_read():
    assert found(rows("0.1001,1001,,")) == [("0.1001 in", 1001 * UIN)]


def test_all_rows_that_cannot_be_used_are_named_at_once():
    assert [where for where, _ in problems(HEAD + "0.1004,1,,\n0.1001,x,,\n0.1002,2,,\n0.1003,,,\n")] == [
        "2:1",
        "3:8",
        "5:8",
    ]


# What comes out


def test_blocks_without_a_row_are_listed_and_told():
    table = rows("0.5,1,A1,", "0.5,1,B2,", "0.1001,1,,")

    assert [(block.engraved, block.wear) for block in table.missing] == [
        ("1.000 in", False),
        ("1.000 in", False),
        ("0.1003 in", False),
        ("0.1002 in", False),
        ("0.1001 in", True),
    ]
    assert table.remarks[1] == "no row for 1.000 in, 1.000 in, 0.1003 in, 0.1002 in, 0.1001 in"


def test_a_row_for_an_absent_block_is_told():
    table = rows("2,1,,")

    assert table.remarks[-1] == "a row for 2.000 in, though the set file says absent"
    assert with_table(INCH, table).absent[0].deviation == UIN


def test_the_blocks_take_the_values_and_the_others_keep_theirs():
    block_set = with_table(INCH, rows("0.1001,-4,,2"), Trust.LABORATORY_REPORT)

    certified, other = (
        next(block for block in block_set.blocks if block.engraved == text and not block.wear)
        for text in ("0.1001 in", "0.1002 in")
    )
    assert (certified.deviation, certified.variation, certified.trust) == (
        -4 * UIN,
        2 * UIN,
        Trust.LABORATORY_REPORT,
    )
    assert (other.deviation, other.variation, other.trust) == (None, None, Trust.NOMINAL_ONLY)
    assert [block.order for block in block_set.blocks] == [block.order for block in INCH.blocks]


def test_without_a_word_of_trust_the_table_is_an_unverified_sheet():
    block_set = with_table(INCH, rows("0.1001,-4,,2"))

    assert {block.trust for block in block_set.blocks if block.deviation is not None} == {
        Trust.UNVERIFIED_SHEET
    }


def test_a_missing_file_is_refused(tmp_path):
    with pytest.raises(RefusedFile, match="there is no such file"):
        read_table(tmp_path / "none.csv", DEVIATION, INCH)
