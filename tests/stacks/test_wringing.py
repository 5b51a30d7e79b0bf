import pytest

from gaugestack.blocks import Stack
from gaugestack.stacks.wringing import (
    base_is_thickest,
    clean_first,
    many_blocks,
    mixed_materials,
    order_faults,
    part_the_same_day,
    plan,
    stacking_order,
    take_the_base,
    thin_at_an_end,
    thin_blocks_inside,
    wear_blocks_last,
    wear_blocks_outside,
    wring_upwards,
)
from tests.stacks.making import block, wear_pair

FIFTY, TEN, FIVE, THREE, TWO, ONE = (block(size) for size in (50, 10, 5, 3, 2, 1))
PAIR = wear_pair(2)


def stack(*blocks):
    return Stack(blocks=blocks)


def actions(rule, *blocks):
    return [step.action for step in rule(stack(*blocks))]


def order(*blocks):
    return [piece.nominal // 10**9 for piece in stacking_order(blocks)]


def test_the_thickest_is_the_base_the_next_the_top_and_thin_blocks_stand_between():
    assert order(ONE, FIVE, FIFTY, TWO, TEN) == [50, 1, 5, 2, 10]


@pytest.mark.parametrize(
    ("blocks", "expected"),
    [((), []), ((ONE,), [1]), ((ONE, FIVE), [5, 1]), ((ONE, FIVE, TEN), [10, 1, 5])],
)
def test_few_blocks_stand_in_order(blocks, expected):
    assert order(*blocks) == expected


def test_wear_blocks_stand_outside():
    assert order(PAIR[0], FIVE, PAIR[1], TEN) == [2, 10, 5, 2]
    assert stacking_order((FIVE, *PAIR)) == (PAIR[0], FIVE, PAIR[1])


def test_a_wear_pair_alone_stands_on_itself():
    assert stacking_order(PAIR) == PAIR


def test_the_thickest_block_as_base_is_no_fault():
    assert list(base_is_thickest((TEN, ONE, FIVE))) == []


def test_a_base_that_is_not_the_thickest_is_a_fault():
    assert list(base_is_thickest((FIVE, ONE, TEN))) == ["the base is not the thickest block"]


def test_a_wear_block_below_the_base_is_no_base():
    assert list(base_is_thickest((PAIR[0], TEN, FIVE, PAIR[1]))) == []


def test_thin_blocks_between_thick_ones_are_no_fault():
    assert list(thin_blocks_inside((TEN, ONE, FIVE))) == []


@pytest.mark.parametrize("blocks", [(TEN, FIVE, ONE), (ONE, TEN, FIVE)])
def test_a_thin_block_at_an_end_is_a_fault_where_two_thick_ones_are_there(blocks):
    assert list(thin_blocks_inside(blocks)) == ["a thin block stands at an end"]


def test_a_thin_block_at_one_end_is_no_fault_where_only_one_thick_block_is_there():
    assert list(thin_blocks_inside((TEN, ONE))) == []


def test_thin_blocks_at_both_ends_are_a_fault_where_a_thick_one_is_there():
    assert list(thin_blocks_inside((ONE, TEN, TWO))) == ["a thin block stands at an end"]


def test_thin_blocks_alone_are_no_fault():
    assert list(thin_blocks_inside((TWO, ONE))) == []
    assert list(thin_blocks_inside((ONE,))) == []


def test_a_wear_pair_alone_has_no_thin_block_at_an_end():
    assert list(thin_blocks_inside(PAIR)) == []


def test_wear_blocks_at_the_ends_are_no_fault():
    assert list(wear_blocks_outside((PAIR[0], TEN, PAIR[1]))) == []


def test_a_wear_block_inside_is_a_fault():
    assert list(wear_blocks_outside((TEN, *PAIR, FIVE))) == ["a wear block stands inside"]


def test_a_wear_block_next_to_an_end_is_inside():
    assert list(wear_blocks_outside((TEN, FIVE, PAIR[0], THREE))) == ["a wear block stands inside"]
    assert list(wear_blocks_outside((TEN, PAIR[0], FIVE, THREE))) == ["a wear block stands inside"]


def test_a_stack_without_wear_blocks_has_none_inside():
    assert list(wear_blocks_outside((TEN, ONE, FIVE))) == []


def test_order_faults_names_every_broken_rule():
    assert order_faults((ONE, PAIR[0], TEN, FIVE)) == (
        "the base is not the thickest block",
        "a thin block stands at an end",
        "a wear block stands inside",
    )


def test_faces_are_wiped_before_wringing():
    assert actions(clean_first, TEN, FIVE) == ["Wipe every face, feel for burrs"]


def test_a_single_block_is_not_wrung_and_needs_no_such_step():
    assert actions(clean_first, TEN) == actions(part_the_same_day, TEN) == []


def test_the_base_is_taken_first():
    assert actions(take_the_base, TEN, ONE, FIVE) == ["Take 10 mm as base"]


def test_a_single_block_just_stands():
    assert actions(take_the_base, TEN) == ["Stand 10 mm"]


def test_the_base_is_no_wear_block_where_there_are_others():
    assert actions(take_the_base, PAIR[0], TEN, PAIR[1]) == ["Take 10 mm as base"]


def test_of_a_wear_pair_alone_the_lower_is_the_base():
    assert [step.block for step in take_the_base(stack(*PAIR))] == [PAIR[0]]


def test_blocks_are_wrung_upwards_in_their_order():
    assert actions(wring_upwards, TEN, ONE, FIVE) == ["Wring 1 mm on top", "Wring 5 mm on top"]


def reasons(*blocks):
    return [(step.reason, step.basis) for step in wring_upwards(stack(*blocks))]


THIN = "ISO 3650:1998, 7.2 (thin: up to 2.5 mm); wringing thin to thick is common practice"


def test_a_thin_block_is_held_flat_by_the_thick_one_under_it():
    assert reasons(TEN, ONE) == [("thin: 10 mm under it holds it flat", THIN)]


def test_a_thick_block_covers_the_thin_one_under_it():
    assert reasons(TEN, ONE, FIVE)[1] == ("keeps the thin 1 mm inside", THIN)


def test_thick_on_thick_is_common_practice():
    assert reasons(TEN, THREE, FIVE) == [
        ("larger ones take the ends", "common practice"),
        ("second thickest: it closes the stack", "common practice"),
    ]


def test_a_thin_block_is_not_said_to_be_held_flat_by_another_thin_one():
    assert reasons(TEN, TWO, ONE, FIVE) == [
        ("thin: 10 mm under it holds it flat", THIN),
        ("keeps the thin 2 mm inside", THIN),
        ("keeps the thin 1 mm inside", THIN),
    ]


def test_wear_blocks_are_wrung_last_top_first():
    assert actions(wear_blocks_last, PAIR[0], TEN, PAIR[1]) == [
        "Wring wear block 2 mm on top, marked face out",
        "Wring wear block 2 mm underneath, marked face out",
    ]
    assert [step.block for step in wear_blocks_last(stack(PAIR[0], TEN, PAIR[1]))] == [PAIR[1], PAIR[0]]


def test_without_wear_blocks_none_is_wrung():
    assert actions(wear_blocks_last, TEN, FIVE) == []


def test_of_a_wear_pair_alone_only_the_upper_is_still_to_be_wrung():
    assert [step.block for step in wear_blocks_last(stack(*PAIR))] == [PAIR[1]]


def test_the_stack_is_parted_the_same_day():
    assert actions(part_the_same_day, TEN, FIVE) == ["By tonight slide apart, wipe, oil, put away"]


def test_five_blocks_are_not_remarked_on():
    assert list(many_blocks(stack(FIFTY, ONE, FIVE, TWO, TEN))) == []


def test_six_blocks_are_remarked_on():
    six = [block(size) for size in range(3, 9)]

    assert list(many_blocks(stack(*six))) == [
        "6 blocks: every joint adds heat, film and error; practice stops at 5 (training texts)"
    ]


def test_wear_blocks_count_among_the_many():
    assert len(list(many_blocks(stack(PAIR[0], FIFTY, ONE, FIVE, TEN, PAIR[1])))) == 1


def test_one_material_is_not_remarked_on():
    assert list(mixed_materials(stack(TEN, FIVE))) == []


def test_mixed_materials_are_named():
    assert list(mixed_materials(stack(TEN, block(5, material="ceramic")))) == [
        "materials mixed (ceramic, steel): they expand differently; work near 20 °C"
    ]


def test_one_material_that_is_not_steel_is_not_remarked_on():
    assert list(mixed_materials(stack(block(5, material="ceramic"), block(3, material="ceramic")))) == []


def test_a_thin_block_at_an_end_is_remarked_on():
    assert list(thin_at_an_end(stack(TEN, ONE))) == [
        "a thin block has to stand at an end: press it flat, or ask for wear blocks"
    ]


def test_thick_blocks_at_both_ends_are_not_remarked_on():
    assert list(thin_at_an_end(stack(TEN, ONE, FIVE))) == []


def test_thin_wear_blocks_at_the_ends_are_not_remarked_on():
    assert list(thin_at_an_end(stack(PAIR[0], TEN, PAIR[1]))) == []


def test_a_single_thin_block_is_not_remarked_on():
    assert list(thin_at_an_end(stack(ONE))) == []


def test_a_plan_tells_the_whole_job_in_order():
    made = plan([ONE, FIVE, TEN, *PAIR])

    assert [step.action for step in made.steps] == [
        "Wipe every face, feel for burrs",
        "Take 10 mm as base",
        "Wring 1 mm on top",
        "Wring 5 mm on top",
        "Wring wear block 2 mm on top, marked face out",
        "Wring wear block 2 mm underneath, marked face out",
        "By tonight slide apart, wipe, oil, put away",
    ]
    assert made.remarks == ()
    assert all(step.reason and step.basis for step in made.steps)


def test_a_plan_carries_what_is_to_be_minded():
    assert plan([TEN, ONE]).remarks == (
        "a thin block has to stand at an end: press it flat, or ask for wear blocks",
    )


def test_a_wear_block_alone_is_not_wrung_on_itself():
    assert actions(wear_blocks_last, PAIR[0]) == []


def test_a_plan_of_one_block_is_one_step():
    assert [step.action for step in plan([TEN]).steps] == ["Stand 10 mm"]


# ---- blocks with one good face


def test_a_block_with_one_good_face_takes_the_top_where_it_is_not_the_thickest():
    five, three, two = block(5), block(3), block(2)

    assert stacking_order((five, three, two), (two,)) == (five, three, two)


def test_the_thickest_block_with_one_good_face_stays_the_base():
    five, three, two = block(5), block(3), block(2)

    assert stacking_order((five, three, two), (five,)) == (five, two, three)


def test_two_blocks_with_one_good_face_take_both_ends():
    five, three, two = block(5), block(3), block(2)

    assert stacking_order((five, three, two), (two, three)) == (three, five, two)


def test_the_good_face_lies_up_at_the_bottom_and_down_on_top():
    five, three, two = block(5), block(3), block(2)
    steps = {step.block: step for step in plan((five, three, two), (two, three)).steps if step.block}

    assert steps[three].action == "Take 3 mm as base, good face up"
    assert steps[two].action == "Wring 2 mm on top, good face down"
    assert "that face inward" in steps[two].reason
    assert steps[five].reason == "the ends are for the blocks with one good face"


def test_without_such_blocks_no_face_is_told():
    five, three, two = block(5), block(3), block(2)

    assert not any("good face" in step.action for step in plan((five, three, two)).steps)
