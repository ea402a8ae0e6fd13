"""The sheet's own face on the sheet board, photographed or of a chosen look, made or borrowed without holding the
window."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtGui import QImage

from app.paint.wood import WoodFace
from app.store import Store
from app.theme import Theme
from core.document.model import Figure
from core.drawing.style import COLOURS
from core.plan.model import StockSheet

if TYPE_CHECKING:
    from app.fold.faces import FaceKey, Faces

LOOK_MS: Final = 120  # how often it is looked for while the fold board has it made
PATIENCE: Final = 8  # looks, before it is made here


class BoardFace(QObject):
    """`changed`: the face is another one, or has come."""

    changed = Signal()

    def __init__(self, store: Store, theme: Theme, parent: QObject) -> None:
        super().__init__(parent)
        self._store, self._theme = store, theme
        self._key: FaceKey | None = None
        self._faces: Faces | None = None
        self._looks = 0
        self._has = ""  # which size is shown
        self.face: WoodFace | None = None
        self._look = QTimer(self, interval=LOOK_MS)
        self._look.timeout.connect(self._see)
        theme.changed.connect(self._again)

    def show(self, sheet: StockSheet | None) -> None:
        """The face of this sheet from now on, None for none. One whose look nobody has chosen stays plain wood."""
        is_chosen = sheet is not None and sheet.source.figure != Figure()
        if sheet is None or not (sheet.photos or is_chosen):
            self._drop()
            return
        from app.fold.faces import face_key  # numpy comes with it: only where there is a face to show

        key = face_key(sheet, self._store.pictures.where)
        if not key.photos and not is_chosen:
            self._drop()
        elif key != self._key:
            self._key, self._looks, self._has = key, 0, ""
            self._see()

    def _drop(self) -> None:
        self._look.stop()
        self._key, self._has = None, ""
        if self.face is not None:
            self.face = None
            self.changed.emit()

    def _again(self) -> None:
        self._has = ""
        self._see()

    def _see(self) -> None:
        """Take the finest there is; go on looking for a finer one for a while."""
        if self._key is None:
            return
        from app.fold.faces import Faces, Wish

        if self._faces is None:
            self._faces = Faces(self)
        self._looks += 1
        for size, level in (("fine", 1), ("small", 0)):
            levels = self._faces.kept(Wish(self._key, "fine" if size == "fine" else "small"))
            if levels is not None:
                if size != self._has:
                    self._take(levels[level].tobytes(), levels[level].shape[1], levels[level].shape[0])
                    self._has = size
                break
        if self._has == "" and self._looks == PATIENCE:
            self._faces.want([], [self._key])
        if self._has == "fine" or self._looks > 40 * PATIENCE:
            self._look.stop()
        else:
            self._look.start()

    def _take(self, data: bytes, across: int, down: int) -> None:
        assert self._key is not None
        image = QImage(data, across, down, 3 * across, QImage.Format.Format_RGB888)
        wood = COLOURS["dark" if self._theme.palette.name == "dark" else "light"]["wood"]
        self.face = WoodFace(image, self._key.length, self._key.width, wood)
        self.changed.emit()
