from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.blocks import Basis, in_order
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_path
from gaugestack.lengths import Length, Unit
from gaugestack.stacks import nearby, reach
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.explain import explained, nearest_heights, one_at_a_time, ways_out
from gaugestack.stacks.judge import broken_rules
from gaugestack.stacks.request import Found, Impossible, Undecided, Withheld
from gaugestack.stacks.solve import compose
from tests.property.oracle import best, one_good_face_can_stand
from tests.property.strategies import marked, pieces, requests
from tests.stacks.making import block, built, mm, request, sizes, wear_pair

FIVE, THREE, TWO = block(5), block(3), block(2)
POOL = (FIVE, THREE, TWO)
PAIR = wear_pair(2)
FOUR, NINE = block(4), block(9)
LENT = Withheld(block=FOUR, reason="lent to the tool room")
LOST = Withheld(block=NINE, reason="missing since 2026-01-05")


def rungs(*targets, pool=POOL, **asked):
    outcome = explained(request(*targets, pool=pool, **asked))
    assert isinstance(outcome, Impossible)
    return outcome.ways_out


def rung(kind, *targets, **asked):
    """Return the ways out of one kind as (sentence, sizes)."""
    return [(way.sentence, sizes(way.built)) for way in rungs(*targets, **asked) if way.kind == kind]


def test_a_possible_request_is_not_explained():
    assert explained(request(5, pool=POOL)) == Found(stacks=(built(5, FIVE),))


def test_an_undecided_request_is_not_explained():
    assert isinstance(explained(request(5, pool=POOL), Effort(limit=0)), Undecided)


def test_an_impossible_request_keeps_its_proof():
    plain, told = compose(request(4, pool=POOL)), explained(request(4, pool=POOL))

    assert (told.proof, told.sentence) == (plain.proof, plain.sentence)
    assert replace(told, ways_out=()) == plain


def test_the_nearest_heights_on_both_sides_come_with_their_stacks():
    assert rung("below", 4) == [("the nearest below is 1 mm away", ["3"])]
    assert rung("above", 4) == [("the nearest above is 1 mm away", ["5"])]


def test_the_nearest_stack_is_measured_against_the_height_asked():
    assert [way.built.deviation for way in rungs(4)] == [-mm(1), mm(1)]


def test_below_the_thinnest_block_there_is_nothing():
    assert [way.kind for way in rungs(1)] == ["above"]


def test_above_all_blocks_together_there_is_nothing():
    assert [way.kind for way in rungs(11)] == ["below"]


def test_the_nearest_heights_lie_outside_the_tolerance():
    asked = request("6.5", pool=[FIVE, block(8)], tolerance=1)

    assert nearest_heights(asked) == {"below": mm(5), "above": mm(8)}
    assert nearest_heights(replace(asked, tolerance=mm("1.5"))) == {"above": mm(13)}


def test_the_nearest_heights_keep_the_largest_count():
    assert rung("below", 10, most=2) == [("the nearest below is 2 mm away", ["5", "3"])]
    assert rung("above", 4, most=1) == [("the nearest above is 1 mm away", ["5"])]
    assert rung("above", 6, most=1) == []


def test_the_nearest_heights_stand_on_the_wear_pair():
    assert rung("below", 5, ends=(PAIR,)) == [("the nearest below is 1 mm away", ["2", "2"])]
    assert rung("above", 5, ends=(PAIR,)) == [("the nearest above is 1 mm away", ["2", "2", "2"])]


def test_above_a_height_below_the_wear_pair_stands_the_pair_alone():
    assert rung("below", 3, ends=(PAIR,)) == []
    assert rung("above", 3, ends=(PAIR,)) == [("the nearest above is 1 mm away", ["2", "2"])]


def test_the_nearest_heights_hold_the_blocks_kept_in():
    assert rung("below", 6, kept_in=(THREE,)) == [("the nearest below is 1 mm away", ["3", "2"])]
    assert rung("above", 6, kept_in=(THREE,)) == [("the nearest above is 2 mm away", ["5", "3"])]


