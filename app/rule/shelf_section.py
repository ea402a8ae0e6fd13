"""The selected shelf's numbers."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from app.rule.apart_rows import add_apart
from app.rule.choices import Choice
from app.rule.fields import NameField
from app.rule.margin_row import MarginRow
from app.rule.most import Most
from app.rule.places import add_mount, add_pin
from app.rule.reading import LENGTH
from app.rule.rows import BoundSection, row_of
from app.rule.sets import Sets, together_words
from app.rule.several import STARTERS
from app.rule.subject import ShelfSubject
from app.store import Store
from app.theme import Theme
from core.document.model import Shelf
from core.drawing.names import letter
from core.language import tr
from core.lengths import show_length

EMPTY = tr("No shelf yet. Start from one of these, and give it your length, depth and height.")


class ShelfSection(BoundSection):
    """Sizes, ends, scribe and place of the selected shelf."""

    def __init__(self, store: Store, theme: Theme) -> None:
        self._shelf = ShelfSubject(store)
        super().__init__("shelf", theme, self._shelf)
        self._store = store
        self._sets = Sets(store)
        self._several = QLabel(self.body)
        self._several.setObjectName("shelf_together")
        self._several.setProperty("role", "soft")
        self._several.setWordWrap(True)
        self.rows.addWidget(self._several)
        self._name = NameField("shelf_id", self._rename, live=False)
        self.add(tr("Name"), self._name, tr("What this shelf is called on every drawing and label."))
        self.listen(lambda fresh: self._name.show_value(self._get().id, fresh))
        self._length = self.number("length", tr("Length"), LENGTH, tr("Outside, toe to toe, along the wall."))
        depth = self.number("depth", tr("Depth"), LENGTH, tr("Outside, from the wall to the front's show face."))
        height = self.number(
            "height",
            tr("Height"),
            LENGTH,
            tr("Outside: the thickness you see. The frame gets what two sheets leave of it."),
        )
        self._most = Most(self, {"length": self._length, "depth": depth, "height": height})
        ends = (("mitred", "mitred"), ("open", "open"))
        self.segments(
            "left",
            tr("Left end"),
            ends,
            tr("Mitred: the grain runs on round the corner. Open: no end, as against a wall."),
        )
        self.segments(
            "right",
            tr("Right end"),
            ends,
            tr("Mitred: the grain runs on round the corner. Open: no end, as against a wall."),
        )
        strip = self.segments(
            "ends_from",
            tr("Ends cut from"),
            (("front", "front"), ("top", "top"), ("bottom", "bottom")),
            tr("The strip that runs on round the ends. From the top or bottom the net is much shorter."),
        )
        self.listen(lambda _fresh: row_of(strip).setVisible(self._get().mitred_ends > 0))
        add_apart(self, self._shelf)
        self.number("scribe", tr("Scribe"), LENGTH, tr("Extra wood at every back edge, to be fitted to the wall."))
        self._stock = Choice("shelf_sheet", theme)
        self._stock.setAccessibleName(tr("Sheet"))
        self._stock.chosen.connect(self._pick_stock)
        self.add(tr("Sheet"), self._stock, tr("The stock it must come from."))
        self.listen(lambda _fresh: self._show_stock())
        add_pin(self, self._shelf)
        add_mount(self, self._shelf)
        self._margin = MarginRow(self)  # last: its words wrap and go, and no field may move while one is typed in
        self.buttons(
            (
                "earlier",
                tr("Earlier"),
                partial(self._sets.move, -1),
                tr("One place to the left in the list (Alt+Left)."),
            ),
            ("later", tr("Later"), partial(self._sets.move, 1), tr("One place to the right in the list (Alt+Right).")),
            ("duplicate", tr("Duplicate"), self._sets.duplicate, tr("The same once more.")),
            ("remove", tr("Remove"), self._sets.remove, tr("Out of the project. Undo brings it back.")),
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

    def begin_name(self) -> None:
        """Ready to type another name."""
        self.set_open(True)
        self._name.setFocus(Qt.FocusReason.TabFocusReason)
        self._name.selectAll()

    def refresh(self) -> None:
        super().refresh()
        self._several.setText(together_words(self._store))
        self._several.setVisible(len(self._store.together) > 1)
        self._name.setEnabled(len(self._store.together) < 2)

    def title(self) -> str:
        several = self._store.together
        if len(several) > 1:
            return tr("{several} shelves", several=len(several))
        at = self._store.shelf_index
        return tr("Shelf {letter}", letter=letter(at)) if at >= 0 else tr("Shelf")

    def summary(self) -> str:
        shelf = self._store.shelf
        if shelf is None:
            return tr("none yet")
        sizes = (shelf.length, shelf.depth, shelf.height)
        return " × ".join(show_length(size, self._store.unit, marks=False) for size in sizes)

    # Sheet

    def _show_stock(self) -> None:
        options = [("", tr("any that fits")), *((sheet.id, sheet.id) for sheet in self._store.project.sheets)]
        self._stock.offer(options, self._get().sheet or "")

    def _pick_stock(self, key: str) -> None:
        self._store.end_run()
        self._shelf.change(tr("Sheet"), {"sheet": key or None})

    # The shelf itself

    def _rename(self, name: str) -> str:
        self._store.end_run()
        return self._shelf.change(tr("Name"), {"id": name}, select=name)


class EmptyShelves(QWidget):
    """What stands in the rule while there is no shelf: some to start from. `start_asked` carries the name of one."""

    start_asked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 2, 0, 6)
        column.setSpacing(6)
        words = QLabel(EMPTY, self)
        words.setProperty("role", "soft")
        words.setWordWrap(True)
        column.addWidget(words)
        for name, said, *_ in STARTERS:
            button = QPushButton(f"{name[:1].upper()}{name[1:]}: {said}", self)
            button.setObjectName(f"start_{name.replace(' ', '_')}")
            button.setProperty("look", "starter")
            button.clicked.connect(partial(self.start_asked.emit, name))
            column.addWidget(button)
