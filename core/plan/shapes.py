"""Each shelf's net, sections and panels: everything that is known before a sheet is chosen.

A shelf is laid on sheets in parts: its net, and each panel that is cut apart. Each part is a shape; those of the nets
come first, in the order of the shelves, then those of panels cut apart.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import radians, tan
from typing import NamedTuple

import msgspec

from core.document.model import Project, Sheet, Shelf
from core.geometry.net import EDGES, Net, NetPanel, inside_size
from core.geometry.parts import apart_part, main_part, part_origin
from core.geometry.seam import SeamSection, seam_section
from core.geometry.shell import shell_net
from core.kept import Kept
from core.layout.allowed import first_allowed, named
from core.layout.model import NetSize
from core.plan.model import Panel, Seam
from core.sawing.blocks import Block
from core.sawing.piece import Piece

LETTERS = "ABCDEFGH"
REMEMBERED = 64  # shelves


class Shape(msgspec.Struct, frozen=True, gc=False):
    """A part of a shelf, and the stock its thickness comes from.

    net: what is laid on a sheet: the shelf's net without the panels cut apart, or one of these.
    tree: the shelf's whole net, what is folded.
    """

    index: int  # in the layout: of the shelf, or past all shelves for a panel cut apart
    shelf: Shelf
    net: Net
    section: SeamSection
    stock: Sheet
    tree: Net
    role: str | None = None  # of the panel cut apart; None for the net
    main: int | None = None  # of a panel cut apart: the index of its shelf

    @property
    def shelf_index(self) -> int:
        """The shelf's place in the project."""
        return self.index if self.main is None else self.main

    @property
    def size(self) -> NetSize:
        """What the layout needs."""
        return NetSize(self.index, self.net.length, self.net.width, self.band, self._thickest(), self.net, self.main)

    @property
    def name(self) -> str:
        """Id of the shelf, or of the panel cut apart."""
        return self.shelf.id if self.role is None else f"{self.shelf.id}/{self.role}"

    @property
    def band(self) -> tuple[float, ...]:
        """What nets that share a band have alike: depth and scribe together, and height [mm]; and which strips.

        Panels cut apart share one where they are as wide and mitred along the same edges.
        """
        if self.role is not None:
            low, high = self.net.panels[0].bevels[2:]
            return (round(self.net.width, 6), -1.0 - bool(low) - 2.0 * bool(high))
        band = (round(self.shelf.depth + self.shelf.scribe, 6), round(self.shelf.height, 6))
        lower, upper = ("top", "bottom") if self.tree.turned else ("bottom", "top")
        missing = [float(number) for number, strip in ((1, lower), (2, upper)) if strip in self.tree.apart]
        return (*band, *missing) if missing else band

    def _thickest(self) -> float:
        """The thickness at which the bevels of some panel meet at its inside face. [mm]"""
        return min(size / bevels for size, bevels in self._bevelled()) / tan(radians(self.section.bevel))

    @property
    def narrowest(self) -> float:
        """The panel size that bevels use up first. [mm]"""
        return min(self._bevelled(), key=lambda pair: pair[0] / pair[1])[0]

    def _bevelled(self) -> list[tuple[float, int]]:
        """Every panel size that has bevels at its ends, and how many."""
        found = []
        for p in self.net.panels:
            along, across = bool(p.bevels[0]) + bool(p.bevels[1]), bool(p.bevels[2]) + bool(p.bevels[3])
            found += [(size, n) for size, n in ((p.length, along), (p.width, across)) if n]
        return found


_SHAPES: Kept[Shape] = Kept(2 * REMEMBERED)
_PANELS: Kept[list[Panel]] = Kept(REMEMBERED)


def section_of(project: Project, stock: Sheet) -> SeamSection:
    """The section of every seam in that stock."""
    saw = project.saw
    return seam_section(stock.thickness, saw.kerf, saw.overcut, saw.allowance, project.glue_line)


def shape_of(project: Project, index: int, stock: Sheet | None = None) -> Shape:
    """The shape of one shelf, cut from a stock.

    Default: the first it may come from; where there is none, the first it names, or of all.
    """
    shelf = project.shelves[index]
    if stock is not None:
        return _shape(project, index, shelf, stock)
    if len(project.sheets) == 1:
        return _shape(project, index, shelf, project.sheets[0])
    kinds = [s for s in project.sheets if named(shelf, s)] or list(project.sheets)
    draft = _shape(project, index, shelf, kinds[0])
    better = first_allowed(shelf, draft.size, kinds)
    return draft if better is None or better is kinds[0] else _shape(project, index, shelf, better)


def _shape(project: Project, index: int, shelf: Shelf, stock: Sheet) -> Shape:
    source = (index, shelf, stock, project.saw, project.glue_line)
    return _SHAPES.get((shelf.id, stock.id), source, lambda: _new_shape(project, index, shelf, stock))


