from itertools import pairwise
from xml.etree import ElementTree

import pytest

from core.drawing.catalog import drawings
from core.drawing.style import COLOURS, LAYERS
from core.export.svg import svg_bytes
from core.plan.make import make_plan
from tests.drawing.plans import hallway, many, plan_of

SVG = "{http://www.w3.org/2000/svg}"


def parsed(data: bytes) -> ElementTree.Element:
    return ElementTree.fromstring(data)


def test_every_panel_is_a_rectangle_of_its_exact_size() -> None:
    plan = plan_of("hallway")
    root = parsed(svg_bytes(drawings(plan)))
    rects = {
        r.get("data-about"): r for g in root.iter(f"{SVG}g") if g.get("id") == "panel" for r in g.iter(f"{SVG}rect")
    }
    assert rects.keys() == {p.id for p in plan.panels}
    sheet = next(r for r in root.iter(f"{SVG}rect") if r.get("data-about") == "A1")
    for panel in plan.panels:
        rect = rects[panel.id]
        assert panel.x is not None
        assert panel.y is not None
        assert float(rect.get("width", 0)) == pytest.approx(panel.show[0], abs=1e-4)
        assert float(rect.get("height", 0)) == pytest.approx(panel.show[1], abs=1e-4)
        assert float(rect.get("x", 0)) - float(sheet.get("x", 0)) == pytest.approx(panel.x, abs=2e-4)
        low = float(sheet.get("y", 0)) + float(sheet.get("height", 0))
        assert low - float(rect.get("y", 0)) - panel.show[1] == pytest.approx(panel.y, abs=3e-4)


def test_a_millimetre_is_a_millimetre() -> None:
    root = parsed(svg_bytes(drawings(plan_of("hallway"), "seam")))
    _, _, wide, high = (float(v) for v in root.get("viewBox", "").split())
    assert root.get("width") == f"{wide:.4f}".rstrip("0").rstrip(".") + "mm"
    assert root.get("height") == f"{high:.4f}".rstrip("0").rstrip(".") + "mm"


def test_layers_are_groups_with_ids_used_once() -> None:
    data = svg_bytes(drawings(plan_of("hallway")) + drawings(plan_of("hallway"), "seam"))
    ids = [e.get("id") for e in parsed(data).iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    assert {"sheet", "panel", "frame", "waste", "dimension", "datum"} <= set(ids)
    assert {str(one).split("-")[0] for one in ids} <= set(LAYERS)


def test_words_are_text_and_hatches_are_lines() -> None:
    root = parsed(svg_bytes(drawings(plan_of("hallway"))))
    texts = {t.text for t in root.iter(f"{SVG}text")}
    assert {"A top", "show face up", "grain", '0"', "from trued end"} <= texts
    frame = next(g for g in root.iter(f"{SVG}g") if g.get("id") == "frame")
    assert frame.find(f"{SVG}path") is not None


def test_paper_is_black_and_white() -> None:
    data = svg_bytes(drawings(plan_of("hallway")), theme="paper").decode()
    assert not {c for c in COLOURS["light"].values() if c in data}


def test_several_drawings_do_not_overlap() -> None:
    plan = make_plan(many(12))
    root = parsed(svg_bytes(drawings(plan)))
    sheets = [
        r for g in root.iter(f"{SVG}g") if str(g.get("id")).split("-")[0] == "sheet" for r in g.iter(f"{SVG}rect")
    ]
    spans = sorted((float(r.get("y", 0)), float(r.get("y", 0)) + float(r.get("height", 0))) for r in sheets)
    assert len(spans) == len(plan.sheets)
    assert all(a[1] < b[0] for a, b in pairwise(spans))


def test_names_cannot_break_the_file() -> None:
    shelf = hallway().shelves[0]
    project = hallway(
        sheets=(type(hallway().sheets[0])('A<&">\x00\ud800', 2440.0, 1220.0),),
        shelves=(type(shelf)("<script>'\"&", 900.0, 200.0, 64.0),),
    )
    root = parsed(svg_bytes(drawings(make_plan(project))))
    assert any("<script>" in str(e.get("data-about")) for e in root.iter())
