"""The bundled fonts, the same on screen and on paper."""

from __future__ import annotations

from app.theme.type import family


def load_fonts() -> str:
    """Register the bundled fonts with Qt, once; returns their family. Needs a QGuiApplication."""
    return family()
