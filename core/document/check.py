"""What makes a project unusable although its file is well formed: ranges, ids, references.

What is only wrong with the design (a shelf too long for the sheet, a frame too low) is a finding of the plan.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

import msgspec

from core.document.apart import apart_complaint
from core.document.areas import check_areas
from core.document.errors import KeyPath, ProjectError, quoted, words
from core.document.model import Project, Sheet, Shelf, Studs
from core.document.photos import check_photos
from core.document.pointer import key_path
from core.document.ranges import MAX_SHEETS, MAX_SHELVES, RANGES
from core.document.revisions import check_revisions
from core.document.shape import read_value, text_complaint
from core.document.wall import check_wall
from core.language import tr
from core.lengths import Unit

MAX_ID = 100  # characters: it is written on a label


def check_project(project: Project) -> None:
    """Raises ProjectError at the first value out of range, id that is not unique, or unknown reference."""
    _check_counts(project)
    if complaint := text_complaint(project.name):
        raise ProjectError("name", complaint)
    for value, path in _structs(project):
        _check_ranges(value, path)
    _check_ids(project.sheets, "sheets")
    _check_ids(project.shelves, "shelves")
    _check_references(project)
    _check_apart(project.shelves)
    _check_ribs(project.shelves)
    check_wall(project.wall)
    check_areas(project.sheets)
    check_photos(project.sheets)
    _check_measured(project)
    check_revisions(project.revisions, check_project)


def field_error(pointer: str, value: object, unit: Unit = Unit.MM) -> str | None:
    """What is wrong with one value by itself (`must be more than 0 mm, is -3 mm`), None if nothing.

    pointer: JSON pointer of the field, "/shelves/0/depth".
    value: as in the file, lengths in mm; they are written in `unit`.
    Raises KeyError where the project has no such field.
    """
    path = key_path(pointer)
    try:
        owner, key, read = read_value(path, value)
    except ProjectError as error:
        return error.why
    if key == "id" and isinstance(read, str):
        return _id_complaint(read)
    limits = RANGES[owner].get(key)
    if limits is None:
        return None
    found = (limits.complaint(v, unit) for v, _ in _numbers(read, ()))
    return next((complaint for complaint in found if complaint), None)


def _check_counts(project: Project) -> None:
    if not project.sheets:
        raise ProjectError("sheets", tr("at least one sheet is needed, the list is empty"))
    for key, most in (("sheets", MAX_SHEETS), ("shelves", MAX_SHELVES)):
        count = len(getattr(project, key))
        if count > most:
            raise ProjectError(
                key, tr("at most {most} are planned at a time, there are {count}", most=most, count=count)
            )


def _structs(project: Project) -> Iterator[tuple[msgspec.Struct, KeyPath]]:
    """Every struct of the document with its place."""
    yield project, ()
    yield project.saw, ("saw",)
    for n, sheet in enumerate(project.sheets):
        yield sheet, ("sheets", n)
        for m, kept in enumerate(sheet.keep_clear):
            yield kept, ("sheets", n, "keep_clear", m)
        for m, photo in enumerate(sheet.photos):
            yield photo, ("sheets", n, "photos", m)
        yield sheet.figure, ("sheets", n, "figure")
    for n, shelf in enumerate(project.shelves):
        yield shelf, ("shelves", n)
        if shelf.mount is not None:
            yield shelf.mount, ("shelves", n, "mount")
    yield project.frame, ("frame",)
    yield project.wall, ("wall",)
    if isinstance(project.wall.studs, Studs):
        yield project.wall.studs, ("wall", "studs")
    if project.wall.alcove is not None:
        yield project.wall.alcove, ("wall", "alcove")
    for n, area in enumerate(project.wall.keep_outs):
        yield area, ("wall", "keep_outs", n)
    yield project.screw, ("screw",)
    for n, measured in enumerate(project.measured):
        yield measured, ("measured", n)


def _check_ranges(struct: msgspec.Struct, path: KeyPath) -> None:
    for key, limits in RANGES[type(struct)].items():
        for number, place in _numbers(getattr(struct, key), (*path, key)):
            if complaint := limits.complaint(number):
                raise ProjectError(words(place), complaint)


def _numbers(value: object, path: KeyPath) -> Iterator[tuple[float, KeyPath]]:
    """Every number in a value that may be a list of them, or of lists, with its place."""
    if isinstance(value, int | float):
        yield value, path
    elif isinstance(value, tuple):
        for n, item in enumerate(value):
            yield from _numbers(item, (*path, n))


def _id_complaint(text: str) -> str | None:
    if not text.strip():
        return tr("must not be empty")
    if "/" in text:
        return tr("must have no / in it, is {quoted}", quoted=quoted(text))
    if len(text) > MAX_ID:
        return tr("must have at most {MAX_ID} characters, has {text}", MAX_ID=MAX_ID, text=len(text))
    return text_complaint(text)


def _check_ids(items: Sequence[Sheet | Shelf], key: str) -> None:
    first: dict[str, int] = {}
    for n, item in enumerate(items):
        where = words((key, n, "id"))
        if complaint := _id_complaint(item.id):
            raise ProjectError(where, complaint)
        if item.id in first:
            raise ProjectError(
                where,
                tr(
                    "{quoted} is already the id of {key}[{first}]",
                    quoted=quoted(item.id),
                    key=key,
                    first=first[item.id],
                ),
            )
        first[item.id] = n


def _check_references(project: Project) -> None:
    known = {sheet.id for sheet in project.sheets}
    for n, shelf in enumerate(project.shelves):
        if shelf.sheet is not None and shelf.sheet not in known:
            some = ", ".join(quoted(sheet.id) for sheet in project.sheets[:5])
            why = tr("there is no sheet {quoted}; the sheets are {some}", quoted=quoted(shelf.sheet), some=some)
            raise ProjectError(words(("shelves", n, "sheet")), why + (", …" if len(known) > 5 else ""))


def _check_ribs(shelves: Sequence[Shelf]) -> None:
    for n, shelf in enumerate(shelves):
        if len(shelf.ribs) > MOST_RIBS_PUT:
            raise ProjectError(
                words(("shelves", n, "ribs")),
                tr("at most {MOST_RIBS_PUT}, there are {ribs}", MOST_RIBS_PUT=MOST_RIBS_PUT, ribs=len(shelf.ribs)),
            )


def _check_measured(project: Project) -> None:
    if len(project.measured) > MOST_MEASURED:
        raise ProjectError(
            "measured",
            tr(
                "at most {MOST_MEASURED}, there are {measured}",
                MOST_MEASURED=MOST_MEASURED,
                measured=len(project.measured),
            ),
        )
    for n, measured in enumerate(project.measured):
        if complaint := text_complaint(measured.of):
            raise ProjectError(words(("measured", n, "of")), complaint)


MOST_RIBS_PUT: Final = 100
MOST_MEASURED: Final = 1000


def _check_apart(shelves: Sequence[Shelf]) -> None:
    for n, shelf in enumerate(shelves):
        if shelf.apart and (complaint := apart_complaint(shelf)):
            raise ProjectError(words(("shelves", n, "apart")), complaint)
