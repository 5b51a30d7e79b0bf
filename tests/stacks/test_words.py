"""What plans, proofs and refusals say, to the letter: every action with its reason and what it rests on."""

from fractions import Fraction

import pytest

from gaugestack.angles.angle import Angle, read_angle
from gaugestack.angles.angleset import RIGHT_ANGLE, AngleBlock
from gaugestack.blocks import Block, Stack
from gaugestack.errors import OurBug, UsageError
from gaugestack.lengths import PM_PER_INCH, Length, Unit
from gaugestack.stacks import benchwork
from gaugestack.stacks.angleblocks import AngleTable, compose_angle
from gaugestack.stacks.anglerequest import AngleBuilt, AngleRequest, Placed
from gaugestack.stacks.anglewringing import MARK_SOURCE, angle_plan
from gaugestack.stacks.benchwork import advice
from gaugestack.stacks.health import health
from gaugestack.stacks.ranking import MOST_RANKED_CELLS, buy_first, what_matters
from gaugestack.stacks.reach import MOST_CELLS
from gaugestack.stacks.solve import compose
from gaugestack.stacks.survey import Span, survey
from gaugestack.stacks.wringing import (
    CLEAN_SOURCE,
    COMMON_PRACTICE,
    PART_SOURCE,
    THIN_SOURCE,
    WEAR_SOURCE,
    plan,
)
from tests.stacks.making import block, mm, request, wear_pair


def steps(*blocks, **more):
    return [(step.action, step.reason, step.basis) for step in plan(blocks, **more).steps]


def test_a_plan_tells_of_every_step_why_it_is_done_and_what_that_rests_on():
    assert steps(block(1), block(5), block(3), block(10), block(4), *wear_pair(2)) == [
        ("Wipe every face, feel for burrs", "grit spoils both faces and the height", CLEAN_SOURCE),
        ("Take 10 mm as base", "thickest, so it keeps the rest flat", COMMON_PRACTICE),
        ("Wring 1 mm on top", "thin: 10 mm under it holds it flat", THIN_SOURCE),
        ("Wring 4 mm on top", "keeps the thin 1 mm inside", THIN_SOURCE),
        ("Wring 3 mm on top", "larger ones take the ends", COMMON_PRACTICE),
        ("Wring 5 mm on top", "second thickest: it closes the stack", COMMON_PRACTICE),
        ("Wring wear block 2 mm on top, marked face out", "takes the wear", WEAR_SOURCE),
        ("Wring wear block 2 mm underneath, marked face out", "takes the wear", WEAR_SOURCE),
        ("By tonight slide apart, wipe, oil, put away", "left wrung, faces seize", PART_SOURCE),
    ]


def test_a_plan_of_one_block_tells_why_it_stands_alone():
    assert steps(block(1)) == [("Stand 1 mm", "one block is the whole height", COMMON_PRACTICE)]


def test_a_plan_names_in_each_step_the_block_in_hand():
    ten, five, pair = block(10), block(5), wear_pair(2)
    assert [step.block for step in plan([five, ten, *pair]).steps] == [
        None,
        ten,
        five,
        pair[1],
        pair[0],
        None,
    ]


def test_a_plan_with_good_faces_tells_which_way_they_lie_and_why():
    ten, five, four, three = (block(size) for size in (10, 5, 4, 3))
    why = "it has one good face, so it stands at an end, that face inward"
    ends = "the ends are for the blocks with one good face"
    assert steps(ten, five, four, three, end_only=(four, three))[1:-1] == [
        ("Take 4 mm as base, good face up", why, COMMON_PRACTICE),
        ("Wring 5 mm on top", ends, COMMON_PRACTICE),
        ("Wring 10 mm on top", ends, COMMON_PRACTICE),
        ("Wring 3 mm on top, good face down", why, COMMON_PRACTICE),
    ]


def test_one_good_face_leaves_the_reasons_of_the_other_blocks_alone():
    ten, five, three = (block(size) for size in (10, 5, 3))
    assert steps(ten, five, three, end_only=(three,))[1:-1] == [
        ("Take 10 mm as base", "thickest, so it keeps the rest flat", COMMON_PRACTICE),
        ("Wring 5 mm on top", "larger ones take the ends", COMMON_PRACTICE),
        (
            "Wring 3 mm on top, good face down",
            "it has one good face, so it stands at an end, that face inward",
            COMMON_PRACTICE,
        ),
    ]


def test_a_thin_block_with_one_good_face_stands_at_the_end_by_common_practice():
    told = steps(block(10), block(1), end_only=(block(1),))
    assert told[2] == (
        "Wring 1 mm on top, good face down",
        "it has one good face, so it stands at an end, that face inward",
        COMMON_PRACTICE,
    )


