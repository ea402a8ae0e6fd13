"""Two shelves in the place of one too long, butted where a stud carries both."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count

import msgspec

from core.document.model import Mount, Project, Shelf
from core.document.shape import plain
from core.findings.apart import without_ends
from core.findings.words import length
from core.frame.studs import stud_lines
from core.language import tr
from core.plan.model import Fix, Pointers
from core.plan.shapes import Shape

LEAST_PART = 0.25  # of the length: a shorter piece looks like a mistake
MOST_JOINTS = 3  # studs tried, the one nearest to the middle first


def two_shelves(project: Project, shape: Shape) -> Iterator[Fix]:
    """The shelf in two parts with open ends that meet on a stud's centre line; none where it does not hang."""
    shelf, mount = shape.shelf, shape.shelf.mount
    if mount is None:
        return
    least = LEAST_PART * shelf.length
    studs = stud_lines(project.wall, mount.x + least, mount.x + shelf.length - least)
    middle = mount.x + shelf.length / 2.0
    for stud in sorted(studs, key=lambda s: (abs(s - middle), s))[:MOST_JOINTS]:
        yield _joined(project, shape.index, shelf, mount, stud)


def _joined(project: Project, index: int, shelf: Shelf, mount: Mount, stud: float) -> Fix:
    left = stud - mount.x
    rest = msgspec.structs.replace(
        shelf,
        id=_free_id(project, shelf.id),
        length=shelf.length - left,
        left="open",
        apart=tuple(role for role in shelf.apart if role != "left"),
        at=None,
        mount=Mount(stud, mount.top),
    )
    pointers: Pointers = {
        f"/shelves/{index}/length": left,
        f"/shelves/{index}/right": "open",
        f"/shelves/{index}/at": None,
        **without_ends(index, shelf, ("right",)),
        "/shelves/-": plain(rest),
    }
    sizes = tr("{project} and {project2}", project=length(project, left), project2=length(project, rest.length))
    return Fix(tr("Two shelves, {sizes}, with a joint on a stud", sizes=sizes), pointers)


def _free_id(project: Project, wanted: str) -> str:
    taken = {shelf.id for shelf in project.shelves}
    return next(name for n in count(2) if (name := f"{wanted} {n}") not in taken)
