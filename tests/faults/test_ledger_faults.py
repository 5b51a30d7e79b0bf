"""The ledger when things go wrong: killed, crowded, full, read-only, replaced, locked out."""

import datetime as dt
import errno
import os
import random
import subprocess
import sys
import time
from contextlib import contextmanager
from pathlib import Path

import pytest

from gaugestack.errors import RefusedFile
from gaugestack.inventory import ledgerfile
from gaugestack.inventory.events import Event, Kind
from gaugestack.inventory.ledger import append, ledger_path, read_ledger
from gaugestack.inventory.setfile import load_set
from gaugestack.lengths import Length, Unit

WRITER = Path(__file__).with_name("writer.py")
NOW = dt.datetime(2026, 2, 3, 9, 15)  # noqa: DTZ001  # the ledger's clock is the wall's
SET = "format: 1\nname: Bench set\nunit: in\nblocks:\n  - {size: 0.105}\n"
LOST = "nothing was recorded"


def used(job):
    size = Length(2_667_000_000)
    return Event(kind=Kind.USED, on=NOW.date(), size=size, unit=Unit.INCH, job=job)


def bench_in(directory):
    path = directory / "bench.yaml"
    path.write_text(SET, encoding="utf-8")
    return path, load_set(path)[0]


@pytest.fixture
def bench(tmp_path):
    return bench_in(tmp_path)


def jobs_of(bench):
    return [record.event.job for record in read_ledger(*bench).records]


def start(path, name, calls, events, *more):
    command = [sys.executable, str(WRITER), str(path), name, str(calls), str(events), *more]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


def refusal(bench, *jobs):
    with pytest.raises(RefusedFile) as caught:
        append(*bench, [used(job) for job in jobs], NOW)
    assert len(caught.value.problems) == 1
    return caught.value.problems[0].sentence


# ---- killed


@pytest.mark.slow
def test_every_acknowledged_record_is_there_after_the_writer_was_killed(bench):
    chance = random.Random(20_260_203)  # noqa: S311  # a test's dice
    acknowledged = []
    for turn in range(10):
        with start(bench[0], f"turn {turn}", 10_000, 1 + turn % 4) as writer:
            acknowledged.append(writer.stdout.readline().strip())
            time.sleep(chance.uniform(0, 0.25))
            writer.kill()
            acknowledged += writer.stdout.read().splitlines()

    present = jobs_of(bench)

    assert len(acknowledged) > 20
    assert set(acknowledged) <= set(present)
    assert len(present) == len(set(present))
    assert [job for job in present if job in set(acknowledged)] == acknowledged
    assert append(*bench, [used("after")], NOW)[0].n == len(present) + 1


def test_a_torn_last_line_is_reported_kept_and_followed(bench):
    append(*bench, [used("a"), used("b")], NOW)
    whole = ledger_path(bench[0]).read_bytes()
    torn = whole[:-25]
    ledger_path(bench[0]).write_bytes(torn)

    ledger = read_ledger(*bench)
    append(*bench, [used("c")], NOW)

    assert [record.event.job for record in ledger.records] == ["a"]
    assert str(ledger.torn[0]).startswith(f"{ledger_path(bench[0])}:3:1: a torn line")
    assert ledger_path(bench[0]).read_bytes().startswith(torn + b"\n- {n: 2,")
    assert jobs_of(bench) == ["a", "c"]
    assert len(read_ledger(*bench).torn) == 1


# ---- crowded


@pytest.mark.slow
def test_two_writers_at_once_lose_nothing(bench):
    writers = [start(bench[0], name, 50, 20) for name in ("first", "second")]
    for writer in writers:
        assert "refused" not in writer.communicate(timeout=300)[0]

    records = read_ledger(*bench).records

    assert [record.n for record in records] == list(range(1, 2001))
    for name in ("first", "second"):
        written = [record.event.job for record in records if record.event.job.startswith(name)]
        assert written == [f"{name} {call} {number}" for call in range(50) for number in range(20)]


@pytest.mark.slow
def test_a_reader_beside_a_writer_never_sees_half_a_line(bench):
    append(*bench, [used("first")], NOW)
    with start(bench[0], "writer", 40, 20) as writer:
        while writer.poll() is None:
            assert read_ledger(*bench).torn == ()
        writer.stdout.read()

    assert len(jobs_of(bench)) == 801


def test_a_ledger_that_was_replaced_while_we_waited_is_opened_again(bench, tmp_path, monkeypatch):
    append(*bench, [used("a")], NOW)
    path, lock = ledger_path(bench[0]), ledgerfile._lock
    edited = tmp_path / "edited"
    edited.write_text(f"{path.read_text(encoding='utf-8')}# a note\n", encoding="utf-8")

    def replaced_first(fd, name, *, for_writing):
        if edited.exists():
            edited.replace(path)
        lock(fd, name, for_writing=for_writing)

    monkeypatch.setattr(ledgerfile, "_lock", replaced_first)
    append(*bench, [used("b")], NOW)

    assert jobs_of(bench) == ["a", "b"]
    assert "# a note\n- {n: 2," in path.read_text(encoding="utf-8")


