"""Where shelves hang: on the wall or off it, in one place, how much room is clear between them."""

from __future__ import annotations

from typing import Final

import msgspec

from core.document.model import Mount, Project, Shelf
from core.frame.job import coarse_down, coarse_up
from core.language import tr
from core.lengths import INCH_MM, Unit, show_length
from core.plan.model import Finding, Fix, Pointers
from core.plan.shapes import Shape

USUAL_CLEAR: Final = 10.0 * INCH_MM  # between two shelves, for plates: common practice
NOISE: Final = 1e-6  # mm
MOST_TOLD: Final = 50  # pairs of shelves


class Hung(msgspec.Struct, frozen=True):
    """A shelf that hangs, with its number in the project."""

    at: int
    shelf: Shelf
    mount: Mount

    @property
    def low(self) -> float:
        """Height of its underside. [mm]"""
        return self.mount.top - self.shelf.height


class Gap(msgspec.Struct, frozen=True):
    """Clear height between two shelves, one over the other; less than 0 where they lie in one place. [mm]"""

    upper: Hung
    lower: Hung
    clear: float


def hung(project: Project) -> list[Hung]:
    """The shelves that hang, the highest first."""
    found = [Hung(at, shelf, shelf.mount) for at, shelf in enumerate(project.shelves) if shelf.mount is not None]
    return sorted(found, key=lambda one: -one.mount.top)


def gaps(project: Project, within: float) -> list[Gap]:
    """Pairs of shelves, one over the other with less than `within` between them and nothing else there, upper first."""
    shelves: list[Hung] = hung(project)
    found: list[Gap] = []
    for n, upper in enumerate(shelves):
        for lower in shelves[n + 1 :]:
            clear = upper.low - lower.mount.top
            if clear >= within - NOISE or len(found) == MOST_TOLD:
                break
            if _over(upper, lower) and not any(
                g.upper is upper and g.clear >= 0.0 and _over(g.lower, lower) for g in found
            ):
                found.append(Gap(upper, lower, clear))
    return found


def _over(one: Hung, other: Hung) -> bool:
    """Do they share a stretch of the wall's width?"""
    ends = min(one.mount.x + one.shelf.length, other.mount.x + other.shelf.length)
    return ends - max(one.mount.x, other.mount.x) > NOISE


def place_findings(project: Project) -> list[Finding]:
    """`off-wall`, `overlap`, `clear-height`."""
    off = [finding for one in hung(project) for finding in _off_wall(project, one)]
    return [*off, *(_pair(project, gap) for gap in gaps(project, USUAL_CLEAR))]


def _shown(project: Project, mm: float) -> str:
    return show_length(mm, Unit(project.units), marks=False)


def _off_wall(project: Project, one: Hung) -> list[Finding]:
    wall, mount, right = project.wall, one.mount, one.mount.x + one.shelf.length
    if min(mount.x, one.low, wall.width - right, wall.height - mount.top) >= -NOISE:
        return []
    past = {
        "the wall's left end": -mount.x,
        "the wall's right end": right - wall.width,
        "the ceiling": mount.top - wall.height,
        "the floor": -one.low,
    }
    over = {edge: by for edge, by in past.items() if by > NOISE}
    message = tr(
        "The shelf reaches {join}.",
        join=tr(" and ").join(
            (tr("{project} past {edge}", project=_shown(project, by), edge=edge) for edge, by in over.items())
        ),
    )
    fix = _back_on(project, one)
    return [Finding("warning", "off-wall", one.shelf.id, message, (fix,) if fix else (), max(over.values()))]


def _back_on(project: Project, one: Hung) -> Fix | None:
    """The fix that brings the shelf back on to the wall; None where it is larger than the wall."""
    wall, shelf, mount = project.wall, one.shelf, one.mount
    if shelf.length > wall.width or shelf.height > wall.height:
        return None
    x = min(max(mount.x, 0.0), wall.width - shelf.length)
    top = min(max(mount.top, shelf.height), wall.height)
    pointers: Pointers = {}
    if x != mount.x:
        pointers[f"/shelves/{one.at}/mount/x"] = x
    if top != mount.top:
        pointers[f"/shelves/{one.at}/mount/top"] = top
    return Fix(tr("Move it on to the wall"), pointers)


