"""The bottom line of the window."""

from app.bottomline.line import Answer, BottomLine

__all__ = ["Answer", "BottomLine"]
