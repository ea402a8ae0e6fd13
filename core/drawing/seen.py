"""What is seen of the bench at a step: the whole sheet, the work with its guide, or what a small picture has room for.

There long work is shown in part, its outline broken where it goes on:

    ____________/\\/
    |              \\     the rest of a strip
    |______________/
"""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from core.drawing.flat import united
from core.drawing.guides import KEPT, far_edge, guide_box
from core.drawing.model import Box, Line, Point
from core.drawing.panels import NO_SIZE, rectangle
from core.drawing.shortened import Gap
from core.sawing.piece import Piece
from core.steps.lying import Bench
from core.steps.section import SIGN

WHOLE: Final = 0.42  # of the sheet: work that reaches over more of it is shown with the whole sheet
ROUND: Final = 0.14  # of the work: what is shown round it, where it is not the whole sheet
LITTLE: Final = 40.0  # mm: and so much more
ROUND_CLOSE: Final = 0.03  # the same where the picture is a small one
LITTLE_CLOSE: Final = 16.0
ACROSS_CLOSE: Final = 0.1  # of the width of what is sawn
ASIDE: Final = 0.022  # of the picture: how far aside a piece is drawn that falls
SLENDER: Final = 4.0  # times its width: longer work is shown in part in a small picture
STOUT: Final = 2.2  # times its height: so wide at least is a small picture where wood goes on beyond the cut
WIDE: Final = 1.4  # the same where a piece is crosscut
PACKED: Final = 70.0  # mm: so much of guide and packer is seen beyond the work, where no gauge stick is laid
BEYOND: Final = 0.5  # of what is measured: how much of the wood is seen at least beyond a rip
OFFCUT: Final = 1.6  # of the picture's height: the same beyond a crosscut
LONG: Final = 0.4  # of the picture: so much too long, it has a length out of its middle left out
GAP: Final = 0.12  # of the picture's height: how wide what is left out is drawn
BREAK: Final = 0.35  # along a broken edge: where it goes to and fro
JAG: Final = 0.014  # of the picture: how far a broken edge goes to and fro


@lru_cache(maxsize=KEPT)
def picture_box(bench: Bench) -> Box:
    """The work with its guide, or the whole sheet where the work reaches over much of it. [mm]"""
    sheet = (0.0, 0.0, bench.turn.length, bench.turn.width)
    work = united([bench.turn.box(outer(piece)) for piece in bench.work.before])
    if bench.close:
        return _close_box(bench, work)
    if max(sides(work)) >= WHOLE * max(sides(sheet)):
        return grown(sheet, 1.5 * ASIDE * max(sides(sheet)))
    return grown(_with_guide(bench, work, guide_box(bench)), ROUND * max(sides(work)) + LITTLE)


def _with_guide(bench: Bench, work: Box, guide: Box) -> Box:
    """The work as long as it is, with all of the guide across the cut."""
    if bench.axis == "x":
        return (min(work[0], guide[0]), work[1], max(work[2], guide[2]), work[3])
    return (work[0], min(work[1], guide[1]), work[2], max(work[3], guide[3]))


def _close_box(bench: Bench, work: Box) -> Box:
    """For a small picture: the guide as far as it says something, long work in part."""
    index = 0 if bench.axis == "x" else 1
    guide = list(guide_box(bench))
    if bench.is_guided and bench.step.set_by.stick is None:
        guide[index] = max(guide[index], work[index] - PACKED)
        guide[index + 2] = min(guide[index + 2], work[index + 2] + PACKED)
    elif bench.is_guided:
        end = bench.turn.along(bench.axis, _stick_end(bench))
        guide[index], guide[index + 2] = min(guide[index], end), max(guide[index + 2], end)
    box = _with_guide(bench, work, (guide[0], guide[1], guide[2], guide[3]))
    box = _without_far_side(bench, box, work)
    pads = [ROUND_CLOSE * max(sides(work)) + LITTLE_CLOSE] * 2
    pads[1] = min(pads[1], ACROSS_CLOSE * (box[3] - box[1]) + LITTLE_CLOSE)
    box = (box[0] - pads[0], box[1] - pads[1], box[2] + pads[0], box[3] + pads[1])
    if box[2] - box[0] <= SLENDER * (box[3] - box[1]):
        return box
    return _rip_in_part(bench, box) if bench.axis == "y" else _crosscut_in_part(bench, box, guide)


