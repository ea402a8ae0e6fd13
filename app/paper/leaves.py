"""The pages of words, tables and pictures: cover, buying list, wall, set-ups, log, glue-up, frame, install, finish."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.paper.frame import Frame
from app.paper.leaf import leaf_pages
from app.paper.page import Page
from core.leaves.ascut import as_cut_leaf
from core.leaves.buying import buying_leaf
from core.leaves.cover import cover_leaf
from core.leaves.finish import finish_leaf
from core.leaves.frame import frame_leaves
from core.leaves.glue import glue_leaves
from core.leaves.install import install_leaf
from core.leaves.model import Leaf
from core.leaves.setups import setup_leaf
from core.leaves.wall import wall_leaf
from core.plan.model import Plan


def cover_pages(plan: Plan, frame: Frame) -> Iterable[Page]:
    """The shelves on their wall, and their sizes."""
    return leaf_pages(cover_leaf(plan), frame)


def buying_pages(plan: Plan, frame: Frame) -> Iterable[Page]:
    """What to buy."""
    return leaf_pages(buying_leaf(plan), frame)


def wall_pages(plan: Plan, frame: Frame) -> Iterable[Page]:
    """The wall in elevation, with blanks; none where no shelf hangs."""
    return _maybe(wall_leaf(plan), frame)


def setup_pages(plan: Plan, frame: Frame) -> Iterable[Page]:
    """The saw's set-ups; none where nothing is cut."""
    return _maybe(setup_leaf(plan), frame)


def as_cut_pages(plan: Plan, frame: Frame) -> Iterable[Page]:
    """The log of what was cut; none where nothing is."""
    return _maybe(as_cut_leaf(plan), frame)


def glue_pages(plan: Plan, frame: Frame) -> Iterator[Page]:
    """Gluing up, one leaf for all shells that are alike."""
    for leaf in glue_leaves(plan):
        yield from leaf_pages(leaf, frame)


def frame_pages(plan: Plan, frame: Frame) -> Iterator[Page]:
    """The hidden frames."""
    for leaf in frame_leaves(plan):
        yield from leaf_pages(leaf, frame)


def install_pages(plan: Plan, frame: Frame) -> Iterable[Page]:
    """Hanging them; none where no shelf hangs."""
    return _maybe(install_leaf(plan), frame)


def finish_pages(plan: Plan, frame: Frame) -> Iterable[Page]:
    """Filling, sanding, oiling."""
    return leaf_pages(finish_leaf(plan), frame) if plan.panels else ()


def _maybe(leaf: Leaf | None, frame: Frame) -> Iterable[Page]:
    return leaf_pages(leaf, frame) if leaf is not None else ()
