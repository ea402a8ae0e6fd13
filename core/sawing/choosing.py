"""Choosing the next cut of a piece that lies on the bench.

several blocks   a rip between groups where a line crosses none of them, else a crosscut;
                 before that, outer edges that the whole group shares
one block        the cuts its own edges still want; then its inner blocks, if it has any
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from core.language import tr
from core.sawing.bench import Bench
from core.sawing.blocks import AXES, Block, Footprint, bounds, groups_along, merge_run, outer_bevel
from core.sawing.piece import TOUCH, Axis, Keep, Piece, Side
from core.sawing.steps import CROSSCUT, PART, RIP, SQUARE_UP

KEPT: tuple[Keep, Keep, Keep, Keep] = ("high", "low", "high", "low")  # the side a cut along that edge keeps
COLUMN = (0, 2, 1, 3)  # where a side (0 low_x, 1 high_x, 2 low_y, 3 high_y) stands in a box

Rank = tuple[float, ...]


class NotSeparableError(Exception):
    """Blocks that no straight edge-to-edge cut can part: the layout is wrong."""


class Choice(msgspec.Struct, gc=False):
    """A cut that could be made next.

    rank: its step, then the place of its band for a crosscut between panels, then 1 for the last cut of an end that is
        bevelled at both sides, then its place along the sheet, in the direction in which the guide's support stays
        widest; of cuts at one line the one that follows another in its V leads, since the pass is set by it.
    parting: groups before this one come out of the low side, the others out of the high side; None for a cut along
        an outer edge, which leaves every block on the kept side.
    shared: a square cut with a panel at either side, so that it can count as keeping either.
    """

    rank: Rank
    axis: Axis
    at: float
    bevel: float
    keep: Keep
    about: str
    parting: int | None = None
    shared: bool = False


class Row(msgspec.Struct, gc=False):
    """Groups of blocks in order along an axis, and the cut that parts each from the next."""

    axis: Axis
    groups: list[list[Block]]
    partings: list[Choice]


class Job(msgspec.Struct, gc=False):
    """A piece on the bench, what must come out of it, and how far the work on it has come."""

    piece: Piece
    blocks: Sequence[Block]
    step: int
    inside: bool = False  # panels of a net are being cut apart
    run: str = ""
    band: float = 0.0  # lower edge of the run's band
    arris: bool = False  # one of its sides is what a V's first cut left
    row: Row | None = None  # the groups this job is a stretch of: from `first` up to `last`
    first: int = 0
    last: int = 0


def next_choice(bench: Bench, job: Job) -> Choice | None:
    """The next cut of a job, or None where its one block is free. Opens up the job as far as that needs."""
    while True:
        if job.row is not None and job.last - job.first > 1:
            return _in_row(bench, job, job.row)
        if job.row is not None:
            job.blocks, job.row = job.row.groups[job.first], None
        blocks = job.blocks
        if len(blocks) > 1:
            merged = merge_run(blocks, bench.footprint)
            if merged is None:
                job.row = row_of(bench, job, blocks)
                job.first, job.last = 0, len(job.row.groups)
                across = (0, 1) if job.row.axis == "y" else (2, 3)
                edge = _best(_edge(bench, job, blocks, side) for side in across)
                if edge is not None and edge.rank < min(p.rank for p in job.row.partings):
                    job.row = None  # group anew after this cut
                    return edge
                continue
            blocks = job.blocks = (merged,)
        block = blocks[0]
        choice = _outer(bench, job, block) if block.inner else _own_edges(bench, job, block)
        if choice is not None or not block.inner:
            return choice
        job.blocks = block.inner
        if len(block.inner) > 1 and any(any(b.bevels) for b in block.inner):
            job.inside, job.run, job.band = True, block.name, block.box[1]


def _best(choices: Iterable[Choice | None]) -> Choice | None:
    best: Choice | None = None
    for choice in choices:
        if choice is not None and (best is None or choice.rank < best.rank):
            best = choice
    return best


def _own_edges(bench: Bench, job: Job, block: Block) -> Choice | None:
    """The lowest-ranked cut that one block's own edges still want."""
    piece, box, bevels = job.piece, block.box, block.bevels
    best: Choice | None = None
    for side, have in enumerate((piece.x_low, piece.x_high, piece.y_low, piece.y_high)):
        if len(have) == 1:
            wrong = have[0][0] - box[COLUMN[side]]
            if -TOUCH <= wrong <= TOUCH and not bevels[side] and have[0][0] == have[0][1]:
                continue
        choice = _edge(bench, job, (block,), side)
        if choice is not None and (best is None or choice.rank < best.rank):
            best = choice
    return best


def _in_row(bench: Bench, job: Job, row: Row) -> Choice:
    """The lowest-ranked cut of a stretch of a row: between two groups, or along its own two ends."""
    best = min(row.partings[job.first : job.last - 1], key=_rank)
    low, high = (0, 1) if row.axis == "x" else (2, 3)
    for side, group in ((low, row.groups[job.first]), (high, row.groups[job.last - 1])):
        edge = _edge(bench, job, group, side, row.axis)
        if edge is not None and edge.rank <= best.rank:
            best = edge
    return best


def _rank(choice: Choice) -> Rank:
    return choice.rank


def side_of(piece: Piece, side: int) -> Side:
    """One side of a piece: 0 low_x, 1 high_x, 2 low_y, 3 high_y."""
    return (piece.x_low, piece.x_high, piece.y_low, piece.y_high)[side]


