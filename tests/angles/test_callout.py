import math
from fractions import Fraction

import pytest

from gaugestack.angles.angle import Angle
from gaugestack.angles.callout import read_call_out, read_taper
from gaugestack.angles.flat import Flat, read_flat, setting_angle
from gaugestack.angles.taper import Use
from gaugestack.errors import TextError, UsageError
from gaugestack.lengths import Unit

LENGTH_HINT = "write a length like 0.6202in, 15.752mm, 12 µm, 40 µin, 5/8in or 1-3/8in"
RATES = [
    # text, rate, reading
    ("3in/ft", Fraction(1, 4), "3 in per foot on diameter"),
    (' 3"/ft ', Fraction(1, 4), "3 in per foot on diameter"),
    ("3 in per foot", Fraction(1, 4), "3 in per foot on diameter"),
    ("3in/12in", Fraction(1, 4), "3 in per foot on diameter"),
    ("3/4 in/ft", Fraction(1, 16), "0.75 in per foot on diameter"),
    ("1-1/4in per ft", Fraction(5, 48), "1.25 in per foot on diameter"),
    ("0.25in/in", Fraction(1, 4), "0.25 in per inch on diameter"),
    ("50mm/m", Fraction(1, 20), "50 mm per metre on diameter"),
    ("1mm/20mm", Fraction(1, 20), "1 mm per 20 mm on diameter"),
    ("1:4", Fraction(1, 4), "1:4 on diameter (ISO 3040)"),
    ("7:24", Fraction(7, 24), "7:24 on diameter (ISO 3040)"),
    ("1 : 19.922", Fraction(1000, 19922), "1:19.922 on diameter (ISO 3040)"),
    ("1.25in to 0.75in over 4in", Fraction(1, 8), "1.25 in to 0.75 in diameter over 4 in"),
    ("20mm TO 10mm OVER 50mm", Fraction(1, 5), "20 mm to 10 mm diameter over 50 mm"),
]


@pytest.mark.parametrize(("text", "rate", "reading"), RATES)
def test_a_rate_is_read_on_diameter_and_said_in_words(text, rate, reading):
    taper = read_taper(text, bare_unit=None)
    assert taper.rate == rate
    assert taper.reading == reading
    assert taper.call_out == text.strip()
    assert taper.question == ""


@pytest.mark.parametrize(
    "text",
    [
        "7.125deg/side",
        "7d7m30s/side",
        "7d7m30s per side",
        "7°7'30\" per side",
        "7.125 / side",
        "7:07:30/side",
        "14.25deg included",
        "14.25° incl.",
        "14.25 included angle",
        "included 14d15m",
    ],
)
def test_an_angle_with_its_kind_gives_an_exact_half_angle(text):
    taper = read_taper(text, bare_unit=None)
    assert taper.half == Angle.from_degrees(Fraction(57, 8))
    assert taper.rate is None
    assert taper.call_out == text


def test_an_angle_says_which_one_it_was():
    assert read_taper("7.125deg/side", bare_unit=None).reading == "7°07'30\" per side (half angle)"
    assert read_taper("14.25deg included", bare_unit=None).reading == "14°15'00\" included angle"


@pytest.mark.parametrize(
    ("unit", "words"),
    [
        (Unit.INCH, "1.25 in to 0.75 in diameter over 4 in (numbers without a unit read in inches)"),
        (
            Unit.MILLIMETRE,
            "1.25 mm to 0.75 mm diameter over 4 mm (numbers without a unit read in millimetres)",
        ),
    ],
)
def test_bare_diameters_take_the_unit_of_the_set_and_say_so(unit, words):
    taper = read_taper("1.25 to .75 over 4", bare_unit=unit)
    assert taper.rate == Fraction(1, 8)
    assert taper.reading == words


def test_bare_diameters_beside_another_unit_are_refused():
    assert read_taper("1.25 to 0.75 over 4in", bare_unit=Unit.INCH).rate == Fraction(1, 8)
    with pytest.raises(TextError) as refused:
        read_taper("1.25 to 0.75 over 100mm", bare_unit=Unit.INCH)
    assert refused.value.sentence == "numbers without a unit would be inches, beside another unit"
    assert refused.value.hint == "write the unit of all three"
    assert refused.value.text == "1.25 to 0.75 over 100mm"
    with pytest.raises(TextError, match="a unit is missing"):
        read_taper("1.25 to 0.75 over 4in", bare_unit=None)


