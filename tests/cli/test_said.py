"""Refusals that no other test says: their first line and what to do, word for word."""

import errno
import os
import sys
from types import SimpleNamespace

import pytest

from gaugestack.angles.angle import read_angle
from gaugestack.cli import batchcommands, terminal
from gaugestack.cli.cardoutput import card_form
from gaugestack.errors import UsageError
from tests.cli.shell import gaugestack

SET = """\
format: 1
unit: in
name: Serials
blocks:
  - {from: 0.1, to: 0.4, step: 0.1}
  - {size: 0.5, serial: A1}
  - {size: 0.5, serial: A2}
  - {size: 0.05, pieces: 2, wear: true}
  - {size: 0.1, pieces: 2, wear: true}
"""
BAR = ("--bar", "5in")
MATERIALS = (
    "steel", "martensitic stainless steel", "austenitic stainless steel", "grey cast iron", "aluminium",
    "brass", "bronze", "chrome carbide", "tungsten carbide", "zirconia",
)  # fmt: skip
ROLLS = ("--end-diameter", "0.778in", "--roll", "0.25in", "--stack", "2in")
SWING = ("lathe", "swing", "1:20", "--travel", "1in")
PLATE = ("plate", "20deg", "30deg", "--bottom", "5in", "--top", "5in")
SAID = {
    ("measure", "discs", "--discs", "1.5in", "1in"): ["ANGLE: is wanted, or the --gap that was measured"],
    ("measure", "balls", "1:20", "--large", "32mm", "--small", "40mm", "--mouth", "50mm"): [
        "--large: the large ball is 8 mm below the small one"
    ],
    ("measure", "balls", "1:20", "--large", "40mm", "--small", "40mm", "--mouth", "50mm"): [
        "--large: both balls are the same size: no angle"
    ],
    ("measure", "balls", "--large", "40mm", "--small", "32mm"): [
        "CALLOUT: is wanted, or --tops that were measured"
    ],
    ("measure", "bar", "1:10", *BAR, "--heights", "1in", "1in"): [
        "--heights: both heights are the same: no taper"
    ],
    ("measure", "bar", "1:10", *BAR, "--low-stack", "1in", "--lies", "back"): [
        "--lies: 'back' is no seat",
        "  known: axis, flank",
    ],
    ("measure", "bar", *BAR, "--low-stack", "1in"): [
        "CALLOUT: is wanted, or --heights H1 H2 that were measured"
    ],
    ("measure", "rolls", "morse 3", *ROLLS, "--low-stack", "-1in"): ["--low-stack: -1 in is below the plate"],
    ("measure", "rolls", "morse 3", *ROLLS, "--low-stack", "2in"): ["--low-stack: both pairs are one height"],
    ("measure", "rolls", *ROLLS): ["CALLOUT: is wanted, or --readings M1 M2 that were measured"],
    ("card", "box", "--angles", "every 1m", "--angles", "every 1m", *BAR): [
        "card: 5400 lines on one card; at most 4000"
    ],
    ("card", "box", "--angles", "every 0d", *BAR): [
        "--angles: a step of zero",
        '  write "every 30m", "every 1d from 5d to 30d", or the name of a file with one angle a line',
    ],
    ("card", "box", "--angles", "1:10", *BAR): [
        "--angles: '1:10' is neither a row of angles nor a file",
        '  write "every 1d10m" for a row of angles; tapers stand in a file of their own, one a line:',
        "    --tapers FILE",
    ],
    ("taper", "1:4", *BAR, "--for", "lathe"): [
        "--for: no set-up is called 'lathe'",
        "  known: compound, inspection; compound sets half the angle, inspection the included one",
    ],
    ("completion", "nushell"): ["SHELL: 'nushell' is no shell known here", "  known: bash, fish, zsh"],
    ("card", "setup", "height", "1in", "--paper", "50x50mm"): [
        "--paper: '50x50mm' is smaller than 100 mm or larger than 1200 mm"
    ],
    ("budget", "angle", "30deg", *BAR, "--drawing-tolerance", "0s"): [
        "--drawing-tolerance: it is above zero",
        "  write it like 10s or 0.5m",
    ],
    ("budget", "stack", *["30mm"] * 21): ["HEIGHT: 21 heights; 1 to 20 at once"],
    ("stack", *["0.1in"] * 21): ["HEIGHT: 21 heights at once; at most 20"],
    ("from-stack", *["0.1in"] * 41, *BAR): ["SIZE: from 1 to 40 blocks", "  like 0.5in 0.1201in"],
    (*SWING, *["--travel", "1in"] * 12): ["--travel: 13 travels at once; at most 12"],
    ("lathe", "attachment", "1:20", "--scale", "per-yard"): [
        "--scale: 'per-yard' is no scale",
        "  known: half, included, per-foot",
    ],
    (*SWING, "--reading", "0.1in", "--along", "up"): [
        "--along: 'up' is no travel",
        "  slide: a sine; carriage: a tangent",
    ],
    (*SWING, "--travel", "2in", "--reading", "0.1in", "--along", "slide"): [
        "--travel: a reading needs the one travel it was taken over"
    ],
    (*SWING, "--reading", "0in", "--along", "slide"): [
        "--reading: 0 in is no taper: the reading grows along the flank"
    ],
    (*PLATE, "--views", "side"): ["--views: 'side' is no view", "  known: part, plate"],
}
OF_THE_SET = {
    ("stack", "1in", "--wear", "own"): [
        "--wear: Serials has several pairs",
        "  say which: 0.050 in or 0.100 in",
    ],
    ("stack", "1in", "--wear", "0.3"): [
        "--wear: Serials has no pair of wear blocks of 0.300 in",
        "  name a set that holds a pair, like inch-wear-0.050 or metric-wear-2",
    ],
    ("stack", "1in", "--with", "0.4", "--with", "0.4"): [
        "--with: 0.4 cannot be kept in: every piece of it is kept in or kept out already"
    ],
    ("stack", "1in", "--without", "0.5#A3"): [
        "--without: no 0.500 in with serial A3",
        "  known: A1, A2",
    ],
    ("reach", "0.4..0.2in"): [
        "RANGE: '0.4..0.2in': the first height is above the last",
        "  write a range like 4..50mm, 0.2in..4in or 0.2..4in",
    ],
    ("record", "void"): [
        "SIZE: the number of a record is wanted",
        "  like 0.105; several at once are one record",
    ],
    (
        "record",
        "calibrated",
        "--table",
        "report.csv",
        "--value",
        "deviation",
        "--trust",
        "own-comparison",
        "--columns",
        "nominal=a,nominal=b",
    ): ["--columns: 'nominal=b': that column is named already", "  name it once"],
    ("record", "calibrated", "0.2", "--trust", "own-comparison"): [
        "--deviation: calibrated needs deviation: what was measured"
    ],
    ("budget", "stack", "0.2in", "--part-material", "foil"): [
        f"--part-material: 'foil' has no expansion coefficient here; known: {', '.join(MATERIALS)}",
        "  or its growth in millionths a kelvin and how far that may be off: 23.1+-1.2",
    ],
}
HEAD = "format: 1\nunit: in\nblocks:\n"
ONE = HEAD + "  - {size: 1}\n"
FILES = {
    HEAD + "  - {size: 1 wear: true}\n": "write {a: 1, b: 2}; opened in line 4",
    ONE + "absent: [1\nname: x\n": "write [1, 2]; opened in line 5",
    ONE + "name: a: b\n": (
        "lines of one list or mapping begin in the same column; a text with a colon needs quotes"
    ),
    ONE + "name\nnote: x\n": "write key: value",
    ONE + "name: 'a\n": "close the quote; opened in line 5",
    ONE + 'name: "a\\q"\n': "single quotes leave a backslash as it is",
    ONE + "name: @a\n": "put the text in quotes: 'like this'",
    "format: 1\nblocks: - {size: 1}\n": "begin the list on a line of its own",
    ONE + " unit: x\n": "lines of one list or mapping begin in the same column",
    HEAD + "  - &a {size: 1}\n": "write the value out where it is needed",
    ONE
    + "  - {size: 1}\n": "for several equal pieces write pieces: 2, or give each an entry with its serial",
    ONE + "certificate: {uncertainty: {fixed: 1 µin, per_length: 1 µin}}\n": (
        "write a length over a length: 1 µin/in or 0.5 µm/m"
    ),
}


