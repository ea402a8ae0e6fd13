"""The maker's own store of offcuts: a folder with one small JSON file for each piece, the same for all projects.

Two windows may use it at once and nobody waits for a lock: a new offcut first claims its number by creating its file,
which only one window can; every file is then written whole or not at all, and nothing that one window does to a piece
touches the file of another. A number is never given twice: a piece that is removed leaves its file, marked so.
"""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterable
from datetime import date
from itertools import count
from pathlib import Path

import msgspec
import platformdirs

from core.document.errors import os_reason
from core.export.atomic import write_atomically
from core.language import tr
from core.offcuts.form import MAX_BYTES, OffcutFormError, offcut_bytes, parse_offcut
from core.offcuts.model import KeptOffcut, offcut_id, offcut_number
from core.offcuts.rules import kept_from, same_piece, used_by
from core.plan.model import Plan

ENDING = ".json"


class OffcutStoreError(Exception):
    """The store cannot do what it was told; `str()` is one sentence saying what and why."""


class Listing(msgspec.Struct, frozen=True):
    """Offcuts, the largest first, and a sentence for every file that could not be used."""

    offcuts: tuple[KeptOffcut, ...]
    said: tuple[str, ...] = ()


class Kept(msgspec.Struct, frozen=True):
    """What keeping a plan's offcuts did to the store.

    new: put into it; used: those the plan's sheets were, now used up. known: how many of the plan's pieces were there
    already. stale: of the same project, but no longer in its plan.
    """

    new: tuple[KeptOffcut, ...] = ()
    used: tuple[KeptOffcut, ...] = ()
    known: int = 0
    stale: tuple[KeptOffcut, ...] = ()


