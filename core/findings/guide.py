"""Findings about guide and fence: too short for a cut, nothing to carry it, out of the fence's reach, a trapped part,
a fence on the waste.

They run in every plan, so they follow the pieces' boxes instead of sawing the pieces: each piece is eight numbers,
where its low and high side stand on the show and on the inside face, along x and along y.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import cos, radians, tan

from core.document.model import Project, Saw, Sheet
from core.findings.guide_told import Stretch, Told, findings_of
from core.plan.model import Finding, Side
from core.plan.order import in_order
from core.plan.shapes import Shape
from core.plan.sheets import REMEMBERED, SheetCut
from core.sawing.bench import SawnCut
from core.sawing.guide import guide_side
from core.sawing.piece import TOUCH
from core.sawing.support import NARROW, OVERHANG, RUN, SAME, carries

Box = tuple[
    float, float, float, float, float, float, float, float
]  # x low, y low, x high, y high; show and inside of each


def guide_findings(project: Project, shapes: Sequence[Shape], sheets: Sequence[SheetCut]) -> list[Finding]:
    """Everything to say about guide and fence, one finding for each thing, with the worst number. sheets: as cut up.

    Each sheet is followed by itself and remembered, for under a dragging hand most are as they were. Only where the
    sheet's own pieces do not pack the guide out are all sheets followed at once: those of another may.
    """
    if not shapes or not any(sheet.cuts for sheet in sheets):
        return []
    alone = [_told_of(project.saw, sheet) for sheet in sheets]
    if any(told.bare.passes for told in alone):
        told = _follow_all(project.saw, sheets)
    else:
        told = Told(*(_sum([getattr(one, name) for one in alone]) for name in Told.__struct_fields__))
    return findings_of(project, told)


@lru_cache(maxsize=REMEMBERED)
def _told_of(saw: Saw, sheet: SheetCut) -> Told:
    """What the passes of one sheet have to say, with its own pieces as packers. Not to be changed."""
    return _follow(saw, [sheet], sheet.cuts)


def _follow_all(saw: Saw, sheets: Sequence[SheetCut]) -> Told:
    return _follow(saw, sheets, [cut for _, cut in in_order(sheets)])


def _follow(saw: Saw, sheets: Sequence[SheetCut], cuts: Iterable[SawnCut]) -> Told:
    told = Told(Stretch(), Stretch(sense=-1.0), Stretch(sense=-1.0), Stretch(), Stretch(), Stretch(sense=-1.0))
    follow = _Follow(saw, {sheet.name: sheet.stock for sheet in sheets})
    tell = follow.fenced if saw.kind == "table" else follow.guided
    for some in _passes(cuts):
        tell(some, told)
    return told


def _sum(some: Sequence[Stretch]) -> Stretch:
    """Stretches of several sheets as one."""
    told = [one for one in some if one.passes]
    if not told:
        return Stretch()
    worst = max(told, key=lambda one: one.worst * one.sense)
    return Stretch(
        sum(one.passes for one in told), worst.worst, worst.about, any(one.bevelled for one in told), worst.sense
    )


def _passes(cuts: Iterable[SawnCut]) -> list[list[SawnCut]]:
    """Cuts of one pass together."""
    found: list[list[SawnCut]] = []
    last: tuple[object, ...] | None = None
    for cut in cuts:
        this = None if cut.key is None else (cut.sheet, *cut.key)
        if this is not None and this == last:
            found[-1].append(cut)
        else:
            found.append([cut])
        last = this
    return found


class _Follow:
    """The boxes of the pieces on the bench while the list is sawn."""

    def __init__(self, saw: Saw, sheets: dict[str, Sheet]) -> None:
        self.saw = saw
        self.thick = {name: sheet.thickness for name, sheet in sheets.items()}
        self.boxes: dict[str, Box] = {
            name: (0.0, 0.0, 0.0, 0.0, s.length, s.length, s.width, s.width) for name, s in sheets.items()
        }
        self.blades: dict[tuple[str, float, Side], tuple[float, float, bool]] = {}
        self.packed: tuple[str, float, float, float] = ("", 0.0, 0.0, 0.0)  # packer, its long and short side, thickness

    def guided(self, some: Sequence[SawnCut], told: Told) -> None:
        """One pass with a guide rail."""
        saw, cut = self.saw, some[0]
        travel = cut.length if len(some) == 1 else sum(c.length for c in some)
        if travel > saw.guide_length - RUN + TOUCH:
            told.short.add(travel, cut)
        box, slab, high = self._saw(some)
        edge = (6 if high else 2) if cut.axis == "y" else (4 if high else 0)
        up = bool(cut.bevel) and saw.face == "down"
        at = slab[2 * high + up]
        carried = box[edge + up] - at if high else at - box[edge + up]
        if cut.bevel:
            carried -= saw.guide_offset
        lack = saw.guide_width - max(0.0, carried)
        if lack > OVERHANG and not self._still_packed(lack, travel, cut) and not self._carried(lack, travel, some):
            told.bare.add(max(0.0, carried), cut)

    def fenced(self, some: Sequence[SawnCut], told: Told) -> None:
        """One pass on a table saw; crosscuts go on a sled."""
        saw, cut = self.saw, some[0]
        box, slab, high = self._saw(some)
        table, low = not (cut.bevel and saw.face == "down"), 2 if cut.axis == "y" else 0
        ends = max(box[low + 4], box[low + 5]), min(box[low], box[low + 1])
        reading = abs(ends[0] - slab[2 + table] if high else slab[table] - ends[1])
        if cut.bevel and high == (cut.keep == "low"):
            told.waste.add(reading, cut)
        if cut.axis != "y":
            return
        if reading > saw.fence_travel + TOUCH:
            told.far.add(reading, cut)
        if reading < NARROW and not (cut.bevel and high == (cut.keep == "low")):
            told.close.add(reading, cut)
        if cut.bevel and saw.lean == "away":
            told.trapped.add(cut.bevel, cut)

    def _blade(self, cut: SawnCut) -> tuple[float, float, bool]:
        """What the blade takes along a face, how far its inside face stands off, and whether the guide is high."""
        key = (cut.sheet, cut.bevel, cut.keep)
        blade = self.blades.get(key)
        if blade is None:
            tilt = radians(cut.bevel)
            setback = self.thick[cut.sheet] * tan(tilt)
            high = guide_side(self.saw, cut.bevel, cut.keep) == "high"
            blade = self.blades[key] = (self.saw.kerf / cos(tilt), -setback if cut.keep == "low" else setback, high)
        return blade

    def _saw(self, some: Sequence[SawnCut]) -> tuple[Box, tuple[float, float, float, float], bool]:
        """Saw a pass: the first piece's box, the blade's low side on show and inside face, its high side, the guide."""
        cut, boxes = some[0], self.boxes
        footprint, setback, guide_high = self._blade(cut)
        a = cut.at if cut.keep == "low" else cut.at - footprint
        b, c, d = a + setback, a + footprint, a + footprint + setback
        first = boxes[cut.piece]
        for one in some:
            x0, x0i, y0, y0i, x1, x1i, y1, y1i = boxes.pop(one.piece)
            low, high = one.makes
            if one.axis == "y":
                if low is not None:
                    boxes[low] = (x0, x0i, y0, y0i, x1, x1i, a if a < y1 else y1, b if b < y1i else y1i)
                if high is not None:
                    boxes[high] = (x0, x0i, c if c > y0 else y0, d if d > y0i else y0i, x1, x1i, y1, y1i)
            else:
                if low is not None:
                    boxes[low] = (x0, x0i, y0, y0i, a if a < x1 else x1, b if b < x1i else x1i, y1, y1i)
                if high is not None:
                    boxes[high] = (c if c > x0 else x0, d if d > x0i else x0i, y0, y0i, x1, x1i, y1, y1i)
        return first, (a, b, c, d), guide_high

    def _still_packed(self, lack: float, travel: float, cut: SawnCut) -> bool:
        """Does what packed the guide out before still lie there, and do for this cut too?"""
        name, long, short, thick = self.packed
        return lack <= short and travel <= long and name in self.boxes and thick == self.thick[cut.sheet]

    def _carried(self, lack: float, travel: float, some: Sequence[SawnCut]) -> bool:
        """Is there wood to pack the guide out with: one piece all along, or one at each end? Whole sheets stay put."""
        mine = {name for cut in some for name in cut.makes if name}
        thick, ends = self.thick[some[0].sheet], 0
        for name, (x0, x0i, y0, y0i, x1, x1i, y1, y1i) in self.boxes.items():
            wide, high = min(x1, x1i) - max(x0, x0i), min(y1, y1i) - max(y0, y0i)
            long, short = (wide, high) if wide >= high else (high, wide)
            how = carries(long, short, lack, travel)
            if not how or name in mine or name in self.thick or abs(self._thick(name) - thick) > SAME:
                continue
            if how == "all":
                self.packed = (name, long, short, thick)
                return True
            ends += 1
            if ends == 2:
                return True
        return False

    def _thick(self, piece: str) -> float:
        return self.thick[piece.rpartition(".")[0]]
