"""Small random sets and requests, few enough blocks for exhaustive enumeration.

Sizes are multiples of 0.5 mm, so that both thin blocks (up to 2.5 mm) and
others occur and different blocks often make the same height.
"""

from dataclasses import replace

from hypothesis import strategies as st

from gaugestack.blocks import Basis, Block, in_order
from gaugestack.lengths import Length, Unit
from gaugestack.stacks.request import StackRequest

STEP = 500_000_000
OFFSETS = (0, 0, 0, STEP // 4, STEP // 2)
TOLERANCES = (0, 0, STEP // 2, STEP, 2 * STEP)


def block(halves, *, copy=1, **more):
    """Return a block of so many half millimetres."""
    return Block(nominal=Length(halves * STEP), unit=Unit.MILLIMETRE, copy=copy, **more)


def pieces(sizes):
    """Return blocks of these sizes, equal ones told apart by their copy."""
    return in_order(block(size, copy=1 + sizes[:index].count(size)) for index, size in enumerate(sizes))


def wear_pair(halves, first=1):
    """Return a pair of equal wear blocks."""
    return tuple(block(halves, copy=first + index, wear=True) for index in range(2))


@st.composite
def pools(draw, most=8):
    """Draw blocks, some of them of the same size."""
    return pieces(draw(st.lists(st.integers(1, 14), min_size=1, max_size=most)))


@st.composite
def requests(draw, targets=1, blocks=8):
    """Draw a request that may be possible or not."""
    pool = draw(pools(most=blocks))
    heights = st.builds(lambda h, off: Length(h * STEP + off), st.integers(1, 40), st.sampled_from(OFFSETS))
    paired = draw(st.booleans())
    ends = tuple(wear_pair(draw(st.integers(1, 4)), 2 * i + 1) for i in range(targets)) if paired else ()
    kept = draw(st.lists(st.sampled_from(pool), max_size=2, unique=True))
    return StackRequest(
        targets=tuple(draw(heights) for _ in range(targets)),
        tolerance=Length(draw(st.sampled_from(TOLERANCES))),
        pool=pool,
        kept_in=tuple(kept),
        ends=ends,
        most=draw(st.one_of(st.none(), st.integers(1, 6))),
    )


@st.composite
def certified_requests(draw, targets=1, blocks=7):
    """Draw a request on certified lengths that lie a few nanometres beside the nominal ones."""
    asked = draw(requests(targets=targets, blocks=blocks))
    strays = st.sampled_from([None, 0, 1000, -1000, 2000])
    pool = tuple(replace(block, deviation=draw(strays)) for block in asked.pool)
    kept = tuple(block for old, block in zip(asked.pool, pool, strict=True) if old in asked.kept_in)
    off = st.sampled_from([0, 0, 1000, -1000, 500])
    return replace(
        asked,
        pool=pool,
        kept_in=kept,
        targets=tuple(Length(target + draw(off)) for target in asked.targets),
        tolerance=Length(draw(st.sampled_from([0, 1000, 2000, 5000, STEP]))),
        basis=Basis.CERTIFIED,
    )


@st.composite
def marked(draw, asked):
    """Draw a request in which some blocks have one good face and some were used before."""
    request = draw(asked)
    faces = draw(st.lists(st.sampled_from(request.pool), max_size=3, unique=True))
    counts = [(block, draw(st.integers(0, 3))) for block in request.pool if draw(st.booleans())]
    return replace(request, end_only=tuple(faces), uses=tuple(counts))
