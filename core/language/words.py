"""Looking texts up, and filling their holes the way the language writes numbers."""

from __future__ import annotations

from functools import cache
from string import Formatter
from typing import Final

from core import LANGUAGE, LANGUAGES
from core.language.read import asked, catalogue

CODE: Final[str] = asked(LANGUAGE, tuple(LANGUAGES))  # of this process
POINT: Final[str] = "." if CODE == "en" else ","  # between whole and decimals

NAMES: Final = frozenset(  # of holes: what people have named
    (
        *("id", "id2", "name", "name2", "clean", "stock", "old", "quoted", "file", "shelf", "sheet", "about"),
        *("called", "self_", "key", "was", "upper", "lower"),
    )
)
_TEXTS: Final[dict[str, str]] = catalogue(CODE)
_SWAPPED: Final = str.maketrans(".,", ",.")


def tr(text: str, /, **values: object) -> str:
    """A text in the language of this process, its holes `{name}` or `{name:spec}` filled with the values.

    A text the catalogue lacks stays as it is. A value that is itself a text of the catalogue, such as the name of a
    side, is looked up too, but for what people have named; numbers get the language's decimal mark.
    """
    found = _TEXTS.get(text, text) if _TEXTS else text
    if not values:
        return found
    return "".join(_filled(found, values)) if _TEXTS else found.format(**values)


def decimal(text: str) -> str:
    """A number written with a point, as the language writes it."""
    return text if POINT == "." else text.translate(_SWAPPED)


def short(word: str) -> str:
    """A word where there is little room: the catalogue may have `word (short)` beside it."""
    return _TEXTS.get(f"{word} (short)") or tr(word)


def within(heading: str) -> str:
    """A heading as it stands within a sentence: English ones begin small there."""
    return heading[:1].lower() + heading[1:] if CODE == "en" else heading


def _filled(text: str, values: dict[str, object]) -> list[str]:
    out = []
    for literal, name, spec, conversion in _parts(text):
        out.append(literal)
        if name is not None:
            value = values[name]
            if isinstance(value, str) and name not in NAMES:
                value = _TEXTS.get(value, value)
            shown = format(repr(value) if conversion == "r" else value, spec or "")
            out.append(decimal(shown) if isinstance(value, float) else shown)
    return out


@cache
def _parts(text: str) -> tuple[tuple[str, str | None, str | None, str | None], ...]:
    return tuple(Formatter().parse(text))
