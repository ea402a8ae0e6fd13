"""Findings about room on the sheets, and the ways out a maker would weigh.

`ways_out` only proposes: `core.plan.fixes` plans each with the change made and offers those that help.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from core.document.model import Project, Sheet
from core.findings.words import ceiling, floor, length, limit, need, thickness
from core.layout.allowed import named
from core.layout.model import FIT, LEAST_SAWN, Layout, Misfit, Rect, trimmed
from core.layout.rooms import fits
from core.layout.strips import Stick
from core.plan.model import Finding, Fix
from core.plan.shapes import Shape

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
        f"{need(project, stick.width)} of wood {thickness(project, stick.thickness)} thick."
    )
    fixes = [_one_more(i, s) for i, s in enumerate(project.sheets) if s.use != "shell" and _takes(s, stick)]
    if project.frame.thickness is not None and not any(_thick_as(s, stick) for s in project.sheets):
        fixes.append(Fix("Frame as thick as the shelves", {"/frame/thickness": None}))
    return Finding("error", "no-room", stick.id, text, tuple(fixes), stick.length)


def _thick_as(stock: Sheet, stick: Stick) -> bool:
    return abs(stock.thickness - stick.thickness) <= FIT


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
            f"{name} is not laid out: in wood {thickness(project, shape.stock.thickness)} thick the bevels of a panel "
            f"{length(project, shape.narrowest)} across meet before its inside face."
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
    return Finding("error", "no-room", name, text, (), over)


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


def ways_out(project: Project, shape: Shape, misfit: Misfit) -> Iterator[Fix]:
    """Changes that may give a shelf its room, in the order a maker would weigh them. None is tried yet."""
    i, shelf = shape.index, shape.shelf
    if misfit.reason == "pin-outside" and misfit.stock is not None:
        yield _slid_in(shape, misfit, trimmed(misfit.stock))
    if misfit.reason.startswith("pin"):
        yield Fix("Let it lie where there is room", {f"/shelves/{i}/at": None})
    yield from _open_ends(project, shape, at_wall=True)
    yield from _other_strips(project, shape)
    if misfit.over_x > FIT:
        yield from _open_ends(project, shape, at_wall=False)
        yield from _smaller(project, shape, "length", shelf.length - misfit.over_x)
        if shelf.ends_from == "front" and shelf.mitred_ends:
            yield from _smaller(project, shape, "depth", shelf.depth - misfit.over_x / shelf.mitred_ends)
    if misfit.over_y > FIT:
        yield from _smaller(project, shape, "depth", shelf.depth - misfit.over_y / 2)
        yield from _smaller(project, shape, "height", shelf.height - misfit.over_y)
    yield from _more_sheets(project, shape, misfit)


def _slid_in(shape: Shape, misfit: Misfit, room: Rect) -> Fix:
    """Just inside the trimmed sheet."""
    x = min(max(misfit.x, room[0]), room[2] - shape.net.length)
    y = min(max(misfit.y, room[1]), room[3] - shape.net.width)
    return Fix("Slide it in", {f"/shelves/{shape.index}/at": [x, y]})


def _open_ends(project: Project, shape: Shape, at_wall: bool) -> Iterator[Fix]:
    """Leave an end unwrapped: first those that meet a wall."""
    shelf, mount = shape.shelf, shape.shelf.mount
    near = 25.0  # mm: an end this near to a side wall is not seen
    left = mount is not None and mount.x <= near
    right = mount is not None and mount.x + shelf.length >= project.wall.width - near
    for side, state, meets in (("left", shelf.left, left), ("right", shelf.right, right)):
        if state == "mitred" and meets == at_wall:
            where = ", which meets the wall," if meets else ""
            yield Fix(f"Leave the {side} end{where} open", {f"/shelves/{shape.index}/{side}": "open"})


def _other_strips(project: Project, shape: Shape) -> Iterator[Fix]:
    shelf, n = shape.shelf, shape.shelf.mitred_ends
    if shelf.ends_from == "front" and n and shelf.height < shelf.depth:
        for strip in ("top", "bottom"):
            text = f"Ends from the {strip}: {need(project, n * (shelf.depth - shelf.height))} shorter"
            yield Fix(text, {f"/shelves/{shape.index}/ends_from": strip})


def _smaller(project: Project, shape: Shape, key: str, value: float) -> Iterator[Fix]:
    value = floor(project, value)
    if value >= LEAST_SHARE * getattr(shape.shelf, key):
        yield Fix(f"{key.capitalize()} {limit(project, value)}", {f"/shelves/{shape.index}/{key}": value})


def _more_sheets(project: Project, shape: Shape, misfit: Misfit) -> Iterator[Fix]:
    for number, stock in enumerate(project.sheets):
        if named(shape.shelf, stock):
            yield _one_more(number, stock)
        elif stock.use == "frame" and shape.shelf.sheet in (None, stock.id):
            yield Fix(f"Use sheet {stock.id} for shells too", {f"/sheets/{number}/use": "any"})
    if shape.shelf.sheet is not None:
        yield Fix("From any sheet", {f"/shelves/{shape.index}/sheet": None})
    if misfit.stock is not None and misfit.sheet is None:
        number = project.sheets.index(misfit.stock)
        for key, over in (("length", misfit.over_x), ("width", misfit.over_y)):
            if over > FIT:
                value = ceiling(project, getattr(misfit.stock, key) + over)
                text = f"A sheet {need(project, value)} {'long' if key == 'length' else 'wide'}"
                yield Fix(text, {f"/sheets/{number}/{key}": value})


def _one_more(number: int, stock: Sheet) -> Fix:
    quantity = stock.quantity + 1
    text = f"A {_ordinal(quantity)} sheet {stock.id}" if quantity > 1 else f"A sheet {stock.id}"
    return Fix(text, {f"/sheets/{number}/quantity": quantity})


def _ordinal(number: int) -> str:
    words = {2: "second", 3: "third", 4: "fourth", 5: "fifth"}
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return words.get(number, f"{number}{ending}")
