"""What is selected: one thing by its id, the shelf and the stock the rule shows, the shelves edited together. No Qt."""

from __future__ import annotations

from collections.abc import Iterable

from core.document.model import Project

Selected = tuple[str, str, str]  # id of the thing, of the shelf, of the stock


class Selection:
    """Kept on things that exist: `settle` after each change. Methods that change it say whether anything has moved."""

    def __init__(self, project: Project) -> None:
        self.about = self.shelf = self.stock = ""
        self._also: frozenset[str] = frozenset()  # shelves edited together with the selected one
        self.settle(project, "")

    @property
    def now(self) -> Selected:
        """All of it, but for the shelves edited together."""
        return self.about, self.shelf, self.stock

    def restore(self, was: Selected) -> bool:
        """As it was."""
        moved = was != self.now
        self.about, self.shelf, self.stock = was
        return moved

    def settle(self, project: Project, about: str) -> bool:
        """Select this, as far as there is such a thing."""
        before = self.now
        shelves = [shelf.id for shelf in project.shelves]
        owner = about.partition("/")[0]
        if owner in shelves:
            self.shelf = owner
        elif "/" in about or self.shelf not in shelves:  # gone with its shelf
            self.shelf = self.shelf if self.shelf in shelves else next(iter(shelves), "")
            about = self.shelf
        stocks = [sheet.id for sheet in project.sheets]
        if self.stock not in stocks:
            self.stock = stocks[0]
        self.about = about
        return before != self.now

    def select(self, project: Project, about: str) -> bool:
        """Select a thing; shelves edited together stay so while it is of one of them."""
        alone = bool(self._also) and about.partition("/")[0] not in self._also
        if alone:
            self._also = frozenset()
        return self.settle(project, about) or alone

    def select_alone(self, project: Project, shelf: str) -> bool:
        """Select a shelf, and edit no other with it."""
        alone, self._also = bool(self._also), frozenset()
        return self.settle(project, shelf) or alone

    def choose_stock(self, project: Project, stock: str) -> bool:
        """Show this kind of sheet in the rule."""
        if stock == self.stock or all(sheet.id != stock for sheet in project.sheets):
            return False
        self.stock = stock
        return True

    # Shelves edited together

    def together(self, project: Project) -> tuple[str, ...]:
        """Ids of the shelves that are edited at once, in the project's order; one alone: the selected."""
        return tuple(shelf.id for shelf in project.shelves if shelf.id == self.shelf or shelf.id in self._also)

    def part(self) -> None:
        """No shelves are edited together any more."""
        self._also = frozenset()

    def join(self, shelves: Iterable[str]) -> bool:
        """These shelves are edited together with the selected one from now on."""
        also = frozenset(shelves) | {self.shelf}
        if also == self._also:
            return False
        self._also = also if len(also) > 1 else frozenset()
        return True

    def toggle(self, project: Project, shelf: str) -> bool:
        """Take a shelf into those edited together, or out of them; of the selected one another takes the place."""
        together = self.together(project)
        also = set(together) ^ {shelf}
        if shelf == self.shelf and also:
            self.settle(project, min(also, key=together.index))
        return self.join(also)
