"""The window: `run` opens it. Nothing of Qt is loaded before."""

from __future__ import annotations

import os


def run(path: str | os.PathLike[str] | None = None) -> int:
    """Open the window on a project file, or on the first demo; returns the exit code when it is closed."""
    from app.window.language import choose

    choose()
    from app.window.start import open_window

    return open_window(path)
