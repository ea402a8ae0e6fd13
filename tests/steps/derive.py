"""Where the guide lies, how the blade leans and what the numbers are, read off the sawn pieces alone.

A second way to the instructions: it knows no rule for the guide's side, no set-backs and no footprints. It looks at
the two pieces a cut leaves and at the plane between them: the kept piece has its show face to the line; the plane
leans where that piece's other face is shorter; the blade's foot is the plane's lower end as the wood lies; the guide
is where the saw has it for that foot.
"""

from __future__ import annotations

from math import cos, radians, tan
from typing import NamedTuple

from core.plan.model import Cut, Plan, StockSheet
from core.sawing.piece import Axis, Piece, saw_piece, whole_sheet
from core.steps.bench import pass_cuts

NEAR = 1e-6
Line = tuple[float, float]


class Seen(NamedTuple):
    """What one cut left: the piece before, the kept and the other one, the blade's two planes (show, inside)."""

    cut: Cut
    axis: Axis
    before: Piece
    low: Piece | None
    high: Piece | None
    kept_plane: Line
    other_plane: Line
    sheet: tuple[float, float]  # length, width
    trim: float  # of the sheet
    lying: dict[str, Piece]  # what else lies on the bench while its pass is made


def seen_cuts(plan: Plan) -> list[list[Seen]]:
    """The cuts of each pass as the saw leaves them."""
    sheets = {s.id: s for s in plan.sheets}
    pieces = {s.id: whole_sheet(s.id, s.length, s.width) for s in plan.sheets}
    passes = []
    for cuts in pass_cuts(plan):
        sawn = {cut.piece for cut in cuts}
        lying = {name: piece for name, piece in pieces.items() if name not in sawn}
        passes.append([_see(cut, pieces, lying, sheets[cut.sheet], plan.project.saw.kerf) for cut in cuts])
    return passes


def _see(cut: Cut, pieces: dict[str, Piece], lying: dict[str, Piece], sheet: StockSheet, kerf: float) -> Seen:
    axis: Axis = "y" if cut.kind == "rip" else "x"
    tilt = radians(cut.bevel)
    before = pieces.pop(cut.piece)
    args = (axis, cut.at, cut.keep, sheet.thickness * tan(tilt), kerf / cos(tilt))
    names = (cut.makes[0] or "", cut.makes[1] or "")
    low, high = saw_piece(before, *args, names)
    pieces.update((p.name, p) for p in (low, high) if p is not None)
    # a board far larger than any piece shows the blade's planes bare
    bare = Piece("", ((-1e6, -1e6),), ((1e6, 1e6),), ((-1e6, -1e6),), ((1e6, 1e6),))
    one, two = saw_piece(bare, *args, ("low", "high"))
    assert one is not None
    assert two is not None
    planes = (one.high(axis)[0], two.low(axis)[0])
    kept, other = planes if cut.keep == "low" else planes[::-1]
    return Seen(cut, axis, before, low, high, kept, other, (sheet.length, sheet.width), sheet.source.trim, lying)


def lean_of(seen: Seen) -> str | None:
    """The side the plane goes to on its way from the show face to the inside face."""
    show, inside = seen.kept_plane
    if abs(show - inside) < NEAR:
        return None
    return "low" if inside < show else "high"


def foot_of(seen: Seen, face: str) -> str | None:
    """The side the blade's foot leans to: the inside face lies below where the show face is up."""
    lean = lean_of(seen)
    if lean is None or face == "up":
        return lean
    return "low" if lean == "high" else "high"


def kept_side(seen: Seen) -> str:
    """The side whose show face ends at the cut's line, as the pieces have it."""
    shows = {"low": min(seen.kept_plane[0], seen.other_plane[0]), "high": max(seen.kept_plane[0], seen.other_plane[0])}
    return next(side for side, show in shows.items() if abs(show - seen.cut.at) < NEAR)


def guide_of(seen: Seen, lean: str, face: str) -> str:
    """The side the guide lies on: over the foot, or away from it; on what is kept where the cut is square."""
    foot = foot_of(seen, face)
    if foot is None:
        return kept_side(seen)
    if lean == "under":
        return foot
    return "low" if foot == "high" else "high"


def plane_beside(seen: Seen, side: str) -> Line:
    """The blade's plane that a side of the cut has (show, inside)."""
    low = min(seen.kept_plane, seen.other_plane)
    high = max(seen.kept_plane, seen.other_plane)
    return low if side == "low" else high


def edge_at(seen: Seen, side: str, face: int) -> float:
    """Where the piece before the cut ends on a side, on the show (0) or the inside (1) face."""
    lines = seen.before.low(seen.axis) if side == "low" else seen.before.high(seen.axis)
    places = [line[face] for line in lines]
    return max(places) if side == "low" else min(places)
