"""Cards that several tests look at, from the demonstration's set and from one with hostile words.

python tests/cards/cardsamples.py        write the golden cards anew; look at them before you commit
"""

import datetime as dt
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from gaugestack.angles.taper import Use
from gaugestack.answers.bars import find_bar
from gaugestack.answers.boxcard import BoxWish, box_card
from gaugestack.answers.job import job
from gaugestack.answers.setupcard import angle_card, height_card, taper_card
from gaugestack.answers.stock import load, stock_of
from gaugestack.blocks import Block, BlockSet, Certificate
from gaugestack.cards.boxsheet import box_sheet
from gaugestack.cards.jobsheet import job_sheet
from gaugestack.cards.papersize import read_paper
from gaugestack.cards.setupsheet import setup_sheet
from gaugestack.cards.sheethtml import sheet_html
from gaugestack.cards.sheetsvg import sheet_svg
from gaugestack.cards.sheettext import sheet_text
from gaugestack.inventory.jobfile import load_job
from gaugestack.lengths import PM_PER_MM, Length, Unit

ROOT = Path(__file__).parents[2]
GOLDEN = ROOT / "tests" / "golden" / "cards"
DAY = dt.date(2026, 11, 25)
HOSTILE = "<script>alert(1)</script>\x1b[31m\N{RIGHT-TO-LEFT OVERRIDE}\N{HEBREW LETTER ALEF}\N{HAMMER}"


def boatyard():
    return load([str(ROOT / "demo" / "boatyard-inch.yaml")], on=DAY)


def box(angles="every 5d"):
    """Return the sheet of a box card with a row of angles on two bars."""
    stock = boatyard()
    bars = (find_bar("5in", stock, ()), find_bar("sine plate", stock, stock.bars))
    return box_sheet(box_card(stock, BoxWish(angles=(angles,), bars=bars)))


def setup(paper="a4"):
    """Return the sheet of a set-up card of an angle, and its paper."""
    stock = boatyard()
    size = read_paper(paper)
    card = angle_card("7d7m30s", bar=find_bar("5in", stock, ()), stock=stock)
    return setup_sheet(card, size), size


def tall(paper="a4"):
    """Return the sheet of a stack that is taller than a card."""
    size = read_paper(paper)
    return setup_sheet(height_card("10.2002in", stock=boatyard()), size), size


def job_card():
    """Return the sheet of the demonstration's job."""
    read = load_job(ROOT / "demo" / "saturday-job.yaml")
    return job_sheet(job(read, stock=boatyard()))


def taper_setup():
    stock = boatyard()
    card = taper_card("3in/ft", bar=find_bar("5in", stock, ()), stock=stock, use=Use.COMPOUND)
    return setup_sheet(card, read_paper("a4"))


def hostile():
    """Return the stock of a set whose every word is an attack or too long."""
    blocks = tuple(
        Block(
            nominal=Length(size * PM_PER_MM),
            unit=Unit.MILLIMETRE,
            serial=HOSTILE,
            note="long note " * 20 + HOSTILE,
            owner=HOSTILE,
        )
        for size in (50, 20, 10, 5)
    )
    head = BlockSet(
        name=HOSTILE + "x" * 80,
        unit=Unit.MILLIMETRE,
        blocks=blocks,
        standard=HOSTILE,
        grade=HOSTILE,
        certificate=Certificate(number=HOSTILE, date=DAY, due=DAY),
    )
    return stock_of(head)


def hostile_box():
    bar = find_bar("100mm", hostile(), ())
    return box_sheet(box_card(hostile(), BoxWish(angles=("every 10d",), bars=(bar,))))


def hostile_setup():
    return setup_sheet(height_card("35", stock=hostile()), read_paper("a4"))


def golden_cards():
    """Return the text of every golden card by its file's name."""
    card, paper = setup()
    small, card_paper = setup("a6")
    return {
        "box.txt": sheet_text(box()),
        "box-40.txt": sheet_text(box(), 40),
        "box.html": sheet_html(box(), paper),
        "job.txt": sheet_text(job_card()),
        "job-a6.html": sheet_html(job_card(), card_paper),
        "setup.txt": sheet_text(card),
        "setup-40.txt": sheet_text(small, 40),
        "setup-a6.html": sheet_html(small, card_paper),
        "setup.svg": sheet_svg(card, paper).svg,
    }


if __name__ == "__main__":
    GOLDEN.mkdir(parents=True, exist_ok=True)
    for name, text in golden_cards().items():
        (GOLDEN / name).write_text(text, encoding="utf-8")
