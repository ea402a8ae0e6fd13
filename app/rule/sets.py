"""What is done to the selected shelves as a set: each edit one step, each told in words."""

from __future__ import annotations

from PySide6.QtGui import QGuiApplication

from app.rule.several import differing, duplicate_all, move_all, paste, remove_all
from app.store import Store
from core.document.errors import ProjectError
from core.document.model import Shelf
from core.document.names import FIELD_NAMES
from core.document.shelves_text import parse_shelves, shelves_text
from core.drawing.names import letter


def together_words(store: Store) -> str:
    """Which shelves are edited together, and in what they differ; '' for one alone."""
    ids = store.together
    if len(ids) < 2:
        return ""
    shelves = [shelf for shelf in store.project.shelves if shelf.id in ids]
    letters = [letter(n) for n, shelf in enumerate(store.project.shelves) if shelf.id in ids]
    named = ", ".join(letters[:-1]) + f" and {letters[-1]}"
    differ = [FIELD_NAMES[Shelf][name] for name in differing(shelves)]
    rest = (
        f" They differ in {', '.join(differ)}; the numbers shown are {letter(store.shelf_index)}'s." if differ else ""
    )
    return f"A change goes to {named}.{rest}"


class Sets:
    """The selected shelves: those edited together, or the one."""

    def __init__(self, store: Store) -> None:
        self._store = store

    def _called(self) -> str:
        ids = self._store.together
        return ids[0] if len(ids) == 1 else f"{len(ids)} shelves"

    def duplicate(self) -> None:
        """Each once more."""
        ids = self._store.together
        if ids:
            project, name = duplicate_all(self._store.project, ids)
            self._store.apply(f"Duplicate {self._called()}", lambda _: project, select=name)

    def remove(self) -> None:
        """Out of the project."""
        ids = self._store.together
        if ids:
            project, near = remove_all(self._store.project, ids)
            self._store.apply(f"Remove {self._called()}", lambda _: project, select=near)

    def move(self, by: int) -> None:
        """One place earlier (-1) or later (1) in the list."""
        ids = self._store.together
        if ids:
            self._store.apply(f"Move {self._called()}", lambda project: move_all(project, ids, by))

    def take_all(self) -> None:
        """All are edited together from now on."""
        self._store.join(shelf.id for shelf in self._store.project.shelves)

    def copy(self) -> str:
        """Put them on the clipboard as a text; what is to be said of it."""
        ids = self._store.together
        shelves = [shelf for shelf in self._store.project.shelves if shelf.id in ids]
        if not shelves:
            return "There is no shelf to copy."
        QGuiApplication.clipboard().setText(shelves_text(shelves))
        return f"Copied {self._called()} as text. Paste it into any project."

    def paste(self) -> str:
        """Take the shelves on the clipboard into the project; why not, '' when it is done."""
        try:
            shelves = parse_shelves(QGuiApplication.clipboard().text())
            project, ids = paste(self._store.project, shelves)
            self._store.apply(f"Paste {_named(ids)}", lambda _: project, select=ids[0])
        except ProjectError as error:
            why = error.why[:1].upper() + error.why[1:]
            return f"Nothing to paste: {why}."
        self._store.select_alone(ids[0])
        if len(ids) > 1:
            self._store.join(ids)
        return ""


def _named(ids: tuple[str, ...]) -> str:
    return ids[0] if len(ids) == 1 else f"{len(ids)} shelves"
