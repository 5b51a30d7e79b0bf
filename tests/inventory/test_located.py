import time

import pytest

from gaugestack.errors import RefusedFile, TextError
from gaugestack.inventory.located import parse
from gaugestack.inventory.nodes import Mapping, Scalar, Sequence


def refused(text):
    with pytest.raises(RefusedFile) as caught:
        parse(text, file="set.yaml")
    return caught.value.problems


@pytest.mark.parametrize("text", ["010", "1:30", "2.000", "yes", "null", "1e3", "2026-02-03", ".nan", "0x10"])
def test_a_scalar_stays_the_text_it_was(text):
    ((_, value),) = parse(f"size: {text}\n", file="set.yaml").pairs

    assert value.text == text


def test_nodes_know_their_line_column_and_width():
    root = parse("a: 1\nb:\n  - {µ: 'x y'}\n", file="set.yaml")
    (_, (_, items)) = root.pairs
    ((key, value),) = items.items[0].pairs

    assert isinstance(root, Mapping)
    assert isinstance(items, Sequence)
    assert (key.text, str(key.place), key.width) == ("µ", "set.yaml:3:6", 1)
    assert (value.text, str(value.place), value.width, value.quoted) == ("x y", "set.yaml:3:9", 5, True)
    assert value.source == "  - {µ: 'x y'}"


def test_a_missing_value_is_told_from_an_empty_text():
    ((_, nothing), (_, empty)) = parse("a:\nb: ''\n", file="set.yaml").pairs

    assert (nothing.missing, empty.missing) == (True, False)


@pytest.mark.parametrize("text", ["a: 1\r\nb: 2\r\n", "\ufeffa: 1\nb: 2\n", "---\na: 1\nb: 2\n...\n"])
def test_windows_line_ends_byte_order_marks_and_one_document_are_read(text):
    assert [(key.text, value.text) for key, value in parse(text, file="x").pairs] == [("a", "1"), ("b", "2")]


def test_columns_count_characters_also_beyond_the_basic_plane():
    (problem,) = refused("a: 1\nb: {𐍈: &x 1}\n")

    assert (problem.place.line, problem.place.column) == (2, 8)


@pytest.mark.parametrize("text", ["a: 1\nb: {c", "a: 1\nb: [x", "a: 1\nb: {x: ", "a: 1\nbc"])
def test_a_file_that_ends_too_soon_is_refused_behind_its_last_character(text):
    (problem,) = refused(text)

    last = text.split("\n")[1]
    assert (problem.place.line, problem.place.column) == (2, len(last) + 1)
    assert (problem.source, problem.start) == (last, len(last))


def test_a_readers_caret_stands_inside_the_quotes():
    ((_, value),) = parse("size: '0.1 xx'\n", file="set.yaml").pairs
    problem = value.text_problem(TextError("0.1 xx", 4, 6, "no unit"))

    assert str(problem).splitlines()[:3] == ["set.yaml:1:12: no unit", "    size: '0.1 xx'", " " * 15 + "^^"]


def test_a_readers_caret_covers_a_text_written_with_escapes():
    ((_, value),) = parse('size: "0.1\\u0020xx"\n', file="set.yaml").pairs
    problem = value.text_problem(TextError("0.1 xx", 4, 6, "no unit"))

    assert (problem.place.column, problem.width) == (7, 13)


def test_twenty_levels_are_read_and_twenty_one_refused():
    assert isinstance(parse("[" * 20 + "]" * 20, file="x"), Sequence)
    (problem,) = refused("[" * 21 + "]" * 21)
    assert problem.sentence == "nested deeper than 20 levels"


def test_an_alias_bomb_is_refused_at_once():
    levels = ["a0: &a0 [x, x]"]
    levels += [f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}, *a{n - 1}]" for n in range(1, 12)]
    began = time.monotonic()

    problems = refused("\n".join(levels))

    assert problems[0].sentence == "anchors (&a0) are not read"
    assert time.monotonic() - began < 1


def test_a_file_of_faults_is_given_up_after_a_hundred():
    problems = refused("a: 1\n" * 50_000)

    assert len(problems) == 101
    assert problems[-1].sentence == "100 problems so far: the rest of the file was not checked"


def test_a_megabyte_of_brackets_is_refused_quickly():
    began = time.monotonic()

    refused("[" * (1 << 20))

    assert time.monotonic() - began < 2


def test_a_scalar_that_is_the_whole_file_is_a_node():
    assert isinstance(parse("word\n", file="x"), Scalar)


def test_a_document_that_only_begins_stands_on_its_last_line():
    place = parse("---", file="set.yaml").place

    assert (place.line, place.column) == (1, 4)
