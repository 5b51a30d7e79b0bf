"""Paper by its name or its size."""

import pytest

from gaugestack.cards.papersize import read_paper
from gaugestack.errors import UsageError


@pytest.mark.parametrize(
    ("text", "width", "height"),
    [
        ("a4", 210, 297),
        ("A6", 105, 148),
        ("letter", 215.9, 279.4),
        ("100x150mm", 100, 150),
        ("120 x 200 mm", 120, 200),
    ],
)
def test_a_paper_is_read(text, width, height):
    paper = read_paper(text)

    assert (paper.width, paper.height) == (width, height)


@pytest.mark.parametrize(
    "text", ["", "a11", "100x150", "0x150mm", "99x150mm", "1201x150mm", "-100x150mm", "1e3x150mm"]
)
def test_what_is_no_paper_is_refused(text):
    with pytest.raises(UsageError, match="--paper"):
        read_paper(text)


def test_the_smallest_paper_is_allowed():
    assert read_paper("100x100mm").inner == 90


def test_a_page_is_wide_and_a_card_is_not():
    assert read_paper("letter").wide
    assert not read_paper("a6").wide
