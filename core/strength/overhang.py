"""An end that reaches far past the last stud, and the slide that would bring it nearer."""

from __future__ import annotations

from typing import Final

from core.document.model import Project, Shelf
from core.frame.job import between
from core.frame.studs import OVERHANG, frame_left, reachable_room, usual_overhang
from core.language import tr
from core.lengths import Unit, show_length
from core.plan.model import Finding, Fix, Frame

SLACK: Final = 0.05  # mm


def overhang_findings(project: Project, shelf: Shelf, thickness: float, frame: Frame) -> tuple[Finding, ...]:
    """`overhang`: an end reaches too far past the last stud.

    A warning past 16 in, and where a slide on the same studs would mend it; else a note: no place along these studs
    is better, and the estimate counts what hangs over. thickness: of the shell's sheet. [mm]
    """
    assert shelf.mount is not None
    x, unit = shelf.mount.x, Unit(project.units)
    left, right = frame.studs[0] - x, x + shelf.length - frame.studs[-1]
    allowed = usual_overhang(shelf.length)
    beyond = max(left, right)
    if beyond <= allowed + SLACK:
        return ()
    better = _better_place(project, shelf, thickness, frame, allowed)
    message = tr(
        "The {rest} end reaches {beyond} past the last stud; at most {allowed} is usual: ",
        rest="left" if left >= right else "right",
        beyond=show_length(beyond, unit, marks=False),
        allowed=show_length(allowed, unit, marks=False),
    )
    message += tr("move it, shorten it, or add blocking in the wall.")
    fixes: tuple[Fix, ...] = ()
    if better is not None:
        side, moved = "right" if better > x else "left", show_length(abs(better - x), unit, marks=False)
        at = next(n for n, other in enumerate(project.shelves) if other.id == shelf.id)
        fixes = (Fix(tr("Move it {moved} to the {side}", moved=moved, side=side), {f"/shelves/{at}/mount/x": better}),)
    told = beyond > OVERHANG + SLACK or fixes
    return (Finding("warning" if told else "note", "overhang", shelf.id, message, fixes, beyond - allowed),)


def _better_place(project: Project, shelf: Shelf, thickness: float, frame: Frame, allowed: float) -> float | None:
    """The nearest mount.x at which both ends are near enough to the same studs; None where there is none."""
    assert shelf.mount is not None
    wish, (first, last) = project.frame, (frame.studs[0], frame.studs[-1])
    start = frame_left(shelf, shelf.mount, thickness, wish.side_play) - shelf.mount.x
    low, high = reachable_room(frame.length, frame.thickness, wish, project.screw)
    least = max(0.0, last - start - high, first - allowed)
    most = min(project.wall.width - shelf.length, first - start - low, last + allowed - shelf.length)
    return between(least, most, shelf.mount.x, Unit(project.units)) if least <= most else None
