"""Any edits, undo, redo, save, load in a real window, against a model: a list of projects and a place in it."""

from __future__ import annotations

from pathlib import Path

import msgspec
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule
from PySide6.QtCore import QCoreApplication, QEvent

from app.window.window import Window
from core.document.errors import ProjectError
from core.document.load import load_project
from core.document.model import Project
from core.document.revisions import keep_revision, restore_revision
from core.plan.make import make_plan
from core.plan.model import Plan

LENGTHS = st.integers(300, 1400).map(float)
FIELDS = st.sampled_from(["length", "depth", "height"])


def with_field(project: Project, at: int, name: str, value: float) -> Project:
    shelf = msgspec.structs.replace(project.shelves[at], **{name: value})
    return msgspec.structs.replace(project, shelves=(*project.shelves[:at], shelf, *project.shelves[at + 1 :]))


class Model:
    """What the document must be: `steps[at]` now, undo and redo walk through them."""

    def __init__(self, project: Project) -> None:
        self.begin(project)

    def begin(self, project: Project) -> None:
        self.steps, self.at, self.saved, self.key = [project], 0, project, ""

    @property
    def now(self) -> Project:
        return self.steps[self.at]

    def edit(self, project: Project, key: str = "") -> None:
        if project == self.now:
            return
        if key and key == self.key:
            self.steps[self.at :] = [project]
            if project == self.steps[self.at - 1]:
                self.steps.pop()
                self.at -= 1
                key = ""
        else:
            self.steps[self.at + 1 :] = [project]
            self.at += 1
        self.key = key

    def walk(self, steps: int) -> None:
        to = min(max(self.at - steps, 0), len(self.steps) - 1)
        if to != self.at:
            self.at, self.key = to, ""


