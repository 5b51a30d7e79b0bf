"""Pages as a browser prints and measures them: paper, text, overflow, scale, contrast."""

import io

import numpy as np
import pypdf
import pypdfium2
import pytest

from gaugestack.cards.papersize import read_paper
from gaugestack.cards.sheethtml import sheet_html
from tests.cards import browser
from tests.cards.cardsamples import box, hostile_box, hostile_setup, job_card, setup, tall

MM_PER_POINT = 25.4 / 72
DOTS = 600
PIXEL = 25.4 / DOTS
STROKE = 0.45
"""Width in millimetres of the lines measured, which their ends add to a length."""
OUTSIDE = """
  const page = document.body.getBoundingClientRect();
  const style = getComputedStyle(document.body);
  const right = page.right - parseFloat(style.paddingRight) + 1;
  const boxes = [...document.querySelectorAll('h1, p, th, td, figure, svg, table')];
  return boxes.filter(b => b.id !== 'measured' && (b.scrollWidth > b.clientWidth + 1 && b.clientWidth > 0
      || b.getBoundingClientRect().right > right)).map(b => b.tagName + ': ' + b.textContent.slice(0, 40));
"""
OVERLAPS = """
  const cells = [...document.querySelectorAll('th, td')].map(cell => {
    const words = document.createRange(); words.selectNodeContents(cell);
    const w = words.getBoundingClientRect(), c = cell.getBoundingClientRect();
    return w.right > c.right + 1 || w.bottom > c.bottom + 1 ? cell.textContent : '';
  });
  return cells.filter(text => text);
"""
TYPE = """
  const found = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const owner = walk.currentNode.parentElement;
    if (!walk.currentNode.textContent.trim() || owner.closest('#measured, script, svg')) continue;
    const style = getComputedStyle(owner);
    found.push([parseFloat(style.fontSize) * 0.75, style.color]);
  }
  return found;
"""
LABELS = """
  return [...document.querySelectorAll('svg text')].map(label => {
    const svg = label.ownerSVGElement.getBoundingClientRect(), box = label.getBoundingClientRect();
    return [box.left >= svg.left && box.right <= svg.right && box.top >= svg.top && box.bottom <= svg.bottom,
            parseFloat(getComputedStyle(label).fontSize) * label.getScreenCTM().a * 0.75, label.textContent];
  });
"""
PAGES = {
    "box": lambda: (sheet_html(box(), read_paper("a4")), 210, 297),
    "box-a6": lambda: (sheet_html(box(), read_paper("a6")), 105, 148),
    "box-letter": lambda: (sheet_html(box(), read_paper("letter")), 215.9, 279.4),
    "setup": lambda: (sheet_html(*setup()), 210, 297),
    "setup-card": lambda: (sheet_html(*setup("100x150mm")), 100, 150),
    "job": lambda: (sheet_html(job_card(), read_paper("a4")), 210, 297),
    "job-a6": lambda: (sheet_html(job_card(), read_paper("a6")), 105, 148),
    "tall": lambda: (sheet_html(*tall()), 210, 297),
    "hostile-box": lambda: (sheet_html(hostile_box(), read_paper("a6")), 105, 148),
    "hostile-setup": lambda: (sheet_html(hostile_setup(), read_paper("a4")), 210, 297),
}


@pytest.fixture(autouse=True)
def _browser():
    browser.needed()


def read(data):
    return pypdf.PdfReader(io.BytesIO(data))


def words(reader):
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_printed_on_the_paper_it_names(name, tmp_path):
    page, width, height = PAGES[name]()
    sizes = {
        (float(p.mediabox.width), float(p.mediabox.height))
        for p in read(browser.printed(page, tmp_path)).pages
    }

    for wide, high in sizes:
        assert (wide * MM_PER_POINT, high * MM_PER_POINT) == pytest.approx((width, height), abs=0.3)


