"""Opening a picture off the GUI thread: read, unpacked, its sheet looked for. Nothing of Qt is called in the thread."""

from __future__ import annotations

import io
from functools import partial
from typing import TYPE_CHECKING, Final, NamedTuple

from PySide6.QtCore import QObject, Signal

from app.pictures import remember
from app.working import Stop, Tell, Working
from core.face import StoppedError
from core.language import tr
from core.photo.errors import PhotoError
from core.photo.homography import Quad

if TYPE_CHECKING:
    from PIL.Image import Image

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


class Opening(QObject):
    """One picture at a time. `opened` carries a `Picture`, `failed` why not, `told` what is being done."""

    opened = Signal(object)
    failed = Signal(str)
    told = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._working = Working(self)
        self._working.told.connect(self._tell)
        self._working.done.connect(self.opened)
        self._working.failed.connect(self._fail)

    @property
    def is_busy(self) -> bool:
        """Is a picture being opened?"""
        return self._working.is_busy

    def ask(self, source: Source, *, find: bool = True) -> None:
        """Open this one; an earlier one is given up. find: look for the sheet on it."""
        self._working.ask(partial(_picture, source, find))

    def cancel(self) -> None:
        """Give it up; nothing will come of it."""
        self._working.cancel()

    def _tell(self, words: object) -> None:
        self.told.emit(str(words))

    def _fail(self, error: BaseException) -> None:
        if not isinstance(error, PhotoError):
            raise error
        self.failed.emit(str(error))


def _picture(source: Source, find: bool, stop: Stop, tell: Tell) -> Picture:
    from core.photo.corners import proposed_corners
    from core.photo.opening import checksum, open_picture, read_picture

    tell(tr("Reading the picture …"))
    path = source if isinstance(source, str) else ""
    data = read_picture(source) if isinstance(source, str) else source if isinstance(source, bytes) else _png(source)
    _go_on(stop)
    tell(tr("Unpacking the picture …"))
    image = open_picture(data, WANTED)
    _go_on(stop)
    if max(image.size) > 1.6 * WANTED:
        image = image.reduce(round(max(image.size) / WANTED))
    sum = checksum(data)
    remember(sum, image)
    tell(tr("Looking for the sheet …"))
    corners, found = proposed_corners(image) if find else (((0.0, 1.0), (1.0, 1.0), (1.0, 0.0), (0.0, 0.0)), False)
    _go_on(stop)
    return Picture(_levels(image), sum, path, data, corners, found)


def _go_on(stop: Stop) -> None:
    if stop():
        raise StoppedError


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
