"""How much room a text takes, from the bundled fonts' own widths."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from core.drawing.metrics import CAP_HEIGHT, OTHER, REGULAR, SEMIBOLD

CAP: Final = CAP_HEIGHT / 1000.0  # height of a capital or a figure, as a share of the text size
LINE: Final = 1.15  # from one line of text to the next
MOST: Final = 200  # characters of a name that are ever written
INK: Final = 0.9  # what a line of text takes with its descenders


class _Widths(dict[str, int]):
    """The width of each character."""

    def __missing__(self, char: str) -> int:
        return OTHER


_WIDTHS: Final = {
    strong: _Widths((char, width) for width, chars in table for char in chars)
    for strong, table in ((False, REGULAR), (True, SEMIBOLD))
}


@lru_cache(maxsize=1 << 15)
def thousandths(text: str, strong: bool = False) -> int:
    """Width of a text in thousandths of its size; kerning is left out, which makes it a little too wide."""
    return sum(map(_WIDTHS[strong].__getitem__, text))


def em_width(text: str, strong: bool = False) -> float:
    """Width of a text as a multiple of its size."""
    return thousandths(text, strong) / 1000.0


def text_width(text: str, size: float, strong: bool = False) -> float:
    """Width of a text in the unit of `size`."""
    return thousandths(text, strong) / 1000.0 * size


def shorten(text: str, size: float, width: float, strong: bool = False) -> str:
    """`text`, or as much of its beginning as fits in `width` with an ellipsis after it."""
    if text_width(text, size, strong) <= width:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if text_width(text[:middle] + "…", size, strong) <= width:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + "…"


def clean(text: str, most: int = MOST) -> str:
    """One line that every file format can hold: control characters and broken surrogates become '?'.

    most: characters kept; a name may be as long as its file.
    """
    joined = " ".join(text[: 2 * most].split())
    if len(joined) > most:
        joined = joined[:most] + "…"
    if joined.isprintable():  # which no half of a surrogate pair is
        return joined
    return "".join(c if c.isprintable() and not "\ud800" <= c <= "\udfff" else "?" for c in joined)
