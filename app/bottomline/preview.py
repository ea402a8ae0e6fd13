"""A way out is shown on all boards before it is taken: while the pointer rests on it, or Tab has reached it."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QObject, QRectF, Qt, QTimer
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QApplication, QWidget

from app.bottomline.line import BottomLine
from app.bottomline.pill import Pill
from app.store import Store
from app.theme import Theme
from app.theme.type import BODY, font
from core.document.errors import ProjectError
from core.language import tr
from core.plan.model import Fix

REST_MS: Final = 150  # the pointer rests: passing over a button shows nothing
EDGE: Final = 3  # pixels of the frame round the boards
TAG: Final = (26, 14)  # pixels: height of the tag, room beside its words
TAG_MOST, TAG_END = 330, 0.44  # its greatest width, and where it ends, so that no board's title is under it


class PreviewMark(QWidget):
    """A chalk frame round the boards with a tag at its top; lets the pointer through."""

    def __init__(self, boards: QWidget, theme: Theme) -> None:
        super().__init__(boards)
        self.setObjectName("preview_mark")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._theme = theme
        self.words = ""
        self.hide()
        boards.installEventFilter(self)

    def tell(self, words: str) -> None:
        """Show that this is a preview, and of what; '' hides the mark."""
        self.words = words
        self.setAccessibleName(words)
        parent = self.parentWidget()
        if words and parent is not None:
            self.setGeometry(parent.rect())
            self.raise_()
        self.setVisible(bool(words))
        self.update()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        parent = self.parentWidget()
        if event.type() == QEvent.Type.Resize and self.words and parent is not None:
            self.setGeometry(parent.rect())
        return False

    def paintEvent(self, event: QPaintEvent) -> None:
        palette, face = self._theme.palette, font(BODY, strong=True)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(palette.chalk), EDGE, Qt.PenStyle.DashLine))
        half = EDGE / 2.0
        painter.drawRect(QRectF(self.rect()).adjusted(half, half, -half, -half))
        words = QFontMetrics(face).elidedText(self.words, Qt.TextElideMode.ElideRight, TAG_MOST - 2 * TAG[1])
        wide = QFontMetrics(face).horizontalAdvance(words) + 2 * TAG[1]
        tag = QRectF(self.width() * TAG_END - wide, 0.0, wide, TAG[0])
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(palette.chalk))
        painter.drawRoundedRect(tag.adjusted(0.0, -6.0, 0.0, 0.0), 6.0, 6.0)
        painter.setPen(QColor(palette.on_chalk))
        painter.setFont(face)
        painter.drawText(tag, Qt.AlignmentFlag.AlignCenter, words)
        painter.end()


class Previews(QObject):
    """Follows what is looked at in the bottom line. Any press of a key or button elsewhere ends the preview first."""

    def __init__(self, store: Store, line: BottomLine, boards: QWidget, theme: Theme) -> None:
        super().__init__(line)
        self._store = store
        self._fix: Fix | None = None
        self._watching = False
        self.mark = PreviewMark(boards, theme)
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._begin)
        line.fix_looked.connect(self._looked)
        store.plan_changed.connect(self._show)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._focus_moved)

    def _focus_moved(self, before: QWidget | None, now: QWidget | None) -> None:
        """The focus that falls on a button because what had it is hidden asks for nothing."""
        if isinstance(now, Pill) and before is not None and not before.isVisibleTo(before.window()):
            self._looked(None)

    def _looked(self, fix: Fix | None) -> None:
        self._fix = fix
        if fix is None:
            self._rest.stop()
            self._store.end_preview()
        else:
            self._rest.start()

    def _begin(self) -> None:
        if self._fix is None or self._store.held is not None:
            return
        try:
            self._store.preview(self._fix)
        except ProjectError:
            self._store.end_preview()

    def _show(self) -> None:
        fix = self._store.previewed
        self.mark.tell(tr("Preview: {text}", text=fix.text) if fix else "")
        self._watch(fix is not None)

    def _watch(self, on: bool) -> None:
        app = QApplication.instance()
        if app is None or on == self._watching:
            return
        self._watching = on
        if on:
            app.installEventFilter(self)
        else:
            app.removeEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        pressed = (QEvent.Type.MouseButtonPress, QEvent.Type.KeyPress, QEvent.Type.ShortcutOverride)
        if event.type() in pressed and isinstance(watched, QWidget) and not isinstance(watched, Pill):
            self._rest.stop()
            self._store.end_preview()
        return False
