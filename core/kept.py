"""What was made last from the same things: under a dragging hand most of a plan is as it was."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from contextlib import suppress
from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from core.plan.model import Plan

Value = TypeVar("Value")


class Kept(Generic[Value]):
    """One value for each key, made anew when what it is made from is no longer equal.

    most: keys kept; of more, the one longest unused goes.
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._made: OrderedDict[Hashable, tuple[object, Value]] = OrderedDict()

    def get(self, key: Hashable, source: object, make: Callable[[], Value]) -> Value:
        """The value for a key. source: all that `make` reads, to be compared; values are shared: never change one."""
        before = self._made.pop(key, None)
        made = before if before is not None and before[0] == source else (source, make())
        self._made[key] = made
        if len(self._made) > self._most:
            with suppress(KeyError):  # a thread that tries ways out may have taken it a moment ago
                self._made.popitem(last=False)
        return made[1]


class Same:
    """A plan by its identity, as a key: what is made from one plan is asked for by several views."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan

    def __hash__(self) -> int:
        return id(self.plan)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and self.plan is other.plan