def words(text):
    """Return the words of a text, wherever its lines were folded."""
    return text.split()


@pytest.mark.parametrize("arguments", SAID, ids=" ".join)
def test_a_refusal_says_what_is_wrong_and_what_to_do(arguments):
    done = gaugestack(*arguments)

    assert (done.code, done.out) == (2, "")
    assert words(done.err) == words("\n".join(SAID[arguments]))


@pytest.mark.parametrize("arguments", OF_THE_SET, ids=" ".join)
def test_a_refusal_names_what_the_set_has(set_file, arguments):
    done = gaugestack(*arguments, "--set", set_file(SET))

    assert (done.code, done.out) == (2, "")
    assert words(done.err) == words("\n".join(OF_THE_SET[arguments]))


@pytest.mark.parametrize("text", FILES)
def test_a_refused_file_says_what_to_do(set_file, text):
    done = gaugestack("set", "check", set_file(text))

    assert done.code == 3
    assert " ".join(done.err.split()).endswith(f" {FILES[text]}")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        (HEAD + "  - {size: 1, [\n", "a value is missing here"),
        ("format: 1\nblocks: - {size: 1}\n", "a list cannot begin here"),
    ],
)
def test_a_refused_file_says_what_is_wrong(set_file, text, sentence):
    assert gaugestack("set", "check", set_file(text)).err.splitlines()[0].endswith(f": {sentence}")


def test_a_file_of_another_encoding_is_to_be_saved_anew(tmp_path):
    path = tmp_path / "latin.yaml"
    path.write_bytes(b"format: 1\nname: \xe9\n")

    done = gaugestack("set", "check", path)
    assert done.err.splitlines()[1] == "  save it as plain UTF-8 text"


