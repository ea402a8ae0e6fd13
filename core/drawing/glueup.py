"""Gluing a shell up: the net face up with its tape and the order of its folds, and the mouth with its spacers.

    :   top   :              Tape lies along each seam that the net folds at and in strips across it; a cross at a
+---+=========+---+          seam's end says that it is cut off there, flush with the toes, or it would be caught in
| 1 x  front  x 2 |          the joint that closes there. Numbers are the order of the folds: ends first, then top,
+---+=========+---+          then bottom, which closes on all of them.
    :  bottom :
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import Final

from core.drawing.model import Area, Box, Drawing, Item, Ordinates, Point, Sign, Text
from core.drawing.names import part_word, shelf_letters
from core.drawing.panels import rectangle
from core.geometry.net import Joint, Net, NetPanel, upright
from core.language import tr
from core.lengths import Unit, show_length
from core.plan.model import Frame, Plan
from core.supplies import rates
from core.supplies.buying import spacer_places

CUT_MARK: Final = (((-3.5, -3.5), (3.5, 3.5)), ((-3.5, 3.5), (3.5, -3.5)))  # points
WIDE: Final = 24.0  # mm: of tape
NAMED: Final = {"left": 0.36, "right": 0.64}  # along an end: where its name stands, clear of the tape
ORDER: Final = ("left", "right", "top", "bottom", "front")


def fold_order(net: Net) -> tuple[str, ...]:
    """Roles in the order they are folded on to what they hang on: ends, top, bottom."""
    return tuple(role for role in ORDER if any(p.role == role and p.parent is not None for p in net.panels))


def taped(net: Net) -> tuple[Joint, ...]:
    """The seams the net folds at: those of each panel with the one it hangs on."""
    pairs = {frozenset((panel.role, panel.parent)) for panel in net.panels if panel.parent is not None}
    return tuple(joint for joint in net.joints if frozenset(joint.panels) in pairs)


def draw_fold(plan: Plan, shelf_id: str) -> Drawing:
    """The net of one shelf, show face up, its top up, taped. Raises KeyError where there is no such shelf."""
    net = next((upright(net) for net in plan.shapes if net.owner == shelf_id), None)
    if net is None:
        raise KeyError(f"no shelf {shelf_id}")
    seams = {seam.id: seam.letter for seam in plan.seams}
    order = {role: number for number, role in enumerate(fold_order(net), 1)}
    unit = Unit(plan.project.units)
    items: list[Item] = []
    for panel in net.panels:
        items.append(Area("panel", rectangle(panel.box), f"{shelf_id}/{panel.role}"))
    for joint in taped(net):
        items += _tape(net, joint, unit)
    for panel in net.panels:
        items += _name(panel, order.get(panel.role))
    for joint in taped(net):
        items.append(_letter(net, joint, seams.get(f"{shelf_id}/{joint.name}", "")))
    words = tr("show faces up, as taped; folded from the back, when it is turned over")
    items.append(Text("note", (0.0, net.width), words, 9.0, shift=(0.0, 8.0)))
    name = shelf_letters(plan)[shelf_id]
    return Drawing(
        f"fold {shelf_id}", tr("Shelf {name}, show face up", name=name), (0.0, 0.0, net.length, net.width), tuple(items)
    )


def _line(net: Net, joint: Joint) -> tuple[Point, Point]:
    """The middle of the gap between two panels, from end to end of their seam."""
    one, other = (net.panel(role).box for role in joint.panels)
    x0, y0, x1, y1 = max(one[0], other[0]), max(one[1], other[1]), min(one[2], other[2]), min(one[3], other[3])
    if joint.edges[0].endswith("_y"):
        middle = (y0 + y1) / 2.0
        return (x0, middle), (x1, middle)
    middle = (x0 + x1) / 2.0
    return (middle, y0), (middle, y1)


def _tape(net: Net, joint: Joint, unit: Unit) -> Iterator[Item]:
    """Strips across the seam, one along it, and where that is cut off."""
    (x0, y0), (x1, y1) = start, end = _line(net, joint)
    upright = x0 == x1
    length = max(x1 - x0, y1 - y0)
    half, wide = rates.TAPE_STRIP[unit] / 2.0, min(WIDE, length / 6.0) / 2.0
    count = max(2, ceil(length / (2.0 * rates.TAPE_STEP[unit])))  # every other strip, so that the drawing stays clear
    for n in range(count):
        along = length * (n + 0.5) / count
        at = (x0, y0 + along) if upright else (x0 + along, y0)
        reach = min(half, 0.45 * _least(net, joint))
        box = (
            (at[0] - reach, at[1] - wide, at[0] + reach, at[1] + wide)
            if upright
            else (at[0] - wide, at[1] - reach, at[0] + wide, at[1] + reach)
        )
        yield Area("tape", rectangle(box))
    box = (x0 - wide, y0, x1 + wide, y1) if upright else (x0, y0 - wide, x1, y1 + wide)
    yield Area("tape", rectangle(box))
    for place in (start, end):
        yield Sign("now", place, CUT_MARK)


def _least(net: Net, joint: Joint) -> float:
    """The smaller width of two panels, square to their seam. [mm]"""
    upright = joint.edges[0].endswith("_x")
    panels = [net.panel(role) for role in joint.panels]
    return min(panel.length if upright else panel.width for panel in panels)


def _name(panel: NetPanel, order: int | None) -> Iterator[Item]:
    x0, y0, x1, y1 = panel.box
    words = part_word(panel.role) if order is None else f"{order}  {part_word(panel.role)}"
    at = (x0 + NAMED.get(panel.role, 0.5) * (x1 - x0), (y0 + y1) / 2.0)
    yield Text("label", at, words, 12.0, "middle", room=panel.box, about=panel.role, short=words[:1], clear=True)


def _letter(net: Net, joint: Joint, letter: str) -> Text:
    (x0, y0), (x1, y1) = _line(net, joint)
    at = (x0 + 0.28 * (x1 - x0), (y0 + y1) / 2.0)  # an end's in its middle, clear of the crosses
    return Text("label", at, letter, 9.0, "middle", clear=True)


def draw_mouth(plan: Plan, frame: Frame) -> Drawing:
    """The mouth of a shell from behind, standing on its front, with its spacers; places from its left inner end."""
    unit = Unit(plan.project.units)
    length, _, height = frame.cavity
    wall = _thickness(plan, frame)
    shelf = next(s for s in plan.project.shelves if s.id == frame.shelf)
    ends = (wall if shelf.left == "mitred" else 0.0, wall if shelf.right == "mitred" else 0.0)
    outside: Box = (-ends[0], -wall, length + ends[1], height + wall)
    x0, y0, x1, y1 = outside
    walls = ((x0, height, x1, y1), (x0, y0, x1, 0.0), (x0, 0.0, 0.0, height), (length, 0.0, x1, height))
    items: list[Item] = [Area("kept", rectangle(box)) for box in walls if box[2] - box[0] > 0.0]
    places = spacer_places(length, unit)
    wide = min(30.0, length / 12.0)
    for place in places:
        items.append(Area("packer", rectangle((place - wide / 2.0, 0.0, place + wide / 2.0, height))))
    marks = tuple((place, show_length(place, unit, 16, marks=False)) for place in places)
    items.append(Ordinates("dimension", "x", -wall, "low", marks))
    numbers = ((0.0, show_length(0.0, unit)), (height, show_length(height, unit)))
    items.append(Ordinates("dimension", "y", length + ends[1], "high", numbers))
    items.append(Text("note", (x0, y1), tr("the mouth, from behind; spacers hatched"), 9.0, shift=(0.0, 8.0)))
    name = shelf_letters(plan)[frame.shelf]
    return Drawing(f"mouth {frame.shelf}", tr("Shelf {name}, the mouth from behind", name=name), outside, tuple(items))


def _thickness(plan: Plan, frame: Frame) -> float:
    """Of the shell, from its cavity. [mm]"""
    shelf = next(s for s in plan.project.shelves if s.id == frame.shelf)
    return (shelf.height - frame.cavity[2]) / 2.0
