"""The top bar: the project's name, its state, and what is done to the whole of it."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QMenu, QPushButton, QWidget

from app.actions import GUESTS, ActionButton, Actions
from app.rule.choices import Segments
from app.rule.edits import in_units
from app.rule.fields import NameField
from app.rule.several import STARTERS
from app.store import Store
from app.theme import Theme
from app.theme.icons import icon
from app.theme.type import LEAD, font
from core.language import tr

HEIGHT = 46
NAME_LEAST, NAME_MOST = 110, 380  # pixels


class TopBar(QWidget):
    """One line; `more_menu` holds what has no button."""

    def __init__(self, store: Store, theme: Theme, actions: Actions, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("top_bar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFixedHeight(HEIGHT)
        self._store = store
        self._theme = theme
        self._actions = actions
        self._name = NameField("project_name", self._rename, live=True)
        self._name.setAccessibleName(tr("Project name"))
        self._name.setToolTip(tr("The project's name, as it stands on every page."))
        self._name.textChanged.connect(self._fit_name)
        self._name.settled.connect(store.end_run)
        self._state = QLabel(self)
        self._state.setObjectName("project_state")
        self._state.setProperty("role", "soft")
        self._units = Segments("units", (("in", "inch"), ("mm", "mm")))
        self._units.set_name(tr("Units"))
        self._units.chosen.connect(self._pick_units)
        self._units.setFixedWidth(104)
        self._more = QPushButton(tr("More"), self)
        self._more.setObjectName("button_more")
        self._more.setIcon(icon("more", theme))
        self.more_menu = QMenu(self._more)
        self._fill_menu()
        self._more.setMenu(self.more_menu)
        self._lay_out()
        theme.changed.connect(self.update)
        store.changed.connect(self.refresh)
        store.state_changed.connect(self.refresh)
        self.refresh()

    def _lay_out(self) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(10, 0, 12, 0)
        row.setSpacing(4)
        row.addWidget(self._name)
        row.addWidget(self._state)
        row.addStretch(1)
        for name in ("new", "open", "save"):
            row.addWidget(ActionButton(self._actions[name], self._theme, self))
        row.addWidget(self._more)
        row.addWidget(self._rule_off())
        for name in ("undo", "redo"):
            row.addWidget(ActionButton(self._actions[name], self._theme, self))
        row.addWidget(self._rule_off())
        row.addWidget(self._units)
        row.addSpacing(10)
        row.addWidget(ActionButton(self._actions["pages"], self._theme, self, look="accent"))

    def _rule_off(self) -> QFrame:
        line = QFrame(self)
        line.setFixedSize(13, 20)
        line.setObjectName("bar_line")
        return line

    def _fill_menu(self) -> None:
        menu = self.more_menu
        self.recent_menu = menu.addMenu(icon("open", self._theme), tr("Open recent"))
        menu.addAction(self._actions["save_as"])
        export = menu.addMenu(icon("export", self._theme), tr("Export"))
        for name in ("export_pdf", "export_png", "export_svg", "export_dxf", "export_csv", "export_json"):
            export.addAction(self._actions[name])
        export.addSeparator()
        for name in ("export_picture", "export_turntable", "export_model"):
            export.addAction(self._actions[name])
        paper = menu.addMenu(icon("paper", self._theme), tr("Paper"))
        for name in ("paper_auto", "paper_letter", "paper_a4", "paper_tabloid", "paper_a3"):
            paper.addAction(self._actions[name])
        menu.addSeparator()
        start = menu.addMenu(icon("add_shelf", self._theme), tr("Start from"))
        for name, *_ in STARTERS:
            start.addAction(self._actions[f"start_{name.replace(' ', '_')}"])
        shelves = menu.addMenu(icon("shelf", self._theme), tr("Shelves"))
        for name in ("add_shelf", "duplicate_shelf", "remove_shelf", "earlier_shelf", "later_shelf"):
            shelves.addAction(self._actions[name])
        for name in ("turn_net", "swap_nets", "all_shelves", "copy_shelf", "paste_shelf"):
            shelves.addAction(self._actions[name])
        menu.addSeparator()
        # in a menu of their own: a small screen is not as tall
        self.boards_menu = boards = menu.addMenu(icon("boards", self._theme), tr("Boards"))
        for name in ("fill_wall", "fill_fold", "fill_sheet"):
            boards.addAction(self._actions[name])
        boards.addSeparator()
        for name in GUESTS:
            boards.addAction(self._actions[name])
        menu.addSeparator()
        menu.addAction(self._actions["keep_offcuts"])
        menu.addSeparator()
        theme = menu.addMenu(icon("theme", self._theme), tr("Light and dark"))
        for name in ("theme_system", "theme_light", "theme_dark"):
            theme.addAction(self._actions[name])
        language = menu.addMenu(icon("language", self._theme), tr("Language"))
        for name in ("language_system", "language_en", "language_de"):
            language.addAction(self._actions[name])
        menu.addSeparator()
        for name in ("find", "help", "guide"):
            menu.addAction(self._actions[name])
        menu.addSeparator()
        menu.addAction(self._actions["quit"])

    def refresh(self) -> None:
        """Show the document."""
        project = self._store.project
        self._name.show_value(project.name)
        self._fit_name()
        self._units.show_value(project.units)
        if self._store.unsaved:
            state = tr("unsaved changes")
        elif self._store.path is None:
            state = tr("not in a file yet")
        else:
            state = tr("saved")
        if self._state.text() != state:
            self._state.setText(state)
        where = str(self._store.path) if self._store.path else ""
        if self._state.toolTip() != where:
            self._state.setToolTip(where)

    def _fit_name(self) -> None:
        wide = QFontMetrics(font(LEAD, strong=True)).horizontalAdvance(self._name.text()) + 24
        self._name.setFixedWidth(min(max(wide, NAME_LEAST), NAME_MOST))

    def _rename(self, name: str) -> str:
        self._store.apply(tr("Project name"), lambda p: msgspec.structs.replace(p, name=name), "project.name")
        return ""

    def _pick_units(self, key: str) -> None:
        self._store.apply(tr("Units"), lambda p: in_units(p, key))

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setPen(QPen(QColor(self._theme.palette.hairline), 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
        for line in self.findChildren(QFrame, "bar_line"):
            at = line.geometry().center()
            painter.drawLine(at.x(), at.y() - 9, at.x(), at.y() + 9)
        painter.end()
