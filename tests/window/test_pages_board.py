"""The plan set in its board: looked at, written, printed, called off; through the window."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from io import BytesIO
from pathlib import Path

import msgspec
import pdfplumber
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from app.paper.pdf import frame_of, pdf_bytes
from app.paper.plan_set import page_names, pages_of
from app.printing.board import PagesBoard
from app.printing.making import Failure
from app.printing.printer import print_pages, printer_names
from app.window.window import Window

Find = Callable[[str], QWidget]
Click = Callable[[str], None]
LONG = 60_000  # ms


@pytest.fixture
def board(window: Window, qtbot: QtBot) -> PagesBoard:
    window.actions_["pages"].trigger()
    shown = window.boards.occupant("sheet")
    assert isinstance(shown, PagesBoard)
    qtbot.waitUntil(lambda: shown.count > 0, timeout=LONG)
    return shown


def rest(window: Window, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not window.exporting.making.busy, timeout=LONG)


def choose(monkeypatch: pytest.MonkeyPatch, path: Path) -> list[str]:
    """The dialog comes back with a path; the names it offered are kept."""
    offered: list[str] = []

    def answer(_parent: object, _title: str, wanted: str, _kinds: str, **_more: object) -> tuple[str, str]:
        offered.append(Path(wanted).name)
        return str(path), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", answer)
    return offered


def test_it_shows_every_page_the_pdf_has(window: Window, board: PagesBoard) -> None:
    plan = window.store.plan
    assert board.count == len(pages_of(plan, frame_of(plan)))
    board.go(1)
    assert board.number == 2
    board.go(10_000)
    assert board.number == board.count


def test_each_kind_says_how_many_pages_it_has(board: PagesBoard, find: Find) -> None:
    kinds = find("pages_kind")
    assert isinstance(kinds, QComboBox)
    words = [kinds.itemText(at) for at in range(kinds.count())]
    assert "sheets (1)" in words
    assert sum(int(text.partition("(")[2].rstrip(")")) for text in words if "(" in text) == board.count


def test_the_paper_that_goes_with_the_units_is_named(window: Window, board: PagesBoard, find: Find) -> None:
    papers = find("pages_paper")
    assert isinstance(papers, QComboBox)
    assert papers.currentText() == "Letter, as the units"


def test_keys_leaf_through_it(board: PagesBoard, qtbot: QtBot) -> None:
    qtbot.keyClick(board.canvas, Qt.Key.Key_PageDown)
    qtbot.keyClick(board.canvas, Qt.Key.Key_Space)
    assert board.number == 3
    qtbot.keyClick(board.canvas, Qt.Key.Key_Home)
    assert board.number == 1
    qtbot.keyClick(board.canvas, Qt.Key.Key_End)
    assert board.number == board.count


def test_it_fills_the_window_and_gives_it_back(window: Window, board: PagesBoard, click: Click) -> None:
    assert window.boards.filled == "sheet"
    click("pages_close")
    assert window.boards.filled != "sheet"
    assert window.sheet.canvas.hasFocus()


def test_an_edit_sets_the_pages_anew(window: Window, board: PagesBoard, qtbot: QtBot) -> None:
    """Until the newer ones are set, whoever reads a page goes on reading it."""
    many = board.count
    board.go(4)
    window.store.apply("None", lambda p: msgspec.structs.replace(p, shelves=p.shelves[:1]))
    assert (board.count, board.number) == (many, 5)
    qtbot.waitUntil(lambda: board.count < many, timeout=LONG)
    assert board.number == 5


def test_chosen_pages_are_written_under_a_name_that_says_so(
    window: Window, board: PagesBoard, click: Click, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    offered = choose(monkeypatch, tmp_path / "some.pdf")
    board._kinds.chosen.emit("wall")
    qtbot.waitUntil(lambda: board.count > 0, timeout=LONG)
    click("pages_save")
    rest(window, qtbot)
    assert offered == ["Study wall, wall.pdf"]
    read = pdfplumber.open(BytesIO((tmp_path / "some.pdf").read_bytes())).pages
    assert len(read) == board.count
    assert "Wall" in (read[0].extract_text() or "")


def test_writing_over_a_file_asks_first(
    window: Window, board: PagesBoard, click: Click, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    path = tmp_path / "there.pdf"
    path.write_bytes(b"before")
    choose(monkeypatch, path)
    click("pages_save")
    assert window.line.asking
    assert path.read_bytes() == b"before"
    click("answer_leave")
    assert path.read_bytes() == b"before"
    click("pages_save")
    click("answer_over")
    rest(window, qtbot)
    assert path.read_bytes().startswith(b"%PDF")


def test_called_off_nothing_is_written(
    window: Window, board: PagesBoard, click: Click, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    path = tmp_path / "none.pdf"
    choose(monkeypatch, path)
    click("pages_save")
    assert window.exporting.making.busy
    click("answer_cancel")
    assert not window.exporting.making.busy
    qtbot.wait(150)
    assert list(tmp_path.glob("*.pdf")) == []
    assert "Called off" in window.line.text


@pytest.mark.parametrize(
    ("name", "why"), [("w" * 300 + ".pdf", "too long"), ("folder.pdf", "is a folder"), ("gone/a.pdf", "no such")]
)
def test_a_target_that_takes_no_file_is_one_sentence(
    window: Window,
    board: PagesBoard,
    click: Click,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    name: str,
    why: str,
) -> None:
    (tmp_path / "folder.pdf").mkdir()
    choose(monkeypatch, tmp_path / name)
    board._kinds.chosen.emit("cover")
    qtbot.waitUntil(lambda: board.count > 0, timeout=LONG)
    click("pages_save")
    rest(window, qtbot)
    qtbot.waitUntil(lambda: "Not written" in window.line.text, timeout=LONG)
    assert why in window.line.text
    assert [path.name for path in tmp_path.iterdir()] == ["folder.pdf"]


def test_the_window_lives_while_pages_are_made(window: Window, board: PagesBoard, qtbot: QtBot, tmp_path: Path) -> None:
    """Between two pages at most, never for the whole set, does the window wait."""
    told: list[tuple[int, int]] = []
    making = window.exporting.making
    making.went_on.connect(lambda done, count: told.append((done, count)))
    plan = window.store.plan
    making.write(plan, frame_of(plan), None)
    assert making.busy  # it has come back at once
    rest(window, qtbot)
    assert told[-1] == (board.count, board.count)


def test_the_bytes_are_those_of_the_export(window: Window, board: PagesBoard, qtbot: QtBot) -> None:
    plan, outcomes = window.store.plan, []
    window.exporting.making.ended.connect(outcomes.append)
    window.exporting.making.write(plan, frame_of(plan), ("cut list",))
    rest(window, qtbot)
    assert isinstance(outcomes[0], bytes)
    read = [pdfplumber.open(BytesIO(data)).pages for data in (outcomes[0], pdf_bytes(plan, names=("cut list",)))]
    assert [page.extract_text() for page in read[0]] == [page.extract_text() for page in read[1]]


def test_what_goes_wrong_is_told_in_words(window: Window, board: PagesBoard, qtbot: QtBot) -> None:
    def broken(*_all: object) -> object:
        raise OSError("no paper")

    outcomes: list[object] = []
    window.exporting.making.ended.connect(outcomes.append)
    plan = window.store.plan
    window.exporting.making.print(plan, frame_of(plan), ("cut list",), broken)  # type: ignore[arg-type]  # raises first
    rest(window, qtbot)
    assert isinstance(outcomes[0], Failure)
    assert "no paper" in outcomes[0].why


def test_a_printer_gets_the_pages_at_true_size(window: Window, board: PagesBoard, qtbot: QtBot, tmp_path: Path) -> None:
    """A printer that prints into a file stands for one of iron."""
    plan, file = window.store.plan, tmp_path / "printed.pdf"
    drawing = partial(print_pages, "none", "Study wall", file=file)
    window.exporting.making.print(plan, frame_of(plan, "letter"), ("cut list", "labels"), drawing)
    rest(window, qtbot)
    read = pdfplumber.open(BytesIO(file.read_bytes())).pages
    assert (read[0].width, read[0].height) == pytest.approx((792.0, 612.0), abs=1.0)
    assert (read[-1].width, read[-1].height) == pytest.approx((612.0, 792.0), abs=1.0)
    bars = [abs(line["x1"] - line["x0"]) for line in read[0].lines if line["top"] == line["bottom"]]
    assert any(abs(bar - 288.0) < 0.3 for bar in bars)  # 4 in


def test_printers_are_asked_of_the_system() -> None:
    assert isinstance(printer_names(), tuple)


def test_every_kind_can_be_chosen(board: PagesBoard) -> None:
    offered = [board._kinds.itemData(n) for n in range(board._kinds.count())]
    assert offered == ["all", *page_names()]
