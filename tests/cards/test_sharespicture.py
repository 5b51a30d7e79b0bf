"""What an uncertainty comes from on paper: bars as long as their shares."""

import pytest

from gaugestack.answers.budget import stack_budget
from gaugestack.answers.stock import stock_of
from gaugestack.blocks import Block, BlockSet
from gaugestack.cards.sharespicture import budget_svg, shares_svg
from gaugestack.lengths import PM_PER_MM, Length
from tests.cards.drawings import outside, overlaps, rectangles, words
from tests.cards.samples import DOUBTS, MILLIMETRE, chart


def bars(text):
    return [size.real for _, size in rectangles(text, "#111")]


def test_bars_are_as_long_as_their_shares():
    assert bars(shares_svg([chart(*DOUBTS)])) == pytest.approx([36, 18, 6], abs=0.02)


def test_figures_stand_beside_the_bars():
    assert {"60%", "30%", "10%", "0.12 µm"} <= set(words(shares_svg([chart(*DOUBTS)])))


def test_a_share_of_nothing_has_no_bar_and_one_of_all_a_full_one():
    assert bars(shares_svg([chart(("all", 1.0), ("nothing", 0.0))])) == pytest.approx([60, 0], abs=0.01)


def test_nothing_is_refused():
    with pytest.raises(ValueError, match="no result"):
        shares_svg([])


def graded(*sizes):
    blocks = tuple(Block(nominal=Length(size * PM_PER_MM), unit=MILLIMETRE, owner="Bench") for size in sizes)
    return stock_of(
        BlockSet(
            name="Bench", unit=MILLIMETRE, blocks=blocks, standard="ISO 3650", grade="1", material="steel"
        )
    )


def test_a_budget_is_drawn_with_all_it_mostly_comes_from():
    text = budget_svg(stack_budget(["15mm"], stock=graded(10, 5)))
    said = words(text)

    assert said[0] == "15 mm"
    assert said[1].startswith("right within ")
    assert "grade 1 of 10 mm" in said
    assert sum(bars(text)) == pytest.approx(60, abs=0.2)


def test_several_results_stand_beneath_each_other():
    text = budget_svg(stack_budget(["15mm", "3mm"], stock=graded(10, 5, 2, 1)))

    assert {"15 mm", "3 mm"} <= set(words(text))
    assert overlaps(text) == []
    assert outside(text) == []