def test_above_a_height_below_a_block_kept_in_stands_that_block_alone():
    assert rung("above", 2, kept_in=(THREE,)) == [("the nearest above is 1 mm away", ["3"])]


def test_where_the_fixed_blocks_are_too_many_no_height_is_near():
    assert nearest_heights(request(4, pool=POOL, ends=(PAIR,), most=1)) == {}


def test_without_a_table_the_nearest_heights_are_found_by_halves(monkeypatch):
    by_table = rungs(4)
    monkeypatch.setattr(reach, "QUICK_CELLS", -1)

    assert rungs(4) == by_table


def test_the_distance_is_told_in_the_unit_of_the_blocks():
    inch = [replace(block("25.4"), unit=Unit.INCH)]

    assert rung("below", "38.1", pool=inch)[0][0] == "the nearest below is 0.5 in away"


def test_more_blocks_are_named_where_they_help():
    assert rung("more blocks", 10, most=2) == [("3 blocks do it, 1 more than allowed", ["5", "3", "2"])]


def test_more_blocks_are_not_named_where_they_do_not_help():
    assert rung("more blocks", 4, most=1) == []


def test_more_blocks_are_not_named_where_any_number_was_allowed():
    assert rung("more blocks", 4) == []


def test_the_blocks_over_are_counted_with_the_wear_pair():
    assert rung("more blocks", 14, ends=(PAIR,), most=3) == [
        ("5 blocks do it, 2 more than allowed", ["2", "5", "3", "2", "2"])
    ]


def test_without_the_wear_pair_is_named_where_it_helps():
    assert rung("without wear blocks", 5, ends=(PAIR,)) == [
        ("without the pair of 2 mm wear blocks it can be made", ["5"])
    ]


def test_without_the_wear_pair_is_not_named_where_it_does_not_help():
    assert rung("without wear blocks", 1, ends=(PAIR,)) == []


def test_without_the_wear_pair_is_not_named_where_none_was_asked_for():
    assert rung("without wear blocks", 4) == []


def test_a_withheld_block_that_restores_the_height_is_named_with_its_reason():
    assert rung("restore", 4, withheld=(LENT, LOST)) == [
        ("it could be made with 4 mm (lent to the tool room)", ["4"])
    ]


def test_the_fewest_withheld_blocks_are_named_before_fewest_blocks():
    pool = [block(6), TWO, block(1)]
    out = tuple(Withheld(block=piece, reason="lent") for piece in (block(7), block(8)))

    assert rung("restore", 15, pool=pool, withheld=out) == [
        ("it could be made with 8 mm (lent)", ["8", "6", "1"])
    ]


def test_all_blocks_that_are_needed_are_named():
    ways = [way for way in rungs(13, pool=[TWO], withheld=(LENT, LOST)) if way.kind == "restore"]

    assert [way.blocks for way in ways] == [(NINE, FOUR)]
    assert (
        ways[0].sentence
        == "it could be made with 9 mm (missing since 2026-01-05), 4 mm (lent to the tool room)"
    )


def test_what_no_withheld_block_restores_is_not_named():
    assert rung("restore", "4.5", withheld=(LENT, LOST)) == []


def test_withheld_wear_blocks_restore_nothing():
    assert rung("restore", 4, withheld=(Withheld(block=block(4, wear=True), reason="worn"),)) == []


def test_the_set_as_issued_shows_its_best_stack():
    assert rung("as issued", 4, withheld=(LENT, LOST)) == [("the set as issued makes it with 1 block", ["4"])]


def test_the_set_as_issued_may_use_more_withheld_blocks_than_are_needed():
    pool = [block(1), block(6), TWO]
    out = tuple(Withheld(block=piece, reason="lent") for piece in (block(7), block(8)))
    ways = {way.kind: way for way in rungs(15, pool=pool, withheld=out)}

    assert ways["as issued"].sentence == "the set as issued makes it with 2 blocks"
    assert (len(ways["as issued"].blocks), len(ways["restore"].blocks)) == (2, 1)


