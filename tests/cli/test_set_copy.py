"""The command `set copy`: a shipped set as a file of one's own, nothing overwritten."""

import pytest

from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_path
from tests.cli.shell import gaugestack


def names(directory):
    return [path.name for path in directory.iterdir()]


def test_the_copy_is_the_shipped_file_byte_for_byte(tmp_path):
    done = gaugestack("set", "copy", "inch-81", tmp_path / "bench.yaml")

    assert done.code == 0
    assert (tmp_path / "bench.yaml").read_bytes() == shipped_path("inch-81").read_bytes()
    assert names(tmp_path) == ["bench.yaml"]


def test_the_copy_takes_the_name_of_its_owner(tmp_path):
    done = gaugestack(
        "set", "copy", "metric-88", tmp_path / "own.yaml", "--name", 'Ola\'s "good" set', "--json"
    )

    file = str(tmp_path / "own.yaml")
    assert done.json == {"schema": "gaugestack/set-copy", "version": 1, "copied": "metric-88", "file": file}
    assert load_set(tmp_path / "own.yaml")[0].name == 'Ola\'s "good" set'


def test_the_copy_takes_records(tmp_path):
    gaugestack("set", "copy", "inch-81", tmp_path / "bench.yaml")

    assert gaugestack("record", "missing", "0.105", "--set", tmp_path / "bench.yaml").code == 0


@pytest.mark.parametrize("there", ["bench.yaml", "bench.ledger.yaml"])
def test_what_is_there_already_is_never_overwritten(tmp_path, there):
    (tmp_path / there).write_text("mine", encoding="utf-8")
    done = gaugestack("set", "copy", "inch-81", tmp_path / "bench.yaml")

    assert done.code == 2
    assert f"{there} is there already" in done.err
    assert names(tmp_path) == [there]
    assert (tmp_path / there).read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["inch-99", "bench.yaml"], "no shipped set is called 'inch-99'"),
        (["inch-81", "bench"], "it ends in .yaml"),
        (["inch-81", "bench.yaml", "--name", "a\x07b"], "--name"),
    ],
)
def test_a_wrong_use_writes_nothing(tmp_path, monkeypatch, words, message):
    monkeypatch.chdir(tmp_path)
    done = gaugestack("set", "copy", *words)

    assert done.code == 2
    assert message in done.err
    assert names(tmp_path) == []


def test_a_directory_that_is_not_there_refuses_the_file(tmp_path):
    done = gaugestack("set", "copy", "inch-81", tmp_path / "none" / "bench.yaml")

    assert done.code == 3
    assert "cannot be written" in done.err
