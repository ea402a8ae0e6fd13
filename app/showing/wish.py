"""What is to be shown, and how. No Qt here."""

from __future__ import annotations

from typing import Final

import msgspec

from app.fold.pose import HOME_TILT, HOME_TURN, WALL_TILT, WALL_TURN
from core.face.finish import Finish
from core.plan.model import Plan

WALL: Final = ""  # what stands for all shelves on their wall
LEAST, MOST = 64, 8000  # pixels of a side


class Showing(msgspec.Struct, frozen=True):
    """A picture of `shelf` alone (its id), or of all shelves on their wall ('')."""

    shelf: str = WALL
    finish: Finish = "raw"
    size: tuple[int, int] = (1920, 1080)  # pixels, across and down
    clear: bool = False  # nothing behind the shelves but their shadow: for laying over something else
    view: tuple[float, float] | None = None  # turn and tilt of the eye; None: from the board's own side [deg]

    @property
    def is_wall(self) -> bool:
        """Are they on their wall?"""
        return self.shelf == WALL

    def seen_from(self) -> tuple[float, float]:
        """Turn and tilt. [deg]"""
        if self.view is not None:
            return self.view
        return (WALL_TURN, WALL_TILT) if self.is_wall else (HOME_TURN, HOME_TILT)


def first_showing(plan: Plan) -> Showing:
    """On the wall where any shelf hangs, else the first shelf alone."""
    shelves = plan.project.shelves
    if any(shelf.mount is not None for shelf in shelves) or not shelves:
        return Showing()
    return Showing(shelves[0].id)
