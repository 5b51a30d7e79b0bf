"""Files of angles and call-outs, one a line."""

import pytest

from gaugestack.angles.angle import dms_text
from gaugestack.errors import RefusedFile
from gaugestack.inventory.wishesfile import MOST_LINES, load_angles, load_call_outs
from gaugestack.lengths import Unit


@pytest.fixture
def file(tmp_path):
    def write(text):
        path = tmp_path / "wishes.txt"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_angles_are_read_in_the_order_of_their_lines(file):
    found = load_angles(file("# usual\n30d\n  7d30m   # gib\n\n"))

    assert [dms_text(read.angle) for read in found] == ["30°00'00\"", "7°30'00\""]


def test_call_outs_are_read_as_they_stand(file):
    assert load_call_outs(file("morse 3\n3in/ft # spindle\n"), Unit.INCH) == ("morse 3", "3in/ft")


def test_every_wrong_line_is_named_with_its_place(file):
    with pytest.raises(RefusedFile) as refused:
        load_angles(file("7d\n  seven\nx\n"))

    assert [(p.place.line, p.place.column) for p in refused.value.problems] == [(2, 3), (3, 1)]


def test_lines_are_counted_as_an_editor_counts_them(file):
    with pytest.raises(RefusedFile) as refused:
        load_angles(file("7d # \x0b page\n\u2028\r\n seven\n"))

    assert [(p.place.line, p.place.column) for p in refused.value.problems] == [(3, 2)]


def test_a_call_out_of_bare_degrees_is_refused(file):
    with pytest.raises(RefusedFile):
        load_call_outs(file("15deg\n"), Unit.INCH)


@pytest.mark.parametrize("text", ["# nothing\n"])
def test_a_file_without_a_line_is_refused(file, text):
    with pytest.raises(RefusedFile, match="holds no angle"):
        load_angles(file(text))


def test_the_most_lines_are_allowed_and_one_more_is_not(file):
    assert len(load_angles(file("7d\n" * MOST_LINES))) == MOST_LINES
    with pytest.raises(RefusedFile, match=f"at most {MOST_LINES}"):
        load_angles(file("7d\n" * (MOST_LINES + 1)))
