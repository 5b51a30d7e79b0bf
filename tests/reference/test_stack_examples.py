"""Worked stacks of books, courses and examinations, and claims about what sets can make.

A printed stack is one way to make the height and need not be the shortest; the
composer must never need more blocks, and needs as many as were computed by
exhaustive subset sums.  Each row says where its height was read:

    seen      read in the source
    memory    not read in the source, from memory
    computed  worked out, not published

and whether the blocks were printed there ("published") or "computed".  Sets
that are not shipped are composed here from their published series.
"""

from dataclasses import dataclass, field
from functools import cache
from itertools import combinations

import pytest

from gaugestack.blocks import Block, in_order
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_names, shipped_path
from gaugestack.lengths import Length, Unit, read_length
from gaugestack.stacks import reach
from gaugestack.stacks.explain import explained
from gaugestack.stacks.request import Found, Impossible, Proof, StackRequest
from gaugestack.stacks.solve import Composer, compose


@dataclass(frozen=True, kw_only=True)
class Example:
    """A height, a set, the blocks of the source and the fewest blocks computed."""

    name: str
    pool: str
    target: str
    blocks: tuple[str, ...]
    printed: bool
    fewest: int
    source: str
    basis: str
    wear: tuple[str, ...] = field(default=())


HUNDREDTHS = ("1.01", "1.49", "0.01")
SHORT_HALVES = ("2.0", "9.5", "0.5")
FIVE_TENTHS = ("1.5", "1.9", "0.1")
COMPOSED = {
    # textbook problem, Indian set M87: seen
    "metric 87 Indian": [
        "1.0005",
        ("1.001", "1.009", "0.001"),
        HUNDREDTHS,
        ("0.5", "9.5", "0.5"),
        ("10", "90", "10"),
    ],
    # GB/T 6093 and GOST 9038-90, set of 83: memory
    "metric 83": ["0.5", "1", "1.005", HUNDREDTHS, FIVE_TENTHS, SHORT_HALVES, ("10", "100", "10")],
    # GB/T 6093, set of 91: memory
    "metric 91": [
        "0.5",
        "1",
        ("1.001", "1.009", "0.001"),
        HUNDREDTHS,
        FIVE_TENTHS,
        SHORT_HALVES,
        ("10", "100", "10"),
    ],
    # the set of 30 of the three-block claim, 1 mm three times: computed from the claim
    "metric 30": [("1.000", "1.009", "0.001"), ("1.00", "1.09", "0.01"), ("1.0", "1.9", "0.1")],
}


