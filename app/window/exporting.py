"""Writing the plan for others: pages, pictures, drawings, tables. What each needs is loaded when it is asked for.

Pages are made in slices between the window's own events and may be called off; a file that is there already is never
written over without an answer in the bottom line.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog, QWidget

from app.boards.words import counted
from app.bottomline import Answer, BottomLine
from app.naming import file_stem
from app.store import Store
from app.window.preferences import Paper, Preferences
from core.document.model import Project
from core.language import tr
from core.plan.model import Plan

if TYPE_CHECKING:
    from app.printing.making import Making

WORDS = {
    "pdf": (tr("plan set"), tr("Pages (*.pdf)")),
    "png": ("sheet", tr("Pictures (*.png)")),
    "svg": ("sheet", tr("Drawings (*.svg)")),
    "dxf": ("sheet", tr("Drawings (*.dxf)")),
    "csv": ("cut list", tr("Tables (*.csv)")),
    "json": ("plan", tr("Plans (*.json)")),
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


def _revision(project: Project) -> tuple[str, ...]:
    """What a file's name says of the revision; nothing where there is none that is the project as it stands."""
    from core.document.revisions import current_revision

    at = current_revision(project)
    return (tr("revision {at}", at=at + 1),) if at >= 0 else ()


def _is_there(path: Path) -> bool:
    """Is a file there? One whose name no system takes is not; writing it says why."""
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def _void(action: Callable[[], object]) -> None:
    """Do it, whatever it returns."""
    action()


