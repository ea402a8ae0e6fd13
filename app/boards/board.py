"""What every board is: a heading and what it shows; at its place, filling the window, or small beside another."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from app.boards.tool import Tool, show_icons
from app.store import Store
from app.theme import Theme
from app.theme.icons import IconMark
from app.theme.type import BODY, font
from core.language import tr

HEADER_HEIGHT = 36
GAPS = 4  # pixels between two parts of a heading, about
SUBTITLE_LEAST = 150  # pixels that icons leave for what stands beside the title


class ElidedLabel(QLabel):
    """A label that shortens its words to the room it has; the tooltip has them all."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = self._short = ""
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.setMinimumWidth(0)

    @property
    def words(self) -> str:
        """All of them."""
        return self._words

    def set_words(self, words: str, short: str = "") -> None:
        """Say this; short: the part that counts, said alone where there is no room for all."""
        if (words, short) != (self._words, self._short):
            self._words, self._short = words, short
            self.setAccessibleName(words)
            self._shorten()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._shorten()

    def _shorten(self) -> None:
        is_long = self.fontMetrics().horizontalAdvance(self._words) > self.width()
        words = self._short if is_long and self._short else self._words
        shown = self.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, self.width())
        if shown != self.text():
            self.setText(shown)
        self.setToolTip(self._words if shown != self._words else "")


