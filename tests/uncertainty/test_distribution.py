import math

import pytest

from gaugestack.errors import UsageError
from gaugestack.uncertainty.distribution import Distribution, divisor_of, read_distribution


@pytest.mark.parametrize("known", list(Distribution))
def test_every_known_distribution_is_read_by_its_word(known):
    assert read_distribution(f" {known.value.upper()} ") is known


def test_an_unknown_distribution_is_refused_with_the_nearest_word():
    with pytest.raises(UsageError) as caught:
        read_distribution("rectangle")
    assert "'rectangle' is no distribution that is known here" in str(caught.value)
    assert "did you mean 'rectangular'?" in str(caught.value)


def test_a_word_near_nothing_gets_the_whole_list():
    with pytest.raises(UsageError, match="known: arcsine, normal, product, rectangular, triangular"):
        read_distribution("zzz")


@pytest.mark.parametrize(
    ("distribution", "squared"),
    [("rectangular", 3), ("triangular", 6), ("arcsine", 2), ("normal", 1), ("product", 1)],
)
def test_the_divisors_are_those_of_jcgm_100_4_3_and_4_4(distribution, squared):
    assert divisor_of(read_distribution(distribution)) == pytest.approx(math.sqrt(squared), rel=1e-15)
