"""Kept offcuts in the window: keep, use, take out, each with its way back; the disk never holds the window."""

from collections.abc import Callable
from pathlib import Path
from threading import Event

import msgspec
import platformdirs
import pytest
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QLabel, QPushButton, QTableView
from pytestqt.qtbot import QtBot

from app.offcuts import OffcutStore
from app.rack.board import RackBoard
from app.rack.model import FACE, LONGEST
from app.window.window import Window
from core.document.check import check_project
from core.document.model import Project
from core.lengths import Unit, parse_length
from core.offcuts.model import KeptOffcut
from core.offcuts.rules import what_can_it_give
from tests.window.conftest import Find

Click = Callable[[str], None]
LARGE = KeptOffcut("", 2000.0, 560.0, 18.0, face="rift oak", date="2031-05-30", project="Hallway")
SMALL = msgspec.structs.replace(LARGE, length=700.0, width=300.0, project="Kitchen")


@pytest.fixture
def shelf_of_offcuts(window: Window, tmp_path: Path) -> OffcutStore:
    """The store the window uses, in a folder of this test."""
    store = OffcutStore(tmp_path / "offcuts")
    window.rack._offcuts = store
    return store


@pytest.fixture
def done(window: Window, qtbot: QtBot) -> Callable[[], None]:
    """Wait until nothing is under way."""
    return lambda: qtbot.waitUntil(lambda: not window.rack.work.busy)


@pytest.fixture
def rack(window: Window, shelf_of_offcuts: OffcutStore, done: Callable[[], None]) -> Callable[[], RackBoard]:
    def open_rack() -> RackBoard:
        window.rule.sheets.findChild(QPushButton, "sheet_offcut").click()
        done()
        board = window.boards.occupant("sheet")
        assert isinstance(board, RackBoard)
        return board

    return open_rack


def cell(board: RackBoard, row: int, column: int) -> str:
    return str(board._model.index(row, column).data())


def ids(board: RackBoard) -> list[str]:
    return [cell(board, row, 0) for row in range(board._model.rowCount())]


def test_the_default_place_is_not_the_persons_own(tmp_path: Path) -> None:
    home = Path.home()
    assert not OffcutStore().folder.is_relative_to(home / ".local")
    assert OffcutStore().folder.is_relative_to(platformdirs.user_data_path())


def test_nothing_is_read_before_it_is_asked(window: Window, shelf_of_offcuts: OffcutStore) -> None:
    assert window.rack.listing is None
    assert not window.rack.work.busy
    assert not shelf_of_offcuts.folder.exists()


def test_an_empty_rack_says_how_it_fills(rack: Callable[[], RackBoard], find: Find) -> None:
    board = rack()
    assert find("rack_empty").isVisible()
    assert not find("rack_use").isEnabled()
    assert not find("rack_take_out").isEnabled()
    assert board.chosen == ""


def test_keeping_is_said_and_undone(
    window: Window, shelf_of_offcuts: OffcutStore, done: Callable[[], None], click: Click
) -> None:
    window.actions_["keep_offcuts"].trigger()
    done()
    kept = shelf_of_offcuts.listing().offcuts
    assert len(kept) == len(window.store.plan.offcuts) > 0
    assert str(len(kept)) in window.line.text
    window.rack.keep()
    done()
    assert shelf_of_offcuts.listing().offcuts == kept
    window.line.clear_message()
    window.rack.work.do(lambda: shelf_of_offcuts.remove(kept[0].id), lambda gone: None, lambda error: None)
    window.rack.keep()
    done()
    assert len(shelf_of_offcuts.listing().offcuts) == len(kept)
    click("answer_unkeep")
    done()
    assert shelf_of_offcuts.listing().offcuts == kept[1:]


def test_after_the_pages_are_written_their_offcuts_can_be_kept(
    window: Window, shelf_of_offcuts: OffcutStore, done: Callable[[], None], click: Click, tmp_path: Path
) -> None:
    assert window.exporting.write("pdf", tmp_path / "cut sheet.pdf")
    click("answer_keep")
    done()
    assert len(shelf_of_offcuts.listing().offcuts) == len(window.store.plan.offcuts)


def test_the_offcut_board_keeps_too(
    window: Window, shelf_of_offcuts: OffcutStore, done: Callable[[], None], click: Click
) -> None:
    click("sheet_offcuts")
    click("offcuts_keep")
    done()
    assert shelf_of_offcuts.listing().offcuts


def test_a_plan_that_leaves_nothing(window: Window, shelf_of_offcuts: OffcutStore, done: Callable[[], None]) -> None:
    window.store.apply("None", lambda p: msgspec.structs.replace(p, shelves=()))
    window.rack.keep()
    done()
    assert "nothing" in window.line.text
    assert not shelf_of_offcuts.folder.exists()


