"""Each shelf's net, sections and panels: everything that is known before a sheet is chosen."""

from __future__ import annotations

from math import radians, tan

import msgspec

from core.document.model import Project, Sheet, Shelf
from core.geometry.net import EDGES, Net, NetPanel, inside_size
from core.geometry.seam import SeamSection, seam_section
from core.geometry.shell import shell_net
from core.layout.allowed import first_allowed, named
from core.layout.model import NetSize
from core.plan.model import Panel, Seam
from core.sawing.blocks import Block
from core.sawing.piece import Piece

LETTERS = "ABCDEFGH"


class Shape(msgspec.Struct, frozen=True, gc=False):
    """A shelf, its net, and the stock its thickness comes from."""

    index: int
    shelf: Shelf
    net: Net
    section: SeamSection
    stock: Sheet

    @property
    def size(self) -> NetSize:
        """What the layout needs."""
        return NetSize(self.index, self.net.length, self.net.width, self.band, self._thickest(), self.net)

    @property
    def band(self) -> tuple[float, float]:
        """What nets that share a band have alike: depth and scribe together, and height. [mm]"""
        return (round(self.shelf.depth + self.shelf.scribe, 6), round(self.shelf.height, 6))

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
    section = section_of(project, stock)
    return Shape(index, shelf, shell_net(shelf, section.bevel, section.loss), section, stock)


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
    return Block(shape.shelf.id, (x, y, x + shape.net.length, y + shape.net.width), inner=inner, run=run)


def panels_of(shape: Shape, sheet: str | None, at: tuple[float, float] | None, pieces: dict[str, Piece]) -> list[Panel]:
    """The panels of a shelf, placed or not."""
    found = []
    for p in shape.net.panels:
        name = f"{shape.shelf.id}/{p.role}"
        piece = pieces.get(name)
        inside = inside_size(p, setbacks(p, shape.section.setback))
        x, y = (at[0] + p.x, at[1] + p.y) if at else (None, None)
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
            )
        )
    return found


def seams_of(shape: Shape) -> list[Seam]:
    """The seams of a shelf, lettered in the order of its net's joints."""
    section, shelf = shape.section, shape.shelf.id
    found = []
    for letter, joint in zip(LETTERS, shape.net.joints, strict=False):
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
            )
        )
    return found
