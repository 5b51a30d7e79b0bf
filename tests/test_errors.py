import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wcwidth import wcswidth, wcwidth

from gaugestack import errors
from gaugestack.errors import (
    ExitCode,
    GaugestackError,
    OurBug,
    Place,
    Problem,
    RefusedFile,
    TextError,
    UsageError,
    nearest,
    visible,
)

_DOUBTFUL = {"Mc", "Lm", "Sk"}
"""Marks that take a column on some terminals and none on others."""
_IN_DISPUTE = (
    range(0x2630, 0x2638), range(0x268A, 0x2690), range(0x4DC0, 0x4E00), range(0x1D300, 0x1D377),
    range(0x1F1E6, 0x1F200), (0x3164, 0xFFA0),
)  # fmt: skip
"""Signs that Unicode 16 made wide, halves of flags, fillers of Hangul."""
REPLACEMENT = "\N{REPLACEMENT CHARACTER}"
PLACE = Place(file="bench.yaml", line=3, column=9)


def shown(source, start, width=1):
    return str(Problem(place=PLACE, sentence="wrong", source=source, start=start, width=width)).split("\n")


def under_the_caret(source, start, width=1):
    _, line, caret = shown(source, start, width)
    first = caret.index("^")
    return line[first : first + caret.count("^")]


def test_a_place_in_a_file_says_file_line_and_column():
    assert str(PLACE) == "bench.yaml:3:9"


def test_a_place_without_a_line_is_the_name_of_an_argument():
    assert str(Place(file="HEIGHT")) == "HEIGHT"


def test_a_problem_shows_the_sentence_the_line_the_caret_and_the_hint():
    problem = Problem(
        place=PLACE,
        sentence="no such key",
        source="  blokcs: 1",
        start=2,
        width=6,
        hint="did you mean 'blocks'?",
    )

    assert str(problem) == (
        "bench.yaml:3:9: no such key\n      blokcs: 1\n      ^^^^^^\n  did you mean 'blocks'?"
    )


def test_a_problem_without_source_or_hint_is_its_first_line_alone():
    assert str(Problem(place=PLACE, sentence="empty")) == "bench.yaml:3:9: empty"


def test_a_blank_source_line_shows_no_caret():
    assert str(Problem(place=PLACE, sentence="empty", source="  \t ")) == "bench.yaml:3:9: empty"


@pytest.mark.parametrize(("start", "width", "wrong"), [(0, 1, "0"), (4, 2, "mm"), (5, 9, "m")])
def test_the_caret_stands_under_the_wrong_characters(start, width, wrong):
    assert under_the_caret("0.50mm"[:4] + "mm", start, width) == wrong


def test_a_caret_past_the_end_stands_just_behind_the_line():
    assert shown("5", 40) == ["bench.yaml:3:9: wrong", "    5", "     ^"]


def test_a_caret_is_never_narrower_than_one_character():
    assert shown("5mm", 1, 0)[2] == "     ^"


def test_a_long_line_is_cut_around_the_fault():
    source = "a" * 200 + "!" + "b" * 200

    assert under_the_caret(source, 200) == "!"
    assert max(len(line) for line in shown(source, 200)) <= 4 + 72 + 2


def test_a_long_line_with_an_early_fault_is_cut_at_its_end():
    source = "!" + "b" * 200

    assert under_the_caret(source, 0) == "!"
    assert shown(source, 0)[1] == "    " + source[:72] + "…"


def test_a_wide_character_counts_two_columns():
    assert shown("\N{CJK UNIFIED IDEOGRAPH-4E00}x", 1)[2] == "      ^"


