"""The one document of the window: the project, its plan, what is selected, and the way back.

Every edit goes through `Store.apply`; views show `Store.plan` and listen.
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from app.pictures import Pictures
from app.planner import Planner
from core.document.check import check_project
from core.document.model import Project, Sheet, Shelf
from core.document.patch import apply_pointers
from core.lengths import Unit
from core.plan.fixes import without_fixes
from core.plan.make import best_plan
from core.plan.model import Fix, Plan

Change = Callable[[Project], Project]


class Step(NamedTuple):
    """A way back: what was done, and what there was before it (or after it, for redo)."""

    label: str
    project: Project
    selected: str


class Held(NamedTuple):
    """Everything there was when a hand took hold, to put back exactly."""

    project: Project
    plan: Plan
    undo: tuple[Step, ...]
    redo: tuple[Step, ...]
    selection: tuple[str, str, str]


class Preview(NamedTuple):
    """What a way out would make, shown before it is taken."""

    fix: Fix
    project: Project
    plan: Plan


class Store(QObject):
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
        self._undo: list[Step] = []
        self._redo: list[Step] = []
        self._merge_key: str | None = None
        self._held: Held | None = None
        self._preview: Preview | None = None
        self._told: tuple[object, ...] = ()  # the state as it was last told
        self._hands: list[Callable[[], bool]] = []
        self._selected = self._shelf = self._stock = ""
        self._also: frozenset[str] = frozenset()  # shelves edited together with the selected one
        self._settle_selection("")
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
        return self._undo[-1].label if self._undo else ""

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
        return tuple(step.label for step in self._undo)

    @property
    def redo_labels(self) -> tuple[str, ...]:
        """Names of all steps that redo does again, the next first."""
        return tuple(step.label for step in reversed(self._redo))

    @property
    def redo_label(self) -> str:
        """Name of the step redo does again, '' for none."""
        return self._redo[-1].label if self._redo else ""

    # Edits

    def apply(self, label: str, change: Change, merge_key: str | None = None, select: str = "") -> None:
        """Replace the project by `change(project)`, as one step of undo named `label`.

        merge_key: edits with the same key, one after the other, make one step (until `end_run`).
        select: what is selected afterwards, '' for what was.
        Raises ProjectError where the new project is not allowed: then nothing has changed.
        """
        self.end_preview()
        new = change(self._project)
        if new == self._project:
            return
        check_project(new)
        if merge_key is None or merge_key != self._merge_key:
            self._undo.append(Step(label, self._project, self._selected))
        elif new == self._undo[-1].project:  # the run came back to where it began: nothing was done
            self._undo.pop()
            merge_key = None
        self._redo.clear()
        self._merge_key = merge_key
        self._take(new, select or self._selected)

    def apply_fix(self, fix: Fix) -> None:
        """Take a finding's way out. Raises ProjectError where it leads to a project that is not allowed."""
        self.apply(fix.text, lambda project: apply_pointers(project, fix.set))

    @property
    def previewed(self) -> Fix | None:
        """The way out that is shown as if it were taken."""
        return self._preview.fix if self._preview else None

    def preview(self, fix: Fix) -> None:
        """Show what a way out would make: views get its project and plan, the document stays as it is.

        It ends with `end_preview`, and with every edit. Raises ProjectError where it leads to no allowed project.
        """
        if self._held is not None or fix == self.previewed:
            return
        project = apply_pointers(self._project, fix.set)
        self._preview = Preview(fix, project, without_fixes(best_plan(project)))
        self.plan_changed.emit()

    def end_preview(self) -> None:
        """Show the document again."""
        if self._preview is not None:
            self._preview = None
            self.plan_changed.emit()

    def end_run(self) -> None:
        """The next edit is a step of its own."""
        self._merge_key = None

    def undo(self) -> None:
        """Take back the last step, if there is one."""
        self._go(self._undo, self._redo)

    def redo(self) -> None:
        """Do the step again that was taken back last, if there is one."""
        self._go(self._redo, self._undo)

    def walk(self, steps: int) -> None:
        """Undo so many steps (negative: redo so many) at once; the views see only where that ends."""
        self.end_preview()
        if self._held is not None:
            self.put_back()
        source, target = (self._undo, self._redo) if steps > 0 else (self._redo, self._undo)
        count = min(abs(steps), len(source))
        project, selected = self._project, self._selected
        for _ in range(count):
            step = source.pop()
            target.append(Step(step.label, project, selected))
            project, selected = step.project, step.selected
        if count:
            self._merge_key = None
            self._take(project, selected)

    def _go(self, source: list[Step], target: list[Step]) -> None:
        self.end_preview()
        if self._held is not None:  # what is taken back first is the drag that is going on
            self.put_back()
            return
        if not source:
            return
        step = source.pop()
        target.append(Step(step.label, self._project, self._selected))
        self._merge_key = None
        self._take(step.project, step.selected)

    def _take(self, project: Project, selected: str) -> None:
        self._project = project
        moved = self._settle_selection(selected)
        self.changed.emit()
        self._tell_state()
        self.planner.ask(project)
        if moved:
            self.selection_changed.emit()

    def _tell_state(self) -> None:
        """`state_changed`, where it has: under a dragging hand it stays the same from move to move."""
        steps = (self.undo_label, self.redo_label, bool(self._shelf), self._held is not None)
        state = (self._project.name, self._path, self.unsaved, *steps)
        if state != self._told:
            self._told = state
            self.state_changed.emit()

    # A hand that drags

    @property
    def held(self) -> Held | None:
        """What a hand that is dragging began with; None while none is."""
        return self._held

    def add_hand(self, ready: Callable[[], bool]) -> None:
        """A board has a hand. ready: is it on something that can be dragged?"""
        self._hands.append(ready)

    @property
    def ready(self) -> bool:
        """Is a hand on something that can be dragged? Then nothing is to move away from under it."""
        return self._held is not None or any(ready() for ready in self._hands)

    def take_hold(self) -> Held:
        """A hand takes hold: until `let_go` or `put_back` the nets stay where they lie, as far as they can."""
        self.end_preview()
        if self._held is not None:
            self.let_go()
        self._merge_key = None
        self.planner.catch_up()
        selection = (self._selected, self._shelf, self._stock)
        self._held = Held(self._project, self.plan, tuple(self._undo), tuple(self._redo), selection)
        self.planner.hold_from(self.plan.layout)
        gc.disable()  # looking for garbage takes longer than a frame; it is looked for when the hand lets go
        return self._held

    def _release(self) -> Held | None:
        """Nothing is held any more; returns what was."""
        held, self._held = self._held, None
        self._merge_key = None
        gc.enable()
        return held

    def let_go(self) -> None:
        """The hand is done: what it made stays, laid out afresh. Where it made nothing, nothing was done."""
        held = self._release()
        if held is None:
            return
        if self._project == held.project:
            self._undo[:], self._redo[:] = held.undo, held.redo
            self.planner.restore(held.project, held.plan)
        else:
            self.planner.hold_from(None)
        self._tell_state()

    def put_back(self) -> None:
        """Everything is as it was when the hand took hold: project, selection, what can be undone and done again."""
        held = self._release()
        if held is None:
            return
        self._undo[:], self._redo[:] = held.undo, held.redo
        moved = held.selection != (self._selected, self._shelf, self._stock)
        changed, self._project = self._project is not held.project, held.project
        self._selected, self._shelf, self._stock = held.selection
        if changed:
            self.changed.emit()
        self._tell_state()
        self.planner.restore(held.project, held.plan)
        if moved:
            self.selection_changed.emit()

    # The file

    def replace_document(self, project: Project, path: Path | None) -> None:
        """Begin with another project; there is no way back to the one before."""
        self.end_preview()
        self.let_go()
        self._undo.clear()
        self._redo.clear()
        self._merge_key = None
        self._saved, self._path = project, path
        self._also = frozenset()
        self._take(project, "")

    def mark_saved(self, project: Project, path: Path) -> None:
        """This project is now what the file at `path` holds."""
        self._saved, self._path = project, path
        self._merge_key = None
        self._tell_state()

    def file_holds(self, project: Project | None) -> None:
        """The file was changed by something else: it holds this now; None: it is gone."""
        self._saved = project
        self._tell_state()

    # What is selected

    @property
    def selected(self) -> str:
        """Id of the one thing selected in all boards: shelf, panel, seam, frame part, sheet or piece; '' for none."""
        return self._selected

    @property
    def shelf(self) -> Shelf | None:
        """The shelf whose numbers the rule shows: the selected one, else the last that was."""
        return next((shelf for shelf in self._project.shelves if shelf.id == self._shelf), None)

    @property
    def shelf_index(self) -> int:
        """Where `shelf` stands in the project, -1 for none."""
        return next((i for i, shelf in enumerate(self._project.shelves) if shelf.id == self._shelf), -1)

    @property
    def stock(self) -> Sheet:
        """The kind of sheet whose numbers the rule shows."""
        return next(sheet for sheet in self._project.sheets if sheet.id == self._stock)

    @property
    def stock_index(self) -> int:
        """Where `stock` stands in the project."""
        return next(i for i, sheet in enumerate(self._project.sheets) if sheet.id == self._stock)

    @property
    def together(self) -> tuple[str, ...]:
        """Ids of the shelves that are edited at once, in the project's order; one alone: the selected."""
        return tuple(shelf.id for shelf in self._project.shelves if shelf.id == self._shelf or shelf.id in self._also)

    def join(self, shelves: Iterable[str]) -> None:
        """These shelves are edited together with the selected one from now on."""
        also = frozenset(shelves) | {self._shelf}
        if also != self._also:
            self._also = also if len(also) > 1 else frozenset()
            self.selection_changed.emit()

    def toggle_together(self, shelf: str) -> None:
        """Take a shelf into those edited together, or out of them; of the selected one another takes the place."""
        also = set(self.together) ^ {shelf}
        if shelf == self._shelf and also:
            self._settle_selection(min(also, key=self.together.index))
        self.join(also)

    def select(self, about: str) -> None:
        """Select a thing by its id, everywhere. Shelves edited together stay so while it is of one of them."""
        alone = bool(self._also) and about.partition("/")[0] not in self._also
        if alone:
            self._also = frozenset()
        if self._settle_selection(about) or alone:
            self.selection_changed.emit()

    def select_alone(self, shelf: str) -> None:
        """Select a shelf, and edit no other with it."""
        alone, self._also = bool(self._also), frozenset()
        if self._settle_selection(shelf) or alone:
            self.selection_changed.emit()

    def choose_stock(self, stock: str) -> None:
        """Show this kind of sheet in the rule."""
        if stock != self._stock and any(sheet.id == stock for sheet in self._project.sheets):
            self._stock = stock
            self.selection_changed.emit()

    def _settle_selection(self, about: str) -> bool:
        """Keep the selection on things that exist. Returns whether anything moved."""
        before = (self._selected, self._shelf, self._stock)
        shelves = [shelf.id for shelf in self._project.shelves]
        owner = about.partition("/")[0]
        if owner in shelves:
            self._shelf = owner
        elif "/" in about or self._shelf not in shelves:  # gone with its shelf
            self._shelf = self._shelf if self._shelf in shelves else next(iter(shelves), "")
            about = self._shelf
        stocks = [sheet.id for sheet in self._project.sheets]
        if self._stock not in stocks:
            self._stock = stocks[0]
        self._selected = about
        return before != (self._selected, self._shelf, self._stock)