EXAMPLES = [
    Example(
        name="npl-58.345",
        pool="metric-112",
        target="58.345 mm",
        printed=True,
        fewest=4,
        blocks=("1.005", "1.04", "1.30", "5", "50"),
        source="NPL FAQ on selecting gauge blocks",
        basis="seen",
    ),
    Example(
        name="maker-37.785-m46",
        pool="metric-46",
        target="37.785 mm",
        printed=True,
        fewest=5,
        blocks=("1.005", "1.08", "1.7", "4", "30"),
        source="block maker user manual",
        basis="seen",
    ),
    Example(
        name="tutorial-4.3301",
        pool="inch-81",
        target="4.3301 in",
        printed=True,
        fewest=4,
        blocks=(".1001", ".130", ".100", "4.000"),
        source="shop tutorial, 81 set, 5 in sine bar at 60 deg",
        basis="seen",
    ),
    Example(
        name="m112-92.357",
        pool="metric-112",
        target="92.357 mm",
        printed=True,
        fewest=4,
        blocks=("1.007", "1.35", "10", "75"),
        wear=("2.5", "2.5"),
        source="textbook problem worked by the asker",
        basis="seen",
    ),
    Example(
        name="slides-49.3825",
        pool="metric 87 Indian",
        target="49.3825 mm",
        printed=False,
        fewest=5,
        blocks=("1.0005", "1.002", "1.38", "6", "40"),
        source="university course slides, question 1 (i)",
        basis="seen (problem)",
    ),
    Example(
        name="tc9524-2.0084",
        pool="inch-81",
        target="2.0084 in",
        printed=False,
        fewest=4,
        blocks=(".1004", ".108", ".800", "1.000"),
        source="US Army TC 9-524: 5 in sine bar at 23 deg 41 min",
        basis="seen (height)",
    ),
    Example(
        name="handbook-2.826",
        pool="inch-81",
        target="2.826 in",
        printed=False,
        fewest=3,
        blocks=(".126", ".700", "2.000"),
        source="Handbook of Machining and Metalworking Calculations: 5 in sine bar at 34 deg 25 min",
        basis="seen (height)",
    ),
    Example(
        name="page-1.545",
        pool="inch-81",
        target="1.545 in",
        printed=False,
        fewest=3,
        blocks=(".145", ".400", "1.000"),
        source="shop page: 5 in sine bar at 18 deg",
        basis="seen (height)",
    ),
    Example(
        name="iti-42.26",
        pool="metric-112",
        target="42.26 mm",
        printed=False,
        fewest=3,
        blocks=("1.26", "16", "25"),
        source="Indian trade test question: 100 mm sine bar at 25 deg",
        basis="seen (height)",
    ),
    Example(
        name="india-29.758",
        pool="metric-45",
        target="29.758 mm",
        printed=True,
        fewest=5,
        blocks=("1.008", "1.05", "1.7", "6", "20"),
        source="Indian engineering metrology textbooks, M45 set; target also in an examination paper",
        basis="seen (target and set); blocks memory",
    ),
    Example(
        name="india-41.125",
        pool="metric-45",
        target="41.125 mm",
        printed=True,
        fewest=5,
        blocks=("1.005", "1.02", "1.1", "8", "30"),
        source="Indian engineering metrology textbooks, M45 set",
        basis="memory",
    ),
    Example(
        name="sine-54.464",
        pool="metric-87",
        target="54.464 mm",
        printed=True,
        fewest=4,
        blocks=("1.004", "1.46", "2", "50"),
        source="metrology textbook: 100 mm sine bar at 33 deg, 87 set",
        basis="memory",
    ),
    Example(
        name="text-1.6428",
        pool="inch-83",
        target="1.6428 in",
        printed=True,
        fewest=4,
        blocks=(".1008", ".142", ".300", "1.000"),
        wear=(".050", ".050"),
        source="Technology of Machine Tools, gage block build-up, 83 set",
        basis="memory",
    ),
    Example(
        name="text-43.257",
        pool="metric-88",
        target="43.257 mm",
        printed=True,
        fewest=4,
        blocks=("1.007", "1.25", "7", "30"),
        wear=("2", "2"),
        source="Machine Tool Practices, gage blocks, 88 metric set",
        basis="memory (target and wear blocks less certain)",
    ),
    Example(
        name="hb31-2.396",
        pool="inch-81",
        target="2.396 in",
        printed=False,
        fewest=3,
        blocks=(".146", ".250", "2.000"),
        source="Machinery's Handbook, 31st ed., p. 695: plug gauge of 6 1/8 in/ft on a 5 in sine bar",
        basis="seen (height)",
    ),
    Example(
        name="gate92-61.18",
        pool="metric-88",
        target="61.18 mm",
        printed=True,
        fewest=2,
        blocks=("1.18", "10", "50"),
        source="GATE PI 1992, slip gauge question, option A of four",
        basis="seen (options; key not in the stored page)",
    ),
    Example(
        name="smith-2.7486",
        pool="inch-81",
        target="2.7486 in",
        printed=True,
        fewest=4,
        blocks=(".1006", ".148", ".500", "2.000"),
        source="Mathematics for Machine Technology, gage blocks unit, customary example",
        basis="memory",
    ),
    Example(
        name="zh-28.785",
        pool="metric 83",
        target="28.785 mm",
        printed=True,
        fewest=4,
        blocks=("1.005", "1.28", "6.5", "20"),
        source="Chinese textbooks on interchangeability and measurement technology, gauge blocks, 83 set",
        basis="memory",
    ),
    Example(
        name="zh-36.375",
        pool="metric 83",
        target="36.375 mm",
        printed=True,
        fewest=4,
        blocks=("1.005", "1.37", "4", "30"),
        source="Chinese textbooks on interchangeability and measurement technology, gauge blocks, 83 set",
        basis="memory",
    ),
    Example(
        name="zh-51.987",
        pool="metric 91",
        target="51.987 mm",
        printed=False,
        fewest=4,
        blocks=("1.007", "1.48", "9.5", "40"),
        source="Chinese textbooks on interchangeability and measurement technology, exercise, 91 set",
        basis="memory (target)",
    ),
    Example(
        name="text-78.3665",
        pool="metric 87 Indian",
        target="78.3665 mm",
        printed=True,
        fewest=5,
        blocks=("1.0005", "1.006", "1.36", "5", "70"),
        source="Engineering Metrology and Measurements, slip gauges, M87",
        basis="memory",
    ),
    Example(
        name="centre-47.667",
        pool="metric-112",
        target="47.667 mm",
        printed=False,
        fewest=4,
        blocks=("1.007", "1.16", "20.5", "25"),
        source="examination problem, taper plug gauge on a sine bar of 112 mm, higher stack",
        basis="seen (height)",
    ),
    Example(
        name="hb31-1.0396",
        pool="inch-81",
        target="1.0396 in",
        printed=False,
        fewest=3,
        blocks=(".1006", ".139", ".800"),
        source="Machinery's Handbook, 31st ed., p. 695: 12 deg on a 5 in sine bar, 1.03956 in rounded",
        basis="seen (height)",
    ),
    Example(
        name="rolls-15.54",
        pool="metric-112",
        target="15.54 mm",
        printed=False,
        fewest=2,
        blocks=("1.04", "14.5"),
        source="examination question, slip gauges between two rollers",
        basis="seen (length)",
    ),
]
BY_NAME = pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.name)

