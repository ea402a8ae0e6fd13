"""Random projects as makers have them, for laws that must hold for every project.

Sizes are such that most nets find room (laws would be empty otherwise) and some do not; saw, stock and
frame range over everything found in small shops. All values are decimal tenths or 1/32 in, as somebody would type them.
"""

from collections.abc import Sequence
from functools import cache, lru_cache
from math import ceil, cos, floor, pi, radians, sin, tan
from typing import Any

import msgspec
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from core.document import FrameWish, KeepClear, Mount, Project, Saw, Screw, Sheet, Shelf, Studs, Wall
from core.document.model import Apart, End, EndsFrom, Use

INCH_32 = 25.4 / 32


@lru_cache(maxsize=512)  # a new strategy at every draw costs more than all the rest
def lengths(least: float, most: float) -> SearchStrategy[float]:
    """Lengths from `least` to `most` as they are typed: tenths of a millimetre, each third one 1/32 in. [mm]

    Where the two leave room for neither, `least` itself.
    """
    first, last = ceil(least * 10), floor(most * 10)
    if first > last:
        return st.just(least)

    def typed(n: int) -> float:
        inches = n / 10 // INCH_32 * INCH_32
        return inches if n % 3 == 0 and inches >= least else n / 10

    return st.integers(first, last).map(typed)


@cache
def one_of(*values: Any) -> SearchStrategy[Any]:
    """One of these values; to have one of them more often, name it more often."""
    return st.sampled_from(values)


@cache
def whole(least: int, most: int) -> SearchStrategy[int]:
    """Whole numbers, both ends included."""
    return st.integers(least, most)


def once_in(draw: DrawFn, times: int) -> bool:
    """True about once in so many times."""
    return draw(whole(1, times)) == times


@st.composite
def saws(draw: DrawFn) -> Saw:
    """A saw: kerf 0.8 to 5 mm, overcut -1° to 2°."""
    return Saw(
        kind=draw(one_of("guided", "table")),
        lean=draw(one_of("under", "away")),
        kerf=draw(lengths(0.8, 5.0)),
        overcut=draw(one_of(0.0, 0.0, 0.1, 0.2, 0.5, 0.7, 1.0, 2.0, -0.2, -1.0)),
        bevel_sd=draw(one_of(0.0, 0.1, 0.2, 0.5)),
        allowance=draw(one_of(0.0, 0.0, 0.4, 0.8, 1.0, INCH_32 / 2)),
        depth_at_bevel=draw(one_of(40.0, 65.0, 90.0)),
    )


@st.composite
def sheets(draw: DrawFn, name: str, use: Use | None = None) -> Sheet:
    """A kind of sheet, 1220 to 3100 by 600 to 1600 mm, 6 to 40 mm thick."""
    return Sheet(
        id=name,
        length=draw(lengths(1220.0, 3100.0)),
        width=draw(lengths(600.0, 1600.0)),
        thickness=draw(lengths(6.0, 40.0) if once_in(draw, 3) else lengths(12.0, 25.0)),
        veneer=draw(one_of(0.0, 0.4, 0.6)),
        trim=0.0 if once_in(draw, 4) else draw(lengths(0.0, 12.0)),
        quantity=draw(whole(1, 4)),
        use=use or draw(one_of("any", "any", "shell", "frame")),
    )


@st.composite
def shelves(draw: DrawFn, name: str, saw: Saw, stock: Sheet) -> Shelf:
    """A shelf; its net fits the trimmed sheet `stock` except once in a while."""
    bevel = radians(45.0 + saw.overcut)
    loss = saw.kerf / cos(bevel) + saw.allowance
    left, right = draw(one_of("mitred", "mitred", "open")), draw(one_of("mitred", "mitred", "open"))
    ends_from = draw(one_of("front", "top", "bottom"))
    ends = (left == "mitred") + (right == "mitred")
    lowest = 2 * stock.thickness * tan(bevel)
    height = draw(lengths(lowest + 1.0, lowest + 26.0) if once_in(draw, 12) else lengths(lowest + 26.0, lowest + 90.0))
    scribe = draw(lengths(0.0, 12.0)) if once_in(draw, 3) else 0.0
    deepest = (stock.width - 2 * stock.trim - height - 2 * loss) / 2 - scribe
    depth = draw(lengths(90.0, max(91.0, min(300.0, deepest))))
    reach = (depth + scribe if ends_from == "front" else height) + loss
    longest = stock.length - 2 * stock.trim - ends * reach
    too_long = once_in(draw, 20)
    length = draw(lengths(longest + 1.0, longest + 300.0) if too_long else lengths(250.0, max(251.0, longest)))
    net = (length + ends * reach, 2 * (depth + scribe) + height + 2 * loss)
    return Shelf(
        id=name,
        length=length,
        depth=depth,
        height=height,
        left=left,
        right=right,
        ends_from=ends_from,
        scribe=scribe,
        sheet=draw(one_of(None, None, stock.id)),
        at=draw(pins(stock, net)) if once_in(draw, 8) else None,
        mount=draw(mounts()) if draw(one_of(True, False)) else None,
        frame_shift=draw(one_of(0.0, 0.0, 10.0, -25.4)),
        turned=draw(one_of(False, False, True)),
        apart=draw(cut_apart(left, right, ends_from)) if once_in(draw, 4) else (),
    )


