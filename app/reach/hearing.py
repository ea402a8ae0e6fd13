"""The things on wall, fold and sheet in words."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, QRectF

from app.boards.fold import FoldBoard
from app.boards.pick import boxes_of
from app.boards.sheet import SheetBoard
from app.boards.wall import WallBoard
from app.reach.things import Thing, Things
from app.store import Store
from core.drawing.names import letter, size_text
from core.language import tr
from core.lengths import Unit, show_length

MOVES = tr("Arrow keys move it, with Shift finely; digits type a size; Escape puts it back.")
WALL = tr("The shelves as they hang. {MOVES}", MOVES=MOVES)
SHEET = tr("Nets, frame parts and what is left, on the sheet that is shown. {MOVES}", MOVES=MOVES)
FOLD = tr("The shelf as it folds up. Arrow keys turn it.")


def listen(store: Store, wall: WallBoard, fold: FoldBoard, sheet: SheetBoard) -> tuple[Things, ...]:
    """From now on the things on these boards are heard."""
    for picture, how in ((wall.picture, WALL), (sheet.canvas, SHEET), (fold.picture, FOLD)):
        picture.setAccessibleDescription(how)
    return (
        Things(store, wall.picture, lambda: on_wall(store, wall)),
        Things(store, fold.picture, lambda: on_fold(store, fold)),
        Things(store, sheet.canvas, lambda: on_sheet(store, sheet)),
    )


def on_wall(store: Store, board: WallBoard) -> list[Thing]:
    """The shelves that hang."""
    found = []
    project, unit = store.project, store.unit
    for n, shelf in enumerate(project.shelves):
        if shelf.mount is None:
            continue
        x, top = shelf.mount.x, shelf.mount.top
        first = board.picture.to_pixel((x, top))
        last = board.picture.to_pixel((x + shelf.length, top - shelf.height))
        place = tr("{x} from the left, top at {top}", x=show_length(x, unit), top=show_length(top, unit))
        found.append(
            Thing(
                shelf.id,
                tr("Shelf {letter}, {id}", letter=letter(n), id=shelf.id),
                f"{_sizes(store, n)}; {place}",
                _box(first, last),
            )
        )
    return found


def on_fold(store: Store, board: FoldBoard) -> list[Thing]:
    """The shelf that is folded."""
    at = store.shelf_index
    if at < 0:
        return []
    shelf = store.project.shelves[at]
    box = board.picture.rect()
    return [
        Thing(
            shelf.id,
            tr("Shelf {letter}, {id}, folded", letter=letter(at), id=shelf.id),
            f"{_sizes(store, at)}; {board.subtitle.words}",
            box,
        )
    ]


def on_sheet(store: Store, board: SheetBoard) -> list[Thing]:
    """Panels and offcuts of the sheet that is shown."""
    plan, unit = store.plan, store.unit
    sheet = board.sheet
    letters = {shelf.id: letter(n) for n, shelf in enumerate(plan.project.shelves)}
    found = []
    for panel in plan.panels_on(sheet):
        for box in boxes_of(plan, sheet, panel.id)[:1]:
            name = tr("Panel {get} {role}", get=letters.get(panel.shelf, ""), role=panel.role)
            found.append(Thing(panel.id, name, size_text(panel.show[0], panel.show[1], Unit(unit)), _on(board, box)))
    for offcut in plan.offcuts:
        if offcut.sheet == sheet:
            box = (offcut.x, offcut.y, offcut.x + offcut.length, offcut.y + offcut.width)
            size = size_text(offcut.length, offcut.width, Unit(unit))
            found.append(Thing(offcut.piece, tr("Offcut"), size, _on(board, box)))
    return found


def _on(board: SheetBoard, box: tuple[float, float, float, float]) -> QRect:
    return _box(board.canvas.to_pixel((box[0], box[3])), board.canvas.to_pixel((box[2], box[1])))


def _sizes(store: Store, at: int) -> str:
    shelf, unit = store.project.shelves[at], store.unit
    length, depth, height = (show_length(size, unit) for size in (shelf.length, shelf.depth, shelf.height))
    return tr("{length} long, {depth} deep, {height} high", length=length, depth=depth, height=height)


def _box(first: QPointF, last: QPointF) -> QRect:
    return QRectF(first, last).normalized().toAlignedRect()
