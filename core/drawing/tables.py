"""Tables as texts, the same on paper and in the window."""

from __future__ import annotations

from typing import Literal

import msgspec


class Column(msgspec.Struct, frozen=True):
    """One column; `tick` columns are empty boxes to tick by hand."""

    heading: str
    align: Literal["left", "right", "tick"] = "left"


class Table(msgspec.Struct, frozen=True):
    """Rows of texts under headings; `abouts` has the id of what each row is about ('' for none)."""

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    abouts: tuple[str, ...]
    notes: tuple[str, ...] = ()
