"""Nothing is told by colour alone: what eyes that lack a kind of cone cannot tell apart has a shape, or words.

The model is in `tests.window.colour_vision`, with its source.
"""

from __future__ import annotations

from itertools import combinations
from typing import Final

import numpy as np
import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from app.theme.marks import WORDS, Tone, paint_mark
from app.theme.palette import DARK, LIGHT, Palette
from core.drawing.style import COLOURS, STYLES
from tests.window.colour_vision import MATRICES, seen, seen_colour
from tests.window.test_theme import contrast

KINDS: Final = tuple(MATRICES)
BOTH: Final = pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda palette: palette.name)
EACH: Final = pytest.mark.parametrize("kind", KINDS)
GRAPHICS, TEXT = 3.0, 4.5  # WCAG 2.2, 1.4.11 and 1.4.3


@EACH
def test_the_model_leaves_greys_alone_and_takes_colours_away(kind: str) -> None:
    """What the paper's tables say of themselves: rows sum to one, so greys stay; colours move together."""
    assert np.allclose(np.array(MATRICES[kind]).sum(axis=1), 1.0, atol=2e-6)
    greys = np.linspace(0.0, 1.0, 5)[:, None].repeat(3, axis=1)
    assert np.allclose(seen(greys, kind), greys, atol=1e-5)
    assert abs(np.linalg.det(np.array(MATRICES[kind]))) < 0.25  # of the volume of all colours


@EACH
@BOTH
def test_words_in_a_colour_can_be_read(palette: Palette, kind: str) -> None:
    for words in ("ink", "soft", "chalk", "trouble", "doubt", "fine"):
        for ground in ("paper", "card"):
            seen_so = (seen_colour(getattr(palette, name), kind) for name in (words, ground))
            assert contrast(*seen_so) >= TEXT * 0.95, (words, ground)
    assert contrast(seen_colour(palette.on_chalk, kind), seen_colour(palette.chalk, kind)) >= TEXT * 0.95


@EACH
@BOTH
def test_what_is_selected_stands_out_in_lightness(palette: Palette, kind: str) -> None:
    """Chalk from pencil on the paper; on wood chalk and red from the casing of paper round their lines."""
    pairs = (
        (palette.chalk, palette.ink, 1.5),
        (palette.wood_chalk, LIGHT.paper, GRAPHICS),
        (COLOURS[palette.name]["wood_trouble"], LIGHT.paper, GRAPHICS),  # type: ignore[index]  # a theme's name
        (palette.chalk, palette.paper, GRAPHICS),
        (palette.trouble, palette.paper, GRAPHICS),
    )
    for one, other, least in pairs:
        assert contrast(seen_colour(one, kind), seen_colour(other, kind)) >= least, (one, other)


TONES: Final[tuple[Tone, ...]] = ("error", "warning", "note", "fine", "question")


def mark(tone: Tone) -> np.ndarray:
    """A mark in black, whatever its tone: its shape alone."""
    image = QImage(44, 44, QImage.Format.Format_Grayscale8)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    paint_mark(painter, QRectF(0.0, 0.0, 44.0, 44.0), tone, QColor("black"))
    painter.end()
    return np.array([[image.pixelColor(x, y).lightness() for x in range(44)] for y in range(44)])


def test_trouble_doubt_a_note_and_all_well_have_shapes_of_their_own(qtbot: object) -> None:
    shapes = {tone: mark(tone) < 128 for tone in TONES}
    for one, other in combinations(TONES, 2):
        either = (shapes[one] | shapes[other]).sum()
        differ = (shapes[one] ^ shapes[other]).sum()
        assert differ > 0.3 * either, (one, other)
    assert len({WORDS[tone] for tone in TONES}) == len(TONES)


def test_layers_that_mean_different_things_differ_in_more_than_colour() -> None:
    """Waste, kept offcut, frame part and area to keep clear: each has a hatch, a dash or a pen of its own."""

    def look(layer: str) -> tuple[object, ...]:
        style = STYLES[layer]  # type: ignore[index]  # names of layers
        return (style.hatch and (style.hatch.angles, style.hatch.spacing, style.hatch.pair), style.dash, style.width)

    for one, other in combinations(("waste", "offcut", "frame", "clear", "panel"), 2):
        assert look(one) != look(other), (one, other)
