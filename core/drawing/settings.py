"""The numbers a step is set by, drawn where they are measured: toe, fence's reading, gauge stick."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.drawing.guides import far_edge, travel
from core.drawing.model import Align, Box, Item, Line, Point, Sign, Text
from core.drawing.shortened import Gap
from core.language import tr
from core.lengths import Unit, show_length
from core.plan.model import Plan
from core.sawing.piece import Axis
from core.steps.lying import Bench
from core.steps.section import SIGN, section
from core.steps.words import number_in_words

SHARES: Final = (0.17, 0.80)  # along the cut: where the setting and the stick are drawn
SHORT: Final = 0.05  # of the picture: a shorter line has its number beyond its end
SHORT_LEVEL: Final = 0.18  # the same of a gauge stick at a crosscut, whose number stands over it
EDGE: Final = 0.3  # of the picture: nearer its edge a number has no room to stand beyond its line
ABOVE: Final = 0.075  # of the picture: so much over a short upright line is room for its number
NARROW: Final = 1.7  # times its height: a narrower picture has room for a number only beside its line
PLACE: Final = 0.24  # along its line: where a number stands that is read along it
LEADER: Final = 0.6  # of the way to a number beyond its line's end
TICK_ACROSS: Final = ((-5.0, 0.0), (5.0, 0.0))  # points
TICK_ALONG: Final = ((0.0, -5.0), (0.0, 5.0))
SLANT: Final = ((-3.0, -3.0), (3.0, 3.0))
OUTSIDE: Final = 0.08  # of the picture
LEAST: Final = 0.3  # mm: a shorter length is no dimension


def setting_items(plan: Plan, bench: Bench, box: Box, gap: Gap | None) -> Iterator[Item]:
    """The setting, and the gauge stick where there is one. gap: what of long wood is left out of the picture."""
    unit, by, step = Unit(plan.project.units), bench.step.set_by, bench.step
    number, _ = number_in_words(plan, step)
    if by.device != "mark" and not by.on_line:
        cut = section(plan.project.saw, bench.work.thickness, step.at, step.bevel, step.keep)
        yield from _dimension(bench, box, gap, SHARES[0], far_edge(bench), cut.at_table, number)
    else:
        start = step.at + (SIGN[by.side] * by.toe if by.back is None else SIGN[step.keep] * by.back)
        yield from _dimension(bench, box, gap, SHARES[0], start, step.at, number)
    if by.stick is not None and bench.is_guided:
        back = step.at + SIGN[step.guide] * ((by.edge or 0.0) + plan.project.saw.guide_width)
        words = tr("stick {stick}", stick=show_length(by.printed_stick or 0.0, unit))
        yield from _dimension(
            bench, box, gap, SHARES[1], back, back + SIGN[step.guide] * by.stick, words, on_guide=True
        )


def _dimension(
    bench: Bench,
    box: Box,
    gap: Gap | None,
    share: float,
    start: float,
    end: float,
    words: str,
    *,
    on_guide: bool = False,
) -> Iterator[Item]:
    """A line across the cut with its number beside it, a share along what is seen of the cut.

    on_guide: the number of a short one stands on the guide, where the line begins.
    """
    if abs(end - start) <= LEAST:
        return
    first, last = travel(bench)
    turn, upright = bench.turn, bench.axis == "y"
    along: Axis = "x" if upright else "y"
    low, high = sorted((turn.along(along, first), turn.along(along, last)))
    low, high = (max(low, box[0]), min(high, box[2])) if upright else (max(low, box[1]), min(high, box[3]))
    at = low + share * (high - low)
    a, b = turn.along(bench.axis, start), turn.along(bench.axis, end)
    room = _room(box)
    first_seen, last_seen = (min(max(end, room[upright]), room[2 + upright]) for end in (a, b))
    ends = ((at, first_seen), (at, last_seen)) if upright else ((first_seen, at), (last_seen, at))
    yield Line("setting", ends)
    for place, whole in zip(ends, (first_seen == a, last_seen == b), strict=True):
        if not whole:
            continue  # it goes on outside the picture
        yield Sign("setting", place, (TICK_ACROSS if upright else TICK_ALONG, SLANT))
    number = _number(box, gap, upright, ends, words, on_guide=on_guide)
    if upright and number.align == "middle":  # beyond the line's end: a leader to it
        yield Sign("setting", number.at, (((0.0, 0.0), (0.0, number.shift[1] * LEADER)),))
    yield number


def _number(box: Box, gap: Gap | None, upright: bool, ends: tuple[Point, Point], words: str, *, on_guide: bool) -> Text:
    """Beside its line; beyond the line's second end where that is too short to write beside it."""
    (x0, y0), (x1, y1) = ends
    size = max(box[2] - box[0], box[3] - box[1])
    short = abs(x1 - x0) + abs(y1 - y0) < SHORT * size
    align: Align
    number = words.removeprefix(tr("stick {stick}", stick=""))
    if on_guide and (short or (not upright and abs(x1 - x0) < SHORT_LEVEL * size)):
        back = -1.0 if x1 + y1 > x0 + y0 else 1.0
        shift = (0.0, 11.0 * back) if upright else (6.0 * back, 0.0)
        align = "middle" if upright else "left" if back > 0.0 else "right"
        return Text("setting", (x0, y0), words, 11.0, align, shift=shift, room=_room(box), clear=True)
    if short:
        way = 1.0 if x1 + y1 > x0 + y0 else -1.0
        beyond = box[2] - x1 if way > 0.0 else x1 - box[0]
        tall = box[2] - box[0] < NARROW * (box[3] - box[1])
        if upright and (tall or (box[3] - y1 if way > 0.0 else y1 - box[1]) < ABOVE * size):  # no room over it: beside
            far = x0 > (box[0] + box[2]) / 2.0
            side: Align = "right" if far else "left"
            return Text(
                "setting", (x0, (y0 + y1) / 2.0), words, 11.0, side, shift=(-7.0 if far else 7.0, 0.0), clear=True
            )
        if not upright and beyond < EDGE * size:  # no room beyond its end: above it
            return Text("setting", ((x0 + x1) / 2.0, y0), words, 11.0, "middle", shift=(0.0, 13.0), clear=True)
        shift = (0.0, 13.0 * way) if upright else (6.0 * way, 0.0)
        align = "middle" if upright else "left" if way > 0.0 else "right"
        return Text("setting", (x1, y1), words, 11.0, align, shift=shift, room=_room(box), clear=True)
    if upright:
        left = x0 > (box[0] + box[2]) / 2.0  # towards the middle of the picture
        place = (x0, (y0 + y1) / 2.0)
        shift, align = ((-5.0, 0.0), "right") if left else ((5.0, 0.0), "left")
        slide = 1.0 if on_guide else 0.0  # rather a little aside than left out, but in the picture
        room = _room(box)
        if on_guide:
            room = (room[0], box[1], room[2], box[3])
        return Text("setting", place, words, 11.0, align, shift=shift, room=room, short=number, clear=True, slide=slide)
    at = (_along(gap, x0, x1), y0)
    return Text(
        "setting", at, words, 11.0, "middle", shift=(0.0, 8.0), room=_room(box), short=number, clear=True, slide=0.5
    )


def _along(gap: Gap | None, start: float, end: float) -> float:
    """Where the number stands on a level line: near its start, clear of a break in the wood."""
    if gap is None or not min(start, end) < gap.start < gap.end < max(start, end):
        return start + PLACE * (end - start)
    near, far = (gap.start, gap.end) if start < end else (gap.end, gap.start)
    first, last = abs(near - start), abs(end - far)
    return (start + near) / 2.0 if first >= last / 2.0 else (far + end) / 2.0


def _room(box: Box) -> Box:
    """Where a number may stand: a little outside the picture too, less of it beside, where words stand."""
    pad = OUTSIDE * max(box[2] - box[0], box[3] - box[1])
    return (box[0] - pad / 2.0, box[1] - pad, box[2] + pad / 2.0, box[3] + pad)
