"""Pictures of sheets' faces, made off the GUI thread and kept in memory: small ones first, then fine.

One thread makes one face at a time. Nothing of Qt is called there: the GUI looks for what is ready.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterable, Sequence
from queue import SimpleQueue
from threading import Event, Thread
from typing import TYPE_CHECKING, Final, Literal, NamedTuple
from zlib import crc32

from PySide6.QtCore import QObject, QTimer, Signal

from app.collecting import no_collecting
from app.fold.edges import edge_levels
from app.fold.levels import Bytes, levels_of
from app.fold.scene import EdgeKey
from app.pictures import remember, remembered
from core.document.model import Figure, Photo
from core.face import StoppedError, fine_size, small_size, veneer
from core.plan.model import StockSheet

if TYPE_CHECKING:
    from PIL.Image import Image

MOST: Final = {"edge": 32, "small": 24, "fine": 2}  # kept of each size, the newest: 0.1, 2 and 34 MB each
LOOK_MS: Final = 25  # how often the GUI looks for a face that is being made
CALM_MS: Final = 500  # a fine face is begun only after so long without other wishes

Levels = tuple[Bytes, ...]


def sheet_seed(sheet_id: str) -> int:
    """Which log a sheet's veneer is from: always the same for the same sheet."""
    return crc32(sheet_id.encode())


class Seen(NamedTuple):
    """A photograph, and where its picture lies."""

    photo: Photo
    path: str


class FaceKey(NamedTuple):
    """One face: a sheet's size and the seed of its log, how that was cut, and what was photographed of it."""

    length: float  # [mm]
    width: float  # [mm]
    seed: int
    figure: Figure = Figure()
    photos: tuple[Seen, ...] = ()


class Wish(NamedTuple):
    """A picture that is wanted, and how large."""

    key: FaceKey | EdgeKey
    size: Literal["edge", "small", "fine"]


class _Job(NamedTuple):
    wish: Wish
    stop: Event
    done: SimpleQueue[Levels | BaseException]


Where = Callable[[Photo], str]  # a photograph's file, '' while it cannot be shown


def nowhere(_photo: Photo) -> str:
    """Where there are no pictures."""
    return ""


def face_key(sheet: StockSheet, where: Where = nowhere) -> FaceKey:
    """The face of this sheet."""
    figure = sheet.source.figure
    seed = sheet_seed(sheet.id) if figure.seed is None else figure.seed + _copy(sheet)
    photos = tuple(Seen(photo, path) for photo in sheet.photos if (path := where(photo)))
    return FaceKey(sheet.length, sheet.width, seed, figure, photos)


def _copy(sheet: StockSheet) -> int:
    """Which copy of its stock a sheet is, from 0."""
    number = sheet.id.removeprefix(sheet.stock)
    return int(number) - 1 if number.isdecimal() else 0


_KEPT: Final[dict[str, OrderedDict[FaceKey | EdgeKey, Levels]]] = {size: OrderedDict() for size in MOST}


class Faces(QObject):
    """Makes the pictures that are wanted, edges first. `ready` is sent when one more is there."""

    ready = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._wanted: list[Wish] = []
        self._job: _Job | None = None
        self._look = QTimer(self, interval=LOOK_MS)
        self._look.timeout.connect(self._see)
        self._calm = QTimer(self, singleShot=True, interval=CALM_MS)
        self._calm.timeout.connect(self._start)

    def kept(self, wish: Wish) -> Levels | None:
        """The picture and its halvings, if it is there."""
        kept = _KEPT[wish.size]
        if wish.key in kept:
            kept.move_to_end(wish.key)
        return kept.get(wish.key)

    def want(self, edges: Iterable[EdgeKey], faces: Sequence[FaceKey]) -> None:
        """Make these edges, small faces for all of these, and fine ones for the first; the order is their rank."""
        wanted = [Wish(key, "edge") for key in edges] + [Wish(key, "small") for key in faces]
        wanted += [Wish(key, "fine") for key in faces[: MOST["fine"]]]
        self._wanted = [wish for wish in wanted if wish.key not in _KEPT[wish.size]]
        if self._job is not None and self._job.wish not in self._wanted:
            self._job.stop.set()
        self._begin()

    def stop(self) -> None:
        """Make no more."""
        self._wanted = []
        self._calm.stop()
        if self._job is not None:
            self._job.stop.set()

    @property
    def is_busy(self) -> bool:
        """Is anything being made, or still to be made?"""
        return self._job is not None or bool(self._wanted)

    def _begin(self) -> None:
        if self._job is not None or not self._wanted:
            return
        if self._wanted[0].size == "fine":
            self._calm.start()
        else:
            self._start()

    def _start(self) -> None:
        if self._job is None and self._wanted:
            self._job = _Job(self._wanted[0], Event(), SimpleQueue())
            Thread(target=_make, args=(self._job,), name="face", daemon=True).start()
            self._look.start()

    def _see(self) -> None:
        job = self._job
        if job is None or job.done.empty():
            return
        made = job.done.get()
        self._look.stop()
        self._job = None
        if isinstance(made, BaseException):
            if not isinstance(made, StoppedError):
                raise made
        else:
            self._wanted = [wish for wish in self._wanted if wish != job.wish]
            _keep(job.wish, made)
            self.ready.emit()
        self._begin()


def _make(job: _Job) -> None:
    """What the thread does."""
    try:
        with no_collecting():
            job.done.put(_levels(job.wish, job.stop.is_set) or StoppedError())
    except BaseException as error:  # raised again where it can be told
        job.done.put(error)


def _levels(wish: Wish, stop: Callable[[], bool]) -> Levels:
    key = wish.key
    if isinstance(key, EdgeKey):
        return edge_levels(key)
    pixels = (fine_size if wish.size == "fine" else small_size)(key.length, key.width)
    return levels_of(face_picture(key, pixels, stop), stop)


def face_picture(key: FaceKey, pixels: tuple[int, int], stop: Callable[[], bool] | None = None) -> Bytes:
    """A face of so many pixels, across and down; where a photograph fails, the made-up face stands in."""

    def ground() -> Bytes:
        look = key.figure
        return veneer(key.length, key.width, key.seed, *pixels, stop, cut=look.cut, wood=look.wood, match=look.match)

    if not key.photos:
        return ground()
    from core.photo.errors import PhotoError
    from core.photo.facing import photographed
    from core.photo.opening import open_picture, read_kept

    def opened(seen: Seen) -> Callable[[int], Image]:
        def at(wanted: int) -> Image:
            data = read_kept(seen.path, seen.photo.sum)
            found = remembered(seen.photo.sum, wanted)
            if found is None:
                found = open_picture(data, wanted)
                remember(seen.photo.sum, found)
            return found

        return at

    try:
        photos = [(seen.photo, opened(seen)) for seen in key.photos]
        return photographed(photos, ground, (key.length, key.width), pixels, stop)
    except PhotoError:  # it is told by `app.pictures`
        return ground()


def _keep(wish: Wish, levels: Levels) -> None:
    kept = _KEPT[wish.size]
    kept[wish.key] = levels
    kept.move_to_end(wish.key)
    while len(kept) > MOST[wish.size]:
        kept.popitem(last=False)