class OffcutStore:
    """The offcuts in a folder; by default the one the system has for the data of this person's programs.

    Everything but `listing` and `everything` raises OffcutStoreError where it cannot be done; then nothing is changed.
    """

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder or platformdirs.user_data_path("Grainfold", appauthor=False) / "offcuts"

    def listing(self) -> Listing:
        """The offcuts that are there. A broken file is renamed to end in .bad, and told of once."""
        found = self.everything()
        return Listing(tuple(offcut for offcut in found.offcuts if offcut.there), found.said)

    def everything(self) -> Listing:
        """The same with those used up or removed."""
        offcuts, said = [], []
        try:
            names = sorted(os.listdir(self.folder))
        except FileNotFoundError:
            names = []
        except OSError as error:
            return Listing(
                (),
                (
                    tr(
                        "The offcuts in {folder} cannot be read: {os_reason}.",
                        folder=self.folder,
                        os_reason=os_reason(error),
                    ),
                ),
            )
        for name in names:
            if not name.endswith(ENDING) or offcut_number(name.removesuffix(ENDING)) is None:
                continue
            try:
                offcut = self._read(self.folder / name)
            except OffcutStoreError as error:
                said.append(str(error))
                continue
            if offcut is not None:
                offcuts.append(offcut)
        offcuts.sort(key=lambda offcut: (-offcut.area, offcut_number(offcut.id) or 0))
        return Listing(tuple(offcuts), tuple(said))

    def add(self, offcut: KeptOffcut) -> KeptOffcut:
        """Put a piece into the store; returned with the id it has there."""
        _bytes_of(msgspec.structs.replace(offcut, id=offcut_id(1)))  # refused before a number is claimed
        path = self._claim()
        kept = msgspec.structs.replace(offcut, id=path.name.removesuffix(ENDING))
        try:
            self._write(kept)
        except OffcutStoreError:
            with contextlib.suppress(OSError):
                path.unlink()
            raise
        return kept

    def keep(self, plan: Plan, face: str = "", today: date | None = None) -> Kept:
        """Keep a plan's offcuts, and mark those as used that it is cut from. A piece that is there is not kept twice.

        face: wood and what there is to say of it, in the maker's words; by default those of the sheet.
        """
        everything = self.everything().offcuts
        used = used_by(plan, everything)
        faces = {offcut.id: offcut.face for offcut in used}
        stocks = {sheet.id: sheet.stock for sheet in plan.sheets}
        known = [offcut for offcut in everything if not offcut.removed]
        new: list[KeptOffcut] = []
        gone: list[KeptOffcut] = []
        wanted = kept_from(plan, (today or date.today()).isoformat(), face)
        try:
            for offcut in wanted:
                if not any(same_piece(offcut, other) for other in known):
                    words = face or faces.get(stocks[offcut.sheet]) or offcut.face
                    new.append(self.add(msgspec.structs.replace(offcut, face=words)))
            for offcut in used:
                gone.append(self.mark_used(offcut.id, plan.project.name))
        except OffcutStoreError:
            self._forget(new, gone)
            raise
        mine = [o for o in known if o.there and o.piece and o.project == plan.project.name]
        stale = tuple(o for o in mine if not any(same_piece(o, other) for other in wanted))
        return Kept(tuple(new), tuple(gone), len(wanted) - len(new), stale)

    def unkeep(self, kept: Kept) -> None:
        """Take back what `keep` did."""
        for offcut in kept.new:
            self.remove(offcut.id)
        for offcut in kept.used:
            self.put_back(offcut.id)

    def _forget(self, new: Iterable[KeptOffcut], used: Iterable[KeptOffcut]) -> None:
        """As if these had never been kept, as far as that still goes."""
        for offcut in new:
            with contextlib.suppress(OSError):
                self._path(offcut.id).unlink()
        for offcut in used:
            with contextlib.suppress(OffcutStoreError):
                self.put_back(offcut.id)

    def change(self, offcut: KeptOffcut) -> None:
        """What is in the store under this id, measured or described anew."""
        self._get(offcut.id)
        self._write(offcut)

    def mark_used(self, name: str, project: str) -> KeptOffcut:
        """The piece has been used up in that project."""
        return self._put(msgspec.structs.replace(self._get(name), used_in=project or tr("a project")))

    def remove(self, name: str) -> KeptOffcut:
        """The piece is gone."""
        return self._put(msgspec.structs.replace(self._get(name), removed=True))

    def put_back(self, name: str) -> KeptOffcut:
        """The piece is there after all: neither used nor gone."""
        return self._put(msgspec.structs.replace(self._get(name), used_in="", removed=False))

    def _get(self, name: str) -> KeptOffcut:
        offcut = self._read(self._path(name)) if offcut_number(name) is not None else None
        if offcut is None:
            raise OffcutStoreError(tr("There is no {it} in the store.", it=name or "offcut"))
        return offcut

    def _put(self, offcut: KeptOffcut) -> KeptOffcut:
        self._write(offcut)
        return offcut

    def _path(self, name: str) -> Path:
        return self.folder / f"{name}{ENDING}"

    def _claim(self) -> Path:
        """A new file, empty, whose number no offcut has or had; no other window can get the same."""
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            taken = (offcut_number(name.partition(".")[0]) or 0 for name in os.listdir(self.folder))
            for number in count(max(taken, default=0) + 1):
                path = self._path(offcut_id(number))
                with contextlib.suppress(FileExistsError):
                    os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o666))
                    return path
        except OSError as error:
            raise OffcutStoreError(
                tr("Nothing can be kept in {folder}: {os_reason}.", folder=self.folder, os_reason=os_reason(error))
            ) from error
        raise AssertionError("numbers do not end")

    def _write(self, offcut: KeptOffcut) -> None:
        data = _bytes_of(offcut)
        try:
            write_atomically(self._path(offcut.id), data)
        except OSError as error:
            raise OffcutStoreError(
                tr("{id} cannot be written: {os_reason}.", id=offcut.id, os_reason=os_reason(error))
            ) from error

    def _read(self, path: Path) -> KeptOffcut | None:
        """The offcut in a file; None where there is none, or another window has claimed its number only just now."""
        try:
            with open(path, "rb") as stream:
                data = stream.read(MAX_BYTES + 1)
        except FileNotFoundError:
            return None
        except OSError as error:
            raise OffcutStoreError(
                tr("{name} cannot be read: {os_reason}.", name=path.name, os_reason=os_reason(error))
            ) from error
        if not data:
            return None
        try:
            offcut = parse_offcut(data)
            if self._path(offcut.id) != path:
                raise OffcutFormError(tr("its id is {id}", id=offcut.id))
        except OffcutFormError as error:
            if error.newer:
                raise OffcutStoreError(tr("{name} is left alone: {error}.", name=path.name, error=error)) from error
            raise OffcutStoreError(_set_aside(path, str(error))) from error
        return offcut


def _bytes_of(offcut: KeptOffcut) -> bytes:
    try:
        return offcut_bytes(offcut)
    except OffcutFormError as error:
        raise OffcutStoreError(tr("This offcut cannot be kept: {error}.", error=error)) from error


def _set_aside(path: Path, why: str) -> str:
    """Rename a broken file, over no other; the sentence that tells of it."""
    ends = (f".bad{n}" if n > 1 else ".bad" for n in count(1))
    aside = next(other for end in ends if not os.path.lexists(other := path.with_name(path.name + end)))
    try:
        os.rename(path, aside)
    except OSError as error:
        return tr(
            "{name} is broken ({why}) and cannot be renamed: {os_reason}.",
            name=path.name,
            why=why,
            os_reason=os_reason(error),
        )
    return tr("{name} is broken ({why}); it is kept as {name2}.", name=path.name, why=why, name2=aside.name)
