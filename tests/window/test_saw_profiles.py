"""Kept saws in the rule: chosen, kept, renamed, removed, each as one step; rows fit the kind of saw."""

from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.rule.saw_profiles import LABELS, SawProfiles, changed_words
from app.rule.shop_sections import SawSection
from app.saws import SawStore
from app.window.window import Window
from core.document.model import Saw
from tests.window.conftest import Find

Click = Callable[[str], None]
RAIL = Saw(name="Long rail", kerf=1.8, guide_width=180.0)
TABLE = Saw(name="Bench saw", kind="table", kerf=3.2, lean="away")


@pytest.fixture
def kept(tmp_path: Path) -> SawStore:
    store = SawStore(tmp_path / "saws.json")
    store.keep(RAIL)
    store.keep(TABLE)
    return store


@pytest.fixture
def profiles(window: Window, kept: SawStore, qtbot: QtBot, click: Click) -> SawProfiles:
    section = next(section for section in window.rule.sections if isinstance(section, SawSection))
    section.profiles.saws = kept
    click("heading_saw")
    qtbot.waitUntil(lambda: section.profiles.listing is not None)
    return section.profiles


@pytest.fixture
def done(profiles: SawProfiles, qtbot: QtBot) -> Callable[[], None]:
    return lambda: qtbot.waitUntil(lambda: not profiles.work.busy)


def choose(find: Find, words: str) -> None:
    box = find("saw_profile")
    assert isinstance(box, QComboBox)
    at = box.findText(words)
    assert at >= 0
    box.setCurrentIndex(at)
    box.activated.emit(at)


def said(find: Find) -> str:
    label = find("saw_profile_said")
    assert isinstance(label, QLabel)
    return label.text()


def name_it(find: Find, qtbot: QtBot, text: str) -> None:
    field = find("saw_profile_name")
    assert isinstance(field, QLineEdit)
    field.setText(text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_nothing_is_read_before_the_section_is_looked_at(window: Window, kept: SawStore) -> None:
    section = next(section for section in window.rule.sections if isinstance(section, SawSection))
    assert section.profiles.listing is None
    assert not section.profiles.work.busy


def test_choosing_a_saw_is_one_step(window: Window, profiles: SawProfiles, find: Find) -> None:
    before = window.store.project
    choose(find, "Long rail")
    assert window.store.project == msgspec.structs.replace(before, saw=RAIL)
    choose(find, "Bench saw")
    assert window.store.project.saw == TABLE
    window.store.undo()
    assert window.store.project.saw == RAIL
    window.store.undo()
    assert window.store.project == before


def test_rows_fit_the_kind(window: Window, profiles: SawProfiles, find: Find, click: Click) -> None:
    def shown() -> set[str]:
        names = ("guide_width", "guide_offset", "fence_travel")
        return {name for name in names if window.rule.findChild(QWidget, f"saw_{name}").isVisible()}

    assert shown() == {"guide_width", "guide_offset"}
    click("saw_kind_table")
    assert shown() == {"fence_travel"}


def test_keeping_a_saw_under_a_name(
    window: Window, profiles: SawProfiles, find: Find, click: Click, qtbot: QtBot, done: Callable[[], None]
) -> None:
    before = window.store.project.saw
    click("saw_profile_keep")
    name_it(find, qtbot, "Long rail")
    assert "already" in find("saw_profile_name").parentWidget().findChild(QLabel, "saw_profile_name_reason").text()
    name_it(find, qtbot, "Short rail")
    done()
    mine = msgspec.structs.replace(before, name="Short rail")
    assert window.store.project.saw == mine
    assert SawStore(profiles.saws.file).listing() == (TABLE, RAIL, mine)  # type: ignore[union-attr]  # set above
    window.store.undo()
    assert window.store.project.saw == before


def test_what_was_changed_is_said_and_kept_or_put_back(
    window: Window, profiles: SawProfiles, kept: SawStore, find: Find, click: Click, done: Callable[[], None]
) -> None:
    choose(find, "Long rail")
    assert not profiles.findChild(QLabel, "saw_profile_said").isVisible()
    click("saw_lean_away")
    assert "foot leans" in said(find)
    click("saw_profile_revert")
    assert window.store.project.saw == RAIL
    click("saw_lean_away")
    click("saw_profile_update")
    done()
    assert not profiles.findChild(QLabel, "saw_profile_said").isVisible()
    assert msgspec.structs.replace(RAIL, lean="away") in kept.listing()


def test_renaming(
    window: Window, profiles: SawProfiles, kept: SawStore, find: Find, click: Click, qtbot: QtBot
) -> None:
    choose(find, "Long rail")
    click("saw_profile_rename")
    name_it(find, qtbot, "Old rail")
    qtbot.waitUntil(lambda: not profiles.work.busy)
    assert window.store.project.saw == msgspec.structs.replace(RAIL, name="Old rail")
    assert {saw.name for saw in kept.listing()} == {"Old rail", "Bench saw"}


def test_removing_and_putting_back(
    window: Window, profiles: SawProfiles, kept: SawStore, find: Find, click: Click, done: Callable[[], None]
) -> None:
    choose(find, "Bench saw")
    click("saw_profile_remove")
    done()
    assert kept.listing() == (RAIL,)
    assert window.store.project.saw == TABLE  # the project keeps what it has
    assert "Bench saw" in said(find)
    click("saw_profile_restore")
    done()
    assert kept.listing() == (TABLE, RAIL)


def test_escape_keeps_nothing(
    window: Window, profiles: SawProfiles, kept: SawStore, find: Find, click: Click, qtbot: QtBot
) -> None:
    before = window.store.project
    click("saw_profile_keep")
    qtbot.keyClick(find("saw_profile_name"), Qt.Key.Key_Escape)
    assert not profiles.work.busy
    assert kept.listing() == (TABLE, RAIL)
    assert window.store.project == before


def test_another_windows_saws_are_there_when_this_one_is_looked_at_again(
    window: Window, profiles: SawProfiles, kept: SawStore, find: Find, done: Callable[[], None]
) -> None:
    SawStore(kept.file).keep(Saw(name="New one"))
    profiles.read()
    done()
    choose(find, "New one")
    assert window.store.project.saw == Saw(name="New one")


def test_a_broken_file_is_told_and_left_alone(
    window: Window, profiles: SawProfiles, kept: SawStore, find: Find, click: Click, qtbot: QtBot
) -> None:
    kept.file.write_bytes(b"{")
    before = window.store.project
    click("saw_profile_keep")
    name_it(find, qtbot, "Mine")
    qtbot.waitUntil(lambda: not profiles.work.busy)
    assert str(kept.file) in said(find)
    assert kept.file.read_bytes() == b"{"
    assert window.store.project == before


def test_every_field_has_words_for_its_change() -> None:
    assert set(LABELS) | {"name"} == set(Saw.__struct_fields__)
    assert changed_words(RAIL, RAIL) == ""
    assert "kerf" in changed_words(msgspec.structs.replace(RAIL, kerf=2.0), RAIL)
