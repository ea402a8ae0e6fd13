"""Where the two edges of each wrapping seam lie on the sheet."""

from __future__ import annotations

from typing import Final, Literal

import msgspec

from core.plan.model import Panel, Plan

TOL: Final = 1e-6  # mm: float noise
FAR: Final = 60.0  # mm: no V is wider at the show face


class SeamPlace(msgspec.Struct, frozen=True):
    """A seam that wraps, on its sheet. [mm]

    runs: the way its edges go: "x" along the sheet, where the grain runs along the seam, or "y" across it.
    low, high: where the two edges lie on the other axis; the figure between them is lost. start, end: along the seam.
    """

    seam: str
    shelf: str
    sheet: str
    runs: Literal["x", "y"]
    low: float
    high: float
    start: float
    end: float

    @property
    def loss(self) -> float:
        """How much figure is lost."""
        return self.high - self.low


def seam_places(plan: Plan, shelf: str = "") -> tuple[SeamPlace, ...]:
    """Of all seams that wrap and lie on a sheet, or of one shelf's."""
    panels = {panel.id: panel for panel in plan.panels}
    found = []
    for seam in plan.seams:
        if seam.figure != "wraps" or (shelf and seam.shelf != shelf):
            continue
        place = _place(seam.id, seam.shelf, *(panels[name] for name in seam.between))
        if place is not None:
            found.append(place)
    return tuple(found)


def _place(seam: str, shelf: str, one: Panel, other: Panel) -> SeamPlace | None:
    if one.sheet is None or one.sheet != other.sheet:
        return None
    a, b = _box(one), _box(other)
    if a is None or b is None:
        return None
    for runs, along, across in (("x", 0, 1), ("y", 1, 0)):
        start, end = max(a[along], b[along]), min(a[along + 2], b[along + 2])
        first, second = (a, b) if a[across] <= b[across] else (b, a)
        low, high = first[across + 2], second[across]
        if end - start > TOL and -TOL <= high - low <= FAR:
            return SeamPlace(seam, shelf, one.sheet, "x" if runs == "x" else "y", low, high, start, end)
    return None


def _box(panel: Panel) -> tuple[float, float, float, float] | None:
    if panel.x is None or panel.y is None:
        return None
    return panel.x, panel.y, panel.x + panel.show[0], panel.y + panel.show[1]
