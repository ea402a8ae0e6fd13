"""Sheets with panels cut apart: every panel is drawn where it lies, and nothing runs over a seam that is not there."""

from __future__ import annotations

import pytest

from core.document.model import Apart, Project, Sheet, Shelf
from core.drawing.model import Area, Line, Text
from core.drawing.sheet import draw_sheet
from core.plan.make import make_plan
from core.plan.model import Plan

CASES: list[tuple[Apart, ...]] = [("bottom",), ("top",), ("top", "bottom"), ("left",), ("bottom", "left", "right")]


def plan_of(apart: tuple[Apart, ...]) -> Plan:
    """On two narrow boards, so that a strip that is cut apart has to lie on the second."""
    shelf = Shelf("ledge", 1320.0, 210.0, 84.0, apart=apart)
    return make_plan(
        Project((Sheet("A", 2440.0, 560.0 if not {"top", "bottom"} & set(apart) else 330.0, quantity=4),), (shelf,))
    )


@pytest.mark.parametrize("apart", CASES)
def test_panels_voids_and_triangles_are_those_of_parts_that_lie_together(apart: tuple[Apart, ...]) -> None:
    plan = plan_of(apart)
    assert not [f for f in plan.errors if f.about in ("ledge", *(f"ledge/{role}" for role in apart))]
    items = [item for sheet in plan.sheets for item in draw_sheet(plan, sheet.id).items]
    faces = [item.about for item in items if isinstance(item, Area) and item.layer == "panel"]
    assert sorted(faces) == sorted(panel.id for panel in plan.panels)
    voids = {item.about for item in items if isinstance(item, Area) and item.layer == "void"}
    assert voids == {seam.id for seam in plan.seams if seam.figure == "wraps"}
    marked = {item.about for item in items if isinstance(item, Line) and item.layer == "mark"}
    assert not marked & {f"ledge/{role}" for role in apart}
    assert "ledge/front" in marked
    letters = [item.text for item in items if isinstance(item, Text) and item.text in {s.letter for s in plan.seams}]
    assert set(letters) == {seam.letter for seam in plan.seams}
    assert all(letters.count(letter) == 2 for letter in letters)
