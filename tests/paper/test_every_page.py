"""Every page of every demo on every paper: inside the edges, no words on words, none too small."""

from typing import get_args

import pytest
from PySide6.QtGui import QGuiApplication

from app.paper.cards import card_pages
from app.paper.frame import MARGIN, Paper
from app.paper.leaf import LeafPage
from app.paper.page import Upright
from app.paper.pdf import frame_of, page_size
from app.paper.plan_set import kinds_of, page_names, pages_of
from core.document.model import Units
from core.drawing.wall import frame_box, wall_length
from core.frame.studs import stud_lines
from core.lengths import Unit, parse_length, show_length
from core.plan.make import make_plan
from core.steps.steps import steps_of
from core.wall.places import hung
from tests.conftest import examples
from tests.drawing.plans import hallway, many, too_long
from tests.paper.recorder import demo, demo_names, overlapping, recorded

pytestmark = pytest.mark.usefixtures("qapp")
PAPERS = get_args(Paper)
NOISE = 0.5  # points: half of a line's width, rounding


def faults(plan: object, paper: Paper, names: tuple[str, ...] | None = None) -> list[str]:
    """What is wrong with a plan's pages, a line for each fault."""
    frame = frame_of(plan, paper)  # type: ignore[arg-type]  # a plan, kept as it comes from the cache
    pages = pages_of(plan, frame, names)  # type: ignore[arg-type]
    found: list[str] = []
    for number, page in enumerate(pages, 1):
        seen = recorded(page, frame, number, len(pages))
        where = f"{paper}, page {number}, {page.title}"
        wide, high = page_size(page, frame)
        edge = 11.0 if isinstance(page, Upright) else MARGIN
        for one in seen.words:
            x0, y0, x1, y1 = one.box
            if x0 < edge - NOISE or y0 < edge - NOISE or x1 > wide - edge + NOISE or y1 > high - edge + NOISE:
                found.append(f"{where}: off the page: {one.text}")
            if one.size < 9.0 - 1e-6:
                found.append(f"{where}: {one.size:.1f} points: {one.text}")
        for x, y in seen.ends:
            if not (edge - NOISE <= x <= wide - edge + NOISE and edge - NOISE <= y <= high - edge + NOISE):
                found.append(f"{where}: a line leaves the page at {x:.0f}, {y:.0f}")
        found += [f"{where}: {a} on {b}" for a, b in overlapping(seen.words)]
        found += [f"{where}: {name} without what stands beside it" for name in seen.plain]
    return found


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", demo_names())
def test_nothing_overlaps_clips_or_runs_off(qapp: QGuiApplication, name: str, paper: Paper) -> None:
    assert faults(demo(name), paper) == []


@pytest.mark.parametrize("name", demo_names())
def test_nor_in_the_other_unit(name: str) -> None:
    other = "mm" if demo(name).project.units == "in" else "in"
    assert faults(demo(name, other), "letter") == []  # type: ignore[arg-type]  # one of the units


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_nor_in_the_readers_edition(paper: Paper) -> None:
    assert faults(demo("reading-corner"), paper, ("reader",)) == []


def test_nor_with_many_shelves_none_or_one_that_cannot_be() -> None:
    for project in (many(examples(8, 30)), hallway(shelves=()), too_long(), hallway(name="x" * 300)):
        assert faults(make_plan(project), "a4") == []


def test_every_kind_of_page_is_there_for_a_whole_job() -> None:
    plan = demo("reading-corner")
    frame = frame_of(plan, "letter")
    empty = [kind.name for kind in kinds_of(page_names()) if not list(kind.make(plan, frame))]
    assert set(empty) <= {"findings"}


@pytest.mark.parametrize("name", demo_names())
def test_every_card_has_its_number_in_its_picture_too(name: str) -> None:
    """Once large among its words, once beside its line on the bench: it is dropped there where it finds no room."""
    plan = demo(name)
    frame = frame_of(plan, "letter")
    lacking: list[int] = []
    for page in card_pages(plan, frame):
        written = [one.text for one in recorded(page, frame).words]
        for card in page.cards:
            if written.count(card.setting) < 2 * sum(one.setting == card.setting for one in page.cards):
                lacking.append(card.number)
    assert lacking == []


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("name", demo_names())
def test_every_gauge_stick_has_its_number_in_its_picture_and_the_face_is_told_once(name: str, units: Units) -> None:
    """A dimension line with no number says nothing; what the section says is not said again over the bench."""
    plan, paper = demo(name, units), "a4" if units == "mm" else "letter"
    frame, unit = frame_of(plan, paper), Unit(units)  # type: ignore[arg-type]  # one of the papers
    sticks = {step.number: step.set_by.printed_stick for step in steps_of(plan)}
    for page in card_pages(plan, frame):
        seen = recorded(page, frame).words
        written = [one.text for one in seen]
        for card in page.cards:
            stick = sticks[card.number]
            if stick is not None and stick > 0.3:
                told = show_length(stick, unit)
                assert any(text in (told, f"stick {told}") for text in written), card.number
        drawn = [one.text for one in seen if one.box[0] > frame.width / 2.0]  # its drawings, at the right
        assert drawn.count("show face up") == sum("show face up" in card.facts for card in page.cards), page.title


@pytest.mark.parametrize("name", demo_names())
def test_numbers_at_the_wall_are_read_at_arms_length(name: str) -> None:
    """14 points and more for places and heights: common practice for what hangs on a wall while one works."""
    plan = demo(name)
    frame, unit = frame_of(plan, "letter"), Unit(plan.project.units)
    largest: dict[str, float] = {}
    for page in pages_of(plan, frame, ("wall", "install")):
        for one in recorded(page, frame).words:
            largest[one.text] = max(largest.get(one.text, 0.0), one.size)
    frames = {one.shelf: one for one in plan.frames}
    told = {wall_length(x, unit) for x in stud_lines(plan.project.wall, 0.0, plan.project.wall.width)}
    for shelf in hung(plan.project):
        left, low = frame_box(plan, shelf, frames[shelf.shelf.id])[:2]
        told |= {wall_length(mm, unit) for mm in (left, low, shelf.mount.top)}
        struck = parse_length(wall_length(low, unit), unit)  # the line as it is printed
        told |= {wall_length(struck + screw.height, unit) for screw in frames[shelf.shelf.id].screws}
    assert {text: largest.get(text) for text in told if largest.get(text, 0.0) < 14.0} == {}


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", demo_names())
def test_no_page_is_turned_for_a_line_or_two(name: str, paper: Paper) -> None:
    """Of what takes more than one page the last has at least three rows and an eighth of the room."""
    plan = demo(name)
    frame = frame_of(plan, paper)
    pages = [page for page in pages_of(plan, frame) if isinstance(page, LeafPage) and page.part]
    for page in pages:
        low = max(one.y + one.piece.height for one in page.placed)
        assert low - frame.top >= (frame.bottom - frame.top) / 8.0, page.title
        assert len(page.placed) >= 3 or any(one.piece.scale for one in page.placed), page.title  # or a drawing
