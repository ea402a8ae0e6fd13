"""What the window's document is now: read by every view, changed by the store alone."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from app.pictures import Pictures
from app.planner import Planner
from app.store.selection import Selected, Selection
from app.store.steps import Step, Steps
from core.document.model import Project, Sheet, Shelf
from core.lengths import Unit
from core.plan.model import Fix, Plan


class Held(NamedTuple):
    """Everything there was when a hand took hold, to put back exactly."""

    project: Project
    plan: Plan
    steps: tuple[tuple[Step, ...], tuple[Step, ...]]
    selection: Selected


class Preview(NamedTuple):
    """What a way out would make, shown before it is taken."""

    fix: Fix
    project: Project
    plan: Plan


class State(QObject):
    """Holds the project. Signals carry nothing: listeners read what they need.

    `changed`: the project is another one. `plan_changed`: so is the plan. `selection_changed`: what is selected.
    `state_changed`: name, path, saved state, the named steps of undo and redo, or whether a hand is dragging. `failed`:
    the plan could not be made (a bug; the error is sent along).
    """

    changed = Signal()
    plan_changed = Signal()
    selection_changed = Signal()
    state_changed = Signal()
    failed = Signal(object)

    def __init__(self, project: Project, path: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self._saved: Project | None = project  # None: its file is gone
        self._path = path
        self._steps = Steps()
        self._held: Held | None = None
        self._preview: Preview | None = None
        self._told: tuple[object, ...] = ()  # the state as it was last told
        self._hands: list[Callable[[], bool]] = []
        self._selection = Selection(project)
        self.planner = Planner(project, self)
        self.planner.planned.connect(self.plan_changed)
        self.planner.failed.connect(self.failed)
        self.pictures = Pictures(self)

    # What there is

    @property
    def project(self) -> Project:
        """The document; while a way out is previewed, what it would make of it."""
        return self._preview.project if self._preview else self._project

    @property
    def plan(self) -> Plan:
        """The newest plan there is; of an older project for a moment, where planning is slow. Or the preview's."""
        return self._preview.plan if self._preview else self.planner.plan

    @property
    def path(self) -> Path | None:
        """The file, if there is one."""
        return self._path

    @property
    def unit(self) -> Unit:
        """The unit lengths are shown in."""
        return Unit(self._project.units)

    @property
    def unsaved(self) -> bool:
        """Does the project differ from its file (or from a new project)?"""
        return self._project != self._saved

    @property
    def undo_label(self) -> str:
        """Name of the step undo takes back, '' for none."""
        return next(iter(self._steps.undo_labels[-1:]), "")

    @property
    def document(self) -> Project:
        """The document itself, whatever is previewed."""
        return self._project

    @property
    def saved(self) -> Project | None:
        """What the file holds, or the project began as; None where the file is gone."""
        return self._saved

    @property
    def undo_labels(self) -> tuple[str, ...]:
        """Names of all steps that undo takes back, the oldest first."""
        return self._steps.undo_labels

    @property
    def redo_labels(self) -> tuple[str, ...]:
        """Names of all steps that redo does again, the next first."""
        return self._steps.redo_labels

    @property
    def redo_label(self) -> str:
        """Name of the step redo does again, '' for none."""
        return next(iter(self._steps.redo_labels[:1]), "")

    # What is selected

    @property
    def selected(self) -> str:
        """Id of the one thing selected in all boards: shelf, panel, seam, frame part, sheet or piece; '' for none."""
        return self._selection.about

    @property
    def shelf(self) -> Shelf | None:
        """The shelf whose numbers the rule shows: the selected one, else the last that was."""
        return next((shelf for shelf in self._project.shelves if shelf.id == self._selection.shelf), None)

    @property
    def shelf_index(self) -> int:
        """Where `shelf` stands in the project, -1 for none."""
        shelves = enumerate(self._project.shelves)
        return next((at for at, shelf in shelves if shelf.id == self._selection.shelf), -1)

    @property
    def stock(self) -> Sheet:
        """The kind of sheet whose numbers the rule shows."""
        return self._project.sheets[self.stock_index]

    @property
    def stock_index(self) -> int:
        """Where `stock` stands in the project."""
        return next(at for at, sheet in enumerate(self._project.sheets) if sheet.id == self._selection.stock)

    @property
    def together(self) -> tuple[str, ...]:
        """Ids of the shelves that are edited at once, in the project's order; one alone: the selected."""
        return self._selection.together(self._project)

    def join(self, shelves: Iterable[str]) -> None:
        """These shelves are edited together with the selected one from now on."""
        self._tell_selection(self._selection.join(shelves))

    def toggle_together(self, shelf: str) -> None:
        """Take a shelf into those edited together, or out of them; of the selected one another takes the place."""
        self._tell_selection(self._selection.toggle(self._project, shelf))

    def select(self, about: str) -> None:
        """Select a thing by its id, everywhere. Shelves edited together stay so while it is of one of them."""
        self._tell_selection(self._selection.select(self._project, about))

    def select_alone(self, shelf: str) -> None:
        """Select a shelf, and edit no other with it."""
        self._tell_selection(self._selection.select_alone(self._project, shelf))

    def choose_stock(self, stock: str) -> None:
        """Show this kind of sheet in the rule."""
        self._tell_selection(self._selection.choose_stock(self._project, stock))

    def _tell_selection(self, moved: bool) -> None:
        if moved:
            self.selection_changed.emit()