# ---- full


@contextmanager
def small_disk(directory, options="size=64k"):
    """A file system in memory; needs the right to mount one."""
    directory.mkdir()
    command = ["mount", "-t", "tmpfs", "-o", options, "tmpfs", str(directory)]
    try:
        mounted = subprocess.run(command, check=False, capture_output=True).returncode == 0
    except FileNotFoundError:
        mounted = False
    if not mounted:
        pytest.skip("no right to mount a file system here")
    try:
        yield directory
    finally:
        subprocess.run(["umount", str(directory)], check=True)


def fill(path):
    with path.open("wb", buffering=0) as file:
        try:
            while file.write(b"x" * 4096):
                pass
        except OSError as error:
            assert error.errno == errno.ENOSPC  # noqa: PT017  # the filling ends like this


def test_a_full_disk_records_nothing_and_leaves_the_ledger_whole(tmp_path):
    with small_disk(tmp_path / "disk") as disk:
        bench = bench_in(disk)
        append(*bench, [used("a")], NOW)
        before = ledger_path(bench[0]).read_bytes()
        fill(disk / "filler")

        sentence = refusal(bench, *(f"job {number}" for number in range(100)))

        assert sentence == f"the disk is full: {LOST}"
        assert ledger_path(bench[0]).read_bytes() == before
        (disk / "filler").unlink()
        assert append(*bench, [used("b")], NOW)[0].n == 2


def test_a_full_disk_takes_no_new_ledger_and_one_can_be_made_later(tmp_path):
    with small_disk(tmp_path / "disk") as disk:
        bench = bench_in(disk)
        fill(disk / "filler")

        assert refusal(bench, "a") == f"the disk is full: {LOST}"
        assert jobs_of(bench) == []
        (disk / "filler").unlink()
        assert append(*bench, [used("a")], NOW)[0].n == 1


def test_a_file_that_may_not_grow_is_left_as_it_was(bench):
    append(*bench, [used("a")], NOW)
    before = ledger_path(bench[0]).read_bytes()
    writer = start(bench[0], "big", 1, 100, str(len(before) + 150))

    said = writer.communicate(timeout=60)[0].strip()

    assert said.startswith("refused: ")
    assert said.endswith(LOST)
    assert ledger_path(bench[0]).read_bytes() == before


def test_half_a_write_is_taken_back(bench, monkeypatch):
    append(*bench, [used("a")], NOW)
    before, write = ledger_path(bench[0]).read_bytes(), os.write
    monkeypatch.setattr(ledgerfile.os, "write", lambda fd, data: write(fd, data[:20]))

    assert refusal(bench, "b") == f"the disk is full: {LOST}"
    monkeypatch.undo()
    assert ledger_path(bench[0]).read_bytes() == before


def test_half_a_write_that_cannot_be_taken_back_is_said_and_later_torn(bench, monkeypatch):
    append(*bench, [used("a")], NOW)
    write = os.write
    monkeypatch.setattr(ledgerfile.os, "write", lambda fd, data: write(fd, data[:20]))
    monkeypatch.setattr(ledgerfile.os, "ftruncate", failing(errno.EIO))

    said = refusal(bench, "b")
    monkeypatch.undo()

    assert said == f"the disk is full: {LOST}, but a torn line may be left in the file"
    assert jobs_of(bench) == ["a"]
    assert len(read_ledger(*bench).torn) == 1
    assert append(*bench, [used("c")], NOW)[0].n == 2


def test_a_disk_that_does_not_confirm_has_recorded_nothing(bench, monkeypatch):
    append(*bench, [used("a")], NOW)
    calls = iter([errno.EIO])
    sync = os.fsync

    def first_fails(fd):
        number = next(calls, None)
        if number:
            raise OSError(number, "no")
        sync(fd)

    monkeypatch.setattr(ledgerfile.os, "fsync", first_fails)

    assert refusal(bench, "b") == f"the disk has failed: {LOST}"
    assert jobs_of(bench) == ["a"]


# ---- closed to us


def failing(number):
    def fail(*_args, **_kwargs):
        raise OSError(number, os.strerror(number))

    return fail


def test_a_read_only_disk_is_read_and_not_written(tmp_path):
    with small_disk(tmp_path / "disk") as disk:
        bench = bench_in(disk)
        append(*bench, [used("a")], NOW)
        subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)

        assert refusal(bench, "b") == f"the disk is read-only: {LOST}"
        assert jobs_of(bench) == ["a"]