def test_the_set_as_issued_is_not_named_where_nothing_is_withheld():
    assert rung("as issued", 4) == []


def test_the_set_as_issued_is_not_named_where_it_does_not_help():
    assert rung("as issued", "4.5", withheld=(LENT, LOST)) == []


def test_each_height_alone_is_named_where_only_both_at_once_are_impossible():
    assert rung("alone", 5, 4) == []
    assert rung("alone", 5, 8, pool=[FIVE, THREE]) == [
        ("5 mm alone can be made", ["5"]),
        ("8 mm alone can be made", ["5", "3"]),
    ]


def test_a_height_alone_is_not_named_for_one_height():
    assert rung("alone", 4) == []


def test_a_height_alone_keeps_its_wear_pair():
    pairs = (PAIR, wear_pair(2, first=3))

    assert rung("alone", 9, 12, pool=[FIVE, THREE], ends=pairs) == [
        ("9 mm alone can be made", ["2", "5", "2"]),
        ("12 mm alone can be made", ["2", "5", "3", "2"]),
    ]


def test_the_rungs_come_nearest_first_and_as_issued_last():
    asked = {"ends": (PAIR,), "most": 4, "withheld": (Withheld(block=block(10), reason="lent"),)}

    assert [way.kind for way in rungs(14, **asked)] == ["below", "more blocks", "restore", "as issued"]


def every_height(asked):
    """Return all heights the request's blocks make within its largest count, by enumeration."""
    fixed = [*asked.kept_in, *asked.pair(0)]
    heights = set()
    for count in range(len(asked.free) + 1):
        if asked.most is None or count + len(fixed) <= asked.most:
            for subset in combinations(asked.free, count):
                if one_good_face_can_stand(asked, [*subset, *fixed]):
                    heights.add(sum(piece.nominal for piece in [*subset, *fixed]))
    return heights - {0}


@settings(max_examples=250, deadline=None)
@given(st.one_of(requests(), marked(requests())))
def test_the_nearest_heights_are_those_of_enumeration(asked):
    target, heights = asked.targets[0], every_height(asked)
    outside = {height for height in heights if abs(height - target) > asked.tolerance}
    below = max((height for height in outside if height < target), default=None)
    above = min((height for height in outside if height > target), default=None)

    found = nearest_heights(asked)

    assert (found.get("below"), found.get("above")) == (below, above)


@settings(max_examples=150, deadline=None)
@given(st.one_of(requests(), marked(requests())))
def test_every_rung_with_a_nearest_height_meets_the_request_moved_there(asked):
    outcome = explained(asked)

    if isinstance(outcome, Impossible):
        for way in outcome.ways_out:
            if way.kind in ("below", "above"):
                moved = replace(asked, targets=(way.built.length,), tolerance=Length(0))
                assert broken_rules(moved, [replace(way.built, target=way.built.length)]) == ()


def least_restoring(asked):
    """Return how many withheld blocks are needed at the least, by trying all subsets; None if none help."""
    out = [withheld.block for withheld in asked.withheld]
    for count in range(len(out) + 1):
        for back in combinations(out, count):
            if best(replace(asked, pool=(*asked.pool, *back), withheld=())) is not None:
                return count
    return None


@settings(max_examples=100, deadline=None)
@given(
    st.lists(st.integers(1, 14), min_size=2, max_size=8),
    st.integers(1, 4),
    st.integers(1, 40),
    st.integers(1, 5),
)
def test_no_fewer_withheld_blocks_would_restore_the_height(sizes_drawn, held, height, most):
    blocks = pieces(sizes_drawn)
    out, pool = blocks[:held], blocks[held:]
    withheld = tuple(Withheld(block=piece, reason="lent") for piece in out)
    asked = request(f"{height / 2}", pool=pool, withheld=withheld, most=most)
    outcome = explained(asked)
    least = least_restoring(asked)

    if isinstance(outcome, Found):
        assert least == 0
        return
    restore = [way for way in outcome.ways_out if way.kind == "restore"]
    assert [len(way.blocks) for way in restore] == ([] if least is None else [least])
    for way in restore:
        back = replace(
            asked,
            pool=in_order((*pool, *way.blocks)),
            withheld=tuple(w for w in withheld if w.block not in way.blocks),
        )
        assert broken_rules(back, [way.built]) == ()
        assert set(way.blocks) <= set(way.built.blocks)


