from fractions import Fraction

import pytest

from gaugestack.angles.reversal import reversal
from gaugestack.lengths import Length


@pytest.mark.parametrize(("part", "fixture"), [(3000, 2000), (-700, 5), (0, 40), (12, 0)])
def test_part_and_fixture_come_out_of_their_sum_and_difference(part, fixture):
    found = reversal(Length(fixture + part), Length(fixture - part))

    assert (found.part, found.fixture) == (part, fixture)


def test_a_half_picometre_is_kept():
    assert reversal(Length(1), Length(0)).part == Fraction(1, 2)


def test_turning_the_readings_round_turns_the_part_s_sign_and_keeps_the_fixture():
    one, other = reversal(Length(9), Length(4)), reversal(Length(4), Length(9))

    assert one.part == -other.part
    assert one.fixture == other.fixture
