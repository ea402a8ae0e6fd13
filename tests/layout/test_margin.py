"""Margins: a net slid by its margin still lies right, slid a little farther it does not."""

import msgspec
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from core.document.model import KeepClear, Project, Saw, Sheet, Shelf
from core.geometry.parts import part_of
from core.layout.margin import Margin, margin_of, margins
from core.lengths import Unit, show_length
from core.plan.make import make_plan
from core.plan.model import PlacedNet, Plan
from core.plan.proof import prove
from tests.conftest import examples
from tests.strategies import projects, projects_with_areas

INCH = 25.4
LITTLE = 0.05  # mm
WAYS = {"left": (-1, 0), "right": (1, 0), "down": (0, -1), "up": (0, 1)}

Rect = tuple[float, float, float, float]


def name(part: PlacedNet | Margin) -> str:
    return part.shelf if part.panel is None else f"{part.shelf}/{part.panel}"


def rects(plan: Plan) -> dict[str, Rect]:
    return {name(n): (n.x, n.y, n.x + n.length, n.y + n.width) for n in plan.nets}


def parted(some: list[Rect], kerf: float) -> bool:
    """Whether straight cuts part the rectangles: every line beside one of them is tried, and again on both sides."""
    if len(some) < 2:
        return True
    for low, high in ((0, 2), (1, 3)):
        for rect in some:
            at = rect[high]
            before = [r for r in some if r[high] <= at + 1e-5]
            after = [r for r in some if r[low] >= at + kerf - 1e-5]
            if after and len(before) + len(after) == len(some):
                return parted(before, kerf) and parted(after, kerf)
    return False


def lies_right(plan: Plan, shelf: str, rect: Rect) -> bool:
    """Judged from the drawing: inside the trim, a kerf from every other net, and parted by straight cuts."""
    net = next(n for n in plan.nets if name(n) == shelf)
    stock = next(s.source for s in plan.sheets if s.id == net.sheet)
    kerf, trim = plan.project.saw.kerf, stock.trim
    inner = box(trim, trim, stock.length - trim, stock.width - trim)
    if not box(*rect).within(inner.buffer(1e-5, join_style="mitre")):
        return False
    others = [rects(plan)[name(n)] for n in plan.nets if n.sheet == net.sheet and name(n) != shelf]
    grown = box(*rect).buffer(kerf - 1e-5, join_style="mitre")
    if any(grown.intersects(box(*other)) for other in others):
        return False
    return parted([*others, rect], kerf)


def moved(rect: Rect, way: tuple[int, int], far: float) -> Rect:
    dx, dy = way[0] * far, way[1] * far
    return (rect[0] + dx, rect[1] + dy, rect[2] + dx, rect[3] + dy)


def check(plan: Plan) -> None:
    assert [name(m) for m in margins(plan)] == [name(n) for n in plan.nets]
    for margin in margins(plan):
        rect = rects(plan)[name(margin)]
        for side, way in WAYS.items():
            far = getattr(margin, side)
            assert far >= 0.0
            for share in (0.0, 0.13, 0.5, 0.77, 1.0):
                assert lies_right(plan, name(margin), moved(rect, way, share * far))
            assert not lies_right(plan, name(margin), moved(rect, way, far + LITTLE))


@settings(max_examples=examples(60, 1000))
@given(projects(max_shelves=5))
def test_slid_that_far_it_lies_right_and_no_farther(project: Project) -> None:
    check(make_plan(project))


@settings(max_examples=examples(40, 600))
@given(st.permutations(range(4)), st.lists(st.integers(0, 60), min_size=16, max_size=16), st.booleans())
def test_so_it_does_among_pinned_nets_in_a_wheel(order: list[int], gaps: list[int], tight: bool) -> None:
    """Four nets turned about a middle with more or less air: some may be slid only until no cut would part them."""
    plan = make_plan(_wheel(order, gaps, tight))
    check(plan)


