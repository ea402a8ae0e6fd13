"""The room inside a shell, and the frame that fits it.

section across a shelf, wall at the right        t   sheet's thickness
                                                 q   t tan(bevel), set-back of the inside edges
    toe +-------------------------- back edge
        | \\  top                               The cavity's faces lie t behind the show faces, whatever the
        |   +----------------------              bevel. The inside edges (heels) lie q behind the toes: with an
  front |   |  cavity: H - 2t                    overcut q > t, so each inside corner keeps an open wedge that
        |   +----------------------              makes the cavity no smaller.
        | /  bottom
    toe +--------------------------
        |<----- depth D ---------->|             cavity depth D - t, measured to the wall: scribe is taken off
"""

from __future__ import annotations

import msgspec

from core.document.model import FrameWish, Shelf


class Cavity(msgspec.Struct, frozen=True):
    """Free room inside the closed shell, square corners taken; may be 0 or less. [mm]"""

    length: float
    depth: float
    height: float


class FrameSize(msgspec.Struct, frozen=True):
    """Outside of the frame, and the length of its ribs; may be 0 or less where nothing fits. [mm]"""

    length: float
    depth: float
    height: float
    rib_length: float


def cavity_of(shelf: Shelf, thickness: float) -> Cavity:
    """Cavity of a shelf: L - n t, D - t, H - 2 t with n mitred ends; an open end has no wall there.

    thickness: of the shell's sheet. [mm]
    """
    return Cavity(shelf.length - shelf.mitred_ends * thickness, shelf.depth - thickness, shelf.height - 2.0 * thickness)


def frame_size(cavity: Cavity, wish: FrameWish, thickness: float) -> FrameSize:
    """The frame in a cavity: less the side play at each end, the front play, and the height play once.

    thickness: of the frame's sheet; every rail layer takes it off the ribs' length. [mm]
    """
    depth = cavity.depth - wish.front_play
    return FrameSize(
        cavity.length - 2.0 * wish.side_play,
        depth,
        cavity.height - wish.height_play,
        depth - (wish.back_layers + wish.front_layers) * thickness,
    )
