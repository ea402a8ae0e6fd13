"""How long a search may go on."""

from __future__ import annotations

import time
from collections.abc import Callable

Stop = Callable[[], bool]


def never() -> bool:
    """A search that nobody stops."""
    return False


class Clock:
    """A limit of time and a way to end before it."""

    def __init__(self, seconds: float, stop: Stop = never) -> None:
        self.stop = stop
        self.end = time.monotonic() + seconds

    def over(self) -> bool:
        """Is the time up, or is the search to stop?"""
        return self.stop() or time.monotonic() >= self.end

    def left(self) -> float:
        """Time left, 0 once it is up. [s]"""
        return 0.0 if self.stop() else max(0.0, self.end - time.monotonic())

    def part(self, seconds: float) -> Clock:
        """A clock that ends after some seconds, and never later than this one."""
        return Clock(min(seconds, self.left()), self.stop)
