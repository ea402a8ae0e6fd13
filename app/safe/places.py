"""Where unsaved work is kept, and the locks that say whose it is.

Beside the project `hallway.grainfold`, while a window has changes of it that are not saved:

    hallway.grainfold-rescue     the work (its form: `core.document.rescue`)
    .hallway.grainfold-lock      which process has the project open

Work that has no file yet, or whose folder cannot be written, is kept in the program's own folder under a number, with
a lock of its own beside it. A lock whose process has ended holds nothing.
"""

from __future__ import annotations

import contextlib
import os
import uuid
from pathlib import Path
from typing import Final

import platformdirs
from PySide6.QtCore import QLockFile

from core.document.errors import ProjectError
from core.document.rescue import MAX_BYTES, Rescue, parse_rescue

RESCUE: Final = "-rescue"
LOCK: Final = "-lock"
LONELY: Final = ".grainfold"  # between the number and the ending, in the program's own folder


def rescue_beside(path: Path) -> Path:
    """The rescue file of a project."""
    return path.with_name(path.name + RESCUE)


def lock_beside(path: Path) -> Path:
    """The lock of a project."""
    return path.with_name(f".{path.name}{LOCK}")


def own_folder() -> Path:
    """The program's own folder for work without a place of its own."""
    return platformdirs.user_data_path("Grainfold", appauthor=False) / "rescue"


def new_lonely(folder: Path) -> Path:
    """A name for work without a place of its own, that no other has."""
    return folder / f"{uuid.uuid4().hex[:12]}{LONELY}{RESCUE}"


def lock_of(rescue: Path) -> Path:
    """The lock of a file in the program's own folder."""
    return rescue.with_name(rescue.name.removesuffix(RESCUE) + LOCK)


class Claim:
    """A lock that is held until it is let go, or its process ends."""

    def __init__(self, file: Path) -> None:
        self._lock = QLockFile(str(file))
        self._lock.setStaleLockTime(0)  # how long it is held says nothing: only whether its process lives
        self.held = self._lock.tryLock(0)
        self.denied = not self.held and self._lock.error() is not QLockFile.LockError.LockFailedError

    def let_go(self) -> None:
        """Whoever wants it may have it."""
        if self.held:
            self.held = False
            self._lock.unlock()


def read_rescue(file: Path) -> Rescue | None:
    """The work in a file; None where there is none that can be used."""
    try:
        with open(file, "rb") as stream:
            return parse_rescue(stream.read(MAX_BYTES + 1))
    except (OSError, ProjectError, ValueError, RecursionError):
        return None


def orphans(folder: Path) -> list[tuple[Path, Rescue]]:
    """Work in the program's own folder that no living window keeps, the newest first."""
    found = []
    with contextlib.suppress(OSError):
        for name in os.listdir(folder):
            file = folder / name
            if not name.endswith(RESCUE):
                continue
            claim = Claim(lock_of(file))
            if claim.held:
                rescue = read_rescue(file)
                claim.let_go()
                if rescue is not None:
                    found.append((file, rescue))
    return sorted(found, key=lambda pair: pair[1].at, reverse=True)


def remove(file: Path) -> None:
    """Away with it, if it is there and that can be done."""
    with contextlib.suppress(OSError):
        file.unlink()
