"""The drawings of the geometries: well-formed, labelled with their values, written in one piece."""

import xml.etree.ElementTree as ET

import pytest

from gaugestack.angles.callout import read_call_out
from gaugestack.angles.sketch import Geometry, sketch
from gaugestack.cards.geometrysvg import HEIGHT, WIDTH, geometry_svg, marks_of
from tests.cli.shell import gaugestack

SVG = "{http://www.w3.org/2000/svg}"
CONE = read_call_out("morse 3", bare_unit=None)
COMMANDS = {
    "taper": (["taper", "1:20", "--bar", "5in"], "a = 2°51'51.1"),
    "half": (["taper", "1:20", "--bar", "5in", "--for", "compound"], "a/2 = 1°25'55.5"),
    "on the bar": (["taper", "1:20", "--bar", "5in", "--for", "inspection"], "L = 5 in"),
    "on the stack": (["taper", "1:20", "--bar", "5in", "--for", "inspection"], "h = 0.24984385 in"),
    "flat": (["taper", "flat", "1:12", "--bar", "5in"], "b = 4°45'49.1"),
    "swing": (["lathe", "swing", "1:20"], "a/2 = 1°25'55.5"),
    "offset": (["lathe", "offset", "1:50", "--between", "10in", "--length", "3in"], "S = 0.10000 in"),
    "attachment": (["lathe", "attachment", "1:20", "--scale", "half"], "a = 2°51'51.1"),
    "collars": (["lathe", "collars", "1:20", "--difference", "0.1in"], "l = 2.00000 in"),
    "rolls": (
        ["measure", "rolls", "morse 3", "--end-diameter", "0.778in", "--roll", "0.25in", "--stack", "2in"],
        "M2 = 1.38474 in",
    ),
    "balls": (
        ["measure", "balls", "--large", "40mm", "--small", "32mm", "--tops", "8mm", "-76mm"],
        "top 2 = -76.0000 mm",
    ),
    "discs": (["measure", "discs", "--discs", "1.5in", "1in", "--gap", "0"], "c = 1.25000 in"),
    "plate": (["plate", "20deg", "30deg", "--views", "part", "--bottom", "5in"], "C = 20°00'00.0"),
    "from-stack": (["from-stack", "0.25in", "--bar", "5in"], "h = 0.25000 in"),
}


def words(text):
    """Return every text of a drawing."""
    return ["".join(node.itertext()) for node in ET.fromstring(text).iter(f"{SVG}text")]  # noqa: S314  (our own text)


@pytest.mark.parametrize("geometry", Geometry)
def test_a_drawing_is_well_formed_and_a_millimetre_is_a_unit(geometry):
    root = ET.fromstring(geometry_svg(geometry, marks_of(CONE)))  # noqa: S314  (our own text)

    assert root.get("viewBox") == f"0 0 {WIDTH:g} {HEIGHT:g}"
    assert root.get("width") == f"{WIDTH:g}mm"
    assert str(geometry) in words(geometry_svg(geometry, {}))


@pytest.mark.parametrize("geometry", Geometry)
def test_a_drawing_says_that_it_is_not_to_scale(geometry):
    assert any("not to scale" in text for text in words(geometry_svg(geometry, {})))


LONG = {
    **dict.fromkeys(("a", "a/2", "b", "A", "C"), "28°28'52.5\" (28.4812°)"),
    **dict.fromkeys(("h", "h1", "h2", "H", "L", "S", "l", "c", "gap", "D", "d", "D0"), "125.0000 mm"),
    **dict.fromkeys(("D1", "D2", "M1", "M2", "mouth", "top 1", "top 2"), "125.0000 mm"),
}


@pytest.mark.parametrize("geometry", Geometry)
def test_no_label_runs_off_the_sheet(geometry):
    for node in ET.fromstring(geometry_svg(geometry, LONG)).iter(f"{SVG}text"):  # noqa: S314  (our own text)
        width = 0.55 * float(node.get("font-size")) * len("".join(node.itertext()))
        share = {"start": 0, "middle": 0.5, "end": 1}[node.get("text-anchor", "start")]
        left = float(node.get("x")) - share * width

        assert left >= 0, node.text
        assert left + width <= WIDTH, node.text


def test_marks_are_escaped():
    text = geometry_svg(Geometry.CONE, {"a": '<script>&"\x1b[31m'})

    assert "<script>" not in text
    assert "\x1b" not in text
    assert any('<script>&"' in word for word in words(text))


@pytest.mark.parametrize(
    ("geometry", "letter"),
    [
        (Geometry.COMPOUND, "a/2"),
        (Geometry.ROLLS, "a/2"),
        (Geometry.FLANK_ON_BAR, "a"),
        (Geometry.DISCS, "a"),
    ],
)
def test_a_drawing_names_the_angle_its_set_up_needs(geometry, letter):
    said = [text for text in words(geometry_svg(geometry, marks_of(CONE))) if text.startswith(f"{letter} = ")]
    other = "a = " if letter == "a/2" else "a/2 = "

    assert len(said) == 1
    assert not [text for text in words(geometry_svg(geometry, marks_of(CONE))) if text.startswith(other)]


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_writes_its_drawing_with_its_values(name, tmp_path):
    arguments, mark = COMMANDS[name]
    path = tmp_path / "drawing.svg"
    done = gaugestack(*arguments, "--svg", path)

    assert done.code == 0
    assert any(mark in text for text in words(path.read_text(encoding="utf-8")))
    assert [one.name for one in tmp_path.iterdir()] == ["drawing.svg"]


def test_a_drawing_with_another_ending_is_refused_and_nothing_is_overwritten(tmp_path):
    path = tmp_path / "my-set.yaml"
    path.write_text("format: 1\n", encoding="utf-8")
    done = gaugestack("lathe", "swing", "1:20", "--svg", path)

    assert done.code == 2
    assert "ends in .svg" in done.err
    assert path.read_text(encoding="utf-8") == "format: 1\n"


def test_a_drawing_that_cannot_be_written_is_refused_with_the_reason(tmp_path):
    done = gaugestack("lathe", "swing", "1:20", "--svg", tmp_path / "none" / "drawing.svg")

    assert done.code == 2
    assert "cannot be written" in done.err


def test_the_sketch_of_a_cone_names_both_angles():
    text = sketch(Geometry.CONE, CONE)

    assert "a/2 = half angle, 1°26'16\"" in text
    assert "a = included angle, 2°52'31\"" in text