def test_two_good_faces_leave_the_reason_of_a_thin_block_and_of_the_one_over_it_alone():
    ten, five, four, one = (block(size) for size in (10, 5, 4, 1))
    told = steps(ten, five, four, one, end_only=(five, four))
    assert [(action, reason) for action, reason, _ in told[2:4]] == [
        ("Wring 1 mm on top", "thin: 5 mm under it holds it flat"),
        ("Wring 10 mm on top", "keeps the thin 1 mm inside"),
    ]


def test_the_practice_around_a_stack_is_told_with_its_reason_and_what_it_rests_on():
    """A mixed stack of 152 mm on work that lies at 20 degrees: every rule applies."""
    stack = Stack(blocks=(block(100), block(50), block(2, material="tungsten carbide")))
    told = [(one.topic, one.action, one.reason, one.basis) for one in advice(stack, 20.0)]
    assert told == [
        (
            "soak",
            "Case from another room or fresh from the wash: 12 h open beside the plate first",
            "8 h, and 1 h an inch for blocks over 1 in",
            benchwork.TRANSPORT_SOURCE,
        ),
        (
            "clean",
            "Lint-free cloth and mineral spirits, again just before wringing; no chlorinated solvent",
            "an hour's dust scratches; alcohol burns, and leaves steel so bare that it may rust",
            benchwork.SOLVENT_SOURCE,
        ),
        (
            "stone",
            "Feel for burrs; only where one clicks, two or three light strokes on the gauge block stone",
            (
                "a burr holds the faces apart and scores the next one; "
                "carbide and ceramic chip rather than burr: a chipped edge stays out"
            ),
            benchwork.STONE_SOURCE,
        ),
        (
            "hands",
            "Fingertips only, and put it down soon",
            "1 K from the hand makes this stack 1.75 µm longer (steel)",
            benchwork.HAND_SOURCE,
        ),
        (
            "materials",
            "steel and tungsten carbide together: hard ones outside, work near 20 °C",
            "they wring well and expand differently",
            benchwork.MIXED_SOURCE,
        ),
        (
            "join",
            "Cross the faces, press lightly, swing into line; stop at the first grating feel",
            "a trace of film lets them grab; forced, they are scratched for good",
            benchwork.FILM_SOURCE,
        ),
        (
            "clamp",
            "Above 100 mm: tie rods or a holder, nipped up lightly",
            "a tall stack tips over before it parts, and a hard clamp shortens it",
            benchwork.TALL_SOURCE,
        ),
        (
            "weight",
            "About 0.4 kg, of square blocks 0.7 kg: both hands, low over the bench",
            "a joint holds the weight of a stack only while nothing jerks it",
            benchwork.WEIGHT_SOURCE,
        ),
        (
            "soak",
            "Then 20 to 30 min on the metal plate; standing in still air 50 min",
            "until 1 K of hand warmth is down to 0.1 K; equal warmth of work and blocks cancels most",
            benchwork.SOAK_SOURCE,
        ),
        (
            "slide",
            "Put a stop or a clamp to the work",
            "at 20.0 degrees steel may slide on steel: friction holds to 5 or 8 degrees",
            benchwork.SLIDE_SOURCE,
        ),
        (
            "part",
            "Slide apart within 8 h, with the motion that wrung it; wipe, acid-free oil, own place",
            "steel faces left wrung seize, and tear when they are pulled",
            f"{PART_SOURCE}; two German reference pages (8 h)",
        ),
    ]


def test_a_long_block_asks_for_gloves_and_steel_alone_does_not_chip():
    long = Block(nominal=Length(5 * PM_PER_INCH), unit=Unit.INCH)
    told = {one.topic: one for one in advice(Stack(blocks=(long,)))}
    assert told["hands"].action == "Gloves or forceps, and put it down soon"
    assert told["hands"].reason == "1 K from the hand makes this stack 58 µin longer (steel)"
    assert told["stone"].reason == "a burr holds the faces apart and scores the next one"


PAIR = wear_pair(2)
NO_MULTIPLE = "no multiple of the set's step lies within the tolerance"


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        (request(3, pool=[block(5)], ends=(PAIR,)), "the wear pair alone is taller than the height"),
        (
            request(4, pool=[block(5)], kept_in=(block(5),)),
            "the blocks that must stand in the stack are taller than the height",
        ),
        (
            request(8, pool=[block(5), block(3)], kept_in=(block(5), block(3)), most=1),
            "the blocks that must stand in the stack are more than allowed",
        ),
        (request(9, pool=[block(5), block(3)]), "all blocks together are shorter than the height"),
        (
            request("5.5", pool=[block(5), block(3)]),
            "no multiple of the set's step lies within the tolerance",
        ),
        (
            request(7, pool=[block(5), block(3)]),
            "no combination of the blocks reaches it within the tolerance",
        ),
        (request(8, pool=[block(5), block(3)], most=1), "it needs more blocks than were allowed"),
        (
            request(8, pool=[block(5), block(3)], end_only=(block(5), block(3)), ends=()),
            None,
        ),
        (
            request(6, pool=[block(3), block(2), block(1)], end_only=(block(3), block(2), block(1))),
            "no combination of the blocks meets every condition",
        ),
    ],
)
def test_an_impossible_stack_is_told_why_and_which_height_fails(asked, sentence):
    outcome = compose(asked)
    assert getattr(outcome, "sentence", None) == sentence
    assert sentence is None or outcome.failing == 0


