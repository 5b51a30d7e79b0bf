import math

import mpmath
import pytest
from scipy import stats

from gaugestack.errors import UsageError
from gaugestack.uncertainty.student import _series, coverage_factor, share_within

DEGREES = [1, 2, 3, 4, 5, 7, 16, 29, 50, 100, 999, 1000, 1001, 1002, 5000, 100_000, 10**9]
SHARES = [0.01, 0.5, 0.6827, 0.9, 0.95, 0.9545, 0.99, 0.9973, 0.9999]


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize("degrees", DEGREES)
def test_k_agrees_with_scipy(share, degrees):
    assert coverage_factor(share, degrees) == pytest.approx(stats.t.ppf((1 + share) / 2, degrees), rel=1e-11)


@pytest.mark.parametrize("share", SHARES)
def test_k_of_infinite_degrees_is_that_of_the_normal_distribution(share):
    assert coverage_factor(share, math.inf) == pytest.approx(stats.norm.ppf((1 + share) / 2), rel=1e-11)


@pytest.mark.parametrize("degrees", [1, 2, 3, 8, 9, 500])
@pytest.mark.parametrize("t", [0.1, 1.0, 2.5, 12.0])
def test_the_share_within_t_agrees_with_scipy(t, degrees):
    assert share_within(t, degrees) == pytest.approx(1 - 2 * stats.t.sf(t, degrees), rel=1e-11)


def test_k_falls_with_more_degrees_and_joins_where_the_series_takes_over():
    factors = [coverage_factor(0.95, degrees) for degrees in (*range(1, 40), 999, 1000, 1001, 1002, math.inf)]
    assert factors == sorted(factors, reverse=True)


@pytest.mark.parametrize("share", [0.0, -0.5, 1.0, 0.99995, 95, math.nan])
def test_a_share_outside_its_range_is_refused(share):
    with pytest.raises(UsageError, match="a coverage probability of"):
        coverage_factor(share, 10)


@pytest.mark.parametrize("degrees", [0, -3, 0.5, 16.7, math.nan, -math.inf])
def test_degrees_that_are_no_whole_number_from_one_are_refused(degrees):
    with pytest.raises(UsageError, match="a whole number from 1 is wanted"):
        coverage_factor(0.95, degrees)


@pytest.mark.parametrize(("share", "degrees"), [(0.9999, 1), (0.001, 1), (0.95, 1)])
def test_the_ends_of_the_ranges_are_allowed(share, degrees):
    assert coverage_factor(share, degrees) == pytest.approx(math.tan(share * math.pi / 2), rel=1e-11)


def terms_of_the_series(z):
    """Return what stands over 1, n, n^2, n^3 and n^4 in t of n degrees, from t itself at seven large n."""
    with mpmath.workdps(60):
        half = mpmath.erf(z / mpmath.sqrt(2)) / 2
        degrees = [mpmath.mpf(100_000 * step) for step in range(1, 8)]
        powers = mpmath.matrix(7, 7)
        for row, n in enumerate(degrees):
            for power in range(7):
                powers[row, power] = n**-power
        found = mpmath.lu_solve(powers, mpmath.matrix([t_by_quadrature(half, n, z) for n in degrees]))
        return [float(term) for term in found[:5]]


def t_by_quadrature(half, n, near):
    """Return t with the share `half` between 0 and t, by Newton's rule on the integral of the density."""
    scale = mpmath.gamma((n + 1) / 2) / (mpmath.sqrt(n * mpmath.pi) * mpmath.gamma(n / 2))

    def density(x):
        return scale * (1 + x * x / n) ** (-(n + 1) / 2)

    t = mpmath.mpf(near)
    for _ in range(6):
        t -= (mpmath.quad(density, [0, t / 2, t]) - half) / density(t)
    return t


@pytest.mark.parametrize("z", [0.7, 2.0])
def test_every_term_of_the_series_is_that_of_t_itself(z):
    """What stands over high powers of many degrees is too small to be seen in k: it is compared alone."""
    terms = terms_of_the_series(z)
    for degrees in (0.25, 1.0, 3.0):
        expected = sum(term / degrees**power for power, term in enumerate(terms))
        assert _series(z, degrees) == pytest.approx(expected, rel=1e-9)