def test_a_read_only_disk_takes_no_new_ledger(tmp_path):
    with small_disk(tmp_path / "disk") as disk:
        bench = bench_in(disk)
        subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)

        assert refusal(bench, "a") == f"the disk is read-only: {LOST}"
        assert not ledger_path(bench[0]).exists()


@pytest.mark.parametrize(
    ("number", "sentence"),
    [
        (errno.EACCES, f"you have no permission for this file: {LOST}"),
        (errno.EROFS, f"the disk is read-only: {LOST}"),
        (errno.EMFILE, f"Too many open files: {LOST}"),
    ],
)
def test_a_ledger_that_cannot_be_opened_for_writing_says_so(bench, monkeypatch, number, sentence):
    monkeypatch.setattr(ledgerfile.os, "open", failing(number))

    assert refusal(bench, "a") == sentence


def test_a_ledger_that_cannot_be_opened_for_reading_says_so(bench, monkeypatch):
    monkeypatch.setattr(ledgerfile.os, "open", failing(errno.EACCES))

    with pytest.raises(RefusedFile, match="no permission for this file: the ledger cannot be read"):
        read_ledger(*bench)


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_read_only_directory_takes_no_ledger(bench):
    bench[0].parent.chmod(0o500)
    try:
        assert refusal(bench, "a") == f"you have no permission for this file: {LOST}"
    finally:
        bench[0].parent.chmod(0o700)


def test_a_ledger_in_a_missing_directory_says_so(bench, tmp_path):
    assert refusal((tmp_path / "gone" / "bench.yaml", bench[1]), "a") == f"there is no such directory: {LOST}"


def test_a_ledger_that_is_a_directory_is_refused(bench):
    ledger_path(bench[0]).mkdir()

    assert refusal(bench, "a") == f"this is a directory, not a file: {LOST}"
    with pytest.raises(RefusedFile, match="this is no plain file"):
        read_ledger(*bench)


def test_a_ledger_that_is_a_pipe_is_refused_at_once(bench):
    os.mkfifo(ledger_path(bench[0]))

    assert refusal(bench, "a") == f"this is no plain file: {LOST}"
    with pytest.raises(RefusedFile, match="this is no plain file"):
        read_ledger(*bench)


def test_a_ledger_that_breaks_off_under_the_reader_is_refused(bench, monkeypatch):
    append(*bench, [used("a")], NOW)
    monkeypatch.setattr(ledgerfile.os, "pread", failing(errno.EIO))

    with pytest.raises(RefusedFile, match="the file cannot be read: the disk has failed"):
        read_ledger(*bench)


def test_a_ledger_too_large_to_be_one_is_refused(bench):
    with ledger_path(bench[0]).open("wb") as file:
        file.truncate(ledgerfile.LARGEST_LEDGER + 1)

    with pytest.raises(RefusedFile, match="larger than 16 MiB"):
        read_ledger(*bench)


def test_without_locks_a_ledger_is_read_and_not_written(bench, monkeypatch):
    append(*bench, [used("a")], NOW)
    monkeypatch.setitem(sys.modules, "fcntl", None)

    assert refusal(bench, "b") == f"files cannot be locked on this system: {LOST}"
    assert jobs_of(bench) == ["a"]


def test_a_disk_that_cannot_lock_is_read_and_not_written(bench, monkeypatch):
    append(*bench, [used("a")], NOW)
    monkeypatch.setattr("fcntl.flock", failing(errno.ENOLCK))

    assert refusal(bench, "b") == f"the file cannot be locked (No locks available): {LOST}"
    assert jobs_of(bench) == ["a"]


# ---- what the world does to the contents


def test_a_clock_that_goes_back_is_a_warning_and_stops_nothing(bench):
    append(*bench, [used("a")], NOW)
    append(*bench, [used("b")], NOW - dt.timedelta(days=400))
    append(*bench, [used("c")], NOW)

    ledger = read_ledger(*bench)

    assert jobs_of(bench) == ["a", "b", "c"]
    assert [warning.place.line for warning in ledger.warnings] == [3]


def test_nonsense_written_by_hand_refuses_the_ledger_and_nothing_is_added(bench):
    append(*bench, [used("a")], NOW)
    path = ledger_path(bench[0])
    path.write_text(f"{path.read_text(encoding='utf-8')}lent the small one to Ola\n", encoding="utf-8")
    before = path.read_bytes()

    assert refusal(bench, "b") == "a record is written in one line"
    assert path.read_bytes() == before


def test_the_ledger_of_another_set_is_refused_and_not_added_to(bench, tmp_path):
    append(*bench, [used("a")], NOW)
    other = tmp_path / "other.yaml"
    other.write_text(SET.replace("Bench set", "Other set"), encoding="utf-8")
    ledger_path(bench[0]).rename(ledger_path(other))

    said = refusal((other, load_set(other)[0]), "b")

    assert said == "this is the ledger of 'Bench set', not of 'Other set'"
