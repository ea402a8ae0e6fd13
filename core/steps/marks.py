"""Ticks across the seams: pencilled before anything is cut, so that the strips are glued back as the grain ran.

Lines that cross a seam jump at once where two strips are glued a little aside of each other; three ticks on every seam
that keeps the figure, near both its ends and in its middle, say where they belong. Letters and the maker's triangle
are drawn with the panels (`core.drawing.panels`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final, Literal

import msgspec

from core.drawing.model import Line
from core.geometry.net import Joint, Net
from core.plan.model import Panel, Plan

FROM_END: Final = 40.0  # mm: from a seam's end to its tick
SHARE: Final = 0.2  # of the seam's length at most
REACH: Final = 15.0  # mm: how far a tick runs into either panel
PART: Final = 0.25  # of the panel's width at most

Box = tuple[float, float, float, float]


class SeamTicks(msgspec.Struct, frozen=True, gc=False):
    """The three ticks of one seam on its sheet. [mm]"""

    seam: str
    letter: str
    sheet: str
    axis: Literal["x", "y"]  # the way the seam runs
    places: tuple[float, float, float]  # along it
    ends: tuple[float, float]  # of each tick, across the seam


def ticks_of(plan: Plan, sheet: str) -> tuple[SeamTicks, ...]:
    """The ticks on one sheet, shelf by shelf; a seam that turns the grain has none."""
    letters = {seam.id: seam.letter for seam in plan.seams}
    panels = {p.id: p for p in plan.panels if p.sheet == sheet and p.x is not None}
    return tuple(
        ticks
        for net in plan.shapes
        for ticks in net_ticks(net, {p.role: p for p in panels.values() if p.shelf == net.owner}, letters, sheet)
    )


def net_ticks(net: Net, panels: dict[str, Panel], letters: dict[str, str], sheet: str) -> Iterator[SeamTicks]:
    """The ticks of one net. panels: those that lie on the sheet, by role; letters: by seam id."""
    for joint in net.joints:
        seam = f"{net.owner}/{joint.name}"
        if joint.wraps and seam in letters and all(role in panels for role in joint.panels):
            yield _ticks(joint, [_box(panels[role]) for role in joint.panels], seam, letters[seam], sheet)


def _box(panel: Panel) -> Box:
    x, y = panel.x or 0.0, panel.y or 0.0
    return (x, y, x + panel.show[0], y + panel.show[1])


def _ticks(joint: Joint, boxes: list[Box], seam: str, letter: str, sheet: str) -> SeamTicks:
    axis: Literal["x", "y"] = "x" if joint.edges[0] in ("low_y", "high_y") else "y"
    along = 0 if axis == "x" else 1
    low, high = sorted(boxes, key=lambda box: box[1 - along])
    start, end = max(low[along], high[along]), min(low[along + 2], high[along + 2])
    inset = min(FROM_END, SHARE * (end - start))
    across = 1 - along
    reach = [min(REACH, PART * (box[across + 2] - box[across])) for box in (low, high)]
    ends = (low[across + 2] - reach[0], high[across] + reach[1])
    return SeamTicks(seam, letter, sheet, axis, (start + inset, (start + end) / 2.0, end - inset), ends)


def tick_lines(ticks: Iterable[SeamTicks]) -> Iterator[Line]:
    """The ticks as lines of a drawing, each about its seam."""
    for tick in ticks:
        for place in tick.places:
            a, b = ((place, end) if tick.axis == "x" else (end, place) for end in tick.ends)
            yield Line("mark", (a, b), tick.seam)
