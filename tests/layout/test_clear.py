"""Areas to keep clear: no net lies on one, whatever is asked for; reckoned anew with shapely."""

from __future__ import annotations

import msgspec
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.model import KeepClear, KeptOut, Project, Saw, Sheet, Shelf
from core.document.patch import apply_pointers
from core.geometry.net import Net
from core.geometry.parts import part_of
from core.geometry.shell import shell_net
from core.layout.clear import blocked, clear, first_clear, intrusion, kept_out
from core.layout.hold import hold
from core.layout.slide import slide
from core.lengths import Unit, show_length
from core.plan.make import make_plan, shapes_of
from core.plan.model import Plan
from core.plan.proof import prove
from tests.conftest import examples
from tests.strategies import areas, projects_with_areas

WOOD = Sheet("A", 2440.0, 1220.0, 18.0)
NEAR = 1e-3  # mm² that rounding may leave of an overlap


def net_at(net: Net, at: tuple[float, float], of: KeptOut) -> shapely.Geometry:
    """What keeps out of an area: the panels, or the front; for the whole net also what lies between two of them."""
    faces = {p.role: shapely.box(*p.box) for p in net.panels}
    if of == "front":
        shape = faces.get("front", shapely.Polygon())  # a panel that is cut apart has none
    elif of == "faces":
        shape = shapely.union_all(list(faces.values()))
    else:  # two that hang together are closed: grown till they meet, and shrunk again
        grown, style = net.loss / 2 + 1e-4, "mitre"
        pairs = [faces[p.role].union(faces[p.parent]) for p in net.panels if p.parent]
        closed = [pair.buffer(grown, join_style=style).buffer(-grown, join_style=style) for pair in pairs]
        shape = shapely.union_all([*faces.values(), *closed])
    return shapely.affinity.translate(shape, *at)


def overlap(net: Net, at: tuple[float, float], area: KeepClear) -> float:
    """How much of it lies on an area, but for a hair at the rim. [mm²]"""
    inner = net_at(net, at, area.of).buffer(-0.01, join_style="mitre")
    return float(shapely.intersection(inner, shapely.Polygon(area.corners)).area)


def check_areas(plan: Plan) -> None:
    """Every net is clear of its sheet's areas, or the plan says that it is not, and of which."""
    told = {f.about for f in plan.findings if f.code == "in-area"}
    pinned = {s.id for s in plan.project.shelves if s.at is not None}
    assert told <= pinned
    nets = {shape.owner: shape for shape in plan.shapes}
    first = {name[: -len("1")]: name for name in (s.id for s in plan.sheets) if name.endswith("1")}
    for placed in plan.nets:
        stock = next(s.source for s in plan.sheets if s.id == placed.sheet)
        here = stock.keep_clear if placed.sheet in first.values() else ()
        net = part_of(nets[placed.shelf], placed.panel)
        on = [area for area in here if overlap(net, (placed.x, placed.y), area) > NEAR]
        if placed.panel is not None or placed.shelf not in told:
            assert on == []


@settings(max_examples=examples(60, 1000))
@given(projects_with_areas(max_shelves=5))
def test_no_net_lies_on_an_area_and_the_cuts_still_replay(project: Project) -> None:
    plan = make_plan(project)
    check_areas(plan)
    prove(plan)
    held = make_plan(project, plan.layout)
    assert (held.nets, held.cuts) == (plan.nets, plan.cuts)


@settings(max_examples=examples(40, 1000))
@given(projects_with_areas(max_shelves=4), st.data())
def test_a_layout_held_still_steps_aside(project: Project, data: st.DataObject) -> None:
    """Areas drawn over a finished layout: what must move moves, and the cuts replay."""
    free = msgspec.structs.replace(
        project, sheets=tuple(msgspec.structs.replace(s, keep_clear=()) for s in project.sheets)
    )
    before = make_plan(free)
    after = make_plan(project, hold(project, [s.size for s in shapes_of(project)], before.layout))
    check_areas(after)
    prove(after)


@settings(max_examples=examples(80, 2000))
@given(st.data())
def test_a_place_is_blocked_where_something_lies_on_the_area(data: st.DataObject) -> None:
    area = data.draw(areas(WOOD))
    shelf = data.draw(st.sampled_from(FORMS))
    net = shell_net(shelf, 45.5, 3.1)
    x, y = data.draw(st.floats(-200, 2400)), data.draw(st.floats(-200, 1200))
    on = overlap(net, (x, y), area)
    if clear(net, (x, y), (area,)):
        assert on <= NEAR
    else:
        touching = net_at(net, (x, y), area.of).buffer(0.01, join_style="mitre")
        assert touching.intersection(shapely.Polygon(area.corners)).area > 0.0
    hit = intrusion(net, (x, y), (area,))
    assert (hit is None) == clear(net, (x, y), (area,))
    if hit is not None:
        ways = [(hit.by, 0.0), (-hit.by, 0.0), (0.0, hit.by), (0.0, -hit.by)]
        assert any(clear(net, (x + dx, y + dy), (area,)) for dx, dy in ways)
        near = 0.99 * hit.by
        assert not any(clear(net, (x + dx * 0.99, y + dy * 0.99), (area,)) for dx, dy in ways) or near < 1e-5


