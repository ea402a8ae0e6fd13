"""Arrays as the addresses that Qt's OpenGL calls want."""

from __future__ import annotations

from typing import Any

from numpy.typing import NDArray
from shiboken6 import VoidPtr


def address(array: NDArray[Any], *, is_written: bool = False) -> int:
    """Where an array's bytes lie; it must be contiguous, and live as long as the call. Qt's stubs call that an int."""
    pointer: Any = VoidPtr
    found: int = pointer(array.ctypes.data, array.nbytes, is_written)
    return found
