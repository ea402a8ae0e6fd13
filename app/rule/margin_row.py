"""How far the selected shelf's net can be slid on its sheet, as one quiet row of words."""

from __future__ import annotations

from typing import Final

from PySide6.QtWidgets import QLabel

from app.rule.rows import BoundSection
from core.language import tr
from core.layout.margin import Margin, margin_of
from core.lengths import Unit, show_length, snap_down

TIP: Final = tr(
    "How far its net can be slid on the sheet, the other nets lying still: for the figure, "
    "or after a chip, for which half an inch (12 mm) along one edge is worth having. Frame "
    "parts are cut from what is left."
)
NOWHERE: Final = "nowhere"


class MarginRow:
    """Follows the plan; while a hand drags, the words wait till it rests."""

    def __init__(self, section: BoundSection) -> None:
        self._store = section.subject.store
        self._words = QLabel(section.body)
        self._words.setObjectName("shelf_margin")
        self._words.setProperty("role", "soft")
        self._words.setWordWrap(True)
        self._words.setAccessibleName(tr("Can slide"))
        self._row = section.add(tr("Can slide"), self._words, TIP)
        section.listen(lambda _fresh: self._refresh())
        self._store.plan_changed.connect(self._refresh)

    def _refresh(self) -> None:
        if self._store.held is not None:
            return
        shelf = self._store.shelf
        margin = margin_of(self._store.plan, shelf.id) if shelf else None
        self._row.setVisible(margin is not None)
        if margin is not None:
            words = margin_words(margin, self._store.unit)
            if words != self._words.text():
                self._words.setText(words)


def margin_words(margin: Margin, unit: Unit) -> str:
    """Like '15/16" up, 4-1/2" right', rounded down; 'nowhere' where it cannot be slid by as much as is printed."""
    ways = (("up", margin.up), ("down", margin.down), ("left", margin.left), ("right", margin.right))
    said = [f"{show_length(mm, unit, rounding='down')} {tr(way)}" for way, mm in ways if snap_down(mm, unit) > 0.0]
    return ", ".join(said) or NOWHERE