def test_using_one_is_one_step(
    window: Window, shelf_of_offcuts: OffcutStore, rack: Callable[[], RackBoard], click: Click
) -> None:
    small, large = shelf_of_offcuts.add(SMALL), shelf_of_offcuts.add(LARGE)
    before = window.store.project
    board = rack()
    assert ids(board) == [large.id, small.id]
    assert cell(board, 0, FACE) == "rift oak"
    assert "Hallway" in cell(board, 0, FACE + 1)
    click("rack_use")
    sheet = window.store.stock
    assert (sheet.id, sheet.length, sheet.width, sheet.quantity) == (large.id, large.length, large.width, 1)
    assert window.boards.occupant("sheet") is window.sheet
    check_project(window.store.project)
    window.store.undo()
    assert window.store.project == before


def test_one_that_is_sawn_up_is_used_and_comes_back(
    window: Window,
    shelf_of_offcuts: OffcutStore,
    rack: Callable[[], RackBoard],
    done: Callable[[], None],
    click: Click,
) -> None:
    kept = shelf_of_offcuts.add(LARGE)
    rack()
    click("rack_use")

    def from_it(project: Project) -> Project:
        return msgspec.structs.replace(project, shelves=(msgspec.structs.replace(project.shelves[1], sheet=kept.id),))

    window.store.apply("Sheet", from_it)
    window.rack.keep()
    done()
    left = shelf_of_offcuts.listing().offcuts
    assert left
    assert kept not in left
    assert {offcut.face for offcut in left if offcut.sheet.startswith(kept.id)} == {kept.face}
    assert kept.id in window.line.text
    click("answer_unkeep")
    done()
    assert shelf_of_offcuts.listing().offcuts == (kept,)


def test_what_an_earlier_plan_left_can_be_taken_out(
    window: Window, shelf_of_offcuts: OffcutStore, done: Callable[[], None], click: Click
) -> None:
    window.rack.keep()
    done()
    stock = window.store.stock
    shorter = msgspec.structs.replace(stock, length=stock.length - 25.4)
    window.store.apply("Length", lambda p: msgspec.structs.replace(p, sheets=(shorter,)))
    window.rack.keep()
    done()
    click("answer_stale")
    done()
    left = {(offcut.piece, offcut.sheet) for offcut in shelf_of_offcuts.listing().offcuts}
    assert left == {(offcut.piece, offcut.sheet) for offcut in window.store.plan.offcuts}
    assert len(shelf_of_offcuts.listing().offcuts) == len(window.store.plan.offcuts)


def test_what_another_window_takes_is_seen(
    window: Window, shelf_of_offcuts: OffcutStore, rack: Callable[[], RackBoard], done: Callable[[], None]
) -> None:
    large, small = shelf_of_offcuts.add(LARGE), shelf_of_offcuts.add(SMALL)
    board = rack()
    OffcutStore(shelf_of_offcuts.folder).mark_used(large.id, "Elsewhere")
    (shelf_of_offcuts.folder / f"{small.id}.json").unlink()
    window.rack.remove(small.id)
    done()
    assert window.line.tone == "error"
    assert ids(board) == []


def test_one_that_is_a_sheet_already_is_not_one_twice(
    window: Window, shelf_of_offcuts: OffcutStore, rack: Callable[[], RackBoard], qtbot: QtBot, find: Find
) -> None:
    kept = shelf_of_offcuts.add(LARGE)
    rack()
    qtbot.keyClick(find("rack_table"), Qt.Key.Key_Return)
    assert window.store.stock.id == kept.id
    after = window.store.project
    board = rack()
    assert kept.id in cell(board, 0, 0) != kept.id
    assert window.rack.use(kept.id)
    assert window.store.project is after


def test_taking_out_asks_nothing_and_is_put_back(
    window: Window,
    shelf_of_offcuts: OffcutStore,
    rack: Callable[[], RackBoard],
    done: Callable[[], None],
    qtbot: QtBot,
    find: Find,
    click: Click,
) -> None:
    large, small = shelf_of_offcuts.add(LARGE), shelf_of_offcuts.add(SMALL)
    board = rack()
    qtbot.keyClick(find("rack_table"), Qt.Key.Key_Delete)
    done()
    assert ids(board) == [small.id] == [board.chosen]
    assert not window.line.asking
    click("answer_put_back")
    done()
    assert ids(board) == [large.id, small.id]
    assert window.store.undo_label == ""  # the project has nothing to do with it


def test_its_face_is_named_anew(
    shelf_of_offcuts: OffcutStore, rack: Callable[[], RackBoard], done: Callable[[], None]
) -> None:
    kept = shelf_of_offcuts.add(LARGE)
    board = rack()
    assert board._model.setData(board._model.index(0, FACE), "rift oak,  one dent ")
    done()
    assert shelf_of_offcuts.listing().offcuts == (msgspec.structs.replace(kept, face="rift oak, one dent"),)
    assert cell(board, 0, FACE) == "rift oak, one dent"


