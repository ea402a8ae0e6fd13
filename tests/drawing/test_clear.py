"""Areas to keep clear on every drawing: outline, crossed hatch and words, on a layer of their own."""

from __future__ import annotations

from io import BytesIO, StringIO

import ezdxf
import msgspec
import pytest

from core.document.model import KeepClear
from core.drawing.catalog import sheet_names
from core.drawing.flatten import flatten
from core.drawing.model import Area, Drawing
from core.drawing.sheet import draw_sheet
from core.drawing.style import CROSSED, STYLES
from core.export.dxf import dxf_bytes
from core.export.svg import svg_bytes
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.drawing.plans import INCH, hallway

PATCH = KeepClear(((2000.0, 900.0), (2300.0, 900.0), (2300.0, 1100.0), (2000.0, 1100.0)), "patch", "faces")
BRUISE = KeepClear(((0.0, 1219.0), (0.0, 1000.0), (300.0, 1219.0)), "bruise", "net")


def plan_with(*areas: KeepClear, **changes: object) -> Plan:
    project = hallway(**changes)
    stock = msgspec.structs.replace(project.sheets[0], keep_clear=areas)
    return make_plan(msgspec.structs.replace(project, sheets=(stock,)))


def clear_areas(drawing: Drawing) -> list[Area]:
    return [item for item in drawing.items if isinstance(item, Area) and item.layer == "clear"]


def test_each_area_is_drawn_as_it_is_with_its_words() -> None:
    drawing = draw_sheet(plan_with(PATCH, BRUISE), "A1")
    assert [area.points for area in clear_areas(drawing)] == [PATCH.corners, BRUISE.corners]
    words = {word.text for word in flatten(drawing, 1.0).words if word.layer == "clear"}
    assert words == {"patch: no show face", "bruise: no net"}
    assert STYLES["clear"].hatch == CROSSED


@pytest.mark.parametrize("point", [0.6, 2.0, 6.0])
def test_words_on_areas_stay_clear_of_others(point: float) -> None:
    drawing = draw_sheet(plan_with(PATCH, BRUISE), "A1")
    boxes = [(word.text, word.box(point)) for word in flatten(drawing, point).words]
    for text, box in boxes:
        others = [b for t, b in boxes if t != text]
        hit = [b for b in others if box[0] < b[2] and b[0] < box[2] and box[1] < b[3] and b[1] < box[3]]
        assert not hit or "patch" not in text


def test_a_second_copy_has_none() -> None:
    plan = plan_with(PATCH, sheets=(msgspec.structs.replace(hallway().sheets[0], width=25 * INCH, quantity=3),))
    assert len(plan.sheets) > 1
    drawn = {sheet.id: len(clear_areas(draw_sheet(plan, sheet.id))) for sheet in plan.sheets}
    assert drawn["A1"] == 1
    assert sum(drawn.values()) == 1


def test_a_sheet_with_areas_is_shown_though_nothing_is_cut_from_it() -> None:
    everything = KeepClear(((0.0, 0.0), (3000.0, 0.0), (3000.0, 2000.0), (0.0, 2000.0)))
    wood = msgspec.structs.replace(hallway().sheets[0], quantity=2, use="shell")
    plan = plan_with(everything, sheets=(wood,))
    assert [net.sheet for net in plan.nets] == ["A2"] * 3
    assert sheet_names(plan) == ("A2", "A")
    assert not clear_areas(draw_sheet(plan, "A2"))
    assert len(clear_areas(draw_sheet(plan, "A"))) == 1


def test_svg_and_dxf_have_them_on_their_layer() -> None:
    drawing = draw_sheet(plan_with(PATCH, BRUISE), "A1")
    assert b'class="clear"' in svg_bytes([drawing])
    data = dxf_bytes([drawing])
    document = ezdxf.read(StringIO(BytesIO(data).getvalue().decode("utf-8")))
    outlines = document.modelspace().query('LWPOLYLINE[layer=="clear"]')
    assert sorted(len(list(line.vertices())) for line in outlines) == [3, 4]
    assert document.modelspace().query('HATCH[layer=="clear"]')
