"""The selected shelf's numbers."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.rule import edits
from app.rule.apart_rows import add_apart
from app.rule.choices import Choice
from app.rule.fields import NameField
from app.rule.margin_row import MarginRow
from app.rule.most import Most
from app.rule.places import add_mount, add_pin
from app.rule.reading import LENGTH
from app.rule.rows import BoundSection
from app.rule.subject import ShelfSubject
from app.store import Store
from app.theme import Theme
from core.document.model import Shelf
from core.drawing.names import letter
from core.lengths import show_length


class ShelfSection(BoundSection):
    """Sizes, ends, scribe and place of the selected shelf."""

    def __init__(self, store: Store, theme: Theme) -> None:
        self._shelf = ShelfSubject(store)
        super().__init__("shelf", theme, self._shelf)
        self._store = store
        self._name = NameField("shelf_id", self._rename, live=False)
        self.add("Name", self._name, "What this shelf is called on every drawing and label.")
        self.listen(lambda fresh: self._name.show_value(self._get().id, fresh))
        self._length = self.number("length", "Length", LENGTH, "Outside, toe to toe, along the wall.")
        depth = self.number("depth", "Depth", LENGTH, "Outside, from the wall to the front's show face.")
        height = self.number(
            "height", "Height", LENGTH, "Outside: the thickness you see. The frame gets what two sheets leave of it."
        )
        self._most = Most(self, {"length": self._length, "depth": depth, "height": height})
        ends = (("mitred", "mitred"), ("open", "open"))
        self.segments(
            "left", "Left end", ends, "Mitred: the grain runs on round the corner. Open: no end, as against a wall."
        )
        self.segments(
            "right", "Right end", ends, "Mitred: the grain runs on round the corner. Open: no end, as against a wall."
        )
        self.segments(
            "ends_from",
            "Ends cut from",
            (("front", "front"), ("top", "top"), ("bottom", "bottom")),
            "The strip that runs on round the ends. From the top or bottom the net is much shorter.",
        )
        add_apart(self, self._shelf)
        self.number("scribe", "Scribe", LENGTH, "Extra wood at every back edge, to be fitted to the wall.")
        self._stock = Choice("shelf_sheet", theme)
        self._stock.setAccessibleName("Sheet")
        self._stock.chosen.connect(self._pick_stock)
        self.add("Sheet", self._stock, "The stock it must come from.")
        self.listen(lambda _fresh: self._show_stock())
        add_pin(self, self._shelf)
        self._margin = MarginRow(self)
        add_mount(self, self._shelf)
        self.buttons(
            ("duplicate", "Duplicate", self._duplicate, "The same shelf once more."),
            ("remove", "Remove", self._remove, "Take this shelf out of the project. Undo brings it back."),
        )

    def _get(self) -> Shelf:
        shelf = self._store.shelf
        assert shelf is not None
        return shelf

    def begin(self) -> None:
        """Ready to type a new shelf's length."""
        self.set_open(True)
        self._length.setFocus(Qt.FocusReason.TabFocusReason)
        self._length.selectAll()

    def title(self) -> str:
        at = self._store.shelf_index
        return f"Shelf {letter(at)}" if at >= 0 else "Shelf"

    def summary(self) -> str:
        shelf = self._store.shelf
        if shelf is None:
            return "none yet"
        sizes = (shelf.length, shelf.depth, shelf.height)
        return " × ".join(show_length(size, self._store.unit, marks=False) for size in sizes)

    # Sheet

    def _show_stock(self) -> None:
        options = [("", "any that fits"), *((sheet.id, sheet.id) for sheet in self._store.project.sheets)]
        self._stock.offer(options, self._get().sheet or "")

    def _pick_stock(self, key: str) -> None:
        self._store.end_run()
        self._shelf.change("Sheet", {"sheet": key or None})

    # The shelf itself

    def _rename(self, name: str) -> str:
        self._store.end_run()
        return self._shelf.change("Name", {"id": name}, select=name)

    def _duplicate(self) -> None:
        project, name = edits.duplicate_shelf(self._store.project, self._store.shelf_index)
        self._store.apply(f"Duplicate {self._get().id}", lambda _: project, select=name)

    def _remove(self) -> None:
        project, near = edits.remove_shelf(self._store.project, self._store.shelf_index)
        self._store.apply(f"Remove {self._get().id}", lambda _: project, select=near)


class EmptyShelves(QWidget):
    """What stands in the rule while there is no shelf."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 2, 0, 6)
        words = QLabel("No shelf yet. Add one, then give it your length, depth and height.", self)
        words.setProperty("role", "soft")
        words.setWordWrap(True)
        column.addWidget(words)
