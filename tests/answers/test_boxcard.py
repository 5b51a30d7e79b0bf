"""The lines of a box card: read, answered from the blocks at hand, judged line by line."""

from dataclasses import replace

import pytest

from gaugestack.angles.angle import dms_text
from gaugestack.answers.angle import set_angle
from gaugestack.answers.bars import find_bar
from gaugestack.answers.batch import batch
from gaugestack.answers.boxcard import BoxWish, box_card, read_row
from gaugestack.answers.options import Choice
from gaugestack.answers.stock import load
from gaugestack.blocks import Basis
from gaugestack.errors import RefusedFile, UsageError
from gaugestack.lengths import Length
from gaugestack.stacks.judge import approve
from gaugestack.stacks.request import Found
from gaugestack.stacks.solve import compose

BOATYARD = "demo/boatyard-inch.yaml"


@pytest.fixture(scope="module")
def stock():
    return load([BOATYARD])


@pytest.fixture(scope="module")
def bar(stock):
    return find_bar("5in", stock, ())


@pytest.fixture
def file(tmp_path):
    def write(text):
        path = tmp_path / "wishes.txt"
        path.write_text(text, encoding="utf-8")
        return str(path)

    return write


@pytest.mark.parametrize(
    ("text", "count", "first", "last"),
    [
        ("every 1d", 45, "1°00'00\"", "45°00'00\""),
        ("every 30m", 90, "0°30'00\"", "45°00'00\""),
        ("every 1:10", 38, "1°10'00\"", "44°20'00\""),
        ("every 1d from 5d to 30d", 26, "5°00'00\"", "30°00'00\""),
        ("every 7d to 20d", 2, "7°00'00\"", "14°00'00\""),
    ],
)
def test_a_row_of_angles_is_read(text, count, first, last):
    row = read_row(text)

    assert len(row) == count
    assert (dms_text(row[0]), dms_text(row[-1])) == (first, last)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("every 0d", "step of zero"),
        ("every 1d from 30d to 5d", "above the last"),
        ("every 1s", "at most"),
        ("every 1d to x", "--angles"),
    ],
)
def test_a_row_that_cannot_be_is_refused(text, sentence):
    with pytest.raises(UsageError, match=sentence):
        read_row(text)


@pytest.mark.parametrize(
    ("text", "row"),
    [
        ("1:10", '"every 1d10m"'),
        ("30m", '"every 30m"'),
        (" 1:20 from 5d to 30d ", '"every 1d20m from 5d to 30d"'),
        ("7:07:30", '"every 7d7m30s"'),
        ("0.1rad", '"every 0.1rad"'),
    ],
)
def test_an_angle_without_every_is_refused_and_may_be_a_taper(text, row):
    with pytest.raises(UsageError) as refused:
        read_row(text)
    [problem] = refused.value.problems

    assert problem.sentence == f"{text!r} is neither a row of angles nor a file"
    assert row in problem.hint
    assert "--tapers FILE" in problem.hint
    assert read_row(row.strip('"'))


def test_a_file_of_angles_is_read(file):
    assert [dms_text(angle) for angle in read_row(file("7d30m # gib\n\n12.5\n"))] == [
        "7°30'00\"",
        "12°30'00\"",
    ]


def test_a_file_that_is_not_there_is_refused():
    with pytest.raises(RefusedFile, match="no such file"):
        read_row("nowhere.txt")


def test_every_line_stands_for_itself_as_the_single_command_answers(stock, bar):
    card = box_card(stock, BoxWish(angles=("every 5d",), bars=(bar,)))
    alone = [set_angle(line.wanted.asked, bar=bar, stock=stock) for line in card.sections[0].lines]

    assert [line.built for line in card.sections[0].lines] == [one.stack.outcome.stacks[0] for one in alone]
    assert [line.error_arcsec for line in card.sections[0].lines] == [one.error_arcsec for one in alone]


def test_every_stack_of_a_card_passes_the_judge_and_uses_no_absent_block(stock, bar):
    card = box_card(stock, BoxWish(angles=("every 1d from 3d",), bars=(bar,)))
    absent = set(stock.block_set.absent)
    for line in card.sections[0].lines:
        approve(Choice().request(stock, [line.wanted.height]), (line.built,))
        assert not absent & set(line.built.blocks)


def test_what_one_stack_cannot_set_takes_blocks_under_both_rolls(stock, bar, file):
    card = box_card(stock, BoxWish(angles=(file("1d"),), bars=(bar,)))
    labels = [line.wanted.label for line in card.sections[0].lines]

    assert labels == ["1°00'00\" high", "1°00'00\" low"]


def test_a_height_that_cannot_be_made_keeps_its_line(stock, file):
    card = box_card(stock, BoxWish(heights=file("0.6202\n0.0503\n")))

    assert [line.built is None for line in card.sections[0].lines] == [False, True]
    assert card.failing == 1
    assert "no combination" in card.sections[0].lines[1].sentence


def test_a_cone_has_a_line_for_each_use_and_a_flat_one(stock, bar, file):
    card = box_card(stock, BoxWish(tapers=file("3in/ft\nflat 1:12\n"), bars=(bar,)))

    assert [line.wanted.label for line in card.sections[0].lines] == [
        "3in/ft, compound",
        "3in/ft, inspection",
        "flat 1:12",
    ]


def test_each_bar_has_its_own_table(stock, bar):
    other = find_bar("10in", stock, ())
    card = box_card(stock, BoxWish(angles=("every 15d",), bars=(bar, other)))

    assert [section.bar.name for section in card.sections] == ["5in", "10in"]


def test_angles_without_a_bar_are_refused(stock):
    with pytest.raises(UsageError, match="say which sine bar"):
        box_card(stock, BoxWish(angles=("every 5d",)))


def test_a_card_without_wishes_still_tells_how_the_set_stands(stock):
    card = box_card(stock, BoxWish())

    assert card.sections == ()
    assert card.shown.highest > card.shown.lowest


def test_each_line_is_counted_once(stock, bar):
    done = []
    box_card(stock, BoxWish(angles=("every 5d",), bars=(bar,)), lambda: done.append(1))

    assert len(done) == 9


@pytest.mark.parametrize(
    "choice",
    [
        Choice(),
        Choice(basis=Basis.CERTIFIED),
        Choice(without=("0.135",)),
        Choice(keep=("0.050",)),
        Choice(wear="own"),
    ],
)
def test_a_shared_table_changes_no_answer(stock, choice):
    heights = [Length(round(inches * 25.4e9)) for inches in (0.4358, 1.2941, 2.8679)]
    together = list(batch(heights, stock, choice))
    alone = [compose(choice.request(stock, [height])) for height in heights]

    assert [type(outcome) for outcome in together] == [type(outcome) for outcome in alone]
    assert [o.stacks for o in together if isinstance(o, Found)] == [
        o.stacks for o in alone if isinstance(o, Found)
    ]


def test_the_same_height_twice_is_answered_twice(stock):
    height = Length(round(0.4358 * 25.4e9))

    assert len(list(batch([height, height], stock, Choice()))) == 2


def test_no_height_is_no_work(stock):
    assert list(batch([], stock, replace(Choice(), without=("no size",)))) == []
