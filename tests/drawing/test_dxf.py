from io import BytesIO, StringIO
from itertools import pairwise

import ezdxf
import pytest
from ezdxf.document import Drawing as Document

from core.drawing.catalog import drawings
from core.drawing.style import LAYERS
from core.export.dxf import dxf_bytes
from core.plan.make import make_plan
from tests.drawing.plans import hallway, many, plan_of


def parsed(data: bytes) -> Document:
    return ezdxf.read(StringIO(BytesIO(data).getvalue().decode("utf-8")))


def box(line: object) -> tuple[float, float, float, float]:
    points = list(line.get_points("xy"))  # type: ignore[attr-defined]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return (min(xs), min(ys), max(xs), max(ys))


@pytest.fixture(scope="module")
def document() -> Document:
    plan = plan_of("hallway")
    return parsed(dxf_bytes(drawings(plan) + drawings(plan, "seam")))


def test_the_file_is_sound_and_in_millimetres(document: Document) -> None:
    audit = document.audit()
    assert audit.errors == []
    assert audit.fixes == []
    assert document.dxfversion == "AC1024"  # R2010
    assert document.header["$INSUNITS"] == 4


def test_every_panel_is_a_rectangle_of_its_exact_size_and_place(document: Document) -> None:
    plan = plan_of("hallway")
    sheet = box(document.modelspace().query('LWPOLYLINE[layer=="sheet"]').first)
    found = [box(p) for p in document.modelspace().query('LWPOLYLINE[layer=="panel"]')]
    wanted = [
        (sheet[0] + p.x, sheet[1] + p.y, sheet[0] + p.x + p.show[0], sheet[1] + p.y + p.show[1])
        for p in plan.panels
        if p.x is not None and p.y is not None
    ]
    assert sorted(found) == [pytest.approx(b, abs=1e-9) for b in sorted(wanted)]
    assert sheet[2] - sheet[0] == pytest.approx(plan.sheets[0].length)


def test_layers_have_our_names(document: Document) -> None:
    used = {entity.dxf.layer for entity in document.modelspace()}
    assert used <= set(LAYERS)
    assert {"sheet", "panel", "frame", "waste", "dimension", "label", "wood", "blade"} <= used
    assert all(layer in document.layers for layer in used)


def test_hatches_are_hatches_on_their_areas(document: Document) -> None:
    space = document.modelspace()
    assert len(space.query('HATCH[layer=="frame"]')) == len(space.query('LWPOLYLINE[layer=="frame"]'))


def test_texts_are_there_and_of_a_height_to_read(document: Document) -> None:
    texts: dict[str, float] = {}
    for text in document.modelspace().query("TEXT"):
        texts[text.dxf.text] = max(text.dxf.height, texts.get(text.dxf.text, 0.0))
    assert {"A top", "show face up", '52" × 7-1/2"'} <= texts.keys()
    sheet = box(document.modelspace().query('LWPOLYLINE[layer=="sheet"]').first)
    assert 1 / 250 < texts["A top"] / (sheet[2] - sheet[0]) < 1 / 80


def test_drawings_stand_side_by_side() -> None:
    plan = make_plan(many(12))
    space = parsed(dxf_bytes(drawings(plan))).modelspace()
    spans = sorted((b[0], b[2]) for b in map(box, space.query('LWPOLYLINE[layer=="sheet"]')))
    assert len(spans) == len(plan.sheets)
    assert all(a[1] < b[0] for a, b in pairwise(spans))


def test_names_cannot_break_the_file() -> None:
    sheet, shelf = hallway().sheets[0], hallway().shelves[0]
    project = hallway(
        sheets=(type(sheet)("A\n0\nEOF\ud800%%c🪵", 2440.0, 1220.0),),
        shelves=(type(shelf)("x\r\n0\nEOF", 900.0, 200.0, 64.0),),
    )
    again = parsed(dxf_bytes(drawings(make_plan(project))))
    assert again.audit().errors == []
    assert len(again.modelspace().query('LWPOLYLINE[layer=="panel"]')) == 5
