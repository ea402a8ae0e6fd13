"""Ways out for a shelf that finds no room, in the order a maker would weigh them, each with its number.

`ways_out` only proposes: `core.plan.fixes` plans each with the change made and offers those that help. The order is
common practice: slide or unpin; open an end that meets a wall; ends from another strip; the next size that fits; a
larger sheet; one more sheet; a strip cut apart at the seam that is not seen; ends from offcuts; two shelves with a
joint on a stud; and what spoils the look more comes last.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from core.document.model import Project, Shelf
from core.findings.apart import ends_apart, strip_apart, ways_for_panel
from core.findings.joint import two_shelves
from core.findings.larger_sheet import larger_sheets
from core.findings.room import one_more
from core.findings.slid import slid
from core.findings.way import Way
from core.findings.words import limit
from core.language import tr
from core.layout.allowed import named
from core.layout.model import FIT, Misfit
from core.plan.model import Pointers
from core.plan.shapes import Shape
from core.wall.eye import seen_from_above

NEAR_WALL = 25.0  # mm: an end this near to a side wall is not seen


def ways_out(project: Project, shapes: Sequence[Shape], misfit: Misfit, before: int = 0) -> Iterator[Way]:
    """Changes that may give a shelf its room, the likeliest choice first. None is tried yet.

    shapes: of all shelves, in the project's order.
    before: how many other misfits come first and would take a sheet more.
    """
    shape = shapes[misfit.index]
    if shape.role is not None:
        yield from ways_for_panel(shape, misfit)
        yield from (Way(fix.text, fix.set) for fix in larger_sheets(project, misfit))
        yield from _other_sheets(project, shape, before)
        return
    long = misfit.over_x > FIT
    yield from _loosened(project, shapes, misfit)
    yield from _ends_at_wall(project, shape)
    strips = _strips(project, shape)
    yield from strips[:1]
    if long and shape.shelf.mount is None:
        yield from _ends(project, shape)
    yield from _sizes(project, shape, misfit)
    yield from (Way(fix.text, fix.set) for fix in larger_sheets(project, misfit))
    yield from _other_sheets(project, shape, before)
    if misfit.over_y > FIT:
        yield from strip_apart(project, shape)
    if long:
        yield from ends_apart(project, shape)
        yield from (Way(fix.text, fix.set, once="joint") for fix in two_shelves(project, shape))
    yield from strips[1:]
    if long and shape.shelf.mount is not None:
        yield from _ends(project, shape)


def _loosened(project: Project, shapes: Sequence[Shape], misfit: Misfit) -> Iterator[Way]:
    """Slide the net, or let it or what is in its way lie where there is room."""
    if misfit.reason.startswith("pin"):
        fix = slid(project, shapes, misfit.index, misfit.stock)
        if fix is not None:
            yield Way(fix.text, fix.set)
        yield Way(tr("Let it lie where there is room"), {f"/shelves/{misfit.index}/at": None})
    pinned = [i for i, shelf in enumerate(project.shelves) if shelf.at is not None and i != misfit.index]
    if misfit.other in pinned:
        text = tr("Let {id} lie where there is room", id=project.shelves[misfit.other].id)
        yield Way(text, {f"/shelves/{misfit.other}/at": None})
    elif pinned:
        yield Way(tr("Let all lie where there is room"), {f"/shelves/{i}/at": None for i in (*pinned, misfit.index)})


def _gain(shape: Shape) -> float:
    """How much shorter the net is with one mitred end less. [mm]"""
    shelf = shape.shelf
    reach = shelf.depth + shelf.scribe if shelf.ends_from == "front" else shelf.height
    return reach + shape.section.loss


def _ends_at_wall(project: Project, shape: Shape) -> Iterator[Way]:
    shelf, mount = shape.shelf, shape.shelf.mount
    if mount is None:
        return
    meets = {"left": mount.x <= NEAR_WALL, "right": mount.x + shelf.length >= project.wall.width - NEAR_WALL}
    met = [side for side, near in meets.items() if near and side in _in_net(shelf)]
    gain = limit(project, _gain(shape))
    for side in met:
        text = tr("Leave the {side} end, at the wall, open: {gain} shorter", side=side, gain=gain)
        yield _opened(shape, (side,), text)
    if len(met) == 2:
        yield _opened(
            shape,
            met,
            tr("Leave both ends, at the walls, open: {limit} shorter", limit=limit(project, 2 * _gain(shape))),
        )


def _ends(project: Project, shape: Shape) -> Iterator[Way]:
    """Leave ends open that may be seen. Where nobody knows the wall, one end stands for the other."""
    shelf = shape.shelf
    mitred = _in_net(shelf)
    for side in mitred if shelf.mount is not None else mitred[:1]:
        yield _opened(
            shape,
            (side,),
            tr("Leave the {side} end open: {limit} shorter", side=side, limit=limit(project, _gain(shape))),
        )
    if len(mitred) == 2:
        yield _opened(
            shape, mitred, tr("Leave both ends open: {limit} shorter", limit=limit(project, 2 * _gain(shape)))
        )


def _in_net(shelf: Shelf) -> list[str]:
    """The mitred ends that are not cut apart: without them the net is shorter."""
    return [side for side in ("left", "right") if getattr(shelf, side) == "mitred" and side not in shelf.apart]


def _opened(shape: Shape, sides: Sequence[str], text: str) -> Way:
    pointers: Pointers = {f"/shelves/{shape.index}/{side}": "open" for side in sides}
    which = tr("Both ends") if len(sides) == 2 else tr("{sides} end", sides=sides[0].capitalize())
    return Way(text, pointers, "length", which + tr(" open and {} long"))


def _strips(project: Project, shape: Shape) -> list[Way]:
    """Ends cut from the top or bottom strip; first the one that is seen, since its seams with the ends then wrap."""
    shelf, n = shape.shelf, len(_in_net(shape.shelf))
    if shelf.ends_from != "front" or not n or shelf.height >= shelf.depth + shelf.scribe:
        return []
    gain = limit(project, n * (shelf.depth + shelf.scribe - shelf.height))
    strips = ("top", "bottom") if seen_from_above(shelf) else ("bottom", "top")
    return [
        Way(
            tr("Ends from the {strip}: {gain} shorter", strip=strip, gain=gain),
            {f"/shelves/{shape.index}/ends_from": strip},
            "length",
            tr("Ends from the {strip} and {{}} long", strip=strip),
        )
        for strip in strips
    ]


def _sizes(project: Project, shape: Shape, misfit: Misfit) -> Iterator[Way]:
    """The next length, depth and height that fit, as far as they are what is too large."""
    if misfit.over_x > FIT:
        yield Way("", {}, "length", tr("Length {}"))
    if misfit.over_y > FIT or (misfit.over_x > FIT and shape.shelf.mitred_ends):
        yield Way("", {}, "depth", tr("Depth {}"))
        yield Way("", {}, "height", tr("Height {}"))
    if misfit.over_y > FIT and len({s.depth for s in project.shelves}) == 1 and len(project.shelves) > 1:
        yield Way("", {}, "depth", tr("All {} deep"), together=True)


def _other_sheets(project: Project, shape: Shape, before: int) -> Iterator[Way]:
    shelf = shape.shelf
    for number, stock in enumerate(project.sheets):
        if named(shelf, stock):
            fix = one_more(number, stock)
            yield Way(fix.text, fix.set)
            if before:
                many = stock.quantity + before + 1
                yield Way(
                    tr("{before} more of sheet {id}", before=before + 1, id=stock.id),
                    {f"/sheets/{number}/quantity": many},
                )
        elif stock.use == "frame" and shelf.sheet in (None, stock.id):
            yield Way(tr("Use sheet {id} for shells too", id=stock.id), {f"/sheets/{number}/use": "any"})
    if shelf.sheet is not None:
        yield Way(tr("From any sheet"), {f"/shelves/{shape.shelf_index}/sheet": None})
