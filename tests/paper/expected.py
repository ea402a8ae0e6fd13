"""Dimensions a plan must have, by another way than its drawings take."""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import cos, radians, sin, tan

from core.lengths import Unit, parse_length, show_length, show_thickness
from core.plan.model import Plan
from core.steps.steps import steps_of


def number(text: str) -> str:
    """The number of a shown length alone."""
    return re.sub(r"( mm|\")?( [+−])?$", "", text)


def name(length: float, unit: Unit) -> str:
    """What a screw of that length is called in the shop."""
    from core.frame.studs import sold_name

    return sold_name(length, unit) or show_length(length, unit)


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
            struck = parse_length(show_length(line, self.unit, 16, marks=False), self.unit)  # as it is read
            for screw in frame.screws:
                found |= self.coarse(left + screw.x, struck + screw.height) | self.fine(screw.x)
                found |= self.caliper(frame.thickness, plan.project.screw.diameter)
                found |= self.fine(wall.board, plan.project.screw.bite)
                pilot = 0.6 * plan.project.screw.diameter  # in softwood, common practice
                found |= self.caliper(pilot)
                if plan.project.frame.front_layers:  # what the driver goes through
                    found |= self.fine(plan.project.screw.access_hole)
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
        found = self.coarse(*self.studs(), self.plan.project.wall.width) if any(self.lines()) else set()
        for shelf, _, _ in self.lines():
            assert shelf.mount is not None
            found |= self.coarse(shelf.mount.x, shelf.mount.x + shelf.length)
        for frame in self.plan.frames:
            if frame.screws:
                found |= self.fine(frame.length, *(screw.x for screw in frame.screws))
        return found
