"""PDF as the extra makes it: paper, pages, words, scale; and what is said without the extra."""

import builtins
import io
import warnings

import pypdf
import pypdfium2
import pytest

from gaugestack.cards.papersize import read_paper
from gaugestack.cards.sheethtml import sheet_html
from gaugestack.cli import pdf
from gaugestack.errors import UsageError
from tests.cards.cardsamples import box, hostile_box, setup
from tests.cards.test_pages import PIXEL, STROKE, dark, longest


@pytest.fixture(autouse=True)
def _browser():
    """Need no browser here."""


def made(page):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # its own libraries' warnings are not ours
        return pdf.pdf_of(page)


@pytest.mark.parametrize(
    ("paper", "width", "height"),
    [("a4", 210, 297), ("letter", 215.9, 279.4), ("a6", 105, 148), ("100x150mm", 100, 150)],
)
def test_every_page_has_the_paper_s_size(paper, width, height):
    reader = pypdf.PdfReader(io.BytesIO(made(sheet_html(box(), read_paper(paper)))))

    for page in reader.pages:
        size = (float(page.mediabox.width) * 25.4 / 72, float(page.mediabox.height) * 25.4 / 72)
        assert size == pytest.approx((width, height), abs=0.01)


def test_a_set_up_fits_one_page_and_is_true_to_scale():
    data = made(sheet_html(*setup()))
    pixels = dark(data)

    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) == 1
    assert longest(pixels, 48, 52) - STROKE == pytest.approx(50, rel=0.005)
    assert longest(pixels.T, 12, 20) - STROKE == pytest.approx(0.6202 * 25.4, rel=0.005, abs=PIXEL)


def test_headings_are_repeated_and_pages_numbered():
    reader = pypdf.PdfReader(io.BytesIO(made(sheet_html(box("every 1d"), read_paper("a4")))))
    texts = [page.extract_text() for page in reader.pages]

    assert len(texts) > 2
    assert all("wring upward" in text for text in texts)
    assert all(f"{number} / {len(texts)}" in text for number, text in enumerate(texts, 1))


def test_a_pdf_has_title_language_and_structure():
    reader = pypdf.PdfReader(io.BytesIO(made(sheet_html(*setup()))))

    assert reader.metadata.title.startswith("Set-up card")
    assert reader.trailer["/Root"]["/Lang"] == "en"
    assert "/StructTreeRoot" in reader.trailer["/Root"]


def test_hostile_words_stand_in_a_pdf_as_they_are():
    document = pypdfium2.PdfDocument(made(sheet_html(hostile_box(), read_paper("a4"))))

    assert "<script>alert(1)" in document[0].get_textpage().get_text_range()


def test_a_page_that_asks_for_something_outside_gets_nothing():
    with pytest.raises(ValueError, match="holds everything itself"):
        pdf._refused("https://example.org/picture.png")


def test_without_the_extra_the_way_is_shown(monkeypatch):
    real = builtins.__import__

    def without(name, *rest, **more):
        if name == "weasyprint":
            raise ImportError(name)
        return real(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", without)

    with pytest.raises(UsageError, match=r"extra that is not installed") as refused:
        pdf.pdf_of("<p>x</p>")
    assert "gaugestack[pdf]" in str(refused.value)
    assert "--form html" in str(refused.value)
