"""What a cut is measured from, and the numbers the guide, the fence or the stop is set to."""

from __future__ import annotations

from typing import Final

from core.document.model import Saw
from core.plan.model import Side
from core.sawing.piece import TOUCH, Axis, Piece
from core.steps.bench import Pass
from core.steps.edges import EdgeKind, edge_kind, outermost, place_on
from core.steps.model import Bearing, Device, Means, SetBy
from core.steps.section import OTHER, SIGN, Section

STICK: Final = 600.0  # mm: beyond it a square cut is measured, not set by a stick (common practice)
SOUND: Final = ("datum", "square", "toe")  # edges a stick may bear on

_MEANS: Final[dict[tuple[EdgeKind, Axis], Means]] = {
    ("datum", "y"): "datum edge",
    ("datum", "x"): "datum end",
    ("square", "y"): "square edge",
    ("square", "x"): "square edge",
    ("toe", "y"): "other toe",
    ("toe", "x"): "other toe",
}


def edges_of(work: Pass) -> dict[Side, EdgeKind]:
    """What the two edges across the cut are; those of the first piece, as all pieces of a pass lie alike."""
    piece = work.before[0]
    return {"low": edge_kind(work, piece, "low"), "high": edge_kind(work, piece, "high")}


def gap_to_arris(piece: Piece, axis: Axis, cut: Section) -> float:
    """From the toe to the show-face arris beside it, on the side that is not kept. [mm]"""
    other = OTHER[cut.keep]
    return (place_on(piece, axis, other, False) - cut.at) * SIGN[other]


def is_second(work: Pass, cut: Section) -> bool:
    """Is this the second cut of a V in any piece: does it run along an arris that leans the other way?"""
    return bool(cut.bevel) and any(_along_arris(piece, work.axis, cut) for piece in work.before)


def _along_arris(piece: Piece, axis: Axis, cut: Section) -> bool:
    other = OTHER[cut.keep]
    near = -TOUCH <= gap_to_arris(piece, axis, cut) <= cut.footprint + TOUCH
    return near and abs(outermost(piece, axis, other) - place_on(piece, axis, other, False)) > TOUCH


def measured_from(work: Pass, cut: Section, stop: bool = False) -> tuple[Means, Side, float]:
    """What the toe is measured from, on which side of the cut that lies, and how far. [mm]

    A part with a toe already is made toe to toe. Else the second cut of a V is set on the new arris; else it is
    measured from the trued edge or end, or a square edge, rather on the part that is kept: then the kerf drops out.
    A bevel is measured from the trued edge or end on either side while the piece has it.
    stop: on a sled, whose stop never bears on what falls off: there the wood would bind between stop and blade.
    """
    edges, keep, other = edges_of(work), cut.keep, OTHER[cut.keep]

    def far(side: Side) -> float:
        return abs(cut.at - place_on(work.before[0], work.axis, side, False))

    if edges[keep] == "toe" and cut.bevel:
        return "other toe", keep, far(keep)
    if stop and edges[keep] in ("datum", "square"):
        return _MEANS[edges[keep], work.axis], keep, far(keep)
    gap = gap_to_arris(work.before[0], work.axis, cut)
    if cut.bevel and -TOUCH <= gap <= cut.footprint + TOUCH:
        return "arris", other, max(0.0, gap)
    wanted: list[tuple[EdgeKind, Side]] = [("datum", keep), ("square", keep), ("datum", other), ("square", other)]
    if cut.bevel:
        wanted[1], wanted[2] = wanted[2], wanted[1]
    for kind, side in [*wanted, ("toe", keep), ("toe", other)]:
        if edges[side] == kind:
            return _MEANS[kind, work.axis], side, far(side)
    return "raw edge", other, far(other)


def width_under(work: Pass, cut: Section, saw: Saw) -> float:
    """Width of the face the guide lies on, to its edge; against a fence or stop, to the toe. 0 where there is none."""
    if saw.kind == "table":
        return abs(cut.at - outermost(work.before[0], work.axis, cut.guide))
    far = place_on(work.before[0], work.axis, cut.guide, cut.face == "down")
    return max(0.0, (far - _guide_edge(cut)) * SIGN[cut.guide])


def _guide_edge(cut: Section) -> float:
    return cut.at + SIGN[cut.guide] * cut.edge


def set_by(work: Pass, cut: Section, saw: Saw, of: dict[Side, str]) -> SetBy:
    """How the cut is set. of: what lies on each side of it, in words."""
    means, side, toe = measured_from(work, cut, saw.kind == "table" and work.axis == "x")
    edge = stick = reading = seen = stop = None
    against: EdgeKind | None = None
    opposite: EdgeKind | None = None
    bears: Bearing | None = None
    device: Device = "mark"
    if saw.kind == "guided":
        edge = cut.edge
        far = outermost(work.before[0], work.axis, cut.guide)
        sound = edges_of(work)[cut.guide] in SOUND and all(_alike(work, cut.guide))
        # a stick and a number from the other side would be two measures of one cut
        same = side == cut.guide or (means == "arris" and cut.keep == cut.guide)
        if sound and same and width_under(work, cut, saw) >= saw.guide_width:
            stick = _worth(cut, abs(_guide_edge(cut) - far) - saw.guide_width)
        if cut.face == "down" and means == "arris":
            seen = abs(place_on(work.before[0], work.axis, side, True) - _guide_edge(cut))
    elif work.axis == "y":
        device = "fence"
        reading = _clear(work, cut)
    else:
        device = "stop"
        stop = _clear(work, cut)
    if saw.kind == "table":
        edges = edges_of(work)
        bears, against, opposite = bearing(work, cut), edges[cut.guide], edges[OTHER[cut.guide]]
    return SetBy(means, side, of[side], toe, device, edge, stick, reading, bears, seen, stop, against, opposite)


def _clear(work: Pass, cut: Section) -> float | None:
    """From the blade's near side at table level to the fence or the stop; None where the blade would run into it."""
    ends = [outermost(piece, work.axis, cut.guide) for piece in work.before]
    bearing = min(ends) if cut.guide == "low" else max(ends)
    clear = (bearing - cut.at_table) * SIGN[cut.guide]
    return clear if clear > TOUCH else None


def _worth(cut: Section, stick: float) -> float | None:
    """A stick for a square cut is no longer than a maker would cut one."""
    return stick if cut.bevel or stick <= STICK else None


def _alike(work: Pass, side: Side) -> list[bool]:
    """Does each piece of the pass end where the first does?"""
    first = outermost(work.before[0], work.axis, side)
    return [abs(outermost(piece, work.axis, side) - first) <= TOUCH for piece in work.before]


def bearing(work: Pass, cut: Section) -> Bearing:
    """How the edge against the fence or the stop stands."""
    kind = edges_of(work)[cut.guide]
    if kind not in ("toe", "heel"):
        return "square"
    return "toe up" if (kind == "toe") == (cut.face == "up") else "toe down"
