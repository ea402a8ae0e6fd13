"""An error nobody caught: the work is kept, one sentence is said, a report is offered, and the window goes on."""

from __future__ import annotations

import sys
import threading
import traceback
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import Final

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog, QWidget

from app.bottomline import Answer, BottomLine
from app.safe import words
from app.safe.keeper import Keeper
from app.safe.report import report, signature
from app.store import Store
from core.document.errors import os_reason
from core.export.atomic import write_atomically
from core.language import tr

MOST_WRITTEN: Final = 20  # of one kind, on stderr


class Errors(QObject):
    """`tell` may be called from any thread and any number of times: a painter that fails does so at every frame."""

    _came = Signal(object)

    def __init__(self, store: Store, line: BottomLine, keeper: Keeper, window: QWidget) -> None:
        super().__init__(window)
        self._store = store
        self._line = line
        self._keeper = keeper
        self._window = window
        self._counts: dict[str, int] = {}
        self._telling = False
        self._came.connect(self._tell)

    @property
    def count(self) -> int:
        """How many errors nobody caught there were."""
        return sum(self._counts.values())

    def tell(self, error: BaseException) -> None:
        """Keep the work and say it."""
        self._came.emit(error)

    def _tell(self, error: BaseException) -> None:
        kind = signature(error)
        self._counts[kind] = self._counts.get(kind, 0) + 1
        if self._counts[kind] <= MOST_WRITTEN:
            traceback.print_exception(error)
        if self._telling or self._counts[kind] > 1:
            return
        self._telling = True
        try:
            self._keeper.write_now()
            kept = True
        except Exception:  # what went wrong first is what is told
            kept = False
        finally:
            self._telling = False
        text = report(error)
        answers = (
            Answer("answer_report", words.COPY_REPORT, lambda: self._copy(text)),
            Answer("answer_report_file", words.SAVE_REPORT, lambda: self._write(text)),
        )
        self._line.say("error", words.went_wrong(kept), answers)

    def _copy(self, text: str) -> None:
        QGuiApplication.clipboard().setText(text)
        self._line.say("fine", words.REPORT_COPIED)

    def _write(self, text: str) -> None:
        wanted = str(Path.home() / tr("grainfold report.txt"))
        chosen, _ = QFileDialog.getSaveFileName(self._window, tr("Write the report"), wanted, tr("Text (*.txt)"))
        if not chosen:
            return
        try:
            write_atomically(chosen, text.encode())
        except (OSError, ValueError) as error:
            self._line.say(
                "error", tr("Not written. {name}: {os_reason}.", name=Path(chosen).name, os_reason=os_reason(error))
            )
        else:
            self._line.say("fine", tr("{name} is written. It has no names and no paths in it.", name=Path(chosen).name))


def catch(tell: Callable[[BaseException], None]) -> None:
    """Errors nobody caught, of all threads, go to `tell` from now on."""

    def told(kind: type[BaseException], error: BaseException | None, trace: TracebackType | None) -> None:
        if error is None:
            return
        if not issubclass(kind, Exception):
            sys.__excepthook__(kind, error, trace)
        else:
            tell(error.with_traceback(trace))

    sys.excepthook = told
    threading.excepthook = lambda args: told(args.exc_type, args.exc_value, args.exc_traceback)
