"""Findings about room on the sheets. The ways out of them are in `core.findings.ways_out`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from core.document.model import Project, Sheet
from core.findings.words import length, need, spoken, thickness
from core.language import tr
from core.layout.model import FIT, LEAST_SAWN, Layout, Misfit, trimmed
from core.layout.rooms import fits
from core.layout.strips import Stick
from core.plan.model import Finding, Fix
from core.plan.shapes import Shape

MOST_FREED = 2  # pinned nets that a part without room may ask to be let go of


def room_findings(
    project: Project, shapes: Sequence[Shape], layout: Layout, homeless: Iterable[Stick]
) -> list[Finding]:
    """An error for every shelf, every panel cut apart and every frame part that found no room."""
    found = [_shelf_finding(project, shapes, misfit) for misfit in layout.misfits if misfit.reason != "main"]
    found += [_part_finding(project, stick) for stick in homeless]
    return found


def _part_finding(project: Project, stick: Stick) -> Finding:
    text = tr(
        "No room is left for {replace}: it needs {need} × {need2} of wood {thickness} thick.",
        replace=stick.id.replace("/", ", "),
        need=need(project, stick.length),
        need2=need(project, stick.width),
        thickness=thickness(project, stick.thickness),
    )
    fixes = [
        Fix(tr("Let {id} lie where there is room", id=shelf.id), {f"/shelves/{i}/at": None})
        for i, shelf in enumerate(project.shelves)
        if shelf.at is not None
    ][:MOST_FREED]
    fixes += [one_more(i, s) for i, s in enumerate(project.sheets) if s.use != "shell" and _takes(s, stick)]
    if project.frame.thickness is not None and not any(_thick_as(s, stick) for s in project.sheets):
        fixes.append(Fix(tr("Frame as thick as the shelves"), {"/frame/thickness": None}))
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
        text = tr("No sheet is left for {name}: every sheet it may come from is used up or kept for frames.", name=name)
    elif misfit.reason == "thick" and _least_size(shape) < LEAST_SAWN:
        text = tr("{name} is not laid out: no saw cuts wood under {need}.", name=name, need=need(project, LEAST_SAWN))
    elif misfit.reason == "thick":
        text = tr(
            "{name} is not laid out: in wood {thickness} thick the bevels of a panel {project} "
            "across meet before its inside face.",
            name=name,
            thickness=thickness(project, shape.stock.thickness),
            project=length(project, shape.narrowest),
        )
    elif misfit.reason == "pin-outside":
        text = tr("{name} is pinned {need} past the edge of the trimmed sheet.", name=name, need=need(project, over))
    elif misfit.reason == "pin-overlap":
        other = shapes[misfit.other].shelf.id if misfit.other is not None else "another"
        text = tr(
            "{name} is pinned {need} too near to {other}: a cut has to pass between them.",
            name=name,
            need=need(project, over),
            other=other,
        )
    elif misfit.reason == "pin-parting":
        text = tr("{name} is pinned where no straight cut from edge to edge parts it from the others.", name=name)
    else:
        text = _too_large(project, misfit, name)
    return Finding("error", "no-room", shape.name, text, (), over)


def _least_size(shape: Shape) -> float:
    return min(shape.shelf.length, shape.shelf.depth, shape.shelf.height, shape.stock.thickness)


def _too_large(project: Project, misfit: Misfit, name: str) -> str:
    where = tr("the sheet") if misfit.sheet is None else tr("the room that is left")
    said = []
    if misfit.over_x > FIT:
        said.append(tr("along {where} it is {need} too long", where=where, need=need(project, misfit.over_x)))
    if misfit.over_y > FIT:
        said.append(tr("across {where} it is {need} too wide", where=where, need=need(project, misfit.over_y)))
    beside = tr(", clear of the {clear_of}", clear_of=misfit.clear_of) if misfit.clear_of else ""
    return tr("{name} does not fit: {join}{beside}.", name=name, join=tr(" and ").join(said), beside=beside)


def one_more(number: int, stock: Sheet) -> Fix:
    """One more copy of a stock: `number` is its place in the project's list."""
    quantity = stock.quantity + 1
    text = (
        tr("A {ordinal} sheet {id}", ordinal=_ordinal(quantity), id=stock.id)
        if quantity > 1
        else tr("A sheet {id}", id=stock.id)
    )
    return Fix(text, {f"/sheets/{number}/quantity": quantity})


def _ordinal(number: int) -> str:
    words = {2: "second", 3: "third", 4: "fourth", 5: "fifth"}
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return words.get(number, f"{number}{ending}")
