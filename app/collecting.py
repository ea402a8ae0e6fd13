"""Keeps Python's collector out of threads: it would take Qt's objects apart there, where they must not be touched."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock

_LOCK = Lock()
_waiting = [0]  # threads that must not be disturbed


def settle_what_lasts() -> None:
    """Count all there is among what has lasted: without it, the first look for garbage after `no_collecting` goes
    through everything that was made meanwhile."""
    gc.freeze()
    gc.unfreeze()


@contextmanager
def no_collecting() -> Iterator[None]:
    """Nothing is collected, in any thread, while a thread is inside."""
    with _LOCK:
        _waiting[0] += 1
        gc.disable()
    try:
        yield
    finally:
        with _LOCK:
            _waiting[0] -= 1
            if not _waiting[0]:
                gc.enable()
