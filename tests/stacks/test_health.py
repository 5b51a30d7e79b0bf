"""A set looked at before it is bought: every word rests on a number."""

from fractions import Fraction

import pytest

from gaugestack.blocks import Block, in_order
from gaugestack.errors import UsageError
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_path
from gaugestack.lengths import PM_PER_INCH, PM_PER_MM, Length, Unit
from gaugestack.stacks.health import Verdict, health, missing_pieces, percent_text, usual_span
from gaugestack.stacks.survey import Span


def millimetres(*sizes, wear=False):
    return in_order(
        Block(nominal=Length(size * PM_PER_MM), unit=Unit.MILLIMETRE, copy=copy, wear=wear)
        for copy, size in enumerate(sizes, 1)
    )


def without(blocks, *engraved):
    return tuple(block for block in blocks if block.engraved not in engraved)


INCH_81 = load_set(shipped_path("inch-81"))[0].ordinary


def test_a_complete_set_is_complete_and_nothing_hurts():
    found = health(INCH_81, INCH_81)
    assert found.verdict is Verdict.COMPLETE
    assert (found.pieces, found.pieces_issued, found.missing, found.worst) == (81, 81, (), ())
    assert found.sentences == (
        "81 of 81 pieces are there",
        "at most 5 blocks make 100 % of the heights from 0.2 in to 4 in",
        "with any number of blocks it makes every step of 0.0001 in from 0.2 in to 26.3295 in",
    )


def test_a_set_that_misses_a_plain_block_loses_nothing():
    found = health(without(INCH_81, "0.450 in"), INCH_81)
    assert found.verdict is Verdict.NOTHING_LOST
    assert [value.block.engraved for value in found.worst] == ["0.450 in"]
    assert found.worst[0].longer > found.worst[0].lost == 0


def test_a_set_that_misses_fine_blocks_loses_heights_and_names_the_worst_first():
    found = health(without(INCH_81, "0.450 in", "0.1001 in", "0.050 in"), INCH_81)
    assert found.verdict is Verdict.HEIGHTS_LOST
    assert [value.block.engraved for value in found.worst] == ["0.050 in", "0.1001 in", "0.450 in"]
    assert found.sentences[1].endswith("; as issued 100 %")
    assert "; as issued from 0.2 in to 26.3295 in" in found.sentences[2]


def test_no_more_than_five_missing_blocks_are_named():
    gone = [f"0.10{n} in" for n in range(1, 10)]
    assert len(health(without(INCH_81, *gone), INCH_81).worst) == 5


def test_wear_blocks_count_as_pieces_and_make_no_height():
    issued = (*millimetres(1, 2, 4), *millimetres(8, 8, wear=True))
    found = health(issued[:-1], issued)
    assert (found.pieces, found.pieces_issued) == (4, 5)
    assert found.survey.total == 7 * PM_PER_MM
    assert found.verdict is Verdict.NOTHING_LOST


def test_a_new_deviation_makes_no_new_piece_and_another_serial_does():
    old = Block(nominal=Length(PM_PER_MM), unit=Unit.MILLIMETRE, serial="A")
    measured = Block(nominal=old.nominal, unit=old.unit, serial="A", deviation=Length(40_000))
    other = Block(nominal=old.nominal, unit=old.unit, serial="B")
    assert missing_pieces((measured,), (old,)) == ()
    assert missing_pieces((other,), (old,)) == (old,)


def test_one_of_two_pieces_alike_is_missing_once():
    piece = Block(nominal=Length(PM_PER_MM), unit=Unit.MILLIMETRE)
    assert missing_pieces((piece,), (piece, piece)) == (piece,)


def test_the_usual_range_begins_with_the_first_run_and_ends_with_the_largest_block():
    assert usual_span(INCH_81) == Span(
        low=Length(PM_PER_INCH // 5), high=Length(4 * PM_PER_INCH), step=Length(PM_PER_INCH // 10_000)
    )


def test_a_set_of_one_block_is_looked_at_from_that_block_to_itself():
    assert usual_span(millimetres(7)).heights == 1


def test_a_range_of_ones_own_is_taken():
    span = Span(low=Length(PM_PER_MM), high=Length(3 * PM_PER_MM), step=Length(PM_PER_MM))
    assert health(millimetres(1, 2, 4), millimetres(1, 2, 4), span=span).survey.span == span


def test_a_set_without_ordinary_blocks_is_refused():
    with pytest.raises(UsageError, match="no ordinary block"):
        health((), millimetres(2, 2, wear=True))


@pytest.mark.parametrize(
    ("share", "text"),
    [
        (Fraction(1), "100 %"),
        (Fraction(99_999, 100_000), "99.9 %"),
        (Fraction(1, 3), "33.3 %"),
        (Fraction(0), "0.0 %"),
    ],
)
def test_per_cent_are_cut_so_that_a_hundred_means_all(share, text):
    assert percent_text(share) == text


def test_a_height_alone_is_no_run_of_steps():
    """2 and 5 make 2, 5, 7: no two neighbouring steps of 1, and not "from 2 to 2"."""
    span = Span(low=Length(PM_PER_MM), high=Length(8 * PM_PER_MM), step=Length(PM_PER_MM))
    found = health(millimetres(2, 5), millimetres(2, 5), span=span)

    assert found.sentences[-1] == "with any number of blocks it makes no two neighbouring steps of 1 mm"


def told(pool, issued, high, **more):
    """Return what is said of a set of whole millimetres over the heights from 1 mm."""
    span = Span(low=Length(PM_PER_MM), high=Length(high * PM_PER_MM), step=Length(PM_PER_MM))
    blocks = {block.nominal // PM_PER_MM: block for block in millimetres(*issued)}
    return health(
        in_order(blocks[size] for size in pool), in_order(blocks.values()), span=span, **more
    ).sentences


def test_every_sentence_says_what_counting_out_says():
    """1, 2 and 8 make 1 to 3 and 8 to 11; with 4 all from 1 to 15."""
    assert told((1, 2, 8), (1, 2, 4, 8), 10, whole="once") == (
        "3 of 4 pieces are there",
        "at most 5 blocks make 60.0 % of the heights from 1 mm to 10 mm; once 100 %",
        "with any number of blocks it makes every step of 1 mm from 8 mm to 11 mm; once from 1 mm to 15 mm",
        "without 4 mm: 4 heights lost, 0 take more blocks",
    )


def test_one_height_is_one_in_words():
    assert told((1,), (1, 2), 2)[-1] == "without 2 mm: 1 height lost, 0 take more blocks"
    assert told((1, 2), (1, 2, 3), 3)[-1] == "without 3 mm: 0 heights lost, 1 takes more blocks"


def test_a_largest_count_of_ones_own_is_taken():
    assert told((1, 2, 4), (1, 2, 4), 7, most=2)[1] == (
        "at most 2 blocks make 85.7 % of the heights from 1 mm to 7 mm"
    )


def test_what_a_missing_block_costs_keeps_to_the_largest_count():
    assert told((1, 2), (1, 2, 3), 3, most=1)[-1] == "without 3 mm: 1 height lost, 0 take more blocks"


def test_a_set_of_one_block_or_of_none_left_is_put_in_words():
    assert told((1,), (1,), 1)[0] == "1 of 1 pieces are there"
    assert told((), (1, 2), 3)[2].endswith(" nowhere; as issued from 1 mm to 3 mm")


def test_a_set_whose_first_run_begins_at_its_largest_block_is_looked_at_from_its_smallest():
    """3, 5 and 7 make 7 and 8 as their only neighbours."""
    assert usual_span(millimetres(3, 5, 7)).low == 3 * PM_PER_MM
