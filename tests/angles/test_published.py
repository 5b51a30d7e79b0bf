from fractions import Fraction

import pytest

from gaugestack.angles.callout import read_taper
from gaugestack.angles.published import all_published, find_published, looks_like_a_name, published_names
from gaugestack.errors import TextError
from gaugestack.lengths import read_length


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("morse 3", "morse 3"),
        ("MT3", "morse 3"),
        ("mt 3", "morse 3"),
        ("Morse taper no. 3", "morse 3"),
        ("Morse No 4 1/2", "morse 4-1/2"),
        ("mt4-1/2", "morse 4-1/2"),
        ("morse #0", "morse 0"),
        ("brown and sharpe 10", "brown and sharpe 10"),
        ("Brown & Sharpe 10", "brown and sharpe 10"),
        ("B&S 10", "brown and sharpe 10"),
        ("jarno 6", "jarno 6"),
        ("Jacobs 2 short", "jacobs 2 short"),
        ("JT33", "jacobs 33"),
        ("7/24", "7/24"),
        ("7/24 40", "7/24 40"),
        ("steep 40", "7/24 40"),
        ("metric 80", "metric 80"),
        ("inch taper pin", "inch taper pin"),
        ("inch taper pin 7/0", "inch taper pin 7/0"),
        ("metric taper pin", "metric taper pin"),
        ("pipe taper", "pipe"),
        ("NPT", "pipe"),
        ("American Standard self-holding", "american standard self holding"),
    ],
)
def test_a_taper_is_found_by_each_of_its_spellings(text, name):
    assert find_published(text).name == name
    assert read_taper(text, bare_unit=None).rate == find_published(name).rate


@pytest.mark.parametrize("name", published_names())
def test_every_name_offered_for_completion_is_read(name):
    published = find_published(name)
    assert published.name == name
    assert read_taper(name, bare_unit=None).call_out == name


def test_every_taper_names_its_document_and_its_datum():
    for one in all_published():
        assert one.document
        assert one.edition
        assert one.basis in {"seen", "memory"}
        assert one.defining.endswith(" on diameter")
        assert 0 < one.rate < Fraction(1, 3)
    assert len({one.name for one in all_published()}) == len(all_published())


@pytest.mark.parametrize("one", [p for p in all_published() if p.rate_from_ends], ids=lambda p: p.name)
def test_the_printed_ends_give_the_printed_rate(one):
    # within 0.0002 in/ft: the ends and the rate are rounded apart (number 0 of the chuck tapers is the worst)
    assert abs(one.rate_from_ends - one.rate) * 12 <= Fraction(2, 10_000)


def test_a_value_from_memory_asks_to_be_checked():
    assert read_taper("morse 3", bare_unit=None).question == ""
    asked = read_taper("morse 1", bare_unit=None).question
    assert asked == "0.59858 in/ft on diameter is from memory: check the document"


def test_a_published_taper_says_its_document_in_the_reading():
    reading = read_taper("jacobs 33", bare_unit=None).reading
    assert reading == "Jacobs 33, 0.7619 in/ft on diameter (ASME B5.10, drill chuck tapers)"


@pytest.mark.parametrize(
    ("size", "rate"),
    [("0.75in", 16), ("5-1/2in", 16), ("6in", 12), ("8 in", 12)],
)
def test_a_propeller_shaft_takes_the_taper_of_its_diameter(size, rate):
    found = find_published(f"propeller shaft {size}")
    assert found.rate == Fraction(1, rate)
    assert found.document == "SAE J755"
    assert found.large_end == read_length(size).length


def test_the_diameter_of_a_propeller_shaft_may_be_any_length():
    assert find_published("marine shaft 2.5in").large_end == read_length("2.5in").length
    assert find_published("metric propeller shaft").rate == Fraction(1, 10)


@pytest.mark.parametrize(
    ("text", "sentence", "hint"),
    [
        ("propeller shaft 5.75in", "SAE J755 has no shaft of 5.75 in", "1:12 from 6 in to 8 in"),
        ("propeller shaft 0.5in", "SAE J755 has no shaft of 0.5 in", "1:16 from 0.75 in"),
        ("propeller shaft 8.25in", "SAE J755 has no shaft of 8.25 in", "1:12 from 6 in to 8 in"),
        ("propeller shaft 50mm", "SAE J755 gives shaft diameters in inches", "metric propeller shaft"),
        ("propeller shaft 5bar", "the shaft diameter: 'bar' is not a unit of length", "write a length"),
        ("propeller shaft", "the taper of a propeller shaft depends on its size and document", "ISO 4566"),
        ("taper pin", "a taper pin is 1:48 in inches and 1:50 in millimetres", "half 0.596809°"),
        ("taper pin 4", "a taper pin is 1:48 in inches and 1:50 in millimetres", "inch taper pin 4"),
        ("hsk 63", "sources give this taper three ways, 82 seconds apart", "1:9.98 (10.02 percent)"),
        ("mors 3", "'mors 3' is no published taper known here", "did you mean 'morse 3'?"),
        ("morse 9", "'morse 9': Morse has no such number", "its numbers: 0, 1, 2, 3, 4, 4-1/2, 5, 6, 7"),
        ("flibber", "'flibber' is no published taper known here", "taper per foot"),
    ],
)
def test_a_name_with_no_or_several_meanings_is_refused_with_what_to_write(text, sentence, hint):
    with pytest.raises(TextError) as refused:
        find_published(text)
    assert refused.value.sentence == sentence
    assert hint in refused.value.hint


@pytest.mark.parametrize(
    ("text", "named"),
    [("morse 3", True), ("7/24", True), ("7/24 no. 40", True), ("7/24in/ft", False), ("7/2", False)],
)
def test_only_a_letter_or_seven_twenty_fourths_begins_a_name(text, named):
    assert looks_like_a_name(text) == named
