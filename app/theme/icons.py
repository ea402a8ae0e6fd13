"""The program's own small pictures, drawn from the work: one file each in `resources/icons`, in one stroke language.

They always stand beside words and have the words' colour. A file is read when it is first painted, and painted anew for
each size, scale and colour.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Final, Literal

from PySide6.QtCore import QByteArray, QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QIcon, QIconEngine, QPainter, QPaintEvent, QPixmap
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QWidget

from app.theme.theme import Theme

FOLDER: Final = Path(__file__).parents[2] / "resources" / "icons"
SIZE: Final = 16  # pixels at 100 %
BESIDE: Final = SIZE + 4  # pixels that an icon takes in a button: itself and the gap before the words

Tone = Literal["ink", "soft", "chalk", "on_chalk"]  # colours of the palette

# Actions, and boards by their keys, whose file has another name than their own.
DRAWN: Final[dict[str, str]] = {
    "export_png": "figure",
    "export_svg": "set_square",
    "export_dxf": "dimension",
    "export_csv": "table",
    "export_json": "braces",
    "export_picture": "showing",
    "export_turntable": "turntable",
    "export_model": "model",
    "fill_wall": "wall",
    "fill_fold": "fold",
    "fill_sheet": "sheet",
    "paper_letter": "paper",
    "paper_a4": "paper",
    "paper_tabloid": "paper_large",
    "paper_a3": "paper_large",
    "thing_menu": "more",
    "nominal": "check",
    "steps": "cut_steps",
    "cuts": "cut_order",
    "parts": "cut_list",
    "search": "find",
    "use": "take",
    "even": "rib",
    "keep": "keep_offcuts",
    "turn": "turn_net",
    "swap": "swap_nets",
}


def drawn(name: str) -> str:
    """Name of the file that shows an action, a menu, a board or a tool."""
    return "language" if name.startswith("language_") else DRAWN.get(name, name)


@cache
def _file(name: str, colour: str) -> QSvgRenderer:
    text = (FOLDER / f"{name}.svg").read_bytes()
    return QSvgRenderer(QByteArray(text.replace(b"currentColor", colour.encode())))


class InkEngine(QIconEngine):
    """Paints one file in a colour of the theme that is in use; soft where what it stands for cannot be done."""

    def __init__(self, name: str, theme: Theme, tone: Tone, checked: Tone) -> None:
        super().__init__()
        self._drawn = name, theme, tone, checked

    def paint(self, painter: QPainter, rect: QRect, mode: QIcon.Mode, state: QIcon.State) -> None:
        name, theme, tone, checked = self._drawn
        wanted = checked if state is QIcon.State.On else tone
        colour = getattr(theme.palette, "soft" if mode is QIcon.Mode.Disabled else wanted)
        _file(name, colour).render(painter, QRectF(rect))

    def scaledPixmap(self, size: QSize, mode: QIcon.Mode, state: QIcon.State, scale: float) -> QPixmap:
        return self.pixmap(size * scale, mode, state)

    def pixmap(self, size: QSize, mode: QIcon.Mode, state: QIcon.State) -> QPixmap:
        made = QPixmap(size)
        made.fill(Qt.GlobalColor.transparent)
        painter = QPainter(made)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.paint(painter, QRect(QPoint(0, 0), size), mode, state)
        painter.end()
        return made

    def clone(self) -> QIconEngine:
        _CLONES.append(InkEngine(*self._drawn))  # Qt takes it over without telling Python
        return _CLONES[-1]


_CLONES: Final[list[InkEngine]] = []


def icon(name: str, theme: Theme, tone: Tone = "ink", checked: Tone | None = None) -> QIcon:
    """What shows an action, a menu, a board or a tool of this name. checked: its colour while it is on."""
    return QIcon(InkEngine(drawn(name), theme, tone, checked or tone))


class IconMark(QWidget):
    """An icon beside a heading."""

    def __init__(self, name: str, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._icon = icon(name, theme)
        self.setFixedSize(SIZE, SIZE)
        theme.changed.connect(self.update)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        self._icon.paint(painter, self.rect())
        painter.end()
