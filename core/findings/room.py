"""Findings about room on the sheets. The ways out of them are in `core.findings.ways_out`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from core.document.model import Project, Sheet
from core.findings.words import length, need, spoken, thickness
from core.layout.model import FIT, LEAST_SAWN, Layout, Misfit, trimmed
from core.layout.rooms import fits
from core.layout.strips import Stick
from core.plan.model import Finding, Fix
from core.plan.shapes import Shape


def room_findings(
    project: Project, shapes: Sequence[Shape], layout: Layout, homeless: Iterable[Stick]
) -> list[Finding]:
    """An error for every shelf, every panel cut apart and every frame part that found no room."""
    found = [_shelf_finding(project, shapes, misfit) for misfit in layout.misfits if misfit.reason != "main"]
    found += [_part_finding(project, stick) for stick in homeless]
    return found


def _part_finding(project: Project, stick: Stick) -> Finding:
    text = (
        f"No room is left for {stick.id.replace('/', ', ')}: it needs {need(project, stick.length)} x "
        f"{need(project, stick.width)} of wood {thickness(project, stick.thickness)} thick."
    )
    fixes = [one_more(i, s) for i, s in enumerate(project.sheets) if s.use != "shell" and _takes(s, stick)]
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
    name, over = spoken(shape), max(misfit.over_x, misfit.over_y)
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
    return Finding("error", "no-room", shape.name, text, (), over)


def _least_size(shape: Shape) -> float:
    return min(shape.shelf.length, shape.shelf.depth, shape.shelf.height, shape.stock.thickness)


def _too_large(project: Project, misfit: Misfit, name: str) -> str:
    where = "the sheet" if misfit.sheet is None else "the room that is left"
    said = []
    if misfit.over_x > FIT:
        said.append(f"along {where} it is {need(project, misfit.over_x)} too long")
    if misfit.over_y > FIT:
        said.append(f"across {where} it is {need(project, misfit.over_y)} too wide")
    beside = f", clear of the {misfit.clear_of}" if misfit.clear_of else ""
    return f"{name} does not fit: {' and '.join(said)}{beside}."


def one_more(number: int, stock: Sheet) -> Fix:
    """One more copy of a stock: `number` is its place in the project's list."""
    quantity = stock.quantity + 1
    text = f"A {_ordinal(quantity)} sheet {stock.id}" if quantity > 1 else f"A sheet {stock.id}"
    return Fix(text, {f"/sheets/{number}/quantity": quantity})


def _ordinal(number: int) -> str:
    words = {2: "second", 3: "third", 4: "fourth", 5: "fifth"}
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return words.get(number, f"{number}{ending}")
