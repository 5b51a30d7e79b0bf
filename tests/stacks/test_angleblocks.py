"""Angle blocks: solver, table and plain enumeration agree; the judge refuses what it should."""

from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest

from gaugestack.angles.angle import Angle, read_angle
from gaugestack.angles.angleset import RIGHT_ANGLE, AngleBlock
from gaugestack.errors import OurBug, UsageError
from gaugestack.stacks import angleblocks, anglejudge, reach
from gaugestack.stacks.angleblocks import AngleTable, compose_angle
from gaugestack.stacks.anglerequest import (
    AngleBuilt,
    AngleFound,
    AngleImpossible,
    AngleRequest,
    AngleUndecided,
    Placed,
)
from gaugestack.stacks.anglewringing import angle_plan
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.model import Decision, Verdict, decide
from gaugestack.stacks.request import Proof


def angle(text):
    """Return an angle."""
    return read_angle(text).angle


def blocks(*texts):
    """Return angle blocks, the text `square` for the square."""
    return tuple(
        AngleBlock(angle=RIGHT_ANGLE, square=True) if text == "square" else AngleBlock(angle=angle(text))
        for text in texts
    )


SMALL = blocks("9d", "3d", "1d", "9'", "3'", "1'", "square")


def asked(text, pool=SMALL, **more):
    """Return a request."""
    return AngleRequest(target=angle(text), pool=pool, **more)


def words(built):
    """Return blocks as signed words."""
    return " ".join(f"{'-' if one.turned else '+'}{one.block.engraved}" for one in built.placed)


def every_stack(pool):
    """Return for each sum in arcseconds all stacks that make it, as (rank, signed words)."""
    found = {}
    ways = [(0, 1) if block.square else (0, 1, -1) for block in pool]
    for signs in product(*ways):
        total = sum(sign * block.angle.arcseconds for sign, block in zip(signs, pool, strict=True))
        placed = tuple(
            Placed(block=block, turned=sign < 0) for sign, block in zip(signs, pool, strict=True) if sign
        )
        largest_first = tuple((-(sign == 1), -(sign == -1)) for sign in signs)
        rank = (len(placed), sum(one.turned for one in placed), largest_first)
        found.setdefault(total, []).append((rank, placed))
    return found


