"""The maker's own store of saws: one small JSON file with every saw that was kept, the same for all projects.

Two windows may use it at once: each change reads the file anew, and writes it whole or not at all, behind a lock that
is held for a moment. A file that cannot be read, or is of a newer version of this program, is never written over.
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from pathlib import Path
from time import monotonic, sleep
from typing import Final

import msgspec
import platformdirs
from PySide6.QtCore import QLockFile

from core.document.errors import os_reason, quoted
from core.document.model import Saw
from core.export.atomic import write_atomically
from core.language import tr
from core.saws.form import MAX_BYTES, SawFormError, name_complaint, parse_saws, saws_bytes

PATIENCE: Final = 10.0  # s; another window holds the lock for some milliseconds
PAUSE: Final = 0.01  # s between two looks at the lock
FORGOTTEN_MS: Final = 20_000  # a lock this old was left behind


class SawStoreError(Exception):
    """The store cannot do what it was told; `str()` is one sentence saying what and why."""


class SawStore:
    """The saws in a file; by default where the system keeps the data of this person's programs.

    Everything raises SawStoreError where it cannot be done; then nothing is changed.
    """

    def __init__(self, file: Path | None = None) -> None:
        self.file = file or platformdirs.user_data_path("Grainfold", appauthor=False) / "saws.json"

    def listing(self) -> tuple[Saw, ...]:
        """The kept saws, by name."""
        try:
            with open(self.file, "rb") as stream:
                data = stream.read(MAX_BYTES + 1)
        except FileNotFoundError:
            return ()
        except OSError as error:
            raise SawStoreError(
                tr("The saws in {file} cannot be read: {os_reason}.", file=self.file, os_reason=os_reason(error))
            ) from error
        try:
            return _sorted(parse_saws(data))
        except SawFormError as error:
            raise SawStoreError(
                tr("The saws in {file} cannot be used: {error}. The file is left alone.", file=self.file, error=error)
            ) from error

    def keep(self, saw: Saw) -> tuple[Saw, ...]:
        """Keep a saw under its name, in place of the one that has it; the saws there are then."""
        with self._locked() as saws:
            return self._write((*(other for other in saws if other.name != saw.name), saw))

    def rename(self, old: str, new: str) -> tuple[Saw, ...]:
        """Call a kept saw something else."""
        with self._locked() as saws:
            saw = _named(saws, old)
            if new != old and any(other.name == new for other in saws):
                raise SawStoreError(tr("There is a saw {quoted} already.", quoted=quoted(new)))
            rest = (other for other in saws if other.name != old)
            return self._write((*rest, msgspec.structs.replace(saw, name=new)))

    def remove(self, name: str) -> tuple[Saw, ...]:
        """Keep it no longer."""
        with self._locked() as saws:
            _named(saws, name)
            return self._write(tuple(other for other in saws if other.name != name))

    @contextlib.contextmanager
    def _locked(self) -> Iterator[tuple[Saw, ...]]:
        """The saws as they are now, while no other window may change them."""
        try:
            self.file.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise SawStoreError(
                tr("No saw can be kept in {file}: {os_reason}.", file=self.file, os_reason=os_reason(error))
            ) from error
        lock = QLockFile(f"{self.file}.lock")
        lock.setStaleLockTime(FORGOTTEN_MS)
        until = monotonic() + PATIENCE
        while not lock.tryLock(0):  # waiting in there would hold the window up too
            if monotonic() < until and lock.error() is QLockFile.LockError.LockFailedError:
                sleep(PAUSE)
                continue
            denied = lock.error() is QLockFile.LockError.PermissionError
            why = tr("permission denied") if denied else tr("another window is writing it")
            raise SawStoreError(tr("No saw can be kept in {file}: {why}.", file=self.file, why=why))
        try:
            yield self.listing()
        finally:
            lock.unlock()

    def _write(self, saws: tuple[Saw, ...]) -> tuple[Saw, ...]:
        for saw in saws:
            if complaint := name_complaint(saw.name):
                raise SawStoreError(tr("A saw's name {complaint}.", complaint=complaint))
        try:
            write_atomically(self.file, saws_bytes(_sorted(saws)))
        except SawFormError as error:
            raise SawStoreError(tr("This saw cannot be kept: {error}.", error=error)) from error
        except OSError as error:
            raise SawStoreError(
                tr("{file} cannot be written: {os_reason}.", file=self.file, os_reason=os_reason(error))
            ) from error
        return _sorted(saws)


def _sorted(saws: tuple[Saw, ...]) -> tuple[Saw, ...]:
    return tuple(sorted(saws, key=lambda saw: (saw.name.casefold(), saw.name)))


def _named(saws: tuple[Saw, ...], name: str) -> Saw:
    found = next((saw for saw in saws if saw.name == name), None)
    if found is None:
        raise SawStoreError(tr("There is no saw {quoted} any more.", quoted=quoted(name)))
    return found
