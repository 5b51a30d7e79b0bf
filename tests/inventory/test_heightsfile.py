"""A file of heights: one a line, with notes, every mistake at once."""

import pytest

from gaugestack.errors import RefusedFile
from gaugestack.inventory.heightsfile import MOST_HEIGHTS, load_heights
from gaugestack.lengths import PM_PER_INCH, PM_PER_MM, Unit


def written(tmp_path, text):
    path = tmp_path / "heights.txt"
    path.write_text(text, encoding="utf-8")
    return path


def test_heights_are_read_line_by_line_in_the_set_s_unit(tmp_path):
    path = written(tmp_path, "# jobs\n1\n\n25 mm  # jaw\n  1/2 in\n1\n")

    lengths = [height.length for height in load_heights(path, Unit.INCH)]
    assert lengths == [PM_PER_INCH, 25 * PM_PER_MM, PM_PER_INCH // 2, PM_PER_INCH]


def test_every_line_that_is_no_height_is_named(tmp_path):
    path = written(tmp_path, "1\nx\n2\n  3 kg # heavy\n")

    with pytest.raises(RefusedFile) as refused:
        load_heights(path, Unit.INCH)
    places = [(problem.place.line, problem.place.column) for problem in refused.value.problems]
    assert places == [(2, 1), (4, 5)]


@pytest.mark.parametrize("odd", ["\x0b", "\x0c", "\x1c", "\x85", "\u2028"])
def test_lines_are_counted_as_an_editor_counts_them(tmp_path, odd):
    path = written(tmp_path, f"1\n#{odd}x\r\n2 kg\n")

    with pytest.raises(RefusedFile) as refused:
        load_heights(path, Unit.INCH)
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column, problem.source) == (3, 3, "2 kg")


def test_a_file_of_notes_alone_is_refused(tmp_path):
    with pytest.raises(RefusedFile, match="holds no height"):
        load_heights(written(tmp_path, "# nothing yet\n"), Unit.INCH)


def test_more_heights_than_can_count_are_refused(tmp_path):
    assert len(load_heights(written(tmp_path, "1\n" * MOST_HEIGHTS), Unit.INCH)) == MOST_HEIGHTS
    with pytest.raises(RefusedFile, match="at most 10000"):
        load_heights(written(tmp_path, "1\n" * (MOST_HEIGHTS + 1)), Unit.INCH)
