from math import hypot

import msgspec
import pytest
from shapely.geometry import Polygon
from shapely.ops import unary_union

from core.document.model import Saw
from core.drawing.flatten import flatten
from core.drawing.model import Area, Drawing, Line, Text
from core.drawing.names import section_of
from core.drawing.section import draw_seam
from core.geometry.seam import SeamSection
from core.plan.make import make_plan
from core.plan.model import Plan
from core.solid.plies import ply_count
from tests.drawing.plans import hallway, plan_of
from tests.drawing.test_sheet import clashes

SAWS = [
    Saw(kerf=2.2, overcut=0.5),
    Saw(kerf=3.2, overcut=2.0, allowance=0.8),
    Saw(kerf=2.2, overcut=0.0),
    Saw(kerf=1.8, overcut=-1.0),
    Saw(kerf=1.0, overcut=0.3, allowance=2.5),
]


def drawn(saw: Saw, seam: str = "ledge/top-front") -> tuple[Drawing, SeamSection, Plan]:
    plan = make_plan(hallway(saw=saw))
    return draw_seam(plan, seam), section_of(plan, plan.sheets[0].thickness), plan


def polygons(drawing: Drawing, layer: str) -> list[Polygon]:
    return [Polygon(i.points) for i in drawing.items if isinstance(i, Area) and i.layer == layer]


def test_ids() -> None:
    with pytest.raises(KeyError):
        draw_seam(plan_of("hallway"), "ledge/top")
    assert draw_seam(plan_of("hallway"), "ledge/top-front").name == "seam ledge/top-front"


@pytest.mark.parametrize("saw", SAWS)
def test_the_v_has_the_area_of_the_plan(saw: Saw) -> None:
    """Between the two kept panels, by clipping: s t + t² tan b."""
    drawing, section, plan = drawn(saw)
    first, second = polygons(drawing, "wood")[:2]
    x0, y0, x1, _ = first.bounds
    low, high = min(x0, second.bounds[0]), max(x1, second.bounds[2])
    slab = Polygon([(low, y0), (high, y0), (high, 0.0), (low, 0.0)])
    seam = next(s for s in plan.seams if s.id == "ledge/top-front")
    void = slab.difference(unary_union([first, second]))
    assert void.area == pytest.approx(seam.void_area, rel=1e-9)
    assert second.bounds[0] + section.setback - first.bounds[2] - section.setback <= seam.void_width


@pytest.mark.parametrize("saw", SAWS)
def test_what_falls_free_is_the_v_less_both_kerfs(saw: Saw) -> None:
    drawing, section, _ = drawn(saw)
    first, second = polygons(drawing, "wood")[:2]
    _, y0, _, _ = first.bounds
    slab = Polygon([(first.bounds[0], y0), (second.bounds[2], y0), (second.bounds[2], 0.0), (first.bounds[0], 0.0)])
    void = slab.difference(unary_union([first, second]))
    left = void.difference(unary_union(polygons(drawing, "blade")))
    assert left.area == pytest.approx(sum(p.area for p in polygons(drawing, "waste")), abs=1e-6)
    for blade in polygons(drawing, "blade"):
        assert blade.intersection(unary_union([first, second])).area == pytest.approx(0.0, abs=1e-6)
        assert section.footprint > 0.0


@pytest.mark.parametrize("saw", SAWS)
def test_the_closed_corner_is_open_by_the_stated_gap(saw: Saw) -> None:
    drawing, section, _ = drawn(saw)
    first, second = polygons(drawing, "wood")[2:]
    assert first.intersection(second).area == pytest.approx(0.0, abs=1e-6)
    gaps = [i for i in drawing.items if isinstance(i, Area) and i.layer == "gap"]
    if saw.overcut == 0.0:
        assert gaps == []
        return
    (gap,) = gaps
    _, a, b = gap.points
    opening = section.inside_gap if saw.overcut > 0 else section.outside_gap
    assert hypot(b[0] - a[0], b[1] - a[1]) == pytest.approx(opening)
    if saw.overcut > 0:
        assert Polygon(gap.points).area == pytest.approx(section.wedge_area)


@pytest.mark.parametrize("saw", SAWS)
def test_the_outside_faces_stand_at_right_angles(saw: Saw) -> None:
    drawing, section, _ = drawn(saw)
    first, second = polygons(drawing, "wood")[2:]
    corner = (second.bounds[2], first.bounds[3])
    assert first.bounds[3] - first.bounds[1] == pytest.approx(section.thickness)
    assert second.bounds[2] - second.bounds[0] == pytest.approx(section.thickness)
    assert corner[1] - second.bounds[3] == pytest.approx(corner[0] - first.bounds[2])
    missing = hypot(corner[1] - second.bounds[3], corner[0] - first.bounds[2])
    assert missing == pytest.approx(section.outside_gap, abs=1e-9)


@pytest.mark.parametrize("saw", SAWS)
def test_the_glue_band_is_as_long_as_stated(saw: Saw) -> None:
    drawing, section, _ = drawn(saw)
    (glue,) = [i for i in drawing.items if isinstance(i, (Area, Line)) and i.layer == "glue"]
    (x0, y0), (x1, y1) = glue.points[:2]
    assert hypot(x1 - x0, y1 - y0) == pytest.approx(section.glue_band)


def test_every_ply_shows_on_both_panels_of_both_states() -> None:
    drawing, section, plan = drawn(SAWS[0])
    lines = [i for i in drawing.items if isinstance(i, Line) and i.layer == "ply"]
    count = ply_count(section.thickness, plan.project.sheets[0].veneer)
    assert len(lines) == 4 * (count - 1)


def test_a_seam_that_turns_has_no_v() -> None:
    drawing, _, _ = drawn(SAWS[0], "ledge/top-left")
    assert polygons(drawing, "waste") == []
    texts = [getattr(i, "text", "") for i in drawing.items]
    assert not [text for text in texts if text.startswith(("lost", "V "))]


@pytest.mark.parametrize("saw", SAWS)
@pytest.mark.parametrize("point", [25.4 / 72.0, 0.12, 0.2])
def test_no_two_texts_overlap(saw: Saw, point: float) -> None:
    assert clashes(drawn(saw)[0], point) == []


def test_an_undercut_says_that_the_outside_stays_open() -> None:
    drawing, _, _ = drawn(SAWS[3])
    trouble = [i.text for i in drawing.items if isinstance(i, Text) and i.layer == "trouble"]
    assert len(trouble) == 1
    assert trouble[0].startswith("outside open")
    assert flatten(drawing, 0.3).words


def test_thickness_follows_the_shelfs_own_sheet() -> None:
    project = hallway()
    thick = msgspec.structs.replace(project.sheets[0], id="B", thickness=24.0)
    shelf = msgspec.structs.replace(project.shelves[0], sheet="B")
    plan = make_plan(hallway(sheets=(project.sheets[0], thick), shelves=(shelf,)))
    first = polygons(draw_seam(plan, "ledge/top-front"), "wood")[0]
    assert first.bounds[3] - first.bounds[1] == pytest.approx(24.0)