def test_a_steep_rate_per_inch_is_asked_about():
    asked = read_taper(" 0.60235in/in ", bare_unit=None)
    assert asked.question == "0.60235in/in is 1:1.66: was that per foot?"
    assert (asked.call_out, asked.rate) == ("0.60235in/in", Fraction(60235, 100_000))
    assert asked.reading == "0.60235 in per inch on diameter"
    assert read_taper("1:1.5", bare_unit=None).question == (
        "1:1.5 is 18.4349° per side: is so steep a cone meant?"
    )
    assert read_taper("0.5in/in", bare_unit=None).question == ""
    assert read_taper("60deg/side", bare_unit=None).question == ""


AMBIGUOUS = [
    # text, sentence, every meaning with its angles
    (
        "15deg",
        "an angle alone may be the angle per side or the included angle",
        ["15deg/side -> half 15°, included 30°", "15deg included -> half 7.5°, included 15°"],
    ),
    (
        "7:07:30",
        "an angle alone may be the angle per side or the included angle",
        ["7:07:30/side -> half 7.125°, included 14.25°", "7:07:30 included -> half 3.5625°, included 7.125°"],
    ),
    (
        "120deg",
        "an angle alone may be the angle per side or the included angle",
        ["120deg included -> half 60°, included 120°"],
    ),
    (
        "90deg",
        "an angle alone may be the angle per side or the included angle",
        ["90deg included -> half 45°, included 90°"],
    ),
    (
        "90.5deg",
        "an angle alone may be the angle per side or the included angle",
        ["90.5deg included -> half 45.25°, included 90.5°"],
    ),
    (
        "0.25",
        "a number alone is no taper: per inch, per foot, or degrees?",
        [
            "0.25in/in -> half 7.125016°, included 14.250033°",
            "0.25in/ft -> half 0.596809°, included 1.193619°",
            "0.25deg/side -> half 0.25°, included 0.5°",
            "0.25deg included -> half 0.125°, included 0.25°",
        ],
    ),
    (
        "3in",
        "a length alone is no taper: per foot or per inch?",
        [
            "3in/ft -> half 7.125016°, included 14.250033°",
            "3in/in -> half 56.309932°, included 112.619865°",
        ],
    ),
    (
        "1/4in",
        "a length alone is no taper: per foot or per inch?",
        ["1/4in/ft -> half 0.596809°, included 1.193619°", "1/4in/in -> half 7.125016°, included 14.250033°"],
    ),
    (
        "0.05mm",
        "a length alone is no taper: per metre or per millimetre?",
        [
            "0.05mm/m -> half 0.001432°, included 0.002865°",
            "0.05mm/mm -> half 1.432096°, included 2.864192°",
        ],
    ),
    (
        "1 in 16",
        "'1 in 16' may be the taper on diameter or the slope of each side",
        [
            "1:16 on diameter -> half 1.789911°, included 3.579821°",
            "1:8 for that slope on each side -> half 3.576334°, included 7.152669°",
        ],
    ),
    (
        "1 in 20",
        "'1 in 20' may be the taper on diameter or the slope of each side",
        [
            "1:20 on diameter -> half 1.432096°, included 2.864192°",
            "1:10 for that slope on each side -> half 2.862405°, included 5.72481°",
        ],
    ),
    (
        "1/4",
        "'1/4' may be a ratio, a slope or inches per foot",
        [
            "1:4 on diameter -> half 7.125016°, included 14.250033°",
            "1:2 for that slope on each side -> half 14.036243°, included 28.072487°",
            "1/4in/ft -> half 0.596809°, included 1.193619°",
        ],
    ),
]


@pytest.mark.parametrize(("text", "sentence", "meanings"), AMBIGUOUS)
def test_a_text_with_two_meanings_is_refused_with_each_of_them(text, sentence, meanings):
    with pytest.raises(TextError) as refused:
        read_taper(text, bare_unit=Unit.INCH)
    assert refused.value.sentence == sentence
    assert refused.value.hint == "; ".join(meanings)


@pytest.mark.parametrize(
    "meaning",
    [m for _, _, meanings in AMBIGUOUS for m in meanings if "3in/in" not in m],
)
def test_each_meaning_of_a_refusal_can_be_written_and_has_its_angles(meaning):
    written, _, angles = meaning.partition(" -> half ")
    call_out = written.removesuffix(" on diameter").removesuffix(" for that slope on each side")
    half = angles.partition("°")[0]
    assert round(read_taper(call_out, bare_unit=None).half.degrees, 6) == float(half)


