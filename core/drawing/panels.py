"""The panels of a sheet: show faces, inside edges, V's, names and seam letters."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.drawing.model import Area, Box, Item, Line, Point, Text
from core.drawing.names import part_name, size_text
from core.drawing.triangle import START, body_span, half_turned, makers_triangle, show_box, strips_together
from core.geometry.net import EDGES, EdgeName, Joint, Net, NetPanel
from core.lengths import Unit
from core.plan.model import Panel, Seam

NO_SIZE: Final = 1e-6  # mm: narrower than this there is nothing to draw
LETTERS_FROM: Final = 0.72  # of a body panel's length: right of its name, where its seam letters stand
LETTERS_STEP: Final = 0.09
END_LETTER: Final = 0.79  # of an end seam's length, above the small triangle
INSET: Final = 6.0  # from an edge to the middle of its letter [points]


def rectangle(box: Box) -> tuple[Point, Point, Point, Point]:
    """The corners of a box, lower left first, counter-clockwise."""
    x0, y0, x1, y1 = box
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def panel_faces(panels: dict[str, Panel], net: Net, setback: float) -> Iterator[Item]:
    """Show faces, inside edges and V's of one shelf's panels on one sheet, by role."""
    for role, panel in panels.items():
        yield Area("panel", rectangle(show_box(panel)), panel.id)
        yield from _heels(panel, net.panel(role), setback)
    for joint in net.joints:
        if joint.wraps and all(role in panels for role in joint.panels):
            strip = _between(*(show_box(panels[role]) for role in joint.panels))
            if strip:
                yield Area("void", rectangle(strip), f"{net.owner}/{joint.name}")


def _heels(panel: Panel, shape: NetPanel, setback: float) -> Iterator[Line]:
    """The inside face's edge along each bevelled edge."""
    x0, y0, x1, y1 = show_box(panel)
    low_x, high_x, low_y, high_y = (setback if bevel else 0.0 for bevel in shape.bevels)
    if not panel.inside[0] > 0.0 or not panel.inside[1] > 0.0:
        return
    corners = rectangle((x0 + low_x, y0 + low_y, x1 - high_x, y1 - high_y))
    sides = {"low_y": (0, 1), "high_x": (1, 2), "high_y": (2, 3), "low_x": (3, 0)}
    for edge, bevel in zip(EDGES, shape.bevels, strict=True):
        if bevel:
            start, end = sides[edge]
            yield Line("heel", (corners[start], corners[end]), panel.id)


def _between(a: Box, b: Box) -> Box | None:
    """The strip between two panels that lie side by side or one above the other."""
    x0, y0, x1, y1 = max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3])
    if x1 <= x0 and y1 > y0:
        x0, x1 = x1, x0
    elif y1 <= y0 and x1 > x0:
        y0, y1 = y1, y0
    else:
        return None
    return (x0, y0, x1, y1) if min(x1 - x0, y1 - y0) > NO_SIZE else None


def panel_marks(
    panels: dict[str, Panel], net: Net, seams: dict[str, Seam], letters: dict[str, str], unit: Unit
) -> Iterator[Item]:
    """The maker's triangle, names with sizes, and seam letters; where room is short the first ones stay."""
    yield from makers_triangle(panels, net)
    rooms = {role: _name_room(role, panels, net) for role in panels}
    for role, panel in panels.items():
        name = part_name(panel.id, letters)
        at = _middle(rooms[role])
        yield Text("label", at, name, 9.0, "middle", room=rooms[role], about=panel.id, short=role, clear=True)
    for joint in net.joints:
        seam = seams.get(f"{net.owner}/{joint.name}")
        if seam is not None:
            yield from _seam_letters(panels, joint, seam, net.turned)
    for role, panel in panels.items():
        size = size_text(panel.show[0], panel.show[1], unit)
        at = _middle(rooms[role])
        yield Text("mark", at, size, 9.0, "middle", room=rooms[role], about=panel.id, shift=(0.0, -11.0), clear=True)


def _middle(box: Box) -> Point:
    return ((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0)


def _name_room(role: str, panels: dict[str, Panel], net: Net) -> Box:
    """Where a panel's name may stand: clear of the maker's triangle and of most seam letters."""
    if net.turned:
        x0, y0, x1, y1 = _upright_room(role, half_turned(panels), net)
        return (-x1, -y1, -x0, -y0)
    return _upright_room(role, panels, net)


def _upright_room(role: str, panels: dict[str, Panel], net: Net) -> Box:
    x0, y0, x1, y1 = show_box(panels[role])
    if role in ("left", "right"):
        strip = 0.3 * min(x1 - x0, y1 - y0)
        return (x0, y0, x1 - strip, y1) if role == "left" else (x0 + strip, y0, x1, y1)
    strips = strips_together(panels, net)
    if panels[role] in strips:
        rise = show_box(strips[0])[3] - show_box(strips[-1])[1]
        _, right = body_span((x0, y0, x1, y1), rise)
        return (right, y0, x0 + LETTERS_FROM * (x1 - x0), y1)
    return (x0, y0, x0 + LETTERS_FROM * (x1 - x0), y1)


def _seam_letters(panels: dict[str, Panel], joint: Joint, seam: Seam, turned: bool) -> Iterator[Item]:
    """One letter beside each of the two edges that meet; both or, where one has no room, none."""
    body = not {"left", "right"} & set(joint.panels)
    share = LETTERS_FROM + (0.05 if "top" in joint.panels else 0.05 + LETTERS_STEP) if body else END_LETTER
    edges = [(panels[role], edge) for role, edge in zip(joint.panels, joint.edges, strict=True) if role in panels]
    left: EdgeName = "high_x" if turned else "low_x"
    depth = min((_depth(panel, edge, left) for panel, edge in edges), default=0.0)
    for panel, edge in edges:
        yield _letter(panel, edge, 1.0 - share if turned else share, depth, seam)


def _depth(panel: Panel, edge: EdgeName, left: EdgeName) -> float:
    """Room for a letter, square to its edge: as far as the large triangle on a body panel's left edge. [mm]"""
    length, width = panel.show
    if edge.endswith("_y"):
        return width
    return START * length if edge == left and panel.role in ("top", "front", "bottom") else length / 2.0


def _letter(panel: Panel, edge: EdgeName, share: float, depth: float, seam: Seam) -> Text:
    x0, y0, x1, y1 = show_box(panel)
    inward = 1.0 if edge.startswith("low") else -1.0
    if edge.endswith("_x"):
        x = x0 if edge == "low_x" else x1
        at, shift = (x, y0 + share * (y1 - y0)), (inward * INSET, 0.0)
        room = (min(x, x + inward * depth), y0, max(x, x + inward * depth), y1)
    else:
        y = y0 if edge == "low_y" else y1
        at, shift = (x0 + share * (x1 - x0), y), (0.0, inward * INSET)
        room = (x0, min(y, y + inward * depth), x1, max(y, y + inward * depth))
    return Text(
        "mark",
        at,
        seam.letter,
        9.0,
        "middle",
        room=room,
        about=panel.id,
        shift=shift,
        clear=True,
        group=seam.id,
    )
