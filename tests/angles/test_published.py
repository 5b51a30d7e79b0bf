import math
from dataclasses import replace
from fractions import Fraction

import pytest

from gaugestack.angles.callout import read_taper
from gaugestack.angles.published import all_published, find_published, looks_like_a_name, published_names
from gaugestack.errors import TextError
from gaugestack.lengths import PM_PER_INCH, read_length


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
        ("B&S10", "brown and sharpe 10"),
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
    assert [one.name for one in all_published()] == list(published_names())


@pytest.mark.parametrize("one", [p for p in all_published() if p.rate_from_ends], ids=lambda p: p.name)
def test_the_printed_ends_give_the_printed_rate(one):
    # within 0.0002 in/ft: the ends and the rate are rounded apart (number 0 of the chuck tapers is the worst)
    assert abs(one.rate_from_ends - one.rate) * 12 <= Fraction(2, 10_000)


@pytest.mark.parametrize("missing", ["large_end", "small_end", "length"])
def test_ends_that_are_not_all_printed_give_no_rate(missing):
    assert replace(find_published("jarno 6"), **{missing: None}).rate_from_ends is None


def test_a_value_from_memory_asks_to_be_checked():
    assert read_taper("morse 3", bare_unit=None).question == ""
    asked = read_taper("morse 1", bare_unit=None).question
    assert asked == "0.59858 in/ft on diameter is from memory: check the document"


def test_a_published_taper_says_its_document_in_the_reading():
    reading = read_taper("jacobs 33", bare_unit=None).reading
    assert reading == "Jacobs 33, 0.7619 in/ft on diameter (ASME B5.10, drill chuck tapers)"


@pytest.mark.parametrize(
    ("size", "rate"),
    [("0.75in", 16), ("5-1/2in", 16), ("5-1/2 in", 16), ("6in", 12), ("8 in", 12)],
)
def test_a_propeller_shaft_takes_the_taper_of_its_diameter(size, rate):
    found = find_published(f"propeller shaft {size}")
    assert found.rate == Fraction(1, rate)
    assert found.document == "SAE J755"
    assert found.large_end == read_length(size).length


def test_the_diameter_of_a_propeller_shaft_may_be_any_length():
    assert find_published("marine shaft 2.5in").large_end == read_length("2.5in").length
    assert find_published("metric propeller shaft").rate == Fraction(1, 10)


def meaning(written, rate):
    """One meaning of a name, its angles taken from the rate with floats."""
    half = math.degrees(math.atan(rate / 2))
    half, included = (f"{angle:.6f}".rstrip("0") for angle in (half, 2 * half))
    return f"{written} -> half {half}°, included {included}°"


SHAFT = "; ".join(
    (
        meaning("propeller shaft 2in (to 5.5 in, SAE J755)", 1 / 16),
        meaning("propeller shaft 6in (6 to 8 in, SAE J755)", 1 / 12),
        meaning("metric propeller shaft (ISO 4566)", 1 / 10),
    )
)
HOLLOW = "; ".join(
    (
        meaning("1:10 (nominal)", 1 / 10),
        meaning("1:9.98 (10.02 percent)", 1 / 9.98),
        meaning("9.98% on diameter (1:10.02)", 0.0998),
    )
)
SIZES = "1:16 from 0.75 in to 5.5 in, 1:12 from 6 in to 8 in"


def pin(name):
    metric = meaning("metric taper pin (1:50, ISO 2339)", 1 / 50)
    return f"{meaning(f'{name} (1:48, ASME B18.8.2)', 1 / 48)}; {metric}"


