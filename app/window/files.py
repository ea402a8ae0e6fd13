"""New, open, save: the document and its file. Questions and errors go to the bottom line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QWidget

from app.bottomline import Answer, BottomLine
from app.naming import file_stem
from app.rule.edits import new_project
from app.store import Store
from app.window.preferences import Preferences
from core.document.errors import ProjectError
from core.document.load import load_project
from core.document.save import save_project

ENDING = ".grainfold"
FILTER = f"Grainfold projects (*{ENDING})"


class Files:
    """The document's way to the disk and back."""

    def __init__(self, store: Store, line: BottomLine, preferences: Preferences, window: QWidget) -> None:
        self._store = store
        self._line = line
        self._preferences = preferences
        self._window = window

    def guard(self, go_on: Callable[[], None], without: str) -> None:
        """Do it, but ask first where that would lose changes. without: the answer that loses them."""
        if not self._store.unsaved:
            go_on()
            return
        name = self._store.project.name or "The project"

        def save_first() -> None:
            if self.save():
                go_on()

        self._line.ask(
            f"{name} has changes that are not saved.",
            (
                Answer("answer_save", "Save", save_first),
                Answer("answer_without", without, go_on),
                Answer("answer_stay", "Stay", lambda: None),
            ),
        )

    def new(self) -> None:
        """Begin a new project in the units in use."""
        self.guard(self._begin_new, "Go on without saving")

    def _begin_new(self) -> None:
        self._line.clear_message()
        self._store.replace_document(new_project(self._store.project.units), None)

    def open(self) -> None:
        """Choose a project file and open it."""
        self.guard(self._choose, "Go on without saving")

    def _choose(self) -> None:
        folder = self._store.path.parent if self._store.path else self._preferences.folder
        chosen, _ = QFileDialog.getOpenFileName(self._window, "Open a project", str(folder), FILTER)
        if chosen:
            self.open_path(Path(chosen))

    def open_path(self, path: Path) -> bool:
        """Open this file. What is wrong with it is said in the bottom line, and the project stays."""
        try:
            project = load_project(path)
        except ProjectError as error:
            self._line.say("error", f"Not opened. {error.in_file(path.name)}")
            return False
        self._line.clear_message()
        self._store.replace_document(project, path)
        self._preferences.folder = path.parent
        return True

    def open_copy(self, path: Path) -> bool:
        """Open a demo: what is made of it belongs in a file of its own."""
        try:
            project = load_project(path)
        except ProjectError:
            return False
        self._store.replace_document(project, None)
        return True

    def save(self) -> bool:
        """Save in the project's file; the first time, choose one. Returns whether it is saved."""
        return self._write(self._store.path) if self._store.path else self.save_as()

    def save_as(self) -> bool:
        """Choose a file and save there. Returns whether it is saved."""
        folder = self._store.path.parent if self._store.path else self._preferences.folder
        wanted = str(self._store.path or folder / f"{file_stem(self._store.project.name)}{ENDING}")
        chosen, _ = QFileDialog.getSaveFileName(self._window, "Save the project", wanted, FILTER)
        if not chosen:
            return False
        path = Path(chosen)
        return self._write(path if path.suffix else path.with_name(path.name + ENDING))

    def _write(self, path: Path) -> bool:
        project = self._store.project
        if trouble := self._store.pictures.lay_beside(project, path):
            self._line.say("error", f"Not saved. {trouble}.")
            return False
        try:
            save_project(project, path)
        except ProjectError as error:
            again = Answer("answer_elsewhere", "Save elsewhere", lambda: void(self.save_as))
            self._line.say("error", f"Not saved. {error.in_file(path.name)}", (again,))
            return False
        self._store.mark_saved(project, path)
        self._preferences.folder = path.parent
        self._line.say("fine", f"Saved as {path.name}.")
        return True


def void(action: Callable[[], object]) -> None:
    """Do it, whatever it returns."""
    action()
