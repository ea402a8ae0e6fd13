"""The load estimate of one shelf: its case, its band, what would raise it, and what there is to say."""

from __future__ import annotations

from typing import Final

import msgspec

from core.document.model import Project, Shelf
from core.frame.studs import frame_left
from core.kept import Kept
from core.language import tr
from core.lengths import INCH_MM, Unit, show_mass
from core.plan.model import Finding, Frame, Load
from core.stock.panel import BIRCH_DENSITY, panel_mass
from core.stock.stud import STUD_DEPTH
from core.strength.changes import changes, in_words
from core.strength.estimate import FACTOR, Case, allowed, estimate
from core.strength.overhang import overhang_findings
from core.strength.statics import widest_gap

CAUTION: Final = tr(
    "An estimate, not a rating: local codes, the fastener maker's data and licensed practice "
    "come first. Never to be climbed, sat or hung on. Find wires and pipes before drilling."
)
THREADED: Final = 2.0 / 3.0  # of a screw's length, at least
FOOT: Final = 0.45359237 / 0.3048  # kg/m in 1 lb/ft
DECOR, DISHES, LOW_DISHES = 5.0 * FOOT, 10.0 * FOOT, 7.0 * FOOT  # kg/m: common practice, studs at 16 in
HIGH_SHELF, LOW_SHELF, DISH_DEPTH = 3.0 * INCH_MM, 2.5 * INCH_MM, 12.0 * INCH_MM
STUD_PITCH: Final = 16.0 * INCH_MM
WIDE_STUDS: Final = 2.0 / 3.0  # of the ceiling, with studs further apart
SLACK: Final = 0.05  # mm
WORTH, LEAST_WORTH = 1.02, 0.05  # times, and kg: a change that gives less is not worth telling
MOST_TOLD: Final = 2  # changes
REMEMBERED: Final = 256  # shelves


class LoadResult(msgspec.Struct, frozen=True):
    """The estimate, None where there is none; and the findings about it."""

    load: Load | None
    findings: tuple[Finding, ...]


_MADE: Kept[LoadResult] = Kept(REMEMBERED)


def load_of(project: Project, shelf: Shelf, thickness: float, frame: Frame | None) -> LoadResult:
    """The load estimate of a shelf; none without a place on the wall or without screws.

    thickness: of the shell's sheet. [mm] Remembered for each shelf.
    """
    if frame is None or shelf.mount is None or not frame.screws:
        return LoadResult(None, ())
    shop = (project.frame, project.wall, project.screw, project.units, project.rules)
    source = (shop, project.shelves.index(shelf), shelf, thickness, frame)  # its fixes name the shelf by its number
    return _MADE.get(shelf.id, source, lambda: _made(project, shelf, thickness, frame))


def _made(project: Project, shelf: Shelf, thickness: float, frame: Frame) -> LoadResult:
    case = case_of(project, shelf, thickness, frame)
    spread, front, governs = shown(case)
    load = Load(
        shelf=shelf.id,
        governs=governs,
        spread_kg=spread,
        front_edge_kg=front,
        factor=FACTOR,
        rules=project.rules,
        own_kg=case.own,
        band=band_of(spread / (case.length / 1000.0)),
        raise_by=_raise(case, project, spread),
    )
    return LoadResult(load, (*overhang_findings(project, shelf, thickness, frame), _note(load, Unit(project.units))))


def case_of(project: Project, shelf: Shelf, thickness: float, frame: Frame) -> Case:
    """What the estimate reads of a shelf on the wall with a frame that has screws."""
    assert shelf.mount is not None
    wish, start = project.frame, frame_left(shelf, shelf.mount, thickness, project.frame.side_play) - shelf.mount.x
    own, reach = own_weight(shelf, thickness, frame, wish.back_layers)
    return Case(
        rules=project.rules,
        length=shelf.length,
        depth=shelf.depth,
        height=shelf.height,
        shell=thickness,
        own=own,
        own_reach=reach,
        rail=(frame.thickness, wish.back_layers, frame.height),
        rib=(frame.rib_length, frame.thickness),
        ribs=tuple(start + rib for rib in frame.ribs),
        studs=tuple(stud - shelf.mount.x for stud in frame.studs),
        heights=tuple(s.height for s in frame.screws if s.x == frame.screws[0].x),
        diameter=project.screw.diameter,
        thread=thread_in_stud(frame.screws[0].length, wish.back_layers * frame.thickness + project.wall.cover),
        board=project.wall.cover,
        gravity=project.wall.gravity,
    )