class Exporting:
    """Asks where, writes, and says so in the bottom line."""

    def __init__(self, store: Store, line: BottomLine, preferences: Preferences, window: QWidget) -> None:
        self._store = store
        self._line = line
        self._preferences = preferences
        self._window = window
        self.keep: Callable[[], None] | None = None  # keep the plan's offcuts, as goes well with its pages
        self._making: Making | None = None
        self._then: Callable[[object], None] | None = None

    @property
    def making(self) -> Making:
        """What makes pages; loaded when it is first asked for."""
        if self._making is None:
            from app.printing.making import Making

            self._making = Making(self._window)
            self._making.ended.connect(self._made)
        return self._making

    @property
    def paper(self) -> Paper | None:
        """The paper of the pages; None for what goes with the units."""
        return self._preferences.paper

    @paper.setter
    def paper(self, paper: Paper | None) -> None:
        self._preferences.paper = paper

    def export(self, form: str) -> bool:
        """Write the plan in this form ('pdf', 'svg', …) to a file that is asked for."""
        path = self.ask_where(WORDS[form][0], form, WORDS[form][1])
        if path is None:
            return False
        go_on = partial(self._make_pdf, path, None) if form == "pdf" else partial(self.write, form, path)
        return self.over(path, go_on)

    def save_pages(self, names: tuple[str, ...] | None) -> bool:
        """Write the pages of those names, None for all, to a file that is asked for."""
        what = WORDS["pdf"][0] if names is None else ", ".join(names)
        path = self.ask_where(what, "pdf", WORDS["pdf"][1])
        return path is not None and self.over(path, partial(self._make_pdf, path, names))

    def print_pages(self, printer: str, names: tuple[str, ...] | None) -> None:
        """Print the pages of those names, None for all."""
        from app.paper.pdf import frame_of
        from app.printing.printer import print_pages

        plan = self.settled()
        title = plan.project.name or tr("Plan set")
        self._then = partial(self._printed, printer)
        self.making.print(plan, frame_of(plan, self.paper), names, partial(print_pages, printer, title))
        self._say_busy(tr("Printing on {printer}.", printer=printer))

    def ask_where(self, what: str, ending: str, kinds: str) -> Path | None:
        """The file that is chosen, None for none; its name is offered from the project and what is written."""
        folder = self._store.path.parent if self._store.path else self._preferences.folder
        name = ", ".join((file_stem(self._store.project.name), *_revision(self._store.document), what))
        wanted = folder / f"{name}.{ending}"
        options = QFileDialog.Option.DontConfirmOverwrite  # the bottom line asks
        chosen, _ = QFileDialog.getSaveFileName(
            self._window, tr("Write the {what}", what=what), str(wanted), kinds, options=options
        )
        if not chosen:
            return None
        path = Path(chosen)
        return path if path.suffix else path.with_name(f"{path.name}.{ending}")

    def over(self, path: Path, go_on: Callable[[], object]) -> bool:
        """Go on, but ask first where a file would be written over."""
        if not _is_there(path):
            return bool(go_on())
        self._line.ask(
            tr("{name} is there already.", name=path.name),
            (
                Answer("answer_over", tr("Write over it"), lambda: _void(go_on)),
                Answer("answer_leave", tr("Leave it"), lambda: None),
            ),
        )
        return False

    def settled(self) -> Plan:
        """The plan as it stands, whole."""
        self._store.planner.settle()
        return self._store.planner.plan  # never that of a way out that is only looked at

    def _make_pdf(self, path: Path, names: tuple[str, ...] | None) -> bool:
        from app.paper.pdf import frame_of

        plan = self.settled()
        self._then = partial(self._put, path, plan)
        self.making.write(plan, frame_of(plan, self.paper), names)
        self._say_busy(tr("Writing {name}.", name=path.name))
        return True

    def _say_busy(self, words: str) -> None:
        self._line.say("note", words, (Answer("answer_cancel", tr("Call it off"), self.making.cancel),))

    def _made(self, outcome: object) -> None:
        then, self._then = self._then, None
        self._line.clear_message()
        if outcome is None:
            self._line.say("fine", tr("Called off: nothing is written."))
        elif then is not None:
            then(outcome)

    def _put(self, path: Path, plan: Plan, outcome: object) -> None:
        if isinstance(outcome, bytes):
            self._to_disk("pdf", path, plan, outcome)
        else:
            self._line.say(
                "error", tr("Not written. The pages could not be made: {getattr}.", getattr=getattr(outcome, "why", ""))
            )

    def _printed(self, printer: str, outcome: object) -> None:
        if isinstance(outcome, bytes):
            said = tr("Sent to {printer}. Measure the bar on the first page.", printer=printer)
            self._line.say("fine", said + self._nominal())
        else:
            self._line.say("error", tr("Not printed. {getattr}.", getattr=getattr(outcome, "why", "")))

    def write(self, form: str, path: Path) -> bool:
        """Write it there. Returns whether it is written."""
        plan = self.settled()
        return self._to_disk(form, path, plan, MAKERS[form](plan, self._preferences.paper))

    def say_written(self, path: Path) -> None:
        """Say that a file is written, and offer to show it."""
        show = Answer("answer_show", tr("Show it"), lambda: self._show(path))
        self._line.say("fine", tr("{name} is written.", name=path.name), [show])

    def _nominal(self) -> str:
        """What is still nominal, as a sentence behind another."""
        from core.findings.nominal import nominal_words, still_nominal

        words = nominal_words(still_nominal(self._store.planner.plan))
        return f" {words}" if words else ""

    def _to_disk(self, form: str, path: Path, plan: Plan, data: bytes) -> bool:
        from core.document.errors import os_reason
        from core.export.atomic import write_atomically

        try:
            write_atomically(path, data)
        except (OSError, ValueError) as error:
            self._line.say("error", tr("Not written. {name}: {os_reason}.", name=path.name, os_reason=os_reason(error)))
            return False
        show = [Answer("answer_show", tr("Show it"), lambda: self._show(path))]
        if form == "pdf" and plan.offcuts and not plan.errors and self.keep is not None:
            show.append(Answer("answer_keep", tr("Keep these offcuts"), self.keep))
        errors = len(plan.errors)
        if errors:
            text = tr(
                "{name} is written, but the plan has {counted}: do not cut by it yet.",
                name=path.name,
                counted=counted(errors, "error"),
            )
            self._line.say("warning", text, show)
        else:
            self._line.say("fine", tr("{name} is written.", name=path.name) + self._nominal(), show)
        return True

    def _show(self, path: Path) -> None:
        self._line.clear_message()
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(path)))
