"""Everything the window can be told to do, in one table: its words, its keys, and what it is good for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QPushButton, QWidget

from app.rule.several import STARTERS

Keys = QKeySequence.StandardKey


@dataclass(frozen=True)
class Entry:
    """One action of the table."""

    name: str
    words: str
    keys: str | QKeySequence.StandardKey = ""
    tip: str = ""
    checkable: bool = False


TABLE: Final = (
    Entry("new", "New", Keys.New, "Start a new project: one sheet, an empty wall."),
    Entry("open", "Open", Keys.Open, "Open a project."),
    Entry("save", "Save", Keys.Save, "Save the project in its file."),
    Entry("save_as", "Save as …", "Ctrl+Shift+S", "Save the project in another file."),
    Entry(
        "pages",
        "Print",
        Keys.Print,
        "The plan set, page by page: look at it, print it, write it as PDF.",
        checkable=True,
    ),
    Entry("export_pdf", "Plan set, PDF …"),
    Entry("export_png", "Sheet picture, PNG …"),
    Entry("export_svg", "Sheet drawing, SVG …"),
    Entry("export_dxf", "Sheet drawing, DXF …"),
    Entry("export_csv", "Cut list, CSV …"),
    Entry("export_json", "Plan, JSON …"),
    Entry("undo", "Undo", Keys.Undo),
    Entry("redo", "Redo", "Ctrl+Shift+Z"),
    Entry("add_shelf", "Add a shelf", "Ctrl+Return", "One more shelf, of a common size."),
    Entry("duplicate_shelf", "Duplicate the shelf", "Ctrl+D"),
    Entry("remove_shelf", "Remove the shelf", "Ctrl+Delete"),
    Entry("earlier_shelf", "Shelf earlier in the list", "Alt+Left"),
    Entry("later_shelf", "Shelf later in the list", "Alt+Right"),
    Entry("all_shelves", "Edit all shelves together", "Ctrl+Shift+A", "What you change is changed of every shelf."),
    Entry("copy_shelf", "Copy the shelf", Keys.Copy, "As a text that can be pasted into any project."),
    Entry("paste_shelf", "Paste shelves", Keys.Paste, "Shelves copied here or in another project."),
    *(Entry(f"start_{name.replace(' ', '_')}", f"Add a {name}", tip=f"{said}.") for name, said, *_ in STARTERS),
    Entry("fill_wall", "Wall fills the window", "Ctrl+1", checkable=True),
    Entry("fill_fold", "Fold fills the window", "Ctrl+2", checkable=True),
    Entry("fill_sheet", "Sheet fills the window", "Ctrl+3", checkable=True),
    Entry("cut_steps", "Cut steps", "Ctrl+9", "The order of cuts, shown cut by cut.", checkable=True),
    Entry("cut_order", "Cut order", "Ctrl+4", checkable=True),
    Entry("cut_list", "Cut list", "Ctrl+5", checkable=True),
    Entry("offcuts", "Offcuts", "Ctrl+7", checkable=True),
    Entry("rack", "Kept offcuts", "Ctrl+8", checkable=True),
    Entry("keep_offcuts", "Keep these offcuts", tip="Put what is left of this plan into your rack, for later jobs."),
    Entry("section", "Seam section", "Ctrl+6", checkable=True),
    Entry("frame", "Frame", "Ctrl+Shift+F", "Rails, ribs, screws and studs, to scale.", checkable=True),
    Entry("history", "History", "Ctrl+H", "The steps back and forth, and the revisions kept.", checkable=True),
    Entry("figure", "Figure, seam by seam", "Ctrl+G", "What is lost and how well it matches.", checkable=True),
    Entry("photo", "Photograph of the sheet", "Ctrl+0", "Its own face, from a picture.", checkable=True),
    Entry("findings", "Findings", "Ctrl+L"),
    Entry("find", "What can be done", "Ctrl+K", "Everything there is to do, with its key; type to search."),
    Entry("help", "Help on this board", Keys.HelpContents, "What the board shows, by which formula, and what to mind."),
    Entry("guide", "First steps", tip="A guide of five steps through the window."),
    Entry("next_region", "Next part of the window", "F6"),
    Entry("theme_system", "As the system", checkable=True),
    Entry("theme_light", "Light", checkable=True),
    Entry("theme_dark", "Dark", checkable=True),
    Entry("paper_auto", "As the units", checkable=True),
    Entry("paper_letter", "Letter", checkable=True),
    Entry("paper_a4", "A4", checkable=True),
    Entry("paper_tabloid", "Tabloid", checkable=True),
    Entry("paper_a3", "A3", checkable=True),
    Entry("quit", "Leave", Keys.Quit),
)


class Actions(QObject):
    """The table as Qt actions of one window; `actions["save"].triggered` is what to connect to."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._actions: dict[str, QAction] = {}
        for entry in TABLE:
            action = QAction(entry.words, window)
            action.setObjectName(f"action_{entry.name}")
            action.setShortcut(QKeySequence(entry.keys))
            action.setCheckable(entry.checkable)
            action.setToolTip(entry.tip)
            window.addAction(action)
            self._actions[entry.name] = action

    def __getitem__(self, name: str) -> QAction:
        return self._actions[name]

    def names(self) -> tuple[str, ...]:
        """All of them, in the table's order."""
        return tuple(self._actions)


class ActionButton(QPushButton):
    """A button that is an action: its words, whether it can be done now, its tip with the keys."""

    def __init__(self, action: QAction, parent: QWidget | None = None, look: str = "") -> None:
        super().__init__(parent)
        self.setObjectName(action.objectName().replace("action_", "button_"))
        if look:
            self.setProperty("look", look)
        self._action = action
        self.clicked.connect(lambda: action.trigger())
        action.changed.connect(self._sync)
        self._sync()

    def _sync(self) -> None:
        self.setText(self._action.text())
        self.setEnabled(self._action.isEnabled())
        keys = self._action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
        tip = self._action.toolTip()
        self.setToolTip(f"{tip} ({keys})" if keys else tip)