def test_every_sum_of_a_small_set_is_answered_as_enumeration_answers_it():
    pool = sorted(SMALL, key=lambda block: block.order)
    table = AngleTable(SMALL)
    sums = {total: ways for total, ways in every_stack(pool).items() if total > 0}
    for total in sorted(sums)[:: len(sums) // 60]:
        outcome = compose_angle(AngleRequest(target=Angle(arcseconds=total), pool=SMALL), table=table)
        assert outcome.built.placed == min(sums[total])[1]


def test_the_table_counts_as_enumeration_does():
    table, sums = AngleTable(SMALL), every_stack(SMALL)
    for minute in range(1, 104 * 60):
        ways = sums.get(60 * minute)
        count = min(len(placed) for _, placed in ways) if ways else None
        assert table.count(Angle(arcseconds=Fraction(60 * minute))) == count


def test_a_block_is_turned_round_where_that_takes_fewer():
    assert words(compose_angle(asked("8d")).built) == "+9° -1°"


def test_of_equal_counts_the_one_with_fewer_turned_round_is_taken():
    pool = blocks("6d", "4d", "3d", "1d")
    assert words(compose_angle(asked("7d", pool)).built) == "+6° +1°"
    assert words(compose_angle(asked("2d", pool)).built) == "+6° -4°"


def test_the_square_is_added_and_never_turned_round():
    assert words(compose_angle(asked("89d")).built) == "+90° -1°"


def test_a_square_cannot_be_taken_away():
    outcome = compose_angle(asked("1d", blocks("square", "45d", "46d", "30d")))
    assert words(outcome.built) == "+46° -45°"
    assert isinstance(compose_angle(asked("5d", blocks("square", "60d", "35d"))), AngleImpossible)


def test_within_a_tolerance_fewer_blocks_come_before_a_nearer_angle():
    near = asked("8d59m", tolerance=Fraction(60))
    assert words(compose_angle(near).built) == "+9°"
    assert compose_angle(near).built.deviation == 60
    assert words(compose_angle(asked("8d59m", tolerance=Fraction(59))).built) == "+9° -1'"


def test_two_angles_equally_near_leave_one_answer():
    outcome = compose_angle(asked("8d59m30s", blocks("9d", "8d59m"), tolerance=Fraction(30)))
    assert words(outcome.built) == "+9°"


def test_a_nearer_angle_comes_before_fewer_blocks_turned_round():
    """Within a degree of 8: 4 + 3 with none turned round, 10 - 2 with one and exact."""
    pool = blocks("10d", "4d", "3d", "2d")
    assert words(compose_angle(asked("8d", pool, tolerance=Fraction(3600))).built) == "+10° -2°"
    assert words(compose_angle(asked("7d", pool, tolerance=Fraction(3600))).built) == "+4° +3°"


def test_no_block_is_added_twice_though_two_of_it_would_do():
    pool = blocks("24m", "17m", "16m", "15m", "14m", "8m", "1m")
    assert words(compose_angle(asked("44m", pool)).built) == "+16' +15' +14' -1'"


def test_an_angle_between_two_steps_of_the_grid_has_no_count():
    table = AngleTable(blocks("1m", "3m"))
    assert [table.count(Angle(arcseconds=Fraction(part))) for part in (60, 30, 90, 120)] == [1, None, None, 2]


def test_at_the_limit_the_blocks_known_by_then_are_told_as_not_proven(monkeypatch):
    monkeypatch.setattr(angleblocks, "decide", lambda *given: replace(decide(*given), verdict=Verdict.LIMIT))
    outcome = compose_angle(asked("8d"))
    assert isinstance(outcome, AngleUndecided)
    assert (words(outcome.best), outcome.at_least) == ("+9° -1°", 2)


def test_a_model_that_refuses_what_the_table_reaches_tells_so(monkeypatch):
    monkeypatch.setattr(angleblocks, "decide", lambda *_: Decision(verdict=Verdict.INFEASIBLE))
    with pytest.raises(OurBug) as caught:
        compose_angle(asked("8d"))
    assert [problem.sentence for problem in caught.value.problems] == [
        "the model refuses an angle that the table reaches"
    ]


def test_an_angle_off_the_grid_is_impossible_and_its_neighbours_are_named():
    outcome = compose_angle(asked("9d0m20s"))
    assert (outcome.proof, outcome.sentence) == (
        Proof.GRID,
        "no multiple of 0°01'00\" lies within the tolerance",
    )
    assert (words(outcome.below), words(outcome.above)) == ("+9°", "+9° +1'")
    assert outcome.below.deviation == -20


def test_an_angle_beyond_all_blocks_is_impossible():
    outcome = compose_angle(asked("20d", SMALL[:3]))
    assert (outcome.proof, outcome.sentence) == (Proof.TOTAL, "all blocks together give 13°00'00\"")
    assert (words(outcome.below), outcome.above) == ("+9° +3° +1°", None)


def test_the_nearest_below_may_be_a_single_step_of_the_grid():
    outcome = compose_angle(asked("1m30s", blocks("1'", "3'")))
    assert (words(outcome.below), words(outcome.above)) == ("+1'", "+3' -1'")
    assert (outcome.below.angle.arcseconds, outcome.above.angle.arcseconds) == (60, 120)
    assert (outcome.below.deviation, outcome.above.deviation) == (-30, 30)


def test_an_angle_below_every_sum_has_none_below_it():
    outcome = compose_angle(asked("30s", blocks("1'", "3'")))
    assert (outcome.below, words(outcome.above)) == (None, "+1'")


def test_all_blocks_together_with_fewer_allowed_are_too_many_and_not_too_little():
    outcome = compose_angle(asked("13d", SMALL[:3], most=2))
    assert (outcome.proof, outcome.sentence) == (Proof.COUNT, "it needs 3 blocks, more than the 2 allowed")
    assert (words(outcome.below), outcome.above) == ("+9° +3°", None)


def test_without_effort_an_impossible_angle_is_still_told_and_its_neighbours_are_not():
    outcome = compose_angle(asked("9d0m20s"), Effort(limit=0.0))
    assert (outcome.proof, outcome.below, outcome.above) == (Proof.GRID, None, None)


def test_a_block_turned_round_is_taken_away_from_the_angle():
    built = compose_angle(asked("8d")).built
    assert [one.arcseconds for one in built.placed] == [9 * 3600, -3600]
    assert (built.angle, built.deviation) == (angle("8d"), 0)


def test_an_angle_no_sum_gives_is_impossible_by_the_table():
    outcome = compose_angle(asked("1d", blocks("9d", "3d", "2d", "20d")))
    assert isinstance(outcome, AngleFound)
    outcome = compose_angle(asked("8d", blocks("9d", "3d", "2d")))
    assert isinstance(outcome, AngleFound)
    for most in (None, 2):
        assert compose_angle(asked("6d", blocks("5d", "3d"), most=most)).proof is Proof.TABLE


def test_too_many_blocks_are_refused_and_one_more_is_allowed():
    outcome = compose_angle(asked("5d", most=2))
    assert (outcome.proof, outcome.sentence) == (Proof.COUNT, "it needs 3 blocks, more than the 2 allowed")
    assert (words(outcome.below), words(outcome.above)) == ("+3° +1°", "+9° -3°")
    assert words(compose_angle(asked("5d", most=3)).built) == "+9° -3° -1°"


def test_without_blocks_nothing_can_be_made():
    assert isinstance(compose_angle(asked("5d", ())), AngleImpossible)


def test_no_effort_leaves_it_undecided():
    outcome = compose_angle(asked("8d59m"), Effort(limit=0.0))
    assert isinstance(outcome, AngleUndecided)
    assert outcome.at_least == 2


def test_zero_is_no_request():
    with pytest.raises(OurBug, match="above zero"):
        compose_angle(asked("0d"))


def test_a_set_too_large_for_a_table_is_refused():
    with pytest.raises(UsageError, match="too many steps"):
        AngleTable((AngleBlock(angle=Angle(arcseconds=Fraction(360_000_001, 1000))), *blocks("99d")))


@pytest.mark.parametrize(("cells", "pieces"), [(9, 2), (100, 2)])
def test_a_set_as_large_as_a_table_holds_is_taken(monkeypatch, cells, pieces):
    """1 and 3 minutes reach from -4 to 4: nine cells."""
    monkeypatch.setattr(reach, "MOST_CELLS", cells)
    monkeypatch.setattr(reach, "SMALL_SET", pieces)
    assert AngleTable(blocks("1m", "3m")).zero == 4


@pytest.mark.parametrize(("cells", "pieces"), [(8, 2), (100, 1)])
def test_a_set_one_step_or_one_piece_larger_is_refused(monkeypatch, cells, pieces):
    monkeypatch.setattr(reach, "MOST_CELLS", cells)
    monkeypatch.setattr(reach, "SMALL_SET", pieces)
    with pytest.raises(UsageError, match="too many steps"):
        AngleTable(blocks("1m", "3m"))


def judged(text, *placed, **more):
    """Return the broken rules of signed blocks."""
    built = AngleBuilt(target=angle(text), placed=tuple(placed))
    return anglejudge.broken_rules(asked(text, **more), built)


NINE, THREE, ONE = (Placed(block=block) for block in SMALL[:3])
SQUARE = Placed(block=SMALL[-1])


def test_the_judge_takes_what_meets_the_request():
    assert judged("8d", NINE, Placed(block=ONE.block, turned=True)) == ()


def test_the_judge_refuses_a_wrong_sum():
    assert judged("8d", NINE, ONE) == ('the blocks miss 8°00\'00.0" by +7200.0"',)
    assert judged("8d", NINE, ONE, tolerance=Fraction(7200)) == ()


def test_the_judge_refuses_a_block_used_both_ways():
    assert judged("9d", NINE, ONE, Placed(block=ONE.block, turned=True)) == ("block 1° is used 2 times",)


def test_the_judge_refuses_a_stranger():
    assert judged("9d", NINE, pool=SMALL[1:]) == ("block 9° is not among the blocks allowed",)


def test_the_judge_refuses_a_turned_square():
    turned = Placed(block=SQUARE.block, turned=True)
    assert judged("9d", NINE, SQUARE, turned)[-1] == "the square is turned round"
    assert judged("99d", NINE, SQUARE) == ()


def test_the_judge_refuses_too_many_and_none():
    assert judged("10d", NINE, ONE, most=1) == ("2 blocks where at most 1 were allowed",)
    assert judged("10d", NINE, ONE, most=2) == ()
    assert "an angle without blocks" in judged("10d")


def test_the_judge_refuses_the_answer_to_another_angle():
    built = AngleBuilt(target=angle("9d"), placed=(NINE,))
    with pytest.raises(OurBug) as caught:
        anglejudge.approve(asked("8d", tolerance=Fraction(3600)), built)
    assert [problem.sentence for problem in caught.value.problems] == [
        "9°00'00.0\" is answered where 8°00'00.0\" was asked"
    ]


def test_a_model_that_refuses_what_the_table_reaches_is_a_fault_of_the_program(monkeypatch):
    refusing = Decision(verdict=Verdict.INFEASIBLE)
    monkeypatch.setattr(angleblocks, "decide", lambda _puzzle, _effort: refusing)

    with pytest.raises(OurBug, match="the model refuses an angle that the table reaches"):
        compose_angle(asked("8d"))


def test_the_plan_begins_with_the_largest_added_block_and_says_which_way_each_points():
    plan = angle_plan(compose_angle(asked("8d59m")).built)
    assert [step.action for step in plan.steps] == [
        "Wipe every face, feel for burrs",
        "Take 9° as base",
        "Wring 1' on, turned round: mark against the others",
        "By tonight slide apart, wipe, oil, back in the case",
    ]


def test_the_plan_of_one_block_takes_it_and_wrings_nothing():
    assert [step.action for step in angle_plan(compose_angle(asked("9d")).built).steps] == ["Take 9°"]


def test_the_square_is_the_base():
    assert angle_plan(compose_angle(asked("89d")).built).order[0].block.square
