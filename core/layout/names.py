"""Names of real sheets: the stock's id and a running number, kept apart from every other sheet and piece name."""

from __future__ import annotations

from collections.abc import Sequence

from core.document.model import Sheet


def sheet_names(kinds: Sequence[Sheet], stocks: Sequence[Sheet]) -> list[str]:
    """A name for each sheet used: A1, A2 ... for copies of stock A.

    Piece names are the sheet's name, a point and a number; a stock's id that could be mistaken for another sheet's
    name or piece gets dashes and its place in the list before the number (ids 'A' and 'A1': A-1-1 and A1-2-1).
    """
    ids = [k.id for k in kinds]
    counts: dict[str, int] = {}
    names = []
    for stock in stocks:
        counts[stock.id] = counts.get(stock.id, 0) + 1
        clash = any(o != stock.id and (o.startswith(stock.id) or stock.id.startswith(o)) for o in ids)
        joint = f"-{ids.index(stock.id) + 1}-" if clash else ""
        names.append(f"{stock.id}{joint}{counts[stock.id]}")
    return names
