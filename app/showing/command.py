"""Pictures of the shelves by the command line."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from app.export_command import ExportError
from app.showing.still import face_maker, png_bytes, still
from app.showing.wish import LEAST, MOST, WALL, Showing, first_showing
from core.document.model import Photo
from core.language import tr
from core.plan.model import Plan

if TYPE_CHECKING:
    from app.export_command import Wish
    from app.fold.faces import Where

FINISHES = ("raw", "oiled")


def check_look(wish: Wish) -> None:
    """What can be known before the plan is made. Raises ExportError."""
    if wish.finish is not None and wish.finish not in FINISHES:
        raise ExportError(f"--finish {wish.finish}", tr("must be raw or oiled"))
    if wish.pixels is not None:
        _pixels(wish.pixels)


def picture_bytes(plan: Plan, wish: Wish, ending: str, folder: Path) -> bytes:
    """The file with that ending. folder: where the pictures of photographs lie. Raises ExportError."""
    showing, faces = _showing(plan, wish), face_maker(_where(plan, folder))
    if ending == ".glb":
        from app.showing.model import model_bytes

        return model_bytes(plan, showing, faces)
    if ending == ".webp":
        from app.showing.turntable import turntable_bytes

        return turntable_bytes(plan, showing, faces)
    return png_bytes(still(plan, showing, faces))


def _showing(plan: Plan, wish: Wish) -> Showing:
    showing = first_showing(plan)
    shelves = {shelf.id: shelf for shelf in plan.project.shelves}
    if not shelves:
        raise ExportError("--show", tr("there is no shelf to show"))
    if wish.show == "wall" and "wall" not in shelves:
        if all(shelf.mount is None for shelf in shelves.values()):
            raise ExportError("--show wall", tr("no shelf has a place on the wall"))
        showing = msgspec.structs.replace(showing, shelf=WALL)
    elif wish.show is not None:
        if wish.show not in shelves:
            raise ExportError(f"--show {wish.show}", tr("must be wall or one of {names}", names=", ".join(shelves)))
        showing = msgspec.structs.replace(showing, shelf=wish.show)
    if wish.finish is not None:
        showing = msgspec.structs.replace(showing, finish="oiled" if wish.finish == "oiled" else "raw")
    if wish.pixels is not None:
        showing = msgspec.structs.replace(showing, size=_pixels(wish.pixels))
    return msgspec.structs.replace(showing, clear=wish.clear)


def _pixels(text: str) -> tuple[int, int]:
    first, cross, second = text.lower().replace("×", "x").partition("x")
    if not (cross and first.strip().isdecimal() and second.strip().isdecimal()):
        raise ExportError(f"--pixels {text}", tr("must be like 1920x1080"))
    size = int(first), int(second)
    if not (min(size) >= LEAST and max(size) <= MOST):
        raise ExportError(f"--pixels {text}", tr("each side must be {least} to {most}", least=LEAST, most=MOST))
    return size


def _where(plan: Plan, folder: Path) -> Where:
    """Where the pictures beside the project lie; one that is missing or another is told as a finding."""
    from core.photo.opening import troubles_beside

    pictures = {photo.sum: photo.file for sheet in plan.project.sheets for photo in sheet.photos}
    troubles = troubles_beside(pictures, folder)

    def where(photo: Photo) -> str:
        return "" if photo.sum in troubles else str(folder / photo.file)

    return where
