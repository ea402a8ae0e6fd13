"""Which stock a net may come from: asked in one place."""

from __future__ import annotations

from collections.abc import Sequence

from core.document.model import Sheet, Shelf
from core.layout.model import LEAST_SAWN, NetSize


def allows(shelf: Shelf, net: NetSize, stock: Sheet) -> bool:
    """May the shelf be cut from that stock?"""
    sawn = min(shelf.length, shelf.depth, shelf.height, stock.thickness) >= LEAST_SAWN
    return sawn and named(shelf, stock) and stock.thickness < net.thickest


def named(shelf: Shelf, stock: Sheet) -> bool:
    """Is the stock of a kind the shelf asks for, whatever its thickness?"""
    return stock.use != "frame" and shelf.sheet in (None, stock.id)


def first_allowed(shelf: Shelf, net: NetSize, stocks: Sequence[Sheet]) -> Sheet | None:
    """The first stock a shelf may come from, None where there is none."""
    return next((s for s in stocks if allows(shelf, net, s)), None)