@pytest.mark.parametrize("name", PAGES)
def test_nothing_overflows_its_box(name, tmp_path):
    page, width, _ = PAGES[name]()
    wide = round(width / 25.4 * 96) + 100

    assert browser.measured(page, OUTSIDE, tmp_path, wide=wide) == []
    assert browser.measured(page, OVERLAPS, tmp_path, wide=wide) == []


@pytest.mark.parametrize("name", PAGES)
def test_type_is_black_and_at_least_8_points(name, tmp_path):
    found = browser.measured(PAGES[name]()[0], TYPE, tmp_path)

    assert len(found) > 20
    assert min(size for size, _ in found) >= 7.99
    assert {colour for _, colour in found} == {"rgb(0, 0, 0)"}


@pytest.mark.parametrize("name", ["setup", "setup-card", "tall", "hostile-setup"])
def test_the_words_of_a_drawing_are_inside_it_and_can_be_read(name, tmp_path):
    found = browser.measured(PAGES[name]()[0], LABELS, tmp_path)

    assert found
    assert [text for inside, _, text in found if not inside] == []
    assert min(size for _, size, _ in found) >= 7.99


def test_a_set_up_of_few_blocks_fits_one_page(tmp_path):
    reader = read(browser.printed(PAGES["setup"]()[0], tmp_path))

    assert len(reader.pages) == 1
    assert "Wring 0.1003 in on top" in words(reader)
    assert "checked by" in words(reader)


def test_headings_and_code_are_repeated_on_every_page(tmp_path):
    page = sheet_html(box("every 1d"), read_paper("a4"))
    texts = [p.extract_text() for p in read(browser.printed(page, tmp_path)).pages]

    assert len(texts) > 2
    assert all("wring upward" in text for text in texts)
    assert all(f"{number} / {len(texts)}" in text for number, text in enumerate(texts, 1))


def test_no_row_is_cut_by_a_page(tmp_path):
    page = sheet_html(box("every 1d"), read_paper("a6"))
    texts = [" ".join(p.extract_text().split()) for p in read(browser.printed(page, tmp_path)).pages]

    row = "0.950 0.144 0.1001 0.100 0.950 0.100 0.1001 0.144"
    assert sum(row in text for text in texts) == 1


def test_hostile_words_are_words_and_nothing_else(tmp_path):
    page = sheet_html(hostile_box(), read_paper("a4"))
    scripts = browser.measured(page, "return document.querySelectorAll('script').length", tmp_path)

    assert scripts == 1, "the only script is the test's own"
    assert "<script>alert(1)" in words(read(browser.printed(page, tmp_path)))


def test_a_page_has_title_language_and_headings_of_its_tables(tmp_path):
    script = """
      return [document.title, document.documentElement.lang,
              [...document.querySelectorAll('th')].every(th => th.scope),
              [...document.querySelectorAll('table')].every(t => t.querySelector('th')),
              [...document.querySelectorAll('svg')].every(s => s.querySelector('title'))];
    """

    assert browser.measured(sheet_html(*setup()), script, tmp_path) == [
        "Set-up card: 7d7m30s: 7°07'30\"",
        "en",
        True,
        True,
        True,
    ]


def dark(data, number=0):
    """Return a page of a PDF as pixels, true where it is printed."""
    page = pypdfium2.PdfDocument(data)[number]
    return page.render(scale=DOTS / 72, grayscale=True).to_numpy().squeeze() < 128


def runs(line):
    """Return the lengths of the dark runs of a line of pixels, in millimetres."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], line.astype(np.int8), [0]))))
    return (edges[1::2] - edges[::2]) / DOTS * 25.4


def longest(lines, low, high):
    """Return the longest dark run between two lengths."""
    found = [length for line in lines for length in runs(line) if low <= length <= high]
    return max(found, default=0)


def test_a_printed_drawing_is_true_to_scale(tmp_path):
    pixels = dark(browser.printed(sheet_html(*setup()), tmp_path))

    assert longest(pixels, 48, 52) - STROKE == pytest.approx(50, rel=0.005)
    assert longest(pixels.T, 12, 20) - STROKE == pytest.approx(0.6202 * 25.4, rel=0.005, abs=PIXEL)
