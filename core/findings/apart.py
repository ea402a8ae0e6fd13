"""Panels cut apart as ways out: a strip from a second board, ends from offcuts; and ways out for such a panel.

What is cut apart has its colour matched at best, its figure is broken at the seams. So a strip goes apart at the seam
the eye does not see: a shelf below the eyes keeps top to front, one above them front to bottom.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from core.document.model import APART, Apart, Project, Shelf
from core.findings.room import one_more
from core.findings.way import Way
from core.findings.words import limit
from core.language import tr
from core.layout.allowed import named
from core.layout.largest import Dimension
from core.layout.model import FIT, Misfit
from core.plan.model import Pointers
from core.plan.shapes import Shape
from core.wall.eye import seen_from_above

BROKEN = tr("colour matched, figure broken")


def set_apart(index: int, roles: Iterable[str]) -> Pointers:
    """The pointers that make these panels, and no others, cut apart."""
    wanted = set(roles)
    ordered: list[str] = [role for role in APART if role in wanted]
    return {f"/shelves/{index}/apart": ordered}


def without_ends(index: int, shelf: Shelf, sides: Sequence[str]) -> Pointers:
    """What else changes where these ends become open: an end that is not there cannot be cut apart."""
    return set_apart(index, set(shelf.apart) - set(sides)) if set(sides) & set(shelf.apart) else {}


def strip_apart(project: Project, shape: Shape) -> Iterator[Way]:
    """The bottom, or of a shelf above the eyes the top, where there is room for it; else from one more sheet."""
    shelf = shape.shelf
    strip, seam = ("bottom", tr("top to front")) if seen_from_above(shelf) else ("top", tr("front to bottom"))
    if strip in shelf.apart or (strip == shelf.ends_from and shelf.mitred_ends):
        return
    gain = limit(project, shelf.depth + shelf.scribe + shape.section.loss)
    pointers = set_apart(shape.index, (*shelf.apart, strip))
    tail = tr("{gain} narrower, only {seam} keeps its figure", gain=gain, seam=seam)
    yield Way(tr("{strip} cut apart: {tail}", strip=strip.capitalize(), tail=tail), pointers, once="strip apart")
    for number, stock in enumerate(project.sheets):
        if named(shelf, stock):
            more = one_more(number, stock)
            text = tr(
                "{strip} from a second board, {text}{text2}: {tail}",
                strip=strip.capitalize(),
                text=more.text[0].lower(),
                text2=more.text[1:],
                tail=tail,
            )
            yield Way(text, {**pointers, **more.set}, once="strip apart")


def ends_apart(project: Project, shape: Shape) -> Iterator[Way]:
    """The end that is seen less, else both, from offcuts."""
    shelf = shape.shelf
    ends = [end for end in _seen_less_first(project, shelf) if end not in shelf.apart]
    reach = shelf.depth + shelf.scribe if shelf.ends_from == "front" else shelf.height
    gain = reach + shape.section.loss
    if ends:
        text = tr(
            "{ends} end from an offcut: {limit} shorter, {BROKEN}",
            ends=ends[0].capitalize(),
            limit=limit(project, gain),
            BROKEN=BROKEN,
        )
        yield Way(text, set_apart(shape.index, (*shelf.apart, ends[0])), once="ends apart")
    if len(ends) == 2:
        text = tr("Both ends from offcuts: {limit} shorter, {BROKEN}", limit=limit(project, 2 * gain), BROKEN=BROKEN)
        yield Way(text, set_apart(shape.index, (*shelf.apart, *ends)), once="ends apart")


def _seen_less_first(project: Project, shelf: Shelf) -> list[Apart]:
    """The mitred ends, the one nearer to a side wall first."""
    sides: tuple[Apart, ...] = ("right", "left")
    if shelf.mount is not None and 2 * shelf.mount.x + shelf.length < project.wall.width:
        sides = ("left", "right")
    return [side for side in sides if (shelf.left if side == "left" else shelf.right) == "mitred"]


def ways_for_panel(shape: Shape, misfit: Misfit) -> Iterator[Way]:
    """For a panel cut apart that finds no room: back into the net, or smaller."""
    shelf, role = shape.shelf, shape.role
    rest = [other for other in shelf.apart if other != role]
    yield Way(tr("Cut the {role} with its net", role=role), set_apart(shape.shelf_index, rest))
    strip, front = role in ("top", "bottom"), shelf.ends_from == "front"
    if misfit.over_x > FIT:
        yield _smaller("length" if strip else "depth" if front else "height")
    if misfit.over_y > FIT:
        yield _smaller("height" if front and not strip else "depth")


def _smaller(size: Dimension) -> Way:
    return Way("", {}, size, tr(f"{size.capitalize()} {{}}"))
