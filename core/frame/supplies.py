"""What the frames need beside their wood: screws into the studs, small ones that lock the shell on, brads, glue."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from math import ceil
from typing import Final

from core.document.model import FrameWish, Project
from core.frame.studs import sold_length, sold_name
from core.language import decimal, tr
from core.lengths import INCH_MM, Unit, show_length, show_thickness
from core.plan.model import Frame, Supply

BRADS: Final = tuple((n * INCH_MM / 8.0, n) for n in range(6, 17))  # sold from 3/4 in to 2 in, by the eighth
BITE: Final = 20.0  # mm of a brad in the rib: it only holds the joint while the glue sets
BRADS_A_JOINT: Final = 2  # high and low: common practice
LOCKS: Final = 3  # screws of a shell, up or down near the back: two or three, common practice
LOCK_BITE: Final = 12.0  # mm of a lock screw in the frame
LOCK_SIZE: Final = {Unit.INCH: "No. 8", Unit.MM: "4"}  # thin, it only keeps the shell from sliding: common practice
LOCK_SCREW: Final = tr("lock screw {LOCK_SIZE} × {name}")
GLUE: Final = 0.2  # kg/m2, one face: typical
GLUE_DENSITY: Final = 1.1  # kg in a litre: typical
LITRE_OUNCES: Final = 33.814  # fluid ounces, US
FOOT: Final = 12.0 * INCH_MM
WASTE: Final = 1.1  # of glue, for the brush and the bottle


def frame_supplies(project: Project, frames: Sequence[Frame]) -> list[Supply]:
    """Screws by length, lock screws, brads and glue, each with its basis; nothing without frames."""
    if not frames:
        return []
    return [*_screws(project, frames), *_locks(project, frames), *_brads(project, frames), _glue(project, frames)]


def _screws(project: Project, frames: Sequence[Frame]) -> list[Supply]:
    unit, counts = Unit(project.units), Counter(screw.length for frame in frames for screw in frame.screws)
    thick = show_length(project.screw.diameter, unit, 64, marks=False) if unit is Unit.INCH else ""
    basis = tr("one for each place marked on the frame's back rail")
    found = []
    for length, count in sorted(counts.items()):
        name = sold_name(length, unit) or show_length(length, unit)
        size = f"{thick} × {name}" if thick else decimal(f"{project.screw.diameter:g}") + f" × {name}"
        found.append(Supply(tr("screw {size}", size=size), count, "piece", basis, "wall screw"))
    return found


def _locks(project: Project, frames: Sequence[Frame]) -> list[Supply]:
    """Through the bottom or the top, whichever is not seen, over the play into an end rib or the rail."""
    unit, counts = Unit(project.units), Counter(_shell(frame, project) for frame in frames)
    found: dict[str, Supply] = {}
    for shell, count in sorted(counts.items()):
        least = shell + project.frame.height_play + LOCK_BITE
        name = sold_name(sold_length(least, unit) or least, unit) or show_length(least, unit, rounding="up")
        what, before = tr(LOCK_SCREW, LOCK_SIZE=LOCK_SIZE[unit], name=name), 0.0
        basis = tr(
            "{LOCKS} near the back of each shelf; {shell} of sheet + {height_play} of play + "
            "{LOCK_BITE} in the frame = {least}, {name} is the next length sold",
            LOCKS=LOCKS,
            shell=show_thickness(shell, unit),
            height_play=show_length(project.frame.height_play, unit),
            LOCK_BITE=show_length(LOCK_BITE, unit),
            least=show_length(least, unit, rounding="up"),
            name=name,
        )
        if what in found:  # sheets hardly thicker: the same screws, for the thickest of them
            before = found[what].quantity
        found[what] = Supply(what, before + LOCKS * count, "piece", basis, "lock screw")
    return list(found.values())


def is_lock_screw(supply: Supply) -> bool:
    """Is it one that `frame_supplies` says locks a shell on?"""
    return supply.kind == "lock screw"


def _shell(frame: Frame, project: Project) -> float:
    """Thickness of the shell's sheet, from its depth and the cavity's, to a thousandth. [mm]"""
    shelf = next(shelf for shelf in project.shelves if shelf.id == frame.shelf)
    return round(shelf.depth - frame.cavity[1], 3)


def _brads(project: Project, frames: Sequence[Frame]) -> list[Supply]:
    """Through the layer of the rail that a rib meets, into the rib's end."""
    unit, counts = Unit(project.units), Counter[str]()
    for frame in frames:
        n = bisect_left(BRADS, (frame.thickness + BITE,))
        mm, eighths = BRADS[min(n, len(BRADS) - 1)]
        name = show_length(eighths * INCH_MM / 8.0, unit) if unit is Unit.INCH else f"{round(mm / 5.0) * 5} mm"
        counts[name] += BRADS_A_JOINT * _ends_met(project.frame) * len(frame.ribs)
    basis = tr(
        "{BRADS_A_JOINT} at each joint of rib and rail, high and low; two long screws serve too",
        BRADS_A_JOINT=BRADS_A_JOINT,
    )
    return [Supply(tr("brad {name}", name=name), count, "piece", basis) for name, count in counts.items()]


def _ends_met(wish: FrameWish) -> int:
    """Ends of a rib that meet a rail."""
    return (wish.back_layers > 0) + (wish.front_layers > 0)


def glued(frame: Frame, wish: FrameWish) -> float:
    """Area of all joints of a frame, one face of each: rib ends, layers of rails, doubled ribs. [m2]"""
    ends = len(frame.ribs) * _ends_met(wish) * frame.thickness
    layers = (max(0, wish.back_layers - 1) + max(0, wish.front_layers - 1)) * frame.length
    doubled = 2 * (wish.end_layers - 1) * frame.rib_length
    return (ends + layers + doubled) * frame.height * 1e-6


def glue_rate(kg: float, unit: Unit) -> str:
    """Glue on a square metre of joint, in words: '200 g/m²', '0.57 fl oz a sq ft'. kg: on a square metre."""
    if unit is Unit.MM:
        return f"{kg * 1000.0:g} g/m²"
    ounces = kg / GLUE_DENSITY * LITRE_OUNCES * FOOT**2 / 1e6
    return tr("{ounces} fl oz a sq ft", ounces=decimal(f"{ounces:.2f}"))


def _glue(project: Project, frames: Sequence[Frame]) -> Supply:
    area = sum(glued(frame, project.frame) for frame in frames)
    grams = ceil(area * GLUE * WASTE * 1000.0 / 5.0) * 5
    inches = Unit(project.units) is Unit.INCH
    basis = tr(
        "{area} of joints in the frames at {rate}, typical, and a tenth more",
        area=decimal(f"{area * 1e6 / FOOT**2:.1f} sq ft" if inches else f"{area:.3f} m²"),
        rate=glue_rate(GLUE, Unit(project.units)),
    )
    return Supply(tr("glue for the frames"), grams / 1000.0, "kg", basis)