BAD = [
    # text, first and last wrong character, sentence
    ("", (0, 1), "empty: a taper is wanted"),
    ("1:" + "4" * 63, (64, 65), "too long to be a taper"),
    ("1,5:4", (1, 2), "a comma: write the decimal point as a point"),
    ("3e1in/ft", (1, 3), "powers of ten are not read: write the number out"),
    ("nan", (0, 3), "not a finite number"),
    ("inf in/ft", (0, 3), "not a finite number"),
    ("-3in/ft", (0, 7), "below zero: a taper has no sign"),
    ("0in/ft", (0, 6), "a rate of zero is no taper"),
    ("3in/0in", (4, 5), "zero: a length is above zero"),
    ("0:4", (0, 3), "a ratio with zero is no taper"),
    ("1:" + "4" * 21, (0, 23), "so slender a taper has no angle"),
    ("1:0", (0, 3), "a ratio with zero is no taper"),
    ("0", (0, 1), "zero is no taper"),
    ("0/4", (0, 3), "zero is no taper"),
    ("1/0", (0, 3), "zero is no taper"),
    ("0 in 16", (0, 7), "zero is no taper"),
    ("1 in 0", (0, 6), "zero is no taper"),
    ("X1:4", (0, 4), "'X1:4' is no published taper known here"),
    ("0deg", (0, 4), "an angle of zero is no taper"),
    ("0deg/side", (0, 9), "an angle of zero is no taper"),
    ("0deg included", (0, 13), "an angle of zero is no taper"),
    ("180deg included", (0, 15), "a cone's included angle is below 180°"),
    ("90deg/side", (0, 10), "a cone's included angle is below 180°"),
    ("180deg", (0, 6), "a cone's included angle is below 180°"),
    ("180.5deg", (0, 8), "a cone's included angle is below 180°"),
    ("7d75m/side", (2, 5), "60 minutes or more beside degrees"),
    ("0.75in to 1.25in over 4in", (0, 17), "the second diameter, 1.25 in, is larger than the first, 0.75 in"),
    ("1in to 1in over 4in", (0, 11), "both ends are 1 in: no taper"),
    ("1in to 0.5in over 0in", (17, 19), "zero: a length is above zero"),
    ("1in to 0.5bar over 4in", (10, 13), "'bar' is not a unit of length"),
    ("3/ft", (1, 2), "a unit is missing"),
    ("3in/12", (6, 7), "a unit is missing"),
    ("3in/bar", (4, 7), "'bar' is not a unit of length"),
    ("3in/2bar", (5, 8), "'bar' is not a unit of length"),
    ("  3in/ ", (6, 7), "empty: a length is wanted"),
    ("3deg/ft", (1, 4), "'deg' is not a unit of length"),
    ("0.125in/ft/side", (0, 15), "a rate per side: rates are read on diameter"),
    ("1:5%", (0, 4), "not a taper call-out"),
    ("1:4:", (0, 4), "not a taper call-out"),
    ("morse 9", (0, 7), "'morse 9': Morse has no such number"),
    ("7:07", (0, 4), "'7:07' may be degrees and minutes or a ratio"),
    ("1:8/side", (0, 8), "'1:8' may be degrees and minutes or a ratio"),
    ("1:4 included", (0, 12), "'1:4' may be degrees and minutes or a ratio"),
    ("1:0.4", (0, 5), "1:0.4 on diameter is 51.3402° per side, above 45°"),
    ("30in/ft", (0, 7), "1:0.4 on diameter is 51.3402° per side, above 45°"),
    (
        "3in/in",
        (0, 6),
        "1:0.333 on diameter is 56.3099° per side, above 45°: was per foot typed as per inch?",
    ),
]


@pytest.mark.parametrize(("text", "wrong", "sentence"), BAD)
def test_what_is_no_taper_is_refused_under_a_caret(text, wrong, sentence):
    with pytest.raises(TextError) as refused:
        read_taper(text, bare_unit=None)
    assert refused.value.sentence == sentence
    assert (refused.value.start, refused.value.end) == wrong
    assert refused.value.text == text
    assert refused.value.hint


