"""Dragging in the real window, 1366x768 with every board visible: from the mouse's move to the last board's paint."""

from __future__ import annotations

import gc
import os
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic, perf_counter
from typing import NamedTuple

import msgspec
from PySide6.QtCore import QEvent, QEventLoop, QObject, QPointF, QSettings, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication, QWidget

from app.window.window import Window
from core.document.load import load_project
from core.document.model import Mount, Photo, Project, Sheet, Shelf
from core.document.save import save_project
from core.photo.opening import checksum
from tests.bench.measure import Measure, at_most, share
from tests.bench.photographs import PIXELS, take_photograph
from tests.bench.places import FIRST_DEMO

EDITS, WARM_UP = 400, 50
BATCHES = 3  # the quietest counts: a shared machine slows whole seconds by a factor of three
DRAGS = 2000  # for the memory
SETTLE_S = 25.0  # most that the pictures of the fold board may take to be there
CORNERS = tuple((x / PIXELS[0], y / PIXELS[1]) for x, y in ((300, 3350), (5700, 3350), (5700, 650), (300, 650)))
LEFT, NONE = Qt.MouseButton.LeftButton, Qt.MouseButton.NoButton
MOVE, PRESS, RELEASE = QEvent.Type.MouseMove, QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonRelease


class Stroke(NamedTuple):
    """Pulling one handle of one shelf by so many moves of so many pixels outward (inward where negative)."""

    shelf: int
    handle: str
    moves: int
    pixels: float


# Out and back by turns; the other sizes have changed in between, so that the way back leads through other projects.
STROKES = tuple(
    Stroke(shelf, handle, moves, way * pixels)
    for way in (-1.0, 1.0)
    for shelf, handle, moves, pixels in (
        (0, "length", 40, 1.3),
        (1, "length", 30, 1.3),
        (2, "length", 25, 1.3),
        (0, "depth", 12, 1.3),
        (1, "depth", 12, 1.3),
        (2, "depth", 12, 1.3),
        (1, "length left", 25, 1.3),
    )
)


def measures() -> Iterator[Measure]:
    """Drag of three shelves, of thirty, orbit, and memory."""
    app = QApplication.instance() or QApplication([])
    assert isinstance(app, QApplication)
    with TemporaryDirectory() as folder:
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
        yield from _three(app)
        yield from _photographed(app, Path(folder))
        yield from _thirty(app)


def _three(app: QApplication) -> Iterator[Measure]:
    bench = Bench(app, load_project(FIRST_DEMO))
    times = bench.quietest(bench.drag_times)
    yield at_most("drag, three shelves, p50", share(times, 50), "ms")
    yield at_most("drag, three shelves, p95", share(times, 95), "ms", 16.0)
    yield at_most("drag, three shelves, p99", share(times, 99), "ms", 33.0)
    times = bench.quietest(bench.orbit_times)
    yield at_most("orbit, p50", share(times, 50), "ms")
    yield at_most("orbit, p95", share(times, 95), "ms", 16.0)
    if Path("/proc/self/statm").exists():
        yield at_most(f"memory grown over {DRAGS} drags", bench.growth(), "MB", 20.0)
    bench.close()


def _photographed(app: QApplication, folder: Path) -> Iterator[Measure]:
    """The same three shelves on a sheet with a photograph of 24 megapixels on it, as fine as it gets."""
    project, picture = load_project(FIRST_DEMO), folder / "sheet.jpg"
    take_photograph(picture)
    photo = Photo(picture.name, checksum(picture.read_bytes()), CORNERS)
    sheets = (msgspec.structs.replace(project.sheets[0], photos=(photo,)), *project.sheets[1:])
    path = folder / "photographed.grainfold"
    save_project(msgspec.structs.replace(project, sheets=sheets), path)
    bench = Bench(app, project)
    bench.window.files.open_path(path)
    bench.wait_for_photograph()
    times = bench.quietest(bench.drag_times)
    yield at_most("drag, photographed sheet, p50", share(times, 50), "ms")
    yield at_most("drag, photographed sheet, p95", share(times, 95), "ms", 16.0)
    times = bench.quietest(bench.orbit_times)
    yield at_most("orbit, photographed sheet, p95", share(times, 95), "ms", 16.0)
    bench.close()


