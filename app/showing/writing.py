"""Writing pictures and models of the shelves: asked where, made in a thread, the file whole or not there."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal

from PySide6.QtCore import QObject

from app.bottomline import Answer, BottomLine
from app.fold.faces import Faces, Wish, face_key, face_picture
from app.fold.levels import Bytes
from app.showing.wish import Showing
from app.store import Store
from app.working import Job, Stop, Tell, Working
from core.face import fine_size, small_size
from core.language import tr
from core.plan.model import Plan, StockSheet

if TYPE_CHECKING:
    from app.window.exporting import Exporting

Kind = Literal["picture", "turntable", "model"]
KINDS: Final[dict[Kind, tuple[str, str, str]]] = {  # what it is called, its ending, its files
    "picture": (tr("picture"), "png", tr("Pictures (*.png)")),
    "turntable": (tr("turntable"), "webp", tr("Moving pictures (*.webp)")),
    "model": (tr("model"), "glb", tr("Models (*.glb)")),
}


class Writing(QObject):
    """Writes one file at a time."""

    def __init__(self, store: Store, line: BottomLine, exporting: Exporting, parent: QObject) -> None:
        super().__init__(parent)
        self._store, self._line, self._exporting = store, line, exporting
        self._path = Path()
        self.working = Working(self)
        self.working.told.connect(self._say_busy)
        self.working.done.connect(self._written)
        self.working.failed.connect(self._failed)

    def ask(self, kind: Kind, wish: Showing) -> bool:
        """Ask where, and write it there. Returns whether it is begun."""
        what, ending, kinds = KINDS[kind]
        path = self._exporting.ask_where(what, ending, kinds)
        return path is not None and self._exporting.over(path, partial(self.write, kind, wish, path))

    def write(self, kind: Kind, wish: Showing, path: Path) -> bool:
        """Write it there."""
        self._path = path
        plan = self._exporting.settled()
        self.working.ask(job_of(kind, plan, wish, faces_for(plan, self._store, is_fine=True), path))
        self._say_busy(0.0)
        return True

    def _say_busy(self, share: float) -> None:
        words = tr("Writing {name}: {share:.0%}.", name=self._path.name, share=share)
        self._line.say("note", words, (Answer("answer_cancel", tr("Call it off"), self._call_off),))

    def _call_off(self) -> None:
        self.working.cancel()
        self._line.say("fine", tr("Called off: nothing is written."))

    def _written(self, _outcome: object) -> None:
        self._exporting.say_written(self._path)

    def _failed(self, error: BaseException) -> None:
        self._line.say("error", tr("Not written. {name}: {why}.", name=self._path.name, why=reason(error)))


def reason(error: BaseException) -> str:
    """Why a picture could not be made or written, in a few words."""
    from core.document.errors import os_reason

    if isinstance(error, OSError):
        return os_reason(error)
    return f"{type(error).__name__}: {error}".splitlines()[0][:160]


def job_of(kind: Kind, plan: Plan, wish: Showing, face_of: Callable[[StockSheet], Bytes], path: Path) -> Job:
    """Makes a file's bytes, and puts them where they are to be."""

    def job(stop: Stop, told: Tell) -> None:
        from core.export.atomic import write_atomically
        from core.face import StoppedError

        data = _bytes(kind, plan, wish, face_of, stop, told)
        if stop():
            raise StoppedError
        write_atomically(path, data)

    return job


def _bytes(
    kind: Kind,
    plan: Plan,
    wish: Showing,
    face_of: Callable[[StockSheet], Bytes],
    stop: Stop,
    told: Tell,
) -> bytes:
    if kind == "model":
        from app.showing.model import model_bytes

        return model_bytes(plan, wish, face_of, stop, told)
    if kind == "turntable":
        from app.showing.turntable import turntable_bytes

        return turntable_bytes(plan, wish, face_of, stop, told)
    from app.showing.still import png_bytes, still

    return png_bytes(still(plan, wish, face_of, stop, told))


def faces_for(plan: Plan, store: Store, *, is_fine: bool) -> Callable[[StockSheet], Bytes]:
    """Makes sheets' faces in a thread; those that are there already are taken. Call it in the GUI's thread."""
    faces, where = Faces(), store.pictures.where
    keys = {sheet.id: face_key(sheet, where) for sheet in plan.sheets}
    there: dict[str, Bytes] = {}
    for name, key in keys.items():
        for size in ("fine", "small"):
            levels = faces.kept(Wish(key, "fine" if size == "fine" else "small"))
            if levels is not None and (size == "fine" or not is_fine):
                there[name] = levels[0]
                break

    def made(sheet: StockSheet) -> Bytes:
        if sheet.id in there:
            return there[sheet.id]
        key = keys.get(sheet.id) or face_key(sheet, where)
        pixels = (fine_size if is_fine else small_size)(key.length, key.width)
        return face_picture(key, pixels)

    return made