def thread_in_stud(length: float, before: float) -> float:
    """Thread that really stands in the stud: behind rail and board, no more than is threaded, nor the stud's depth."""
    return max(0.0, min(length - before, THREADED * length, STUD_DEPTH))


def own_weight(shelf: Shelf, thickness: float, frame: Frame, back_layers: int) -> tuple[float, float]:
    """Mass of shell and frame, and its centre from the wall. [kg, mm] Whole show faces count."""
    depth = shelf.depth

    def mass(x: float, y: float, t: float) -> float:
        return panel_mass(x, y, t, BIRCH_DENSITY)

    flat = 2.0 * mass(shelf.length, depth, thickness) + shelf.mitred_ends * mass(depth, shelf.height, thickness)
    parts = [(flat, depth / 2.0), (mass(shelf.length, shelf.height, thickness), depth - thickness / 2.0)]
    back = back_layers * frame.thickness
    centres = {"back rail": back / 2.0, "front rail": (back + frame.rib_length + frame.depth) / 2.0}
    for part in frame.parts:
        reach = centres.get(part.role, back + frame.rib_length / 2.0)
        parts.append((mass(part.length, part.width, part.thickness), reach))
    total = sum(m for m, _ in parts)
    return total, sum(m * reach for m, reach in parts) / total


def ceiling(case: Case) -> float:
    """The most that is shown whatever the sums allow. [kg/m] Common practice: such a shelf is never for books."""
    if case.depth > DISH_DEPTH or case.height < LOW_SHELF:
        most = DECOR
    else:
        most = DISHES if case.height >= HIGH_SHELF else LOW_DISHES
    close = len(case.studs) > 1 and widest_gap(case.studs) <= STUD_PITCH + SLACK
    return most if close else most * WIDE_STUDS


def shown(case: Case) -> tuple[float, float, str]:
    """Spread and front-edge load under the ceiling, and what governs. [kg]"""
    found, most = estimate(case), ceiling(case) * case.length / 1000.0
    front = min(found.front, most / 2.0)
    return (
        (found.spread, front, found.governs)
        if found.spread < most
        else (most, front, tr("the usual limit of its kind"))
    )


def band_of(per_metre: float) -> str:
    """What a load is good for, in words. [kg/m]"""
    if per_metre >= LOW_DISHES - 1e-9:
        return tr("decor and dishes, not books")
    if per_metre >= DECOR - 1e-9:
        return tr("decor, not dishes or books")
    return tr("very light decor only") if per_metre > 0.5 * FOOT else tr("nothing but itself")


def _raise(case: Case, project: Project, before: float) -> str:
    """The changes, each made alone, that raise the spread load most, with the load that each gives."""
    unit, worth = Unit(project.units), before * WORTH + LEAST_WORTH
    best: list[tuple[float, str]] = []
    for words, length, changed in changes(case, project.screw, unit):
        most = ceiling(changed) * changed.length / 1000.0
        after = min(allowed(changed, "spread", worth)[0], most) if most > worth else most
        if after > worth:
            best.append((-after, in_words(words, length, unit)))
    return "; ".join(f"{words}: {show_mass(-load, unit)}" for load, words in sorted(best)[:MOST_TOLD])


def _note(load: Load, unit: Unit) -> Finding:
    """`load`: band, numbers and caution."""
    message = tr(
        "Load, an estimate: {band}; {spread_kg} spread or {front_edge_kg} along the front edge, "
        "beside its own {own_kg} (factor {factor:g}). What governs: {governs}.",
        band=load.band,
        spread_kg=show_mass(load.spread_kg, unit),
        front_edge_kg=show_mass(load.front_edge_kg, unit),
        own_kg=show_mass(load.own_kg, unit),
        factor=load.factor,
        governs=load.governs,
    )
    if load.raise_by:
        message += tr(" To raise it: {raise_by}.", raise_by=load.raise_by)
    return Finding("note", "load", load.shelf, f"{message} {CAUTION}")
