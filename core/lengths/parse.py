"""Reading a length a maker typed.

    length = [sign] term { " + " term | " - " term }          blanks on both sides of + and - between terms
    term   = number [unit] | number feet [number [inches]]
    number = 10 | 10.1875 | .5 | 25,9 | 3/16 | 10 3/16 | 10-3/16

Feet are ' or ft, inches " or in; mm, cm and m follow their number. Curly marks and primes, fractions such
as ½ and any kind of dash are read like their plain forms. A number without unit is in the unit shown,
except that one with a fraction is in inches: nobody measures sixteenths of a millimetre.

What has two readings is refused rather than guessed, since a wrong guess is a wrong cut:
`1,200` (one metre or one millimetre and a bit), `10 - 3/16` and `6' - 3"` (a join or a subtraction).
Exponents, products and brackets are not read.
"""

import re
import unicodedata
from fractions import Fraction
from typing import Final, NamedTuple

from core.language import POINT, tr
from core.lengths.unit import Unit

MAX_CHARS: Final = 64  # longer than any length on a bench; keeps hostile text cheap
MAX_MM: Final = 1_000_000  # 1 km: beyond it somebody leant on a key
_QUOTED_CHARS: Final = 40

_UNDERSTOOD: Final = tr("type a length like 10-3/16, 10.1875, 6' 3-1/2\", 258.8 mm or 25.9 cm")

_INCH: Final = Fraction(127, 5)
_FOOT: Final = 12 * _INCH
_MM_PER_UNIT: Final = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    '"': _INCH,
    "in": _INCH,
    "inch": _INCH,
    "inches": _INCH,
    "'": _FOOT,
    "ft": _FOOT,
    "foot": _FOOT,
    "feet": _FOOT,
}

_PLAIN: Final = str.maketrans(dict.fromkeys("′’‘ʹ´`", "'") | dict.fromkeys("″”“„ʺ", '"') | dict.fromkeys("⁄∕", "/"))
_DASHES: Final = re.compile("[\u2010-\u2015]")
# A true minus sign joined to the number before it says "subtract", where a hyphen joins: left to be refused.
_MINUS: Final = re.compile(r"(?<!\S)\u2212")
_VULGAR: Final = re.compile("([0-9]?)([¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])(?=([0-9]?))")

_NUMBER: Final = r"(?:[0-9]+[ -])?[0-9]+ ?/ ?[0-9]+|[0-9]+(?:\.[0-9]*)?|[0-9]*[.,][0-9]+"
_INCHES: Final = '"|inch(?:es)?|in'
_FEET: Final = "'|ft|foot|feet"
_SIMPLE_TERM: Final = re.compile(rf"({_NUMBER}) ?(mm|cm|m|{_INCHES}|{_FEET})?")
_FEET_AND_INCHES: Final = re.compile(rf"([0-9]+) ?(?:{_FEET})[ -]?({_NUMBER}) ?(?:{_INCHES})?")
_MIXED: Final = re.compile(r"(?:([0-9]+)[ -])?([0-9]+) ?/ ?([0-9]+)")
# Thousands are grouped by the mark that is not the decimal one; with the decimal mark the same text is plain.
_GROUP: Final = "," if POINT == "." else "."
_GROUPED: Final = re.compile(rf"[1-9][0-9]{{0,2}}{re.escape(_GROUP)}[0-9]{{3}}")
_SIGN: Final = re.compile(r"([+-]) ?(?![+-])")
_OPERATOR: Final = re.compile(r" ([+-]) ")
_DOTTED: Final = re.compile(r"(?<=in|ft)\.")


class LengthError(ValueError):
    """Text that is not a length. Its message is one sentence that quotes the text and says what is read."""


class _RefusedError(Exception):
    """Why the text is refused, without the text."""


class _Term(NamedTuple):
    mm: Fraction
    unit: str  # of its last number, as in _MM_PER_UNIT; "" for a number without one
    text: str


def parse_length(text: str, unit: Unit) -> float:
    """The length `text` names: the float nearest to its exact value. [mm]

    unit: what a number without unit is in; one with a fraction is in inches whatever is shown.
    Grammar and refusals: see the module. Negative lengths are read; -0 gives 0.
    Raises LengthError for anything else, over 64 characters, or beyond 1 km.
    """
    try:
        return float(_exact_mm(text, unit))
    except _RefusedError as refusal:
        raise LengthError(f"“{_quoted(text)}” {refusal}; {_UNDERSTOOD}.") from None