class Board(QWidget):
    """Base of the boards. A real one sets `content` and overrides the `refresh_…` methods it needs.

    `fill_asked` asks for the whole window, or for the way back. Refreshes wait while the board is hidden.
    waits: it shows what is known of whole plans only, and waits while a hand moves.
    """

    waits = False
    fill_asked = Signal()

    def __init__(self, key: str, title: str, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.key = key
        self.store = store
        self.theme = theme
        self._small = False
        self._stale: set[str] = {"plan", "selection", "theme"}
        self.setObjectName(f"board_{key}")
        self.setAccessibleName(tr("{title} board", title=title))
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._make_header(title)
        self._content: QWidget | None = None
        # Methods of this object, not of anything made here: Qt lets go of them with the board.
        store.plan_changed.connect(self._plan_due)
        store.selection_changed.connect(self._selection_due)
        theme.changed.connect(self._theme_due)

    def _make_header(self, title: str) -> None:
        self.header = QWidget(self)
        self.header.setFixedHeight(HEADER_HEIGHT)
        self.header.installEventFilter(self)
        self.header.setToolTip(tr("Double click fills the window with this board and brings it back."))
        row = QHBoxLayout(self.header)
        row.setContentsMargins(14, 0, 8, 0)
        row.setSpacing(6)
        self.title = QLabel(title, self.header)
        self.title.setProperty("role", "strong")
        self.subtitle = ElidedLabel(self.header)
        self.subtitle.setProperty("role", "soft")
        row.addWidget(IconMark(self.key, self.theme, self.header))
        row.addWidget(self.title)
        row.addSpacing(4)
        row.addWidget(self.subtitle, 1)
        self.tools = QHBoxLayout()
        self.tools.setSpacing(2)
        row.addLayout(self.tools)
        self.fill_button = self.tool("fill", tr("Fill"), tr("Fill the window with this board."), self.fill_asked.emit)
        row.addWidget(self.fill_button)
        self._column.addWidget(self.header)

    def tool(self, name: str, word: str, tip: str, action: object) -> Tool:
        """A quiet button for the heading, with the icon of its name; `add_tool` puts it there."""
        button = Tool(name, word, self.theme, self.header)
        button.setObjectName(f"{self.key}_{name}")
        button.setToolTip(tip)
        button.clicked.connect(action)
        return button

    def add_tool(self, button: QWidget) -> None:
        """Put it in the heading, before the last."""
        self.tools.addWidget(button)

    @property
    def content(self) -> QWidget | None:
        """What fills the board below its heading."""
        return self._content

    def set_content(self, content: QWidget) -> None:
        """Fill the board below its heading."""
        self._content = content
        self._column.addWidget(content, 1)

    def set_beside(self, *parts: QWidget, wide: QWidget) -> None:
        """Fill it with parts side by side, from left to right; `wide`, one of them, takes the room the others leave."""
        body = QWidget(self)
        row = QHBoxLayout(body)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        for part in parts:
            row.addWidget(part, int(part is wide))
        self.set_content(body)

    def take_focus(self) -> None:
        """The keyboard goes to what the board shows."""
        parts = [self._content, *self._content.findChildren(QWidget)] if self._content is not None else []
        strong = Qt.FocusPolicy.StrongFocus
        shown = next((part for part in parts if part.focusPolicy() & strong == strong and part.isVisible()), None)
        if shown is not None:
            shown.setFocus(Qt.FocusReason.OtherFocusReason)

    # Where it is shown

    @property
    def small(self) -> bool:
        """Is it a small picture beside the board that fills the window?"""
        return self._small

    def show_as(self, *, small: bool, filling: bool) -> None:
        """As a small picture, filling the window, or at its place."""
        self.fill_button.setText(tr("All boards") if filling else tr("Fill"))
        self.fill_button.draw("boards" if filling else "fill")
        tip = tr("Back to its place, beside the others.") if filling else tr("Fill the window with this board.")
        self.fill_button.setToolTip(tip)
        if small != self._small:
            self._small = small
            self.header.setVisible(not small)
            self.setCursor(Qt.CursorShape.PointingHandCursor if small else Qt.CursorShape.ArrowCursor)
            self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if small else Qt.FocusPolicy.NoFocus)
            if self._content is not None:
                self._content.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents, small)
                self._content.setEnabled(not small)
            self.refresh_size()
            self.update()

    def sizeHint(self) -> QSize:
        return QSize(480, 320)

    def minimumSizeHint(self) -> QSize:
        return QSize(120, 80)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._small and self.rect().contains(event.position().toPoint()):
            self.fill_asked.emit()
            return
        super().mouseReleaseEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.header and event.type() == QEvent.Type.MouseButtonDblClick:
            self.fill_asked.emit()
            return True
        if watched is self.header and event.type() in (QEvent.Type.Resize, QEvent.Type.LayoutRequest):
            self._fit_icons()
        return super().eventFilter(watched, event)

    def _fit_icons(self) -> None:
        """The words come first: where the heading is narrow its buttons have no icons."""
        parts = self.header.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly)
        shown = [part for part in parts if not part.isHidden() and part is not self.subtitle]
        tools = [part for part in shown if isinstance(part, Tool)]
        others = sum(part.sizeHint().width() for part in shown if part not in tools)
        show_icons(tools, self.header.width() - others - SUBTITLE_LEAST - GAPS * len(shown))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self.theme.palette.paper))
        self.paint_small_title(painter)
        painter.end()

    def paint_small_title(self, painter: QPainter) -> None:
        """Over a small picture: what it is, and the focus. What covers the whole board calls this."""
        if not self._small:
            return
        palette = self.theme.palette
        painter.setFont(font(BODY, strong=True))
        painter.setPen(QColor(palette.ink))
        painter.drawText(self.rect().adjusted(10, 7, -8, 0), Qt.AlignmentFlag.AlignTop, self.title.text())
        if self.hasFocus():
            painter.setPen(QPen(QColor(palette.chalk), 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))

    # Keeping up

    def _plan_due(self) -> None:
        self._due("plan")

    def _selection_due(self) -> None:
        self._due("selection")

    def _theme_due(self) -> None:
        self._due("theme")

    def _due(self, what: str) -> None:
        self._stale.add(what)
        if self.isVisible() and not (self.waits and self.store.plan.whole is not None):
            self.catch_up()

    def catch_up(self) -> None:
        """Refresh what has changed while the board was hidden."""
        stale, self._stale = self._stale, set()
        if "theme" in stale:
            self.refresh_theme()
        if "plan" in stale:
            self.refresh_plan()
        elif "selection" in stale:
            self.refresh_selection()

    def refresh_plan(self) -> None:
        """The plan is another one, and the selection may be."""

    def refresh_selection(self) -> None:
        """Another thing is selected."""

    def refresh_theme(self) -> None:
        """The colours are others."""
        self.update()

    def refresh_size(self) -> None:
        """It is shown small, or no longer."""