def _outer(bench: Bench, job: Job, block: Block) -> Choice | None:
    """The next square cut that takes the rest off round a net or a strip, if any is still wanted.

    Rips come first, so that what lies beside a band stays whole along the sheet, as the layout counted on.
    """
    for side in (3, 2, 1, 0):
        at = block.box[COLUMN[side]]
        if not bench.has_edge(side_of(job.piece, side), at, 0.0, KEPT[side]):
            axis: Axis = "x" if side < 2 else "y"
            return _choice(bench, job, PART, axis, at, 0.0, KEPT[side], block)
    return None


def _edge(bench: Bench, job: Job, blocks: Sequence[Block], side: int, row_axis: Axis | None = None) -> Choice | None:
    """The cut along an outer edge of some blocks, if the piece does not have that edge yet."""
    column = COLUMN[side]
    if len(blocks) == 1:
        bevel, at = blocks[0].bevels[side], blocks[0].box[column]
    else:
        outer = outer_bevel(blocks, side)
        if outer is None:
            return None
        bevel, at = outer, bounds(blocks)[column]
    keep = KEPT[side]
    if bench.has_edge(side_of(job.piece, side), at, bevel, keep):
        return None
    alone = len(blocks) == 1 and row_axis is None
    if not alone and not job.inside and abs(job.piece.clear_box()[column] - at) > TOUCH:
        return None  # what lies beside the group is parted off with its first member, in a larger piece
    axis: Axis = "x" if side < 2 else "y"
    stage = SQUARE_UP if not bevel else (RIP if axis == "y" else CROSSCUT)
    about = next(b for b in blocks if abs(b.box[column] - at) <= TOUCH)
    return _choice(bench, job, stage, axis, at, bevel, keep, about)


def _choice(
    bench: Bench,
    job: Job,
    stage: int,
    axis: Axis,
    at: float,
    bevel: float,
    keep: Keep,
    about: Block,
    parting: int | None = None,
) -> Choice:
    """A cut with its rank.

    Each cut leaves whole what the next one's guide lies on, or a table saw's fence bears on. After the flip a rip waits
    for the panel that packs out the guide, and an end bevelled at both sides waits for the body of its band.
    """
    side = bench.steps.guide(bevel, keep)
    step = bench.steps.step(job.step, stage, (axis, side))
    band = job.band if axis == "x" else 0.0
    if bevel and axis == "x" and not job.inside:
        band = about.box[1]  # a panel cut apart has a band of its own, and parts no pass of another's
    if not bevel:
        return Choice((step, band, 0, at, 0), axis, at, bevel, keep, about.name, parting)
    flipped = step % 2
    upwards = (side == "high") != (flipped and axis == "y")
    last = flipped and axis == "x" and about.end and about.bevels[0] and about.bevels[1]
    place = round(at if upwards else -at, 6)
    return Choice((step, band, bool(last), place, not job.arris), axis, at, bevel, keep, about.name, parting)


def row_of(bench: Bench, job: Job, blocks: Sequence[Block]) -> Row:
    """Group blocks along the first axis that parts them; rips before crosscuts, runs kept together."""
    for axis in AXES:
        groups = groups_along(blocks, axis, bench.kerf)
        if axis == "x" and not job.inside and len(groups) > 1:
            joined = _join_runs(groups, bench.footprint)
            groups = joined if len(joined) > 1 else groups
        if len(groups) > 1:
            boxes = [bounds(g) for g in groups]
            pairs = [_parting(bench, job, axis, groups, boxes, i) for i in range(1, len(groups))]
            return Row(axis, groups, pairs)
    raise NotSeparableError(
        tr("no straight cut parts {join} on {sheet}", join=", ".join(b.name for b in blocks), sheet=bench.sheet)
    )


def _join_runs(groups: list[list[Block]], footprint: Footprint) -> list[list[Block]]:
    """Neighbouring nets of one run stay together, to be ripped together."""
    joined: list[list[Block]] = []
    for group in groups:
        if joined and merge_run([*joined[-1], *group], footprint) is not None:
            joined[-1].extend(group)
        else:
            joined.append(group)
    return joined


def _parting(
    bench: Bench, job: Job, axis: Axis, groups: list[list[Block]], boxes: Sequence[Sequence[float]], i: int
) -> Choice:
    """The cut between group i - 1 and group i: bevelled where an edge is and there is room, else square."""
    low, high = groups[i - 1], groups[i]
    column, high_side, low_side = (0, 1, 0) if axis == "x" else (1, 3, 2)
    end, start = boxes[i - 1][column + 2], boxes[i][column]
    low_bevel, high_bevel = outer_bevel(low, high_side) or 0.0, outer_bevel(high, low_side) or 0.0
    bevel = max(low_bevel, high_bevel)
    gap = start - end
    if bevel and gap >= bench.blade(bevel).footprint - TOUCH:
        stage = RIP if axis == "y" else CROSSCUT
        keep: Keep = bench.steps.first[axis] if low_bevel and high_bevel else ("low" if low_bevel else "high")
        if keep == "low":
            return _choice(bench, job, stage, axis, end, low_bevel, "low", low[-1], i)
        return _choice(bench, job, stage, axis, start, high_bevel, "high", high[0], i)
    if not job.inside:
        return _choice(bench, job, PART, axis, end, 0.0, "low", low[0], i)
    shared = abs(gap - bench.kerf) <= TOUCH
    if shared and axis == "x" and bench.steps.shared == "high":
        choice = _choice(bench, job, SQUARE_UP, axis, start, 0.0, "high", high[0], i)
    else:
        choice = _choice(bench, job, SQUARE_UP, axis, end, 0.0, "low", low[0], i)
    choice.shared = shared
    return choice
