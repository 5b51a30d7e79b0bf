"""Strips of characters: shades by share, one line a count, readable without colour."""

from fractions import Fraction

import pytest

from gaugestack.answers.reach import reach_range
from gaugestack.answers.stock import load, stock_of
from gaugestack.blocks import Block, BlockSet
from gaugestack.cards.drawing import ASCII, LINES
from gaugestack.cards.reachpicture import counts_shown, picture, shade, share_text
from gaugestack.lengths import PM_PER_MM, Length, Unit


def small():
    blocks = tuple(
        Block(nominal=Length(size * PM_PER_MM), unit=Unit.MILLIMETRE, owner="Bench") for size in (4, 2, 1)
    )
    return stock_of(BlockSet(name="Bench", unit=Unit.MILLIMETRE, blocks=blocks[:2], absent=blocks[2:]))


def lines(pen=LINES):
    return list(picture(reach_range("1..7mm", stock=small()).found, Unit.MILLIMETRE, pen))


def test_each_height_of_a_small_range_is_a_column():
    assert lines()[1:5] == [
        "1 block   │ █ █   │  28.5 %     42.8 %",
        "2 blocks  │ █ █ █ │  42.8 %     85.7 %",
        "3 blocks  │ █ █ █ │  42.8 %      100 %",
        "lost      │x x x x│",
    ]


def test_plain_characters_say_the_same():
    assert all(line.isascii() for line in lines(ASCII))
    assert lines(ASCII)[1] == "1 block   | # #   |  28.5 %     42.8 %"


@pytest.mark.parametrize(
    ("share", "character"),
    [
        (Fraction(1), "█"),
        (Fraction(999, 1000), "▓"),
        (Fraction(9, 10), "▓"),
        (Fraction(89, 100), "▒"),
        (Fraction(1, 2), "▒"),
        (Fraction(49, 100), "░"),
        (Fraction(1, 10**6), "░"),
        (Fraction(0), " "),
    ],
)
def test_a_shade_is_full_for_all_alone_and_empty_for_none_alone(share, character):
    assert shade(share) == character


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (Fraction(0), "0.0 %"),
        (Fraction(1, 1001), "<0.1 %"),
        (Fraction(1, 1000), "0.1 %"),
        (Fraction(1), "100 %"),
    ],
)
def test_a_little_is_never_said_to_be_nothing(share, said):
    assert share_text(share) == said


def test_many_counts_are_cut_to_the_first_and_the_last():
    assert counts_shown(12) == list(range(1, 13))
    assert counts_shown(40) == [*range(1, 12), 40]


def test_a_wide_range_stays_within_80_columns():
    found = reach_range("0..300mm", stock=load(["metric-122"])).found

    assert max(map(len, picture(found, Unit.MILLIMETRE))) <= 80


def test_the_shares_stand_below_their_heads_however_narrow_the_strip():
    head, one, *_ = picture(reach_range("7..7mm", stock=small()).found, Unit.MILLIMETRE)

    assert len(head.rstrip()) == len(one)
    assert head.index("now") + 3 == one.index("%") + 1
