"""The board of a sheet's photographs, in the sheet's place."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final, Literal

from PySide6.QtCore import QMimeData, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication, QImage, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QFileDialog

from app.boards.board import Board
from app.hand.grip import Handle
from app.photo.canvas import PhotoCanvas
from app.photo.edits import Part, Place, changed, kept_name, name_of_part, part_of, photo_at, turned, with_photo
from app.photo.handles import edge_line, photo_handles
from app.photo.opening import Opening, Picture, Source
from app.photo.side import PhotoSide
from app.store import Store
from app.theme import Theme
from core.document.errors import ProjectError
from core.document.model import Photo
from core.document.ranges import MAX_PHOTOS
from core.language import tr

KINDS: Final = tr("Pictures (*.jpg *.jpeg *.png *.webp *.tif *.tiff)")
EMPTY: Final = tr(
    "Drop a photograph of the sheet here, paste one (Ctrl+V), or click to open one. Stand "
    "square to the sheet, with all four corners in sight."
)
HOW: Final = tr("Drag the corners to the sheet's own; the middle of an edge puts the lens right.")
NOT_FOUND: Final = tr("The sheet does not stand out from its ground: drag the corners to it.")


Use = Literal["add", "show", "find"]


class PhotoBoard(Board):
    """`close_asked` brings the sheet back."""

    close_asked = Signal()

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("photo", tr("Photograph"), store, theme)
        self._number = 0
        self._stock = ""
        self._picture: tuple[str, object] | None = None  # checksum of what is shown, and the bytes the images lie on
        self._name = ""  # of what is being opened
        self._use: Use = "show"  # what is done with a picture that is opened
        self._trouble = ""
        self.opening = Opening(self)
        self.opening.opened.connect(self._take)
        self.opening.failed.connect(self._fail)
        self.opening.told.connect(self._tell)
        self.canvas = PhotoCanvas(store, theme)
        self.canvas.words = EMPTY
        self.canvas.handles = self._handles
        self.canvas.outline = self._outline
        self.canvas.wanted.connect(self.choose)
        self.side = PhotoSide(store, theme)
        self.side.even_set.connect(lambda share: self._change(tr("Evened light"), "even", even=share))
        self.side.mirror_set.connect(lambda mirror: self._change(tr("Turned over"), None, mirror=mirror))
        self.side.part_set.connect(self._set_part)
        self.side.turn_asked.connect(self._turn)
        self.side.find_asked.connect(self._find)
        self.side.remove_asked.connect(self._remove)
        self.set_beside(self.canvas, self.side, wide=self.canvas)
        self._add_tools()
        self.setAcceptDrops(True)
        store.pictures.changed.connect(self.refresh_plan)

    def _add_tools(self) -> None:
        stop = self.tool("stop", tr("Stop"), tr("Give the picture up (Escape)."), self._stop)
        before = self.tool("before", "‹", tr("The photograph before."), lambda: self._go(-1))
        after = self.tool("after", "›", tr("The next photograph."), lambda: self._go(1))
        before.setAccessibleName(tr("The photograph before"))
        after.setAccessibleName(tr("The next photograph"))
        self._stop_button, self._before, self._after = stop, before, after
        for widget in (
            stop,
            before,
            after,
            self.tool("open", tr("Open …"), tr("Open a picture of the sheet, or of part of it."), self.choose),
            self.tool("paste", tr("Paste"), tr("Take the picture from the clipboard (Ctrl+V)."), self.paste),
            self.tool("close", tr("Close"), tr("Back to the sheet."), self.close_asked.emit),
        ):
            self.add_tool(widget)

    # Which photograph

    @property
    def place(self) -> Place:
        """Of the photograph shown."""
        return (self.store.stock_index, self._number)

    @property
    def photo(self) -> Photo | None:
        """The photograph shown, None for none."""
        return photo_at(self.store.project, self.place)

    def _go(self, steps: int) -> None:
        self._number = min(max(self._number + steps, 0), max(0, len(self.store.stock.photos) - 1))
        self.refresh_plan()

    # A picture comes

    def choose(self) -> None:
        """Ask for a file."""
        folder = str(self.store.path.parent) if self.store.path else ""
        chosen, _ = QFileDialog.getOpenFileName(self, tr("Open a picture of the sheet"), folder, KINDS)
        if chosen:
            self.take(chosen, Path(chosen).name)

    def paste(self) -> None:
        """Take what the clipboard has."""
        self.take_mime(QGuiApplication.clipboard().mimeData(), "pasted")

    def take_mime(self, mime: QMimeData | None, name: str) -> bool:
        """Take a picture that is dropped or pasted; whether there is one."""
        for url in mime.urls() if mime is not None else ():
            if url.isLocalFile():
                self.take(url.toLocalFile(), Path(url.toLocalFile()).name)
                return True
        image = QImage(mime.imageData()) if mime is not None and mime.hasImage() else QImage()
        if image.isNull():
            self._fail(tr("there is no picture to take"), tr("The clipboard"))
            return False
        plain = image.convertToFormat(QImage.Format.Format_RGB888)
        rows = bytes(plain.constBits())
        stride, wide = plain.bytesPerLine(), 3 * plain.width()
        if stride != wide:
            rows = b"".join(rows[y * stride : y * stride + wide] for y in range(plain.height()))
        self.take((plain.width(), plain.height(), rows), name)
        return True

    def take(self, source: Source, name: str) -> None:
        """Open a picture and make it a photograph of the sheet: one more where the sheet has some."""
        self._trouble = ""
        if len(self.store.stock.photos) >= MAX_PHOTOS:
            self._fail(tr("is one too many: a sheet has at most {MAX_PHOTOS}", MAX_PHOTOS=MAX_PHOTOS), name)
            return
        self._name, self._use, self._stock = name, "add", self.store.stock.id
        self.opening.ask(source)
        self._say()

    def _take(self, picture: Picture) -> None:
        path = picture.path or self._path_of(picture)
        if self._use == "find" and self.photo is not None and self.photo.sum == picture.sum:
            self._change(tr("Found corners"), None, corners=picture.corners)
            self._trouble = "" if picture.found else NOT_FOUND
        if self._use == "add" and any(sheet.id == self._stock for sheet in self.store.project.sheets):
            self.store.pictures.add(path, picture.sum)
            self.store.choose_stock(self._stock)
            name = kept_name(self._name, picture.sum)
            self._number = len(self.store.stock.photos)
            photo = Photo(name, picture.sum, picture.corners)
            self._apply(tr("Photograph"), lambda project: with_photo(project, self.place, photo))
            self._trouble = "" if picture.found else NOT_FOUND
        self._show(picture)

    def _path_of(self, picture: Picture) -> str:
        where = self.store.pictures.where(Photo("", picture.sum, ()))
        return where or self.store.pictures.keep_pasted(picture.data, picture.sum)

    def _show(self, picture: Picture) -> None:
        self._picture = (picture.sum, picture.levels)
        kind = QImage.Format.Format_RGB888
        self.canvas.show_image([QImage(one.data, one.across, one.down, 3 * one.across, kind) for one in picture.levels])
        self._say()

    def _fail(self, why: str, name: str = "") -> None:
        self._trouble = f"{name or self._name} {why}."
        self._say()

    def _tell(self, words: str) -> None:
        self.subtitle.set_words(words)

    def _stop(self) -> None:
        self.opening.cancel()
        self._say()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if event.mimeData().hasUrls() or event.mimeData().hasImage():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        if self.take_mime(event.mimeData(), "dropped"):
            event.acceptProposedAction()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
        elif event.key() == Qt.Key.Key_Escape and self.opening.is_busy:
            self._stop()
        else:
            super().keyPressEvent(event)

    # On the picture

    def _handles(self) -> tuple[Handle, ...]:
        size = self.canvas.size_shown
        return photo_handles(self.store.project, self.place, size) if self._is_there() and not self.small else ()

    def _outline(self) -> list[list[tuple[float, float]]]:
        photo = self.photo
        if photo is None or not self._is_there():
            return []
        return [edge_line(photo, number, self.canvas.size_shown) for number in range(4)]

    def _is_there(self) -> bool:
        """Is the picture of the photograph shown?"""
        photo = self.photo
        return photo is not None and self._picture is not None and self._picture[0] == photo.sum

    # Edits

    def _apply(self, label: str, change: Callable[..., object], key: str | None = None) -> None:
        try:
            self.store.apply(label, change, f"photo {key}" if key else None)  # type: ignore[arg-type]  # of a project
        except ProjectError as error:
            self._trouble = f"{error.why[:1].upper()}{error.why[1:]}."
            self._say()

    def _change(self, label: str, key: str | None, **fields: object) -> None:
        self._apply(label, lambda project: changed(project, self.place, **fields), key)

    def _set_part(self, part: Part) -> None:
        if part != "other":
            self._change(tr("Part shown"), None, part=part_of(self.store.stock, part))

    def _turn(self) -> None:
        if (photo := self.photo) is not None:
            self._change(tr("Turned photograph"), None, corners=turned(photo).corners)

    def _find(self) -> None:
        """Propose the corners once more."""
        photo = self.photo
        if photo is None or self._picture is None:
            return
        if path := self.store.pictures.where(photo):
            self._name, self._use = photo.file, "find"
            self.opening.ask(path)
            self._say()

    def _remove(self) -> None:
        if self.photo is not None:
            self._apply(tr("Remove the photograph"), lambda project: with_photo(project, self.place, None))

    # Keeping up

    def refresh_plan(self) -> None:
        count = len(self.store.stock.photos)
        self._number = min(self._number, max(0, count - 1))
        photo = self.photo
        if photo is None and self._picture is not None:
            self._picture = None
            self.canvas.show_image([])
        elif photo is not None and not self._is_there() and not self.opening.is_busy:
            self._bring(photo)
        self._say()
        self.canvas.update()

    def refresh_selection(self) -> None:
        self.refresh_plan()

    def _bring(self, photo: Photo) -> None:
        """Open the picture of a photograph the document has already."""
        path = self.store.pictures.where(photo)
        self._picture = None
        self.canvas.show_image([])
        if path:
            self._name, self._use = photo.file, "show"
            self.opening.ask(path, find=False)

    def _say(self) -> None:
        photo, stock = self.photo, self.store.stock
        count = len(stock.photos)
        self.title.setText(tr("Photograph of sheet {id}", id=stock.id))
        busy = self.opening.is_busy
        for widget, shown in ((self._stop_button, busy), (self._before, count > 1), (self._after, count > 1)):
            widget.setVisible(shown)
        self._before.setEnabled(self._number > 0)
        self._after.setEnabled(self._number < count - 1)
        why = self.store.pictures.troubles.get(photo.sum, "") if photo is not None else ""
        self.canvas.words = f"{photo.file} {why}." if photo is not None and why else self._trouble or EMPTY
        if not busy:
            several = tr("{number} of {count}: ", number=self._number + 1, count=count) if count > 1 else ""
            self.subtitle.set_words(several + (self._trouble or (HOW if photo is not None else tr("none yet"))))
        self.side.show_photo(photo, name_of_part(stock, photo) if photo is not None else "all")
