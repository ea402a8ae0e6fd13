"""Pinning nets where they are to lie."""

from __future__ import annotations

import msgspec

from core.document.model import Project, Shelf
from core.layout.model import Rect
from core.plan.model import PlacedNet, Plan, StockSheet

Place = tuple[float, float]


def with_shelf(project: Project, at: int, /, **fields: object) -> Project:
    """The project with fields of one shelf replaced."""
    shelf = msgspec.structs.replace(project.shelves[at], **fields)
    return msgspec.structs.replace(project, shelves=(*project.shelves[:at], shelf, *project.shelves[at + 1 :]))


def index_of(project: Project, shelf: str) -> int:
    """Where a shelf stands in the project, -1 for no such shelf."""
    return next((at for at, one in enumerate(project.shelves) if one.id == shelf), -1)


def pinned(project: Project, shelf: str, stock: str, place: Place) -> Project:
    """With a shelf's net pinned at a place of the first copy of a stock; `sheet` is named where it must be."""
    at = index_of(project, shelf)
    allowed = [s for s in project.sheets if s.use != "frame" and project.shelves[at].sheet in (None, s.id)]
    if allowed and allowed[0].id == stock:  # a pin is on the first sheet that is allowed
        return with_shelf(project, at, at=place)
    return with_shelf(project, at, at=place, sheet=stock)


def keeps_places(plan: Plan, sheet: StockSheet) -> bool:
    """Can nets be pinned on a sheet? On the first copy of its stock alone."""
    return next(s for s in plan.sheets if s.stock == sheet.stock).id == sheet.id


def placed_net(plan: Plan, shelf: str) -> PlacedNet | None:
    """A shelf's net where it lies; None where it found no room."""
    return next((net for net in plan.nets if net.shelf == shelf and net.panel is None), None)


def rect_of(net: PlacedNet) -> Rect:
    """Its box on the sheet."""
    return (net.x, net.y, net.x + net.length, net.y + net.width)


def sheet_under(plan: Plan, net: PlacedNet) -> StockSheet:
    """The sheet a net lies on."""
    return next(sheet for sheet in plan.sheets if sheet.id == net.sheet)


def all_pinned(project: Project, plan: Plan, sheet: StockSheet, but: tuple[str, ...] = ()) -> Project:
    """With every shelf's net on a sheet pinned where it lies in the plan, save those of `but`."""
    for net in plan.nets:
        if net.sheet == sheet.id and net.panel is None and net.shelf not in but:
            project = pinned(project, net.shelf, sheet.stock, (net.x, net.y))
    return project


def shelf_of(project: Project, shelf: str) -> Shelf:
    """A shelf by its id. Raises KeyError where there is none."""
    at = index_of(project, shelf)
    if at < 0:
        raise KeyError(f"no shelf {shelf}")
    return project.shelves[at]
