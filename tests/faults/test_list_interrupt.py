"""A long list, Ctrl-C and closed pipes: gone at once with the code a shell expects, and no process left."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
COMMAND = [sys.executable, "-m", "gaugestack", "stack", "--set", "inch-81", "--targets"]
pytestmark = pytest.mark.skipif(
    not Path("/proc/self/stat").exists(), reason="no /proc to look for processes in"
)


@pytest.fixture
def long_list(tmp_path):
    """Return a list that keeps every core busy for many seconds."""
    path = tmp_path / "list.txt"
    path.write_text("".join(f"{n / 10_000:.4f}in\n" for n in range(20_000, 30_000)), encoding="utf-8")
    return str(path)


def group(number):
    """Return the processes of a group that are alive, as /proc tells."""
    alive = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            name, _, rest = stat.read_text(encoding="utf-8").rpartition(")")
        except OSError:
            continue
        state, _, its_group = rest.split()[:3]
        if int(its_group) == number and state != "Z":
            alive.append(name)
    return alive


def gone(number, within=10.0):
    """Tell whether every process of a group ends in time."""
    deadline = time.monotonic() + within
    while group(number) and time.monotonic() < deadline:
        time.sleep(0.05)
    return not group(number)


@pytest.mark.parametrize("after", [0.3, 1.2, 4.0])
def test_ctrl_c_ends_every_process_of_a_list_with_130_and_says_nothing(long_list, after):
    with subprocess.Popen(
        [*COMMAND, long_list],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as running:
        time.sleep(after)
        os.killpg(running.pid, signal.SIGINT)  # as a terminal does: everybody hears it
        out, err = running.communicate(timeout=20)

    assert (running.returncode, out, err) == (130, "", "")
    assert gone(running.pid)


def test_helpers_end_where_their_list_is_killed(long_list):
    with subprocess.Popen(
        [*COMMAND, long_list], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, start_new_session=True
    ) as running:
        time.sleep(4)
        running.kill()
        running.wait()
        assert gone(running.pid)


def test_a_closed_pipe_ends_a_list_with_141(tmp_path):
    path = tmp_path / "list.txt"
    path.write_text("0.6202in\n" * 30, encoding="utf-8")
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        [*COMMAND, str(path)], cwd=ROOT, stdout=writer, stderr=subprocess.PIPE, check=False, timeout=60
    )
    os.close(writer)

    assert (done.returncode, done.stderr) == (141, b"")


def test_ctrl_c_while_standard_input_is_awaited_leaves_with_130():
    with subprocess.Popen(
        [*COMMAND, "-"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=ROOT
    ) as running:
        time.sleep(1.5)
        running.send_signal(signal.SIGINT)
        assert (running.wait(timeout=20), running.stdout.read(), running.stderr.read()) == (130, b"", b"")


@pytest.mark.slow
def test_both_cores_print_the_bytes_of_one(tmp_path):
    if not hasattr(os, "sched_setaffinity") or len(os.sched_getaffinity(0)) < 2:
        pytest.skip("one core only")
    path = tmp_path / "list.csv"
    lines = [f"{n / 10_000:.4f}in,n{n}\n" for n in range(900, 30_000, 60)]
    path.write_text("height,name\n" + "".join(lines), encoding="utf-8")
    one = str(min(os.sched_getaffinity(0)))
    alone = "import os; os.sched_setaffinity(0, {%s}); from gaugestack.cli.main import main; main()" % one  # noqa: UP031

    words = [*COMMAND, str(path), "--json"]
    both = subprocess.run(words, cwd=ROOT, capture_output=True, check=False, timeout=120)
    single = subprocess.run(
        [sys.executable, "-c", alone, *words[3:]], cwd=ROOT, capture_output=True, check=False, timeout=120
    )

    assert both.returncode == single.returncode == 1
    assert both.stderr == single.stderr == b""
    assert both.stdout == single.stdout