TAPER_HINT = (
    "write a taper like 3in/ft, 0.25in/in, 1:4, 7.125deg/side, 14.25deg included or 1in to 0.75in over 4in"
)
FLAT_HINT = "write a flat like flat 1:12, flat 0.25in/ft, flat 5%, flat 5deg or flat 1.5in to 1in over 6in"


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        *dict.fromkeys(
            [
                "",
                "7" * 65,
                "1,5:4",
                "-3in/ft",
                "0in/ft",
                "0:4",
                "0",
                "0/4",
                "0deg",
                "200deg",
                "0deg/side",
                "90deg/side",
                "1:5%",
                "1in at 2in and 2in at 2in",
                "1in at 2in and 1in at 3in",
                "0.6/ft",
                "3/4ipf",
            ],
            TAPER_HINT,
        ).items(),
        ("0.75in to 1.25in over 4in", "write the large end first, like 1.25in to 0.75in over 4in"),
        (
            "0.125in/ft/side",
            "write slope before it, like slope 0.125in/ft per side, or twice it for the diameter",
        ),
        ("7:010", "write 7d010m/side or 7d010m included for an angle, 7:10 for a ratio"),
        (
            "1:8/side",
            (
                "write 1d8m for the angle, slope 1:8 per side for the slope of each side; "
                "a ratio is read on diameter, like 1:4, with nothing after it"
            ),
        ),
        ("1:0.4", "if it is meant, write 102.6804° included"),
        ("slope x per side", "write a slope like 1:20 or 0.25in/ft"),
        ("slope 7:010 per side", "write 7d010m for the angle, 7:10 for the slope"),
        ("slope 7:00 per side", "write 7d00m for the angle, 7:0 for the slope"),
        ("slope 1:20", "write slope 1:20 per side for a cone, flat 1:20 for a wedge"),
        ("1:20 SLOPE", "write slope 1:20 per side for a cone, flat 1:20 for a wedge"),
        # 4.763642 degrees: atan(1/12), computed
        ("flat 1:12", "its one angle is 4°45'49\" (4.763642°): set it as an angle"),
        ("flat", FLAT_HINT),
    ],
)
def test_a_refusal_says_what_to_write_instead(text, hint):
    with pytest.raises(TextError) as refused:
        read_taper(text, bare_unit=None)
    assert refused.value.hint == hint


def test_a_rate_up_to_forty_five_degrees_a_side_is_taken():
    assert read_taper("2in/in", bare_unit=None).half.degrees == pytest.approx(45)
    with pytest.raises(TextError) as refused:
        read_taper("2.1in/in", bare_unit=None)
    assert refused.value.hint == "per foot it is 5.0006° per side; if it is meant, write 92.7944° included"


def test_minutes_with_a_leading_zero_are_an_angle_where_its_kind_stands():
    assert read_taper("7:07/side", bare_unit=None).half.arcseconds == 25620


PERCENT_AND_SLOPES = [
    ("5% on diameter", Fraction(1, 20), "5 % on diameter"),
    ("12.5 percent on diameter", Fraction(1, 8), "12.5 % on diameter"),
    ("5%/side", Fraction(1, 10), "5 % slope of each side, twice that on diameter"),
    ("slope 5% per side", Fraction(1, 10), "5 % slope of each side, twice that on diameter"),
    ("slope 1:20 per side", Fraction(1, 10), "1:20 slope of each side, twice that on diameter"),
    ("slope 0.25in/1ft per side", Fraction(1, 24), "0.25in/1ft slope of each side, twice that on diameter"),
    ("1:20 slope per side", Fraction(1, 10), "1:20 slope of each side, twice that on diameter"),
    ("slope 1:20/side", Fraction(1, 10), "1:20 slope of each side, twice that on diameter"),
    ("slope 0.125in/ft each side", Fraction(1, 48), "0.125in/ft slope of each side, twice that on diameter"),
    ("1.25in at 0in and 0.75in at 4in", Fraction(1, 8), "1.25 in diameter at 0 in, 0.75 in diameter at 4 in"),
    ("20mm at 60mm and 30mm at 10mm", Fraction(1, 5), "20 mm diameter at 60 mm, 30 mm diameter at 10 mm"),
]


@pytest.mark.parametrize(("text", "rate", "reading"), PERCENT_AND_SLOPES)
def test_percent_slopes_and_gauge_lines_are_read_with_their_kind(text, rate, reading):
    taper = read_taper(text, bare_unit=None)
    assert taper.rate == rate
    assert taper.reading == reading


