"""Ticks across the seams: three on each that keeps the figure, from panel to panel over the V, apart along it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from core.document.model import Project
from core.drawing.model import Line
from core.drawing.sheet import draw_sheet
from core.plan.make import make_plan
from core.steps.marks import tick_lines, ticks_of
from tests.conftest import examples
from tests.steps.jobs import golden_metric
from tests.strategies import projects


@settings(max_examples=examples(20, 200))
@given(projects())
def test_every_seam_that_wraps_has_three_ticks_from_panel_to_panel(project: Project) -> None:
    plan = make_plan(project)
    panels = {p.id: p for p in plan.panels}
    placed = {p.id for p in plan.panels if p.x is not None}
    ticks = {tick.seam: tick for sheet in plan.sheets for tick in ticks_of(plan, sheet.id)}
    wanted = {s.id for s in plan.seams if s.figure == "wraps" and set(s.between) <= placed}
    assert ticks.keys() == wanted
    for seam in plan.seams:
        tick = ticks.get(seam.id)
        if tick is None:
            continue
        assert tick.letter == seam.letter
        assert tick.places[0] < tick.places[1] < tick.places[2]
        assert tick.places[2] - tick.places[0] >= 0.59 * seam.length
        crossed = set()
        for line in tick_lines([tick]):
            for x, y in line.points:
                for name in seam.between:
                    panel = panels[name]
                    assert panel.x is not None
                    assert panel.y is not None
                    if panel.x < x < panel.x + panel.show[0] and panel.y < y < panel.y + panel.show[1]:
                        crossed.add(name)
        assert crossed == set(seam.between)


def test_the_sheet_drawing_has_them() -> None:
    plan = make_plan(golden_metric())
    drawn = [item for item in draw_sheet(plan, "A1").items if isinstance(item, Line) and item.layer == "mark"]
    for tick in ticks_of(plan, "A1"):
        assert len([line for line in drawn if line.about == tick.seam]) == 3
        assert min(
            abs(line.points[0][0] - line.points[1][0]) for line in drawn if line.about == tick.seam
        ) == pytest.approx(0.0 if tick.axis == "x" else tick.ends[1] - tick.ends[0])