@pytest.mark.parametrize(
    ("text", "sentence", "hint"),
    [
        ("propeller shaft 5.75in", "SAE J755 has no shaft of 5.75 in", SIZES),
        ("propeller shaft 0.5in", "SAE J755 has no shaft of 0.5 in", SIZES),
        ("propeller shaft 8.25in", "SAE J755 has no shaft of 8.25 in", SIZES),
        (
            "propeller shaft 50mm",
            "SAE J755 gives shaft diameters in inches",
            "write metric propeller shaft for 1:10 (ISO 4566); or the diameter in inches",
        ),
        (
            "propeller shaft 5bar",
            "the shaft diameter: 'bar' is not a unit of length",
            "write a length like 0.6202in, 15.752mm, 12 µm, 40 µin, 5/8in or 1-3/8in",
        ),
        *(
            (name, "the taper of a propeller shaft depends on its size and document", SHAFT)
            for name in ("propeller shaft", "marine shaft", "Marine Propeller Shaft", "shaft")
        ),
        ("taper pin", "a taper pin is 1:48 in inches and 1:50 in millimetres", pin("inch taper pin")),
        ("pin 4/0", "a taper pin is 1:48 in inches and 1:50 in millimetres", pin("inch taper pin 4/0")),
        *(
            (name, "sources give this taper three ways, 82 seconds apart", HOLLOW)
            for name in ("hsk", "hsk 63", "HSK-A 63", "hsk a63")
        ),
        ("mors 3", "'mors 3' is no published taper known here", "did you mean 'morse 3'?"),
        ("morse 9", "'morse 9': Morse has no such number", "its numbers: 0, 1, 2, 3, 4, 4-1/2, 5, 6, 7"),
        ("morse", "'morse': Morse has no such number", "its numbers: 0, 1, 2, 3, 4, 4-1/2, 5, 6, 7"),
        (
            "flibber",
            "'flibber' is no published taper known here",
            (
                "write its taper per foot, like 0.60235in/ft, or its ratio; names: morse, "
                "brown and sharpe, jarno, jacobs, 7/24, metric, inch taper pin, metric taper pin, pipe, "
                "metric propeller shaft, spindle nose, anaesthetic connector, luer, "
                "american standard self holding"
            ),
        ),
    ],
)
def test_a_name_with_no_or_several_meanings_is_refused_with_what_to_write(text, sentence, hint):
    with pytest.raises(TextError) as refused:
        find_published(text)
    assert refused.value.sentence == sentence
    assert refused.value.hint == hint
    assert (refused.value.text, refused.value.start, refused.value.end) == (text, 0, len(text))


def test_the_refusal_of_a_name_leaves_the_spaces_around_it_unmarked():
    with pytest.raises(TextError) as refused:
        find_published("  morse 9 ")
    assert refused.value.sentence == "'morse 9': Morse has no such number"
    assert (refused.value.start, refused.value.end) == (2, 9)


def lengths(one):
    """Gauge line, large end, small end and length in inches."""
    found = (one.gauge_line, one.large_end, one.small_end, one.length)
    return tuple(None if length is None else Fraction(length, PM_PER_INCH) for length in found)


def test_a_number_of_a_series_has_the_datum_and_the_diameters_printed_for_it():
    morse = find_published("morse 3")
    assert (morse.title, morse.basis, morse.holding) == ("Morse 3", "seen", "self-holding")
    assert (morse.rate, morse.defining) == (Fraction("0.60235") / 12, "0.60235 in/ft on diameter")
    assert lengths(morse) == (Fraction("0.938"), None, None, None)
    assert morse.rate_from_ends is None
    assert morse.document.startswith("Machinery's Handbook")
    assert (morse.edition, morse.note[:24]) == ("not stated", "tolerance 0.002 in/ft on")
    sharpe = find_published("brown and sharpe 2")
    assert lengths(sharpe) == (None, Fraction("0.29968"), Fraction("0.25"), Fraction("1.1875"))
    assert sharpe.rate_from_ends == Fraction("0.04968") / Fraction("1.1875")
    assert find_published("7/24").title == "Steep 7/24"


@pytest.mark.parametrize("number", range(2, 21))
def test_jarno_n_is_n_eighths_to_n_tenths_over_n_halves(number):
    # Machinery's Handbook, dimensions of standard tapers: the rule of the series, 0.6 in/ft
    found = find_published(f"jarno {number}")
    eighths, tenths, halves = (Fraction(number, under) for under in (8, 10, 2))
    assert lengths(found) == (eighths, eighths, tenths, halves)
    assert found.rate == found.rate_from_ends == Fraction(1, 20)
    assert found.defining == "1:20 on diameter"


def test_a_propeller_shaft_says_its_document_and_its_rate():
    small, large = find_published("propeller shaft 2 in"), find_published("marine propeller 6in")
    assert (small.name, small.title) == ("propeller shaft 2in", "Propeller shaft 2 in")
    assert (small.defining, large.defining) == ("0.7500 in/ft on diameter", "1.0000 in/ft on diameter")
    assert (large.document, large.edition, large.basis) == ("SAE J755", "2015", "seen")
    assert large.holding == "not classified"
    assert lengths(large) == (None, 6, None, None)


def test_a_published_taper_keeps_its_call_out_as_written():
    assert find_published("MT3").taper(" MT3 ").call_out == "MT3"


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("morse 3", True),
        (" morse 3", True),
        ("7/24", True),
        ("7/24 ", True),
        ("7/24 no. 40", True),
        ("7/24 40", True),
        ("7/24in/ft", False),
        ("7/2", False),
        ("", False),
        ("24", False),
    ],
)
def test_only_a_letter_or_seven_twenty_fourths_begins_a_name(text, named):
    assert looks_like_a_name(text) == named