def _thirty(app: QApplication) -> Iterator[Measure]:
    bench = Bench(app, many(30))
    times = bench.quietest(bench.drag_times)
    yield at_most("drag, thirty shelves, p50", share(times, 50), "ms")
    yield at_most("drag, thirty shelves, p95", share(times, 95), "ms", 33.0)
    bench.close()


def many(count: int) -> Project:
    """A whole wall of shelves from several sheets."""
    shelves = tuple(
        Shelf(
            f"s{i}",
            500.0 + 37.0 * (i * 7 % 23),
            150.0 + 10.0 * (i % 4),
            70.0 + 5.0 * (i % 3),
            mount=Mount(100.0 + 400.0 * (i % 7), 600.0 + 300.0 * (i // 7)),
        )
        for i in range(count)
    )
    return Project((Sheet("A", 2440.0, 1220.0, quantity=200),), shelves, units="mm")


class Painted(QObject):
    """Notes which of the boards have been painted since it was last emptied."""

    def __init__(self, boards: tuple[QWidget, ...]) -> None:
        super().__init__()
        self.seen: set[QWidget] = set()
        for board in boards:
            board.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Paint and isinstance(watched, QWidget):
            self.seen.add(watched)
        return False


class Bench:
    """A window with a mouse in it."""

    def __init__(self, app: QApplication, project: Project) -> None:
        self.app = app
        self.window = Window(project)
        self.window.resize(1366, 768)
        self.window.show()
        self.canvas, self.fold = self.window.sheet.canvas, self.window.fold.picture
        self.boards: tuple[QWidget, ...] = (self.window.wall.picture, self.fold, self.canvas)
        self.painted = Painted(self.boards)
        self.at = QPointF()
        self._renewed = 0
        self._wait_for_solids()

    def _wait_for_solids(self) -> None:
        """Until the fold board draws solids, or has said that it cannot, and nothing turns or loads any more."""
        end = monotonic() + SETTLE_S
        while monotonic() < end and self.fold.stage is None and not self.fold.reason:
            self.app.processEvents(QEventLoop.ProcessEventsFlag.AllEvents, 50)
        end = monotonic() + 6.0
        while monotonic() < end:
            self.app.processEvents(QEventLoop.ProcessEventsFlag.AllEvents, 50)
        self.fold.touch()

    def wait_for_photograph(self) -> None:
        """Until the graphics card has it as fine as it gets."""

        def is_there() -> bool:
            stage = self.fold.stage
            held = list(stage.live._on_card.values()) if stage is not None else []
            return any(key.photos and which in ("middle", "whole") for key, which in held)

        end = monotonic() + SETTLE_S
        while not is_there():
            if monotonic() > end:
                raise RuntimeError("the photograph has not come to the fold")
            self.app.processEvents(QEventLoop.ProcessEventsFlag.AllEvents, 50)
        self._wait_for_solids()

    def quietest(self, work: Callable[[], list[float]]) -> list[float]:
        """The times of the quietest of a few runs."""
        return min((work() for _ in range(BATCHES)), key=lambda times: share(times, 50))

    # The mouse

    def send(self, widget: QWidget, kind: QEvent.Type, buttons: Qt.MouseButton) -> None:
        """One event where the pointer is."""
        there = QPointF(widget.mapToGlobal(self.at))
        button = NONE if kind == MOVE else LEFT
        event = QMouseEvent(kind, self.at, there, button, buttons, Qt.KeyboardModifier.NoModifier)
        QApplication.sendEvent(widget, event)

    def moved(self, widget: QWidget, boards: tuple[QWidget, ...]) -> float:
        """Milliseconds from the move's delivery until these boards have been painted and shown.

        0 where the project is still the same: something has caught the hand, and there is nothing to paint.
        """
        self.painted.seen.clear()
        before = self.window.store.project
        start = perf_counter()
        self.send(widget, MOVE, LEFT)
        if widget is self.canvas and self.window.store.project == before:
            return 0.0
        for _ in range(4):
            self.app.processEvents()
            if self.painted.seen.issuperset(boards):
                return (perf_counter() - start) * 1000.0
        missing = [board.objectName() for board in boards if board not in self.painted.seen]
        raise RuntimeError(f"not painted after a move: {missing}")

    def pull(self, stroke: Stroke) -> Iterator[float]:
        """One drag; yields the time of each move that changed the project."""
        store = self.window.store
        shelf = store.project.shelves[stroke.shelf].id
        store.select(shelf)
        self.window.sheet.refresh_selection()  # its sheet, also where it was selected before
        self.app.processEvents()
        handle = next(h for h in self.canvas.hand.reach.handles() if (h.about, h.key) == (shelf, stroke.handle))
        x, y = handle.number.axis
        outward = 1.0 if handle.number.per > 0.0 else -1.0
        step = QPointF(x, -y) * outward * stroke.pixels
        self.at = self.canvas.hand.reach.square(handle)
        self.send(self.canvas, PRESS, LEFT)
        self.at += step * 3.0
        self.send(self.canvas, MOVE, LEFT)
        self.app.processEvents()
        for _ in range(stroke.moves):
            self.at += step
            if time := self.moved(self.canvas, self.boards):
                yield time
        self.send(self.canvas, RELEASE, NONE)
        self.app.processEvents()

    # What is measured

    def drag_times(self) -> list[float]:
        """`EDITS` moves, each a new value, after `WARM_UP` others; no project comes twice."""
        times: list[float] = []
        seen: set[bytes] = set()
        gc.collect()
        while len(times) < EDITS + WARM_UP:
            self.renew()
            for stroke in STROKES:
                for time in self.pull(stroke):
                    times.append(time)
                    seen.add(msgspec.msgpack.encode(self.window.store.project))
        if len(seen) < 0.95 * len(times):
            raise RuntimeError(f"only {len(seen)} of {len(times)} projects were new")
        return times[WARM_UP : WARM_UP + EDITS]

    def renew(self) -> None:
        """A slightly wider kerf, so that what was remembered of earlier projects is of no use."""
        self._renewed += 1
        kerf = 2.0 + 1e-4 * self._renewed

        def change(project: Project) -> Project:
            return msgspec.structs.replace(project, saw=msgspec.structs.replace(project.saw, kerf=kerf))

        self.window.store.apply("Kerf", change)
        self.window.store.planner.settle()
        self.app.processEvents()

    def orbit_times(self) -> list[float]:
        """`EDITS` moves of a drag round the solids."""
        self.at = QPointF(self.fold.rect().center())
        self.send(self.fold, PRESS, LEFT)
        times = []
        for n in range(EDITS + WARM_UP):
            self.at += QPointF(3.0 if n // 60 % 2 else -3.0, 1.0 if n // 40 % 2 else -1.0)
            time = self.moved(self.fold, (self.fold,) if n > 3 else ())  # the first are not a drag yet
            times.append(time)
        self.send(self.fold, RELEASE, NONE)
        self.app.processEvents()
        return times[WARM_UP:]

    def growth(self) -> float:
        """Memory that many short drags leave behind. [MB]"""
        short = (Stroke(1, "length", 1, -1.3), Stroke(1, "length", 1, 1.3))
        for n in range(200):
            list(self.pull(short[n % 2]))
        before = self._resident()
        for n in range(DRAGS):
            list(self.pull(short[n % 2]))
        return self._resident() - before

    def _resident(self) -> float:
        self.app.sendPostedEvents(None, QEvent.Type.DeferredDelete)
        self.app.processEvents()
        gc.collect()
        pages = int(Path("/proc/self/statm").read_text().split()[1])
        return pages * os.sysconf("SC_PAGE_SIZE") / 1e6

    def close(self) -> None:
        """Away with the window, without asking."""
        store = self.window.store
        store.mark_saved(store.project, Path("bench"))
        self.window.close()
        self.window.deleteLater()
        self.app.sendPostedEvents(None, QEvent.Type.DeferredDelete)
        self.app.processEvents()
