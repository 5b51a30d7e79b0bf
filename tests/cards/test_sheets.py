"""Cards as they were last looked at, and what holds for every form of them."""

import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from gaugestack.answers.bars import find_bar
from gaugestack.answers.boxcard import BoxWish, box_card
from gaugestack.answers.options import Choice
from gaugestack.answers.setupcard import angle_card
from gaugestack.blocks import Basis
from gaugestack.cards.anglescreen import bar_said
from gaugestack.cards.boxsheet import box_sheet
from gaugestack.cards.fitting import columns
from gaugestack.cards.papersize import read_paper
from gaugestack.cards.setupsheet import setup_sheet
from gaugestack.cards.sheethtml import sheet_html
from gaugestack.cards.sheetsvg import sheet_svg
from gaugestack.cards.sheettext import sheet_text
from tests.cards.cardsamples import (
    GOLDEN,
    boatyard,
    box,
    golden_cards,
    hostile_box,
    hostile_setup,
    job_card,
    setup,
    tall,
    taper_setup,
)

GOLDEN_NAMES = sorted(path.name for path in GOLDEN.iterdir()) if GOLDEN.exists() else []


@pytest.fixture(scope="module")
def cards():
    return golden_cards()


@pytest.mark.parametrize("name", GOLDEN_NAMES)
def test_a_card_is_as_it_was_last_looked_at(name, cards):
    assert cards[name] == (GOLDEN / name).read_text(encoding="utf-8")


def test_every_golden_card_is_kept(cards):
    assert sorted(cards) == GOLDEN_NAMES


@pytest.mark.parametrize("wide", [80, 40])
@pytest.mark.parametrize(
    "sheet", [box, lambda: setup()[0], lambda: tall()[0], taper_setup, job_card, hostile_box, hostile_setup]
)
def test_no_line_of_text_is_wider_than_the_paper(sheet, wide):
    lines = sheet_text(sheet(), wide).splitlines()

    assert [line for line in lines if columns(line) > wide] == []


@pytest.mark.parametrize("sheet", [hostile_box, hostile_setup])
def test_control_and_direction_characters_never_reach_a_card(sheet):
    forms = [
        sheet_text(sheet()),
        sheet_html(sheet(), read_paper("a4")),
        sheet_svg(sheet(), read_paper("a4")).svg,
    ]

    for text in forms:
        assert "\x1b" not in text
        assert "\N{RIGHT-TO-LEFT OVERRIDE}" not in text


@pytest.mark.parametrize("sheet", [hostile_box, hostile_setup])
def test_markup_in_a_name_is_escaped(sheet):
    assert "<script" not in sheet_html(sheet(), read_paper("a4"))
    assert "<script" not in sheet_svg(sheet(), read_paper("a4")).svg


def test_a_long_note_is_cut_with_an_ellipsis():
    assert any(
        said.endswith("\N{HORIZONTAL ELLIPSIS}") for name, said in hostile_box().facts if name == "note"
    )


def test_a_page_needs_nothing_from_outside():
    page = sheet_html(*setup())

    assert "http" not in page.replace("http://www.w3.org/2000/svg", "")
    assert "<script" not in page
    assert "<link" not in page


@pytest.mark.parametrize("paper", ["a4", "letter", "a6", "100x150mm"])
def test_an_svg_card_is_well_formed_and_has_the_paper_s_width(paper):
    sheet, size = setup(paper)
    root = ET.fromstring(sheet_svg(sheet, size).svg)  # noqa: S314  (our own text)

    assert root.get("width") == f"{size.width:g}mm"
    assert root.get("viewBox").split()[2] == f"{size.width:g}"


def test_a_drawing_inside_an_svg_card_keeps_its_millimetres():
    sheet, size = setup()
    root = ET.fromstring(sheet_svg(sheet, size).svg)  # noqa: S314  (our own text)
    inner = root.find("{http://www.w3.org/2000/svg}svg")

    assert inner.get("viewBox").split()[2:] == [inner.get("width"), inner.get("height")]


def test_a_short_svg_card_is_one_page_and_a_long_one_says_that_it_is_not():
    assert sheet_svg(*setup()).fits
    assert not sheet_svg(box("every 1d"), read_paper("a4")).fits


def test_a_card_says_care_warning_code_and_day():
    text = sheet_text(box())

    assert "slide every stack apart, wipe, oil" in text
    assert "gaugestack card check" in text
    assert f"card code {box().code}, printed 2026-11-25" in text


def test_a_stack_taller_than_the_card_is_drawn_smaller_and_says_so():
    assert "heights drawn 1:" in tall("a6")[0].parts[0].svg
    assert "as high as the stack itself" in setup("a6")[0].parts[0].svg


def test_a_set_up_card_says_what_of_the_height_is_the_plate_s_own_base():
    stock = boatyard()
    plate = find_bar("sine plate", stock, stock.bars)
    text = sheet_text(setup_sheet(angle_card("30d", bar=plate, stock=stock), read_paper("a4")))

    # sin 30 degrees is one half: 5 in, and the base of 0.25 in
    assert "height        5.25 in, of which 0.25 in sets the plate level" in text
    assert "sets the plate level" not in sheet_text(taper_setup())


def test_a_bar_whose_name_says_what_it_is_goes_without_the_word():
    stock = boatyard()
    plate = find_bar("sine plate", stock, stock.bars)

    assert bar_said(plate) == "sine plate, 10 in centres"
    assert bar_said(replace(plate, name="long")) == "bar long, 10 in centres"
    assert bar_said(find_bar("5in", stock, ())) == "a 5 in bar"


@pytest.mark.parametrize(("basis", "said"), [(Basis.CERTIFIED, True), (Basis.NOMINAL, False)])
def test_a_card_by_certified_lengths_says_so(basis, said):
    stock = boatyard()
    wish = BoxWish(
        angles=("every 30d from 30d to 30d",), bars=(find_bar("5in", stock, ()),), choice=Choice(basis=basis)
    )

    assert ("certified; sizes to pull" in sheet_text(box_sheet(box_card(stock, wish)))) is said
