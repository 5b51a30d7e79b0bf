"""Answers in a notebook: the forms they take, a user's words in them, a whole notebook run headless."""

import base64
import subprocess
import sys
from importlib import import_module
from xml.etree import ElementTree as ET

import nbformat
import pytest
from IPython.core.interactiveshell import InteractiveShell
from nbclient import NotebookClient
from nbclient.exceptions import CellExecutionError

import gaugestack
from gaugestack import notebook
from gaugestack.errors import UsageError

INCH = "inch-81"
SVG = "image/svg+xml"
SLY = "<script>alert(1)</script>"


@pytest.fixture(scope="module")
def stock():
    return gaugestack.load([INCH])


@pytest.fixture(scope="module")
def bar(stock):
    return gaugestack.find_bar("5in", stock, ())


@pytest.mark.parametrize("name", [*notebook._SCREENS, *notebook._CARDS])
def test_an_answer_that_is_named_there_is_one(name):
    module, _, kind = name.partition(".")

    assert isinstance(getattr(import_module(f"gaugestack.answers.{module}"), kind), type)


@pytest.mark.parametrize("name", [*notebook._SCREENS.values(), *notebook._PICTURES.values()])
def test_what_shows_an_answer_is_there(name):
    module, _, function = name.partition(".")

    assert callable(getattr(import_module(f"gaugestack.cards.{module}"), function))


def pictures(shown):
    """Return the pictures in the HTML of an answer, decoded and parsed."""
    return [
        ET.fromstring(base64.b64decode(part.partition('"')[0]))  # noqa: S314  (our own picture)
        for part in shown._repr_html_().split("data:image/svg+xml;base64,")[1:]
    ]


def test_a_stack_shows_its_picture_to_scale_and_its_screen(stock):
    shown = gaugestack.shown(gaugestack.stack(["0.6202in"], stock=stock))

    [picture] = pictures(shown)
    width, height = (float(picture.get(side).removesuffix("mm")) for side in ("width", "height"))
    assert picture.get("viewBox") == f"0 0 {width:g} {height:g}"
    assert "3 blocks, exactly" in shown.text
    assert "3 blocks, exactly" in shown._repr_html_()
    assert shown._repr_mimebundle_().keys() == {"text/plain", "text/html", SVG}
    assert str(shown) == shown.text


def test_what_cannot_be_made_shows_its_ways_out_and_no_picture(stock):
    shown = gaugestack.shown(gaugestack.stack(["0.0503in"], stock=stock))

    assert "Ways out" in shown.text
    assert shown._repr_mimebundle_().keys() == {"text/plain", "text/html"}


def test_a_taper_shows_a_picture_a_set_up(stock, bar):
    shown = gaugestack.shown(gaugestack.taper("3in/ft", bar=bar, stock=stock))

    assert len(pictures(shown)) == 2
    assert shown._repr_svg_() is None


def test_every_kind_of_picture_is_drawn(stock, bar):
    answers = [
        gaugestack.angle("30deg", bar=bar, stock=stock),
        gaugestack.taper("flat 1:12", bar=bar, stock=stock),
        gaugestack.reach_range("0.2..0.3in", stock=stock),
        gaugestack.alternatives(
            gaugestack.stack(["0.6202in"], stock=stock), stock, gaugestack.Beside(next_best=1)
        ),
    ]

    assert [len(pictures(gaugestack.shown(answer))) for answer in answers] == [1] * 4


def test_a_card_is_a_page_of_its_own_on_its_paper(stock, bar):
    shown = gaugestack.shown(gaugestack.angle_card("7d30m", bar=bar, stock=stock), paper="a6")

    html = shown._repr_html_()
    assert html.startswith("<iframe sandbox ")
    assert "width: 105mm; height: 148mm" in html
    assert "card code" in shown.text


def test_a_card_without_a_stack_says_why(stock):
    shown = gaugestack.shown(gaugestack.height_card("0.0503in", stock=stock))

    assert "Not possible" in shown.text
    assert "<iframe" not in shown._repr_html_()


def test_a_job_shows_its_plan_and_becomes_a_sheet_on_paper(stock, tmp_path):
    (tmp_path / "job.yaml").write_text("format: 1\nsetups: [{height: 0.6202in}]\n", encoding="utf-8")
    answer = gaugestack.job(gaugestack.load_job(tmp_path / "job.yaml"), stock=stock)

    assert "<pre>" in gaugestack.shown(answer)._repr_html_()
    assert "<iframe" in gaugestack.shown(answer, paper="a4")._repr_html_()


