"""Cutting up a piece: from rectangles with bevelled edges to the straight cuts that free them, in order.

All pieces that wait for a cut are kept in a queue ordered by step (`steps`), so that square partings come before
bevelled rips, rips before crosscuts, all cuts of one tilt and one side of the guide before the next, and crosscuts that
can be made in one pass stand together.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heappop, heappush

import msgspec

from core.sawing.bench import Bench, SawnCut
from core.sawing.blocks import Block
from core.sawing.choosing import Choice, Job, Rank, next_choice
from core.sawing.piece import Piece
from core.sawing.steps import PART, TURNS


class CutUp(msgspec.Struct, gc=False):
    """What a bench has given: the cuts in order, the piece of each block by name, and the rest."""

    cuts: list[SawnCut]
    pieces: dict[str, Piece]
    rest: list[Piece]


def cut_up(bench: Bench, piece: Piece, blocks: Sequence[Block], first_step: int = PART * TURNS) -> CutUp:
    """Free all blocks from a piece.

    blocks: rectangles at least a kerf apart (a seam's loss where both edges are bevelled), parted by straight
        edge-to-edge cuts. Raises NotSeparableError where they are not.
    first_step: no cut is made at an earlier step than this.
    """
    done = CutUp([], {}, [])
    queue: list[tuple[Rank, int, Job, Choice]] = []
    ticket = 0
    fresh = [Job(piece, blocks, first_step)]
    while True:
        for job in fresh:
            choice = next_choice(bench, job)
            if choice is None:
                done.pieces[job.blocks[0].name] = job.piece
            else:
                ticket += 1
                heappush(queue, (choice.rank, ticket, job, choice))
        if not queue:
            return done
        job, choice = heappop(queue)[2:]
        fresh = _make(bench, job, choice, done)


def _make(bench: Bench, job: Job, choice: Choice, done: CutUp) -> list[Job]:
    """Make the cut; returns the jobs it leaves."""
    step = int(choice.rank[0])
    key = None
    if choice.axis == "x" and job.inside:
        key = (job.run, step, round(choice.at, 6), choice.bevel, choice.keep)
    cut, low, high = bench.saw(job.piece, choice.axis, choice.at, choice.bevel, choice.keep, choice.about, key, step)
    cut.shared = choice.shared
    done.cuts.append(cut)
    if choice.parting is None:
        kept, other = (low, high) if choice.keep == "low" else (high, low)
        if other is not None:
            done.rest.append(other)
        assert kept is not None
        job.piece, job.step, job.arris = kept, step, False
        return [job]
    assert low is not None
    assert high is not None
    halves = ((low, "low", job.first, choice.parting), (high, "high", choice.parting, job.last))
    return [
        Job(
            piece,
            job.blocks,
            step,
            inside=job.inside,
            run=job.run,
            band=job.band,
            arris=choice.bevel > 0.0 and side != choice.keep,
            row=job.row,
            first=first,
            last=last,
        )
        for piece, side, first, last in halves
    ]