def _pair(project: Project, gap: Gap) -> Finding:
    upper, lower = gap.upper.shelf.id, gap.lower.shelf.id
    if gap.clear >= -NOISE:
        message = tr(
            "Between {upper} and {lower} {project} are clear; plates want {project2}.",
            upper=upper,
            lower=lower,
            project=_shown(project, max(0.0, gap.clear)),
            project2=_shown(project, USUAL_CLEAR),
        )
        return Finding("note", "clear-height", lower, message, _apart(project, gap), gap.clear)
    message = tr(
        "{upper} and {lower} hang in one place: they overlap by {project} in height.",
        upper=upper,
        lower=lower,
        project=_shown(project, -gap.clear),
    )
    return Finding("warning", "overlap", lower, message, _apart(project, gap), -gap.clear)


def _apart(project: Project, gap: Gap) -> tuple[Fix, ...]:
    """The lower shelf lower, the upper one higher, where the wall and the others leave room."""
    return tuple(fix for fix in (_lowered(project, gap), _raised(project, gap)) if fix is not None)


def _lowered(project: Project, gap: Gap) -> Fix | None:
    one = gap.lower
    top = coarse_down(gap.upper.low - USUAL_CLEAR, Unit(project.units))
    if top - one.shelf.height < 0.0 or not _free(project, one, top) or _crowded(project, gap, gap.upper, top):
        return None
    words = tr("Hang {id} lower, its top at {project}", id=one.shelf.id, project=_shown(project, top))
    return Fix(words, {f"/shelves/{one.at}/mount/top": top})


def _raised(project: Project, gap: Gap) -> Fix | None:
    one = gap.upper
    top = coarse_up(gap.lower.mount.top + USUAL_CLEAR + one.shelf.height, Unit(project.units))
    if top > project.wall.height or not _free(project, one, top) or _crowded(project, gap, one, gap.lower.mount.top):
        return None
    words = tr("Hang {id} higher, its top at {project}", id=one.shelf.id, project=_shown(project, top))
    return Fix(words, {f"/shelves/{one.at}/mount/top": top})


def clear_of_others(project: Project, shape: Shape, finding: Finding) -> Finding | None:
    """The finding with those ways out that slide the shelf on to no other one; None where none is left."""
    mount, at = shape.shelf.mount, f"/shelves/{shape.shelf_index}/mount/x"
    assert mount is not None
    fixes = []
    for fix in finding.fixes:
        x = fix.set.get(at)
        moved = Hung(shape.shelf_index, shape.shelf, Mount(x, mount.top)) if isinstance(x, float) else None
        if moved is None or _free(project, moved, mount.top):
            fixes.append(fix)
    return msgspec.structs.replace(finding, fixes=tuple(fixes)) if fixes else None


def lies_free(project: Project, at: int, mount: Mount) -> bool:
    """Would a shelf of the project, hung there, lie where no other does?"""
    return _free(project, Hung(at, project.shelves[at], mount), mount.top)


def _crowded(project: Project, gap: Gap, but: Hung, top: float) -> bool:
    """Would the lower shelf, its top at that height, still have too little clear under another one than `but`?"""
    if gap.clear < -NOISE:
        return False  # that they hang in one place is told apart from how near they are
    lower = gap.lower
    others = (other for other in hung(project) if other.at not in (lower.at, but.at) and _over(lower, other))
    return any(top - NOISE <= other.mount.top and other.low - top < USUAL_CLEAR - NOISE for other in others)


def _free(project: Project, one: Hung, top: float) -> bool:
    """Would a shelf, moved to that height, lie where no other does?"""
    moved = Hung(one.at, one.shelf, Mount(one.mount.x, top))
    others = (other for other in hung(project) if other.at != one.at)
    return not any(_over(moved, other) and moved.low < other.mount.top and other.low < top for other in others)
