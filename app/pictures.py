"""The pictures that the document's photographs are made of: where each lies, and what is wrong with it.

A picture lies beside the project's file, under the name the photograph gives; one added since the last save still lies
where it came from. Its checksum says that it is the one. Files are read in a thread; nothing of Qt is called there.
"""

from __future__ import annotations

import os
import tempfile
from collections import OrderedDict
from collections.abc import Iterator
from pathlib import Path
from queue import SimpleQueue
from threading import Thread
from typing import TYPE_CHECKING, Final, NamedTuple

from PySide6.QtCore import QObject, QTimer, Signal

from core.document.model import Photo, Project
from core.language import tr
from core.photo.errors import PhotoError

if TYPE_CHECKING:
    from PIL.Image import Image

    from app.store.state import State

LOOK_MS: Final = 20  # how often the GUI looks whether the thread is done


_OPENED: Final[OrderedDict[str, Image]] = OrderedDict()  # the newest last: so that a face is made again quickly
MOST_OPENED: Final = 2
MOST_PIXELS: Final = 9_000_000  # of one that is kept


def remember(sum: str, image: Image) -> None:
    """Keep an opened picture for a while, unless it is a large one. For any thread."""
    if image.width * image.height <= MOST_PIXELS:
        _OPENED[sum] = image
        _OPENED.move_to_end(sum)
        while len(_OPENED) > MOST_OPENED:
            _OPENED.popitem(last=False)


def remembered(sum: str, wanted: int) -> Image | None:
    """A picture opened lately, if it is fine enough. wanted: pixels of its longer side."""
    image = _OPENED.get(sum)
    return image if image is not None and max(image.size) >= wanted else None


class _Question(NamedTuple):
    sum: str
    paths: tuple[str, ...]  # where it may lie, the likeliest first


class _Answer(NamedTuple):
    sum: str
    path: str  # where it lies, '' for nowhere
    why: str  # what is wrong, to follow the file's name


def photos_of(project: Project) -> Iterator[Photo]:
    """All photographs of a project."""
    return (photo for sheet in project.sheets for photo in sheet.photos)


def look_for(sum: str, paths: tuple[str, ...]) -> _Answer:
    """Where the picture with that checksum lies."""
    from core.photo.opening import read_kept

    why = tr("is not there")
    for path in paths:
        try:
            read_kept(path, sum)
            return _Answer(sum, path, "")
        except PhotoError as error:
            why = str(error)
    return _Answer(sum, "", why)


class Pictures(QObject):
    """`changed`: other pictures can be shown than before."""

    changed = Signal()

    def __init__(self, store: State) -> None:
        super().__init__(store)
        self._store = store
        self._added: dict[str, str] = {}  # where pictures lie that were added, by checksum
        self._there: dict[str, str] = {}
        self._asked: set[_Question] = set()
        self._answers: SimpleQueue[_Answer] = SimpleQueue()
        self._waiting = 0
        self.troubles: dict[str, str] = {}
        self._look = QTimer(self, interval=LOOK_MS)
        self._look.timeout.connect(self._take)
        store.changed.connect(self.check)
        store.state_changed.connect(self.check)

    def where(self, photo: Photo) -> str:
        """The file that a photograph is made from; '' while it is not known to be there."""
        return self._there.get(photo.sum, "")

    @property
    def is_busy(self) -> bool:
        """Is a file being looked at?"""
        return self._waiting > 0

    def add(self, path: str, sum: str) -> None:
        """A picture has been opened that may become a photograph of a sheet."""
        self._added[sum] = self._there[sum] = path
        self.troubles.pop(sum, None)

    def keep_pasted(self, data: bytes, sum: str) -> str:
        """Lay down a picture that has no file yet; returns where. It goes beside the project when that is saved."""
        folder = tempfile.mkdtemp(prefix="grainfold-")
        path = os.path.join(folder, "pasted.png")
        Path(path).write_bytes(data)
        self.add(path, sum)
        return path

    def check(self) -> None:
        """See whether the document's pictures are there, where that is not known."""
        photos = list(photos_of(self._store.project))
        if not photos and not self._there and not self.troubles:
            return
        fresh = {self._question(photo) for photo in photos} - self._asked
        self._asked |= fresh
        if fresh:
            self._waiting += len(fresh)
            Thread(target=_look_at, args=(fresh, self._answers), name="pictures", daemon=True).start()
            self._look.start()

    def check_again(self) -> None:
        """Look at all of them again: somebody may have put one back."""
        self._asked.clear()
        self.check()

    def _question(self, photo: Photo) -> _Question:
        paths = [self._added[photo.sum]] if photo.sum in self._added else []
        if self._store.path is not None:
            paths.append(os.fspath(self._store.path.parent / photo.file))
        return _Question(photo.sum, tuple(paths))

    def _take(self) -> None:
        is_other = False
        while not self._answers.empty():
            answer = self._answers.get()
            self._waiting -= 1
            before = (self._there.get(answer.sum), self.troubles.get(answer.sum))
            self._there.pop(answer.sum, None)
            self.troubles.pop(answer.sum, None)
            if answer.path:
                self._there[answer.sum] = answer.path
            else:
                self.troubles[answer.sum] = answer.why
            is_other |= before != (self._there.get(answer.sum), self.troubles.get(answer.sum))
        if not self._waiting:
            self._look.stop()
        if is_other:
            self.changed.emit()

    def lay_beside(self, project: Project, path: Path) -> str:
        """Copy the pictures that do not lie beside the project's file yet. Returns what went wrong, '' for nothing."""
        from core.document.errors import os_reason
        from core.export.atomic import write_atomically
        from core.photo.opening import read_kept

        for photo in photos_of(project):
            target = path.parent / photo.file
            source = self._there.get(photo.sum, "")
            if not source or target.exists():
                continue
            try:
                write_atomically(target, read_kept(source, photo.sum))
            except PhotoError as error:
                return f"{photo.file} {error}"
            except OSError as error:
                return tr("{file} cannot be written: {os_reason}", file=photo.file, os_reason=os_reason(error))
        return ""


def _look_at(questions: set[_Question], answers: SimpleQueue[_Answer]) -> None:
    """What the thread does."""
    for question in questions:
        try:
            answers.put(look_for(question.sum, question.paths))
        except Exception as error:  # whatever it is, the window waits for an answer
            answers.put(_Answer(question.sum, "", tr("cannot be read: {error}", error=error)))
