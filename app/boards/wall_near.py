"""What the pointer is at on the wall: a shelf, the floor where studs have their handles, a keep-out."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QPointF

from app.boards.wall_view import WallView
from app.hand.keep_out import NEAR, keep_out_at
from app.hand.wall_measured import FLOOR_BAND
from core.document.model import Project


class Near(NamedTuple):
    """shelf: its id, '' for none; low: just over the floor; hidden: number of the keep-out, -1 for none."""

    shelf: str = ""
    low: bool = False
    hidden: int = -1


def near_at(project: Project, view: WallView, at: QPointF, shelf: str, before: Near) -> Near:
    """What is at a pixel, of a shelf that lies there and what was there before."""
    place, pixel, wall = view.to_board(at), 1.0 / view.scale, project.wall
    low = 0.0 <= place[1] <= FLOOR_BAND * pixel and 0.0 <= place[0] <= wall.width
    if shelf or not wall.keep_outs:
        return Near(shelf, low)
    hidden = keep_out_at(project, place, 0.0)
    if (
        hidden < 0 <= before.hidden < len(wall.keep_outs)
        and keep_out_at(project, place, NEAR * pixel, before.hidden) >= 0
    ):
        return Near(shelf, low, before.hidden)  # on the way to one of its handles
    return Near(shelf, low, hidden if hidden >= 0 else keep_out_at(project, place, NEAR * pixel))
