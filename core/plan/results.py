"""Turning what came off the bench into the plan's values."""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence
from functools import lru_cache, partial

import msgspec

from core.document.model import Photo, Project, Sheet
from core.frame.supplies import frame_supplies
from core.kept import Kept
from core.language import tr
from core.layout.clear import areas_on
from core.layout.model import Layout
from core.plan.model import (
    Cut,
    CutKind,
    Frame,
    Leftover,
    Offcut,
    Overrun,
    Panel,
    PlacedNet,
    StockSheet,
    Supply,
)
from core.plan.order import Numbered
from core.plan.shapes import Shape
from core.plan.sheets import REMEMBERED, SheetCut
from core.sawing.piece import Piece

# What is worth keeping, square through: at least this one way and that the other (common practice). [mm]
KEEP_WIDTH, KEEP_LENGTH = 50.0, 150.0
_FRAMES: Kept[Frame] = Kept(64)
_NEEDED: Kept[list[Supply]] = Kept(1)


def cut_list(ordered: Iterable[Numbered]) -> tuple[Cut, ...]:
    """All cuts, numbered in the order they are made; crosscuts made in one go share a pass."""
    cuts, run, key = [], 0, None
    for n, (number, sawn) in enumerate(ordered, 1):
        this = None if sawn.key is None else (number, *sawn.key)
        if this is None or this != key:
            run += 1
        key = this
        kind: CutKind = "rip" if sawn.axis == "y" else "crosscut"
        cuts.append(  # by place, not by name: that takes half the time
            Cut(
                n,
                sawn.sheet,
                sawn.piece,
                kind,
                sawn.at,
                sawn.bevel,
                sawn.keep,
                sawn.makes,
                run,
                sawn.length,
                sawn.about,
            )
        )
    return tuple(cuts)


def frames_cut(frames: Iterable[Frame | None], sheets: Iterable[SheetCut]) -> tuple[Frame, ...]:
    """The frames with the piece of each part filled in."""
    homes = {name: (sheet.name, piece) for sheet in sheets for name, piece in sheet.pieces.items()}
    done = []
    for frame in frames:
        if frame is not None:
            there = [homes.get(part.id) for part in frame.parts]
            done.append(_FRAMES.get(frame.shelf, (frame, there), partial(_frame_cut, frame, there)))
    return tuple(done)


def _frame_cut(frame: Frame, there: Sequence[tuple[str, Piece] | None]) -> Frame:
    """A frame with its parts' sheets, pieces and places; None where a part has none."""
    parts = []
    for part, home in zip(frame.parts, there, strict=True):
        if home is not None:
            sheet, piece = home
            x, y, _, _ = piece.show_box()
            part = msgspec.structs.replace(part, sheet=sheet, piece=piece.name, x=x, y=y)
        parts.append(part)
    return msgspec.structs.replace(frame, parts=tuple(parts))


def offcuts_of(sheets: Iterable[SheetCut]) -> tuple[tuple[Offcut, ...], tuple[Leftover, ...]]:
    """What is left: offcuts worth keeping, largest first, and every other piece."""
    offcuts, leftovers = list[Offcut](), list[Leftover]()
    for sheet in sheets:
        kept, waste = _left_of(sheet)
        offcuts += kept
        leftovers += waste
    offcuts.sort(key=lambda o: -o.length * o.width)
    return tuple(offcuts), tuple(leftovers)


@lru_cache(maxsize=REMEMBERED)
def _left_of(sheet: SheetCut) -> tuple[tuple[Offcut, ...], tuple[Leftover, ...]]:
    offcuts, leftovers = [], []
    for piece in sheet.rest:
        x0, y0, x1, y1 = piece.clear_box()
        sides = sorted((x1 - x0, y1 - y0))
        if sides[0] >= KEEP_WIDTH and sides[1] >= KEEP_LENGTH:
            offcuts.append(Offcut(sheet.name, piece.name, x1 - x0, y1 - y0, x0, y0))
        else:
            leftovers.append(Leftover(sheet.name, piece.name, piece.show_box()))
    leftovers += [Leftover(sheet.name, piece.name, piece.show_box()) for piece in sheet.trimmed]
    return tuple(offcuts), tuple(leftovers)


def stock_sheets(
    sheets: Sequence[SheetCut], panels: Sequence[Panel], frames: Iterable[Frame]
) -> tuple[StockSheet, ...]:
    """Those of all sheets that are used, with the share of each that becomes panels and parts."""
    stocks = [sheet.stock for sheet in sheets]
    area: dict[str | None, float] = {}
    for panel in panels:
        area[panel.sheet] = area.get(panel.sheet, 0.0) + panel.show[0] * panel.show[1]
    for frame in frames:
        for part in frame.parts:
            area[part.sheet] = area.get(part.sheet, 0.0) + part.length * part.width
    return tuple(
        StockSheet(
            id=s.name,
            stock=s.stock.id,
            length=s.stock.length,
            width=s.stock.width,
            thickness=s.stock.thickness,
            used=area.get(s.name, 0.0) / (s.stock.length * s.stock.width),
            source=s.stock,
            areas=areas_on(stocks, number),
            photos=photos_on(stocks, number),
        )
        for number, s in enumerate(sheets)
        if s.pieces
    )


def photos_on(stocks: Sequence[Sheet], number: int) -> tuple[Photo, ...]:
    """The photographs of the sheet of that number: its stock's, if it is the first copy of it."""
    stock = stocks[number]
    return () if any(other.id == stock.id for other in stocks[:number]) else stock.photos


def placed_nets(shapes: Sequence[Shape], layout: Layout, names: Sequence[str]) -> tuple[PlacedNet, ...]:
    """Where each net lies, and each panel cut apart. names: of the layout's sheets."""
    return tuple(
        PlacedNet(
            shapes[s.index].shelf.id,
            names[s.sheet],
            s.x,
            s.y,
            shapes[s.index].net.length,
            shapes[s.index].net.width,
            shapes[s.index].role,
            shapes[s.index].net.turned,
        )
        for s in layout.spots
    )


def overruns_of(
    shapes: Sequence[Shape], layout: Layout, names: Sequence[str], used: Container[str]
) -> tuple[Overrun, ...]:
    """The nets that found no room, where they would come nearest to fitting.

    names: of the layout's sheets; used: those of them something is cut from.
    """
    found = []
    for m in layout.misfits:
        if m.reason == "main":
            continue
        shape, net = shapes[m.index], shapes[m.index].net
        home = names[m.sheet] if m.sheet is not None else None
        name = home if home is not None and home in used else (m.stock or shape.stock).id
        size = (net.length, net.width)
        found.append(Overrun(shape.shelf.id, name, m.x, m.y, *size, m.over_x, m.over_y, shape.role))
    return tuple(found)


def supplies_of(project: Project, sheets: Sequence[SheetCut], frames: Sequence[Frame]) -> tuple[Supply, ...]:
    """Sheets, and what the frames need beside their wood, each with its basis."""
    counts: dict[str, int] = {}
    for sheet in sheets:
        counts[sheet.stock.id] = counts.get(sheet.stock.id, 0) + 1
    found = [Supply(f"sheet {name}", n, "sheet", tr("the layout"), "sheet") for name, n in counts.items()]
    source = (project.frame, project.screw, project.units, project.shelves, frames)
    return (*found, *_NEEDED.get("", source, lambda: frame_supplies(project, frames)))