@pytest.mark.parametrize(
    ("source", "start", "width", "shown_line", "carets"),
    [
        ("\N{CJK UNIFIED IDEOGRAPH-4E00}x", 0, 1, "\N{CJK UNIFIED IDEOGRAPH-4E00}x", "^^"),
        ("\N{FULLWIDTH DIGIT ONE}\N{FULLWIDTH DIGIT TWO}x", 1, 2, None, "  ^^^"),
        ("e\N{COMBINING ACUTE ACCENT}x", 2, 1, None, " ^"),
        ("ae\N{COMBINING ACUTE ACCENT}x", 2, 1, None, " ^"),
        ("e\N{COMBINING ACUTE ACCENT}\N{COMBINING DIAERESIS}x", 0, 4, None, "^^"),
        ("\N{COMBINING ACUTE ACCENT}x", 0, 1, None, "^"),
        ("\N{HANGUL CHOSEONG KIYEOK}\N{HANGUL JUNGSEONG A}x", 2, 1, None, "  ^"),
        ("a\tb\tx", 4, 1, "a b x", "    ^"),
        ("\t\tx", 0, 9, "  x", "^^^"),
        ("a\N{RIGHT-TO-LEFT OVERRIDE}x", 2, 1, f"a{REPLACEMENT}x", "  ^"),
        ("ab \N{NO-BREAK SPACE}", 1, 3, "ab", " ^"),
    ],
)
def test_the_caret_counts_columns_of_a_terminal(source, start, width, shown_line, carets):
    _, line, below = shown(source, start, width)

    assert (line[4:], below[4:]) == (shown_line or source, carets)


def test_columns_are_those_of_a_library_of_terminal_widths():
    every = (chr(code) for code in range(0x20, 0x30000))
    printed = [one for one in every if visible(one) == one and unicodedata.category(one) not in _DOUBTFUL]
    sure = [one for one in printed if not any(ord(one) in few for few in _IN_DISPUTE)]
    differing = [one for one in sure if errors._column(one) != wcwidth(one)]

    assert len(sure) > 100_000
    assert not differing, [f"{ord(one):04X}" for one in differing[:20]]


def test_a_long_line_of_wide_characters_is_cut_to_the_columns_of_a_terminal():
    source = "\N{CJK UNIFIED IDEOGRAPH-4E00}" * 100 + "!" + "\N{CJK UNIFIED IDEOGRAPH-4E00}" * 100

    _, line, below = shown(source, 100)
    assert wcswidth(line) <= 4 + 72 + 2
    assert wcswidth(line[: line.index("!")]) == below.index("^")


def test_a_long_line_is_not_cut_between_a_letter_and_its_accent():
    source = "e\N{COMBINING ACUTE ACCENT}" * 100 + "!"

    _, line, below = shown(source, 200)
    assert line[4:] == "…" + source[-73:]
    assert below == " " * 41 + "^"


def test_a_line_of_nothing_but_accents_is_cut_too():
    assert len(shown("\N{COMBINING ACUTE ACCENT}" * 5000, 2500)[1]) < 400


def test_a_tab_counts_one_column():
    assert shown("\tx", 1)[2] == "     ^"


@given(st.text(min_size=1, max_size=300), st.integers(0, 300), st.integers(0, 300))
def test_no_source_line_breaks_the_caret(source, start, width):
    lines = shown(source, start, width)

    assert len(lines) == (3 if source.strip() else 1)
    if len(lines) == 3:
        assert set(lines[2]) == {" ", "^"}


@pytest.mark.parametrize(
    "character",
    [
        "\x00",
        "\x1b",
        "\n",
        "\r",
        "\x7f",
        "\x9b",
        "\N{RIGHT-TO-LEFT OVERRIDE}",
        "\N{LEFT-TO-RIGHT ISOLATE}",
        "\N{ZERO WIDTH SPACE}",
        "\N{ZERO WIDTH JOINER}",
        "\N{SOFT HYPHEN}",
        "\N{LINE SEPARATOR}",
        "\N{PARAGRAPH SEPARATOR}",
        "\ud800",
        "\ue000",
        "\uffff",
    ],
)
def test_control_and_direction_characters_are_replaced(character):
    assert visible(f"a{character}b") == f"a{REPLACEMENT}b"


