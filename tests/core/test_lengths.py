import math
import time
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.lengths import (
    Denominator,
    LengthError,
    Rounding,
    Unit,
    parse_length,
    show_angle,
    show_both,
    show_exact,
    show_feet,
    show_length,
    show_mass,
    show_thickness,
    snap_down,
    snap_up,
)
from tests.conftest import examples

INCH, MM = Unit.INCH, Unit.MM
FLOAT_TOL = 1e-9  # mm: float noise only

units = st.sampled_from(Unit)
fractions: st.SearchStrategy[Denominator] = st.sampled_from([16, 32, 64])
sizes = st.floats(-100_000, 100_000)
sixty_fourths = st.integers(-64 * 4000, 64 * 4000)


def inches(text: str) -> float:
    """Millimetres of a sum of inches written as Python fractions: '10 3/16'."""
    return float(sum(Fraction(word) for word in text.split()) * Fraction(254, 10))


# 1 in = 25.4 mm exactly: international yard and pound agreement, 1959 (1 yd = 0.9144 m, and 36 in to the
# yard). The millimetres are those of the usual conversion tables of fractions of an inch.
CONVERSION_TABLE = {
    "1/64": "0.396875",
    "1/32": "0.79375",
    "3/64": "1.190625",
    "1/16": "1.5875",
    "1/8": "3.175",
    "3/16": "4.7625",
    "1/4": "6.35",
    "5/16": "7.9375",
    "3/8": "9.525",
    "7/16": "11.1125",
    "1/2": "12.7",
    "9/16": "14.2875",
    "5/8": "15.875",
    "23/32": "18.25625",
    "3/4": "19.05",
    "7/8": "22.225",
    "63/64": "25.003125",
}


@pytest.mark.parametrize(("typed", "mm"), CONVERSION_TABLE.items())
def test_fractions_of_an_inch_are_those_of_the_tables(typed: str, mm: str) -> None:
    assert parse_length(typed, INCH) == float(mm)
    assert Decimal(mm) == Decimal("25.4") * Decimal(typed.split("/")[0]) / Decimal(typed.split("/")[1])
    assert show_length(float(mm), INCH, 64) == f'{typed}"'


def test_a_yard_is_the_agreed_length() -> None:
    """International yard and pound agreement, 1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg."""
    assert parse_length("3'", INCH) == 914.4
    assert show_mass(100 * 0.45359237, INCH) == "100 lb"


TEN_AND_THREE_SIXTEENTHS = [
    "10 3/16", '10-3/16"', "10-3/16", "10 3/16 in", '10.1875"', "10.1875 inches", "10-3/16 in.",
    " 10  3 / 16 ", "10–3/16", "10‑3/16″", "10 3⁄16”", "10\u00a03/16''", "0' 10-3/16", "+10 3/16 IN",
]  # fmt: skip

SEVENTY_FIVE_AND_A_HALF = [
    "6'3-1/2\"", "6' 3-1/2\"", "6'-3-1/2\"", "6 ft 3 1/2 in", "6ft3-1/2", "6’ 3½”", "6′3 ½″", "6' 3.5\"",
    "6' 3½''", "6 FT. 3-1/2 IN.", "6 feet 3 1/2 inches", "6' 3,5\"", '75.5"', '75½"', "6' + 3½\"", "75 1/2",
]  # fmt: skip


@pytest.mark.parametrize("typed", TEN_AND_THREE_SIXTEENTHS)
def test_ways_to_type_inches(typed: str) -> None:
    for unit in Unit:
        assert parse_length(typed, unit) == inches("10 3/16")


@pytest.mark.parametrize("typed", SEVENTY_FIVE_AND_A_HALF)
def test_ways_to_type_feet(typed: str) -> None:
    for unit in Unit:
        assert parse_length(typed, unit) == inches("75 1/2")


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("258.8mm", 258.8),
        ("258.8 MM", 258.8),
        ("25.88 cm", 258.8),
        ("25,88cm", 258.8),
        ("0.2588 m", 258.8),
        ("0,259 m", 259.0),
        ("1.2 m", 1200.0),
        ("10 1/2 mm", 10.5),
        ("6'", 1828.8),
        ("6.5 ft", 1981.2),
        ("1/2'", 152.4),
        ("½ in", 12.7),
        ("+10 in", 254.0),
        ("- 10 in", -254.0),
        ("−10-1/2 in", -266.7),
        ("-6' 3\"", -1905.0),
    ],
)
def test_units_and_signs(typed: str, mm: float) -> None:
    assert parse_length(typed, INCH) == parse_length(typed, MM) == mm


