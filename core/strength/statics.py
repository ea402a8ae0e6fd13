"""Statics of the frame: a bracket turning about its lower edge, beams, and who carries how much. Units: N, mm, MPa."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import Final

Places = tuple[float, ...]
REMEMBERED: Final = 256  # of each: a frame's ribs and studs are asked about again with each change that is tried


def pulls(moment: float, heights: Sequence[float]) -> tuple[float, ...]:
    """Pull on each fastener of a rigid bracket that turns about its lower edge: M y / sum(y^2). [N]

    moment about that edge [N mm]; heights of the fasteners above it [mm].
    """
    total = sum(y * y for y in heights)
    return tuple(moment * y / total for y in heights)


@lru_cache(REMEMBERED)
def heaviest_share(places: Places, length: float) -> float:
    """The largest share of a load spread from 0 to length that one of the places carries, 0..1, on a stiff beam.

    Places that give alike, W / n + W e (x - c) / sum((x - c)^2), e from their centre c to the load's; with two it is
    what equilibrium alone says. Beyond the last place a load weighs more than its own part. places: ascending. [mm]
    """
    centre = sum(places) / len(places)
    total = sum((x - centre) ** 2 for x in places)
    if total <= 0.0:
        return 1.0
    off = length / 2.0 - centre
    return max(1.0 / len(places) + off * (x - centre) / total for x in (places[0], places[-1]))


@lru_cache(REMEMBERED)
def widest_share(places: Places, length: float) -> float:
    """The largest share of a load spread from 0 to length that one of the places carries, 0..1, or of its turning.

    Each carries half the way to its neighbours, the outer ones all that lies beyond them.
    places: ascending. [mm]
    """
    if not places:
        return 1.0
    middles = [(one + other) / 2.0 for one, other in pairwise(places)]
    edges = [min(0.0, places[0]), *middles, max(length, places[-1])]
    return min(1.0, max(b - a for a, b in pairwise(edges)) / length)


@lru_cache(REMEMBERED)
def widest_gap(places: Places) -> float:
    """The widest way from one place to the next; 0 where there are none. places: ascending. [mm]"""
    return max((b - a for a, b in pairwise(places)), default=0.0)


@lru_cache(REMEMBERED)
def widest_round(places: Places, others: Places) -> float:
    """The widest way from one place to the next with one of the others between them; 0 where there is none. [mm]"""
    return max((b - a for a, b in pairwise(places) if any(a < x < b for x in others)), default=0.0)


def span_moment(load: float, span: float) -> float:
    """Greatest moment of a beam on two ends, w L^2 / 8. load: evenly spread. [N/mm] Result [N mm]"""
    return load * span * span / 8.0


def overhang_moment(load: float, reach: float) -> float:
    """Greatest moment of a cantilever evenly loaded, w L^2 / 2. [N/mm, mm -> N mm]"""
    return load * reach * reach / 2.0


def span_sag(load: float, span: float, stiffness: float) -> float:
    """Sag of a beam on two ends, 5 w L^4 / 384 EI. stiffness: EI. [N/mm, mm, N mm2 -> mm]"""
    return 5.0 * load * span**4 / (384.0 * stiffness)


def overhang_sag(load: float, reach: float, stiffness: float) -> float:
    """Sag of the end of a cantilever evenly loaded, w L^4 / 8 EI. [N/mm, mm, N mm2 -> mm]"""
    return load * reach**4 / (8.0 * stiffness)


def tip_sag(force: float, reach: float, stiffness: float) -> float:
    """Sag of the end of a cantilever loaded there, P L^3 / 3 EI. [N, mm, N mm2 -> mm]"""
    return force * reach**3 / (3.0 * stiffness)
