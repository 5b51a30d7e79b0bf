"""Only blocks with one good face in the way: the answer names them."""

from gaugestack.stacks.effort import Effort
from gaugestack.stacks.explain import explained
from gaugestack.stacks.onegoodface import with_two_faces
from gaugestack.stacks.request import Found, Impossible
from gaugestack.stacks.solve import compose
from tests.stacks.making import block, request, sizes, wear_pair

FIVE, THREE, TWO = block(5), block(3), block(2)
POOL = (FIVE, THREE, TWO)


def rungs(**asked):
    outcome = explained(request(10, pool=POOL, **asked))
    assert isinstance(outcome, Impossible)
    return [(way.sentence, sizes(way.built)) for way in outcome.ways_out if way.kind == "one good face"]


def test_three_blocks_with_one_good_face_do_not_fit_at_two_ends():
    assert rungs(end_only=POOL) == [
        (
            "it could be made if 5 mm, 3 mm, 2 mm (one good face, at an end only) had two",
            ["5", "3", "2"],
        )
    ]


def test_two_of_them_do():
    assert isinstance(explained(request(10, pool=POOL, end_only=POOL[:2])), Found)


def test_under_a_wear_pair_not_even_one_does():
    outcome = explained(request(14, pool=POOL, end_only=(TWO,), ends=(wear_pair(2),)))

    assert isinstance(outcome, Impossible)
    assert "2 mm (one good face" in next(w.sentence for w in outcome.ways_out if w.kind == "one good face")


def test_where_two_faces_would_not_help_nothing_is_said():
    outcome = explained(request(4, pool=POOL, end_only=POOL))

    assert [way for way in outcome.ways_out if way.kind == "one good face"] == []


def test_without_such_blocks_nothing_is_said():
    outcome = explained(request(4, pool=POOL))

    assert [way for way in outcome.ways_out if way.kind == "one good face"] == []


def test_the_blocks_in_the_way_are_handed_over_and_nothing_is_looked_for_without_effort():
    asked = request(10, pool=POOL, end_only=POOL)
    outcome = compose(asked)
    (way,) = with_two_faces(asked, outcome, Effort())

    assert way.blocks == POOL
    assert list(with_two_faces(asked, outcome, Effort(limit=0))) == []
