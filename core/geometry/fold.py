"""Folding a net: where each panel is, from flat on the sheet to closed to its corners.

Net space is the net's axes with z towards the viewer: show faces lie at z = 0, inside faces below, at
-thickness. Shelf space has its origin at the lower left corner of the root's show face (a shelf's front), x
along the length, y up, z towards the viewer. The root stays put and the others fold away from the viewer, so
that a closed shelf fills x 0..L, y 0..H, z -(D + scribe)..0: the wall is at the back, and left is at low x
seen from the front.

    seen from the left end, viewer at the right:

         fraction 0         in between         fraction 1
            | top             \\ top          top ________
            |                  \\                        |
            | front             | front            front |
            |                  /              bottom ____|
            | bottom          / bottom
"""

from __future__ import annotations

from math import cos, radians, sin

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.geometry.net import OPPOSITE, EdgeName, Joint, Net, NetPanel

Matrix = NDArray[np.float64]

# Away from the panel across each edge, in the net's plane.
_OUTWARD: dict[EdgeName, tuple[float, float]] = {
    "low_x": (-1.0, 0.0),
    "high_x": (1.0, 0.0),
    "low_y": (0.0, -1.0),
    "high_y": (0.0, 1.0),
}


class ToeLines(msgspec.Struct, frozen=True):
    """The two toes of a joint in shelf space, each (2, 3) [mm]; their first points meet when closed."""

    joint: Joint
    first: NDArray[np.float64]  # of joint.panels[0]
    second: NDArray[np.float64]  # of joint.panels[1]


def closed_frame(net: Net) -> Matrix:
    """Net space to shelf space for the root panel, at every fold: a shift, or half a turn of a net that lies turned."""
    root = next(p for p in net.panels if p.parent is None)
    if not net.turned:
        return _shift(-root.x, -root.y, 0.0)
    back = _shift(root.x + root.length, root.y + root.width, 0.0)
    back[0, 0] = back[1, 1] = -1.0
    return back


def fold_transforms(net: Net, fraction: float, outside_gap: float = 0.0) -> dict[str, Matrix]:
    """A rigid transform from net space to shelf space for each panel, by role: 4x4, acts on columns.

    fraction: 0 flat on the sheet .. 1 closed; a child turns by fraction x (180 deg - corner) about its
        parent's toe while the gap between the two toes closes by the same fraction.
    outside_gap: what stays open between the toes once closed, the `SeamSection.outside_gap` of an undercut
        bevel, 0 otherwise. The heels then touch and each child stands off square to the mitre. [mm]
    Panels share no wood at any fraction, but an undercut (overcut < 0) does once closed without its gap.
    Raises ValueError for a fraction outside 0..1, a parent that comes late, or a hinge without a joint.
    """
    if not 0.0 <= fraction <= 1.0:
        raise ValueError(f"a fold of {fraction:g} is not between 0 (flat) and 1 (closed)")
    placed: dict[str, NetPanel] = {}
    result: dict[str, Matrix] = {}
    for panel in net.panels:
        if panel.parent is None:
            result[panel.role] = closed_frame(net)
        else:
            if panel.parent not in placed or panel.hinge is None:
                raise ValueError(f"panel {panel.role} of {net.owner} hangs on {panel.parent}, which is not there yet")
            turn = _hinge(placed[panel.parent], panel, _corner(net, panel), fraction, outside_gap)
            result[panel.role] = result[panel.parent] @ turn
        placed[panel.role] = panel
    return result


def toe(panel: NetPanel, edge: EdgeName) -> NDArray[np.float64]:
    """Both ends of an edge on the show face, (2, 3) in net space, counter-clockwise round the panel. [mm]"""
    x0, y0, x1, y1 = panel.box
    ends = {
        "low_y": ((x0, y0, 0.0), (x1, y0, 0.0)),
        "high_x": ((x1, y0, 0.0), (x1, y1, 0.0)),
        "high_y": ((x1, y1, 0.0), (x0, y1, 0.0)),
        "low_x": ((x0, y1, 0.0), (x0, y0, 0.0)),
    }
    return np.array(ends[edge])


def net_toes(net: Net, joint: Joint) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The two toes of a joint in net space, (2, 3) each, in the order in which their ends meet. [mm]

    The net is one surface seen from one side, so the two panels run along a shared edge in opposite senses.
    """
    first, second = (toe(net.panel(role), edge) for role, edge in zip(joint.panels, joint.edges, strict=True))
    return first, second[::-1]


def toe_lines(net: Net, transforms: dict[str, Matrix]) -> tuple[ToeLines, ...]:
    """Every joint's toes in shelf space, for hairlines and picking; `transforms` from `fold_transforms`."""
    lines = []
    for joint in net.joints:
        first, second = net_toes(net, joint)
        to_first, to_second = transforms[joint.panels[0]], transforms[joint.panels[1]]
        lines.append(ToeLines(joint, moved(to_first, first), moved(to_second, second)))
    return tuple(lines)


def moved(transform: Matrix, points: NDArray[np.float64]) -> NDArray[np.float64]:
    """Points (..., 3) under a rigid 4x4 transform."""
    result: NDArray[np.float64] = points @ transform[:3, :3].T + transform[:3, 3]
    return result


def _hinge(parent: NetPanel, child: NetPanel, corner: float, fraction: float, outside_gap: float) -> Matrix:
    """The child's turn about its parent's toe, in net space, with the gap between them taken up."""
    assert child.hinge is not None
    dx, dy = _OUTWARD[OPPOSITE[child.hinge]]  # from parent to child
    ends = {
        "low_x": (0, 2),
        "high_x": (2, 0),
        "low_y": (1, 3),
        "high_y": (3, 1),
    }  # child's edge, parent's edge
    own, other = ends[child.hinge]
    axis = parent.box[other]
    gap = abs(child.box[own] - axis)
    turn = 180.0 - corner
    angle, half = radians(turn * fraction), radians(turn / 2.0)
    stand_off = fraction * outside_gap
    along, rise = stand_off * cos(half) - fraction * gap, stand_off * sin(half)
    c, s = cos(angle), sin(angle)
    # With q along d = (dx, dy) from the axis: first q += along and z += rise, then (q, z) becomes
    # (c q + s z, c z - s q).
    q, away = along - axis * (dx + dy), axis * (dx + dy)
    shift_d, shift_z = c * q + s * rise + away, c * rise - s * q
    return np.array(
        [
            [c if dx else 1.0, 0.0, s * dx, shift_d * dx],
            [0.0, c if dy else 1.0, s * dy, shift_d * dy],
            [-s * dx, -s * dy, c, shift_z],
            [0.0, 0.0, 0.0, 1.0],
        ]
    )


def _corner(net: Net, child: NetPanel) -> float:
    """Corner of the joint at a panel's hinge. [deg]"""
    for joint in net.joints:
        if set(joint.panels) == {child.role, child.parent} and child.hinge in joint.edges:
            return joint.corner
    raise ValueError(f"panel {child.role} of {net.owner} has no joint at its hinge")


def _shift(x: float, y: float, z: float) -> Matrix:
    matrix = np.eye(4)
    matrix[:3, 3] = (x, y, z)
    return matrix
