"""The window's language: picked in it, remembered, and what is not saved waits for the window that opens next."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QLocale

from app.window.language import chosen
from app.window.preferences import Preferences
from app.window.start import open_anew
from app.window.window import Window
from core import LANGUAGE
from core.document.model import Project
from tests.real_window import _settings, open_window, window

__all__ = ["_settings", "open_window", "window"]


@pytest.fixture
def project() -> Project:
    from app.rule.edits import new_project

    return new_project("mm")


def test_another_language_closes_the_window_and_keeps_the_work(window: Window, tmp_path: Path) -> None:
    file = tmp_path / "hall.grainfold"
    assert window.files._write(file)
    window.rule.add_shelf()
    assert window.store.unsaved
    window.actions_["language_de"].trigger()
    assert window.next_language == "de"
    assert Preferences().language == "de"
    assert not window.isVisible()
    assert (tmp_path / "hall.grainfold-rescue").is_file()


def test_the_same_language_changes_nothing(window: Window) -> None:
    window.actions_["language_en"].trigger()
    assert not window.next_language
    assert window.isVisible()


def test_a_window_begins_in_the_language_picked_else_the_systems_else_english(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QLocale, "uiLanguages", lambda *_: ["de-AT", "de"])
    assert chosen("") == "de"
    assert chosen("en") == "en"
    monkeypatch.setattr(QLocale, "uiLanguages", lambda *_: ["fr-FR", "fr"])
    assert chosen("") == "en"


def test_the_process_begins_again_with_the_same_file(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    begun: list[list[str]] = []
    monkeypatch.setenv(LANGUAGE, "en")
    monkeypatch.setattr("os.execv", lambda _program, words: begun.append(words))
    open_anew(tmp_path / "hall.grainfold", "de")
    assert begun[0][1:] == ["-m", "app", str(tmp_path / "hall.grainfold")]