# Sets not named or not known; the sums are checked and nothing else.
SUMS = {
    "52.215 mm": (
        ("1.005", "1.010", "2.20", "4", "40", "4"),
        "textbook companion, example on the arrangement of slip gauges; wear blocks 4 mm in all",
        "seen",
    ),
    "28.55 mm": (("20", "5", "3.55"), "manufacturing textbook, problem on a sine bar", "seen"),
    "3.9762 in": (
        (".1002", ".106", ".170", ".100", ".500", "1.000", "2.000"),
        "block maker's notes; the first two blocks are printed, the rest computed",
        "seen",
    ),
}


def length(text):
    return Length(read_length(text).length)


def sizes_of(parts, unit):
    """Return the sizes of series given as (from, to, step) and of single ones, in picometres."""
    sizes = []
    for part in parts:
        first, last, step = (
            length(f"{end}{unit}") for end in (part if isinstance(part, tuple) else (part, part, "1"))
        )
        sizes += range(first, last + 1, step)
    return sizes


@cache
def pool_of(name):
    """Return the ordinary blocks of a shipped set, or of one composed here."""
    if name in shipped_names():
        return load_set(shipped_path(name))[0].ordinary
    sizes = sorted(sizes_of(COMPOSED[name], Unit.MILLIMETRE))
    return in_order(
        Block(nominal=Length(size), unit=Unit.MILLIMETRE, copy=1 + sizes[:index].count(size))
        for index, size in enumerate(sizes)
    )


@cache
def table_of(name):
    return reach.table(pool_of(name), length("1m"))