@pytest.mark.parametrize(
    "asked",
    [
        request(4, pool=POOL),
        request(4, pool=POOL, basis=Basis.CERTIFIED),
        request(10, pool=POOL, most=2),
        request(5, pool=POOL, ends=(PAIR,)),
        request(4, pool=POOL[1:], withheld=(LENT,)),
        request("6.0005", "11.0005", pool=[block(size) for size in ("1.0005", 5, 10, 20)]),
    ],
)
def test_where_no_effort_is_left_no_way_out_is_looked_for(asked):
    outcome = compose(asked)

    assert len(ways_out(asked, outcome, Effort())) > 1
    assert [way.kind for way in ways_out(asked, outcome, Effort(limit=0))] == ["effort"]


def test_the_ways_out_share_the_effort_of_the_request():
    """That the height cannot be made is known without a search."""
    assert [way.kind for way in explained(request(4, pool=POOL), Effort(limit=0)).ways_out] == ["effort"]


def test_ways_out_are_looked_for_where_no_effort_is_said():
    asked = request(4, pool=POOL)

    assert ways_out(asked, compose(asked), None) == explained(asked).ways_out


def test_the_ways_out_of_several_heights_are_those_of_the_one_that_fails():
    assert rung("below", 5, 4) == [("the nearest below is 1 mm away", ["3"])]
    asked = request(5, 4, pool=POOL)
    assert list(one_at_a_time(asked, compose(asked), Effort())) == []


def test_more_blocks_are_named_where_two_heights_want_the_same_one():
    assert rung("more blocks", 5, 5, most=1) == [("2 blocks do it, 1 more than allowed", ["5"])]


def test_of_a_large_set_the_nearest_is_that_of_any_number_of_blocks():
    pool = load_set(shipped_path("metric-88"))[0].ordinary

    assert rung("above", "7.0003", pool=pool)[0][0] == "the nearest above is 0.0002 mm away"


def test_how_many_blocks_were_looked_at_is_said(monkeypatch):
    """Of four blocks those of one and two are looked at."""
    monkeypatch.setattr(nearby, "MOST_HALVES", 4)
    four = (FIVE, THREE, TWO, block(1))

    assert rung("below", "10.5", pool=four, basis=Basis.CERTIFIED)[0][0] == (
        "the nearest below of at most 2 blocks is 2.5 mm away"
    )


@pytest.mark.parametrize(
    ("height", "said"),
    [
        ("5.0000015", "0.0000015 mm"),
        ("5.00000151", "0.002 µm"),
        ("5.999999999", "1000.000 µm"),
        ("6.000000001", "1.000000 mm"),
    ],
)
def test_a_distance_of_more_than_twelve_characters_is_rounded(height, said):
    (way,) = rungs(height, pool=(FIVE,), basis=Basis.CERTIFIED)

    assert way.sentence == f"the nearest below is {said} away"


def test_a_picometre_below_the_height_a_block_kept_in_stands_alone():
    asked = request("3.000000001", pool=POOL, kept_in=(THREE,))

    assert nearest_heights(asked) == {"below": mm(3), "above": mm(5)}


def test_which_heights_fail_together_is_looked_for_with_the_effort_there_is():
    """That 20 and 6.0005 can be made at once takes a search."""
    pool = [block(size) for size in ("1.0005", 5, 10, 20, 30)]
    asked = request("20", "6.0005", "11.0005", pool=pool)

    assert explained(asked).together == (1, 2)
    assert explained(asked, Effort(limit=0)).together == ()
