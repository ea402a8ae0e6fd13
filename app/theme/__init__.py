"""How the window looks: colours, type, the style sheet made from them, and the theme that follows the system."""

from app.theme.palette import DARK, LIGHT, Palette
from app.theme.theme import Theme

__all__ = ["DARK", "LIGHT", "Palette", "Theme"]