@pytest.mark.parametrize(
    "text", ["0.1001 in", "12 µm", "7°7'30\"", "Prüfstück ß é", "\N{CJK UNIFIED IDEOGRAPH-4E00}"]
)
def test_printable_text_stays_as_it_is(text):
    assert visible(text) == text


def test_an_empty_text_stays_empty():
    assert visible("") == ""


@given(st.text())
def test_visible_keeps_every_column(text):
    seen = visible(text)

    assert len(seen) == len(text)
    assert visible(seen) == seen
    assert not any(unicodedata.category(c) in ("Cc", "Cf", "Zl", "Zp", "Cs") for c in seen)


def test_no_text_of_a_problem_can_forge_a_line_of_output():
    forged = "x\nbench.yaml:1:1: all is well"
    problem = Problem(place=Place(file=forged), sentence=forged, source=forged, start=0, hint=forged)

    assert len(str(problem).split("\n")) == 4


def test_nearest_names_the_word_a_letter_away():
    assert nearest("blokcs", ["blocks", "bars", "name"]) == "did you mean 'blocks'?"


def test_nearest_names_all_words_sorted_where_none_is_close():
    assert nearest("zzz", ["name", "blocks"]) == "known: blocks, name"


def test_nearest_ignores_case_and_gives_the_word_as_it_is_known():
    assert nearest("inch-81", ["Inch-81", "metric-88"]) == "did you mean 'Inch-81'?"


def test_nearest_of_nothing_is_empty():
    assert nearest("blocks", []) == ""


@pytest.mark.parametrize(
    ("error", "code"),
    [
        (UsageError.about("HEIGHT", "wrong"), 2),
        (TextError("x", 0, 1, "wrong"), 2),
        (RefusedFile.whole("bench.yaml", "wrong"), 3),
        (OurBug.because(["wrong"]), 70),
    ],
)
def test_each_error_has_its_exit_code(error, code):
    assert isinstance(error, GaugestackError)
    assert error.exit_code == code


def test_the_exit_codes_are_those_scripts_rely_on():
    assert {code.name: int(code) for code in ExitCode} == {
        "YES": 0,
        "NO": 1,
        "USAGE": 2,
        "REFUSED_FILE": 3,
        "UNDECIDED": 4,
        "OUR_BUG": 70,
    }


def test_an_error_prints_all_its_problems_in_order():
    error = GaugestackError(Problem(place=Place(file=name), sentence="wrong") for name in ("b", "a"))

    assert str(error) == "b: wrong\na: wrong"


def test_a_usage_error_is_about_an_argument():
    assert (
        str(UsageError.about("--set", "unknown", hint="known: inch-81")) == "--set: unknown\n  known: inch-81"
    )


def test_a_file_that_cannot_be_read_is_refused_at_its_first_character():
    assert str(RefusedFile.whole("bench.yaml", "no such file")) == "bench.yaml:1:1: no such file"


def test_our_bug_asks_for_a_report():
    assert str(OurBug.because(["the sum is wrong"])) == (
        "gaugestack: the sum is wrong\n  This is a fault of the program, not of your set: please report it."
    )


def test_a_text_error_marks_the_wrong_characters_of_its_text():
    assert str(TextError("5 furlong", 2, 9, "no unit")) == "argument: no unit\n    5 furlong\n      ^^^^^^^"


def test_a_text_error_takes_the_name_of_its_argument():
    named = TextError("5 furlong", 2, 9, "no unit").named("HEIGHT")

    assert type(named) is UsageError
    assert str(named).startswith("HEIGHT: no unit\n")


def test_a_text_error_moves_to_its_place_in_a_file():
    problem = TextError("5 furlong", 2, 9, "no unit").at(PLACE, source="  size: 5 furlong", offset=8)

    assert str(problem) == "bench.yaml:3:11: no unit\n      size: 5 furlong\n              ^^^^^^^"


def test_a_text_error_marks_at_least_one_character():
    error = TextError("5", 1, 1, "a unit is missing")

    assert (error.start, error.end) == (1, 2)
