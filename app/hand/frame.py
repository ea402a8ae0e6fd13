"""The ribs of a frame, put by hand. No Qt here."""

from __future__ import annotations

from typing import Final

from app.hand.grid import LIGHT, Catch
from app.hand.grip import Handle, Number
from app.hand.shelf import index_of, with_shelf
from app.rule.reading import LENGTH
from core.document.model import Project
from core.document.ranges import Range
from core.language import tr
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
    place = (x, frame.depth / 2.0)
    key = f"at {x:.4f}" if by_itself else f"put {put}"  # its number may change with ribs that come and go beside it
    return Handle(key, tr("Rib of {shelf}", shelf=frame.shelf), frame.shelf, place, number, change, "", catches)


def _within(low: float, high: float) -> Range:
    return Range(low, high) if low < high else ANYWHERE


ANYWHERE: Final = Range(0.0, 1e5)


def by_themselves(project: Project, shelf: str) -> Project:
    """The project with no rib of that shelf put by hand."""
    return with_shelf(project, index_of(project, shelf), ribs=())