def _wheel(order: list[int], gaps: list[int], tight: bool) -> Project:
    """Nets of 804.2 x 406.2 or 404.2 x 506.2 (no ends, k 2.2 at 45 degrees), pinned near the corners of a sheet."""
    places = [(5.0, 5.0), (1300.0, 5.0), (5.0, 640.0), (1150.0, 560.0)]
    shelves = []
    for n, corner in enumerate(order):
        x, y = places[corner]
        size = (800.0, 160.0) if corner in (0, 3) else (400.0, 210.0)
        air = (gaps[2 * n], gaps[2 * n + 1]) if not tight else (0, 0)
        at = (x + air[0] * 5.0, y + air[1] * 1.5)
        shelves.append(Shelf(f"s{n}", size[0], size[1], 80.0, left="open", right="open", at=at))
    return Project((Sheet("A", 2440.0, 1220.0, 18.0),), tuple(shelves), saw=Saw(overcut=0.0))


def test_it_stops_where_no_straight_cut_would_part_the_nets() -> None:
    """A wheel of three round a gap: the fourth could close it, meeting nobody, and then nothing could be cut."""
    shelves = (
        Shelf("low", 1200.0, 100.0, 80.0, left="open", right="open", at=(5.0, 5.0)),
        Shelf("right", 700.0, 220.0, 80.0, left="open", right="open", at=(1300.0, 5.0)),
        Shelf("high", 1100.0, 100.0, 80.0, left="open", right="open", at=(900.0, 600.0)),
        Shelf("left", 700.0, 220.0, 80.0, left="open", right="open", at=(5.0, 640.0)),
    )
    wood = Sheet("A", 2440.0, 1220.0, 18.0)
    plan = make_plan(Project((wood,), shelves, saw=Saw(overcut=0.0)))
    assert [n.shelf for n in plan.nets] == ["low", "right", "high", "left"]
    check(plan)
    left = margins(plan)[3]
    rect = rects(plan)["left"]
    bare = {name: r for name, r in rects(plan).items() if name != "left"}
    free = min(r[1] for r in [rect]) - max(r[3] for n, r in bare.items() if r[0] < rect[2])
    assert left.down < free - plan.project.saw.kerf - 1.0


def test_the_spare_of_a_kitchen_pair() -> None:
    """Two 60 x 10-1/4 x 2-1/2 on 96 x 48, trim 1/4, k 0.071, c 1/64 (common practice): 15/16 is left to slide the net.

    g = 0.1004 + 0.0156 = 0.1160; across 2 (23 + 2 g) + k = 46.5350 of 47.5, 0.9650 left, 15/16 in sixteenths; along
    60 + 2 (10.25 + g) = 80.7320 of 95.5, 14.7680 left.
    """
    twice = tuple(Shelf(name, 60 * INCH, 10.25 * INCH, 2.5 * INCH) for name in ("upper", "lower"))
    wood = Sheet("A", 96 * INCH, 48 * INCH, 0.72 * INCH, trim=INCH / 4)
    other = msgspec.structs.replace(wood, id="other", use="frame")
    saw = Saw(kerf=0.071 * INCH, overcut=0.0, allowance=INCH / 64)
    plan = make_plan(Project((wood, other), twice, saw=saw))
    first, second = margins(plan)
    assert [show_length(v, Unit.INCH, 16, rounding="down") for v in (second.up, first.right)] == ['15/16"', '14-3/4"']
    assert (first.left, first.down, first.up, second.down) == (0.0, 0.0, 0.0, 0.0)


def test_slid_by_its_margin_the_plan_still_proves() -> None:
    wood = Sheet("A", 2440.0, 1220.0, 18.0)
    project = Project((wood,), (Shelf("a", 900.0, 200.0, 80.0), Shelf("b", 800.0, 150.0, 80.0)))
    plan = make_plan(project)
    for margin in margins(plan):
        net = next(n for n in plan.nets if n.shelf == margin.shelf)
        at = (net.x + margin.right, net.y)
        pinned = tuple(msgspec.structs.replace(s, at=at) if s.id == net.shelf else s for s in project.shelves)
        after = make_plan(msgspec.structs.replace(project, shelves=pinned))
        assert not after.errors
        prove(after)