def test_a_percent_alone_is_refused_with_both_meanings():
    with pytest.raises(TextError) as refused:
        read_taper("5%", bare_unit=Unit.INCH)
    assert refused.value.sentence == "'5%' may be the taper on diameter or the slope of each side"
    assert refused.value.hint == (
        "5% on diameter -> half 1.432096°, included 2.864192°; 5%/side -> half 2.862405°, included 5.72481°"
    )


@pytest.mark.parametrize(
    ("text", "wrong", "sentence"),
    [
        ("0% on diameter", (0, 14), "zero is no taper"),
        ("slope 0:4 per side", (0, 18), "zero is no taper"),
        ("slope 1:0 per side", (0, 18), "zero is no taper"),
        ("slope 1bar/ft per side", (7, 10), "'bar' is not a unit of length"),
        ("slope 1:20", (0, 10), "a slope alone: of each side of a cone, or of a flat wedge?"),
        ("slope x per side", (6, 7), "'x' is not a slope"),
        ("slope 7:07 per side", (0, 19), "'7:07' may be degrees and minutes or a slope"),
        ("slope 1in/bar per side", (10, 13), "'bar' is not a unit of length"),
        ("1in at 2in and 2in at 2in", (0, 25), "both diameters stand at 2 in: no length between them"),
        ("1in at 2in and 1in at 3in", (0, 25), "both diameters are 1 in: no taper"),
        ("1 at 2in and 2in at 3in", (1, 2), "a unit is missing"),
        ("250% on diameter", (0, 16), "1:0.4 on diameter is 51.3402° per side, above 45°"),
        ("flat 1:12", (0, 9), "a flat wedge is no cone: it has no half and no included angle"),
    ],
)
def test_what_is_no_slope_is_refused_under_a_caret(text, wrong, sentence):
    with pytest.raises(TextError) as refused:
        read_taper(text, bare_unit=None)
    assert refused.value.sentence == sentence
    assert (refused.value.start, refused.value.end) == wrong
    assert refused.value.text == text


def test_a_slope_of_each_side_has_a_form_that_is_no_angle():
    with pytest.raises(TextError) as refused:
        read_taper("1:20/side", bare_unit=None)
    assert "slope 1:20 per side for the slope of each side" in refused.value.hint
    assert read_taper("slope 1:20 per side", bare_unit=None).half.degrees == pytest.approx(2.862405)


@pytest.mark.parametrize(
    ("text", "slope", "degrees"),
    [
        ("flat 1:12", Fraction(1, 12), 4.763642),
        ("wedge 0.25in/ft", Fraction(1, 48), 1.193489),
        ("flat 5%", Fraction(1, 20), 2.862405),
        ("flat 1.5in to 1in over 6in", Fraction(1, 12), 4.763642),
        ("flat 5deg", None, 5.0),
        ("flat 7:07:30", None, 7.125),
    ],
)
def test_a_flat_is_read_with_its_whole_angle(text, slope, degrees):
    flat = read_call_out(text, bare_unit=None)
    assert isinstance(flat, Flat)
    assert flat.slope == slope
    assert round(flat.angle.degrees, 6) == degrees
    assert float(flat.exact_slope) == pytest.approx(math.tan(math.radians(degrees)), abs=1e-7)
    assert slope is None or flat.exact_slope == slope


@pytest.mark.parametrize(
    ("text", "wrong", "sentence", "hint"),
    [
        (" flat ", (1, 5), "a flat of what slope or angle?", FLAT_HINT),
        ("flat" + " " * 61, (64, 65), "too long to be a flat taper", FLAT_HINT),
        ("flat 5", (0, 6), "a number alone: a slope or degrees?", FLAT_HINT),
        ("flat 0deg", (0, 9), "a flat's angle is above 0 and below 90°", FLAT_HINT),
        ("flat 90deg", (0, 10), "a flat's angle is above 0 and below 90°", FLAT_HINT),
        ("flat 1in to 2in over 3in", (0, 24), "the first thickness is not the larger one", FLAT_HINT),
        ("flat 2in to 2in over 3in", (0, 24), "the first thickness is not the larger one", FLAT_HINT),
        ("flat 2in to 1bar over 3in", (13, 16), "'bar' is not a unit of length", LENGTH_HINT),
        (
            "flat 7:07",
            (0, 9),
            "'7:07' may be degrees and minutes or a slope",
            "write 7d07m for the angle, 7:7 for the slope",
        ),
        ("flat 0%", (0, 7), "zero is no taper", TAPER_HINT),
        ("flat 1x/ft", (6, 7), "'x' is not a unit of length", LENGTH_HINT),
        ("flat x", (5, 6), "no number here", "write an angle like 7d7m30s, 7:07:30, 7.125deg or 0.1rad"),
    ],
)
def test_what_is_no_flat_is_refused(text, wrong, sentence, hint):
    with pytest.raises(TextError) as refused:
        read_call_out(text, bare_unit=None)
    assert refused.value.sentence == sentence
    assert (refused.value.start, refused.value.end) == wrong
    assert refused.value.text == text
    assert refused.value.hint == hint


