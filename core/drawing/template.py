"""Full-size strips to lay on the work: where to drill, where studs are, how long a gauge stick is.

A strip is cut into lengths that fit a page. Each length goes on past its join by a flap; the next is laid on the flap
and the two crosses of the join are brought over each other:

    |  x   stud           x | x |        first length, flap dashed
                        | x | x      x |  second length, laid on the flap
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import ceil, cos, radians, sin
from typing import Final, Literal

import msgspec

from core.drawing.measure import text_width
from core.drawing.model import Align, Area, Drawing, Item, Line, Sign, Text
from core.drawing.panels import rectangle
from core.language import tr

FLAP: Final = 12.0  # mm: how far a length goes on past its join
CAPTION: Final = 5.0  # mm over the strip for what it is called
TICK: Final = 4.0  # mm: half a drilling cross
SIZE: Final = 9.0  # points of words
MARKS: Final = (14.0, 11.5, 9.0)  # points of marks' words: read at arm's length where the strip stays low enough
LOW: Final = 30.0  # mm
POINT: Final = 25.4 / 72.0  # mm
ROW: Final = 1.3  # from one row of marks' words to the next, of their size
AFTER: Final = 45.0  # points: where the name stands after a join's words
CLEAR: Final = 6.0  # mm beside words
JOIN: Final = (((-4.0, -4.0), (4.0, 4.0)), ((-4.0, 4.0), (4.0, -4.0)))  # points
NOISE: Final = 1e-6  # mm
Kind = Literal["line", "cross", "hole", "band", "end"]


class Mark(msgspec.Struct, frozen=True, gc=False):
    """Something on a strip: a line right across it, a drilling cross, a hole round one, a band where nothing may be.

    x, y: place, from the strip's left end and lower edge; size: of a hole across, of a band along the strip. [mm]
    level: which row its words stand in, from the lower edge.
    """

    kind: Kind
    x: float
    words: str = ""
    y: float = 0.0
    size: float = 0.0
    level: int = 0


class Strip(msgspec.Struct, frozen=True):
    """One template at its true size. [mm]"""

    name: str
    length: float
    height: float
    marks: tuple[Mark, ...]
    letters: float = MARKS[0]  # points


def levelled(name: str, length: float, marks: Iterable[Mark], least: float) -> Strip:
    """A strip high enough that the words of its marks, one above the other, never meet. least: its height. [mm]"""
    ordered = sorted(marks, key=lambda mark: mark.x)
    strips = (_levelled(name, length, ordered, least, letters) for letters in MARKS)
    made = next(strips)
    for strip in strips:
        if made.height <= LOW:
            break
        made = strip
    return made


def _levelled(name: str, length: float, marks: list[Mark], least: float, letters: float) -> Strip:
    free: list[float] = []  # for each level, from where on it is
    placed: list[Mark] = []
    for mark in marks:
        if not mark.words:
            placed.append(mark)
            continue
        wide = text_width(mark.words, letters, True) * POINT + CLEAR
        level = next((n for n, x in enumerate(free) if x <= mark.x - wide), len(free))
        free[level:] = [mark.x + wide, *free[level + 1 :]]
        placed.append(msgspec.structs.replace(mark, level=level))
    return Strip(name, length, max(least, len(free) * _row(letters) + 2.0), tuple(placed), letters)


def _row(letters: float) -> float:
    """From one row of marks' words to the next. [mm]"""
    return ROW * letters * POINT


def cut_up(strip: Strip, room: float, step: float = 1.0) -> tuple[Drawing, ...]:
    """The strip in lengths that fit in the room along a page, as drawings to be printed at true size.

    Places in each drawing are along the whole strip. room: mm; step: joins lie at multiples of it. [mm]
    """
    if strip.length <= room:
        return (_length(strip, 1, 1, 0.0, strip.length, strip.length),)
    most = step * int((room - FLAP) / step)
    count = 1 + ceil((strip.length - room) / most - NOISE)  # the last has no flap
    reach = min(step * ceil(strip.length / count / step - NOISE), most)  # all about equally long: words need room
    found = []
    for n in range(count):
        start, last = n * reach, n == count - 1
        end = strip.length if last else (n + 1) * reach
        found.append(_length(strip, n + 1, count, start, end, min(end + FLAP, strip.length)))
    return tuple(found)