@pytest.mark.parametrize(("typed", "number"), [("10", 10), (".5", 0.5), ("10.", 10), (",5", 0.5), ("-2.25", -2.25)])
def test_a_bare_number_is_in_the_unit_shown(typed: str, number: float) -> None:
    assert parse_length(typed, MM) == number
    assert parse_length(typed, INCH) == inches(str(number))


def test_zero_has_no_sign() -> None:
    assert math.copysign(1, parse_length("-0", INCH)) == 1


@pytest.mark.parametrize(
    ("typed", "exact"),
    [
        ("10 3/16 + 1/4", "10 7/16"),
        ("96 - 2 1/4", "93 3/4"),
        ('96" - 3/4" - 3/4"', "94 1/2"),
        ('-10" + 3/4"', "-37/4"),
        ("10 + 3/16", "10 3/16"),
        ("6' 3-1/2\" - 1' 2\" + 1/2", "62"),
    ],
)
def test_sums(typed: str, exact: str) -> None:
    assert parse_length(typed, INCH) == inches(exact)


def test_a_sum_may_mix_units() -> None:
    assert parse_length('10" + 5 mm', MM) == 259.0
    assert parse_length("100 - 1.5", MM) == 98.5


@pytest.mark.parametrize(
    "typed", ["10 - 3/16", '10 - 3/16"', "6' - 3\"", "6' - 3", "5' 10 - 3/16", "96 - 10 - 3/16", "6' - 6 in"]
)
def test_a_sum_that_may_be_one_number_is_refused(typed: str) -> None:
    for unit in Unit:
        with pytest.raises(LengthError, match="a sum or one number"):
            parse_length(typed, unit)


def test_with_millimetres_shown_a_whole_plus_a_fraction_is_refused() -> None:
    with pytest.raises(LengthError, match="a sum or one number"):
        parse_length("10 + 3/16", MM)


HOSTILE = [
    "", " ", "\t\n", "nan", "NaN", "inf", "-inf", "infinity", "1e5", "1E400", "1e", "0x10", "1_000", "ten",
    "1/0", "10 1/0", "10-20", "10 20", "10-", "-", "+", "--5", "+-5", "- -5", "10 +", "+ 10 -", "10 + + 10",
    "10 + -3", "10*2", "2*(3)", "1/2/3", "3/", "/3", "10 19/16", "10 16/16", "2.5 1/2", "1/2.5", "1.2.3", ".",
    ",", ",.", "1,5.2", "1,200", "1,200 mm", "1,234,567", "10,", "'", '"', "mm", "6' 3 mm", "6.5' 3\"",
    "6'3'", "3\" 6'", "1 m 20 cm", "10 mm mm", "10 km", "10 inc", "10inx", "10−3/16", "10- 3/16", "10 -3/16",
    "10 3//16", "½5", "1½½", "1/½", ".½", "1.5½", "٣", "５", "३ mm", "³/₁₆", "²", "10\x003/16",
    "\ud800", "\u202e10", "💥",
    "9" * 40, "-" + "9" * 63, "9" * 10_000, "1/" + "9" * 10_000, "0." + "0" * 10_000 + "1", " " * 100_000,
    "1 - " * 16 + "x", "''''''''", "((((", "10 ft ft", "1000001 mm", "inch", "10 '' ''", "+" * 64, "1 " * 32,
]  # fmt: skip


@pytest.mark.parametrize("typed", HOSTILE, ids=lambda text: ascii(text[:20]))
def test_what_is_no_length_is_refused_in_one_sentence(typed: str) -> None:
    for unit in Unit:
        with pytest.raises(LengthError) as caught:
            parse_length(typed, unit)
        message = str(caught.value)
        assert message.isprintable()
        assert message.endswith("mm or 25.9 cm.")
        assert len(message) < 250
        if typed.isprintable():
            assert typed[:40] in message


def test_refusing_does_not_grow_with_the_text() -> None:
    def seconds(text: str) -> float:
        times = []
        for _ in range(200):
            start = time.perf_counter()
            with pytest.raises(LengthError):
                parse_length(text, INCH)
            times.append(time.perf_counter() - start)
        return min(times)

    assert seconds("7" * 1_000_000) < 10 * seconds("7" * 64 + "x")


@given(st.text(max_size=70) | st.text("0123456789 -+/.,'\"½−infmc", max_size=70), units)
@settings(max_examples=examples(100, 2000))
def test_any_text_is_a_length_or_refused(text: str, unit: Unit) -> None:
    try:
        mm = parse_length(text, unit)
    except LengthError:
        return
    assert abs(mm) <= 1_000_000
    assert parse_length(show_exact(mm, unit), unit) == mm or 0 < abs(mm) < 1e-9


