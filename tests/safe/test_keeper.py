"""Unsaved work is on the disk some seconds after a change, beside the project, and goes when it is saved."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.safe import keeper as room
from app.safe.keeper import AFTER_MS, AGAIN_MS, LATEST_MS, Keeper
from app.safe.places import Claim, lock_beside, orphans, read_rescue, rescue_beside
from app.store import Store
from core.document.save import save_project
from tests.safe.conftest import deeper

MOST_LOST_MS = 10_000  # what is promised


@pytest.fixture
def keep(qtbot: QtBot, store: Store, tmp_path: Path) -> Iterator[Keeper]:
    made = Keeper(store, store, tmp_path / "own", after_ms=30)
    yield made
    made.close()


@pytest.fixture
def path(store: Store, keep: Keeper, tmp_path: Path) -> Path:
    """The project's file."""
    folder = tmp_path / "shop"
    folder.mkdir()
    file = folder / "hall.grainfold"
    save_project(store.project, file)
    store.mark_saved(store.project, file)
    keep.belong_to(file)
    return file


def settled(qtbot: QtBot, keep: Keeper) -> None:
    qtbot.waitUntil(lambda: not keep.waiting)


def test_the_promise_leaves_room_for_a_slow_disk() -> None:
    assert 2 * AFTER_MS < MOST_LOST_MS
    assert LATEST_MS + AGAIN_MS < MOST_LOST_MS


def test_a_change_is_kept_beside_the_project_and_goes_when_it_is_saved(
    qtbot: QtBot, store: Store, keep: Keeper, path: Path
) -> None:
    before = path.read_bytes()
    store.apply("Depth", deeper(180.0))
    store.apply("More", deeper(181.0))
    assert keep.waiting
    settled(qtbot, keep)
    kept = read_rescue(rescue_beside(path))
    assert kept is not None
    assert (kept.project, kept.of, kept.steps) == (store.project, "hall.grainfold", ("Depth", "More"))
    assert path.read_bytes() == before
    store.mark_saved(store.project, path)
    assert not rescue_beside(path).exists()


def test_going_back_to_what_was_saved_keeps_nothing(qtbot: QtBot, store: Store, keep: Keeper, path: Path) -> None:
    store.apply("Depth", deeper(180.0))
    settled(qtbot, keep)
    store.undo()
    assert not rescue_beside(path).exists()
    store.redo()
    settled(qtbot, keep)
    assert rescue_beside(path).exists()


def test_a_drag_is_not_disturbed_but_not_for_ever(qtbot: QtBot, store: Store, keep: Keeper, path: Path) -> None:
    keep._after_ms, keep._latest_ms = 10, 1500
    store.take_hold()
    store.apply("Depth", deeper(180.0), "drag")
    qtbot.wait(200)
    assert not rescue_beside(path).exists()
    qtbot.waitUntil(rescue_beside(path).exists)
    store.let_go()


def test_work_without_a_file_is_kept_in_the_programs_own_folder(qtbot: QtBot, store: Store, tmp_path: Path) -> None:
    keep = Keeper(store, store, tmp_path / "own", after_ms=30)
    store.apply("Depth", deeper(180.0))
    settled(qtbot, keep)
    assert orphans(tmp_path / "own") == []  # its window lives
    keep.close(leave=True)
    [(_, rescue)] = orphans(tmp_path / "own")
    assert rescue.project == store.project
    assert rescue.of == ""


@pytest.mark.parametrize("reason", [errno.EACCES, errno.ENOSPC, errno.EROFS, errno.ENOENT])
def test_where_the_folder_cannot_be_written_the_work_is_kept_elsewhere(
    qtbot: QtBot, store: Store, keep: Keeper, path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, reason: int
) -> None:
    real = room.write_atomically

    def write(place: Path, data: bytes) -> None:
        if place.parent == path.parent:
            raise OSError(reason, os.strerror(reason))
        real(place, data)

    monkeypatch.setattr(room, "write_atomically", write)
    with qtbot.waitSignal(keep.trouble) as told:
        store.apply("Depth", deeper(180.0))
    assert told.args[1] is True
    [file] = (tmp_path / "own").glob("*-rescue")
    kept = read_rescue(file)
    assert kept is not None
    assert kept.project == store.project
    assert kept.of == str(path)
    monkeypatch.undo()
    store.apply("Depth", deeper(181.0))
    settled(qtbot, keep)
    assert rescue_beside(path).exists()  # back beside the project
    assert not file.exists()


def test_a_vanished_folder_keeps_the_work_elsewhere(
    qtbot: QtBot, store: Store, keep: Keeper, path: Path, tmp_path: Path
) -> None:
    path.parent.rename(tmp_path / "away")
    with qtbot.waitSignal(keep.trouble) as told:
        store.apply("Depth", deeper(180.0))
    assert told.args == ["no such file or folder", True]


def test_where_nothing_can_be_written_it_is_said(
    qtbot: QtBot, store: Store, keep: Keeper, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "full")

    monkeypatch.setattr(room, "write_atomically", full)
    with qtbot.waitSignal(keep.trouble) as told:
        store.apply("Depth", deeper(180.0))
    assert told.args == ["no room left on the disk", False]


def test_two_windows_do_not_share_a_rescue(
    qtbot: QtBot, store: Store, keep: Keeper, path: Path, tmp_path: Path
) -> None:
    other = Store(store.project, path)
    second = Keeper(other, other, tmp_path / "own", after_ms=30)
    second.belong_to(path)
    assert keep.alone
    assert not second.alone
    other.apply("Depth", deeper(99.0))
    store.apply("Depth", deeper(180.0))
    settled(qtbot, keep)
    settled(qtbot, second)
    kept = read_rescue(rescue_beside(path))
    assert kept is not None
    assert kept.project == store.project
    second.close()


def test_a_lock_of_a_process_that_ended_holds_nothing(tmp_path: Path) -> None:
    import subprocess
    import sys

    file = lock_beside(tmp_path / "hall.grainfold")
    code = (
        "import os, sys; from pathlib import Path; from app.safe.places import Claim\n"
        "claim = Claim(Path(sys.argv[1])); print(claim.held, flush=True); os._exit(1)"
    )
    root = Path(__file__).parents[2]
    done = subprocess.run(
        [sys.executable, "-c", code, str(file)], cwd=root, capture_output=True, text=True, check=False
    )
    assert done.stdout.strip() == "True"
    assert file.exists()
    claim = Claim(file)
    assert claim.held
    assert not Claim(file).held
    claim.let_go()


def test_leaving_in_a_hurry_writes_at_once(store: Store, keep: Keeper, path: Path) -> None:
    store.apply("Depth", deeper(180.0))
    keep.write_now()
    kept = read_rescue(rescue_beside(path))
    assert kept is not None
    assert kept.project == store.project


def test_no_thread_is_left(store: Store, tmp_path: Path) -> None:
    import threading

    before = set(threading.enumerate())
    made = Keeper(store, store, tmp_path / "own", after_ms=30)
    store.apply("Depth", deeper(180.0))
    made.write_now()
    assert set(threading.enumerate()) != before
    made.close()
    assert set(threading.enumerate()) == before
    assert list((tmp_path / "own").glob("*-rescue")) == []
