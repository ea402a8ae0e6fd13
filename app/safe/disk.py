"""What the project's file held when it was last read or written, and whether it still does."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path
from typing import Literal, NamedTuple

from core.document.errors import ProjectError
from core.document.load import load_with_bytes
from core.document.model import Project

State = Literal["same", "changed", "gone"]
Signature = tuple[int, int, int]


def digest(data: bytes) -> str:
    """SHA-256 of a file's bytes."""
    return hashlib.sha256(data).hexdigest()


def _signature(path: Path) -> Signature | None:
    try:
        status = os.stat(path)
    except (OSError, ValueError):
        return None
    return (status.st_mtime_ns, status.st_size, status.st_ino)


class Known(NamedTuple):
    """One file as this window knows it."""

    path: Path
    signature: Signature | None
    digest: str


class Disk:
    """The file of the document. A look costs one question to the system; it is read only where something is new."""

    def __init__(self) -> None:
        self._known: Known | None = None

    @property
    def digest(self) -> str:
        """SHA-256 of what the file is known to hold, '' for no file."""
        return self._known.digest if self._known else ""

    def knows(self, path: Path, data: bytes) -> None:
        """The file at `path` holds `data`: it was just read or written."""
        self._known = Known(path, _signature(path), digest(data))

    def forget(self) -> None:
        """There is no file."""
        self._known = None

    def state(self) -> State:
        """Is the file as it is known to be?"""
        known = self._known
        if known is None:
            return "same"
        now = _signature(known.path)
        if now is None:
            return "gone"
        if now == known.signature:
            return "same"
        try:
            with open(known.path, "rb") as stream:
                found = hashlib.file_digest(stream, "sha256").hexdigest()
        except OSError:
            return "gone"
        if found != known.digest:
            return "changed"
        self._known = known._replace(signature=now)  # touched, or written with the same again
        return "same"

    def read(self) -> Project | None:
        """What the file holds now, known from here on; None where it cannot be used."""
        if self._known is None:
            return None
        try:
            project, data = load_with_bytes(self._known.path)
        except ProjectError:
            return None
        self.knows(self._known.path, data)
        return project

    def accept(self) -> None:
        """Whatever the file holds is known from now on; saving may write over it."""
        if self._known is not None:
            try:
                self.knows(self._known.path, self._known.path.read_bytes())
            except OSError:
                self._known = self._known._replace(signature=None)
