import pytest

from gaugestack.errors import RefusedFile
from gaugestack.inventory.barfile import bars_of_text, load_bars
from gaugestack.lengths import PM_PER_MM, Unit


def bar(fields, head="format: 1\nunit: mm\n"):
    (found,) = bars_of_text(f"{head}bars:\n  - {{name: a, {fields}}}\n", file="bars.yaml")
    return found


@pytest.mark.parametrize("centre", ["10", "100", "2000"])
def test_a_centre_distance_lies_between_10_mm_and_2_m(centre):
    assert bar(f"centre_distance: {centre}").centre_distance == int(centre) * PM_PER_MM


@pytest.mark.parametrize("fields", ["centre_distance: 10, error: -0.1", "centre_distance: 2000, error: 0.1"])
def test_the_measured_error_counts_in_the_range(fields):
    with pytest.raises(RefusedFile, match="a centre distance of"):
        bar(fields)


def test_a_length_with_a_unit_needs_no_unit_of_the_file():
    found = bar("centre_distance: 5in, error: -20", "format: 1\n")

    assert (found.unit, found.error) == (Unit.INCH, -20 * 25_400)


def test_an_error_of_a_tenth_of_a_millimetre_is_read():
    assert bar("centre_distance: 100, error: 100").error == PM_PER_MM // 10


def test_a_plate_may_lie_level_without_blocks():
    assert bar("centre_distance: 100, base_height: 0, kind: compound").base_height == 0


def test_an_empty_list_of_bars_is_no_fault():
    assert bars_of_text("format: 1\nbars: []\n", file="bars.yaml") == ()


def test_bars_keep_the_order_and_the_name_of_their_file(tmp_path):
    path = tmp_path / "bars.yaml"
    path.write_text(
        "format: 1\nunit: in\nbars:\n- {name: b, centre_distance: 5}\n- {name: a, centre_distance: 10}\n"
    )

    assert [(found.name, found.file) for found in load_bars(path)] == [("b", str(path)), ("a", str(path))]


def test_more_than_a_hundred_bars_are_refused():
    lines = "".join(f"  - {{name: b{number}, centre_distance: 100}}\n" for number in range(101))

    with pytest.raises(RefusedFile, match="101 bars: a file describes at most 100"):
        bars_of_text(f"format: 1\nunit: mm\nbars:\n{lines}", file="bars.yaml")