def _without_far_side(bench: Bench, box: Box, work: Box) -> Box:
    """Of a rip's wood beyond the cut no more than makes the picture half as high as it is wide; of a wide piece that is
    crosscut its lower edge."""
    if bench.axis == "x":
        high = (box[2] - box[0]) / WIDE if len(bench.work.before) == 1 else box[3] - box[1]
        return (box[0], box[1], box[2], min(box[3], box[1] + high))
    cut, wide = bench.turn.along("y", bench.step.at), work[2] - work[0]
    if bench.turn.side("y", bench.step.guide) == "low":
        used = cut - box[1]
        return (box[0], box[1], box[2], min(box[3], cut + max(wide / STOUT - used, BEYOND * used)))
    used = box[3] - cut
    return (box[0], max(box[1], cut - max(wide / STOUT - used, BEYOND * used)), box[2], box[3])


def _rip_in_part(bench: Bench, box: Box) -> Box:
    """The left end of a long rip, or its middle where the fence is shorter; all of it where its guide is packed out at
    either end."""
    packer = bench.step.packer
    if packer is not None and len(packer.pieces) > 1:
        return box
    wide, guide = SLENDER * (box[3] - box[1]), guide_box(bench)
    left = box[0] if guide[0] <= box[0] + NO_SIZE else max(box[0], min((guide[0] + guide[2] - wide) / 2.0, guide[0]))
    return (left, box[1], min(left + wide, box[2]), box[3])


def _crosscut_in_part(bench: Bench, box: Box, guide: list[float]) -> Box:
    """From what a crosscut is measured from to a little beyond the cut."""
    step = bench.step
    cut = bench.turn.along("x", step.at)
    start = bench.turn.along("x", _measured_from(bench))
    low, high = min(cut, start, guide[0]), max(cut, start, guide[2])
    beyond = max(OFFCUT * (box[3] - box[1]), SLENDER * (box[3] - box[1]) - (high - low))
    if bench.turn.side("x", step.keep) == "low":
        low, high = low - (box[3] - box[1]) / 4.0, high + beyond
    else:
        low, high = low - beyond, high + (box[3] - box[1]) / 4.0
    return (max(box[0], low), box[1], min(box[2], high), box[3])


def gap_of(bench: Bench, box: Box) -> Gap | None:
    """What of long work is left out of a small picture, between where it is measured from and its guide or cut."""
    wide, high = sides(box)
    over = wide - SLENDER * high
    packer, step = bench.step.packer, bench.step
    if not bench.close or over <= LONG * wide:
        return None
    if bench.axis == "y":
        if packer is None or len(packer.pieces) < 2:
            return None
        low, far = box[0] + 0.4 * wide, box[2] - 0.4 * wide
    else:
        guide, stick = guide_box(bench), step.set_by.stick
        ends = [_measured_from(bench), step.at, *([_stick_end(bench)] if stick is not None else [])]
        places = [bench.turn.along("x", end) for end in ends]
        low, far = min(places), max(places)
        if bench.is_guided and bench.turn.side("x", step.guide) == "low":
            far = min(far, guide[0])
        elif bench.is_guided:
            low = max(low, guide[2])
        low, far = low + high, far - high
    if far - low <= 0.2 * wide:
        return None
    out, middle = min(far - low, over + GAP * high), (low + far) / 2.0
    return Gap(middle - out / 2.0, middle + out / 2.0, GAP * high)


