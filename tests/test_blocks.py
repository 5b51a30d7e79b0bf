from dataclasses import FrozenInstanceError

import pytest

from gaugestack.blocks import (
    THIN,
    Basis,
    Block,
    BlockSet,
    CalibrationUncertainty,
    Stack,
    grid,
    in_order,
    total,
)
from gaugestack.errors import Place
from gaugestack.lengths import Unit, read_length


def block(text, **more):
    read = read_length(text)
    return Block(nominal=read.length, unit=read.unit, **more)


def block_set(*blocks, absent=()):
    return BlockSet(name="set", unit=Unit.INCH, blocks=in_order(blocks), absent=in_order(absent))


def test_the_nominal_length_is_the_engraved_one():
    assert block("0.1in", deviation=-101_600).length() == 2_540_000_000


def test_the_certified_length_adds_the_deviation():
    assert block("0.1in", deviation=-101_600).length(Basis.CERTIFIED) == 2_539_898_400


def test_without_a_certificate_the_certified_length_is_the_nominal_one():
    assert block("0.1in").length(Basis.CERTIFIED) == 2_540_000_000


@pytest.mark.parametrize(("text", "thin"), [("2.5mm", True), ("2.500000001mm", False), ("0.0984in", True)])
def test_blocks_up_to_2_5_mm_are_thin(text, thin):
    """ISO 3650:1998, 7.2 (from memory)."""
    assert block(text).thin is thin
    assert THIN == 2_500_000_000


def test_a_block_shows_what_is_engraved():
    assert (block("1in").engraved, block("1.005mm").engraved) == ("1.000 in", "1.005 mm")


def test_pieces_that_nothing_else_tells_apart_differ_by_their_copy():
    assert block("1in") != block("1in", copy=2)


def test_the_place_in_the_file_makes_no_different_block():
    assert block("1in") == block("1in", place=Place(file="bench.yaml", line=3, column=1))


def test_a_certificate_s_uncertainty_is_a_fixed_one_of_factor_2_unless_it_says_more():
    stated = CalibrationUncertainty(fixed=50_000)

    assert (stated.per_length, stated.coverage) == (0, "2")


def test_a_block_cannot_be_changed():
    with pytest.raises(FrozenInstanceError):
        block("1in").copy = 2


def test_the_canonical_order_is_largest_first_then_owner_serial_copy_and_wear_last():
    expected = [
        block("2in", owner="z", serial="z", copy=9, wear=True),
        block("1in", owner="a", serial="b"),
        block("1in", owner="b", serial="a"),
        block("1in", owner="b", serial="b"),
        block("1in", owner="b", serial="b", copy=2),
        block("1in", owner="b", serial="b", copy=2, wear=True),
    ]

    assert list(in_order(reversed(expected))) == expected


def test_a_set_as_issued_has_the_absent_pieces_too():
    there, gone = block("1in"), block("2in")
    described = block_set(there, absent=[gone])

    assert (described.blocks, described.issued) == ((there,), (gone, there))


def test_ordinary_blocks_are_no_wear_blocks():
    plain = block("1in")

    assert block_set(plain, block("0.05in", wear=True)).ordinary == (plain,)


def test_the_finest_step_divides_every_size():
    assert block_set(block("0.1001in"), block("0.101in"), block("0.05in")).finest_step == 2_540_000


def test_the_finest_step_counts_absent_pieces():
    assert block_set(block("0.1in"), absent=[block("0.1001in")]).finest_step == 2_540_000


def test_the_finest_step_leaves_wear_blocks_out_where_there_are_others():
    assert block_set(block("0.1in"), block("0.05in", wear=True)).finest_step == 2_540_000_000


def test_the_finest_step_of_wear_blocks_alone_is_theirs():
    assert block_set(block("0.05in", wear=True)).finest_step == 1_270_000_000


def test_two_equal_wear_blocks_are_a_pair():
    first, second = block("0.05in", wear=True), block("0.05in", wear=True, copy=2)

    assert block_set(second, first).wear_pairs() == ((first, second),)


def test_unequal_or_ordinary_blocks_are_no_wear_pair():
    blocks = [block("0.05in", wear=True), block("0.1in", wear=True), block("1in"), block("1in", copy=2)]

    assert block_set(*blocks).wear_pairs() == ()


def test_wear_pairs_are_listed_the_largest_first_and_one_a_size():
    blocks = [block(size, wear=True, copy=copy) for size in ("0.05in", "0.1in") for copy in (1, 2, 3)]

    assert [pair[0].engraved for pair in block_set(*blocks).wear_pairs()] == ["0.100 in", "0.050 in"]


def test_of_three_equal_wear_blocks_the_first_two_in_order_are_the_pair():
    blocks = [block("0.05in", wear=True, serial=serial) for serial in ("c", "a", "b")]

    ((one, other),) = block_set(*blocks).wear_pairs()
    assert (one.serial, other.serial) == ("a", "b")


def test_a_stack_is_as_long_as_its_blocks_together():
    stack = Stack(blocks=(block("1in", deviation=25_400), block("0.1in")))

    assert stack.length() == 27_940_000_000
    assert stack.length(Basis.CERTIFIED) == 27_940_025_400


def test_running_totals_count_from_the_bottom():
    assert Stack(blocks=(block("3mm"), block("1mm"), block("2mm"))).running_totals() == (
        3_000_000_000,
        4_000_000_000,
        6_000_000_000,
    )


def test_an_empty_stack_has_no_height():
    assert (Stack(blocks=()).length(), Stack(blocks=()).running_totals(), total(())) == (0, (), 0)


def test_the_grid_of_no_blocks_is_zero():
    assert grid(()) == 0


def test_the_grid_of_mixed_units_is_the_common_divisor():
    assert grid([block("0.05in"), block("1mm")]) == 10_000_000
