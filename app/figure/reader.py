"""Reads faces and measures seams off the GUI thread. Nothing of Qt is called in the thread."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from app.fold.faces import FaceKey, Faces, Wish, face_key, face_picture
from app.fold.levels import Bytes, halved
from app.pictures import Pictures
from app.working import Stop, Tell, Working
from core.face import fine_size
from core.figure.better import Better, better_places
from core.figure.match import SeamFigure, measured
from core.figure.places import SeamPlace, seam_places
from core.figure.strips import both_sides
from core.plan.model import Plan


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
        self._working = Working(self)
        self._working.told.connect(self._hear)
        self._working.done.connect(self._end)
        self._working.failed.connect(self._fail)

    @property
    def is_busy(self) -> bool:
        """Is anything being worked out?"""
        return self._working.is_busy

    def measure(self, plan: Plan, shelf: str) -> None:
        """Measure the seams of a shelf."""
        places = seam_places(plan, shelf)
        keys = self._keys(plan, {place.sheet for place in places})
        self._working.ask(lambda stop, tell: tell(_strips(places, _made(keys, stop))))

    def search(self, plan: Plan, shelf: str) -> None:
        """Look for a better place for a shelf."""
        home = {net.sheet for net in plan.nets if net.shelf == shelf and net.panel is None}
        keys = self._keys(plan, home)

        def job(stop: Stop, tell: Tell) -> None:
            for fine in _made(keys, stop).values():
                for found in better_places(plan, shelf, halved(halved(fine[1])), fine[1], stop):
                    tell(found)

        self._working.ask(job)

    def cancel(self) -> None:
        """Give it up."""
        self._working.cancel()

    def _keys(self, plan: Plan, sheets: set[str]) -> dict[str, tuple[FaceKey, Bytes | None]]:
        """The faces of sheets, with those that are there already."""
        found: dict[str, tuple[FaceKey, Bytes | None]] = {}
        for sheet in plan.sheets:
            if sheet.id in sheets:
                key = face_key(sheet, self._pictures.where)
                levels = self._faces.kept(Wish(key, "fine"))
                found[sheet.id] = (key, levels[0] if levels is not None else None)
        return found

    def _hear(self, said: object) -> None:
        if isinstance(said, Better):
            self.better.emit(said)
        else:
            self.read.emit(said)

    def _end(self, _nothing: object) -> None:
        self.done.emit()

    def _fail(self, error: BaseException) -> None:
        raise error


def _made(keys: dict[str, tuple[FaceKey, Bytes | None]], stop: Stop) -> dict[str, tuple[FaceKey, Bytes]]:
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
