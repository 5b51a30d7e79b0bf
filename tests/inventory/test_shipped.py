import shutil
from pathlib import Path

import pytest

import gaugestack
from gaugestack.errors import UsageError
from gaugestack.inventory import shipped
from gaugestack.inventory.shipped import DEFAULT_SET, file_said, find_set, shipped_names, shipped_path


def test_the_default_set_is_shipped():
    assert DEFAULT_SET in shipped_names()
    assert find_set(DEFAULT_SET) == shipped_path(DEFAULT_SET)
    assert shipped_path(DEFAULT_SET).is_file()


@pytest.mark.parametrize("text", ["bench.yaml", "bench.YML", "sets/bench", "./bench", "/a/b"])
def test_a_path_is_a_path_whether_it_exists_or_not(text):
    assert find_set(text) == Path(text)


def test_an_existing_file_needs_no_ending(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bench").write_text("format: 1")

    assert find_set("bench") == Path("bench")


def test_a_shipped_name_is_not_hidden_by_a_file_of_that_name(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "inch-81").write_text("format: 1")

    assert find_set("inch-81") == shipped_path("inch-81")


def test_a_wear_set_with_a_dot_in_its_name_is_a_name():
    assert find_set("metric-wear-2.5").name == "metric-wear-2.5.yaml"


@pytest.mark.parametrize("name", ["inch81", "", "\0", "inch-81 "])
def test_an_unknown_name_is_refused_with_the_nearest(name):
    with pytest.raises(UsageError) as caught:
        find_set(name)

    (problem,) = caught.value.problems
    assert problem.sentence == f"no shipped set is called {name!r}"
    assert "inch-81" in problem.hint
    assert problem.hint.endswith("a file of your own is named with its .yaml ending")


def test_a_wheel_carries_the_sets_inside_the_package(tmp_path, monkeypatch):
    shutil.copytree(Path(gaugestack.__file__).parents[1] / "sets", tmp_path / "_sets")
    monkeypatch.setattr(shipped, "_PACKAGE", tmp_path)

    assert shipped_path("inch-81") == tmp_path / "_sets" / "inch-81.yaml"


def test_a_shipped_set_is_told_by_its_name_and_a_file_of_ones_own_by_its_path():
    assert file_said(str(shipped_path("inch-81"))) == "inch-81"
    assert file_said("my/inch-81.yaml") == "my/inch-81.yaml"
    assert file_said("") == ""