def span(low, high, step=1):
    return Span(low=mm(low), high=mm(high), step=mm(step))


ONE = (block(1),)
NINE, TINY = (AngleBlock(angle=read_angle(text).angle) for text in ("9d", "1'"))
LARGE = AngleBlock(angle=Angle(arcseconds=Fraction(360_000_001, 1000)))
SQUARE = AngleBlock(angle=RIGHT_ANGLE, square=True)


@pytest.mark.parametrize(
    ("use", "said"),
    [
        (
            lambda: survey(ONE, ONE, span(5, 4)),
            "range: the range holds no height\n  heights are above zero, from low to high",
        ),
        (
            lambda: survey(ONE, ONE, span("1.5", 4)),
            (
                "range: the range does not lie on the grid of the set\n"
                "  heights are above zero, from low to high"
            ),
        ),
        (
            lambda: survey(ONE, ONE, Span(low=mm(1), high=Length((MOST_CELLS + 1) * mm(1)), step=mm(1))),
            "range: the range holds too many steps\n  heights are above zero, from low to high",
        ),
        (
            lambda: what_matters(ONE, [Length((MOST_RANKED_CELLS + 1) * mm(1))]),
            "range: the heights hold too many steps of the set's grid",
        ),
        (lambda: buy_first(ONE, ONE, 0, span(1, 2)), "count: at least one block is bought"),
        (lambda: health((), PAIR), "set: the set has no ordinary block"),
        (
            lambda: AngleTable((LARGE, NINE, SQUARE)),
            "set: these angle blocks add up to too many steps of their grid",
        ),
    ],
)
def test_what_is_refused_is_told_with_what_to_do(use, said):
    with pytest.raises(UsageError) as caught:
        use()
    assert str(caught.value) == said


def angle_steps(*placed):
    built = AngleBuilt(target=read_angle("9d").angle, placed=placed)
    return [(step.action, step.reason, step.basis, step.placed) for step in angle_plan(built).steps]


def test_a_plan_of_angle_blocks_tells_of_every_step_why_and_what_that_rests_on():
    nine, tiny, square = Placed(block=NINE), Placed(block=TINY, turned=True), Placed(block=SQUARE)
    assert angle_steps(tiny, nine, square) == [
        ("Wipe every face, feel for burrs", "grit spoils both faces and the angle", CLEAN_SOURCE, None),
        (
            "Take the square as base",
            "the others add to it or are taken away from it",
            COMMON_PRACTICE,
            square,
        ),
        ("Wring 9° on, mark the way of the others", "it is added", MARK_SOURCE, nine),
        (
            "Wring 1' on, turned round: mark against the others",
            "it is taken away",
            MARK_SOURCE,
            tiny,
        ),
        (
            "By tonight slide apart, wipe, oil, back in the case",
            "left wrung, faces seize",
            PART_SOURCE,
            None,
        ),
    ]
    assert angle_steps(nine) == [("Take 9°", "one block is the whole angle", COMMON_PRACTICE, nine)]


def test_a_base_is_a_block_that_is_added_even_where_a_larger_one_is_turned_round():
    nine, tiny = Placed(block=NINE, turned=True), Placed(block=TINY)
    built = AngleBuilt(target=read_angle("9d").angle, placed=(nine, tiny))
    assert angle_plan(built).order == (tiny, nine)


@pytest.mark.parametrize(("text", "tolerance"), [("0d", 0), ("9d", -1)])
def test_an_angle_of_nothing_or_a_tolerance_below_zero_is_our_bug(text, tolerance):
    asked = AngleRequest(target=read_angle(text).angle, pool=(NINE,), tolerance=Fraction(tolerance))
    with pytest.raises(OurBug) as caught:
        compose_angle(asked)
    assert [problem.sentence for problem in caught.value.problems] == [
        "an angle request needs an angle above zero and no tolerance below zero"
    ]


@pytest.mark.parametrize(
    ("text", "blocks", "sentence"),
    [
        ("8d0m30s", (NINE, TINY), "no multiple of 0°01'00\" lies within the tolerance"),
        ("20d", (NINE, TINY), "all blocks together give 9°01'00\""),
        (
            "5d",
            (NINE, TINY),
            "no combination of the blocks, added or turned round, gives it within the tolerance",
        ),
        (
            "0d0m0.25s",
            (NINE, AngleBlock(angle=read_angle("0d0m0.5s").angle)),
            "no multiple of 0°00'00.5\" lies within the tolerance",
        ),
    ],
)
def test_an_impossible_angle_is_told_why(text, blocks, sentence):
    assert compose_angle(AngleRequest(target=read_angle(text).angle, pool=blocks)).sentence == sentence