FORMS = (
    Shelf("a", 700.0, 150.0, 70.0),
    Shelf("b", 500.0, 200.0, 60.0, right="open"),
    Shelf("c", 900.0, 120.0, 80.0, left="open", right="open"),
    Shelf("d", 600.0, 180.0, 65.0, ends_from="top"),
)


@pytest.mark.parametrize("shelf", FORMS, ids=lambda s: s.id)
def test_what_keeps_out_is_panels_strips_or_the_front(shelf: Shelf) -> None:
    net = shell_net(shelf, 45.5, 3.1)
    for of in ("front", "faces", "net"):
        ours = shapely.union_all([shapely.box(*box) for box in kept_out(net, of)])
        assert ours.symmetric_difference(net_at(net, (0.0, 0.0), of)).area < 2.0
        assert ours.area == pytest.approx(sum(shapely.box(*b).area for b in kept_out(net, of)))
    corners = shapely.box(0.0, 0.0, net.length, net.width).difference(ours)
    assert (corners.area > 100.0) == (shelf.mitred_ends > 0)  # the squares beside the strips are waste


@settings(max_examples=examples(60, 1500))
@given(st.data())
def test_the_first_clear_place_is_clear_and_inside(data: st.DataObject) -> None:
    some = tuple(data.draw(st.lists(areas(WOOD), min_size=1, max_size=3)))
    net = shell_net(data.draw(st.sampled_from(FORMS)), 45.5, 3.1)
    room = (5.0, 5.0, 2435.0, 1215.0)
    place = first_clear(net, some, room)
    if place is None:
        steps = [(5.0 + 40.0 * i, 5.0 + 40.0 * j) for i in range(61) for j in range(31)]
        inside = [(x, y) for x, y in steps if x + net.length <= 2435.0 and y + net.width <= 1215.0]
        level = [at for at in inside if at[1] == 5.0]
        assert not any(clear(net, at, some) for at in level)
        return
    x, y = place
    assert 5.0 <= x <= 2435.0 - net.length + 1e-5
    assert 5.0 <= y <= 1215.0 - net.width + 1e-5
    assert all(overlap(net, place, area) <= NEAR for area in some)
    lower = [(5.0 + 37.0 * n, 5.0) for n in range(int((2430.0 - net.length) // 37.0) + 1)]
    assert y == 5.0 or not any(clear(net, at, some) for at in lower)


def one(*areas_: KeepClear, at: tuple[float, float] | None = None, quantity: int = 1) -> Project:
    wood = msgspec.structs.replace(WOOD, keep_clear=areas_, quantity=quantity)
    return Project((wood,), (Shelf("a", 900.0, 200.0, 80.0, at=at),), saw=Saw(overcut=0.0))


def box(x0: float, y0: float, x1: float, y1: float) -> tuple[tuple[float, float], ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def test_a_bruised_corner_pushes_the_net_aside_or_lies_in_its_corner_square() -> None:
    small = make_plan(one(KeepClear(box(0.0, 0.0, 150.0, 150.0))))
    assert (small.nets[0].x, small.nets[0].y) == (5.0, 5.0)  # it lies in the waste beside bottom and left
    large = make_plan(one(KeepClear(box(0.0, 0.0, 150.0, 260.0))))
    assert (large.nets[0].x, large.nets[0].y) != (5.0, 5.0)
    check_areas(large)


def test_a_joint_keeps_only_the_front_out() -> None:
    """A leaf joint right along the sheet, where the front would lie: the net goes up until its front is past it."""
    net = make_plan(one()).shapes[0]
    front = net.panel("front").box
    joint = KeepClear(box(0.0, 5.0 + front[1], 2440.0, 5.0 + front[1] + 10.0), "leaf joint", "front")
    plan = make_plan(one(joint))
    assert plan.nets[0].y == pytest.approx(5.0 + 10.0)
    whole = make_plan(one(msgspec.structs.replace(joint, of="net")))
    assert whole.nets[0].y == pytest.approx(5.0 + front[1] + 10.0)


def test_an_area_belongs_to_the_first_copy_alone() -> None:
    everywhere = KeepClear(box(0.0, 0.0, 2440.0, 1220.0))
    plan = make_plan(one(everywhere, quantity=2))
    assert [net.sheet for net in plan.nets] == ["A2"]
    assert not plan.errors
    assert not [sheet for sheet in plan.sheets if sheet.areas]
    prove(plan)


def test_where_an_area_takes_the_room_the_plan_says_by_how_much() -> None:
    plan = make_plan(one(KeepClear(box(0.0, 300.0, 2440.0, 900.0), "sapwood")))
    finding = next(f for f in plan.errors if f.about == "a")
    net = plan.shapes[0]
    assert finding.code == "no-room"
    assert finding.amount == pytest.approx(900.0 + net.width - 1215.0)
    assert "sapwood" in finding.message
    assert show_length(900.0 + net.width - 1215.0, Unit.INCH, rounding="up") in finding.message
    assert finding.fixes
    for fix in finding.fixes:
        mended = make_plan(apply_pointers(plan.project, fix.set))
        assert "no-room" not in {f.code for f in mended.errors if f.about == "a"}, fix.text
        check_areas(mended)
        prove(mended)


@pytest.mark.parametrize("of", ["net", "faces", "front"])
def test_a_pin_on_an_area_is_laid_there_and_told_with_ways_out(of: KeptOut) -> None:
    area = KeepClear(box(500.0, 230.0, 560.0, 270.0), "patch", of)
    plan = make_plan(one(area, at=(40.0, 30.0)))
    assert (plan.nets[0].x, plan.nets[0].y) == (40.0, 30.0)
    (finding,) = (f for f in plan.errors if f.code == "in-area")
    prove(plan)
    net = plan.shapes[0]
    assert finding.amount is not None
    ways = [(dx * finding.amount, dy * finding.amount) for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))]
    assert min(overlap(net, (40.0 + dx, 30.0 + dy), area) for dx, dy in ways) <= NEAR
    assert min(overlap(net, (40.0 + 0.99 * dx, 30.0 + 0.99 * dy), area) for dx, dy in ways) > NEAR
    assert show_length(finding.amount, Unit.INCH, rounding="up") in finding.message
    assert len(finding.fixes) == 2
    for fix in finding.fixes:
        mended = make_plan(apply_pointers(plan.project, fix.set))
        assert not mended.errors
        check_areas(mended)
        prove(mended)


@settings(max_examples=examples(60, 1500))
@given(st.data(), st.floats(-200, 2600), st.floats(-200, 1400))
def test_a_sliding_net_stops_at_an_area(data: st.DataObject, x: float, y: float) -> None:
    some = tuple(data.draw(st.lists(areas(WOOD), min_size=1, max_size=3)))
    net = shell_net(data.draw(st.sampled_from(FORMS)), 45.5, 3.1)
    found = slide(WOOD, (net.length, net.width), (x, y), (), 2.2, 12.0, 1.0, net, some)
    on = max(overlap(net, (found.x, found.y), area) for area in some)
    if (found.x, found.y) == (x, y) and found.stop:
        return  # nowhere at all
    assert on <= NEAR
    inner = shapely.box(5.0, 5.0, 2435.0, 1215.0).buffer(1e-5, join_style="mitre")
    assert shapely.box(found.x, found.y, found.x + net.length, found.y + net.width).within(inner)


def test_it_says_that_an_area_stops_it() -> None:
    net = shell_net(FORMS[2], 45.5, 3.1)
    bruise = (KeepClear(box(1000.0, 300.0, 1100.0, 400.0)),)
    found = slide(WOOD, (net.length, net.width), (600.0, 200.0), (), 2.2, 5.0, 1.0, net, bruise)
    assert (found.stop, found.other) == ("area", "bruise")
    near = slide(WOOD, (net.length, net.width), (1103.0, 200.4), (), 2.2, 5.0, 1.0, net, bruise)
    assert (near.x, near.snapped[0], near.stop) == (1100.0, "area", "")


def test_blocked_places_are_open_at_their_ends() -> None:
    net = shell_net(FORMS[2], 45.5, 3.1)
    bruise = (KeepClear(box(1000.0, 300.0, 1100.0, 400.0)),)
    assert blocked(net, bruise, "x", 200.0) == [(100.0, 1100.0)]
    assert blocked(net, bruise, "x", 400.0) == []
    assert clear(net, (100.0, 200.0), bruise)
    assert clear(net, (1100.0, 200.0), bruise)
    assert not clear(net, (100.1, 200.0), bruise)


def test_a_project_without_areas_does_not_need_shapely() -> None:
    import subprocess
    import sys

    code = (
        "import sys; from core.document.model import *; from core.plan.make import make_plan;"
        "plan = make_plan(Project((Sheet('A', 2440.0, 1220.0),), (Shelf('a', 900.0, 200.0, 80.0),)));"
        "print('shapely' in sys.modules, len(plan.nets))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "1"]
