"""Findings about room on the sheets, with ways out that were tried before they are offered."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

import msgspec

from core.document.model import Project, Sheet, Shelf
from core.findings.words import ceiling, floor, length, limit, need
from core.layout.bands import lay_out
from core.layout.model import FIT, LEAST_SAWN, Layout, Misfit, trimmed
from core.layout.rooms import fits
from core.layout.strips import Stick
from core.plan.model import Finding, Fix
from core.plan.shapes import Shape, shape_of

MOST_FIXES = 6
LEAST_SHARE = 0.6  # a size cut down to less than this is another shelf, not a way out


def room_findings(
    project: Project, shapes: Sequence[Shape], layout: Layout, homeless: Iterable[Stick]
) -> list[Finding]:
    """An error for every shelf and every frame part that found no room."""
    found = [_shelf_finding(project, shapes, misfit) for misfit in layout.misfits]
    found += [_part_finding(project, stick) for stick in homeless]
    return found


def _part_finding(project: Project, stick: Stick) -> Finding:
    text = (
        f"No room is left for {stick.id.replace('/', ', ')}: it needs {need(project, stick.length)} x "
        f"{need(project, stick.width)} of wood {length(project, stick.thickness)} thick."
    )
    fixes = []
    for number, stock in enumerate(project.sheets):
        if stock.use != "shell" and _takes(stock, stick):
            text_fix, pointers, _ = _one_more(number, stock)
            fixes.append(Fix(text_fix, pointers))
    return Finding("error", "no-room", stick.id, text, tuple(fixes[:1]), stick.length)


def _takes(stock: Sheet, stick: Stick) -> bool:
    """Would a fresh sheet of that stock give the part?"""
    room = trimmed(stock)
    return abs(stock.thickness - stick.thickness) <= FIT and fits(room, stick.length, stick.width)


def _shelf_finding(project: Project, shapes: Sequence[Shape], misfit: Misfit) -> Finding:
    shape = shapes[misfit.index]
    name, over = shape.shelf.id, max(misfit.over_x, misfit.over_y)
    if misfit.reason == "no-sheet":
        text = f"No sheet is left for {name}: every sheet it may come from is used up or kept for frames."
    elif misfit.reason == "thick" and _least_size(shape) < LEAST_SAWN:
        text = f"{name} is not laid out: no saw cuts wood under {need(project, LEAST_SAWN)}."
    elif misfit.reason == "thick":
        text = (
            f"{name} is not laid out: in wood {length(project, shape.stock.thickness)} thick the bevels of a panel "
            f"{need(project, min(shape.shelf.height, shape.shelf.depth))} wide meet before its inside face."
        )
    elif misfit.reason == "pin-outside":
        text = f"{name} is pinned {need(project, over)} past the edge of the trimmed sheet."
    elif misfit.reason == "pin-overlap":
        other = shapes[misfit.other].shelf.id if misfit.other is not None else "another"
        text = f"{name} is pinned {need(project, over)} too near to {other}: a cut has to pass between them."
    elif misfit.reason == "pin-parting":
        text = f"{name} is pinned where no straight cut from edge to edge parts it from the others."
    else:
        text = _too_large(project, misfit, name)
    return Finding("error", "no-room", name, text, _fixes(project, shapes, misfit), over)


def _least_size(shape: Shape) -> float:
    return min(shape.shelf.length, shape.shelf.depth, shape.shelf.height, shape.stock.thickness)


def _too_large(project: Project, misfit: Misfit, name: str) -> str:
    where = "the sheet" if misfit.sheet is None else "the room that is left"
    said = []
    if misfit.over_x > FIT:
        said.append(f"along {where} it is {need(project, misfit.over_x)} too long")
    if misfit.over_y > FIT:
        said.append(f"across {where} it is {need(project, misfit.over_y)} too wide")
    return f"{name} does not fit: {' and '.join(said)}."


def _fixes(project: Project, shapes: Sequence[Shape], misfit: Misfit) -> tuple[Fix, ...]:
    """Ways out in the order a maker would weigh them; only those that give this shelf its room."""
    missing = _misfit_indexes(project) if misfit.reason.startswith("pin") else None
    fixes = []
    for text, pointers, change in _candidates(project, shapes[misfit.index], misfit):
        try:
            changed = change(project)
        except ValueError:
            continue
        still = _misfit_indexes(changed)
        if misfit.index not in still and (missing is None or still <= missing):
            fixes.append(Fix(text, pointers))
        if len(fixes) == MOST_FIXES:
            break
    return tuple(fixes)


def _misfit_indexes(project: Project) -> set[int]:
    """Shelves without room in the best layout of a project."""
    sizes = [shape_of(project, i).size for i in range(len(project.shelves))]
    return {m.index for m in lay_out(project, sizes)[0].misfits}


Change = Callable[[Project], Project]
Candidate = tuple[str, dict[str, float | int | str | bool | list[float] | None], Change]


def _candidates(project: Project, shape: Shape, misfit: Misfit) -> Iterable[Candidate]:
    i, shelf, n = shape.index, shape.shelf, shape.shelf.mitred_ends
    if misfit.reason.startswith("pin"):
        yield "Let it lie where there is room", {f"/shelves/{i}/at": None}, _shelf_change(i, at=None)
    if shelf.ends_from == "front" and n and shelf.height < shelf.depth:
        for strip in ("top", "bottom"):
            text = f"Ends from the {strip}: {need(project, n * (shelf.depth - shelf.height))} shorter"
            yield text, {f"/shelves/{i}/ends_from": strip}, _shelf_change(i, ends_from=strip)
    if misfit.over_x > FIT:
        for side, state in (("left", shelf.left), ("right", shelf.right)):
            if state == "mitred":
                yield f"Leave the {side} end open", {f"/shelves/{i}/{side}": "open"}, _shelf_change(i, **{side: "open"})
        yield from _smaller(project, shelf, i, "length", shelf.length - misfit.over_x)
        if shelf.ends_from == "front" and n:
            yield from _smaller(project, shelf, i, "depth", shelf.depth - misfit.over_x / n)
    if misfit.over_y > FIT:
        yield from _smaller(project, shelf, i, "depth", shelf.depth - misfit.over_y / 2)
        yield from _smaller(project, shelf, i, "height", shelf.height - misfit.over_y)
    yield from _sheet_changes(project, shape, misfit)


def _smaller(project: Project, shelf: Shelf, i: int, key: str, value: float) -> Iterable[Candidate]:
    value = floor(project, value)
    if value >= LEAST_SHARE * getattr(shelf, key):
        text = f"{key.capitalize()} {limit(project, value)}"
        yield text, {f"/shelves/{i}/{key}": value}, _shelf_change(i, **{key: value})


def _sheet_changes(project: Project, shape: Shape, misfit: Misfit) -> Iterable[Candidate]:
    for number, stock in enumerate(project.sheets):
        if stock.use == "frame" or shape.shelf.sheet not in (None, stock.id):
            continue
        yield _one_more(number, stock)
    if shape.shelf.sheet is not None:
        yield "From any sheet", {f"/shelves/{shape.index}/sheet": None}, _shelf_change(shape.index, sheet=None)
    if misfit.stock is not None and misfit.sheet is None:
        number = project.sheets.index(misfit.stock)
        for key, over in (("length", misfit.over_x), ("width", misfit.over_y)):
            if over > FIT:
                value = ceiling(project, getattr(misfit.stock, key) + over)
                text = f"A sheet {need(project, value)} {'long' if key == 'length' else 'wide'}"
                yield text, {f"/sheets/{number}/{key}": value}, _sheet_change(number, **{key: value})


def _one_more(number: int, stock: Sheet) -> Candidate:
    quantity = stock.quantity + 1
    text = f"A {_ordinal(quantity)} sheet {stock.id}" if quantity > 1 else f"A sheet {stock.id}"
    return text, {f"/sheets/{number}/quantity": quantity}, _sheet_change(number, quantity=quantity)


def _ordinal(number: int) -> str:
    return {2: "second", 3: "third", 4: "fourth", 5: "fifth"}.get(number, f"{number}th")


def _shelf_change(i: int, **changes: object) -> Change:
    def change(project: Project) -> Project:
        shelf = msgspec.structs.replace(project.shelves[i], **changes)
        shelves = (*project.shelves[:i], shelf, *project.shelves[i + 1 :])
        return msgspec.structs.replace(project, shelves=shelves)

    return change


def _sheet_change(i: int, **changes: object) -> Change:
    def change(project: Project) -> Project:
        sheet = msgspec.structs.replace(project.sheets[i], **changes)
        return msgspec.structs.replace(project, sheets=(*project.sheets[:i], sheet, *project.sheets[i + 1 :]))

    return change
