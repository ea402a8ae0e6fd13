"""Templates on the page are as long as the work: marks measured on the PDF itself."""

import itertools
from io import BytesIO

import pdfplumber
import pytest
from pdfplumber.page import Page

from app.paper.frame import Paper
from app.paper.pdf import frame_of, pdf_bytes
from app.paper.templates import template_pages
from core.drawing.model import Drawing, Line, Text
from core.drawing.template import FLAP, Mark, Strip, cut_up, levelled
from core.leaves.templates import strips_of
from core.plan.model import Plan
from tests.paper.recorder import demo, demo_names

pytestmark = pytest.mark.usefixtures("qapp")
MM = 72.0 / 25.4
TRUE = 0.1  # mm: how true a mark must be


def upright_lines(page: Page) -> list[float]:
    """Where upright lines stand on a page. [mm from its left edge]"""
    lines = [*page.lines, *page.curves, *page.rects]
    found = []
    for line in lines:
        points = line.get("pts") or [(line["x0"], line["top"]), (line["x1"], line["bottom"])]
        for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True):
            if abs(x0 - x1) < 0.01 and abs(y0 - y1) > 3.0:
                found.append(x0 / MM)
    return found


def starts(drawing: Drawing) -> float:
    """Where a length of a strip begins along the whole. [mm]"""
    return drawing.box[0]


@pytest.mark.parametrize("paper", ["letter", "a4", "tabloid"])
def test_marks_are_true_on_the_page(paper: Paper) -> None:
    plan = demo("reading-corner")
    frame = frame_of(plan, paper)
    read = pdfplumber.open(BytesIO(pdf_bytes(plan, paper, names=("templates",)))).pages
    pages = list(template_pages(plan, frame))
    assert len(read) == len(pages)
    measured = 0
    for page, drawn in zip(read, pages, strict=True):
        places = upright_lines(page)
        for row in drawn.rows:  # type: ignore[attr-defined]  # pages of templates have rows
            for item in row.drawing.items:
                if (
                    isinstance(item, Line)
                    and item.layer in ("cut", "datum", "now")
                    and item.points[0][0] == item.points[1][0]
                ):
                    wanted = frame.left / MM + item.points[0][0] - starts(row.drawing)
                    assert min(abs(place - wanted) for place in places) <= TRUE
                    measured += 1
    assert measured > 20


@pytest.mark.parametrize("name", demo_names())
def test_lengths_laid_join_on_join_are_the_whole(name: str) -> None:
    """What a maker does: each length on the flap of the one before. Every mark is on one length at least, in "
    "its place."""
    plan: Plan = demo(name)
    for strip in strips_of(plan):
        lengths = cut_up(strip, 240.0, 5.0)
        assert lengths[0].box[0] == 0.0
        assert lengths[-1].box[2] == pytest.approx(strip.length)
        for one, other in itertools.pairwise(lengths):
            assert one.box[2] - other.box[0] == pytest.approx(min(FLAP, strip.length - other.box[0]))
            assert one.box[2] - one.box[0] <= 240.0 + 1e-9
        for mark in strip.marks:
            if mark.kind in ("cross", "hole"):
                assert any(_has(drawing, mark) for drawing in lengths)


def _has(drawing: Drawing, mark: Mark) -> bool:
    lines = [item.points for item in drawing.items if isinstance(item, Line) and item.layer == "now"]
    return any(a[0] == b[0] == mark.x and min(a[1], b[1]) < mark.y < max(a[1], b[1]) for a, b in lines)


def test_every_screw_of_every_frame_has_its_cross() -> None:
    plan = demo("reading-corner")
    drills = [strip for strip in strips_of(plan) if strip.name.startswith("Drill")]
    crosses = [(m.x, m.y) for strip in drills for m in strip.marks if m.kind in ("cross", "hole")]
    assert crosses == [(s.x, s.height) for frame in plan.frames for s in frame.screws]


def test_words_of_close_marks_stand_one_above_the_other() -> None:
    close = [Mark("line", 100.0 + n, f"stud {n}: 48-3/16") for n in range(4)]
    far = [Mark("line", 200.0 * n, "stud") for n in range(1, 4)]
    assert {m.level for m in levelled("x", 900.0, close, 10.0).marks} == {0, 1, 2, 3}
    assert {m.level for m in levelled("x", 900.0, far, 10.0).marks} == {0}
    assert levelled("x", 900.0, close, 10.0).height > levelled("x", 900.0, far, 10.0).height


def test_what_fits_is_not_cut() -> None:
    assert len(cut_up(Strip("x", 240.0, 10.0, ()), 240.0)) == 1
    assert len(cut_up(Strip("x", 240.1, 10.0, ()), 240.0)) == 2


@pytest.mark.parametrize("name", demo_names())
def test_no_line_goes_through_words_that_have_room_beside_another(name: str) -> None:
    """Marks that stand close together are named at the sides away from each other; the stick has both its ends."""
    for strip in strips_of(demo(name)):
        lines = {mark.x for mark in strip.marks if mark.kind != "band"}
        assert {0.0} <= lines
        if strip.name.startswith("Story"):
            assert strip.length in lines
    close = Strip("close", 200.0, 20.0, (Mark("line", 100.0, "the first"), Mark("line", 110.0, "the second", level=1)))
    (drawing,) = cut_up(close, 240.0)
    aligned = {item.text: item.align for item in drawing.items if isinstance(item, Text)}
    assert aligned["the first"] == "right"
    assert aligned["the second"] == "left"


@pytest.mark.parametrize(("length", "count"), [(240.0, 1), (241.0, 2), (468.0, 2), (469.0, 3), (696.0, 3)])
def test_a_strip_is_cut_into_no_more_lengths_than_the_page_asks_for(length: float, count: int) -> None:
    """All but the last give a flap away: 240 wide, 12 of flap, so 228 and 228 and 240."""
    drawings = cut_up(Strip("bare", length, 20.0, (Mark("end", length, "end"),)), 240.0)
    assert len(drawings) == count
    assert all(drawing.box[2] - drawing.box[0] <= 240.0 for drawing in drawings)
    assert drawings[-1].box[2] == length
    assert any(isinstance(item, Text) and item.text == "end" for item in drawings[-1].items)