def test_no_word_of_a_user_is_taken_for_html(tmp_path):
    path = tmp_path / "sly.yaml"
    path.write_text(f"format: 1\nunit: in\nname: '{SLY}'\nblocks: [{{size: 0.1, note: '{SLY}'}}]\n", "utf-8")
    stock = gaugestack.load([str(path)])
    shown = [
        gaugestack.shown(answer)
        for answer in (
            gaugestack.stack(["0.1in"], stock=stock),
            gaugestack.check(stock),
            gaugestack.height_card("0.1in", stock=stock),
            gaugestack.box_card(stock, gaugestack.BoxWish()),
        )
    ]

    assert all("script" in one.text for one in shown)
    assert [
        one for one in shown if "<script" in one._repr_html_() or "<script" in (one._repr_svg_() or "")
    ] == []


@pytest.mark.parametrize("answer", [None, 3, "text"])
def test_what_is_no_answer_is_refused(answer):
    with pytest.raises(UsageError, match="no answer that can be shown"):
        gaugestack.shown(answer)


def test_a_paper_nobody_knows_is_refused(stock):
    with pytest.raises(UsageError, match="paper"):
        gaugestack.shown(gaugestack.height_card("0.1in", stock=stock), paper="napkin")


def test_an_interpreter_shows_answers_from_the_extension_on_and_no_more_when_it_is_gone(stock):
    shell = InteractiveShell()
    answer = gaugestack.stack(["0.6202in"], stock=stock)
    assert set(shell.display_formatter.format(answer)[0]) == {"text/plain"}

    gaugestack.load_ipython_extension(shell)
    assert set(shell.display_formatter.format(answer)[0]) == {"text/plain", "text/html", SVG}
    assert set(shell.display_formatter.format(answer, include=["text/plain"])[0]) == {"text/plain"}
    assert shell.custom_exceptions == (gaugestack.GaugestackError,)

    gaugestack.unload_ipython_extension(shell)
    assert set(shell.display_formatter.format(answer)[0]) == {"text/plain"}
    assert shell.custom_exceptions == ()


def test_a_handler_of_errors_that_is_there_already_stays():
    shell = InteractiveShell()
    shell.set_custom_exc((ZeroDivisionError,), None)

    gaugestack.load_ipython_extension(shell)
    gaugestack.unload_ipython_extension(shell)

    assert shell.custom_exceptions == (ZeroDivisionError,)


def test_the_package_asks_for_no_notebook_library():
    program = (
        "import sys, gaugestack; s = gaugestack.load(['inch-81']);"
        "gaugestack.shown(gaugestack.stack(['0.6202in'], stock=s))._repr_html_(); print(*sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)

    assert {name.split(".")[0] for name in done.stdout.split()} & {"IPython", "typer", "rich"} == set()


CELLS = [
    "%load_ext gaugestack",
    "import gaugestack\nstock = gaugestack.load(['inch-81'])",
    "gaugestack.stack(['0.6202in'], stock=stock)",
    "bar = gaugestack.find_bar('5in', stock, ())\ngaugestack.angle_card('7d30m', bar=bar, stock=stock)",
    "gaugestack.stack(['0.6202furlong'], stock=stock)",
]


@pytest.mark.slow
@pytest.mark.filterwarnings("default")  # what the kernel's libraries say of each other is not ours
def test_a_notebook_runs_headless_and_shows_a_stack_a_card_and_a_mistake():
    cells = [nbformat.v4.new_code_cell(cell) for cell in CELLS]
    book = nbformat.v4.new_notebook(cells=cells)

    with pytest.raises(CellExecutionError):
        NotebookClient(book, timeout=120, kernel_name="python3").execute()

    _, _, stack, card, mistake = [cell.outputs for cell in book.cells]
    assert stack[0]["data"].keys() == {"text/plain", "text/html", SVG}
    assert "3 blocks, exactly" in stack[0]["data"]["text/plain"]
    assert card[0]["data"]["text/html"].startswith("<iframe sandbox ")
    assert mistake[0]["traceback"] == [
        "HEIGHT: 'furlong' is not a unit of length",
        "    0.6202furlong",
        "          ^^^^^^^",
        "  write a length like 0.6202in, 15.752mm, 12 µm, 40 µin, 5/8in or 1-3/8in",
    ]
