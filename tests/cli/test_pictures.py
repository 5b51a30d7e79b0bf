"""Pictures that commands write: where, what, and when none is written."""

import pytest

from tests.cards.drawings import parsed, words
from tests.cli.shell import gaugestack
from tests.cli.test_history import SET

PICTURES = {
    "stack": (["stack", "0.205", "0.703"], "0.205 in"),
    "angle": (["angle", "7d7m30s", "--bar", "5in", "--tolerance", "0.01in"], "5 in centres"),
    "budget stack": (["budget", "stack", "0.205"], "share of the variance"),
    "budget angle": (["budget", "angle", "7d7m30s", "--bar", "5in", "--tolerance", "0.01in"], "in doubt"),
    "history": (["history", "0.105"], "+25.0 µin the owner's own limit"),
}
COMMANDS = [words_ for words_, _ in PICTURES.values()]
EVERY = pytest.mark.parametrize(("words_", "shown"), PICTURES.values(), ids=PICTURES)


@pytest.fixture
def bench(set_file):
    return set_file(SET, "bench.yaml")


@EVERY
def test_a_picture_is_written_beside_the_answer(bench, tmp_path, words_, shown):
    picture = tmp_path / "picture.svg"
    plain = gaugestack(*words_, "--set", bench, "--on", "2026-06-01")
    done = gaugestack(*words_, "--set", bench, "--on", "2026-06-01", "--svg", picture)

    assert (done.code, done.out) == (0, plain.out)
    assert any(shown in said for said in words(picture.read_text(encoding="utf-8")))


@pytest.mark.parametrize("words_", COMMANDS, ids=PICTURES)
def test_a_picture_is_written_beside_json_too(bench, tmp_path, words_):
    picture = tmp_path / "picture.svg"
    done = gaugestack(*words_, "--set", bench, "--on", "2026-06-01", "--json", "--svg", picture)

    assert done.json["version"] == 1
    assert parsed(picture.read_text(encoding="utf-8")).get("role") == "img"


@pytest.mark.parametrize("words_", COMMANDS, ids=PICTURES)
def test_a_name_that_is_no_drawing_is_refused(bench, words_):
    done = gaugestack(*words_, "--set", bench, "--on", "2026-06-01", "--svg", bench)

    assert done.code == 2
    assert "ends in .svg" in done.err
    assert bench.read_text(encoding="utf-8") == SET


@pytest.mark.parametrize("words_", [["stack"], ["budget", "stack"]])
def test_where_there_is_no_stack_no_picture_is_written(bench, tmp_path, words_):
    picture = tmp_path / "picture.svg"
    done = gaugestack(*words_, "0.0503in", "--set", bench, "--on", "2026-06-01", "--svg", picture)

    assert done.code == 1
    assert "nothing to draw" in done.err
    assert not picture.exists()


def test_a_picture_of_several_heights_holds_every_stack(bench, tmp_path):
    picture = tmp_path / "picture.svg"
    gaugestack("stack", "0.205", "0.703", "--set", bench, "--svg", picture)
    said = words(picture.read_text(encoding="utf-8"))

    assert {"0.205 in: 2 blocks", "0.703 in: 2 blocks"} <= set(said)


def test_a_picture_of_a_small_angle_holds_both_stacks(tmp_path):
    picture = tmp_path / "picture.svg"
    gaugestack("angle", "0d3m", "--bar", "5in", "--set", "inch-81", "--svg", picture)
    said = words(picture.read_text(encoding="utf-8"))

    assert {"high, 0.105 in: 1 block", "low, 0.1006 in: 1 block"} <= set(said)


def test_the_screen_of_a_history_shows_the_calibrations_between_the_limits(bench):
    for day, value in (("2024-01-15", "0.5"), ("2026-01-15", "-0.5")):
        told = ("--deviation", value, "--uncertainty", "0.2", "--trust", "own-comparison", "--on", day)
        assert gaugestack("record", "calibrated", "0.105", *told, "--set", bench).code == 0
    done = gaugestack("history", "0.105", "--set", bench, "--on", "2026-06-01")
    rows = [line for line in done.out.splitlines() if line.count("|") == 2]

    assert [row.split()[0] for row in rows] == ["2022-01-15", "2024-01-15", "2026-01-15"]
    assert max(map(len, done.out.splitlines())) <= 80
