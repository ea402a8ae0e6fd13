"""What makes a photograph of a sheet unusable although its numbers are in range: its file's name, corners, part."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from core.document.errors import ProjectError, quoted, words
from core.document.model import Photo, Sheet
from core.document.ranges import MAX_PHOTOS
from core.language import tr

MAX_NAME = 200  # characters: file systems take 255 bytes
LEAST_PART = 1.0  # mm: sides of the part of a sheet that a photograph shows
_SUM = re.compile("[0-9a-f]{64}")


def check_photos(sheets: Iterable[Sheet]) -> None:
    """Raises ProjectError at the first photograph that is none. Its numbers are known to be in range."""
    for n, sheet in enumerate(sheets):
        if len(sheet.photos) > MAX_PHOTOS:
            why = tr(
                "at most {MAX_PHOTOS} photographs of a sheet, there are {photos}",
                MAX_PHOTOS=MAX_PHOTOS,
                photos=len(sheet.photos),
            )
            raise ProjectError(words(("sheets", n, "photos")), why)
        for m, photo in enumerate(sheet.photos):
            for key, complaint in _complaints(photo):
                if complaint:
                    raise ProjectError(words(("sheets", n, "photos", m, key)), complaint)


def _complaints(photo: Photo) -> Iterable[tuple[str, str]]:
    yield "file", name_complaint(photo.file)
    yield (
        "sum",
        "" if _SUM.fullmatch(photo.sum) else tr("must be 64 hexadecimal digits, is {quoted}", quoted=quoted(photo.sum)),
    )
    yield "corners", corners_complaint(photo.corners)
    if photo.part is not None:
        x0, y0, x1, y1 = photo.part
        small = min(x1 - x0, y1 - y0) < LEAST_PART
        yield "part", tr("must be x0, y0, x1, y1 with at least 1 mm between them each way") if small else ""


def name_complaint(name: str) -> str:
    """What is wrong with the name of a picture's file, '' for nothing: it lies beside the project."""
    if not name.strip():
        return tr("must not be empty")
    if len(name) > MAX_NAME:
        return tr("must have at most {MAX_NAME} characters, has {name}", MAX_NAME=MAX_NAME, name=len(name))
    if any(c in name for c in "/\\:") or name.strip(". ") == "":
        return tr("must be a plain file name, is {quoted}", quoted=quoted(name))
    return ""


@lru_cache(maxsize=512)
def corners_complaint(corners: tuple[tuple[float, float], ...]) -> str:
    """What is wrong with four corners, '' for nothing; numpy is imported only where there is a photograph."""
    from core.photo.homography import corner_complaint

    return corner_complaint(corners)
