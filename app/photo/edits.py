"""Changes of a sheet's photographs, as pure functions of the project. No Qt here."""

from __future__ import annotations

from pathlib import PurePath
from typing import Final, Literal

import msgspec

from app.naming import file_stem
from core.document.model import Mirror, Photo, Project, Sheet

Place = tuple[int, int]  # number of the stock, number of the photograph on it
Part = Literal["all", "left", "right", "lower", "upper", "other"]

ENDINGS: Final = {"JPEG": ".jpg", "MPO": ".jpg", "PNG": ".png", "WEBP": ".webp", "TIFF": ".tif"}
MIRRORS: Final[tuple[Mirror, ...]] = ("none", "along", "across")


def photo_at(project: Project, place: Place) -> Photo | None:
    """The photograph in a place, None where there is none."""
    at, number = place
    if not 0 <= at < len(project.sheets) or not 0 <= number < len(project.sheets[at].photos):
        return None
    return project.sheets[at].photos[number]


def with_photo(project: Project, place: Place, photo: Photo | None) -> Project:
    """The project with a photograph put in a place, at the end where there is none yet; None takes it away."""
    at, number = place
    photos = list(project.sheets[at].photos)
    photos[number : number + 1] = [] if photo is None else [photo]
    sheets = list(project.sheets)
    sheets[at] = msgspec.structs.replace(sheets[at], photos=tuple(photos))
    return msgspec.structs.replace(project, sheets=tuple(sheets))


def changed(project: Project, place: Place, **fields: object) -> Project:
    """The project with fields of a photograph replaced."""
    photo = photo_at(project, place)
    return project if photo is None else with_photo(project, place, msgspec.structs.replace(photo, **fields))


def kept_name(source: str, sum: str, kind: str = "PNG") -> str:
    """What a picture's file is called beside the project: no two pictures are called alike."""
    path = PurePath(source)
    stem = file_stem(path.stem, "picture")
    ending = path.suffix.lower() if path.suffix.lower() in (*ENDINGS.values(), ".jpeg", ".tiff") else ENDINGS[kind]
    return f"{stem} {sum[:8]}{ending}"


def part_of(sheet: Sheet, part: Part) -> tuple[float, float, float, float] | None:
    """What of a sheet one of the named parts is."""
    length, width = sheet.length, sheet.width
    return {
        "left": (0.0, 0.0, length / 2.0, width),
        "right": (length / 2.0, 0.0, length, width),
        "lower": (0.0, 0.0, length, width / 2.0),
        "upper": (0.0, width / 2.0, length, width),
    }.get(part)


def name_of_part(sheet: Sheet, photo: Photo) -> Part:
    """Which of the named parts a photograph shows."""
    if photo.part is None:
        return "all"
    names: tuple[Part, ...] = ("left", "right", "lower", "upper")
    return next((name for name in names if part_of(sheet, name) == photo.part), "other")


def turned(photo: Photo) -> Photo:
    """The corners a quarter further: another edge of what is seen is the lower one."""
    return msgspec.structs.replace(photo, corners=photo.corners[1:] + photo.corners[:1])
