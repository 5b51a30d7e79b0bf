"""The smoke run of the bench: every figure has a peer, none has lost tenfold, both agree.

Loose on purpose: a busy machine must pass, a tenfold loss must not.
"""

import json
import subprocess
import sys
from pathlib import Path

import pytest

RUN = Path(__file__).with_name("run.py")
pytestmark = pytest.mark.slow
PAGE = "# Figures\n\n<!-- bench:begin -->\nold\n<!-- bench:end -->\n\nThe end.\n"


@pytest.fixture(scope="module")
def quick(tmp_path_factory):
    """Run the smoke run once; return its rows and the page it wrote into."""
    folder = tmp_path_factory.mktemp("bench")
    rows, page = folder / "rows.json", folder / "page.md"
    page.write_text(PAGE, encoding="utf-8")
    words = [sys.executable, str(RUN), "--quick", "--json", str(rows), "--write", str(page)]
    done = subprocess.run(words, capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr
    return json.loads(rows.read_text(encoding="utf-8")), page.read_text(encoding="utf-8")


def rows_of(quick, word):
    return [row for row in quick[0] if word in row["figure"]]


def test_every_figure_stands_beside_a_peer(quick):
    assert quick[0]
    for row in quick[0]:
        assert row["missing"] or (row["beside"] and row["peer_median_ms"] > 0 and row["ratio"] > 0), row


def test_peers_and_we_agree_wherever_the_peer_finished(quick):
    assert [row["figure"] for row in quick[0] if row["disagreed"]] == []
    assert sum(row["compared"] for row in quick[0]) > 0


@pytest.mark.parametrize(
    "word",
    ["compose", "pairs", "difference", "job of", "reach table", "list of", "list, ", "10 heights at once"],
)
def test_no_figure_of_the_composer_is_tenfold_below_its_goal(quick, word):
    rows = rows_of(quick, word)
    assert rows
    assert [row for row in rows if not row["passes"]] == []


@pytest.mark.parametrize("word", ["each block matters", "budget of a stack", "box card"])
def test_no_figure_of_other_answers_is_tenfold_below_its_goal(quick, word):
    rows = rows_of(quick, word)
    assert rows
    assert [row for row in rows if not row["passes"]] == []


def test_what_cannot_be_at_once_for_want_of_blocks_is_said(quick):
    [row] = rows_of(quick, "100 heights at once")
    assert row["missing"].startswith("cannot be: they take at least")


@pytest.mark.parametrize("word", ["gaugestack --help", "gaugestack stack"])
def test_a_whole_command_costs_a_small_multiple_of_its_floor(quick, word):
    rows = rows_of(quick, word)
    assert rows
    assert [row for row in rows if row["missing"] or not row["passes"]] == []


def test_the_table_goes_between_the_marks_and_the_rest_stays(quick):
    page = quick[1]
    assert page.startswith("# Figures\n\n<!-- bench:begin -->\n")
    assert page.endswith("\n<!-- bench:end -->\n\nThe end.\n")
    assert "old" not in page
    assert "| figure | n | median ms |" in page


def test_a_page_without_marks_is_refused_before_anything_is_measured(tmp_path):
    page = tmp_path / "page.md"
    page.write_text("no marks\n", encoding="utf-8")
    words = [sys.executable, str(RUN), "--quick", "--write", str(page)]
    done = subprocess.run(words, capture_output=True, text=True, timeout=30, check=False)
    assert done.returncode == 2
    assert "<!-- bench:begin -->" in done.stderr
    assert page.read_text(encoding="utf-8") == "no marks\n"