def _exact_mm(text: str, unit: Unit) -> Fraction:
    if len(text) > MAX_CHARS:
        raise _RefusedError(tr("is longer than {MAX_CHARS} characters", MAX_CHARS=MAX_CHARS))
    plain = _plain(text)
    if not plain:
        raise _RefusedError(tr("is empty"))
    sign = _SIGN.match(plain)
    first, *others = _OPERATOR.split(plain[sign.end() :] if sign else plain)
    term = _read_term(first, unit)
    total = -term.mm if sign and sign[1] == "-" else term.mm
    for operator, word in zip(others[::2], others[1::2], strict=True):
        before, term = term, _read_term(word, unit)
        _refuse_two_readings(before, operator, term, unit)
        total += term.mm if operator == "+" else -term.mm
    if abs(total) > MAX_MM:
        raise _RefusedError(tr("is more than 1 km"))
    return total


def _plain(text: str) -> str:
    """`text` in lower case with plain marks, dashes and fractions, and single blanks."""
    text = " ".join(text.split())
    text = _DASHES.sub("-", _MINUS.sub("-", text))
    text = _VULGAR.sub(_spell_fraction, text)
    return _DOTTED.sub("", text.translate(_PLAIN).replace("''", '"').lower())


def _spell_fraction(match: re.Match[str]) -> str:
    """'10½' as '10 1/2'; a digit that follows is kept apart, so that '½5' does not turn into 1/25."""
    before, sign, after = match.groups()
    return f"{before}{' ' if before else ''}{unicodedata.normalize('NFKC', sign)}{' ' if after else ''}"


def _read_term(text: str, unit: Unit) -> _Term:
    if match := _SIMPLE_TERM.fullmatch(text):
        number, mark = match[1], match[2] or ""
        implied = Unit.INCH if "/" in number else unit
        return _Term(_number(number) * _MM_PER_UNIT[mark or implied], mark, text)
    if match := _FEET_AND_INCHES.fullmatch(text):
        return _Term(_number(match[1]) * _FOOT + _number(match[2]) * _INCH, "in", text)
    raise _RefusedError(tr("is not a length"))


def _number(text: str) -> Fraction:
    if match := _MIXED.fullmatch(text):
        whole, top, bottom = (int(digits or 0) for digits in match.groups())
        if bottom == 0:
            raise _RefusedError(tr("divides by zero"))
        if match[1] and top >= bottom:
            raise _RefusedError(
                tr("has a whole number beside {top}/{bottom}, which is not less than 1", top=top, bottom=bottom)
            )
        return whole + Fraction(top, bottom)
    if _GROUPED.fullmatch(text):
        raise _RefusedError(
            tr(
                "can mean {replace} or {replace2}",
                replace=text.replace(_GROUP, ""),
                replace2=text.replace(_GROUP, POINT),
            )
        )
    return Fraction(text.replace(",", ".").rstrip("."))


def _refuse_two_readings(before: _Term, operator: str, after: _Term, unit: Unit) -> None:
    """Refuse `10 - 3/16` and `6' - 3"`, which others write for 10-3/16 and 6'3".

    With millimetres shown `10 + 3/16` has two readings as well: 10 mm, or 10 in as in `10 3/16`.
    """
    if after.unit and _MM_PER_UNIT[after.unit] != _INCH:
        return
    whole = not any(char in before.text for char in "/.,")
    joins_fraction = whole and before.text[-1].isdigit() and "/" in after.text and after.mm < _INCH
    joins_inches = whole and _MM_PER_UNIT.get(before.unit) == _FOOT and after.mm < _FOOT
    bare_mm = unit is Unit.MM and not before.unit
    if (operator == "-" and (joins_fraction or joins_inches)) or (bare_mm and joins_fraction):
        raise _RefusedError(tr("can be a sum or one number, so put a unit after each number of a sum"))


def _quoted(text: str) -> str:
    shown = text if len(text) <= _QUOTED_CHARS else text[:_QUOTED_CHARS] + "…"
    return "".join(char if char.isprintable() else "?" for char in shown)
