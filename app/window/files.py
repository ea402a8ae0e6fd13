"""New, open, save: the document and its file. Questions and errors go to the bottom line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QWidget

from app.bottomline import Answer, BottomLine
from app.naming import file_stem
from app.rule.edits import new_project
from app.safe import words
from app.safe.disk import Disk, digest
from app.safe.keeper import Keeper
from app.safe.recovery import Recovery
from app.safe.watch import Watch
from app.store import Store
from app.window.preferences import Preferences
from core.document.errors import ProjectError
from core.document.load import load_project, load_with_bytes
from core.document.model import Project
from core.document.save import save_project
from core.language import tr

ENDING = ".grainfold"
FILTER = tr("Grainfold projects (*{ENDING})", ENDING=ENDING)


class Files:
    """The document's way to the disk and back."""

    def __init__(self, store: Store, line: BottomLine, preferences: Preferences, window: QWidget) -> None:
        self._store = store
        self._line = line
        self._preferences = preferences
        self._window = window
        self.begun: Callable[[], None] = lambda: None  # called once a new project is there
        self.disk = Disk()
        self.keeper = Keeper(store, window)
        self.keeper.trouble.connect(self._tell_trouble)
        self.recovery = Recovery(store, line, self.keeper)
        self.watch = Watch(store, line, self.disk, window)
        self.watch.save, self.watch.save_as = self._save_over, self.save_as

    def close(self, leave: bool = False) -> None:
        """The window goes. leave: what is not saved stays on the disk, for the next start."""
        self.watch.stop()
        self.keeper.close(leave)

    def guard(self, go_on: Callable[[], None], without: str) -> None:
        """Do it, but ask first where that would lose changes. without: the answer that loses them."""
        if not self._store.unsaved:
            go_on()
            return

        def save_first() -> None:
            if self.save():
                go_on()

        self._line.ask(
            words.unsaved(self._store.document.name),
            (
                Answer("answer_save", words.SAVE, save_first),
                Answer("answer_without", without, go_on),
                Answer("answer_stay", words.STAY, lambda: None),
            ),
        )

    # New and open

    def new(self) -> None:
        """Begin a new project in the units in use."""
        self.guard(self._begin_new, words.GO_ON_WITHOUT)

    def _begin_new(self) -> None:
        self._line.clear_message()
        self._begin(new_project(self._store.document.units))
        self.begun()

    def _begin(self, project: Project, path: Path | None = None, data: bytes = b"") -> None:
        """This is the document now."""
        if path is None:
            self.disk.forget()
        else:
            self.disk.knows(path, data)
        self.keeper.forget()
        self.keeper.belong_to(path, self.disk.digest)
        self._store.replace_document(project, path)

    def open(self) -> None:
        """Choose a project file and open it."""
        self.guard(self._choose, words.GO_ON_WITHOUT)

    def _choose(self) -> None:
        folder = self._store.path.parent if self._store.path else self._preferences.folder
        chosen, _ = QFileDialog.getOpenFileName(self._window, tr("Open a project"), str(folder), FILTER)
        if chosen:
            self.open_path(Path(chosen))

    def open_guarded(self, path: Path) -> None:
        """Open this file, but ask first where that would lose changes."""
        self.guard(lambda: _void(lambda: self.open_path(path)), words.GO_ON_WITHOUT)

    def open_path(self, path: Path) -> bool:
        """Open this file. What is wrong with it is said in the bottom line, and the project stays."""
        try:
            project, data = load_with_bytes(path)
        except ProjectError as error:
            self._line.say("error", tr("Not opened. {in_file}", in_file=error.in_file(path.name)))
            self._preferences.forget_recent(path)
            return False
        self._line.clear_message()
        path = path.absolute()
        self._begin(project, path, data)
        self._preferences.folder = path.parent
        self._preferences.remember(path)
        if not self.keeper.alone:
            self._ask_twice(path)
        else:
            self.recovery.look_beside(path)
        return True

    def _ask_twice(self, path: Path) -> None:
        self._line.ask(
            words.open_twice(path.name),
            (
                Answer("answer_copy", words.OPEN_COPY, lambda: self._begin(self._store.document)),
                Answer("answer_anyway", words.OPEN_ANYWAY, lambda: None),
            ),
        )

    def open_copy(self, path: Path) -> bool:
        """Open a demo: what is made of it belongs in a file of its own."""
        try:
            project = load_project(path)
        except ProjectError:
            return False
        self._begin(project)
        return True

    # Save

    def save(self) -> bool:
        """Save in the project's file; the first time, choose one. Returns whether it is saved."""
        path = self._store.path
        if path is None:
            return self.save_as()
        if self.disk.state() == "changed":
            self._ask_over(path)
            return False
        return self._write(path)

    def _ask_over(self, path: Path) -> None:
        self._line.ask(
            words.save_over(path.name),
            (
                Answer("answer_elsewhere", words.SAVE_ELSEWHERE, lambda: _void(self.save_as)),
                Answer("answer_over", words.SAVE_OVER, lambda: _void(self._save_over)),
                Answer("answer_stay", words.STAY, lambda: None),
            ),
        )

    def _save_over(self) -> bool:
        return self._write(self._store.path) if self._store.path else self.save_as()

    def save_as(self) -> bool:
        """Choose a file and save there. Returns whether it is saved."""
        folder = self._store.path.parent if self._store.path else self._preferences.folder
        wanted = str(self._store.path or folder / f"{file_stem(self._store.document.name)}{ENDING}")
        chosen, _ = QFileDialog.getSaveFileName(self._window, tr("Save the project"), wanted, FILTER)
        if not chosen:
            return False
        path = Path(chosen)
        return self._write(path if path.suffix else path.with_name(path.name + ENDING))

    def _write(self, path: Path) -> bool:
        project = self._store.document
        if trouble := self._store.pictures.lay_beside(project, path):
            self._line.say("error", tr("Not saved. {trouble}.", trouble=trouble))
            return False
        try:
            data = save_project(project, path)
        except ProjectError as error:
            answers = (
                Answer("answer_elsewhere", words.SAVE_ELSEWHERE, lambda: _void(self.save_as)),
                Answer("answer_again", words.TRY_AGAIN, lambda: _void(lambda: self._write(path))),
            )
            self._line.say("error", words.not_saved(str(error.in_file(path.name))), answers)
            return False
        path = path.absolute()
        self.disk.knows(path, data)
        self.keeper.finish()
        self._store.mark_saved(project, path)
        self.keeper.belong_to(path, digest(data))
        self._preferences.folder = path.parent
        self._preferences.remember(path)
        self._line.say("fine", tr("Saved as {name}.", name=path.name))
        return True

    def _tell_trouble(self, why: str, kept: bool) -> None:
        answer = Answer("answer_elsewhere", words.SAVE_ELSEWHERE, lambda: _void(self.save_as))
        self._line.say("warning" if kept else "error", words.kept_elsewhere(why, kept), (answer,))


def _void(action: Callable[[], object]) -> None:
    """Do it, whatever it returns."""
    action()
