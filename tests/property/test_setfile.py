"""Set files under Hypothesis: order changes nothing, and no text breaks the reader."""

from dataclasses import replace
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.errors import RefusedFile
from gaugestack.inventory.barfile import bars_of_text
from gaugestack.inventory.setfile import set_of_text

EXAMPLE = (Path(__file__).parents[1] / "formats" / "v1" / "set.yaml").read_text(encoding="utf-8")
LINES = EXAMPLE.splitlines(keepends=True)
FIRST = next(number for number, line in enumerate(LINES) if line.startswith("blocks:")) + 1
ENTRIES = LINES[FIRST : FIRST + 6]
SCRAPS = st.sampled_from(
    [
        *"{}[],:#&*!|>'\"%@`-?\t\n ",
        "- ",
        "  - ",
        "1",
        "0.1",
        "-4 µin",
        "1:30",
        "null",
        "~",
        "size",
        "pieces: 2",
    ]
)


def shuffled(order):
    return "".join([*LINES[:FIRST], *order, *LINES[FIRST + 6 :]])


@given(st.permutations(ENTRIES))
def test_the_order_of_the_entries_changes_nothing(order):
    expected, _ = set_of_text(EXAMPLE, file="set.yaml")

    found, _ = set_of_text(shuffled(order), file="set.yaml")

    assert found == expected


@given(
    sizes=st.lists(st.integers(1, 9999), min_size=1, max_size=30, unique=True),
    pieces=st.integers(1, 3),
    data=st.data(),
)
def test_pieces_and_absent_pieces_add_up_in_any_order(sizes, pieces, data):
    gone = data.draw(st.lists(st.sampled_from(sizes), unique=True))
    order = data.draw(st.permutations(sizes))
    entries = "".join(f"  - {{size: {size / 10000:.4f}, pieces: {pieces}}}\n" for size in order)
    absent = ", ".join(f"{size / 10000:.4f}" for size in gone)
    text = f"format: 1\nunit: in\nblocks:\n{entries}absent: [{absent}]\n"

    block_set, _ = set_of_text(text, file="set.yaml")

    assert (len(block_set.issued), len(block_set.absent)) == (len(sizes) * pieces, len(gone))
    assert {block.nominal for block in block_set.issued} == {size * 2_540_000 for size in sizes}
    assert [block.order for block in block_set.blocks] == sorted(block.order for block in block_set.blocks)
    assert len({replace(block, place=None) for block in block_set.issued}) == len(block_set.issued)


def read_or_refuse(read, text):
    problems = ()
    try:
        read(text, file="set.yaml")
    except RefusedFile as refused:
        problems = refused.problems or None
    assert all(p.place.line >= 1 and p.place.column >= 1 and str(p) for p in problems)


@given(st.text(max_size=200))
def test_no_text_breaks_the_readers(text):
    read_or_refuse(set_of_text, text)
    read_or_refuse(bars_of_text, "format: 1\nbars: " + text)


@settings(max_examples=300)
@given(st.lists(st.tuples(st.integers(0, len(EXAMPLE)), st.integers(0, 12), SCRAPS), min_size=1, max_size=4))
def test_no_change_to_a_set_file_breaks_the_reader(changes):
    text = EXAMPLE
    for start, length, scrap in changes:
        text = text[:start] + scrap + text[start + length :]

    read_or_refuse(set_of_text, text)
