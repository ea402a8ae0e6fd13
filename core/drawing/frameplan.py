"""The hidden frame: seen from above with the wall at the top, and its back rail from the front with the screws.

    =================================  back rail, against the wall
    ||  |     |     :     |     |  ||  ribs, doubled at the ends; a driver's way (:) to each stud screw
    =================================  front rail, with a hole for the driver in line with each screw

All places run from the frame's left end.
"""

from __future__ import annotations

from collections.abc import Iterator

from core.drawing.model import Area, Drawing, Item, Line, Ordinates, Sign, Text
from core.drawing.names import shelf_letters
from core.drawing.panels import rectangle
from core.language import tr
from core.lengths import Unit, show_length
from core.plan.model import Frame, Plan

SAME = 0.4  # mm: nearer marks are one
CROSS = (((-5.0, 0.0), (5.0, 0.0)), ((0.0, -5.0), (0.0, 5.0)))  # points
PAST = 22.0  # mm: how far a screw's line goes on into the wall on the drawing


def frame_of(plan: Plan, shelf_id: str) -> Frame:
    """The frame of a shelf; KeyError where it has none."""
    for frame in plan.frames:
        if frame.shelf == shelf_id:
            return frame
    raise KeyError(f"no frame for {shelf_id}")


def draw_frame(plan: Plan, shelf_id: str) -> Drawing:
    """The frame from above. Raises KeyError where the shelf has none."""
    frame, unit, wish = frame_of(plan, shelf_id), Unit(plan.project.units), plan.project.frame
    t, length, depth = frame.thickness, frame.length, frame.depth
    back, front = wish.back_layers * t, wish.front_layers * t
    items: list[Item] = []
    for n in range(wish.back_layers):
        items.append(Area("kept", rectangle((0.0, depth - (n + 1) * t, length, depth - n * t))))
    for n in range(wish.front_layers):
        items.append(Area("kept", rectangle((0.0, n * t, length, (n + 1) * t))))
    for centre in frame.ribs:
        items.append(Area("frame", rectangle((centre - t / 2.0, front, centre + t / 2.0, depth - back))))
    items += _drivers(frame, plan.project.screw.access_hole, front)
    ribs = [(x, show_length(x, unit)) for x in frame.ribs]
    items.append(Ordinates("dimension", "x", 0.0, "low", _distinct([(0.0, show_length(0.0, unit)), *ribs])))
    screws = [(screw.x, show_length(screw.x, unit)) for screw in frame.screws]
    ends = [(length, show_length(length, unit))]
    items.append(Ordinates("dimension", "x", depth, "high", _distinct([*screws, *ends])))
    levels = [(0.0, 0.0), (front, front), (depth - back, depth - back), (depth, depth)]
    marks = _distinct([(y, show_length(value, unit)) for y, value in levels])
    items.append(Ordinates("dimension", "y", length, "high", marks))
    items.append(Text("note", (0.0, depth), "wall", 9.0, "right", shift=(-6.0, -4.0)))
    items.append(Text("note", (0.0, 0.0), "front", 9.0, "right", shift=(-6.0, 4.0)))
    name = shelf_letters(plan)[shelf_id]
    return Drawing(
        f"frame {shelf_id}",
        tr("Frame of shelf {name}, from above", name=name),
        (0.0, 0.0, length, depth + PAST),
        tuple(items),
    )


def _drivers(frame: Frame, hole: float, front: float) -> Iterator[Item]:
    for x in dict.fromkeys(screw.x for screw in frame.screws):
        low, high = x - hole / 2.0, x + hole / 2.0
        if front:
            yield Area("void", rectangle((low, 0.0, high, front)))
            for side in (low, high):
                yield Line("mark", ((side, 0.0), (side, front)))
        yield Line("blade", ((x, 0.0), (x, frame.depth + PAST)))


def draw_rail(plan: Plan, shelf_id: str) -> Drawing:
    """The back rail from the front, with its screws. Raises KeyError where the shelf has no frame."""
    frame, unit = frame_of(plan, shelf_id), Unit(plan.project.units)
    box = (0.0, 0.0, frame.length, frame.height)
    items: list[Item] = [Area("panel", rectangle(box))]
    half = frame.thickness / 2.0
    for centre in frame.ribs:
        for x in (centre - half, centre + half):
            if 0.01 < x < frame.length - 0.01:
                items.append(Line("heel", ((x, 0.0), (x, frame.height))))
    for screw in frame.screws:
        items.append(Sign("now", (screw.x, screw.height), CROSS))
    heights = [(0.0, show_length(0.0, unit)), (frame.height, show_length(frame.height, unit))]
    heights += [(screw.height, show_length(screw.height, unit)) for screw in frame.screws]
    items.append(Ordinates("dimension", "y", frame.length, "high", _distinct(heights)))
    name = shelf_letters(plan)[shelf_id]
    return Drawing(f"rail {shelf_id}", tr("Back rail of shelf {name}, from the front", name=name), box, tuple(items))


def _distinct(marks: list[tuple[float, str]]) -> tuple[tuple[float, str], ...]:
    """In order, without marks that are close to the one before them."""
    kept: list[tuple[float, str]] = []
    for mark in sorted(marks):
        if not kept or mark[0] - kept[-1][0] > SAME:
            kept.append(mark)
    return tuple(kept)
