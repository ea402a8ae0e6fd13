"""Work of a window that ended without saving is taken back in, and said to be, with what differs and the way back."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from app.bottomline import Answer, BottomLine
from app.safe import words
from app.safe.keeper import Keeper
from app.safe.places import orphans, own_folder, read_rescue, remove, rescue_beside
from app.store import Store
from core.document.differences import differences
from core.document.model import Project
from core.document.rescue import Rescue
from core.language import tr


class Recovery:
    """Recovered work is an undo step on top of what was saved: whatever is answered, nothing is lost."""

    def __init__(self, store: Store, line: BottomLine, keeper: Keeper, folder: Path | None = None) -> None:
        self._store = store
        self._line = line
        self._keeper = keeper
        self._folder = folder
        self.show_differences: Callable[[Project, str], None] | None = None  # (from what, what that is)

    def look_beside(self, path: Path) -> bool:
        """The project at `path` was just opened: is there work of it that was not saved?"""
        beside = rescue_beside(path)
        found = read_rescue(beside)
        file = beside
        if found is None:
            mine = ((f, r) for f, r in orphans(self._folder or own_folder()) if r.of == str(path))
            file, found = next(mine, (beside, None))
        return found is not None and self._take(file, found)

    def look_for_orphans(self, open_path: Callable[[Path], bool]) -> bool:
        """At the start: is there work that never had a file, or whose folder could not be written?"""
        for file, rescue in orphans(self._folder or own_folder()):
            of = Path(rescue.of) if rescue.of else None
            if of is not None and of.is_file():
                return open_path(of)  # which looks for it
            if self._take(file, rescue):
                return True
        return False

    def _take(self, file: Path, rescue: Rescue) -> bool:
        before = self._store.document
        if rescue.project == before:
            remove(file)
            return False
        moved_on = bool(rescue.base) and bool(self._keeper.base) and rescue.base != self._keeper.base
        self._keeper.adopt(file)
        self._store.apply(words.RECOVERED_STEP, lambda _: rescue.project)
        phrases = differences(before, rescue.project, self._store.unit) or (tr("Its revisions differ"),)
        self._ask(rescue, phrases, moved_on, before)
        return True

    def _ask(self, rescue: Rescue, phrases: tuple[str, ...], moved_on: bool, before: Project) -> None:
        back = words.AS_SAVED if rescue.of else words.LEAVE_OUT
        answers = [
            Answer("answer_saved", back, self._back),
            Answer("answer_keep", words.KEEP_RECOVERED, lambda: None),
        ]
        show = self.show_differences
        if show is not None and rescue.of:
            answers.insert(
                0, Answer("answer_differs", words.SHOW_DIFFERENCES, lambda: show(before, tr("as it was saved")))
            )
        name = rescue.project.name
        if rescue.of:
            text = words.recovered(name, rescue.at, phrases, moved_on)
        else:
            text = words.recovered_new(name, rescue.at, len(rescue.project.shelves))
        self._line.ask(text, answers)

    def _back(self) -> None:
        if self._store.undo_label == words.RECOVERED_STEP:
            self._store.undo()  # redo brings them back
