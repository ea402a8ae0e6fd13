"""Opening a picture off the GUI thread: read, unpacked, its sheet looked for. Nothing of Qt is called in the thread."""

from __future__ import annotations

import io
from collections.abc import Callable
from queue import SimpleQueue
from threading import Event, Thread
from typing import TYPE_CHECKING, Final, NamedTuple

from PySide6.QtCore import QObject, QTimer, Signal

from app.fold.collecting import no_collecting
from app.pictures import remember
from core.language import tr
from core.photo.errors import PhotoError
from core.photo.homography import Quad

if TYPE_CHECKING:
    from PIL.Image import Image

LOOK_MS: Final = 15
LEAST_LEVEL: Final = 700  # pixels: no smaller board is worth a picture of its own
WANTED: Final = 3000  # pixels of the longer side: what corners are placed on

Source = str | bytes | tuple[int, int, bytes]  # a path, a file's bytes, or bare pixels: width, height, RGB


class Level(NamedTuple):
    """A picture at one size, RGB bytes row by row."""

    across: int
    down: int
    data: bytes


class Picture(NamedTuple):
    """A picture that was opened, and what was found on it."""

    levels: tuple[Level, ...]  # the picture no finer than corners are placed on, and halved again and again
    sum: str
    path: str  # where it lies, '' for nowhere yet
    data: bytes  # of its file
    corners: Quad
    found: bool  # whether the sheet stood out from its ground


Said = SimpleQueue[str | Picture | BaseException]


class Opening(QObject):
    """One picture at a time. `opened` carries a `Picture`, `failed` why not, `told` what is being done."""

    opened = Signal(object)
    failed = Signal(str)
    told = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._stop: Event | None = None
        self._said: Said = SimpleQueue()
        self._look = QTimer(self, interval=LOOK_MS)
        self._look.timeout.connect(self._see)

    @property
    def is_busy(self) -> bool:
        """Is a picture being opened?"""
        return self._stop is not None

    def ask(self, source: Source, *, find: bool = True) -> None:
        """Open this one; an earlier one is given up. find: look for the sheet on it."""
        self.cancel()
        self._stop, self._said = Event(), SimpleQueue()
        job = (source, find, self._stop, self._said)
        Thread(target=_open, args=job, name="picture", daemon=True).start()
        self._look.start()

    def cancel(self) -> None:
        """Give it up; nothing will come of it."""
        if self._stop is not None:
            self._stop.set()
            self._stop = None
            self._look.stop()

    def _see(self) -> None:
        while not self._said.empty() and self._stop is not None:
            said = self._said.get()
            if isinstance(said, str):
                self.told.emit(said)
                continue
            self.cancel()
            if isinstance(said, Picture):
                self.opened.emit(said)
            elif isinstance(said, PhotoError):
                self.failed.emit(str(said))
            else:
                raise said


def _open(source: Source, find: bool, stop: Event, said: Said) -> None:
    try:
        with no_collecting():
            picture = _picture(source, find, stop.is_set, said.put)
        if picture is not None:
            said.put(picture)
    except BaseException as error:  # raised again where it can be told
        said.put(error)


def _picture(source: Source, find: bool, stop: Callable[[], bool], tell: Callable[[str], None]) -> Picture | None:
    from core.photo.corners import proposed_corners
    from core.photo.opening import checksum, open_picture, read_picture

    tell(tr("Reading the picture …"))
    path = source if isinstance(source, str) else ""
    data = read_picture(source) if isinstance(source, str) else source if isinstance(source, bytes) else _png(source)
    if stop():
        return None
    tell(tr("Unpacking the picture …"))
    image = open_picture(data, WANTED)
    if stop():
        return None
    if max(image.size) > 1.6 * WANTED:
        image = image.reduce(round(max(image.size) / WANTED))
    sum = checksum(data)
    remember(sum, image)
    tell(tr("Looking for the sheet …"))
    corners, found = proposed_corners(image) if find else (((0.0, 1.0), (1.0, 1.0), (1.0, 0.0), (0.0, 0.0)), False)
    return None if stop() else Picture(_levels(image), sum, path, data, corners, found)


def _levels(image: Image) -> tuple[Level, ...]:
    """Made here, so that the window has only to lay them down."""
    found = [image]
    while max(found[-1].size) > LEAST_LEVEL:
        found.append(found[-1].reduce(2))
    return tuple(Level(*level.size, level.tobytes()) for level in found)


def _png(pixels: tuple[int, int, bytes]) -> bytes:
    """Bare pixels as a file."""
    from PIL import Image

    width, height, data = pixels
    stream = io.BytesIO()
    Image.frombuffer("RGB", (width, height), data, "raw", "RGB", 0, 1).save(stream, "PNG", compress_level=1)
    return stream.getvalue()
