"""From the command line to the open window."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from PySide6.QtWidgets import QApplication

from app.safe.errors import catch
from app.safe.leaving import Signals
from app.theme.type import BODY, font
from app.window.language import translate_qt
from app.window.window import Window
from core import LANGUAGE
from core.language import CODE

DEMOS = Path(__file__).parents[2] / "demo_projects"
FIRST = DEMOS / ("reading-corner.grainfold" if CODE == "en" else "stove-alcove.grainfold")  # in the units used there


def open_window(path: str | os.PathLike[str] | None = None) -> int:
    """Open the window on a project file, or on the first demo; returns the exit code when it is closed."""
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        app = QApplication(sys.argv[:1])
    app.setApplicationName("Grainfold")
    app.setStyle("Fusion")
    translate_qt(app, CODE)
    app.setFont(font(BODY))
    window = Window()
    window.open_at_start(Path(path) if path is not None else None, first_demo())
    window.restoreGeometry(window.preferences.geometry)
    catch(window.errors.tell)
    Signals(window.leave_kept, window)
    app.commitDataRequest.connect(window.files.keeper.write_now)
    window.show()
    code = app.exec()
    if window.next_language:
        open_anew(window.store.path, window.next_language)
    return code


def open_anew(path: Path | None, language: str) -> None:
    """This process begins again, speaking another language; what was not saved is taken back in."""
    os.environ[LANGUAGE] = language
    os.execv(sys.executable, [sys.executable, "-m", "app", *([str(path)] if path is not None else [])])


def first_demo() -> Path | None:
    """The demo project a new user sees, if it is there."""
    return FIRST if FIRST.is_file() else min(DEMOS.glob("*.grainfold"), default=None)
