"""A stdout that is not UTF-8, and files as other programs save them."""

import codecs
import html
import io
import json
import shlex
import sys
from unittest import mock

import pytest

from gaugestack.cli.boundary import guarded
from gaugestack.cli.commands import app
from tests.cli.shell import gaugestack
from tests.docs.test_help_examples import COMMANDS
from tests.schemas import corpus

NAME = "Werkstatt Größe 😀"
SET = f"""format: 1
name: {NAME}
unit: in
blocks:
  - {{from: 0.1001, to: 0.1009, step: 0.0001}}
  - {{from: 0.101, to: 0.149, step: 0.001}}
  - {{from: 0.1, to: 1, step: 0.1}}
"""
LEDGER = f"""- {{format: 1, ledger of: "{NAME}"}}
- {{n: 1, on: 2026-02-03, event: lent, size: "0.105 in", to: "Ola", written: 2026-02-03T09:15:00}}
"""


def encoded(encoding, *words):
    """Run a command on streams of that encoding; return its code and what both streams hold."""
    out, err = (
        io.TextIOWrapper(io.BytesIO(), encoding=encoding, errors=errors)
        for errors in ("strict", "backslashreplace")
    )
    with (
        mock.patch.object(sys, "argv", ["gaugestack", *map(str, words)]),
        mock.patch.object(sys, "stdout", out),
        mock.patch.object(sys, "stderr", err),
    ):
        code = guarded(app)
    return code, *(stream.buffer.getvalue().decode(encoding) for stream in (out, err) if not stream.flush())


@pytest.fixture
def bench(monkeypatch):
    """Stand where the examples of the help have their files."""
    made = corpus.Bench()
    monkeypatch.chdir(made.path)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("GAUGESTACK_SET", raising=False)
    yield made
    made.close()


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252", "cp437"])
@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_answers_in_plain_letters_where_the_terminal_has_no_others(name, encoding, bench):
    words = shlex.split(COMMANDS[name].epilog.removeprefix("Example: gaugestack "))
    words = words[: words.index("--output")] if "--output" in words else words
    bench.issue(words)
    code, out, err = encoded("utf-8", *words)
    bench.issue(words)

    plain_code, plain, plain_err = encoded(encoding, *words)

    assert (plain_code, code in (0, 1)) == (code, True), plain_err
    assert plain.count("?") == out.count("?")
    assert plain_err.count("?") == err.count("?")


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-16"])
def test_json_loses_nothing_in_another_encoding(encoding, tmp_path):
    (tmp_path / "own.yaml").write_text(SET, encoding="utf-8")
    words = ("stack", "0.6202in", "--set", tmp_path / "own.yaml", "--json")

    answer = encoded(encoding, *words)[1]

    assert answer.isascii()
    assert json.loads(answer) == json.loads(encoded("utf-8", *words)[1])
    assert json.loads(answer)["set"]["name"] == NAME


@pytest.mark.parametrize("form", ["html", "svg"])
def test_a_page_loses_nothing_in_another_encoding(form, tmp_path):
    """Both say of themselves that they are UTF-8, of which ASCII is a part."""
    (tmp_path / "own.yaml").write_text(SET, encoding="utf-8")
    words = ("card", "setup", "stack", "0.6202in", "--set", tmp_path / "own.yaml", "--form", form)

    page = encoded("latin-1", *words)[1]

    assert page.isascii()
    assert html.unescape(page) == html.unescape(encoded("utf-8", *words)[1])
    assert "Größe" in html.unescape(page)


def test_a_mistake_is_said_in_plain_letters():
    code, _, said = encoded("ascii", "stack", "0.6202 Zöll")

    assert code == 2
    assert "0.6202 Z?ll" in said
    assert "^" in said


