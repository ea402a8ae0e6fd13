"""Reads faces and measures seams off the GUI thread. Nothing of Qt is called in the thread."""

from __future__ import annotations

from collections.abc import Callable
from queue import SimpleQueue
from threading import Event, Thread
from typing import Final, NamedTuple

from PySide6.QtCore import QObject, QTimer, Signal

from app.fold.collecting import no_collecting
from app.fold.faces import FaceKey, Faces, Wish, face_key, face_picture
from app.fold.levels import Bytes, halved
from app.pictures import Pictures
from core.face import StoppedError, fine_size
from core.figure.better import Better, better_places
from core.figure.match import SeamFigure, measured
from core.figure.places import SeamPlace, seam_places
from core.figure.strips import both_sides
from core.plan.model import Plan

LOOK_MS: Final = 20


class Strip(NamedTuple):
    """One seam: where it lies, what was measured, and its two sides as RGB bytes row by row."""

    place: SeamPlace
    figure: SeamFigure
    across: int
    down: int
    data: bytes
    meets: float  # the row where the sides meet
    pitch: float  # mm in a pixel


class Reader(QObject):
    """`read` carries a list of `Strip`, `better` the best place so far; `done` comes after the last of either."""

    read = Signal(object)
    better = Signal(object)
    done = Signal()

    def __init__(self, pictures: Pictures, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pictures = pictures
        self._faces = Faces(self)
        self._stop: Event | None = None
        self._said: SimpleQueue[object] = SimpleQueue()
        self._look = QTimer(self, interval=LOOK_MS)
        self._look.timeout.connect(self._see)

    @property
    def is_busy(self) -> bool:
        """Is anything being worked out?"""
        return self._stop is not None

    def measure(self, plan: Plan, shelf: str) -> None:
        """Measure the seams of a shelf."""
        places = seam_places(plan, shelf)
        keys = self._keys(plan, {place.sheet for place in places})
        self._begin(lambda stop, tell: tell(_strips(places, _made(keys, stop))))

    def search(self, plan: Plan, shelf: str) -> None:
        """Look for a better place for a shelf."""
        home = {net.sheet for net in plan.nets if net.shelf == shelf and net.panel is None}
        keys = self._keys(plan, home)

        def job(stop: Callable[[], bool], tell: Callable[[object], None]) -> None:
            for fine in _made(keys, stop).values():
                for found in better_places(plan, shelf, halved(halved(fine[1])), fine[1], stop):
                    tell(found)

        self._begin(job)

    def cancel(self) -> None:
        """Give it up."""
        if self._stop is not None:
            self._stop.set()
            self._stop = None
            self._look.stop()

    def _keys(self, plan: Plan, sheets: set[str]) -> dict[str, tuple[FaceKey, Bytes | None]]:
        """The faces of sheets, with those that are there already."""
        found: dict[str, tuple[FaceKey, Bytes | None]] = {}
        for sheet in plan.sheets:
            if sheet.id in sheets:
                key = face_key(sheet, self._pictures.where)
                levels = self._faces.kept(Wish(key, "fine"))
                found[sheet.id] = (key, levels[0] if levels is not None else None)
        return found

    def _begin(self, job: Callable[[Callable[[], bool], Callable[[object], None]], None]) -> None:
        self.cancel()
        self._stop, self._said = Event(), SimpleQueue()
        Thread(target=_work, args=(job, self._stop, self._said), name="figure", daemon=True).start()
        self._look.start()

    def _see(self) -> None:
        while not self._said.empty() and self._stop is not None:
            said = self._said.get()
            if isinstance(said, Better):
                self.better.emit(said)
            elif isinstance(said, list):
                self.read.emit(said)
            elif said is None:
                self.cancel()
                self.done.emit()
            elif isinstance(said, BaseException):
                self.cancel()
                raise said


def _work(
    job: Callable[[Callable[[], bool], Callable[[object], None]], None], stop: Event, said: SimpleQueue[object]
) -> None:
    try:
        with no_collecting():
            job(stop.is_set, said.put)
        said.put(None)
    except StoppedError:
        return
    except BaseException as error:  # raised again where it can be told
        said.put(error)


def _made(keys: dict[str, tuple[FaceKey, Bytes | None]], stop: Callable[[], bool]) -> dict[str, tuple[FaceKey, Bytes]]:
    found = {}
    for sheet, (key, face) in keys.items():
        made = face if face is not None else face_picture(key, fine_size(key.length, key.width), stop)
        found[sheet] = (key, made)
    return found


def _strips(places: tuple[SeamPlace, ...], faces: dict[str, tuple[FaceKey, Bytes]]) -> list[Strip]:
    found = []
    for place in places:
        key, face = faces[place.sheet]
        span = (key.length, key.width)
        picture, meets = both_sides(face, span, place)
        pitch = key.length / face.shape[1] if place.runs == "x" else key.width / face.shape[0]
        figure = measured(face, span, place)
        found.append(Strip(place, figure, picture.shape[1], picture.shape[0], picture.tobytes(), meets, pitch))
    return found
