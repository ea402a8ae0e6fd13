"""Two worked examples of the trade, inch and metric: every position, the cavity (common practice, done by hand)."""

import pytest

from core.document.model import FrameWish, Project, Saw, Sheet, Shelf
from core.plan.make import make_plan
from core.plan.model import Plan

INCH = 25.4


def plan_of(shelf: Shelf, saw: Saw, sheet: Sheet, frame: FrameWish) -> Plan:
    return make_plan(Project((sheet,), (shelf,), saw=saw, frame=frame))


def edges(plan: Plan, roles: tuple[str, ...], axis: int) -> list[float]:
    """Both show edges of each panel along an axis, from the net's corner."""
    net = plan.nets[0]
    found = []
    for role in roles:
        panel = next(p for p in plan.panels if p.role == role)
        assert panel.x is not None
        assert panel.y is not None
        start = (panel.x - net.x, panel.y - net.y)[axis]
        found += [start, start + panel.show[axis]]
    return found


@pytest.fixture
def inch() -> Plan:
    return plan_of(
        Shelf("s", 60 * INCH, 10 * INCH, 2.5 * INCH),
        Saw(kerf=0.125 * INCH, overcut=0.0, allowance=INCH / 32),
        Sheet("A", 96 * INCH, 48 * INCH, 0.719 * INCH),
        FrameWish(side_play=0.125 * INCH, front_play=0.1875 * INCH, height_play=INCH / 32, back_layers=2),
    )


@pytest.fixture
def metric() -> Plan:
    return plan_of(
        Shelf("s", 1800, 250, 60),
        Saw(kerf=1.8, overcut=0.0, allowance=0.8),
        Sheet("A", 2500, 1250, 17.8),
        FrameWish(side_play=3, front_play=4, height_play=1),
    )


TOL = 0.01  # mm


def test_inch_across(inch: Plan) -> None:
    """From one trued edge: 0 / 10 / 10.208 / 12.708 / 12.916 / 22.916 in (printed to a thousandth)."""
    want = (0, 10, 10.2080, 12.7080, 12.9161, 22.9161)
    got = [v / INCH for v in edges(inch, ("bottom", "front", "top"), 1)]
    assert got == pytest.approx(want, abs=TOL / INCH)
    assert inch.seams[0].show_loss == pytest.approx(0.20803 * INCH, abs=TOL)


def test_inch_along(inch: Plan) -> None:
    """From the trued end: 0 / 10 / 10.208 / 70.208 / 70.416 / 80.416 in."""
    want = (0, 10, 10.2080, 70.2080, 70.4161, 80.4161)
    assert [v / INCH for v in edges(inch, ("left", "front", "right"), 0)] == pytest.approx(want, abs=TOL / INCH)
    assert [v / INCH for v in edges(inch, ("top", "bottom"), 0)] == pytest.approx([10.208, 70.208] * 2, abs=TOL / INCH)


def test_inch_cavity_and_frame(inch: Plan) -> None:
    """Cavity 1.062 x 9.281 x 58.562 in; frame 1-1/32 x 9-3/32 x 58-5/16; doubled wall rail, ribs 6-15/16."""
    frame = inch.frames[0]
    assert [v / INCH for v in frame.cavity] == pytest.approx([58.562, 9.281, 1.062], abs=TOL / INCH)
    assert frame.height / INCH == pytest.approx(1 + 1 / 32, abs=1 / 64)
    assert frame.depth / INCH == pytest.approx(9 + 3 / 32, abs=1 / 64)
    assert frame.length / INCH == pytest.approx(58 + 5 / 16, abs=1 / 64)
    assert frame.rib_length / INCH == pytest.approx(6 + 15 / 16, abs=1 / 64)
    assert [p.role for p in frame.parts].count("back rail") == 2


def test_metric_positions(metric: Plan) -> None:
    """Across 0 / 250 / 253.35 / 313.35 / 316.69 / 566.69, along 0 / 250 / 253.35 / 2053.35 / 2056.69 / 2306.69 mm."""
    across = (0, 250, 253.346, 313.346, 316.691, 566.691)
    along = (0, 250, 253.346, 2053.346, 2056.691, 2306.691)
    assert edges(metric, ("bottom", "front", "top"), 1) == pytest.approx(across, abs=TOL)
    assert edges(metric, ("left", "front", "right"), 0) == pytest.approx(along, abs=TOL)


def test_metric_cavity(metric: Plan) -> None:
    """Cavity 24.4 x 232.2 x 1764.4 mm."""
    assert metric.frames[0].cavity == pytest.approx((1764.4, 232.2, 24.4), abs=TOL)


def test_top_and_bottom_start_one_depth_and_one_seam_in() -> None:
    """Common practice: for a shelf 9 in deep the top and bottom start 9 in and one seam in from the sheet's end."""
    plan = plan_of(
        Shelf("s", 48 * INCH, 9 * INCH, 3 * INCH), Saw(), Sheet("A", 96 * INCH, 48 * INCH, 18.0, trim=0.0), FrameWish()
    )
    loss = plan.seams[0].show_loss
    assert loss is not None
    starts = {p.role: p.x for p in plan.panels}
    assert starts["top"] == starts["bottom"] == pytest.approx(9 * INCH + loss)


@pytest.mark.parametrize(
    ("ends", "limit"), [("front", 75 + 1 / 16), ("top", 90 + 1 / 16)], ids=["ends from front", "ends from top"]
)
def test_longest_shelf_of_a_96_in_sheet(ends: str, limit: float) -> None:
    """Depth 10, height 2-1/2, kerf 1/8, allowance 1/32, trim 1/4 in: 75-1/16 with ends from the front, 90-1/16 with
    ends from the top, rounded down (common practice, worked by hand): that fits, 1/16 in more does not."""
    saw = Saw(kerf=0.125 * INCH, overcut=0.0, allowance=INCH / 32)
    sheet = Sheet("A", 96 * INCH, 48 * INCH, 0.719 * INCH, trim=0.25 * INCH)
    for length, fits in ((limit, True), (limit + 1 / 16, False)):
        shelf = Shelf("s", length * INCH, 10 * INCH, 2.5 * INCH, ends_from=ends)
        codes = {f.code for f in make_plan(Project((sheet,), (shelf,), saw=saw)).errors}
        assert ("no-room" not in codes) is fits