def _measured_from(bench: Bench) -> float:
    """Where the number of a step runs from, on the sheet. [mm]"""
    by, step = bench.step.set_by, bench.step
    if by.device != "mark" and not by.on_line:
        return far_edge(bench)
    return step.at + (SIGN[by.side] * by.toe if by.back is None else SIGN[step.keep] * by.back)


def _stick_end(bench: Bench) -> float:
    """The outer edge a gauge stick reaches to from the guide's back, on the sheet. [mm]"""
    step, way = bench.step, SIGN[bench.step.guide]
    return step.at + way * ((step.set_by.edge or 0.0) + bench.guide_width + (step.set_by.stick or 0.0))


def broken(box: Box, shown: Box) -> tuple[Point, ...]:
    """The outline of what is seen of a box, lower left corner first: broken on each side where it goes on."""
    seen = seen_of(box, shown)
    corners = rectangle(seen)
    outline: list[Point] = []
    for n, (limit, side) in enumerate(((1, box[1]), (2, box[2]), (3, box[3]), (0, box[0]))):
        start, end = corners[n], corners[(n + 1) % 4]
        outline.append(start)
        if abs(seen[limit] - side) > NO_SIZE:
            outline += _jags(start, end, JAG * max(sides(shown)))
    return tuple(outline)


def _jags(start: Point, end: Point, jag: float) -> tuple[Point, ...]:
    """A break in an edge, to its inner side and back: the outline runs counter-clockwise."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    long = (dx * dx + dy * dy) ** 0.5
    jag = min(jag, long / 6.0)
    if jag <= NO_SIZE:
        return ()
    u, v = (dx / long, dy / long), (-dy / long, dx / long)
    middle = (start[0] + BREAK * dx, start[1] + BREAK * dy)

    def at(along: float, inward: float) -> Point:
        return (middle[0] + jag * (along * u[0] + inward * v[0]), middle[1] + jag * (along * u[1] + inward * v[1]))

    return at(-1.5, 0.0), at(-0.5, 1.6), at(0.5, 0.0), at(1.0, 0.8), at(1.5, 0.0)


def seen_of(box: Box, shown: Box) -> Box:
    """What is seen of a box in a picture that does not show the whole sheet."""
    x0, y0, x1, y1 = box
    return (
        min(max(x0, shown[0]), shown[2]),
        min(max(y0, shown[1]), shown[3]),
        max(min(x1, shown[2]), shown[0]),
        max(min(y1, shown[3]), shown[1]),
    )


def line_in(line: Line, shown: Box) -> Line:
    """A level or upright line as far as it is seen."""
    (x0, y0), (x1, y1) = line.points
    a0, b0, a1, b1 = seen_of((x0, y0, x1, y1), shown)
    return Line(line.layer, ((a0, b0), (a1, b1)), line.about)


def under_guide(box: Box, bench: Bench, shown: Box) -> Line | None:
    """The outline of what the guide rail hides of a box; None where it hides nothing."""
    a, b = seen_of(box, shown), seen_of(guide_box(bench), shown)
    x0, y0, x1, y1 = max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3])
    if not bench.is_guided or x1 - x0 <= NO_SIZE or y1 - y0 <= NO_SIZE:
        return None
    return Line("under", ((x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)))


def outer(piece: Piece) -> Box:
    """What a piece takes on either face."""
    boxes = [box for box in (piece.show_box(), piece.inside_box()) if is_box(box)]
    return united(boxes) if boxes else piece.show_box()


def is_box(box: Box) -> bool:
    """Is there anything of it?"""
    return box[2] - box[0] > NO_SIZE and box[3] - box[1] > NO_SIZE


def sides(box: Box) -> tuple[float, float]:
    """Its width and height."""
    return box[2] - box[0], box[3] - box[1]


def grown(box: Box, pad: float) -> Box:
    """A box larger on every side."""
    return (box[0] - pad, box[1] - pad, box[2] + pad, box[3] + pad)
