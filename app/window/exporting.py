"""Writing the plan for others: pages, pictures, drawings, tables. What each needs is loaded when it is asked for."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog, QWidget

from app.boards.words import counted
from app.bottomline import Answer, BottomLine
from app.naming import file_stem
from app.store import Store
from app.window.preferences import Paper, Preferences
from core.plan.model import Plan

WORDS = {
    "pdf": ("cut sheet", "Pages (*.pdf)"),
    "png": ("sheet", "Pictures (*.png)"),
    "svg": ("sheet", "Drawings (*.svg)"),
    "dxf": ("sheet", "Drawings (*.dxf)"),
    "csv": ("cut list", "Tables (*.csv)"),
    "json": ("plan", "Plans (*.json)"),
}


def _pdf(plan: Plan, paper: Paper | None) -> bytes:
    from app.paper.pdf import pdf_bytes

    return pdf_bytes(plan, paper)


def _png(plan: Plan, paper: Paper | None) -> bytes:
    from app.paper.png import png_bytes

    return png_bytes(plan, None)


def _svg(plan: Plan, paper: Paper | None) -> bytes:
    from core.drawing.catalog import drawings
    from core.export.svg import svg_bytes

    return svg_bytes(drawings(plan, None))


def _dxf(plan: Plan, paper: Paper | None) -> bytes:
    from core.drawing.catalog import drawings
    from core.export.dxf import dxf_bytes

    return dxf_bytes(drawings(plan, None))


def _csv(plan: Plan, paper: Paper | None) -> bytes:
    from core.export.cut_list_csv import csv_bytes

    return csv_bytes(plan)


def _json(plan: Plan, paper: Paper | None) -> bytes:
    from core.export.plan_json import json_bytes

    return json_bytes(plan)


MAKERS: dict[str, Callable[[Plan, Paper | None], bytes]] = {
    "pdf": _pdf,
    "png": _png,
    "svg": _svg,
    "dxf": _dxf,
    "csv": _csv,
    "json": _json,
}


class Exporting:
    """Asks where, writes, and says so in the bottom line."""

    def __init__(self, store: Store, line: BottomLine, preferences: Preferences, window: QWidget) -> None:
        self._store = store
        self._line = line
        self._preferences = preferences
        self._window = window
        self.keep: Callable[[], None] | None = None  # keep the plan's offcuts, as goes well with its pages

    def export(self, form: str) -> bool:
        """Write the plan in this form ('pdf', 'svg', …) to a file that is asked for."""
        what, kinds = WORDS[form]
        folder = self._store.path.parent if self._store.path else self._preferences.folder
        wanted = folder / f"{file_stem(self._store.project.name)}, {what}.{form}"
        title = f"Write the {what}"
        chosen, _ = QFileDialog.getSaveFileName(self._window, title, str(wanted), kinds)
        if not chosen:
            return False
        path = Path(chosen)
        return self.write(form, path if path.suffix else path.with_name(f"{path.name}.{form}"))

    def write(self, form: str, path: Path) -> bool:
        """Write it there. Returns whether it is written."""
        from core.document.errors import os_reason
        from core.export.atomic import write_atomically

        self._store.planner.settle()
        plan = self._store.planner.plan  # never that of a way out that is only looked at
        try:
            write_atomically(path, MAKERS[form](plan, self._preferences.paper))
        except OSError as error:
            self._line.say("error", f"Not written. {path.name}: {os_reason(error)}.")
            return False
        show = [Answer("answer_show", "Show it", lambda: self._show(path))]
        if form == "pdf" and plan.offcuts and not plan.errors and self.keep is not None:
            show.append(Answer("answer_keep", "Keep these offcuts", self.keep))
        errors = len(plan.errors)
        if errors:
            text = f"{path.name} is written, but the plan has {counted(errors, 'error')}: do not cut by it yet."
            self._line.say("warning", text, show)
        else:
            self._line.say("fine", f"{path.name} is written.", show)
        return True

    def _show(self, path: Path) -> None:
        self._line.clear_message()
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(path)))
