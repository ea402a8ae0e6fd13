"""Cutting up a sheet: from rectangles with bevelled edges to the straight cuts that free them, in order.

Every piece on the bench waits with the blocks that must come out of it. One rule says what its next cut is:

    several blocks   a rip between groups where a line crosses none of them, else a crosscut;
                     before that, edges that the whole group shares
    one block        the cuts its own edges still want; then its inner blocks, if it has any

All waiting cuts are kept in a queue ordered by stage, so that square partings come before bevelled rips, rips before
crosscuts, and crosscuts that can be made in one pass stand together.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heappop, heappush

import msgspec

from core.sawing.bench import Bench, SawnCut
from core.sawing.blocks import AXES, TOUCH, Block, bounds, groups_along, merge_run, outer_bevel
from core.sawing.piece import Axis, Keep, Piece, Side

TRIM, PART, RIP, CROSSCUT, SQUARE_UP, STRIP = range(6)  # stages

WIDE = 4.0  # footprints: edges further apart than this are not the two sides of one V
_COLUMN = (0, 2, 1, 3)  # where a side (0 low_x, 1 high_x, 2 low_y, 3 high_y) stands in a box


class NotSeparable(Exception):
    """Blocks that no straight edge-to-edge cut can part: the layout is wrong."""


class Wanted(msgspec.Struct, gc=False):
    """The next cut of a waiting piece."""

    stage: int
    axis: Axis
    at: float
    bevel: float
    keep: Keep
    low: Sequence[Block]  # what must come out of the low side
    high: Sequence[Block]
    about: str
    place: float  # orders cuts along the sheet: the seam's place, shared by both its cuts
    second: int = 0  # 1 for the second cut of a V


class Waiting(msgspec.Struct, gc=False):
    """A piece on the bench, what must come out of it, and how far the work on it has come."""

    piece: Piece
    blocks: Sequence[Block]
    stage: int
    inside: bool = False  # panels of a net are being cut apart
    run: str = ""
    seam: tuple[int, float] | None = None  # side and place of the V whose second cut is due


class CutUp(msgspec.Struct, gc=False):
    """What a bench has given: the cuts in order, the piece of each block by name, and the rest."""

    cuts: list[SawnCut]
    pieces: dict[str, Piece]
    rest: list[Piece]


def cut_up(bench: Bench, piece: Piece, blocks: Sequence[Block], first_stage: int = PART) -> CutUp:
    """Free all blocks from a piece.

    blocks: rectangles at least a kerf apart (a seam's loss where both edges are bevelled), parted by straight
        edge-to-edge cuts. Raises NotSeparable where they are not.
    first_stage: no cut is counted to an earlier stage than this.
    """
    done = CutUp([], {}, [])
    queue: list[tuple[tuple[float, ...], int, Waiting, Wanted]] = []
    ticket = 0
    fresh = [Waiting(piece, blocks, first_stage)]
    while fresh or queue:
        for waiting in fresh:
            wanted = _next_cut(bench, waiting, done)
            if wanted is not None:
                ticket += 1
                heappush(queue, (_order(waiting, wanted), ticket, waiting, wanted))
        fresh = []
        if queue:
            _, _, waiting, wanted = heappop(queue)
            fresh = _make(bench, waiting, wanted, done)
    return done


def _rank(wanted: Wanted) -> tuple[float, ...]:
    return (wanted.stage, wanted.place, wanted.second)


def _order(waiting: Waiting, wanted: Wanted) -> tuple[float, ...]:
    stage = max(waiting.stage, wanted.stage)
    return (stage, wanted.place, wanted.second, wanted.at, wanted.keep == "low")


def _make(bench: Bench, waiting: Waiting, wanted: Wanted, done: CutUp) -> list[Waiting]:
    stage = max(waiting.stage, wanted.stage)
    key = None
    if wanted.axis == "x" and waiting.inside:
        key = (waiting.run, stage, round(wanted.at, 6), wanted.bevel, wanted.keep)
    cut, low, high = bench.saw(
        waiting.piece, wanted.axis, wanted.at, wanted.bevel, wanted.keep, wanted.about, key, stage
    )
    done.cuts.append(cut)
    fresh = []
    facing = (1, 0) if wanted.axis == "x" else (3, 2)
    opens_v = wanted.bevel and wanted.low and wanted.high
    for piece, blocks, side in ((low, wanted.low, facing[0]), (high, wanted.high, facing[1])):
        if piece is not None and blocks:
            seam = (side, wanted.place) if opens_v else None
            fresh.append(Waiting(piece, blocks, stage, waiting.inside, waiting.run, seam))
        elif piece is not None:
            done.rest.append(piece)
    return fresh


def _next_cut(bench: Bench, waiting: Waiting, done: CutUp) -> Wanted | None:
    """The next cut of a piece, or None where it is done (and then written down)."""
    while True:
        blocks = waiting.blocks
        if len(blocks) > 1 and (merged := merge_run(blocks)) is not None:
            blocks = waiting.blocks = (merged,)
        if len(blocks) == 1:
            block = blocks[0]
            wanted = _outer_cut(bench, waiting, blocks) if block.inner else _edge_cut(bench, waiting, blocks)
            if wanted is not None:
                return wanted
            if not block.inner:
                done.pieces[block.name] = waiting.piece
                return None
            waiting.blocks = block.inner
            if len(block.inner) > 1 and any(any(b.bevels) for b in block.inner):
                waiting.inside, waiting.run = True, block.name
            continue
        edge, parting = _edge_cut(bench, waiting, blocks), _parting_cut(bench, waiting, blocks)
        return parting if edge is None or _rank(parting) < _rank(edge) else edge


def _side(piece: Piece, side: int) -> Side:
    return (piece.x_low, piece.x_high, piece.y_low, piece.y_high)[side]


def _outer_cut(bench: Bench, waiting: Waiting, blocks: Sequence[Block]) -> Wanted | None:
    """The square cut that takes the largest rest off round a net or a strip, if any is still wanted."""
    box, clear = blocks[0].box, waiting.piece.clear_box()
    best: tuple[float, int] | None = None
    for side in range(4):
        at = box[_COLUMN[side]]
        line = _side(waiting.piece, side)
        if len(line) == 1 and abs(line[0][0] - at) <= TOUCH and abs(line[0][1] - at) <= TOUCH:
            continue
        reach = abs(clear[_COLUMN[side]] - at)
        across = (clear[3] - clear[1]) if side < 2 else (clear[2] - clear[0])
        if best is None or reach * across > best[0]:
            best = (reach * across, side)
    if best is None:
        return None
    return _cut_edge(best[1], box[_COLUMN[best[1]]], 0.0, blocks, SQUARE_UP if waiting.inside else PART, None)


def _edge_cut(bench: Bench, waiting: Waiting, blocks: Sequence[Block]) -> Wanted | None:
    """The next cut along an outer edge of all blocks together, if the piece does not have that edge yet."""
    box = bounds(blocks)
    rest_matters = len(blocks) > 1 and not waiting.inside
    best: Wanted | None = None
    for side in (2, 3, 0, 1):
        bevel = outer_bevel(blocks, side)
        if bevel is None:
            continue
        at = box[_COLUMN[side]]
        have, want = _side(waiting.piece, side), bench.edge(at, bevel, "low" if side in (1, 3) else "high")
        if len(have) == 1 and abs(have[0][0] - want[0]) <= TOUCH and abs(have[0][1] - want[1]) <= TOUCH:
            continue
        if rest_matters and abs(waiting.piece.clear_box()[_COLUMN[side]] - at) > TOUCH:
            continue  # what lies beside the group is parted off with its first member, in a larger piece
        wanted = _cut_edge(side, at, bevel, blocks, SQUARE_UP, waiting.seam)
        if best is None or _rank(wanted) < _rank(best):
            best = wanted
    return best


def _cut_edge(
    side: int, at: float, bevel: float, blocks: Sequence[Block], square_stage: int, seam: tuple[int, float] | None
) -> Wanted:
    axis: Axis = "x" if side < 2 else "y"
    stage = square_stage if not bevel else (RIP if axis == "y" else CROSSCUT)
    second = int(bool(bevel) and seam is not None and seam[0] == side)
    place = seam[1] if second and seam is not None else at
    about = next(b.name for b in blocks if abs(b.box[_COLUMN[side]] - at) <= TOUCH)
    if side in (1, 3):
        return Wanted(stage, axis, at, bevel, "low", blocks, (), about, place, second)
    return Wanted(stage, axis, at, bevel, "high", (), blocks, about, place, second)


def _parting_cut(bench: Bench, waiting: Waiting, blocks: Sequence[Block]) -> Wanted:
    """A cut between two groups of blocks: rips before crosscuts, bevelled ones before square ones."""
    for axis in AXES:
        groups = groups_along(blocks, axis, bench.kerf)
        if len(groups) < 2:
            continue
        if not waiting.inside and axis == "x":
            groups = _join_runs(groups)
            if len(groups) < 2:
                return _parting(bench, waiting, groups_along(blocks, "x", bench.kerf), 1, "x")
        best: Wanted | None = None
        for i in range(1, len(groups)):
            wanted = _parting(bench, waiting, groups, i, axis)
            if best is None or _rank(wanted) < _rank(best):
                best = wanted
        assert best is not None
        return best
    raise NotSeparable(f"no straight cut parts {', '.join(b.name for b in blocks)} on {bench.sheet}")


def _join_runs(groups: list[list[Block]]) -> list[list[Block]]:
    """Neighbouring nets of one run stay together, to be ripped together."""
    joined: list[list[Block]] = []
    for group in groups:
        if joined and merge_run([*joined[-1], *group]) is not None:
            joined[-1].extend(group)
        else:
            joined.append(group)
    return joined


def _parting(bench: Bench, waiting: Waiting, groups: list[list[Block]], i: int, axis: Axis) -> Wanted:
    low = [b for group in groups[:i] for b in group]
    high = [b for group in groups[i:] for b in group]
    column, sides = (0, (1, 0)) if axis == "x" else (1, (3, 2))
    end, start = bounds(low)[column + 2], bounds(high)[column]
    low_bevel, high_bevel = outer_bevel(low, sides[0]) or 0.0, outer_bevel(high, sides[1]) or 0.0
    bevel = max(low_bevel, high_bevel)
    if bevel and start - end >= bench.blade(bevel).footprint - TOUCH:
        stage = RIP if axis == "y" else CROSSCUT
        apart = start - end > WIDE * bench.blade(bevel).footprint  # two edges with waste between, not one V
        longer = _extent(groups[i - 1], column) > _extent(groups[i], column)
        low_first = axis == "x" and low_bevel > 0 and (apart or longer)
        if low_first or not high_bevel:
            return Wanted(stage, axis, end, low_bevel, "low", low, high, groups[i - 1][0].name, end)
        return Wanted(stage, axis, start, high_bevel, "high", low, high, groups[i][0].name, start)
    stage = SQUARE_UP if waiting.inside else PART
    return Wanted(stage, axis, end, 0.0, "low", low, high, groups[i - 1][0].name, end)


def _extent(group: Sequence[Block], column: int) -> float:
    box = bounds(group)
    return box[column + 2] - box[column]
