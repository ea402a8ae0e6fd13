"""Which language a window speaks: the one it was told, else the one chosen last, else the system's.

Loaded before anything that has texts.
"""

from __future__ import annotations

import os

from PySide6.QtCore import QLibraryInfo, QLocale, QTranslator
from PySide6.QtWidgets import QApplication

from app.window.preferences import Preferences
from core import LANGUAGE, LANGUAGES


def choose() -> None:
    """Name the language in the surroundings, where they name none yet."""
    if os.environ.get(LANGUAGE) not in LANGUAGES:
        os.environ[LANGUAGE] = chosen(Preferences().language)


def chosen(code: str) -> str:
    """A language there is: the one of this code, else the system's, else English."""
    wanted = (code, *(name[:2] for name in QLocale.system().uiLanguages()))
    return next((one for one in wanted if one in LANGUAGES), next(iter(LANGUAGES)))


def translate_qt(app: QApplication, code: str) -> None:
    """Qt's own words: of its file dialogs, and of keys."""
    QLocale.setDefault(QLocale(code))
    translator = QTranslator(app)
    if translator.load(f"qtbase_{code}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)):
        app.installTranslator(translator)
