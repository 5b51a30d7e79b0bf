"""The pictures in a browser: as large as they say, and no words wider than was reckoned."""

import html
import json
import re
import shutil
import subprocess

import pytest

from gaugestack.cards.svg import wide
from tests.cards.drawings import BOLD
from tests.cards.samples import DRAWINGS

BROWSER = shutil.which("chromium")
PIXELS_A_MILLIMETRE = 96 / 25.4
MEASURED = """<pre id="found"></pre><script>
const of = t => ({words: t.textContent, size: +t.getAttribute("font-size"), wide: t.getBBox().width,
  bold: t.hasAttribute("font-weight")});
const page = s => s.getBoundingClientRect().width / s.viewBox.baseVal.width;
document.getElementById("found").textContent = JSON.stringify({
  words: [...document.querySelectorAll("text")].map(of),
  scales: [...document.querySelectorAll("svg")].map(page)});
</script>"""

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(BROWSER is None, reason="needs chromium: a Debian package"),
]


@pytest.fixture(scope="module")
def measured(tmp_path_factory):
    """Return what a browser measures in all drawings, shown in one page."""
    here = tmp_path_factory.mktemp("browser")
    page = here / "drawings.html"
    drawn = "".join(draw() for draw in DRAWINGS.values())
    page.write_text(f"<!doctype html><meta charset=utf-8><body>{drawn}{MEASURED}", encoding="utf-8")
    quiet = ("--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={here / 'profile'}")
    done = subprocess.run(
        [BROWSER, *quiet, "--dump-dom", page], capture_output=True, text=True, timeout=120, check=True
    )
    found = re.search(r'<pre id="found">(.*?)</pre>', done.stdout, re.DOTALL)
    return json.loads(html.unescape(found[1]))


def test_every_drawing_is_as_large_as_it_says(measured):
    assert len(measured["scales"]) == len(DRAWINGS)
    assert measured["scales"] == pytest.approx([PIXELS_A_MILLIMETRE] * len(DRAWINGS), rel=0.005)


def test_no_words_are_wider_than_was_reckoned(measured):
    reckoned = [
        (one, wide(one["words"], one["size"]) * (BOLD if one["bold"] else 1)) for one in measured["words"]
    ]

    assert len(reckoned) > 100
    assert [one["words"] for one, room in reckoned if one["wide"] > room] == []
