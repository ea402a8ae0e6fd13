"""The net of a shelf's shell: top, front, bottom, and an end at each mitred side.

+------+--------------+------+          ends from the front (shown), the top or the bottom;
:      |     top      |      :          y up, seen from the show face; back edges are the
+------+--------------+------+          outer ones. Folded away from the viewer, left stays left.
| left |    front     | right|
+------+--------------+------+
:      |    bottom    |      :
+------+--------------+------+
"""

from __future__ import annotations

from functools import lru_cache

from core.document.model import Shelf
from core.geometry.net import EdgeName, Joint, Net, NetPanel, turned

ROLES = ("top", "front", "bottom", "left", "right")


@lru_cache(maxsize=1024)
def shell_net(shelf: Shelf, bevel: float, loss: float) -> Net:
    """The net of one shelf as it lies, panels that are cut apart in their places: only their seams do not wrap.

    bevel: tilt of every mitred edge. [deg]
    loss: figure lost at each wrapping seam, the gap between neighbours on the sheet. [mm]
    """
    net = _upright(shelf, bevel, loss)
    return turned(net) if shelf.turned else net


def _upright(shelf: Shelf, bevel: float, loss: float) -> Net:
    depth, height = shelf.depth + shelf.scribe, shelf.height
    reach = (height if shelf.ends_from != "front" else depth) + loss
    left, right = shelf.left == "mitred", shelf.right == "mitred"
    x = reach if left else 0.0
    rows = {"bottom": (0.0, depth), "front": (depth + loss, height), "top": (depth + height + 2 * loss, depth)}
    ends = (bevel if left else 0.0, bevel if right else 0.0)

    def body(role: str, low: float, high: float, parent: str | None, hinge: EdgeName | None) -> NetPanel:
        y, width = rows[role]
        return NetPanel(role, x, y, shelf.length, width, (*ends, low, high), parent, hinge)

    panels = [
        body("front", bevel, bevel, None, None),
        body("top", bevel, 0.0, "front", "low_y"),
        body("bottom", 0.0, bevel, "front", "high_y"),
    ]
    length = shelf.length + shelf.mitred_ends * reach
    y, width = rows[shelf.ends_from]
    for role, wanted in (("left", left), ("right", right)):
        if wanted:
            at = 0.0 if role == "left" else x + shelf.length + loss
            panels.append(_end(role, shelf.ends_from, (at, y, reach - loss, width), bevel))
    across = 2 * depth + height + 2 * loss
    return Net(shelf.id, tuple(panels), _joints(shelf, depth), length, across, loss, shelf.apart)


def _end(role: str, strip: str, box: tuple[float, float, float, float], bevel: float) -> NetPanel:
    """One end, hinged on the strip it is cut from; its back edge is the only square one."""
    hinge: EdgeName = "high_x" if role == "left" else "low_x"
    bevels = [bevel] * 4
    if strip == "front":
        bevels[0 if role == "left" else 1] = 0.0  # the back is the edge away from the front
    else:
        bevels[3 if strip == "top" else 2] = 0.0  # the back lies in line with the strip's own back
    return NetPanel(role, *box, (bevels[0], bevels[1], bevels[2], bevels[3]), strip, hinge)


# Which edge of an end meets which panel, by the strip the end is cut from; the hinge edge is added for its own strip.
_END_EDGES: dict[str, dict[str, EdgeName | None]] = {
    "front": {"top": "high_y", "bottom": "low_y", "front": None},
    "top": {"front": "low_y", "bottom": None, "top": None},
    "bottom": {"front": "high_y", "top": None, "bottom": None},
}


def _joints(shelf: Shelf, depth: float) -> tuple[Joint, ...]:
    joints = [
        Joint(("top", "front"), ("low_y", "high_y"), shelf.length, "top" not in shelf.apart),
        Joint(("front", "bottom"), ("low_y", "high_y"), shelf.length, "bottom" not in shelf.apart),
    ]
    for role, state in (("left", shelf.left), ("right", shelf.right)):
        if state != "mitred":
            continue
        inner: EdgeName = "high_x" if role == "left" else "low_x"
        outer: EdgeName = "low_x" if role == "left" else "high_x"
        body_edge: EdgeName = outer
        for other in ("front", "top", "bottom"):
            own = other == shelf.ends_from
            edge = inner if own else (_END_EDGES[shelf.ends_from][other] or outer)
            length = shelf.height if other == "front" else depth
            joints.append(Joint((other, role), (body_edge, edge), length, own and role not in shelf.apart))
    return tuple(joints)