class Machine(RuleBasedStateMachine):
    """One example in one window; the window stays from one to the next."""

    def __init__(self, window: Window, project: Project, folder: Path) -> None:
        super().__init__()
        self.window, self.store = window, window.store
        self.first, self.file = project, folder / "hall.grainfold"
        self.model = Model(project)
        self.is_written = False

    @initialize()
    def begin(self) -> None:
        self.window.files._begin(self.first)
        self.model.begin(self.first)

    def choose(self, at: int) -> int:
        return at % max(1, len(self.model.now.shelves))

    @precondition(lambda self: self.model.now.shelves)
    @rule(at=st.integers(0, 9), name=FIELDS, value=LENGTHS, run=st.booleans())
    def size(self, at: int, name: str, value: float, run: bool) -> None:
        at = self.choose(at)
        key = f"{at} {name}" if run else ""
        self.store.apply("Size", lambda p: with_field(p, at, name, value), key or None)
        self.model.edit(with_field(self.model.now, at, name, value), key)

    @precondition(lambda self: self.model.now.shelves)
    @rule(at=st.integers(0, 9), value=st.sampled_from([-1.0, 0.0, 1e9]))
    def refused(self, at: int, value: float) -> None:
        try:
            self.store.apply("Size", lambda p: with_field(p, self.choose(at), "length", value))
        except ProjectError:
            return
        raise AssertionError("that is no size")

    @rule(name=st.sampled_from(["add_shelf", "duplicate_shelf", "remove_shelf"]))
    def set_of_shelves(self, name: str) -> None:
        if name != "remove_shelf" and len(self.model.now.shelves) > 4:
            return
        self.window.actions_[name].trigger()
        self.model.edit(self.store.document)
        self.end_run()

    @rule(text=st.text("abcdefgh ", max_size=8), at=st.integers(0, 9))
    def rename(self, text: str, at: int) -> None:
        self.store.apply("Name", lambda p: msgspec.structs.replace(p, name=text), "name")
        self.model.edit(msgspec.structs.replace(self.model.now, name=text), "name")

    @rule(units=st.sampled_from(["in", "mm"]))
    def units(self, units: str) -> None:
        self.store.apply("Units", lambda p: msgspec.structs.replace(p, units=units))
        self.model.edit(msgspec.structs.replace(self.model.now, units=units))

    @precondition(lambda self: len(self.model.now.revisions) < 3)
    @rule()
    def keep(self) -> None:
        name = f"r{len(self.model.now.revisions)}"
        self.store.apply("Keep", lambda p: keep_revision(p, name, "2026-05-17"))
        self.model.edit(keep_revision(self.model.now, name, "2026-05-17"))

    @precondition(lambda self: self.model.now.revisions)
    @rule(at=st.integers(0, 2))
    def restore(self, at: int) -> None:
        at %= len(self.model.now.revisions)
        self.store.apply("Restore", lambda p: restore_revision(p, at))
        self.model.edit(restore_revision(self.model.now, at))

    @rule(steps=st.sampled_from([1, 1, 1, -1, -1, 3, -3]))
    def walk(self, steps: int) -> None:
        if abs(steps) == 1:
            self.window.actions_["undo" if steps > 0 else "redo"].trigger()
        else:
            self.store.walk(steps)
        self.model.walk(steps)

    @rule()
    def end_run(self) -> None:
        self.store.end_run()
        self.model.key = ""

    @precondition(lambda self: self.model.now.shelves)
    @rule(values=st.lists(LENGTHS, min_size=1, max_size=4), stays=st.booleans())
    def drag(self, values: list[float], stays: bool) -> None:
        self.store.take_hold()
        for value in values:
            self.store.apply("Drag", lambda p, v=value: with_field(p, 0, "length", v), "drag")
        self.model.key = ""
        if stays:
            self.store.let_go()
            self.model.edit(with_field(self.model.now, 0, "length", values[-1]))
        else:
            self.store.put_back()
        self.model.key = ""

    @rule(at=st.integers(0, 20), taken=st.booleans())
    def way_out(self, at: int, taken: bool) -> None:
        """Where there is one: a better layout may have come meanwhile, so this is no precondition."""
        fixes = [fix for finding in self.store.plan.findings for fix in finding.fixes]
        if not fixes:
            return
        fix = fixes[at % len(fixes)]
        try:
            self.store.preview(fix)
        except ProjectError:
            return
        shown = self.store.project
        if taken:
            self.store.apply_fix(fix)
            self.model.edit(shown)
        else:
            self.store.end_preview()

    @rule()
    def save(self) -> None:
        assert self.window.files._write(self.file)
        self.model.saved, self.model.key = self.model.now, ""
        self.is_written = True

    @precondition(lambda self: self.is_written)
    @rule()
    def load(self) -> None:
        project = load_project(self.file)
        self.window.files.keeper.forget()
        assert self.window.files.open_path(self.file)
        self.model.begin(project)

    @rule(board=st.sampled_from(["history", "cut_list", "cut_steps", "section", "offcuts", "fill_sheet", "fill_wall"]))
    def look_elsewhere(self, board: str) -> None:
        self.window.actions_[board].trigger()
        self.end_run()  # a field that loses the focus ends it, or not

    @invariant()
    def the_document_is_the_models(self) -> None:
        assert self.store.document == self.model.now
        assert len(self.store.undo_labels) == self.model.at
        assert len(self.store.redo_labels) == len(self.model.steps) - 1 - self.model.at
        assert self.store.unsaved == (self.model.now != self.model.saved)

    @invariant()
    def the_plan_is_the_documents(self) -> None:
        QCoreApplication.processEvents()
        self.store.planner.settle()  # after what has just been found: its ways out may still be on their way
        plan = self.store.plan
        made = make_plan(self.store.document, plan.layout, plan.proof) if plan.proof else make_plan(self.store.document)
        assert plan == made, differing(plan, made)
        assert not self.window.errors.count

    def teardown(self) -> None:
        self.window.line.clear_message()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def differing(one: Plan, other: Plan) -> str:
    """Where two plans are not the same."""
    fields = [name for name in one.__struct_fields__ if getattr(one, name) != getattr(other, name)]
    findings = [[f for f in a.findings if f not in b.findings] for a, b in ((one, other), (other, one))]
    return f"{fields}: {findings}"
