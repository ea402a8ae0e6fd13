"""Every dimension of the plan is on the page where it belongs, and no page has one that is not in the plan."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from math import cos, radians, sin, tan

import pytest

from app.paper.page import Upright
from app.paper.pdf import frame_of, page_size, pdf_bytes
from app.paper.plan_set import pages_of
from core.document.model import Studs, Units
from core.layout.spares import spares
from core.leaves.reader import public_plan
from core.lengths import Unit, show_length, show_thickness
from core.plan.model import Plan
from core.steps.rounding import rounding_cost, to_fraction
from core.steps.steps import steps_of
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


def number(text: str) -> str:
    """The number of a shown length alone."""
    return re.sub(r"( mm|\")?( [+−])?$", "", text)


class Dimensions:
    """Dimensions of a plan by another way than the drawings take: formulas of the design, straight from the project."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.unit = Unit(plan.project.units)
        self.thick = {p.shelf: p.thickness for p in plan.panels}

    def fine(self, *values: float) -> set[str]:
        """As sizes are shown."""
        return {number(show_length(value, self.unit)) for value in values}

    def coarse(self, *values: float) -> set[str]:
        """As a wall is measured."""
        return {number(show_length(value, self.unit, 16)) for value in values}

    def caliper(self, *values: float) -> set[str]:
        """As a thickness is shown."""
        return {number(show_thickness(value, self.unit)) for value in values}

    def cover(self) -> set[str]:
        found: set[str] = set()
        for unit in Unit:
            for shelf in self.plan.project.shelves:
                sizes = [shelf.length, shelf.depth, shelf.height]
                sizes += [shelf.mount.top] if shelf.mount is not None else []
                found |= {number(show_length(size, unit)) for size in sizes}
        return found

    def studs(self) -> list[float]:
        wall = self.plan.project.wall
        if not hasattr(wall.studs, "first"):
            return list(wall.studs)  # type: ignore[arg-type]  # a tuple of places
        first, spacing = wall.studs.first, wall.studs.spacing  # type: ignore[union-attr]  # even studs, see above
        return [first + n * spacing for n in range(int((wall.width - first) / spacing) + 1)]

    def wall(self) -> set[str]:
        wall = self.plan.project.wall
        found = self.coarse(0.0, wall.width, wall.height, *self.studs())
        for shelf, line, _ in self.lines():
            assert shelf.mount is not None
            found |= self.coarse(shelf.mount.x, shelf.mount.x + shelf.length, shelf.mount.top, line)
            found |= self.fine(shelf.length)
        return found | self.measured()

    def measured(self) -> set[str]:
        """What was measured of the wall beside its size: bow, run-out, the alcove's widths, what screws keep out of."""
        wall, found = self.plan.project.wall, set()
        for at, gap in wall.bow:
            found |= self.coarse(at) | self.fine(gap)
        for area in wall.keep_outs:
            found |= self.coarse(area.x, area.y, area.x + area.width, area.y + area.height)
        if wall.alcove is not None:
            found |= self.coarse(*wall.alcove.top, *wall.alcove.bottom)
        return found | (self.coarse(wall.run_out) if wall.run_out else set())

    def lines(self) -> Iterator[tuple]:
        """Shelf, height of its frame's lower edge and left end of its frame."""
        frames = {frame.shelf: frame for frame in self.plan.frames}
        for shelf in self.plan.project.shelves:
            if shelf.mount is not None and shelf.id in frames:
                t, frame = self.thick[shelf.id], frames[shelf.id]
                left = shelf.mount.x + (t if shelf.left == "mitred" else 0.0) + self.plan.project.frame.side_play
                yield shelf, shelf.mount.top - t - frame.height, left

    def frame(self) -> set[str]:
        wish, found = self.plan.project.frame, set()
        for frame in self.plan.frames:
            t = frame.thickness
            found |= self.fine(0.0, *frame.ribs, frame.length, frame.depth, frame.height, frame.rib_length)
            found |= self.fine(*frame.cavity, *(s.x for s in frame.screws), *(s.height for s in frame.screws))
            found |= self.fine(wish.front_layers * t, frame.depth - wish.back_layers * t)
            found |= self.fine(wish.height_play, wish.side_play, wish.front_play) | self.caliper(t)
            found |= {number(name(screw.length, self.unit)) for screw in frame.screws}
        return found

    def install(self) -> set[str]:
        plan, wall, found = self.plan, self.plan.project.wall, set()
        frames = {frame.shelf: frame for frame in plan.frames}
        for shelf, line, left in self.lines():
            frame = frames[shelf.id]
            found |= self.coarse(line, left)
            for screw in frame.screws:
                found |= self.coarse(left + screw.x, line + screw.height) | self.fine(screw.x)
                found |= self.caliper(frame.thickness, plan.project.screw.diameter)
                found |= self.fine(wall.board, plan.project.screw.bite)
                pilot = 0.6 * plan.project.screw.diameter  # in softwood, common practice
                found |= self.caliper(pilot, plan.project.screw.access_hole)
        return found

    def glue_up(self) -> set[str]:
        found = self.fine(0.0, *(frame.cavity[2] for frame in self.plan.frames))
        for shelf in self.plan.project.shelves:
            depth, height, ends = shelf.depth + shelf.scribe, shelf.height, shelf.mitred_ends
            seams = [shelf.length, shelf.length, *ends * [height, depth, depth]]
            found |= self.fine(sum(seams))  # glue length 2L + nH + 2nD
        return found

    def labels(self) -> set[str]:
        found: set[str] = set()
        for panel in self.plan.panels:
            found |= self.fine(*panel.show)
        for frame in self.plan.frames:
            for part in frame.parts:
                found |= self.fine(part.length, part.width)
        return found

    def sheets(self) -> set[str]:
        found: set[str] = set()
        for stock in self.plan.project.sheets if not self.plan.sheets else ():  # what does not fit is drawn on it
            found |= self.fine(0.0, stock.length, stock.width) | self.caliper(stock.thickness)
        for sheet in self.plan.sheets:
            found |= self.fine(0.0, sheet.length, sheet.width) | self.caliper(sheet.thickness)
            left, upper = sheet.source.trim, sheet.width - sheet.source.trim
            for panel in self.plan.panels_on(sheet.id):
                assert panel.x is not None
                assert panel.y is not None
                found |= self.fine(panel.x - left, panel.x + panel.show[0] - left)
                found |= self.fine(upper - panel.y, upper - panel.y - panel.show[1])
        return found

    def seam(self, thickness: float) -> dict[str, float]:
        """Numbers of a seam's section, by the design's formulas."""
        saw = self.plan.project.saw
        beta, delta = radians(45.0 + saw.overcut), radians(saw.overcut)
        footprint, face = saw.kerf / cos(beta), thickness / cos(beta)
        loss, back, open_ = footprint + saw.allowance, thickness * tan(beta), 2.0 * face * sin(abs(delta))
        glue = min(face, self.plan.project.glue_line / (2.0 * sin(abs(delta)))) if delta else face
        return {"footprint": footprint, "face": face, "loss": loss, "back": back, "open": open_, "glue": glue}

    def saw(self) -> set[str]:
        saw, found = self.plan.project.saw, set()
        for thickness in set(self.thick.values()):
            seam = self.seam(thickness)
            found |= self.caliper(saw.kerf, saw.allowance, thickness)
            found |= self.caliper(*(seam[name] for name in ("footprint", "face", "loss", "back")))
        return found

    def cut_list(self) -> set[str]:
        found: set[str] = set()
        for panel in self.plan.panels:
            back = self.seam(panel.thickness)["back"]
            ends = [sum(bool(panel.bevels.get(f"{side}_{axis}")) for side in ("low", "high")) for axis in "xy"]
            inside = (size - back * n for size, n in zip(panel.show, ends, strict=True))
            found |= self.fine(*panel.show, *inside) | self.caliper(panel.thickness)
        for frame in self.plan.frames:
            found |= self.caliper(frame.thickness)
            for part in frame.parts:
                found |= self.fine(part.length, part.width)
        return found

    def offcuts(self) -> set[str]:
        found: set[str] = set()
        for left in self.plan.offcuts:
            sizes = (left.length, left.width)
            found |= {number(show_length(size, self.unit, rounding="down")) for size in sizes}
            found |= self.caliper(next(s.thickness for s in self.plan.sheets if s.id == left.sheet))
        return found

    def settings(self) -> set[str]:
        """The number of every card, as tests/steps proves it from the sawn pieces."""
        found: set[str] = set()
        for step in steps_of(self.plan):
            by = step.set_by
            if by.means == "arris" and by.back is None and not by.reads_scale:
                found |= {number(show_length(by.toe, self.unit, 64))} if by.toe > 0.05 else set()
            else:
                found |= self.fine(by.printed)
        return found

    def cut_order(self) -> set[str]:
        found = self.settings()
        sheets = {s.id: s for s in self.plan.sheets}
        for cut in self.plan.cuts:
            sheet = sheets[cut.sheet]
            trim = sheet.source.trim
            found |= self.fine(sheet.width - trim - cut.at if cut.kind == "rip" else cut.at - trim)
        return found

    def buying(self) -> set[str]:
        found: set[str] = set()
        used = {sheet.stock for sheet in self.plan.sheets}
        for stock in self.plan.project.sheets:
            if stock.id in used:
                found |= self.fine(stock.length, stock.width) | self.caliper(stock.thickness)
        for frame in self.plan.frames:
            found |= self.fine(frame.height, frame.cavity[2]) | self.caliper(frame.thickness)
            if frame.screws:
                found |= self.caliper(self.plan.project.screw.diameter) | self.fine(self.plan.project.screw.bite)
        return found

    def set_ups(self) -> set[str]:
        saw, found = self.plan.project.saw, self.settings() | self.caliper(self.plan.project.saw.kerf)
        for sheet in self.plan.sheets:
            deep = sheet.thickness / cos(radians(45.0 + saw.overcut)) + 3.0  # 3 mm deeper: common practice
            found |= self.caliper(sheet.thickness) | self.fine(deep)
        if saw.kind == "guided":
            found |= self.fine(saw.guide_width, saw.guide_length, saw.guide_offset)
        return found | (self.fine(saw.fence_travel) if saw.kind == "table" else set())

    def finish(self) -> set[str]:
        used = {sheet.stock for sheet in self.plan.sheets} or {sheet.id for sheet in self.plan.project.sheets}
        return self.caliper(*(stock.veneer for stock in self.plan.project.sheets if stock.id in used))

    def templates(self) -> set[str]:
        found = self.coarse(*self.studs()) if any(self.lines()) else set()
        for shelf, _, _ in self.lines():
            assert shelf.mount is not None
            found |= self.coarse(shelf.mount.x, shelf.mount.x + shelf.length)
        for frame in self.plan.frames:
            if frame.screws:
                found |= self.fine(frame.length, *(screw.x for screw in frame.screws))
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
            found |= {*INCH.findall(said), *METRIC.findall(said)}  # of the plan's supplies, such as lock screws
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
        found |= d.fine(*(abs(mm) for mm in (by.edge, by.printed_stick, by.seen, by.reading) if mm is not None))
        if step.packer is not None:
            found |= d.fine(step.packer.width)
        if by.means == "arris":
            found |= {number(show_length(by.toe, d.unit, 64))}
    found |= d.fine(saw.guide_width, saw.guide_length, saw.fence_travel, 300.0)  # 300 mm to start on: common practice
    return found | d.caliper(*(sheet.thickness for sheet in plan.sheets))


def name(length: float, unit: Unit) -> str:
    """What a screw of that length is called in the shop."""
    from core.frame.studs import sold_name

    return sold_name(length, unit) or show_length(length, unit)


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
