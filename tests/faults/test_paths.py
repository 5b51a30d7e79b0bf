"""Paths of every kind, and places that cannot be read or written, for root too."""

import os
import signal
import subprocess
import sys
import time

import pytest

from tests.cli.shell import gaugestack

SET = "format: 1\nname: Bench\nunit: in\nblocks: [{from: 0.1, to: 1, step: 0.1}]\n"
NAMES = ["own set.yaml", "Größe.yaml", "😀.yaml", "two\nlines.yaml", "-dash.yaml", "a" * 250 + ".yaml"]


@pytest.fixture(autouse=True)
def _stand_in(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize("name", NAMES, ids=ascii)
def test_a_set_and_its_ledger_may_have_any_name(name, tmp_path):
    if len(name) > 250 and os.pathconf(tmp_path, "PC_NAME_MAX") < 255 + len(".ledger"):
        name = "a" * 240 + ".yaml"  # the ledger's name is longer
    (tmp_path / name).write_text(SET, encoding="utf-8")

    shown = gaugestack("set", "show", "--set", name)
    recorded = gaugestack("record", "lent", "0.2", "--to", "Ola", "--on", "2026-02-05", "--set", name)
    after = gaugestack("stack", "0.2in", "--set", name, "--on", "2026-02-06", "--json")

    assert (shown.code, recorded.code, after.code) == (0, 0, 1), (shown.err, recorded.err)
    assert "lent to Ola" in after.out


def test_a_set_behind_a_link_or_a_relative_path_keeps_one_ledger(tmp_path, monkeypatch):
    (tmp_path / "drawer").mkdir()
    (tmp_path / "drawer" / "own.yaml").write_text(SET, encoding="utf-8")
    (tmp_path / "link").symlink_to("drawer")
    monkeypatch.chdir(tmp_path / "drawer")
    lent = ("record", "lent", "0.2", "--to", "Ola", "--on", "2026-02-05", "--set", "../drawer/own.yaml")
    assert gaugestack(*lent).code == 0
    monkeypatch.chdir(tmp_path)

    for name in ("drawer/own.yaml", "./link/own.yaml", tmp_path / "link" / "own.yaml"):
        assert gaugestack("stack", "0.2in", "--set", name, "--on", "2026-02-06").code == 1


UNREADABLE = {
    "a loop of links": "loop.yaml",
    "a file taken for a folder": "file.yaml/own.yaml",
    "a name too long": "a" * 300 + ".yaml",
    "a folder": ".",
    "standard input": "-",
    "nothing": "",
    "a path too long": "a/" * 4000 + "own.yaml",
}
READERS = {
    "set": ("set", "show", "--set"),
    "bars": ("angle", "30deg", "--bar", "plate", "--bars"),
    "job": ("job",),
    "heights": ("set", "matters", "inch-81", "--heights"),
    "tapers": ("card", "box", "--bar", "5in", "--tapers"),
    "angles": ("card", "box", "--bar", "5in", "--angles"),
    "targets": ("stack", "--targets"),
    "angle set": ("angle-blocks", "6d", "--set"),
}


@pytest.mark.parametrize(
    ("why", "reader"),
    [
        (why, reader)
        for why in UNREADABLE
        for reader in READERS
        if (why, reader) != ("standard input", "targets")  # a list may come from there
    ],
)
def test_what_cannot_be_read_is_refused(why, reader, tmp_path):
    """Each fails for root as for anybody; permissions are not asked of root."""
    (tmp_path / "loop.yaml").symlink_to("loop.yaml")
    (tmp_path / "file.yaml").write_text(SET, encoding="utf-8")

    done = gaugestack(*READERS[reader], UNREADABLE[why])

    assert done.code in (2, 3), done.err
    assert done.out == ""
    assert done.err
    assert "Traceback" not in done.err


WRITERS = {
    "drawing": (("reach", "0.2..4in", "--svg"), ".svg"),
    "figure": (("taper", "1:20", "--bar", "5in", "--svg"), ".svg"),
    "card": (("card", "setup", "stack", "0.6202in", "--output"), ".txt"),
    "page": (("card", "box", "--output"), ".html"),
    "set": (("set", "copy", "inch-81"), ".yaml"),
}
UNWRITABLE = ["/proc/nobody", "nowhere/x", "file/x", "a" * 300, "loop/x"]


@pytest.mark.parametrize("writer", WRITERS)
@pytest.mark.parametrize("stem", UNWRITABLE, ids=lambda stem: stem[:12])
def test_what_cannot_be_written_is_said_and_nothing_is_answered(stem, writer, tmp_path):
    (tmp_path / "file").write_text("kept", encoding="utf-8")
    (tmp_path / "loop").symlink_to("loop")
    words, ending = WRITERS[writer]

    done = gaugestack(*words, stem + ending)

    assert done.code in (2, 3), done.err
    assert done.out == ""
    assert "cannot be written" in done.err or "no such" in done.err.casefold() or "written" in done.err
    assert sorted(path.name for path in tmp_path.iterdir()) == ["file", "loop"]
    assert (tmp_path / "file").read_text(encoding="utf-8") == "kept"


@pytest.mark.parametrize(
    "words",
    [
        ["card", "box", "--angles", "every 1m", "--bar", "5in", "--output", "out.html"],
        ["card", "job", "job.yaml", "--output", "out.html"],
        ["job", "job.yaml"],
    ],
    ids=" ".join,
)
def test_ctrl_c_leaves_no_half_written_file(words, tmp_path):
    """The list is read from a pipe that nobody closes, or there is work for many seconds."""
    if "job.yaml" in words:
        os.mkfifo(tmp_path / "job.yaml")
    before = sorted(path.name for path in tmp_path.iterdir())

    command = [sys.executable, "-m", "gaugestack", *words]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as running:
        time.sleep(1.5)
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=30)

    assert (running.returncode, out, err) == (130, "", "")
    assert sorted(path.name for path in tmp_path.iterdir()) == before


@pytest.mark.parametrize("zone", ["Pacific/Kiritimati", "Etc/GMT+12", "nonsense", ""])
def test_a_record_takes_the_day_of_the_clock_on_the_wall(zone, tmp_path, monkeypatch):
    (tmp_path / "own.yaml").write_text(SET, encoding="utf-8")
    monkeypatch.setenv("TZ", zone)
    time.tzset()
    try:
        today = {time.strftime("%Y-%m-%d")}
        done = gaugestack("record", "lent", "0.2", "--to", "Ola", "--set", "own.yaml")
        today.add(time.strftime("%Y-%m-%d"))
    finally:
        monkeypatch.undo()
        time.tzset()

    assert done.code == 0, done.err
    assert any(f"since {day}" in done.out for day in today)


@pytest.mark.parametrize(
    ("day", "code"),
    [("2024-02-29", 0), ("2023-02-29", 2), ("1900-02-29", 2), ("1990-01-01", 0), ("9999-12-31", 0)],
)
def test_a_day_is_one_of_the_calendar_before_or_after_the_set_s_dates(day, code, tmp_path):
    dated = SET + "certificate: {date: 2024-02-29, due: 2025-02-28, uncertainty: {fixed: 2 uin}}\n"
    (tmp_path / "own.yaml").write_text(dated, encoding="utf-8")

    done = gaugestack("stack", "0.2in", "--set", "own.yaml", "--on", day)

    assert done.code == code, done.err
    assert ("is no day" in done.err) == (code == 2)
