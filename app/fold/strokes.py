"""Lines of the picture: seams, the mark of a turned seam, pencil edges, and the outline of what is selected.

A line is two points. For OpenGL it is a strip of two triangles as wide as a pen, see `rows_of`. No Qt here.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from app.fold.meshes import Matrices
from core.geometry.net import EDGES, EdgeName, Net, NetPanel

Floats = NDArray[np.float64]
Run = tuple[tuple[float, float], tuple[float, float]]  # both ends of a line on a show face, in net space [mm]
Style = Literal["stick", "edge", "seam", "turned", "mark", "chosen"]

MARK_SHARE, MARK_MOST = 0.3, 26.0  # size of a turned seam's mark: of the panel's smaller side, and at most [mm]
DRAWN: tuple[Style, ...] = ("edge", "seam", "turned", "mark")
_CORNERS = np.array([(0, -1), (1, -1), (1, 1), (0, -1), (1, 1), (0, 1)], dtype=float)  # end, side


class Lines(NamedTuple):
    """A net's lines in net space, style by style."""

    ends: Floats  # (N, 2, 3) [mm]
    owner: NDArray[np.intp]  # (N,): which panel a line lies on
    runs: dict[Style, slice]


@lru_cache(maxsize=128)
def net_lines(net: Net, is_closed: bool) -> Lines:
    """Toes of seams, marks of the turned ones, and the other edges of show faces.

    is_closed: the two toes of a seam lie on each other, and only one is drawn.
    """
    panels = {panel.role: (at, panel) for at, panel in enumerate(net.panels)}
    found: dict[Style, list[tuple[int, Run]]] = {style: [] for style in DRAWN}
    used: set[tuple[str, EdgeName]] = set()
    for joint in net.joints:
        sides = [(*panels[role], edge) for role, edge in zip(joint.panels, joint.edges, strict=True)]
        used.update((panel.role, edge) for _, panel, edge in sides)
        shown = sides[:1] if is_closed else sides
        found["seam" if joint.wraps else "turned"] += [(at, _ends(panel, edge)) for at, panel, edge in shown]
        if not joint.wraps:
            size = min(MARK_MOST, *(MARK_SHARE * min(panel.length, panel.width) for _, panel, _ in sides))
            found["mark"] += [(at, _stroke(panel, edge, size)) for at, panel, edge in sides]
    for at, panel in panels.values():
        found["edge"] += [(at, _ends(panel, edge)) for edge in EDGES if (panel.role, edge) not in used]
    return _run_together(found)


def _run_together(found: dict[Style, list[tuple[int, Run]]]) -> Lines:
    runs, at = {}, 0
    for style, lines in found.items():
        runs[style] = slice(at, at + len(lines))
        at += len(lines)
    every = [line for lines in found.values() for line in lines]
    ends = np.zeros((len(every), 2, 3))
    ends[:, :, :2] = np.array([run for _, run in every]).reshape(-1, 2, 2)
    return Lines(ends, np.array([at for at, _ in every], dtype=np.intp), runs)


def _ends(panel: NetPanel, edge: EdgeName) -> Run:
    """Both ends of an edge on the show face, in net space. [mm]"""
    x0, y0, x1, y1 = panel.box
    if edge in ("low_x", "high_x"):
        x = x0 if edge == "low_x" else x1
        return ((x, y0), (x, y1))
    y = y0 if edge == "low_y" else y1
    return ((x0, y), (x1, y))


def _stroke(panel: NetPanel, edge: EdgeName, size: float) -> Run:
    """A stroke that runs with the panel's grain, near the middle of an edge: towards a seam across it, or along it."""
    (x0, y0), (x1, y1) = _ends(panel, edge)
    x, y = (x0 + x1) / 2.0, (y0 + y1) / 2.0
    inward = size if edge in ("low_x", "low_y") else -size
    if edge in ("low_x", "high_x"):
        return ((x + 0.25 * inward, y), (x + 1.25 * inward, y))
    return ((x - 0.6 * size, y + 0.4 * inward), (x + 0.6 * size, y + 0.4 * inward))


def outline(net: Net, about: str, matrices: Matrices) -> Floats:
    """What is marked for a selection, folded: '' the whole shelf, a panel's role, or a joint's name; (N, 2, 3)."""
    panels = {panel.role: (at, panel) for at, panel in enumerate(net.panels)}
    joint = next((joint for joint in net.joints if joint.name == about), None)
    if joint is not None:
        chosen = list(zip(joint.panels, joint.edges, strict=True))
    else:
        chosen = [(panel.role, edge) for panel in net.panels if about in ("", panel.role) for edge in EDGES]
    lines = _run_together({"chosen": [(panels[role][0], _ends(panels[role][1], edge)) for role, edge in chosen]})
    return matrices.moved(lines.ends, lines.owner)


def box_outlines(lows: Floats, highs: Floats) -> Floats:
    """The twelve edges of boxes (N, 3), (12 N, 2, 3)."""
    ends = np.stack([lows, highs])
    corners = np.stack([np.stack([ends[i >> axis & 1, :, axis] for axis in range(3)], axis=1) for i in range(8)])
    pairs = np.array([(i, i | 1 << axis) for axis in range(3) for i in range(8) if not i >> axis & 1])
    result: Floats = corners[pairs].transpose(0, 2, 1, 3).reshape(-1, 2, 3)
    return result


def rows_of(lines: Floats) -> Floats:
    """Two triangles for each line: rows of its two points, which end a corner is at, and which side of the line."""
    rows = np.empty((len(lines), 6, 8))
    rows[:, :, :6] = lines.reshape(-1, 1, 6)
    rows[:, :, 6:] = _CORNERS
    return rows.reshape(-1, 8)
