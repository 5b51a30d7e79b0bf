"""The option `--messages`: a run of the suite has to say every message there is."""

from pathlib import Path

import pytest

from tests.messages import Watch

HERE = Path(__file__).parent
UNHEARD = (HERE / "fuzz", HERE / "property", HERE / "promise", HERE / "bench")
"""Tests with texts made at random: what they chance upon is not said on purpose."""
_WATCH = pytest.StashKey[Watch]()


def pytest_addoption(parser):
    parser.addoption(
        "--messages", action="store_true", help="fail where a message of the package is said in no test"
    )


def pytest_configure(config):
    if config.getoption("--messages"):
        config.stash[_WATCH] = Watch()
        config.stash[_WATCH].begin()


def pytest_runtest_setup(item):
    watch = item.config.stash.get(_WATCH, None)
    if watch:
        watch.open = not any(item.path.is_relative_to(where) for where in UNHEARD)


def pytest_sessionfinish(session, exitstatus):
    watch = session.config.stash.get(_WATCH, None)
    if watch and watch.unsaid() and exitstatus == pytest.ExitCode.OK:
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter, config):
    watch = config.stash.get(_WATCH, None)
    if watch:
        unsaid = watch.unsaid()
        terminalreporter.write_line(f"messages: {len(watch.every)}, said in no test: {len(unsaid)}")
        for message in unsaid:
            terminalreporter.write_line(f"  {message}")