def test_what_each_still_gives_follows_the_shelf(
    window: Window, shelf_of_offcuts: OffcutStore, rack: Callable[[], RackBoard], qtbot: QtBot
) -> None:
    kept = shelf_of_offcuts.add(LARGE)
    shelf_of_offcuts.add(SMALL)
    board = rack()
    for name in ("upper", "lower"):
        window.store.select(name)
        qtbot.waitUntil(lambda: cell(board, 0, LONGEST) != "" and cell(board, 1, LONGEST) != "")
        shelf, project = window.store.shelf, window.store.project
        assert shelf is not None
        sizes = (kept, project.saw, shelf.depth, shelf.height)
        ends = {"left": shelf.left, "right": shelf.right, "trim": project.sheets[0].trim}
        answer = what_can_it_give(*sizes, **ends, frame=project.frame, units=project.units)
        assert answer is not None
        assert answer.size is not None
        assert parse_length(cell(board, 0, LONGEST), Unit.INCH) == pytest.approx(answer.size)


def test_a_broken_file_is_told_once(
    window: Window, shelf_of_offcuts: OffcutStore, rack: Callable[[], RackBoard], done: Callable[[], None]
) -> None:
    kept, broken = shelf_of_offcuts.add(LARGE), shelf_of_offcuts.add(SMALL)
    newer = shelf_of_offcuts.folder / "offcut-9.json"
    newer.write_bytes(b'{"format": "grainfold offcut", "version": 7}')
    (shelf_of_offcuts.folder / f"{broken.id}.json").write_bytes(b"{")
    board = rack()
    assert ids(board) == [kept.id]
    assert f"{broken.id}.json" in window.line.text
    assert window.line.tone == "warning"
    window.line.clear_message()
    window.rack.read()
    done()
    assert f"{broken.id}.json" not in window.line.text
    assert newer.exists()


def test_a_store_that_cannot_be_written_is_said(window: Window, tmp_path: Path, done: Callable[[], None]) -> None:
    (tmp_path / "file").touch()
    window.rack._offcuts = OffcutStore(tmp_path / "file" / "offcuts")
    window.rack.keep()
    done()
    assert window.line.tone == "error"


def test_a_slow_disk_does_not_hold_the_window(
    window: Window, shelf_of_offcuts: OffcutStore, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept, goes_on = shelf_of_offcuts.add(LARGE), Event()
    read = OffcutStore.everything

    def slow(store: OffcutStore) -> object:
        assert goes_on.wait(20)
        return read(store)

    monkeypatch.setattr(OffcutStore, "everything", slow)
    window.actions_["rack"].trigger()
    window.store.apply("Depth", lambda p: msgspec.structs.replace(p, name="edited meanwhile"))
    assert window.rack.work.busy
    assert window.rack.listing is None
    goes_on.set()
    qtbot.waitUntil(lambda: window.rack.listing == (kept,))


def test_margin_is_said_and_grows_with_the_sheet(window: Window, find: Find) -> None:
    words = find("shelf_margin")
    assert isinstance(words, QLabel)

    def to_the_right() -> float:
        return next(
            parse_length(way.removesuffix("right"), Unit.INCH) for way in words.text().split(",") if "right" in way
        )

    before, stock = to_the_right(), window.store.stock
    longer = msgspec.structs.replace(stock, length=stock.length + 254.0)
    window.store.apply("Length", lambda p: msgspec.structs.replace(p, sheets=(longer,)))
    window.store.planner.settle()
    assert to_the_right() == pytest.approx(before + 254.0)


def test_a_hand_that_drags_leaves_the_margin_till_it_rests(window: Window, find: Find) -> None:
    words = find("shelf_margin")
    assert isinstance(words, QLabel)
    before, stock = words.text(), window.store.stock
    window.store.take_hold()
    longer = msgspec.structs.replace(stock, length=stock.length + 254.0)
    window.store.apply("Length", lambda p: msgspec.structs.replace(p, sheets=(longer,)))
    assert words.text() == before
    window.store.let_go()
    assert words.text() != before


def test_a_shelf_that_lies_nowhere_has_no_margin(window: Window, find: Find) -> None:
    find("shelf_margin")
    window.store.apply(
        "None", lambda p: msgspec.structs.replace(p, sheets=(msgspec.structs.replace(p.sheets[0], quantity=0),))
    )
    window.store.planner.settle()
    assert not window.rule.findChild(QLabel, "shelf_margin").isVisible()


def test_a_row_of_the_offcuts_selects_its_piece(window: Window, click: Click, find: Find) -> None:
    click("sheet_offcuts")
    view = find("offcuts_table")
    assert isinstance(view, QTableView)
    view.setCurrentIndex(QModelIndex())
    view.setCurrentIndex(view.model().index(0, 0))
    assert window.store.selected == window.store.plan.offcuts[0].piece


def test_a_piece_that_was_never_kept_is_typed_in_as_a_sheet(
    window: Window, rack: Callable[[], RackBoard], find: Find, click: Click
) -> None:
    board = rack()
    assert find("rack_empty").isVisible()
    click("rack_sizes")
    assert not board.isVisible()
    assert find("sheet_length").hasFocus()
