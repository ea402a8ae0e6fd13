import pytest

from core.drawing.catalog import drawing_names, drawings
from core.drawing.cutlist import cut_list_table
from core.drawing.cutorder import cut_order_table
from core.drawing.fit import fit
from core.drawing.flatten import extent
from core.plan.make import make_plan
from tests.drawing.plans import hallway, many, plan_of


def test_every_name_gives_a_drawing() -> None:
    plan = plan_of("hallway")
    for name in drawing_names(plan):
        assert drawings(plan, name)
    assert [d.name for d in drawings(plan)] == ["sheet A1"]
    assert drawings(plan, "sheet A1") == drawings(plan)
    assert [d.name for d in drawings(plan, "seam")] == ["seam ledge/top-front"]


@pytest.mark.parametrize("name", ["sheet Z", "seam", "nonsense", "sheet A1 A1", " ledge"])
def test_an_unknown_name_lists_the_known(name: str) -> None:
    plan = make_plan(hallway(shelves=())) if name == "seam" else plan_of("hallway")
    with pytest.raises(KeyError) as caught:
        drawings(plan, name)
    message = caught.value.args[0]
    assert name in message
    assert all(known in message for known in drawing_names(plan))


def test_there_is_always_a_sheet_to_draw() -> None:
    assert len(drawings(make_plan(hallway(shelves=())))) == 1
    assert len(drawings(plan_of("too long"))) == 1


def test_one_drawing_for_each_sheet() -> None:
    plan = make_plan(many(12))
    assert len(drawings(plan)) == len(plan.sheets) > 1


def test_the_cut_list_has_each_part_once() -> None:
    plan = plan_of("hallway")
    table = cut_list_table(plan)
    parts = [p.id for p in plan.panels] + [p.id for f in plan.frames for p in f.parts]
    assert sorted(table.abouts) == sorted(parts)
    assert all(len(row) == len(table.columns) for row in table.rows)
    row = dict(zip((c.heading for c in table.columns), table.rows[table.abouts.index("ledge/top")], strict=True))
    assert row["Part"] == "A top"
    assert row["With the grain"] == '52"'
    assert row["Across"] == '7-1/2"'
    assert row["Bevelled edges"] == "left, right, lower 45.5°"


def test_the_cut_order_has_each_cut_once_from_the_datum() -> None:
    plan = plan_of("hallway")
    table = cut_order_table(plan)
    assert [row[0] for row in table.rows] == [str(cut.n) for cut in plan.cuts]
    assert all(len(row) == len(table.columns) for row in table.rows)
    datum = [column.heading for column in table.columns].index("From datum")
    assert table.rows[0][datum] == '0"'  # the first cut makes the trued edge


@pytest.mark.parametrize("size", [(1078.0, 340.0), (300.0, 200.0), (1900.0, 1000.0)])
def test_fit_shows_all_of_a_drawing(size: tuple[float, float]) -> None:
    (drawing,) = drawings(plan_of("hallway"))
    view = fit(drawing, *size)
    x0, y0, x1, y1 = drawing.box if view.plain else extent(drawing, view.point)
    assert view.plain == (size[0] < 400.0)
    left, top = view.to_surface((x0, y1))
    right, bottom = view.to_surface((x1, y0))
    assert left >= -1.0
    assert top >= -1.0
    assert right <= size[0] + 1.0
    assert bottom <= size[1] + 1.0
    assert view.to_drawing(view.to_surface((12.0, 34.0))) == pytest.approx((12.0, 34.0))
