"""Every dimension of the plan is on the page where it belongs, and no page has one that is not in the plan."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from app.paper.page import Upright
from app.paper.pdf import frame_of, page_size, pdf_bytes
from app.paper.plan_set import pages_of
from core.document.model import Studs, Units
from core.frame.supplies import LOCK_SIZE
from core.layout.spares import spares
from core.leaves.reader import public_plan
from core.lengths import Unit, show_length
from core.plan.model import Plan
from core.steps.rounding import rounding_cost, to_fraction
from core.steps.steps import steps_of
from tests.paper.expected import Dimensions, name, number
from tests.paper.letters import lettered_pages
from tests.paper.recorder import demo, demo_names, recorded

pytestmark = pytest.mark.usefixtures("qapp")
BOTH: tuple[Units, ...] = ("in", "mm")
INCH = re.compile(r"(?<![\d/.-])(\d+-\d+/\d+|\d+/\d+|\d+\.\d+|\d+)\"")
METRIC = re.compile(r"(?<![\d.])(\d+(?:\.\d+)?) mm")
# What words of the trade name, in both units: cable depth, arris, people, check bars, labels. Common practice.
PRACTICE = {"32", "0.4", "70", "37", "100"}
EXACT = {"sheets": {"0.1"}}  # "numbers are to 0.1 mm"


def texts(plan: Plan, kind: str) -> list[str]:
    """All words on the pages of a kind, title blocks left out."""
    frame = frame_of(plan, "letter")
    found = []
    for page in pages_of(plan, frame, (kind,)):
        bottom = page_size(page, frame)[1] - (0.0 if isinstance(page, Upright) else frame.height - frame.bottom - 14.0)
        found += [one.text for one in recorded(page, frame).words if one.box[3] < bottom or not one.level]
    return found


def shown(plan: Plan, kind: str) -> set[str]:
    """Every dimension on the pages of a kind: the number alone, marks of more or less left out."""
    joined = " | ".join(texts(plan, kind))
    found = set(INCH.findall(joined))
    found |= set(METRIC.findall(joined))
    for pair in re.findall(r"(\d+(?:\.\d+)?) × (\d+(?:\.\d+)?) mm", joined):
        found |= set(pair)
    return found


KINDS: dict[str, Callable[[Dimensions], set[str]]] = {
    "cover": Dimensions.cover,
    "wall": Dimensions.wall,
    "frame": Dimensions.frame,
    "install": Dimensions.install,
    "glue up": Dimensions.glue_up,
    "labels": Dimensions.labels,
    "templates": Dimensions.templates,
    "sheets": Dimensions.sheets,
    "saw": Dimensions.saw,
    "set-ups": Dimensions.set_ups,
    "cut cards": Dimensions.settings,
    "as-cut log": Dimensions.settings,
    "cut list": Dimensions.cut_list,
    "cut order": Dimensions.cut_order,
    "offcuts": Dimensions.offcuts,
    "buying list": Dimensions.buying,
    "finish": Dimensions.finish,
}

CUTTING = ("set-ups", "cut cards", "as-cut log", "cut order", "offcuts")


def more(plan: Plan, kind: str) -> set[str]:
    """What a kind of page shows beyond its own list: reckoned from the plan, or rates of the trade."""
    unit, d = Unit(plan.project.units), Dimensions(plan)
    found: set[str] = set()
    if kind == "wall":
        step = 304.8 if unit is Unit.INCH else 300.0  # bow readings: every 12 in or 300 mm, common practice
        found |= d.coarse(*(n * step for n in range(60)))
        tops = [(s.mount.top - s.height, s.mount.top) for s in plan.project.shelves if s.mount is not None]
        found |= d.coarse(*(low - top for low, _ in tops for _, top in tops if low > top))  # clear heights
    if kind == "glue up":
        for frame in plan.frames:  # spacers: 2 in from the ends, 16 in apart at most; in mm 50 and 400: common practice
            end, most = (50.8, 406.4) if unit is Unit.INCH else (50.0, 400.0)
            inner = frame.cavity[0] - 2.0 * end
            count = int(-(-inner // most))
            found |= d.coarse(*(end + n * inner / count for n in range(count + 1)))
    if kind == "install":
        wish, screw, wall = plan.project.frame, plan.project.screw, plan.project.wall
        for frame in plan.frames:
            least = wish.back_layers * frame.thickness + wall.board + wall.tile + screw.bite
            found |= {number(show_length(least, unit, rounding="up"))} | d.fine(wish.height_play, wall.tile)
            depth = next(s.depth for s in plan.project.shelves if s.id == frame.shelf)
            found |= d.fine(wish.height_play * depth / frame.depth)  # front drop, common practice
            said = " | ".join(f"{supply.what} | {supply.basis}" for supply in plan.supplies)
            said += " | ".join(load.raise_by for load in plan.loads)
            found |= {*INCH.findall(said), *METRIC.findall(said)}  # of its supplies, such as lock screws, and loads
            found |= {LOCK_SIZE[unit]}  # how thick those are
            for place in frame.screws:
                found |= d.fine(place.length) | {number(name(place.length, unit))}
    if kind == "sheets":
        left = [size for o in plan.offcuts for size in (o.length, o.width)]
        found |= {
            number(show_length(o, unit, rounding="up")) for one in plan.overruns for o in (one.over_x, one.over_y)
        }
        found |= {number(show_length(size, unit, rounding="down")) for size in left} | d.cut_list()
    if kind == "saw":
        for thickness in set(d.thick.values()):
            seam = d.seam(thickness)
            found |= d.caliper(seam["open"], seam["glue"], seam["loss"] + 2.0 * seam["back"])
    if kind in ("cut cards", "set-ups"):
        found |= beside(plan, d)
    if kind == "set-ups":
        cost = rounding_cost(plan, to_fraction(16))
        found |= d.caliper(cost.off) | {number(show_length(cost.off, Unit.MM))}
        for sheet in plan.sheets:  # what is to be measured first: sheets as sold, studs as they are taken to stand
            found |= d.fine(sheet.length, sheet.width)
        studs = plan.project.wall.studs
        found |= d.fine(studs.spacing) if isinstance(studs, Studs) else set()
    if kind == "offcuts":
        for spare in spares(plan):
            found |= {number(show_length(size, unit, rounding="down")) for size in (spare.length, spare.width)}
            found |= d.caliper(next(s.thickness for s in plan.sheets if s.id == spare.sheet))
    if kind == "buying list":
        found |= more(plan, "install")
        rates = (152.4, 76.2, 406.4) if unit is Unit.INCH else (150.0, 75.0, 400.0)  # tape, spacers: common practice
        found |= d.fine(*rates, plan.project.wall.board, plan.project.wall.width)
    if kind == "templates":
        found |= d.fine(*(s.set_by.printed_stick for s in steps_of(plan) if s.set_by.printed_stick is not None))
    return found


def beside(plan: Plan, d: Dimensions) -> set[str]:
    """What a card tells beside its number: where the guide goes, sticks, packers, what falls."""
    found, saw = set(), plan.project.saw
    for step in steps_of(plan):
        by = step.set_by
        found |= d.fine(step.length, step.width, by.toe, *(fall.width for fall in step.falls))
        for pair in step.uneven:  # followed literally in test_followed
            found |= d.caliper(abs(pair.longer))
        for one in step.untrue:
            found |= d.caliper(abs(one.longer))
        found |= d.fine(*(abs(mm) for mm in (by.edge, by.printed_stick, by.seen, by.reading) if mm is not None))
        if by.reads_scale:  # the line on the show face moves with the scale; followed literally in test_followed
            found |= d.fine(by.printed_toe)
        if step.packer is not None:
            found |= d.fine(step.packer.width)
        if by.means == "arris":
            found |= {number(show_length(by.toe, d.unit, 64))}
    for left in plan.offcuts:  # as the table of offcuts has them
        found |= {number(show_length(size, d.unit, rounding="down")) for size in (left.length, left.width)}
    found |= d.fine(saw.guide_width, saw.guide_length, saw.fence_travel, 300.0)  # 300 mm to start on: common practice
    return found | d.caliper(*(sheet.thickness for sheet in plan.sheets))


@pytest.mark.parametrize("units", BOTH)
@pytest.mark.parametrize("kind", list(KINDS))
@pytest.mark.parametrize("project", demo_names())
def test_every_dimension_is_on_its_page_and_no_other(project: str, kind: str, units: Units) -> None:
    plan = demo(project, units)
    found = shown(plan, kind)
    if not plan.cuts and kind in CUTTING:  # nothing can be cut: nothing of it is printed
        assert found == set()
        return
    wanted = KINDS[kind](Dimensions(plan))
    assert wanted or kind in CUTTING
    assert wanted - found == set()
    assert found - wanted - more(plan, kind) - PRACTICE - EXACT.get(kind, set()) == set()


@pytest.mark.parametrize("units", BOTH)
def test_the_pdf_has_the_very_words_that_were_drawn(units: Units) -> None:
    """The recorder above is true: letters of every page of the PDF, read back, are those it wrote down."""
    plan = demo("reading-corner", units)
    frame = frame_of(plan, "letter")
    for kind in ("wall", "sheets", "saw", "set-ups", "cut list", "as-cut log", "frame", "install"):
        read = lettered_pages(pdf_bytes(plan, "letter", names=(kind,)))
        pages = pages_of(plan, frame, (kind,))
        for n, (page, drawn) in enumerate(zip(read, pages, strict=True), 1):
            written = recorded(drawn, frame, n, len(pages))
            expected = sorted("".join("".join(one.text for one in written.words).split()))
            assert sorted("".join("".join(c["text"] for c in page.chars).split())) == expected


def public_sizes(plan: Plan) -> set[str]:
    """Places in the frames and mouths of the public plan."""
    public = public_plan(plan)
    return shown(public, "frame") | shown(public, "glue up")


def test_the_readers_edition_keeps_the_wall_to_itself() -> None:
    plan = demo("reading-corner")
    places = Dimensions(plan)
    private = {number(show_length(stud, Unit.INCH)) for stud in places.studs()}
    for shelf, line, left in places.lines():
        private |= places.coarse(line, left, shelf.mount.top, shelf.mount.x)
    # Sizes of the shelves may be as long as a wall's place by chance, and so may a rate of the trade: tape every 75 mm.
    # Cut cards count themselves, up to the number of cuts.
    by_chance = shown(plan, "sheets") | shown(plan, "cut list") | public_sizes(plan) | {"75"}
    by_chance |= {str(n) for n in range(len(plan.cuts) + 1)}
    there = shown(plan, "reader")
    assert private - by_chance
    assert (private - by_chance) & there == set()
    assert not any(word.startswith("Wood screws") for word in texts(plan, "reader"))
