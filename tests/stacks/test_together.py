from gaugestack.stacks.effort import Effort
from gaugestack.stacks.explain import explained
from gaugestack.stacks.request import Impossible
from gaugestack.stacks.together import conflict, only, second_piece
from tests.stacks.making import block, request, wear_pair

POOL = (block(9), block(7), block(5), block(3), block(2))


def ladder(*targets, pool=POOL, **asked):
    outcome = explained(request(*targets, pool=pool, **asked))
    assert isinstance(outcome, Impossible)
    return outcome


def said(outcome, kind):
    return [way.sentence for way in outcome.ways_out if way.kind == kind]


def test_two_heights_that_want_one_block_are_named():
    """9 is 9 or 7 + 2; 3 is only 3."""
    assert conflict(request(3, 9, 3, pool=POOL)) == (0, 2)


def test_three_heights_may_fail_though_any_two_can_be_made():
    """9 can be made of 9 and of 7 + 2; a third time the 2 is taken."""
    assert conflict(request(9, 9, 9, pool=POOL)) == (0, 1, 2)


def test_heights_that_can_be_made_are_in_no_conflict():
    assert conflict(request(9, 9, pool=POOL)) == ()


def test_the_sentence_names_the_heights_that_want_the_same_blocks():
    outcome = ladder(3, 9, 3)

    assert outcome.sentence == "3 mm and 3 mm can each be made, but not at once: they want the same blocks"
    assert (outcome.failing, outcome.together) == (None, (0, 2))


def test_where_all_heights_are_needed_for_the_conflict_all_are_meant():
    outcome = ladder(3, 3)

    assert outcome.sentence == "each height can be made, but not all at once: they want the same blocks"
    assert outcome.together == (0, 1)


def test_a_block_kept_in_may_be_what_stands_in_the_way():
    """9 and 3 can be made; with the 5 kept in they cannot."""
    outcome = ladder(9, 3, kept_in=(POOL[2],))

    assert outcome.sentence == "each height can be made, but not all at once with the blocks to be kept in"
    assert outcome.together == ()


def test_a_second_piece_of_a_size_is_named_where_it_would_free_the_heights():
    outcome = ladder(3, 9, 3)

    assert said(outcome, "second piece") == ["with a second 3 mm all can be made at once"]
    assert [way.blocks for way in outcome.ways_out if way.kind == "second piece"] == [(POOL[3],)]


def test_two_more_pieces_of_a_size_are_no_second_piece():
    """Three heights of 3 mm take two pieces more, and there is one second piece of a size."""
    assert said(ladder(3, 3, 3), "second piece") == []


def test_each_height_that_frees_the_others_is_named():
    assert said(ladder(3, 9, 3), "leave out") == ["without 3 mm all the others can be made at once"] * 2


def test_of_two_heights_none_is_to_be_left_out():
    assert said(ladder(3, 3), "leave out") == []


def test_the_request_for_some_heights_keeps_their_wear_pairs():
    pairs = (wear_pair(2), wear_pair(2, 3), wear_pair(2, 5))
    asked = request(9, 11, 13, pool=POOL, ends=pairs, kept_in=(POOL[0],))

    part = only(asked, (0, 2))

    assert part.targets == (asked.targets[0], asked.targets[2])
    assert (part.ends, part.kept_in) == ((pairs[0], pairs[2]), ())


def test_without_a_height_the_others_may_fail_still():
    """3 is only 3, and is wanted three times."""
    assert said(ladder(3, 3, 3), "leave out") == []


def test_the_fewest_second_pieces_are_named_though_more_would_save_a_block():
    """A second 9 would stand for 7 + 2."""
    four = (block(9), block(7), block(3), block(2))

    assert said(ladder(9, 9, 3, 3, pool=four), "second piece") == [
        "with a second 3 mm all can be made at once"
    ]


def test_second_pieces_of_two_sizes_are_both_named():
    assert said(ladder(3, 3, 2, 2, pool=(block(3), block(2))), "second piece") == [
        "with a second 3 mm and a second 2 mm all can be made at once"
    ]


def test_of_one_block_wanted_three_times_two_heights_are_named():
    outcome = ladder(5, 5, 5, pool=(block(5),))

    assert outcome.sentence == "5 mm and 5 mm can each be made, but not at once: they want the same blocks"


def test_a_second_piece_is_looked_for_where_no_effort_is_said():
    asked = request(3, 9, 3, pool=POOL)
    (way,) = second_piece(asked, explained(asked), None)

    assert way.blocks == (POOL[3],)
    assert list(second_piece(asked, explained(asked), Effort(limit=0))) == []