def test_nothing_laid_out_has_no_margin() -> None:
    wood = Sheet("A", 2440.0, 1220.0, 18.0)
    assert margins(make_plan(Project((wood,), ()))) == ()
    assert margins(make_plan(Project((wood,), (Shelf("giant", 5000.0, 200.0, 80.0),)))) == ()


@pytest.mark.parametrize("trim", [0.0, 12.0])
def test_a_net_alone_has_what_its_sheet_has_left(trim: float) -> None:
    wood = Sheet("A", 2440.0, 1220.0, 18.0, trim=trim)
    shelf = Shelf("a", 1000.0, 200.0, 80.0, left="open", right="open", at=(300.0, 200.0))
    loss = 2.2 * 2**0.5  # k / cos 45
    assert margins(make_plan(Project((wood,), (shelf,), saw=Saw(overcut=0.0)))) == (
        Margin(
            "a",
            "A1",
            300.0 - trim,
            pytest.approx(2440.0 - trim - 1300.0),
            200.0 - trim,
            pytest.approx(1220.0 - trim - 200.0 - 480.0 - 2 * loss),
        ),
    )


def test_the_margin_of_one_is_that_of_all() -> None:
    wood, shelf = Sheet("A", 2440.0, 1220.0, 18.0), Shelf("a", 900.0, 200.0, 80.0)
    plan = make_plan(Project((wood,), (shelf, msgspec.structs.replace(shelf, id="b"))))
    assert tuple(margin_of(plan, net.shelf) for net in plan.nets) == margins(plan)
    assert margin_of(plan, "c") is None


def on_area(plan: Plan, shelf: str, rect: Rect) -> bool:
    """Whether panels of the net, laid there, are on an area of its sheet that they must keep out of."""
    net = next(n for n in plan.nets if name(n) == shelf)
    form = part_of(next(f for f in plan.shapes if f.owner == net.shelf), net.panel)
    areas = next(s.areas for s in plan.sheets if s.id == net.sheet)
    for area in areas:
        kept = [p for p in form.panels if area.of != "front" or p.role == "front"]
        faces = shapely.union_all([box(*p.box).buffer(-1e-3, join_style="mitre") for p in kept])
        lying = shapely.affinity.translate(faces, rect[0], rect[1])
        if lying.intersection(shapely.Polygon(area.corners)).area > 1e-6:
            return True
    return False


@settings(max_examples=examples(50, 1000))
@given(projects_with_areas(max_shelves=4))
def test_it_ends_at_an_area(project: Project) -> None:
    plan = make_plan(project)
    told = {f.about for f in plan.findings if f.code == "in-area"}
    for margin in margins(plan):
        rect = rects(plan)[name(margin)]
        for side, way in WAYS.items():
            far = getattr(margin, side)
            if name(margin) in told:
                assert far == 0.0
                continue
            for share in (0.0, 0.31, 0.77, 1.0):
                there = moved(rect, way, share * far)
                assert lies_right(plan, name(margin), there)
                assert not on_area(plan, name(margin), there)


def test_a_bruise_stops_a_net_that_nothing_else_stops() -> None:
    bruise = KeepClear(((1500.0, 300.0), (1600.0, 300.0), (1550.0, 380.0)))
    wood = Sheet("A", 2440.0, 1220.0, 18.0, keep_clear=(bruise,))
    shelf = Shelf("a", 1000.0, 200.0, 80.0, left="open", right="open", at=(300.0, 200.0))
    (margin,) = margins(make_plan(Project((wood,), (shelf,), saw=Saw(overcut=0.0))))
    assert margin.right == pytest.approx(200.0)
    assert margin.left == pytest.approx(295.0)
    free = make_plan(Project((msgspec.structs.replace(wood, keep_clear=()),), (shelf,), saw=Saw(overcut=0.0)))
    assert margins(free)[0].right == pytest.approx(1135.0)
