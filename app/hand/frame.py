"""The ribs of a frame, put by hand, and the frame slid in its play. No Qt here."""

from __future__ import annotations

from typing import Final

from app.hand.grid import LIGHT, Catch
from app.hand.grip import Handle, Number
from app.rule.reading import LENGTH
from core.document.model import Project
from core.document.ranges import Range
from core.frame.studs import frame_left, reachable_room, shift_of, stud_lines
from core.language import tr
from core.layout.pin import index_of, with_shelf
from core.plan.model import Frame, Plan

SAME: Final = 0.01  # mm: a rib stands where it was put


def frame_shown(plan: Plan, shelf: str) -> Frame | None:
    """The frame of that shelf, else the first there is."""
    frames = plan.frames
    return next((frame for frame in frames if frame.shelf == shelf), frames[0] if frames else None)


def rib_handles(plan: Plan, frame: Frame) -> tuple[Handle, ...]:
    """A handle on each rib between the ends; pulled along it stays where it is put, the others make way."""
    ends = plan.project.frame.end_layers
    inner = range(ends, len(frame.ribs) - ends)
    return tuple(_handle(plan.project, frame, n) for n in inner)


def _handle(project: Project, frame: Frame, n: int) -> Handle:
    at, x = index_of(project, frame.shelf), frame.ribs[n]
    before = tuple(rib for rib in project.shelves[at].ribs if abs(rib - x) > SAME)
    put = sum(rib < x - SAME for rib in before)  # which of those put by hand it is, or would be
    by_itself = len(before) == len(project.shelves[at].ribs)

    def change(value: float) -> Project:
        if by_itself and value == x:
            return project
        return with_shelf(project, at, ribs=tuple(sorted({*before, value})))

    def catches() -> tuple[Catch, ...]:
        middle = (frame.ribs[n - 1] + frame.ribs[n + 1]) / 2.0
        found = [Catch(middle, tr("midway between its neighbours"), LIGHT)]
        return (Catch(x, tr("where it stands by itself")), *found) if by_itself else tuple(found)

    low, high = frame.ribs[0] + frame.thickness, frame.ribs[-1] - frame.thickness
    number = Number("rib", tr("rib at"), LENGTH, x, (1.0, 0.0), 1.0, _within(low, high))
    place = (x + shift_of(project.shelves[at], project.frame.side_play), frame.depth / 2.0)
    key = f"at {x:.4f}" if by_itself else f"put {put}"  # its number may change with ribs that come and go beside it
    return Handle(key, tr("Rib of {shelf}", shelf=frame.shelf), frame.shelf, place, number, change, "", catches)


def slide_handles(plan: Plan, frame: Frame) -> tuple[Handle, ...]:
    """A handle at each end of the frame that slides it in its play; none where it has no play."""
    project, at = plan.project, index_of(plan.project, frame.shelf)
    play, shelf = project.frame.side_play, project.shelves[at]
    if play <= 0.0:
        return ()
    shift, inset = shift_of(shelf, play), project.frame.end_layers * frame.thickness / 2.0
    number = Number("frame_shift", tr("off the middle"), LENGTH, shift, (1.0, 0.0), 1.0, Range(-play, play))

    def change(value: float) -> Project:
        return with_shelf(project, at, frame_shift=value)

    def catches() -> tuple[Catch, ...]:
        return (Catch(0.0, tr("in the middle of its play"), LIGHT), *_stud_catches(plan, frame, shift, play))

    label = tr("Frame of {shelf} in its play", shelf=frame.shelf)
    return tuple(
        Handle(key, label, frame.shelf, (x + shift, frame.depth / 2.0), number, change, "", catches)
        for key, x in (("frame", inset), ("frame right", frame.length - inset))
    )


def _stud_catches(plan: Plan, frame: Frame, shift: float, play: float) -> tuple[Catch, ...]:
    """Where the frame, slid in its play, catches one stud more, or keeps the last: with how many it then has."""
    project, shelf = plan.project, plan.project.shelves[index_of(plan.project, frame.shelf)]
    if shelf.mount is None:
        return ()
    left = frame_left(shelf, shelf.mount, shelf.depth - frame.cavity[1], play) - shift
    low, high = reachable_room(frame.length, frame.thickness, project.frame, project.screw)

    def caught(value: float) -> int:
        return len(stud_lines(project.wall, left + value + low, left + value + high))

    lines = stud_lines(project.wall, left - play, left + frame.length + play)
    found = []
    for value in (edge for x in lines for edge in (x - left - high, x - left - low)):
        count = caught(value)
        if abs(value) <= play and count > min(caught(value - 0.5), caught(value + 0.5)):
            found.append(
                Catch(value, tr("on {count} {rest}", count=count, rest="stud" if count == 1 else "studs"), LIGHT)
            )
    return tuple(found)


def _within(low: float, high: float) -> Range:
    return Range(low, high) if low < high else ANYWHERE


ANYWHERE: Final = Range(0.0, 1e5)


def by_themselves(project: Project, shelf: str) -> Project:
    """The project with no rib of that shelf put by hand."""
    return with_shelf(project, index_of(project, shelf), ribs=())
