"""Lists of targets: what is read, what is refused at which place, and what is allowed right beside it."""

import codecs

import pytest

from gaugestack.angles.angle import read_angle
from gaugestack.errors import RefusedFile
from gaugestack.inventory import targetsfile
from gaugestack.inventory.targetsfile import Wanted, load_targets, targets_of_bytes, targets_of_text
from gaugestack.lengths import Unit, read_length

HEIGHTS = Wanted(word="height", read=lambda text: read_length(text, bare_unit=Unit.INCH), unit=Unit.INCH)
ANGLES = Wanted(word="angle", read=read_angle, unit=Unit.INCH)


def read(text, wanted=HEIGHTS):
    return targets_of_text(text, file="list.csv", wanted=wanted)


def texts(text, wanted=HEIGHTS):
    return [target.text for target in read(text, wanted)]


def problems(text, wanted=HEIGHTS):
    with pytest.raises(RefusedFile) as refused:
        read(text, wanted)
    return [(str(problem.place), problem.sentence) for problem in refused.value.problems]


def shown(text, wanted=HEIGHTS):
    with pytest.raises(RefusedFile) as refused:
        read(text, wanted)
    return str(refused.value)


def test_a_plain_list_has_one_target_a_line_and_notes_after_a_number_sign():
    assert texts("0.6202in\n\n# a note\n15.752 mm  # plug\n  5/8in \n") == ["0.6202in", "15.752 mm", "5/8in"]


def test_a_target_keeps_its_line_and_column():
    first, second = read("# a note\n0.62\n   15.752mm\n")

    assert (first.place.line, first.place.column) == (2, 1)
    assert (second.place.line, second.place.column) == (3, 4)


def test_a_heading_names_the_columns_in_any_order_and_any_case():
    [target] = read("Tolerance;NAME; Height\n10 uin;jaw, left;0.62\n")

    assert (target.text, target.name, target.tolerance) == ("0.62", "jaw, left", "10 uin")


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_columns_are_parted_by_commas_semicolons_or_tabs(mark):
    [target] = read(f"height{mark}name\n0.62{mark}jaw\n")

    assert (target.text, target.name) == ("0.62", "jaw")


def test_target_is_a_name_for_either_kind():
    assert texts("target,name\n0.62,jaw\n") == ["0.62"]
    assert texts("target,name\n7d7m30s,jaw\n", ANGLES) == ["7d7m30s"]


def test_a_name_may_hold_a_number_sign_where_there_is_a_heading():
    [target] = read("height,name\n0.62,#3 bushing\n# 0.63,a note\n")

    assert target.name == "#3 bushing"


def test_a_spreadsheet_s_quotes_byte_order_mark_and_line_ends_are_read():
    data = codecs.BOM_UTF8 + b'height,name\r\n"5/8""","jaw, ""left"""\r\n1in,\r\n,\r\n'

    first, second = targets_of_bytes(data, file="standard input", wanted=HEIGHTS)

    assert (first.text, first.name, first.place.line) == ('5/8"', 'jaw, "left"', 2)
    assert (second.text, second.name, second.tolerance) == ("1in", "", None)


def test_an_inch_mark_needs_no_quotes_in_a_plain_list():
    assert texts('5/8"\n"1/2"""\n') == ['5/8"', '1/2"']


def test_a_row_may_end_before_columns_that_may_be_empty():
    assert [(t.name, t.tolerance) for t in read("height,name,tolerance\n0.62\n0.63,,\n0.64,,0\n")] == [
        ("", None),
        ("", None),
        ("", "0"),
    ]


def test_every_line_that_cannot_be_used_is_named_at_once():
    assert problems("0.62\nbanana\n-1\n15 miles\n0.63\n") == [
        ("list.csv:2:1", "no number here"),
        ("list.csv:3:1", "below zero: a length is above zero"),
        ("list.csv:4:4", "'miles' is not a unit of length"),
    ]


def test_the_caret_stands_under_the_fault():
    assert "    height,name\n" not in shown("height,name\n0.62,jaw\n0.63 miles,plug\n")
    assert shown("height,name\n0.62,jaw\n0.63 miles,plug\n").splitlines()[:3] == [
        "list.csv:3:6: 'miles' is not a unit of length",
        "    0.63 miles,plug",
        "         ^^^^^",
    ]


def test_a_second_column_wants_a_heading():
    assert problems("0.62\n0.63;jaw\n") == [
        ("list.csv:2:6", "a second column, and no heading says what it is")
    ]
    assert "columns want a heading like height,name,tolerance" in shown("15,752\n")
    assert texts("height;name\n0.63;jaw\n") == ["0.63"]


