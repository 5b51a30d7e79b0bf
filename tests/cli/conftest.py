"""No setting of the person who runs the tests reaches the commands."""

import pytest


@pytest.fixture(autouse=True)
def _plain_environment(monkeypatch):
    monkeypatch.delenv("GAUGESTACK_SET", raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("TERM", "dumb")


@pytest.fixture
def set_file(tmp_path):
    """Return a function that writes a set file and names it."""

    def write(text, name="my-set.yaml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write