def _new_shape(project: Project, index: int, shelf: Shelf, stock: Sheet) -> Shape:
    section = section_of(project, stock)
    tree = shell_net(shelf, section.bevel, section.loss)
    return Shape(index, shelf, main_part(tree), section, stock, tree)


def apart_shapes(nets: Sequence[Shape]) -> list[Shape]:
    """The panels cut apart of all shelves, from the shapes of their nets; numbered on after these."""
    found: list[Shape] = []
    for shape in nets:
        for role in shape.tree.apart:
            found.append(apart_shape(shape, role, len(nets) + len(found)))
    return found


def apart_shape(main: Shape, role: str, index: int) -> Shape:
    """A panel cut apart, in the stock its shelf's net comes from or one as thick."""
    part = apart_part(main.tree, role)
    return Shape(index, main.shelf, part, main.section, main.stock, main.tree, role, main.index)


def setbacks(panel: NetPanel, setback: float) -> tuple[float, float, float, float]:
    """How far the inside face stands back at each edge: 0 where the edge is square."""
    b = panel.bevels
    return (
        setback if b[0] else 0.0,
        setback if b[1] else 0.0,
        setback if b[2] else 0.0,
        setback if b[3] else 0.0,
    )


def net_block(shape: Shape, x: float, y: float) -> Block:
    """The net as a block at a place on a sheet, its panels inside."""
    prefix = shape.shelf.id + "/"
    inner = tuple(
        Block(
            prefix + p.role,
            (x + p.x, y + p.y, x + p.x + p.length, y + p.y + p.width),
            p.bevels,
            end=p.hinge in ("low_x", "high_x"),
        )
        for p in shape.net.panels
    )
    run = (round(y, 6), *shape.band)
    return Block(shape.name, (x, y, x + shape.net.length, y + shape.net.width), inner=inner, run=run)


class Place(NamedTuple):
    """Where a part of a shelf lies: sheet, lower left corner, and the pieces its sheet gives, by panel."""

    sheet: str
    x: float
    y: float
    pieces: Mapping[str, Piece]


def panels_of(shape: Shape, places: Mapping[str | None, Place]) -> list[Panel]:
    """The panels of a shelf, from the shape of its net.

    places: of its parts, by role, None for the net; without those that found no room.
    """
    names = [f"{shape.shelf.id}/{p.role}" for p in shape.tree.panels]
    there = [(role, at.sheet, at.x, at.y, *map(at.pieces.get, names)) for role, at in places.items()]
    return _PANELS.get(shape.shelf.id, (shape, there), lambda: _panels(shape, places, names))


def _panels(shape: Shape, places: Mapping[str | None, Place], names: Sequence[str]) -> list[Panel]:
    found = []
    apart = shape.tree.apart
    for name, p in zip(names, shape.tree.panels, strict=True):
        place = places.get(p.role if p.role in apart else None)
        sheet, piece, x, y = None, None, None, None
        if place is not None:
            dx, dy = part_origin(shape.tree, p.role)
            sheet, piece, x, y = place.sheet, place.pieces.get(name), place.x + (p.x - dx), place.y + (p.y - dy)
        inside = inside_size(p, setbacks(p, shape.section.setback))
        bevels: dict[str, float] = {edge: bevel for edge, bevel in zip(EDGES, p.bevels, strict=True) if bevel}
        found.append(
            Panel(
                name,
                shape.shelf.id,
                p.role,
                sheet,
                piece.name if piece else None,
                (p.length, p.width),
                inside,
                x,
                y,
                bevels,
                shape.stock.thickness,
                shape.tree.turned,
            )
        )
    return found


def seams_of(shape: Shape) -> list[Seam]:
    """The seams of a shelf, lettered in the order of its net's joints."""
    section, shelf = shape.section, shape.shelf.id
    found = []
    hinges = {frozenset((p.role, p.parent)) for p in shape.tree.panels} if shape.tree.apart else set()
    for letter, joint in zip(LETTERS, shape.tree.joints, strict=False):
        wraps = joint.wraps
        found.append(
            Seam(
                id=f"{shelf}/{joint.name}",
                shelf=shelf,
                between=(f"{shelf}/{joint.panels[0]}", f"{shelf}/{joint.panels[1]}"),
                length=joint.length,
                bevel=section.bevel,
                show_loss=section.loss if wraps else None,
                void_width=section.void_width if wraps else None,
                void_area=section.void_area if wraps else None,
                inside_gap=section.inside_gap,
                outside_gap=section.outside_gap,
                wedge_area=section.wedge_area,
                glue_band=section.glue_band,
                figure="wraps" if wraps else "turns",
                letter=letter,
                broken=not wraps and frozenset(joint.panels) in hinges,
            )
        )
    return found
