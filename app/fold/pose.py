"""What the hand has set: how far it is folded, what is shown, and from which side. No Qt here."""

from __future__ import annotations

from typing import Final, NamedTuple

from core.language import tr


class Pose(NamedTuple):
    """How the shelves stand."""

    fold: float = 1.0  # 0 flat on the sheet .. 1 closed
    frame: bool = False  # the frame is seen through the shell
    slip: float = 0.0  # how far the shell is off its frame: 0 home .. 1 clear of it
    wall: bool = False  # the whole wall, or one shelf


class Side(NamedTuple):
    """A named side to look from. L, D and H choose the handles of the sizes, as on every board."""

    name: str
    words: str
    key: str
    turn: float  # [deg]
    tilt: float  # [deg]


SIDES: Final = (
    Side("front", tr("Front"), "F", 0.0, 0.0),
    Side("top", tr("Top"), "T", 0.0, 90.0),
    Side("bottom", tr("Bottom"), "B", 0.0, -90.0),
    Side("left", tr("Left end"), "E", -90.0, 0.0),
    Side("right", tr("Right end"), "R", 90.0, 0.0),
    Side("inside", tr("Inside, from the wall"), "I", 180.0, 0.0),
)
HOME_TURN, HOME_TILT = 30.0, 24.0  # where the board starts: an end, the front and the top are seen [deg]
WALL_TURN, WALL_TILT = 16.0, 10.0  # the same for the whole wall [deg]
