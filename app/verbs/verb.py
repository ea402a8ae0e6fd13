"""A verb for a thing: what it is called, and what it does at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple


class Verb(NamedTuple):
    """name: of its icon and object. can: is it possible now? checked: for one of several of which one holds."""

    name: str
    words: str
    do: Callable[[], object]
    can: bool = True
    checked: bool | None = None


Groups = Sequence[Sequence[Verb]]  # with a line between two groups
