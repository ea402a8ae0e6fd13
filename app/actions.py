"""Everything the window can be told to do, in one table: its words, its keys, and what it is good for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QObject, QSize
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QPushButton, QWidget

from app.rule.several import STARTERS
from app.theme import Theme
from app.theme.icons import SIZE, Tone, icon
from core import LANGUAGES
from core.language import tr

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
    Entry("new", tr("New"), Keys.New, tr("Start a new project: one sheet, an empty wall.")),
    Entry("open", tr("Open"), Keys.Open, tr("Open a project.")),
    Entry("save", tr("Save"), Keys.Save, tr("Save the project in its file.")),
    Entry("save_as", tr("Save as …"), "Ctrl+Shift+S", tr("Save the project in another file.")),
    Entry(
        "pages",
        tr("Print"),
        Keys.Print,
        tr("The plan set, page by page: look at it, print it, write it as PDF."),
        checkable=True,
    ),
    Entry("export_pdf", tr("Plan set, PDF …")),
    Entry("export_png", tr("Sheet picture, PNG …")),
    Entry("export_svg", tr("Sheet drawing, SVG …")),
    Entry("export_dxf", tr("Sheet drawing, DXF …")),
    Entry("export_csv", tr("Cut list, CSV …")),
    Entry("export_json", tr("Plan, JSON …")),
    Entry("export_picture", tr("Picture of the shelves, PNG …"), tip=tr("As they will be; its board says how.")),
    Entry("export_turntable", tr("Turntable of the shelves, WebP …"), tip=tr("A moving picture.")),
    Entry("export_model", tr("Model of the shelves, GLB …"), tip=tr("glTF, with the sheet's own face on it.")),
    Entry("undo", tr("Undo"), Keys.Undo),
    Entry("redo", tr("Redo"), "Ctrl+Shift+Z"),
    Entry("add_shelf", tr("Add a shelf"), "Ctrl+Return", tr("One more shelf, of a common size.")),
    Entry("duplicate_shelf", tr("Duplicate the shelf"), "Ctrl+D"),
    Entry("remove_shelf", tr("Remove the shelf"), "Ctrl+Delete"),
    Entry("earlier_shelf", tr("Shelf earlier in the list"), "Alt+Left"),
    Entry("later_shelf", tr("Shelf later in the list"), "Alt+Right"),
    Entry(
        "all_shelves", tr("Edit all shelves together"), "Ctrl+Shift+A", tr("What you change is changed of every shelf.")
    ),
    Entry(
        "turn_net",
        tr("Turn end for end"),
        "Ctrl+T",
        tr("The net by half a turn where it lies: another figure lands on each face."),
    ),
    Entry("swap_nets", tr("Swap places"), "Ctrl+Shift+T", tr("Two nets change places on their sheets.")),
    Entry("copy_shelf", tr("Copy the shelf"), Keys.Copy, tr("As a text that can be pasted into any project.")),
    Entry("paste_shelf", tr("Paste shelves"), Keys.Paste, tr("Shelves copied here or in another project.")),
    *(
        Entry(f"start_{name.replace(' ', '_')}", tr("Add a {name}", name=tr(name)), tip=f"{said}.")
        for name, said, *_ in STARTERS
    ),
    Entry("fill_wall", tr("Wall fills the window"), "Ctrl+1", checkable=True),
    Entry("fill_fold", tr("Fold fills the window"), "Ctrl+2", checkable=True),
    Entry("fill_sheet", tr("Sheet fills the window"), "Ctrl+3", checkable=True),
    Entry("cut_steps", tr("Cut steps"), "Ctrl+9", tr("The order of cuts, shown cut by cut."), checkable=True),
    Entry("cut_order", tr("Cut order"), "Ctrl+4", checkable=True),
    Entry("cut_list", tr("Cut list"), "Ctrl+5", checkable=True),
    Entry("offcuts", tr("Offcuts"), "Ctrl+7", checkable=True),
    Entry("rack", tr("Kept offcuts"), "Ctrl+8", checkable=True),
    Entry(
        "keep_offcuts",
        tr("Keep these offcuts"),
        tip=tr("Put what is left of this plan into your rack, for later jobs."),
    ),
    Entry("section", tr("Seam section"), "Ctrl+6", checkable=True),
    Entry("frame", tr("Frame"), "Ctrl+Shift+F", tr("Rails, ribs, screws and studs, to scale."), checkable=True),
    Entry("history", tr("History"), "Ctrl+H", tr("The steps back and forth, and the revisions kept."), checkable=True),
    Entry("figure", tr("Figure, seam by seam"), "Ctrl+G", tr("What is lost and how well it matches."), checkable=True),
    Entry("showing", tr("Pictures to show"), "Ctrl+Shift+G", tr("The shelves as they will be."), checkable=True),
    Entry("photo", tr("Photograph of the sheet"), "Ctrl+0", tr("Its own face, from a picture."), checkable=True),
    Entry("findings", tr("Findings"), "Ctrl+L"),
    Entry("nominal", tr("What is still nominal"), "Ctrl+Shift+L", tr("What nobody has measured yet.")),
    Entry("find", tr("What can be done"), "Ctrl+K", tr("Everything there is to do, with its key; type to search.")),
    Entry(
        "help",
        tr("Help on this board"),
        Keys.HelpContents,
        tr("What the board shows, by which formula, and what to mind."),
    ),
    Entry("guide", tr("First steps"), tip=tr("A guide of five steps through the window.")),
    Entry("next_region", tr("Next part of the window"), "F6"),
    Entry("thing_menu", tr("Menu of what is selected"), "Shift+F10", tr("What can be done with it.")),
    Entry("theme_system", tr("As the system"), checkable=True),
    Entry("theme_light", tr("Light"), checkable=True),
    Entry("theme_dark", tr("Dark"), checkable=True),
    Entry("paper_auto", tr("As the units"), checkable=True),
    Entry("paper_letter", tr("Letter"), checkable=True),
    Entry("paper_a4", "A4", checkable=True),
    Entry("paper_tabloid", tr("Tabloid"), checkable=True),
    Entry("paper_a3", "A3", checkable=True),
    Entry("language_system", tr("As the system"), checkable=True),
    *(
        Entry(f"language_{code}", name, tip=tr("The window opens anew. Nothing is lost."), checkable=True)
        for code, name in LANGUAGES.items()
    ),
    Entry("quit", tr("Leave"), Keys.Quit),
)


# Boards that open in the sheet's place, in the order they are listed in; each is an action that opens and shuts it.
GUESTS: Final = (
    *("history", "cut_steps", "cut_order", "cut_list", "section", "frame", "figure", "showing", "photo", "offcuts"),
    *("rack", "pages"),
)


class Actions(QObject):
    """The table as Qt actions of one window; `actions["save"].triggered` is what to connect to."""

    def __init__(self, window: QWidget, theme: Theme) -> None:
        super().__init__(window)
        self._actions: dict[str, QAction] = {}
        for entry in TABLE:
            action = QAction(icon(entry.name, theme), entry.words, window)
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
    """A button that is an action: its icon and words, whether it can be done now, its tip with the keys."""

    def __init__(self, action: QAction, theme: Theme, parent: QWidget | None = None, look: str = "") -> None:
        super().__init__(parent)
        self.setObjectName(action.objectName().replace("action_", "button_"))
        if look:
            self.setProperty("look", look)
        tone: Tone = "on_chalk" if look == "accent" else "ink"
        self.setIcon(icon(action.objectName().removeprefix("action_"), theme, tone))
        self.setIconSize(QSize(SIZE, SIZE))
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