@st.composite
def cut_apart(draw: DrawFn, left: End, right: End, ends_from: EndsFrom) -> tuple[Apart, ...]:
    """Panels that such a shelf may have cut apart from its net, in any order."""
    ends: list[Apart] = ["left"] if left == "mitred" else []
    if right == "mitred":
        ends.append("right")
    chosen: list[Apart] = [end for end in ends if draw(one_of(True, False))]
    for strip in ("top", "bottom"):
        if (strip != ends_from or set(chosen) == set(ends)) and draw(one_of(True, False)):
            chosen.append(strip)
    return tuple(draw(st.permutations(chosen)))


@st.composite
def pins(draw: DrawFn, stock: Sheet, net: tuple[float, float]) -> tuple[float, float]:
    """A place for the lower left corner of a net (length, width): a corner of the trimmed sheet or anywhere."""
    spare = (stock.length - 2 * stock.trim - net[0], stock.width - 2 * stock.trim - net[1])
    x, y = (0.0 if draw(one_of(True, False)) else draw(lengths(0.0, max(0.0, s))) for s in spare)
    return (stock.trim + x, stock.trim + y)


@st.composite
def mounts(draw: DrawFn) -> Mount:
    """A place on a wall."""
    return Mount(x=draw(lengths(0.0, 1500.0)), top=draw(lengths(300.0, 2100.0)))


@st.composite
def frames(draw: DrawFn, thicknesses: Sequence[float]) -> FrameWish:
    """How the hidden frames are built: from a stock there is, except once in a while."""
    return FrameWish(
        thickness=draw(lengths(9.0, 25.0) if once_in(draw, 20) else one_of(None, *thicknesses)),
        back_layers=draw(whole(1, 2)),
        front_layers=draw(whole(0, 2)),
        end_layers=draw(whole(1, 3)),
        spacing=draw(lengths(120.0, 500.0)),
        side_play=draw(lengths(0.0, 30.0)),
        front_play=draw(lengths(0.0, 6.0)),
        height_play=draw(lengths(0.0, 3.0)),
    )


STUDS_AS_FOUND = st.lists(lengths(0.0, 3000.0), max_size=8, unique=True).map(lambda places: tuple(sorted(places)))
STUDS = st.one_of(STUDS_AS_FOUND, st.builds(Studs, lengths(0.0, 400.0), one_of(400.0, 406.4, 600.0, 609.6)))


@st.composite
def walls(draw: DrawFn) -> Wall:
    """A wall with studs at even spacing, or as they were found."""
    return Wall(studs=draw(STUDS), stud_width=draw(one_of(38.0, 45.0)), board=draw(one_of(0.0, 9.5, 12.7, 15.9)))


@st.composite
def projects(draw: DrawFn, max_shelves: int = 4, min_shelves: int = 1) -> Project:
    """A valid project of `min_shelves` to `max_shelves` shelves on one to three kinds of sheet."""
    saw = draw(saws())
    stocks = [draw(sheets("A", "any"))]
    stocks += [draw(sheets(name)) for name in draw(one_of("", "", "B", "BC"))]
    hosts = [stock for stock in stocks if stock.use != "frame"]
    count = draw(whole(min_shelves, max_shelves))
    return Project(
        name=draw(one_of("Hallway", "Küche", "north wall")),
        units=draw(one_of("in", "mm")),
        saw=saw,
        sheets=tuple(stocks),
        glue_line=draw(one_of(0.1, 0.15, 0.3)),
        shelves=tuple(draw(shelves(f"s{n}", saw, hosts[draw(whole(0, len(hosts) - 1))])) for n in range(1, count + 1)),
        frame=draw(frames([stock.thickness for stock in stocks if stock.use != "shell"])),
        wall=draw(walls()),
        screw=Screw(per_stud=draw(whole(1, 2)), length=draw(one_of(None, None, 80.0))),
    )


@st.composite
def areas(draw: DrawFn, stock: Sheet) -> KeepClear:
    """An area of a sheet: a strip along or across it, a rectangle, a corner, or a polygon that may be hollow."""
    length, width = stock.length, stock.width
    x, y = draw(lengths(0.0, length)), draw(lengths(0.0, width))
    form = draw(one_of("rectangle", "along", "across", "corner", "star"))
    wide, high = draw(lengths(5.0, 0.3 * length)), draw(lengths(5.0, 0.3 * width))
    if form == "star":
        turns = [2 * pi * n / 7 for n in range(7)]
        rays = [draw(lengths(20.0, 250.0)) for _ in turns]
        corners = tuple((x + r * cos(a), y + r * sin(a)) for r, a in zip(rays, turns, strict=True))
    elif form == "corner":
        end, side = draw(one_of((0.0, 1.0), (length, -1.0))), draw(one_of((0.0, 1.0), (width, -1.0)))
        corners = ((end[0], side[0]), (end[0] + end[1] * wide, side[0]), (end[0], side[0] + side[1] * high))
    else:
        x0, y0, x1, y1 = x, y, x + wide, y + high
        if form == "along":
            x0, x1, y1 = 0.0, length, y + 0.2 * high
        elif form == "across":
            y0, y1, x1 = 0.0, width, x + 0.1 * wide
        corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    kind = draw(one_of("leaf joint", "sapwood", "patch", "bruise"))
    return KeepClear(corners, kind, draw(one_of("net", "faces", "front")))


@st.composite
def projects_with_areas(draw: DrawFn, max_shelves: int = 4) -> Project:
    """A valid project whose sheets have areas to keep clear."""
    project = draw(projects(max_shelves=max_shelves))
    stocks = tuple(
        msgspec.structs.replace(s, keep_clear=tuple(draw(areas(s)) for _ in range(draw(whole(0, 3)))))
        for s in project.sheets
    )
    return msgspec.structs.replace(project, sheets=stocks)
