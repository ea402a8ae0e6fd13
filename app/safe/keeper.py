"""Keeps unsaved work on the disk while it is edited: written some seconds after a change, removed when it is saved."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from time import monotonic
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from app.rack.work import Work
from app.safe.places import Claim, lock_beside, lock_of, new_lonely, own_folder, remove, rescue_beside
from app.store import Store
from core.document.errors import ProjectError, os_reason
from core.document.rescue import Rescue, rescue_bytes
from core.export.atomic import write_atomically

AFTER_MS: Final = 3000  # from the first change to the writing of it
LATEST_MS: Final = 7000  # under a hand that drags; with the writing itself no more than 10 s are ever lost
AGAIN_MS: Final = 400  # between two looks whether the hand is still at it


class Keeper(QObject):
    """Watches one store. `trouble` carries why the place beside the project cannot be written, and whether the work
    is kept in the program's own folder instead.
    """

    trouble = Signal(str, bool)

    def __init__(
        self, store: Store, parent: QObject | None = None, folder: Path | None = None, after_ms: int = AFTER_MS
    ) -> None:
        super().__init__(parent)
        self._store = store
        self._folder = folder
        self._after_ms = after_ms
        self._latest_ms = max(after_ms, after_ms * LATEST_MS // AFTER_MS)
        self._work = Work(self)
        self._path: Path | None = None
        self._claim: Claim | None = None
        self._lonely: Path | None = None
        self._lonely_claim: Claim | None = None
        self._written: set[Path] = set()
        self._kept: object = None  # the project that is on the disk, or on its way there
        self._since: float | None = None  # when the first change was made that is not
        self._told = ""
        self.base = ""  # SHA-256 of the file the work began from
        self._timer = QTimer(self, singleShot=True)
        self._timer.timeout.connect(self._due)
        store.changed.connect(self._follow)
        store.state_changed.connect(self._follow)

    # Whose file it is

    @property
    def alone(self) -> bool:
        """Has no other window the project open?"""
        return self._claim is None or self._claim.held or self._claim.denied

    def belong_to(self, path: Path | None, base: str = "") -> None:
        """The work belongs to this file from now on (None: to none yet). base: SHA-256 of what the file holds."""
        self.base = base
        if path == self._path and (path is None or (self._claim is not None and self._claim.held)):
            return
        self._work.finish()
        if self._claim is not None:
            self._claim.let_go()
        self._path = path
        self._claim = Claim(lock_beside(path)) if path is not None else None
        self._told = ""

    # Keeping

    @property
    def waiting(self) -> bool:
        """Is there a change that is not on the disk yet?"""
        return self._since is not None or self._work.busy

    def _follow(self) -> None:
        if not self._store.unsaved:
            self._rest()
        elif self._store.document is not self._kept and self._since is None:
            self._since = monotonic()
            self._timer.start(self._after_ms)

    def _rest(self) -> None:
        """There is nothing to keep."""
        self._timer.stop()
        self._since = self._kept = None
        self.forget()

    def _due(self) -> None:
        waited = 1000.0 * (monotonic() - (self._since or 0.0))
        if self._store.held is not None and waited < self._latest_ms - AGAIN_MS:
            self._timer.start(AGAIN_MS)  # writing would be felt in the drag
        else:
            self.keep()

    def keep(self) -> None:
        """Write what there is now, beside the window."""
        self._timer.stop()
        self._since = None
        self._kept = project = self._store.document
        steps, of, base = self._store.undo_labels, self._path, self.base
        at = datetime.now().isoformat(timespec="seconds")
        places = self._places()

        def write() -> tuple[Path | None, str]:
            why = ""
            for place in places:
                told = str(of) if of and place is self._lonely else of.name if of else ""
                try:
                    place.parent.mkdir(parents=True, exist_ok=True) if place is self._lonely else None
                    write_atomically(place, rescue_bytes(Rescue(project, told, base, at, steps)))
                except (OSError, ValueError) as error:
                    why = why or os_reason(error)
                except ProjectError as error:
                    why = why or error.why
                else:
                    return place, why
            return None, why

        self._work.do(write, self._done, self._failed)

    def _places(self) -> list[Path]:
        places = []
        if self._path is not None and self._claim is not None and self._claim.held:
            places.append(rescue_beside(self._path))
        if self._lonely is None:
            self._lonely = new_lonely(self._folder or own_folder())
        places.append(self._lonely)
        return places

    def _done(self, outcome: tuple[Path | None, str]) -> None:
        place, why = outcome
        if place is not None:
            for other in self._written - {place}:
                remove(other)
            self._written = {place}
            if place is self._lonely and self._lonely_claim is None:
                self._lonely_claim = Claim(lock_of(place))
        if why and why != self._told:
            self._told = why
            self.trouble.emit(why, place is not None)
        elif not why:
            self._told = ""
        if not self._store.unsaved:
            self._rest()

    def _failed(self, error: Exception) -> None:
        self.trouble.emit(type(error).__name__, False)

    def adopt(self, file: Path) -> None:
        """This rescue file is that of the work at hand: it goes when the work is saved."""
        self._written.add(file)

    def finish(self) -> None:
        """Wait for what is being written."""
        self._work.finish()

    def write_now(self) -> None:
        """Keep what is not saved, and come back when that is done."""
        self._work.finish()
        if self._store.unsaved and (self._since is not None or self._store.document is not self._kept):
            self.keep()
        self._work.finish()

    def forget(self) -> None:
        """The work is saved, or wanted no more: nothing of it stays beside."""
        if self._written or self._work.busy:
            self._work.finish()
            for file in self._written:
                remove(file)
            self._written = set()
        if self._lonely_claim is not None:
            self._lonely_claim.let_go()
            self._lonely_claim = None

    def close(self, leave: bool = False) -> None:
        """No more is kept. leave: what is not saved stays on the disk, for the next start."""
        if leave:
            self.write_now()
        self._timer.stop()
        for signal in (self._store.changed, self._store.state_changed):
            signal.disconnect(self._follow)
        if not leave:
            self.forget()
        self._work.close()
        for claim in (self._claim, self._lonely_claim):
            if claim is not None:
                claim.let_go()