def test_an_angle_without_its_mark_is_asked_about(set_file):
    done = gaugestack(
        "angle-blocks", "3d", "--set", set_file("format: 1\nkind: angle\nblocks: [{angle: 3}]\n")
    )

    assert done.err.splitlines()[-1] == """  write 41d for degrees, 3' for minutes, 18" for seconds"""


def test_a_void_of_a_record_that_is_not_there_says_which_are(set_file):
    path = set_file(SET)
    void = ("record", "void", "7", "--why", "slip", "--set", path)
    assert gaugestack(*void).err.splitlines() == ["void: the ledger has no record 7", "  it is empty"]

    assert gaugestack("record", "missing", "0.2", "--set", path).code == 0
    said = ["void: the ledger has no record 7", "  there are records 1 to 1: see gaugestack history"]
    assert gaugestack(*void).err.splitlines() == said


def test_lines_moved_or_made_by_hand_say_how_a_record_looks(set_file):
    path = set_file(SET)
    written = "written: 2026-02-03T09:15:00}\n"
    path.with_name("my-set.ledger.yaml").write_text(
        '- {format: 1, ledger of: "Serials"}\nx\n'
        f'- {{n: 3, on: 2026-02-03, event: missing, size: "0.100 in", {written}',
        encoding="utf-8",
    )

    said = " ".join(gaugestack("history", "0.2", "--set", path).err.split())
    example = 'as in - {n: 1, on: 2026-02-03, event: missing, size: "0.105 in", written: 2026-02-03T09:15:00}'
    assert f" {example} my-set.ledger.yaml:3:" in said.replace(f"{path.parent}/", "")
    assert said.endswith(" a line was removed, doubled or moved: put the ledger back as it was")


def test_a_table_with_two_decimal_marks_says_what_to_write(set_file, tmp_path):
    table = tmp_path / "report.csv"
    table.write_text("Nominal (in);Deviation (µin)\n0.2;1,5\n0.3;1.5\n", encoding="utf-8")

    done = gaugestack(
        "record", "calibrated", "--table", table, "--value", "deviation", "--trust", "own-comparison",
        "--set", set_file(SET),
    )  # fmt: skip
    assert done.err.splitlines()[-1] == "  leave thousands unparted, and write one decimal mark throughout"


def test_another_bar_that_would_do_is_named(set_file):
    bars = "bars:\n  - {name: short, centre_distance: 5}\n  - {name: long, centre_distance: 10}\n"
    path = set_file(f"{HEAD}  - {{size: 5}}\n{bars}")

    done = gaugestack("angle", "30d", "--bar", "short", "--tolerance", "0", "--set", path)
    assert done.code == 1
    assert 'bar long needs 5 in, error 0.0"' in " ".join(done.err.split() + done.out.split())


def test_a_pdf_is_not_written_to_a_terminal(monkeypatch):
    monkeypatch.setattr(sys, "stdout", SimpleNamespace(isatty=lambda: True))

    with pytest.raises(UsageError) as refused:
        card_form("pdf", None, "a4")
    assert str(refused.value) == "--output: name a file for the PDF\n  like --output card.pdf"


def test_a_drawing_longer_than_its_page_says_which_forms_have_more(tmp_path):
    card = tmp_path / "card.svg"
    done = gaugestack("card", "box", "--angles", "every 1d", *BAR, "--paper", "a6", "--output", card)

    said = "longer than a6: a drawing has one page; html and pdf have as many as needed"
    assert done.code == 0
    assert said in " ".join(done.err.split())


def test_without_the_extra_a_pdf_is_refused_with_another_way(monkeypatch, tmp_path):
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    done = gaugestack(
        "card", "setup", "angle", "30d", *BAR, "--form", "pdf", "--output", tmp_path / "card.pdf"
    )

    assert (done.code, list(tmp_path.iterdir())) == (2, [])
    assert " ".join(done.err.split()) == (
        "--form: PDF needs an extra that is not installed "
        "pip install 'gaugestack[pdf]' (it needs the Pango library, on Debian: apt install libpango-1.0-0 "
        "libpangoft2-1.0-0); or take --form html and print the page from a browser"
    )


def test_a_list_from_a_closed_stream_is_refused(monkeypatch):
    monkeypatch.setattr(sys, "stdin", None)

    with pytest.raises(UsageError, match=r"^--targets: standard input is closed$"):
        batchcommands._read(batchcommands.STDIN, SimpleNamespace(word="angle", read=read_angle))


def test_a_closed_stdout_is_said(monkeypatch):
    monkeypatch.setattr(sys, "stdout", None)

    with pytest.raises(UsageError, match=r"^stdout: is closed: the answer cannot be written$"):
        terminal.emit("x\n")


def test_a_full_stdout_is_said(monkeypatch):
    def full(_text):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(terminal, "pipe_closed", lambda: 141)
    monkeypatch.setattr(sys, "stdout", SimpleNamespace(encoding="utf-8", write=full))
    with pytest.raises(UsageError, match=r"^stdout: the answer cannot be written: No space left on device$"):
        terminal.emit("x\n")
