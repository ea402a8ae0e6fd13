"""What the shelf may carry, as an estimate, and the design rules it goes by."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel

from app.rule.rows import BoundSection
from app.rule.subject import ProjectSubject
from app.store import Store
from app.theme import Theme
from core.drawing.loads import load_lines, no_load_words
from core.language import tr
from core.plan.model import Load
from core.strength.load import CAUTION


class LoadSection(BoundSection):
    """Spread and front-edge load, what governs, the band, and the caution."""

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("load", theme, ProjectSubject(store))
        self._store = store
        self.segments(
            "rules",
            tr("Design rules"),
            (("imperial", "imperial"), ("european", tr("European"))),
            tr("Whose published equations the screws are reckoned by."),
        )
        self.words = QLabel(self.body)
        self.words.setObjectName("load_words")
        self.words.setWordWrap(True)
        self.caution = QLabel(CAUTION, self.body)
        self.caution.setObjectName("load_caution")
        self.caution.setProperty("role", "small")
        self.caution.setWordWrap(True)
        self.rows.addWidget(self.words)
        self.rows.addWidget(self.caution)
        store.plan_changed.connect(self.refresh_load)
        store.selection_changed.connect(self.refresh_load)
        self.refresh_load()

    def load(self) -> Load | None:
        """The estimate of the shelf that is shown."""
        plan, shelf = self._store.plan, self._store.shelf
        if shelf is None:
            return None
        return next((load for load in plan.loads if load.shelf == shelf.id), None)

    def refresh_load(self) -> None:
        """Show the plan's estimate; while a hand moves, it waits."""
        if self._store.plan.whole is not None:
            return
        load, shelf = self.load(), self._store.shelf
        text = (
            "\n".join(load_lines(load, self._store.unit))
            if load
            else no_load_words(shelf, self._store.project.wall.kind)
        )
        if text != self.words.text():
            self.words.setText(text)
        self.caution.setVisible(load is not None)
        self.heading.set_words(self.title(), self.summary())

    def title(self) -> str:
        return tr("Load")

    def summary(self) -> str:
        load = self.load()
        return load.band if load else tr("not planned")