def fewest(name, height):
    table = table_of(name)
    return None if height % table.step else table.count(height // table.step)


def asked(name, *targets, **more):
    return StackRequest(targets=tuple(map(length, targets)), tolerance=Length(0), pool=pool_of(name), **more)


def wear_pair(example):
    unit = read_length(example.target).unit
    return tuple(
        Block(nominal=length(f"{size}{unit}"), unit=unit, wear=True, copy=copy)
        for copy, size in enumerate(example.wear, start=1)
    )


def printed_lengths(example):
    unit = read_length(example.target).unit
    return [length(f"{size}{unit}") for size in (*example.blocks, *example.wear)]


@pytest.mark.parametrize(
    ("name", "pieces"), [("metric 87 Indian", 87), ("metric 83", 83), ("metric 91", 91), ("metric 30", 30)]
)
def test_the_sets_composed_here_have_their_number_of_pieces(name, pieces):
    assert len(pool_of(name)) == pieces


@BY_NAME
def test_the_blocks_of_the_source_add_up(example):
    assert sum(printed_lengths(example)) == length(example.target)


@BY_NAME
def test_the_blocks_of_the_source_are_in_the_set_once_each(example):
    left = [block.nominal for block in pool_of(example.pool)]
    for size in printed_lengths(example)[: len(example.blocks)]:
        left.remove(size)


@BY_NAME
def test_the_composer_needs_no_more_blocks_than_the_source_and_as_few_as_computed(example):
    pair = wear_pair(example)
    outcome = compose(asked(example.pool, example.target, ends=(pair,) if pair else ()))

    assert isinstance(outcome, Found)
    inner = len(outcome.stacks[0].blocks) - len(pair)
    assert inner <= len(example.blocks)
    assert inner == example.fewest


@pytest.mark.parametrize(
    "example", [example for example in EXAMPLES if example.fewest <= 4], ids=lambda example: example.name
)
def test_no_stack_of_fewer_blocks_exists(example):
    """By trying all stacks of up to three blocks; five-block rows would have too many to try."""
    height = length(example.target) - sum(block.nominal for block in wear_pair(example))
    sizes = [block.nominal for block in pool_of(example.pool)]

    for count in range(1, example.fewest):
        assert not any(sum(stack) == height for stack in combinations(sizes, count))


@pytest.mark.parametrize("target", SUMS)
def test_the_blocks_of_a_source_that_names_no_set_add_up(target):
    unit = read_length(target).unit

    assert sum(length(f"{size}{unit}") for size in SUMS[target][0]) == length(target)


def test_inch_36_makes_3_9762_in_with_seven_blocks():
    """Block maker's notes (seen: the first two blocks); seven blocks computed."""
    outcome = compose(asked("inch-36", "3.9762in"))

    assert len(outcome.stacks[0].blocks) == 7


def test_two_stacks_of_one_set_up_take_nine_blocks_together():
    """Examination problem, taper plug gauge between centres (heights seen; stacks computed).

    Each takes four alone, but every stack of four of either needs both 1.007
    and 1.16 mm.
    """
    alone = [compose(asked("metric-112", target)).stacks[0] for target in ("47.667mm", "37.667mm")]
    together = compose(asked("metric-112", "47.667mm", "37.667mm"))

    assert [len(built.blocks) for built in alone] == [4, 4]
    assert [{"1.007 mm", "1.16 mm"} <= {block.engraved for block in built.blocks} for built in alone] == [
        True,
        True,
    ]
    assert sum(len(built.blocks) for built in together) == 9


@pytest.mark.parametrize(
    ("name", "target"),
    [
        ("metric-45", "2.217mm"),  # German apprentice course, gauge blocks DIN 861: seen, and computed
        ("inch-81", "0.1011in"),  # computed
        ("inch-81", "0.1999in"),  # computed
        ("metric-112", "2.9995mm"),  # computed
    ],
)
def test_a_height_in_a_gap_of_the_set_is_impossible_and_has_neighbours(name, target):
    outcome = explained(asked(name, target))

    assert isinstance(outcome, Impossible)
    assert outcome.proof is Proof.TABLE
    assert [way.kind for way in outcome.ways_out] == ["below", "above"]


@pytest.mark.parametrize(
    ("name", "target", "blocks"),
    [
        ("inch-81", "12in", 7),  # computed
        ("metric-112", "100mm", 1),  # computed
        ("inch-81", "0.2in", 1),  # computed
    ],
)
def test_an_odd_height_takes_the_blocks_computed(name, target, blocks):
    assert len(compose(asked(name, target)).stacks[0].blocks) == blocks


def test_three_blocks_of_30_make_every_micrometre_from_3_to_3_999_mm():
    """Reference page on length gauges: three blocks make the 1000 lengths (seen; computed true)."""
    heights = range(length("3mm"), length("3.999mm") + 1, length("0.001mm"))
    counts = [fewest("metric 30", height) for height in heights]

    assert len(counts) == 1000
    assert all(count is not None and count <= 3 for count in counts)


@pytest.mark.parametrize("thousandths", range(3000, 4000, 37))
def test_the_solver_agrees_on_the_three_blocks(thousandths):
    request = StackRequest(
        targets=(length(f"{thousandths}um"),), tolerance=Length(0), pool=pool_of("metric 30")
    )
    outcome = Composer(request, table=table_of("metric 30")).outcome()

    assert isinstance(outcome, Found)
    assert len(outcome.stacks[0].blocks) == fewest("metric 30", request.targets[0]) <= 3


def inch_81_counts(low, high):
    """Return the fewest blocks for each ten-thousandth of an inch from `low` to `high`."""
    return [fewest("inch-81", height) for height in range(length(low), length(high) + 1, length("0.0001in"))]


def test_the_claim_of_any_size_from_a_tenth_of_an_inch_is_false_below_two_tenths():
    """Shop tutorial: any size from 0.100 in (seen); 882 of the 1000 heights cannot be made (computed)."""
    counts = inch_81_counts("0.1000in", "0.1999in")

    assert (len(counts), counts.count(None)) == (1000, 882)


def test_the_claim_is_true_from_two_tenths_to_four_inches_with_at_most_four_blocks():
    """Computed."""
    counts = inch_81_counts("0.2000in", "4.0000in")

    assert None not in counts
    assert max(counts) == 4


def test_the_claim_is_true_to_twelve_inches():
    """Shop tutorial: up to 12.000 in in steps of 0.0001 in (seen; computed true from 0.2000 in)."""
    assert None not in inch_81_counts("0.2000in", "12in")
