"""Every board of a window in one language, size and theme: prints, as JSON, what does not fit or cannot be read.

`python -m tests.window.fit_child PROJECT THEME WIDTH HEIGHT`; the language and Qt's scale come from the surroundings.
"""

from __future__ import annotations

import json
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QEvent, QPoint, QRect, QSettings
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QScrollArea, QSlider, QWidget

from core.document.load import load_project
from core.document.model import Project

TARGET = 24  # px, WCAG 2.2, 2.5.8 Target Size (Minimum)
LEAST = 4.5  # WCAG 2.2, 1.4.3 Contrast (Minimum), for text under 18 pt
ROUND = 0.98  # of it: the thinnest strokes never reach their own colour
SEEN = (QLabel, QAbstractButton, QSlider, QComboBox)
ARROW = 34  # px of a list that drops down: its arrow and padding
SHORTENED = ("ElidedLabel", "Sentence")  # show what there is room for, and all of it in their tip


def luminance(rgb: tuple[int, int, int]) -> float:
    """Relative luminance of a colour, as WCAG 2.2 defines it."""
    parts = [c / 255.0 / 12.92 if c / 255.0 <= 0.04045 else ((c / 255.0 + 0.055) / 1.055) ** 2.4 for c in rgb]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast(image: QImage, box: QRect) -> float:
    """Between the commonest colour of a box and the one that stands out most from it, as painted."""
    seen: Counter[int] = Counter()
    for y in range(box.top(), box.bottom() + 1):
        for x in range(box.left(), box.right() + 1):
            seen[image.pixel(x, y) & 0xFFFFFF] += 1
    if len(seen) < 2:
        return 21.0
    values = {c: luminance(((c >> 16) & 255, (c >> 8) & 255, c & 255)) for c in seen}
    ground = values[seen.most_common(1)[0][0]]
    return max((max(v, ground) + 0.05) / (min(v, ground) + 0.05) for v in values.values())


def boards(window: object) -> Iterator[str]:
    """Opens one board after the other; gives its name."""
    from app.actions import GUESTS
    from app.window.window import Window

    assert isinstance(window, Window)
    yield "three boards"
    for name in GUESTS:
        window.actions_[name].trigger()
        QTest.qWait(120)
        yield name
        window.actions_[name].trigger()
    window.line.toggle_list()
    QTest.qWait(60)
    yield "findings"
    window.line.toggle_list()
    area = window.rule.findChild(QScrollArea)
    assert area is not None
    bar = area.verticalScrollBar()
    while bar.value() < bar.maximum():
        bar.setValue(bar.value() + bar.pageStep())
        QTest.qWait(30)
        yield f"rule at {bar.value()}"


class Looker:
    """Looks at what is seen of a window."""

    def __init__(self, window: QWidget) -> None:
        self.window = window
        self.cut: set[str] = set()
        self.small: set[str] = set()
        self.faint: set[str] = set()

    def look(self, board: str) -> None:
        """Everything that is seen now, laid out: words that have just come may still be waiting for their room."""
        for _ in range(3):  # each level asks the one above it
            QApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest)
        picture = self.window.grab()
        image, scale = picture.toImage(), picture.devicePixelRatio()
        for widget in self.window.findChildren(QWidget):
            seen = widget.visibleRegion().boundingRect()
            if widget.isVisible() and not seen.isEmpty() and isinstance(widget, SEEN):
                self._one(board, widget, seen, image, scale)

    def _one(self, board: str, widget: QWidget, seen: QRect, image: QImage, scale: float) -> None:
        if isinstance(widget, QComboBox):
            wants = widget.fontMetrics().horizontalAdvance(widget.currentText()) + ARROW
            if wants > widget.width():
                self.cut.add(
                    f"{board}: {widget.objectName()} “{widget.currentText()}” wants {wants}, has {widget.width()}"
                )
            return
        words = "" if isinstance(widget, QSlider) else widget.text()  # type: ignore[attr-defined]
        name = f"{board}: {widget.objectName() or type(widget).__name__} “{words[:40]}”"
        whole = seen.size() == widget.size()
        if not isinstance(widget, QLabel) and whole and min(widget.width(), widget.height()) < TARGET:
            self.small.add(f"{name} {widget.width()} x {widget.height()}")
        if not words or type(widget).__name__ in SHORTENED:
            return
        hint, wraps = widget.sizeHint(), isinstance(widget, QLabel) and widget.wordWrap()
        tall = widget.heightForWidth(widget.width()) if wraps else hint.height()
        if (not wraps and hint.width() > widget.width() + 1) or (
            isinstance(widget, QLabel) and tall > widget.height() + 1
        ):
            self.cut.add(f"{name} wants {hint.width()} x {tall}, has {widget.width()} x {widget.height()}")
        if whole and widget.isEnabled():
            at = widget.mapTo(self.window, QPoint(0, 0))
            box = QRect(at, widget.size()).intersected(self.window.rect())
            inside = box.adjusted(3, 3, -3, -3)
            scaled = QRect(
                int(inside.left() * scale),
                int(inside.top() * scale),
                int(inside.width() * scale),
                int(inside.height() * scale),
            ).intersected(image.rect())
            if not scaled.isEmpty() and (ratio := contrast(image, scaled)) < LEAST * ROUND:
                self.faint.add(f"{name} {ratio:.2f} : 1")


def main(file: str, theme: str, width: int, height: int) -> None:
    """Open, look, print."""
    app = QApplication.instance() or QApplication([])
    assert isinstance(app, QApplication)
    from app.theme.type import BODY, font
    from app.window.window import Window

    app.setStyle("Fusion")
    app.setFont(font(BODY))
    with tempfile.TemporaryDirectory() as folder:
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
        project: Project | None = load_project(file) if Path(file).is_file() else None
        window = Window(project)
        window.theme.set_mode(theme)
        window.resize(width, height)
        for section in window.rule.sections:
            section.set_open(True)
        window.show()
        QTest.qWait(300)
        looker = Looker(window)
        for board in boards(window):
            looker.look(board)
        print(json.dumps({"cut": sorted(looker.cut), "small": sorted(looker.small), "faint": sorted(looker.faint)}))
        window.leave_kept()


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4]))
