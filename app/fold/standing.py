"""The shelves of a plan as they stand: where each net lies on its sheet, and where the shelf is in the world.

In the world of one shelf its own axes are kept. On the wall, x runs from the wall's left edge, y from the floor, and
the wall's face is z = 0.
"""

from __future__ import annotations

from typing import NamedTuple

from app.fold.pose import Pose
from core.document.model import Shelf
from core.drawing.names import find_sheet, shelf_thickness
from core.geometry.net import Net
from core.geometry.parts import part_origin
from core.plan.model import Frame, Plan, StockSheet

CLEAR = 40.0  # how far before its frame a shell stands that is off it [mm]
Offset = tuple[float, float, float]


class Home(NamedTuple):
    """Where a net without its panels that are cut apart comes from, or one of these."""

    sheet: StockSheet
    origin: tuple[float, float]  # of the whole net's axes, as this part of it lies on its sheet [mm]
    is_over: bool  # it does not fit its sheet


class Standing(NamedTuple):
    """One shelf, ready to be shown."""

    shelf: Shelf
    net: Net
    thickness: float  # [mm]
    sheet: StockSheet
    origin: tuple[float, float]  # of the net's axes on the sheet [mm]
    is_over: bool  # it does not fit its sheet
    outside_gap: float  # of its seams, closed [mm]
    home: Offset  # of shelf space in the world [mm]
    off: float  # how far the shell is off its frame [mm]
    frame: Frame | None  # where it is to be seen
    apart: tuple[Home, ...] = ()  # of panels cut apart from the net

    @property
    def homes(self) -> tuple[Home, ...]:
        """Of the net, then of each panel cut apart, in the order of `Net.apart`."""
        return (Home(self.sheet, self.origin, self.is_over), *self.apart)

    @property
    def shell(self) -> Offset:
        """Where the shell's own space is in the world. [mm]"""
        x, y, z = self.home
        return (x, y, z + self.off)


def standing(plan: Plan, pose: Pose, shelf_id: str) -> tuple[Standing, ...]:
    """What is shown: the shelf with that id, or all that have a place on the wall."""
    shown = [s for s in plan.project.shelves if (s.mount is not None if pose.wall else s.id == shelf_id)]
    nets = {net.owner: net for net in plan.shapes}
    return tuple(_one(plan, pose, shelf, nets[shelf.id]) for shelf in shown if shelf.id in nets)


def _one(plan: Plan, pose: Pose, shelf: Shelf, net: Net) -> Standing:
    sheet, origin, is_over = _place(plan, shelf, net, None)
    apart = tuple(Home(*_place(plan, shelf, net, role)) for role in net.apart)
    gap = next((seam.outside_gap for seam in plan.seams if seam.shelf == shelf.id), 0.0)
    frame = next((f for f in plan.frames if f.shelf == shelf.id and f.parts), None)
    off = pose.slip * (frame.depth + CLEAR) if frame is not None and pose.frame else 0.0
    home = (0.0, 0.0, 0.0)
    if pose.wall and shelf.mount is not None:
        home = (shelf.mount.x, shelf.mount.top - shelf.height, shelf.depth + shelf.scribe)
    thickness = sheet.thickness if not is_over else shelf_thickness(plan, shelf.id)
    return Standing(shelf, net, thickness, sheet, origin, is_over, gap, home, off, frame if pose.frame else None, apart)


def _place(plan: Plan, shelf: Shelf, net: Net, role: str | None) -> tuple[StockSheet, tuple[float, float], bool]:
    """The sheet a part of a shelf comes from, and where the net's axes then are; where it would lie without room.

    role: of the panel cut apart, None for the net without these.
    """
    dx, dy = part_origin(net, role if role is not None else net.panels[0].role)
    for placed in plan.nets:
        if (placed.shelf, placed.panel) == (shelf.id, role):
            return find_sheet(plan, placed.sheet), (placed.x - dx, placed.y - dy), False
    for over in plan.overruns:
        if (over.shelf, over.panel) == (shelf.id, role) and over.sheet:
            return find_sheet(plan, over.sheet), (over.x - dx, over.y - dy), True
    named = next((s for s in plan.project.sheets if s.id == shelf.sheet), plan.project.sheets[0])
    return find_sheet(plan, named.id), (named.trim - dx, named.trim - dy), True
