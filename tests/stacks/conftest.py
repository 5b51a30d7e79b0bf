"""Leave the slow tests of this directory to `pytest -m slow`, so that the default run stays quick."""

from pathlib import Path

import pytest

HERE = Path(__file__).parent


def pytest_collection_modifyitems(config, items):
    if config.option.markexpr:
        return
    for item in items:
        if item.path.is_relative_to(HERE) and item.get_closest_marker("slow"):
            item.add_marker(pytest.mark.skip(reason="slow: run it with -m slow"))