@pytest.mark.parametrize(
    ("exact", "sixteenths", "thirty_seconds", "sixty_fourths"),
    [
        ("0", '0"', '0"', '0"'),
        ("10 3/16", '10-3/16"', '10-3/16"', '10-3/16"'),
        ("3/4", '3/4"', '3/4"', '3/4"'),
        ("52 15/32", '52-1/2" −', '52-15/32"', '52-15/32"'),
        ("10 1/64", '10" +', '10" +', '10-1/64"'),
        ("10 3/64", '10-1/16" −', '10-1/16" −', '10-3/64"'),
        ("10 5/64", '10-1/16" +', '10-1/16" +', '10-5/64"'),
        ("31/32 1/64", '1" −', '1" −', '63/64"'),
        ("10 1/256", '10"', '10"', '10" +'),
        ("-1/64", '0" −', '0" −', '-1/64"'),
        ("-41/64 -10", '-10-5/8" −', '-10-5/8" −', '-10-41/64"'),
        ("-1/500", '0"', '0"', '0"'),
    ],
)
def test_inches_shown(exact: str, sixteenths: str, thirty_seconds: str, sixty_fourths: str) -> None:
    mm = inches(exact)
    shown = [show_length(mm, INCH, 16), show_length(mm, INCH, 32), show_length(mm, INCH, 64)]
    assert shown == [sixteenths, thirty_seconds, sixty_fourths]


@pytest.mark.parametrize(
    ("mm", "shown"),
    [
        (258.8, "258.8 mm"),
        (258.7625, "258.8 mm"),
        (1200.0, "1200 mm"),
        (1199.96, "1200 mm"),
        (0.0, "0 mm"),
        (-0.0, "0 mm"),
        (-0.04, "0 mm"),
        (-0.05, "-0.1 mm"),
        (-12.34, "-12.3 mm"),
        (0.05, "0.1 mm"),
    ],
)
def test_millimetres_shown(mm: float, shown: str) -> None:
    assert show_length(mm, MM) == shown


def test_marks_and_unit_can_be_left_out() -> None:
    mm = inches("10 1/64")
    assert show_length(mm, INCH, marks=False) == '10"'
    assert show_length(mm, INCH, unit_mark=False) == "10 +"
    assert show_length(mm, INCH, marks=False, unit_mark=False) == "10"
    assert show_length(mm, MM, unit_mark=False) == "254.4"


def test_limits_are_shown_low_and_needs_high() -> None:
    mm = inches("10 1/64")
    assert show_length(mm, INCH, rounding="down") == '10"'
    assert show_length(mm, INCH, rounding="up") == '10-1/32"'
    assert show_length(-mm, INCH, rounding="down") == '-10-1/32"'
    assert show_length(-0.1, INCH, rounding="up") == '0"'
    assert show_length(223.88, MM, rounding="down") == "223.8 mm"
    assert show_length(223.81, MM, rounding="up") == "223.9 mm"


def test_the_other_ways_to_show() -> None:
    assert show_both(inches("10 3/16")) == '10-3/16" (258.8 mm)'
    assert show_both(inches("10 3/16"), MM) == '258.8 mm (10-3/16")'
    assert show_feet(inches("75 1/2")) == "6' 3-1/2\""
    assert show_feet(inches("72")) == "6'"
    assert show_feet(inches("72") - 0.01) == "6'"
    assert show_feet(inches("7/2")) == '3-1/2"'
    assert show_feet(0) == '0"'
    assert show_feet(-inches("75 33/64")) == "-6' 3-1/2\" −"
    assert show_feet(inches("71 63/64"), rounding="down") == "5' 11-31/32\""
    assert show_thickness(inches("703/1000"), INCH) == '0.703"'
    assert show_thickness(19.05, INCH) == '0.750"'
    assert [show_thickness(mm, MM) for mm in (18.2, 18.23, 18.0)] == ["18.2 mm", "18.25 mm", "18 mm"]
    assert [show_angle(deg) for deg in (45.5, 45, 35.264, -0.01, -0.5)] == [
        "45.5°",
        "45°",
        "35.3°",
        "0°",
        "-0.5°",
    ]
    assert show_angle(35.264, 2) == "35.26°"
    assert show_mass(5.44, MM) == "5.4 kg"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, 1e300])
