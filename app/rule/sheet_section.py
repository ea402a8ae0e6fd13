"""The kinds of sheet there are, and the shown one's numbers."""

from __future__ import annotations

from PySide6.QtCore import Signal

from app.rule import edits
from app.rule.chips import ChipStrip
from app.rule.fields import NameField
from app.rule.reading import COUNT, LENGTH, PRICE, THICKNESS
from app.rule.rows import BoundSection
from app.rule.subject import StockSubject, sentence
from app.store import Store
from app.theme import Theme
from core.document.check import field_error
from core.document.errors import ProjectError
from core.language import tr
from core.lengths import show_length


class SheetSection(BoundSection):
    """Stock: sizes as measured, how many, what for. `offcut_asked` asks for the kept offcuts."""

    offcut_asked = Signal()

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("sheet", theme, StockSubject(store))
        self._store = store
        self._chips = ChipStrip("sheet_chips", tr("Add a sheet"), self.body)
        self._chips.chosen.connect(store.choose_stock)
        self._chips.add_asked.connect(self._add)
        self.rows.addWidget(self._chips)
        self.listen(lambda _fresh: self._show_chips())
        name = NameField("sheet_id", self._rename, live=False)
        self.add(tr("Name"), name, tr("What this kind of sheet is called; copies are numbered."))
        self.listen(lambda fresh: name.show_value(self._store.stock.id, fresh))
        self.number("length", tr("Length"), LENGTH, tr("Along the grain, so perhaps the shorter side."))
        self.number("width", tr("Width"), LENGTH, tr("Across the grain."))
        self.number("thickness", tr("Thickness"), THICKNESS, tr("As measured with a caliper, not as on the label."))
        self.number("veneer", tr("Face veneer"), THICKNESS, tr("How thick the face is; sanding stays well above it."))
        self.number("trim", tr("Trim"), LENGTH, tr("Taken off all four edges before anything is placed."))
        self.number("quantity", tr("How many"), COUNT, tr("Sheets of this kind at hand."))
        self.number(
            "price",
            tr("Price"),
            PRICE,
            tr("Of one sheet. With every price known, cheapest comes before fewest."),
            "unknown",
        )
        self.segments(
            "use",
            tr("Use for"),
            (("any", "all"), ("shell", "shell"), ("frame", "frame")),
            tr("Shell keeps its waste from becoming frame; frame keeps shells off it."),
        )
        _offcut, _copy, self._remove_button = self.buttons(
            ("offcut", tr("Use an offcut"), self.offcut_asked.emit, tr("As a sheet, a piece that another job left.")),
            ("duplicate", tr("Duplicate"), self._duplicate, tr("The same kind of sheet once more.")),
            (
                "remove",
                tr("Remove"),
                self._remove,
                tr("Take this kind of sheet out of the project. Undo brings it back."),
            ),
        )
        self.listen(lambda _fresh: self._remove_button.setEnabled(len(self._store.project.sheets) > 1))

    def title(self) -> str:
        return tr("Sheet {id}", id=self._store.stock.id)

    def summary(self) -> str:
        stock, unit = self._store.stock, self._store.unit
        return f"{show_length(stock.length, unit, marks=False)} × {show_length(stock.width, unit, marks=False)}"

    def _show_chips(self) -> None:
        chips = [(sheet.id, sheet.id, tr("Sheet {id}", id=sheet.id)) for sheet in self._store.project.sheets]
        self._chips.show_chips(chips, self._store.stock.id)

    def _rename(self, name: str) -> str:
        at, old = self._store.stock_index, self._store.stock.id
        reason = field_error(f"/sheets/{at}/id", name)
        if reason:
            return sentence(reason)
        changed = edits.rename_sheet(self._store.project, at, name)
        try:
            self._store.apply(tr("Name of sheet {old}", old=old), lambda _: changed)
        except ProjectError as error:
            return sentence(error.why)
        self._store.choose_stock(name)
        return ""

    def _add(self) -> None:
        project, name = edits.add_sheet(self._store.project)
        self._store.apply(tr("Add sheet {name}", name=name), lambda _: project)
        self._store.choose_stock(name)

    def _duplicate(self) -> None:
        project, name = edits.duplicate_sheet(self._store.project, self._store.stock_index)
        self._store.apply(tr("Duplicate sheet {id}", id=self._store.stock.id), lambda _: project)
        self._store.choose_stock(name)

    def _remove(self) -> None:
        project, near = edits.remove_sheet(self._store.project, self._store.stock_index)
        self._store.apply(tr("Remove sheet {id}", id=self._store.stock.id), lambda _: project)
        self._store.choose_stock(near)
