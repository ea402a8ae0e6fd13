from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from core.drawing.measure import clean, shorten, text_width
from core.drawing.metrics import CAP_HEIGHT, REGULAR, SEMIBOLD

FONTS = Path(__file__).parents[2] / "resources" / "fonts"


@pytest.mark.parametrize(("face", "table"), [("Regular", REGULAR), ("Semibold", SEMIBOLD)])
def test_widths_are_those_of_the_bundled_font(face: str, table: tuple[tuple[int, str], ...]) -> None:
    """The font file's own hmtx table."""
    font = TTFont(FONTS / f"SourceSansPro-{face}.ttf")
    names, metrics = font.getBestCmap(), font["hmtx"]
    assert font["head"].unitsPerEm == 1000
    assert font["OS/2"].sCapHeight == CAP_HEIGHT
    wrong = [c for width, chars in table for c in chars if metrics[names[ord(c)]][0] != width]
    assert wrong == []


@pytest.mark.parametrize("strong", [False, True])
def test_figures_are_tabular(strong: bool) -> None:
    assert len({text_width(figure, 10.0, strong) for figure in "0123456789"}) == 1


def test_a_long_text_is_shortened_to_its_room() -> None:
    short = shorten("a shelf with a very long name", 10.0, 60.0)
    assert short.endswith("…")
    assert text_width(short, 10.0) <= 60.0
    assert shorten("ledge", 10.0, 60.0) == "ledge"


def test_names_that_files_cannot_hold_are_made_harmless() -> None:
    assert clean("a\x00b\nc\ud800") == "a?b c?"
    assert len(clean("x" * 10_000_000)) < 300
