"""Looks whether the project's file was changed or removed by something else, and asks what to do about it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QObject, QTimer

from app.bottomline import Answer, BottomLine
from app.safe import words
from app.safe.disk import Disk
from app.store import Store
from core.document.differences import differences
from core.language import tr

LOOK_MS: Final = 3000


class Watch(QObject):
    """`look` is called by its timer, and by the window when it is activated. Nothing is asked while a hand drags."""

    def __init__(self, store: Store, line: BottomLine, disk: Disk, parent: QObject) -> None:
        super().__init__(parent)
        self._store = store
        self._line = line
        self._disk = disk
        self.save: Callable[[], object] = lambda: None
        self.save_as: Callable[[], object] = lambda: None
        self._gone = False
        self._timer = QTimer(self, interval=LOOK_MS)
        self._timer.timeout.connect(self.look)
        self._timer.start()

    def stop(self) -> None:
        """Look no more."""
        self._timer.stop()

    def look(self) -> None:
        """Ask where the file is another one, or gone."""
        path = self._store.path
        if path is None or self._line.asking or self._store.held is not None:
            return
        state = self._disk.state()
        if state == "gone" and not self._gone:
            self._gone = True
            self._store.file_holds(None)
            answers = (
                Answer("answer_save", words.SAVE, lambda: _void(self.save)),
                Answer("answer_elsewhere", words.SAVE_ELSEWHERE, lambda: _void(self.save_as)),
            )
            self._line.say("warning", words.gone_from_disk(path.name), answers)
        elif state == "changed":
            self._ask(path.name)
        if state != "gone":
            self._gone = False

    def _ask(self, name: str) -> None:
        before, mine = self._store.saved, self._store.document
        theirs = self._disk.read()
        if theirs is None:
            self._disk.accept()
            self._store.file_holds(None)
            self._line.say("warning", words.changed_on_disk(name, None), (self._elsewhere(),))
            return
        if theirs in (mine, before):
            self._store.file_holds(theirs)
            return
        self._store.file_holds(theirs)
        phrases = differences(mine, theirs, self._store.unit)
        self._line.ask(
            words.changed_on_disk(name, phrases or (tr("Its revisions differ"),)),
            (
                Answer("answer_take", words.TAKE_FILE, lambda: self._store.apply(words.FILES_STEP, lambda _: theirs)),
                Answer("answer_mine", words.KEEP_MINE, lambda: None),
            ),
        )

    def _elsewhere(self) -> Answer:
        return Answer("answer_elsewhere", words.SAVE_ELSEWHERE, lambda: _void(self.save_as))


def _void(action: Callable[[], object]) -> None:
    action()