def test_what_is_not_finite_is_not_shown(value: float) -> None:
    for unit in Unit:
        for show in (show_length, show_thickness, show_mass):
            with pytest.raises(ValueError, match="cannot be shown"):
                show(value, unit)
    with pytest.raises(ValueError, match="cannot be shown"):
        show_angle(value)


@given(sixty_fourths, units)
@settings(max_examples=examples(100, 2000))
def test_sixty_fourths_come_back_exactly(count: int, unit: Unit) -> None:
    mm = float(Fraction(count, 64) * Fraction(254, 10))
    assert parse_length(show_length(mm, INCH, 64), unit) == mm
    assert parse_length(show_feet(mm, 64), unit) == mm
    assert parse_length(show_exact(mm, unit), unit) == mm


@given(st.integers(-1_000_000, 1_000_000), units)
@settings(max_examples=examples(100, 2000))
def test_tenths_of_a_millimetre_come_back_exactly(tenths: int, unit: Unit) -> None:
    mm = tenths / 10
    assert parse_length(show_length(mm, MM), unit) == mm
    assert parse_length(show_length(mm, MM, unit_mark=False), MM) == mm
    assert parse_length(show_exact(mm, unit), unit) == mm


@pytest.mark.parametrize(
    ("typed", "in_inches", "in_mm"),
    [
        ('10-3/16"', '10-3/16"', '10-3/16"'),
        ("258.8 mm", "258.8 mm", "258.8 mm"),
        ("2.2 mm", "2.2 mm", "2.2 mm"),
        ('0.087"', '0.087"', '0.087"'),
        ('3/4"', '3/4"', "19.05 mm"),
        ('52-15/32"', '52-15/32"', '52-15/32"'),
        ("1200 mm", "1200 mm", "1200 mm"),
    ],
)
def test_what_was_typed_comes_back(typed: str, in_inches: str, in_mm: str) -> None:
    mm = parse_length(typed, INCH)
    assert (show_exact(mm, INCH), show_exact(mm, MM)) == (in_inches, in_mm)


@given(sizes.filter(lambda mm: mm == 0 or abs(mm) > FLOAT_TOL), st.lists(units, max_size=8))
@settings(max_examples=examples(100, 2000))
def test_switching_units_never_drifts(mm: float, switches: list[Unit]) -> None:
    """Even when each switch reads back the field it filled."""
    stored = mm
    for unit in switches:
        stored = parse_length(show_exact(stored, unit), unit)
    assert stored == mm


@given(sizes, fractions)
@settings(max_examples=examples(100, 2000))
def test_shown_inches_are_the_nearest_and_marks_say_the_truth(mm: float, fraction: Denominator) -> None:
    shown = show_length(mm, INCH, fraction)
    printed = parse_length(shown.rstrip(" +−"), MM)
    assert printed == parse_length(show_length(mm, INCH, fraction, marks=False), MM)
    step = 25.4 / fraction
    rest, noise = mm - printed, step / 1000
    assert abs(rest) <= step / 2 + noise
    assert "-0" not in shown
    if shown[-1] in "+−":
        assert rest * (1 if shown[-1] == "+" else -1) >= step / 4 - noise
    else:
        assert abs(rest) <= step / 4 + noise


@given(sixty_fourths, st.floats(-1e-10, 1e-10), fractions)
@settings(max_examples=examples(100, 2000))
def test_float_noise_changes_nothing_that_is_shown(count: int, noise: float, fraction: Denominator) -> None:
    mm = count * 127 / 320
    roundings: list[Rounding] = ["nearest", "down", "up"]
    for rounding in roundings:
        plain = show_length(mm, INCH, fraction, rounding=rounding)
        assert show_length(mm + noise, INCH, fraction, rounding=rounding) == plain


@given(sizes, units, fractions)
@settings(max_examples=examples(100, 2000))
def test_snapped_lengths_print_exactly_and_lie_on_the_right_side(mm: float, unit: Unit, fraction: Denominator) -> None:
    step = 0.1 if unit is MM else 25.4 / fraction
    low, high = snap_down(mm, unit, fraction), snap_up(mm, unit, fraction)
    assert mm - step < low <= mm + FLOAT_TOL
    assert mm - FLOAT_TOL <= high < mm + step
    assert show_length(mm, unit, fraction, rounding="down") == show_length(low, unit, fraction)
    assert show_length(mm, unit, fraction, rounding="up") == show_length(high, unit, fraction)
    for snapped in (low, high):
        assert parse_length(show_length(snapped, unit, fraction), unit) == snapped
        assert snap_down(snapped, unit, fraction) == snap_up(snapped, unit, fraction) == snapped
