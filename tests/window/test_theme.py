"""Colours: what the table promises, computed."""

from __future__ import annotations

from dataclasses import fields

import pytest
from PySide6.QtGui import QColor

from app.theme.palette import DARK, LIGHT, Palette
from app.theme.qss import style_sheet
from app.window.window import Window


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, contrast ratio from relative luminance."""

    def luminance(colour: str) -> float:
        parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda p: p.name)
def test_words_can_be_read_on_every_ground(palette: Palette) -> None:
    """WCAG 2.2, 1.4.3: 4.5:1 for text."""
    grounds = ("paper", "card", "field", "hover", "trouble_wash", "doubt_wash", "chalk_wash")
    for ground in grounds:
        assert contrast(palette.ink, getattr(palette, ground)) >= 7.0, ground
    for words in ("soft", "chalk", "trouble", "doubt", "fine"):
        for ground in ("paper", "card"):
            assert contrast(getattr(palette, words), getattr(palette, ground)) >= 4.5, (words, ground)
    assert contrast(palette.chalk, palette.chalk_wash) >= 4.5
    assert contrast(palette.trouble, palette.trouble_wash) >= 4.5
    assert contrast(palette.on_chalk, palette.chalk) >= 4.5
    assert contrast(palette.wood_ink, palette.wood) >= 7.0


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda p: p.name)
def test_edges_of_fields_can_be_seen(palette: Palette) -> None:
    """WCAG 2.2, 1.4.11: 3:1 for the parts that show where a control is."""
    for ground in ("paper", "card", "field"):
        assert contrast(palette.soft, getattr(palette, ground)) >= 3.0
        assert contrast(palette.chalk, getattr(palette, ground)) >= 3.0


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda p: p.name)
def test_the_style_sheet_uses_only_the_palette(palette: Palette) -> None:
    import re

    known = {getattr(palette, field.name).lower() for field in fields(palette)}
    used = {colour.lower() for colour in re.findall(r"#[0-9A-Fa-f]{6}\b", style_sheet(palette))}
    assert "$" not in style_sheet(palette)
    assert len(used - known) <= 1  # the deeper chalk under the pointer, made from chalk


def test_switching_the_theme_recolours_the_window(window: Window) -> None:
    window.actions_["theme_light"].trigger()
    light = QColor(window.grab().toImage().pixel(window.width() // 2, 10))
    window.actions_["theme_dark"].trigger()
    dark = QColor(window.grab().toImage().pixel(window.width() // 2, 10))
    assert light.lightness() > 200
    assert dark.lightness() < 80
    assert window.preferences.theme == "dark"
