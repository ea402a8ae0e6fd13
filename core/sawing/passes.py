"""Passes: crosscuts at one line through strips that lie side by side are made in one go.

The cuts of one sheet come in an order that can be sawn. Within a step they may change places as long as every piece
is there before it is cut; here they are put so that cuts of one key stand together wherever that is possible.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from core.sawing.bench import SawnCut

Key = tuple[object, ...]


def in_passes(cuts: Iterable[SawnCut]) -> list[SawnCut]:
    """The cuts step by step, those of one key together where their pieces allow."""
    ordered: list[SawnCut] = []
    for _, step in groupby(cuts, key=lambda c: c.step):
        some = list(step)
        keys = [key for key, _ in groupby(c.key for c in some) if key is not None]
        ordered += _together(some) if len(set(keys)) < len(keys) else some
    return ordered


def _together(cuts: list[SawnCut]) -> list[SawnCut]:
    """List scheduling: the first key all of whose cuts can be made now, else the first cut that can."""
    made_by = {name: i for i, c in enumerate(cuts) for name in c.makes if name is not None}
    waits = {i: made_by.get(c.piece) for i, c in enumerate(cuts)}
    left = list(range(len(cuts)))
    done: list[int] = []
    gone: set[int] = set()
    while left:
        ready = [i for i in left if waits[i] is None or waits[i] in gone]
        chosen = _whole_key(cuts, left, ready) or _partial(cuts, ready)
        done += chosen
        gone.update(chosen)
        left = [i for i in left if i not in gone]
    return [cuts[i] for i in done]


def _whole_key(cuts: list[SawnCut], left: list[int], ready: list[int]) -> list[int]:
    """The first ready cuts whose key has no cut that must wait; a cut without a key is one by itself."""
    free = set(ready)
    for i in ready:
        key = cuts[i].key
        same = [j for j in left if cuts[j].key == key] if key is not None else [i]
        if all(j in free for j in same):
            return same
    return []


def _partial(cuts: list[SawnCut], ready: list[int]) -> list[int]:
    key = cuts[ready[0]].key
    return [j for j in ready if cuts[j].key == key]
