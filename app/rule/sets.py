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
from core.language import tr


def together_words(store: Store) -> str:
    """Which shelves are edited together, and in what they differ; '' for one alone."""
    ids = store.together
    if len(ids) < 2:
        return ""
    shelves = [shelf for shelf in store.project.shelves if shelf.id in ids]
    letters = [letter(n) for n, shelf in enumerate(store.project.shelves) if shelf.id in ids]
    named = ", ".join(letters[:-1]) + tr(" and {letters}", letters=letters[-1])
    differ = [FIELD_NAMES[Shelf][name] for name in differing(shelves)]
    rest = (
        tr(
            " They differ in {join}; the numbers shown are {letter}'s.",
            join=", ".join(differ),
            letter=letter(store.shelf_index),
        )
        if differ
        else ""
    )
    return tr("A change goes to {named}.{rest}", named=named, rest=rest)


class Sets:
    """The selected shelves: those edited together, or the one."""

    def __init__(self, store: Store) -> None:
        self._store = store

    def _called(self) -> str:
        ids = self._store.together
        return ids[0] if len(ids) == 1 else tr("{ids} shelves", ids=len(ids))

    def duplicate(self) -> None:
        """Each once more."""
        ids = self._store.together
        if ids:
            project, name = duplicate_all(self._store.project, ids)
            self._store.apply(tr("Duplicate {self_}", self_=self._called()), lambda _: project, select=name)

    def remove(self) -> None:
        """Out of the project."""
        ids = self._store.together
        if ids:
            project, near = remove_all(self._store.project, ids)
            self._store.apply(tr("Remove {self_}", self_=self._called()), lambda _: project, select=near)

    def move(self, by: int) -> None:
        """One place earlier (-1) or later (1) in the list."""
        ids = self._store.together
        if ids:
            self._store.apply(tr("Move {self_}", self_=self._called()), lambda project: move_all(project, ids, by))

    def take_all(self) -> None:
        """All are edited together from now on."""
        self._store.join(shelf.id for shelf in self._store.project.shelves)

    def copy(self) -> str:
        """Put them on the clipboard as a text; what is to be said of it."""
        ids = self._store.together
        shelves = [shelf for shelf in self._store.project.shelves if shelf.id in ids]
        if not shelves:
            return tr("There is no shelf to copy.")
        QGuiApplication.clipboard().setText(shelves_text(shelves))
        return tr("Copied {self_} as text. Paste it into any project.", self_=self._called())

    def paste(self) -> str:
        """Take the shelves on the clipboard into the project; why not, '' when it is done."""
        try:
            shelves = parse_shelves(QGuiApplication.clipboard().text())
            project, ids = paste(self._store.project, shelves)
            self._store.apply(tr("Paste {name}", name=_named(ids)), lambda _: project, select=ids[0])
        except ProjectError as error:
            why = error.why[:1].upper() + error.why[1:]
            return tr("Nothing to paste: {why}.", why=why)
        self._store.select_alone(ids[0])
        if len(ids) > 1:
            self._store.join(ids)
        return ""


def _named(ids: tuple[str, ...]) -> str:
    return ids[0] if len(ids) == 1 else tr("{ids} shelves", ids=len(ids))
