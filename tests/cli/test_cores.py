"""A list shared among processes: every item once, results in order, failures told, nobody left behind."""

import gc
import multiprocessing
import os
import signal
import time
from collections.abc import Callable
from dataclasses import dataclass

import pytest

from gaugestack.cli import cores
from gaugestack.cli.cores import worked_off


@dataclass(frozen=True)
class Doubled:
    """Twice each number; what is to happen at some of them, and where."""

    home: int
    fails_at: int = -1
    dies_at: int = -1
    fails_here: bool = False
    slow_here: float = 0.0

    def begin(self) -> Callable[[int], int]:
        return self.double

    def double(self, number: int) -> int:
        here = os.getpid() == self.home
        if here and self.slow_here:
            time.sleep(self.slow_here)
        if number == self.dies_at and not here:
            os.kill(os.getpid(), signal.SIGKILL)
        if number == self.fails_at and (self.fails_here or not here):
            raise ZeroDivisionError(number)
        return 2 * number


@dataclass(frozen=True)
class Where:
    """Which process did each number; this one takes its time."""

    home: int

    def begin(self) -> Callable[[int], int]:
        return self.where

    def where(self, number: int) -> int:
        del number
        time.sleep(0.05 if os.getpid() == self.home else 0.001)
        return os.getpid()


@dataclass(frozen=True)
class NoBeginning:
    """Begins nowhere but here."""

    home: int

    def begin(self) -> Callable[[int], int]:
        if os.getpid() != self.home:
            raise RuntimeError("no helper can begin")
        return Doubled(self.home, slow_here=0.02).double


@pytest.fixture
def two(monkeypatch):
    """Let two helpers be hired for short lists."""
    monkeypatch.setattr(cores, "FEW", 4)
    monkeypatch.setattr(cores, "cores", lambda: 3)


@pytest.mark.usefixtures("two")
def test_results_stand_in_the_order_of_the_items():
    assert worked_off(Doubled(os.getpid(), slow_here=0.01), range(150)) == [2 * n for n in range(150)]


@pytest.mark.usefixtures("two")
def test_helpers_do_a_share_of_a_long_list():
    where = worked_off(Where(os.getpid()), range(300))

    assert os.getpid() in where
    assert len(set(where)) > 1


def test_a_short_list_and_a_single_core_hire_nobody(monkeypatch):
    monkeypatch.setattr(cores, "_hired", lambda *_: pytest.fail("a helper was hired"))
    monkeypatch.setattr(cores, "cores", lambda: 8)
    assert worked_off(Doubled(os.getpid()), range(cores.FEW - 1)) == [2 * n for n in range(cores.FEW - 1)]
    monkeypatch.setattr(cores, "cores", lambda: 1)
    assert len(worked_off(Doubled(os.getpid()), range(5 * cores.FEW))) == 5 * cores.FEW


@pytest.mark.usefixtures("two")
def test_what_a_helper_cannot_do_is_done_here():
    task = Doubled(os.getpid(), fails_at=5, slow_here=0.02)

    assert worked_off(task, range(100)) == [2 * n for n in range(100)]


@pytest.mark.usefixtures("two")
def test_the_list_of_a_helper_that_dies_is_done_here():
    task = Doubled(os.getpid(), dies_at=9, slow_here=0.02)

    assert worked_off(task, range(100)) == [2 * n for n in range(100)]


@pytest.mark.usefixtures("two")
def test_a_helper_that_cannot_begin_is_no_loss(capfd):
    assert worked_off(NoBeginning(os.getpid()), range(60)) == [2 * n for n in range(60)]
    assert "Traceback" not in capfd.readouterr().err


@pytest.mark.usefixtures("two")
def test_a_failure_that_is_nobody_s_fault_but_the_item_s_is_raised_here():
    task = Doubled(os.getpid(), fails_at=60, fails_here=True, slow_here=0.005)

    with pytest.raises(ZeroDivisionError):
        worked_off(task, range(100))
    assert multiprocessing.active_children() == []


@pytest.mark.usefixtures("two")
def test_every_item_is_counted_once():
    counted = []
    worked_off(Doubled(os.getpid(), fails_at=5, slow_here=0.01), range(100), lambda: counted.append(1))

    assert len(counted) == 100


@pytest.mark.usefixtures("two")
def test_nobody_is_left_when_the_list_is_done():
    worked_off(Doubled(os.getpid(), slow_here=0.005), range(100))

    assert multiprocessing.active_children() == []


@pytest.mark.usefixtures("two")
def test_ctrl_c_ends_the_helpers_and_goes_on():
    def interrupted():
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        worked_off(Doubled(os.getpid()), range(100), interrupted)
    assert multiprocessing.active_children() == []
    assert signal.pthread_sigmask(signal.SIG_BLOCK, []) == set()


def test_there_is_at_least_one_core():
    assert cores.cores() >= 1


@dataclass(frozen=True)
class Collecting:
    """Whether memory is collected while an item is done."""

    def begin(self) -> Callable[[int], bool]:
        return lambda _: gc.isenabled()


def test_a_long_list_is_collected_and_a_short_one_as_it_was(monkeypatch):
    monkeypatch.setattr(cores, "cores", lambda: 1)
    monkeypatch.setattr(cores, "FEW", 4)
    gc.disable()
    try:
        assert worked_off(Collecting(), range(3)) == [False] * 3
        assert worked_off(Collecting(), range(4)) == [True] * 4
        assert not gc.isenabled()
    finally:
        gc.enable()
