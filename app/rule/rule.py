"""The rule: the numbers of what is selected, then sheet, wall, saw, frame and glue."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QPointF, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QApplication, QFrame, QLineEdit, QScrollArea, QVBoxLayout, QWidget

from app.rule import edits
from app.rule.area_section import AreaSection
from app.rule.chips import ChipStrip
from app.rule.figure_section import FigureSection
from app.rule.load_section import LoadSection
from app.rule.rows import BoundSection
from app.rule.several import start_from
from app.rule.sheet_section import SheetSection
from app.rule.shelf_section import EmptyShelves, ShelfSection
from app.rule.shop_sections import FrameSection, GlueSection, SawSection, ScrewSection
from app.rule.wall_section import WallSection
from app.store import Store
from app.theme import Theme
from core.drawing.names import letter
from core.language import tr
from core.lengths import INCH_MM, Unit

WIDTH = 288
JOIN_TIP = tr("With Ctrl or Shift: edit it together with the chosen one.")
AROUND = 24  # pixels seen over and under what has the focus
SCALE_WIDTH = 12  # of the graduation along the right edge


class Rule(QWidget):
    """The editing panel. Its right edge is graduated like the rule it is named after.

    `menu_asked` carries the shelf of the list that a menu is wanted for, where on the screen, and None.
    """

    menu_asked = Signal(str, QPoint, object)

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("rule")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFixedWidth(WIDTH)
        self._store = store
        self._theme = theme
        self._graduated = store.unit
        self._count = 0  # of the shelves last shown
        self._chips = ChipStrip("shelf_chips", tr("Add a shelf"))
        self._chips.chosen.connect(store.select_alone)
        self._chips.joined.connect(store.toggle_together)
        self._chips.add_asked.connect(self.add_shelf)
        self._chips.menu_asked.connect(self.menu_asked)
        self._empty = EmptyShelves()
        self._empty.start_asked.connect(self.start_from)
        self._shelf = ShelfSection(store, theme)
        self.sheets = SheetSection(store, theme)
        self.wall = WallSection(store, theme)
        self.sections: list[BoundSection] = [
            AreaSection(store, theme),
            self._shelf,
            self.sheets,
            FigureSection(store, theme),
            self.wall,
            SawSection(store, theme),
            FrameSection(store, theme),
            ScrewSection(store, theme),
            LoadSection(store, theme),
            GlueSection(store, theme),
        ]
        self._lay_out()
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._show_focus)
        theme.changed.connect(self.update)
        store.changed.connect(self.refresh)
        store.selection_changed.connect(self.refresh)
        self.refresh()

    def _lay_out(self) -> None:
        body = QWidget(self)
        body.setObjectName("rule_body")
        body.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        column = QVBoxLayout(body)
        column.setContentsMargins(14, 12, 5, 20)
        column.setSpacing(8)
        for widget in (self._chips, self._empty, *self.sections):
            column.addWidget(widget)
        column.addStretch(1)
        self._scroll = QScrollArea(self)
        self._scroll.setObjectName("rule_scroll")
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setWidget(body)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, SCALE_WIDTH, 0)
        outer.addWidget(self._scroll)

    def _show_focus(self, _before: QWidget | None, now: QWidget | None) -> None:
        """What the keyboard has come to is seen; Qt sees to that only where it came from within the rule."""
        if now is None or QApplication.mouseButtons() or not self._scroll.isAncestorOf(now):
            return
        if now.visibleRegion().boundingRect().height() < now.height():
            self._scroll.ensureWidgetVisible(now, 0, AROUND)

    def refresh(self) -> None:
        """Show the document."""
        project, shelf = self._store.project, self._store.shelf
        chips = [
            (s.id, letter(i), tr("Shelf {letter}, {id}. {JOIN_TIP}", letter=letter(i), id=s.id, JOIN_TIP=JOIN_TIP))
            for i, s in enumerate(project.shelves)
        ]
        self._chips.show_chips(chips, shelf.id if shelf else "", self._store.together)
        self._empty.setVisible(shelf is None)
        self._shelf.setVisible(shelf is not None)
        for section in self.sections:
            section.refresh()
        focus = QApplication.focusWidget()
        if len(project.shelves) > self._count and not (focus is not None and self.isAncestorOf(focus)):
            self._scroll.verticalScrollBar().setValue(0)  # a shelf that was drawn or pasted shows its numbers
        self._count = len(project.shelves)
        if self._store.unit is not self._graduated:
            self._graduated = self._store.unit
            self.update()

    def add_shelf(self) -> None:
        """One more shelf like the one selected, selected itself."""
        project, name = edits.add_shelf(self._store.project, self._store.shelf)
        self._store.apply(tr("Add {name}", name=name), lambda _: project, select=name)
        self._shelf.begin()

    def show_name(self) -> None:
        """The shelf's name, ready to be typed over."""
        self._shelf.begin_name()

    def show_field(self, section: str, name: str) -> None:
        """A field of a section, ready to be typed over."""
        found = next((one for one in self.sections if one.key == section), None)
        field = self.findChild(QLineEdit, f"{section}_{name}")
        if found is None or field is None:
            return
        found.set_open(True)
        field.setFocus(Qt.FocusReason.TabFocusReason)
        field.selectAll()
        QTimer.singleShot(0, self, lambda: self._scroll.verticalScrollBar().setValue(found.y()))  # once laid out

    def show_wall(self) -> None:
        """The wall's own numbers, ready to be typed."""
        self.wall.begin()
        QTimer.singleShot(0, self, lambda: self._scroll.verticalScrollBar().setValue(self.wall.y()))  # once laid out

    def show_sheet(self, stock: str) -> None:
        """The numbers of this kind of sheet, ready to be typed."""
        self._store.choose_stock(stock)
        self.show_field("sheet", "length")

    def start_from(self, name: str) -> None:
        """One of the shelves to start from, selected."""
        project, called = start_from(self._store.project, name)
        self._store.apply(tr("Add {called}", called=called), lambda _: project, select=called)
        self._shelf.begin()

    def folded(self) -> tuple[str, ...]:
        """Keys of the sections that are shut."""
        return tuple(section.key for section in self.sections if not section.open)

    def fold(self, keys: tuple[str, ...]) -> None:
        """Shut these sections, open the others."""
        for section in self.sections:
            section.set_open(section.key not in keys)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        palette = self._theme.palette
        edge = self.width() - 0.5
        painter.setPen(QPen(QColor(palette.hairline), 1))
        painter.drawLine(QPointF(edge, 0), QPointF(edge, self.height()))
        painter.setPen(QPen(QColor(palette.soft), 1))
        painter.setOpacity(0.45)
        per_mm = self.physicalDpiY() / INCH_MM
        step, longer = (INCH_MM / 8, (8, 4, 2)) if self._store.unit is Unit.INCH else (2.0, (25, 5, 5))
        count = int(self.height() / per_mm / step) + 1
        for n in range(1, count):
            y = round(n * step * per_mm) + 0.5
            long = 10 if n % longer[0] == 0 else 7 if n % longer[1] == 0 else 5 if n % longer[2] == 0 else 3
            painter.drawLine(QPointF(edge - long, y), QPointF(edge, y))
        painter.end()