def test_a_text_that_does_not_say_flat_is_no_flat():
    with pytest.raises(TextError) as refused:
        read_flat("1:12", bare_unit=None)
    assert refused.value.sentence == "a flat begins with the word flat or wedge"
    assert (refused.value.text, refused.value.hint) == ("1:12", FLAT_HINT)


@pytest.mark.parametrize(
    ("text", "call_out", "reading"),
    [
        (" flat 1:12 ", "flat 1:12", "flat, slope 1:12"),
        (" wedge 0.25in per ft ", "wedge 0.25in per ft", "flat, slope 0.25in per ft"),
        (" flat 5 % ", "flat 5 %", "flat, slope 5 %"),
        (
            " flat 1.5in to 1in over 6in ",
            "flat 1.5in to 1in over 6in",
            "flat, 1.5 in to 1 in thick over 6 in",
        ),
        (" flat 7:07:30 ", "flat 7:07:30", "flat, 7°07'30\""),
    ],
)
def test_a_flat_says_in_words_what_was_read(text, call_out, reading):
    flat = read_call_out(text, bare_unit=None)
    assert (flat.call_out, flat.reading) == (call_out, reading)


def test_a_flat_with_bare_thicknesses_is_no_cone_either():
    with pytest.raises(TextError, match="a flat wedge is no cone"):
        read_taper("flat 1.5 to 1 over 6", bare_unit=Unit.INCH)


def test_bare_thicknesses_and_bare_diameters_take_the_unit_of_the_set():
    flat = read_call_out("flat 1.5 to 1 over 6", bare_unit=Unit.INCH)
    assert (flat.slope, flat.reading) == (Fraction(1, 12), "flat, 1.5 in to 1 in thick over 6 in")
    assert read_call_out("1.25 to 0.75 over 4", bare_unit=Unit.MILLIMETRE).rate == Fraction(1, 8)
    stations = read_call_out("1.25 at 0 and 0.75 at 4", bare_unit=Unit.MILLIMETRE)
    assert stations.reading == "1.25 mm diameter at 0 mm, 0.75 mm diameter at 4 mm"
    with pytest.raises(TextError, match="numbers without a unit would be millimetres, beside another unit"):
        read_call_out("flat 1.5 to 1 over 6in", bare_unit=Unit.MILLIMETRE)
    with pytest.raises(TextError, match="numbers without a unit would be millimetres, beside another unit"):
        read_call_out("1.25 at 0in and 0.75 at 4", bare_unit=Unit.MILLIMETRE)


def test_a_flat_takes_no_use_and_a_cone_needs_one():
    flat = read_call_out("flat 1:12", bare_unit=None)
    cone = read_call_out("1:12", bare_unit=None)
    assert setting_angle(flat, None) == flat.angle
    assert setting_angle(cone, Use.COMPOUND) == cone.half
    assert setting_angle(cone, Use.INSPECTION) == cone.included
    with pytest.raises(UsageError) as refused:
        setting_angle(flat, Use.COMPOUND)
    assert str(refused.value) == (
        "use: a flat wedge has no half and no included angle: compound asks for one of them\n"
        "  its one angle is 4.763642°"
    )
    with pytest.raises(UsageError) as refused:
        setting_angle(cone, None)
    assert str(refused.value) == (
        "use: the half or the included angle of the cone?\n  compound or inspection"
    )


def test_a_wedge_and_a_cone_of_one_ratio_differ():
    # ISO 2538 slope against ISO 3040 rate: 1:12 is 30 seconds apart (computed)
    wedge = read_call_out("flat 1:12", bare_unit=None).angle
    cone = read_call_out("1:12", bare_unit=None).included
    assert round(float(cone - wedge), 1) == 29.7


def test_a_flat_so_slender_that_no_angle_is_left_is_refused():
    with pytest.raises(TextError, match="a flat's angle is above 0 and below 90"):
        read_flat("flat 1:" + "4" * 21, bare_unit=None)
