"""One set-up at a time: a lock that the operating system frees when its holder ends, however it ends."""

import os
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

POLL = 0.2  # s between two tries

if sys.platform == "win32":
    import msvcrt

    def _take(handle: int) -> None:
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
else:
    import fcntl

    def _take(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _open_locked(path: str) -> int | None:
    """A handle that holds the lock, or None while another holds it (or has just removed the file)."""
    handle = os.open(path, os.O_RDWR | os.O_CREAT)
    try:
        _take(handle)
        if os.path.samestat(os.fstat(handle), os.stat(path)):
            return handle
    except (BlockingIOError, PermissionError, FileNotFoundError):
        pass  # held (PermissionError on Windows), or removed between our two looks
    except BaseException:
        os.close(handle)
        raise
    os.close(handle)
    return None


@contextmanager
def held(path: str, on_wait: Callable[[], None]) -> Iterator[None]:
    """Hold the lock file `path`; `on_wait` is called once if another process holds it now.

    Raises OSError where the file cannot be made.
    """
    handle = _open_locked(path)
    if handle is None:
        on_wait()
    while handle is None:
        time.sleep(POLL)
        handle = _open_locked(path)
    try:
        yield
    finally:
        if sys.platform != "win32":  # Windows removes no open file: there it stays, empty
            os.remove(path)
        os.close(handle)
