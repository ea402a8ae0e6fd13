"""The net: a shell unfolded flat, as a tree of panels joined at seams.

Nothing here knows what a shelf is: a net is panels, each hinged on its parent along one edge, and joints, the pairs
of edges that meet when it is folded. `core.geometry.shell` grows the tree of a shelf; other pieces are other trees.

Net axes: x along the grain, y across, origin at the net's lower left corner, seen from the show face. Edges:

              high_y
           +----------+
     low_x |  panel   | high_x        A hinge folds the child away from the viewer.
           +----------+
              low_y

A net may lie turned end for end, by half a turn, so that another figure lands on each panel: `turned` says so. Boxes,
edges and tilts are then those of the turned net; roles stay, so that the top lies at low y and the left end at high x.
"""

from __future__ import annotations

from typing import Literal

import msgspec

EdgeName = Literal["low_x", "high_x", "low_y", "high_y"]
EDGES: tuple[EdgeName, ...] = ("low_x", "high_x", "low_y", "high_y")
OPPOSITE: dict[EdgeName, EdgeName] = {"low_x": "high_x", "high_x": "low_x", "low_y": "high_y", "high_y": "low_y"}


class NetPanel(msgspec.Struct, frozen=True, gc=False):
    """One panel of a net: its show face's box and the tilt of each edge (0 is square)."""

    role: str
    x: float
    y: float
    length: float  # along x [mm]
    width: float  # along y [mm]
    bevels: tuple[float, float, float, float]  # low_x, high_x, low_y, high_y [deg]
    parent: str | None = None
    hinge: EdgeName | None = None  # this panel's edge on its parent

    @property
    def box(self) -> tuple[float, float, float, float]:
        """x0, y0, x1, y1 of the show face."""
        return (self.x, self.y, self.x + self.length, self.y + self.width)

    def bevel(self, edge: EdgeName) -> float:
        """Tilt of one edge. [deg]"""
        return self.bevels[EDGES.index(edge)]


class Joint(msgspec.Struct, frozen=True, gc=False):
    """A seam of the net: two edges that meet when folded. `wraps` says the figure runs on over it."""

    panels: tuple[str, str]
    edges: tuple[EdgeName, EdgeName]
    length: float
    wraps: bool
    corner: float = 90.0

    @property
    def name(self) -> str:
        """Like 'top-front'."""
        return f"{self.panels[0]}-{self.panels[1]}"


class Net(msgspec.Struct, frozen=True, gc=False):
    """A tree of panels (parents before children) and the joints between them."""

    owner: str  # id of the shelf
    panels: tuple[NetPanel, ...]
    joints: tuple[Joint, ...]
    length: float
    width: float
    loss: float  # figure lost at each wrapping seam: the gap between hinged panels [mm]
    apart: tuple[str, ...] = ()  # roles cut as pieces of their own, see `core.geometry.parts`; here they lie in place
    turned: bool = False  # it lies end for end: its front's own axes run the other way

    def panel(self, role: str) -> NetPanel:
        """The panel of that role; KeyError where there is none."""
        for panel in self.panels:
            if panel.role == role:
                return panel
        raise KeyError(role)


def turned(net: Net) -> Net:
    """The same net end for end, turned by 180° in its plane; turned twice it is as it was."""
    panels = tuple(
        msgspec.structs.replace(
            p,
            x=net.length - p.x - p.length,
            y=net.width - p.y - p.width,
            bevels=(p.bevels[1], p.bevels[0], p.bevels[3], p.bevels[2]),
            hinge=None if p.hinge is None else OPPOSITE[p.hinge],
        )
        for p in net.panels
    )
    joints = tuple(msgspec.structs.replace(j, edges=(OPPOSITE[j.edges[0]], OPPOSITE[j.edges[1]])) for j in net.joints)
    return msgspec.structs.replace(net, panels=panels, joints=joints, turned=not net.turned)


def upright(net: Net) -> Net:
    """The net with its top at high y and its left end at low x, however it lies on its sheet."""
    return turned(net) if net.turned else net


def inside_size(panel: NetPanel, setbacks: tuple[float, float, float, float]) -> tuple[float, float]:
    """Inside face of a panel: the show face less each edge's set-back (low_x, high_x, low_y, high_y). [mm]

    Never below 0: a panel whose bevels meet before the inside face has none.
    """
    return (
        max(0.0, panel.length - setbacks[0] - setbacks[1]),
        max(0.0, panel.width - setbacks[2] - setbacks[3]),
    )