FILES = {
    "set": ("own.yaml", SET, "stack 0.6202in --set own.yaml"),
    "ledger": ("own.ledger.yaml", LEDGER, "set show own.yaml --on 2026-03-01"),
    "certificate": (
        "v.csv",
        "Nominal (in),Deviation (µin)\n0.400,+2\n0.120,-1\n",
        "stack 0.6202in --set certified.yaml --on 2026-03-01",
    ),
    "bars": (
        "bars.yaml",
        "format: 1\nbars:\n  - {name: plate, centre_distance: 5in, base_height: 0.2in}\n",
        "angle 30deg --bar plate --bars bars.yaml",
    ),
    "job": (
        "job.yaml",
        "format: 1\nbar: 5in\nsetups:\n  - {name: a, height: 0.6202in}\n  - {name: b, angle: 7d7m30s}\n",
        "job job.yaml",
    ),
    "heights": ("heights.txt", "0.6202\n# jaw\n0.7203\n", "set matters own.yaml --heights heights.txt"),
    "angles": ("angles.txt", "7d\n30deg\n", "card box --angles angles.txt --bar 5in --on 2026-03-01"),
    "tapers": ("tapers.txt", "3in/ft\nmorse 3\n", "card box --tapers tapers.txt --bar 5in --on 2026-03-01"),
    "angle set": (
        "angle.yaml",
        "format: 1\nkind: angle\nname: Angle blocks\nblocks:\n  - {angles: [3d, 9d]}\n  - {angle: 1d}\n",
        "angle-blocks 6d --set angle.yaml",
    ),
    "targets": ("list.csv", "height,name\n0.6202in,jaw\n15.752 mm,plug\n", "stack --targets list.csv --csv"),
}
"""Every kind of file: its name, a text, and a command that reads it."""
CERTIFIED = (
    SET + "certificate: {date: 2026-01-01, table: v.csv, value: deviation, uncertainty: {fixed: 2 µin}}\n"
)


@pytest.fixture
def reading(tmp_path, monkeypatch):
    """Return a function that writes a file of that kind as bytes and runs its command."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    (tmp_path / "own.yaml").write_text(SET, encoding="utf-8")
    (tmp_path / "certified.yaml").write_text(CERTIFIED, encoding="utf-8")

    def read(kind, data):
        name, _, command = FILES[kind]
        (tmp_path / name).write_bytes(data)
        return gaugestack(*shlex.split(command))

    return read


SAME = {
    "Windows": lambda text: text.replace("\n", "\r\n").encode(),
    "byte order mark": lambda text: codecs.BOM_UTF8 + text.encode(),
    "Windows with a byte order mark": lambda text: codecs.BOM_UTF8 + text.replace("\n", "\r\n").encode(),
    "no last line end": lambda text: text.rstrip("\n").encode(),
    "old carriage returns": lambda text: text.replace("\n", "\r").encode(),
}


@pytest.mark.parametrize("saved", SAME)
@pytest.mark.parametrize("kind", FILES)
def test_a_file_answers_the_same_however_its_lines_end(kind, saved, reading):
    text = FILES[kind][1]
    plain = reading(kind, text.encode())

    done = reading(kind, SAME[saved](text))

    assert plain.code == 0, plain.err
    if (kind, saved) == ("ledger", "old carriage returns"):  # nobody wrote a ledger on such a machine
        assert (done.code, done.out) == (3, "")
        assert done.err.startswith("own.ledger.yaml:1:")
    else:
        assert done == plain


REFUSED = {
    "UTF-16": lambda text: text.encode("utf-16"),
    "UTF-16 without a mark": lambda text: text.encode("utf-16-be"),
    "Latin-1": lambda text: text.replace("\n", "  # größer\n", 1).encode("latin-1", "ignore"),
    "a zero byte": lambda text: text.encode().replace(b"\n", b"\n\0", 1),
    "an end mark of old": lambda text: text.encode() + b"\x1a",
}


@pytest.mark.parametrize("saved", REFUSED)
@pytest.mark.parametrize("kind", FILES)
def test_a_file_in_another_encoding_is_refused_at_its_place(kind, saved, reading):
    name, text, _ = FILES[kind]

    done = reading(kind, REFUSED[saved](text))

    assert (done.code, done.out) == (3, "")
    place, _, sentence = done.err.partition(": ")
    assert place.count(":") == 2
    assert place.startswith(f"{name}:") or f"the table {name!r}" in sentence


@pytest.mark.parametrize("saved", ["Windows", "Windows with a byte order mark", "no last line end"])
def test_a_record_added_to_a_ledger_another_editor_saved_is_read_again(saved, reading, tmp_path):
    before = SAME[saved](LEDGER)
    reading("ledger", before)
    words = ("lent", "0.106", "--to", "Bo", "--on", "2026-02-05", "--set", "own.yaml")

    assert gaugestack("record", *words).code == 0

    after = (tmp_path / "own.ledger.yaml").read_bytes()
    shown = gaugestack("set", "show", "own.yaml", "--on", "2026-03-01").out
    assert after.startswith(before)
    assert "lent to Bo" in shown
    assert "lent to Ola" in shown
