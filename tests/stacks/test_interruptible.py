"""Work beside: its result, its error, and an interrupt that ends it."""

import _thread
import threading

import pytest

from gaugestack.stacks.interruptible import interruptible


def test_the_result_of_the_work_comes_back():
    assert interruptible(lambda: 7, lambda: None) == 7


def test_the_error_of_the_work_comes_back():
    with pytest.raises(ZeroDivisionError):
        interruptible(lambda: 1 // 0, lambda: None)


def test_an_interrupt_stops_the_work_and_goes_on_once_it_has_ended():
    stopped, ended = threading.Event(), []

    def work():
        _thread.interrupt_main()
        ended.append(stopped.wait(20))

    with pytest.raises(KeyboardInterrupt):
        interruptible(work, stopped.set)

    assert ended == [True]


def test_work_that_does_not_listen_yet_is_asked_again():
    asked, begun = [], threading.Event()

    def stop():
        asked.append(1)
        if len(asked) > 2:
            begun.set()

    def work():
        _thread.interrupt_main()
        begun.wait(20)

    with pytest.raises(KeyboardInterrupt):
        interruptible(work, stop)

    assert len(asked) == 3