def _length(strip: Strip, number: int, count: int, start: float, join: float, end: float) -> Drawing:
    """From start to the join, and on to the end of its flap."""
    high = strip.height
    items: list[Item] = [Area("sheet", rectangle((start, 0.0, join, high)))]
    for mark in strip.marks:
        if start - NOISE <= mark.x <= end + NOISE or mark.kind == "band":
            items += _mark(
                mark, strip, (start, join, end), told=mark.x <= join + NOISE and (number == 1 or mark.x > start + NOISE)
            )
    if end > join + NOISE:
        items.append(Line("heel", ((join, 0.0), (end, 0.0), (end, high), (join, high))))
        items += _join(join, high, tr("join {number}", number=number))
    if number > 1:
        items += _join(start, high, tr("join {number}", number=number - 1), "left")
    part = tr(", length {number} of {count}", number=number, count=count) if count > 1 else ""
    words = f"{strip.name}{part}"
    after = 3.0 if number == 1 else AFTER
    items.append(Text("label", (start, high + CAPTION / 2.0), words, SIZE, shift=(after, 0.0)))
    return Drawing(f"{strip.name} {number}", strip.name, (start, 0.0, end, high + CAPTION), tuple(items))


def _join(x: float, high: float, words: str, align: Align = "middle") -> Iterator[Item]:
    for y in (0.2 * high, 0.8 * high):
        yield Sign("mark", (x, y), JOIN)
    yield Text("note", (x, high + CAPTION / 2.0), words, SIZE, align)


def _mark(mark: Mark, strip: Strip, ends: tuple[float, float, float], *, told: bool) -> Iterator[Item]:
    """ends: of the length: its start, its join, the end of its flap."""
    high, (start, join, end) = strip.height, ends
    if mark.kind == "band":
        low, far = max(start, mark.x - mark.size / 2.0), min(end, mark.x + mark.size / 2.0)
        if far > low:
            yield Area("waste", rectangle((low, 0.0, far, high)))
        return
    if mark.kind == "hole":
        ring = _ring(mark.x, mark.y, mark.size / 2.0)
        yield Area("offcut", tuple((min(max(x, start), end), min(max(y, 0.0), high)) for x, y in ring))
    if mark.kind in ("cross", "hole"):
        reach = min(TICK, 0.45 * high)
        yield Line("now", ((max(mark.x - reach, start), mark.y), (min(mark.x + reach, end), mark.y)))
        yield Line("now", ((mark.x, mark.y - reach), (mark.x, mark.y + reach)))
        yield Line("heel", ((mark.x, 0.0), (mark.x, high)))
    else:
        yield Line("datum" if mark.kind == "end" else "cut", ((mark.x, 0.0), (mark.x, high)))
    if mark.words and told:
        yield _words(mark, strip, start, join, end)


def _words(mark: Mark, strip: Strip, start: float, join: float, end: float) -> Text:
    """Beside the mark, in its row: at its right, or where a line or the join is in the way there, at its left."""
    wide = text_width(mark.words, strip.letters, True) * POINT + CLEAR
    lines = [one.x for one in strip.marks if one.kind != "band" and abs(one.x - mark.x) > NOISE]
    right = mark.x + wide <= join and not any(mark.x < x < mark.x + wide for x in lines)
    left = mark.x - wide >= start and not any(mark.x - wide < x < mark.x for x in lines)
    if not right and not left:  # one of them is in the way: better the one that is further from the length's end
        right = mark.x - start < (end - start) * 0.8
    align: Literal["left", "right"] = "left" if right else "right"
    shift = (5.0 if align == "left" else -5.0, 0.0)
    at = (mark.x, 1.0 + (mark.level + 0.5) * _row(strip.letters))
    return Text(
        "label", at, mark.words, strip.letters, align, shift=shift, room=(start, 0.0, end, strip.height), clear=True
    )


def _ring(x: float, y: float, radius: float) -> tuple[tuple[float, float], ...]:
    return tuple((x + radius * cos(radians(a)), y + radius * sin(radians(a))) for a in range(0, 360, 15))