def test_a_name_before_a_target_of_a_plain_list_wants_a_table():
    assert "names want a table: a heading name,height and commas" in shown("spacer 0.62in\n")
    assert "names want a table: a heading name,angle" in shown("long jaw 7d30m\n", ANGLES)
    assert "write a length like" in shown("banana\n")
    assert "write a length like" in shown("spacer plug\n")


def test_a_decimal_comma_is_refused_in_a_table_too():
    assert problems("height;name\n15,752mm;jaw\n") == [
        ("list.csv:2:3", "a comma: write the decimal point as a point")
    ]
    assert texts("height;name\n15.752mm;jaw\n") == ["15.752mm"]


@pytest.mark.parametrize(
    ("heading", "place", "sentence"),
    [
        ("height,quantity", "1:8", "'quantity' is no column of this list"),
        ("height,name,Name", "1:13", "two columns are called 'Name'"),
        ("target,name,height", "1:13", "'height' and 'target' are the same column"),
        ("name,tolerance", "1:1", "there is no column 'height'"),
    ],
)
def test_a_heading_that_cannot_be_used_is_refused(heading, place, sentence):
    assert (f"list.csv:{place}", sentence) in problems(f"{heading}\n0.62,,\n")


def test_rows_without_a_column_of_targets_are_not_complained_of():
    assert problems("angle,name\n7d,jaw\n") == [
        ("list.csv:1:1", "'angle' is no column of this list"),
        ("list.csv:1:1", "there is no column 'height'"),
    ]
    assert texts("angle,name\n7d,jaw\n", ANGLES) == ["7d"]


def test_a_misspelt_heading_is_told_the_nearest():
    assert "did you mean 'tolerance'?" in shown("height,tolerence\n0.62,0\n")
    assert [target.tolerance for target in read("height,tolerance\n0.62,0\n")] == ["0"]


def test_a_heading_wants_a_row():
    assert problems("height,name\n# nothing yet\n") == [
        ("list.csv:1:1", "there is no row beneath the heading")
    ]


def test_a_cell_without_a_heading_is_refused_and_an_empty_one_is_not():
    assert problems("height,name,\n0.62,jaw,extra\n") == [("list.csv:2:10", "a cell without a heading")]
    assert problems("height,name\n0.62,jaw,extra\n") == [("list.csv:2:10", "a cell without a heading")]
    assert texts("height,name,\n0.62,jaw,\n") == ["0.62"]


def test_an_empty_target_is_refused():
    assert problems("height,name\n,jaw\n") == [("list.csv:2:1", "empty: a length is wanted")]


@pytest.mark.parametrize(
    ("tolerance", "sentence"), [("-1uin", "below zero"), ("close", "no number here"), ("0.1 0.2", None)]
)
def test_a_tolerance_that_is_none_is_refused(tolerance, sentence):
    [(place, said)] = problems(f"height,tolerance\n0.62,{tolerance}\n")

    assert place.startswith("list.csv:2:")
    assert said == (sentence or "a second number: one length is wanted")


def test_a_tolerance_of_none_at_all_is_allowed():
    assert [target.tolerance for target in read("height,tolerance\n0.62,0\n0.63,10uin\n")] == ["0", "10uin"]


def test_a_name_has_at_most_80_characters():
    assert problems(f"height,name\n0.62,{'x' * 81}\n") == [
        ("list.csv:2:6", "a name longer than 80 characters")
    ]
    assert len(read(f"height,name\n0.62,{'x' * 80}\n")[0].name) == 80


def test_a_quote_that_does_not_close_is_refused():
    assert ("list.csv:2:6", "a quote that does not close at the end of its cell") in problems(
        'height,name\n0.62,"jaw\n'
    )


def test_a_list_without_a_target_is_refused():
    assert problems("# nothing\n\n,;\n") == [("list.csv:1:1", "there is no height in it")]
    assert problems("# nothing\n", ANGLES) == [("list.csv:1:1", "there is no angle in it")]


def test_more_targets_than_allowed_are_refused(monkeypatch):
    monkeypatch.setattr(targetsfile, "MOST_TARGETS", 3)

    assert problems("1\n" * 4) == [("list.csv:1:1", "4 heights; at most 3")]
    assert len(read("1\n" * 3)) == 3


def test_a_file_that_is_gone_or_binary_is_refused_like_any_other(tmp_path):
    path = tmp_path / "list.csv"
    with pytest.raises(RefusedFile, match="there is no such file"):
        load_targets(path, HEIGHTS)
    path.write_bytes("height\n1in\n".encode("utf-16"))
    with pytest.raises(RefusedFile, match="binary file"):
        load_targets(path, HEIGHTS)
    path.write_bytes(b"1in\n\xff\n")
    with pytest.raises(RefusedFile, match="not UTF-8 text: byte 5, in line 2"):
        load_targets(path, HEIGHTS)


def test_a_hundred_faults_end_the_reading():
    assert problems("banana\n" * 200)[-1][1].startswith("100 problems so far")
