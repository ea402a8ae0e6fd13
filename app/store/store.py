"""The store itself: every change of the document.

Every edit goes through `Store.apply`; views show `Store.plan` and listen.
"""

from __future__ import annotations

import gc
from collections.abc import Callable
from pathlib import Path

from app.store.state import Held, Preview, State
from app.store.steps import Step
from core.document.check import check_project
from core.document.model import Project
from core.document.patch import apply_pointers
from core.plan.fixes import without_fixes
from core.plan.make import best_plan
from core.plan.model import Fix

Change = Callable[[Project], Project]


class Store(State):
    """The one way in: every change of the document is a method of this, or of what is selected."""

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
        self._steps.record(Step(label, self._project, self.selected), new, merge_key)
        self._take(new, select or self.selected)

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
        self._steps.end_run()

    def undo(self) -> None:
        """Take back the last step, if there is one."""
        self._go(1)

    def redo(self) -> None:
        """Do the step again that was taken back last, if there is one."""
        self._go(-1)

    def walk(self, steps: int) -> None:
        """Undo so many steps (negative: redo so many) at once; the views see only where that ends."""
        self.end_preview()
        if self._held is not None:
            self.put_back()
        self._walk(steps)

    def _go(self, steps: int) -> None:
        self.end_preview()
        if self._held is not None:  # what is taken back first is the drag that is going on
            self.put_back()
            return
        self._walk(steps)

    def _walk(self, steps: int) -> None:
        there = self._steps.walk(steps, (self._project, self.selected))
        if there is not None:
            self._take(*there)

    def _take(self, project: Project, selected: str) -> None:
        self._project = project
        moved = self._selection.settle(project, selected)
        self.changed.emit()
        self._tell_state()
        self.planner.ask(project)
        if moved:
            self.selection_changed.emit()

    def _tell_state(self) -> None:
        """`state_changed`, where it has: under a dragging hand it stays the same from move to move."""
        steps = (self.undo_label, self.redo_label, bool(self._selection.shelf), self._held is not None)
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
        self.end_run()
        self.planner.catch_up()
        self._held = Held(self._project, self.plan, self._steps.kept(), self._selection.now)
        self.planner.hold_from(self.plan.layout)
        gc.disable()  # looking for garbage takes longer than a frame; it is looked for when the hand lets go
        return self._held

    def _release(self) -> Held | None:
        """Nothing is held any more; returns what was."""
        held, self._held = self._held, None
        self.end_run()
        gc.enable()
        return held

    def let_go(self) -> None:
        """The hand is done: what it made stays, laid out afresh. Where it made nothing, nothing was done."""
        held = self._release()
        if held is None:
            return
        if self._project == held.project:
            self._steps.put_back(held.steps)
            self.planner.restore(held.project, held.plan)
        else:
            self.planner.hold_from(None)
        self._tell_state()

    def put_back(self) -> None:
        """Everything is as it was when the hand took hold: project, selection, what can be undone and done again."""
        held = self._release()
        if held is None:
            return
        self._steps.put_back(held.steps)
        changed, self._project = self._project is not held.project, held.project
        moved = self._selection.restore(held.selection)
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
        self._steps.forget()
        self._saved, self._path = project, path
        self._selection.part()
        self._take(project, "")

    def mark_saved(self, project: Project, path: Path) -> None:
        """This project is now what the file at `path` holds."""
        self._saved, self._path = project, path
        self.end_run()
        self._tell_state()

    def file_holds(self, project: Project | None) -> None:
        """The file was changed by something else: it holds this now; None: it is gone."""
        self._saved = project
        self._tell_state()
