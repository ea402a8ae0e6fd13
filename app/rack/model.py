"""The kept offcuts as a table for Qt."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Final

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from core.drawing.measure import clean
from core.language import tr
from core.layout.largest import Largest
from core.lengths import Unit, show_length, show_thickness
from core.offcuts.model import KeptOffcut

Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()
HEADINGS: Final = (
    tr("Offcut"),
    tr("With the grain"),
    tr("Across"),
    tr("Thick"),
    tr("Face"),
    tr("From"),
    tr("Longest shelf"),
)
SIZES: Final = (1, 2, 3, 6)  # columns of numbers
FACE: Final = 4
LONGEST: Final = 6
FACE_TIP: Final = tr("F2, or a click on the chosen row, to say what its face is like.")


class RackModel(QAbstractTableModel):
    """Rows of offcuts. answer: what one can give; in_project: is it a sheet already; describe: name its face anew."""

    def __init__(
        self,
        answer: Callable[[KeptOffcut], Largest | None],
        in_project: Callable[[KeptOffcut], bool],
        describe: Callable[[str, str], None],
    ) -> None:
        super().__init__()
        self._answer, self._in_project, self._describe = answer, in_project, describe
        self._offcuts: tuple[KeptOffcut, ...] = ()
        self._unit = Unit.INCH
        self._said: dict[int, tuple[str, ...]] = {}  # words of the rows that were asked for

    def show_offcuts(self, offcuts: tuple[KeptOffcut, ...], unit: Unit) -> None:
        """Show these."""
        self._said.clear()
        if (offcuts, unit) != (self._offcuts, self._unit):
            self.beginResetModel()
            self._offcuts, self._unit = offcuts, unit
            self.endResetModel()
        elif offcuts:  # what is said of them may be other words
            self.dataChanged.emit(self.index(0, 0), self.index(len(offcuts) - 1, LONGEST))

    def refresh(self, name: str) -> None:
        """There is something new to say of this one."""
        row = self.row(name)
        if row >= 0:
            self._said.pop(row, None)
            self.dataChanged.emit(self.index(row, LONGEST), self.index(row, LONGEST))

    def offcut(self, row: int) -> KeptOffcut | None:
        """The one in a row."""
        return self._offcuts[row] if 0 <= row < len(self._offcuts) else None

    def row(self, name: str) -> int:
        """The row of the one with that id, -1 for none."""
        return next((row for row, offcut in enumerate(self._offcuts) if offcut.id == name), -1)

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._offcuts)

    def columnCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(HEADINGS)

    def flags(self, index: Index) -> Qt.ItemFlag:
        usual = super().flags(index)
        return usual | Qt.ItemFlag.ItemIsEditable if index.column() == FACE else usual

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        offcut = self.offcut(index.row())
        if offcut is None:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self.words(index.row())[index.column()]
        if role == Qt.ItemDataRole.EditRole and index.column() == FACE:
            return offcut.face
        if role == Qt.ItemDataRole.ToolTipRole:
            return self._tip(offcut, index.column())
        return _aligned(index.column(), role)

    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        offcut = self.offcut(index.row())
        if offcut is None or index.column() != FACE or role != Qt.ItemDataRole.EditRole:
            return False
        self._describe(offcut.id, " ".join(str(value).split()))
        return True

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        return HEADINGS[section] if role == Qt.ItemDataRole.DisplayRole else _aligned(section, role)

    def words(self, row: int) -> tuple[str, ...]:
        """What stands in a row."""
        if row not in self._said:
            self._said[row] = self._words(self._offcuts[row])
        return self._said[row]

    def _words(self, offcut: KeptOffcut) -> tuple[str, ...]:
        answer = self._answer(offcut)
        gives = "" if answer is None else answer.text or "none"
        return (
            tr("{id}, in this project", id=offcut.id) if self._in_project(offcut) else offcut.id,
            *(show_length(mm, self._unit, rounding="down") for mm in (offcut.length, offcut.width)),
            show_thickness(offcut.thickness, self._unit),
            clean(offcut.face),
            _origin(offcut),
            gives,
        )

    def _tip(self, offcut: KeptOffcut, column: int) -> str:
        answer = self._answer(offcut) if column == LONGEST else None
        if answer is not None:
            return answer.limit_reason
        return FACE_TIP if column == FACE else ""


def _aligned(column: int, role: int) -> int | None:
    if role != Qt.ItemDataRole.TextAlignmentRole:
        return None
    side = Qt.AlignmentFlag.AlignRight if column in SIZES else Qt.AlignmentFlag.AlignLeft
    return int(side | Qt.AlignmentFlag.AlignVCenter)


def _origin(offcut: KeptOffcut) -> str:
    """Like 'Hallway ledge, 30 May 2031'."""
    day = date.fromisoformat(offcut.date) if offcut.date else None
    told = (clean(offcut.project), f"{day.day} {day:%b %Y}" if day else "")
    return ", ".join(words for words in told if words)
