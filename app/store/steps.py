"""The way back and forth: named steps, each with the project it leads to. No Qt here."""

from __future__ import annotations

from typing import NamedTuple

from core.document.model import Project


class Step(NamedTuple):
    """A way back: what was done, and what there was before it (or after it, for redo)."""

    label: str
    project: Project
    selected: str


class Steps:
    """What undo takes back and redo does again. Edits with one merge key, one after the other, make one step."""

    def __init__(self) -> None:
        self._undo: list[Step] = []
        self._redo: list[Step] = []
        self._merge_key: str | None = None

    @property
    def undo_labels(self) -> tuple[str, ...]:
        """Names of all steps that undo takes back, the oldest first."""
        return tuple(step.label for step in self._undo)

    @property
    def redo_labels(self) -> tuple[str, ...]:
        """Names of all steps that redo does again, the next first."""
        return tuple(step.label for step in reversed(self._redo))

    def record(self, before: Step, new: Project, merge_key: str | None) -> None:
        """An edit was made: what there was before it, under the edit's name, and what there is now."""
        if merge_key is None or merge_key != self._merge_key:
            self._undo.append(before)
        elif new == self._undo[-1].project:  # the run came back to where it began: nothing was done
            self._undo.pop()
            merge_key = None
        self._redo.clear()
        self._merge_key = merge_key

    def end_run(self) -> None:
        """The next edit is a step of its own."""
        self._merge_key = None

    def walk(self, steps: int, now: tuple[Project, str]) -> tuple[Project, str] | None:
        """Undo so many steps (negative: redo so many), as far as there are any; None where there is none.

        now: the project and what is selected; returns the same of where it ends.
        """
        source, target = (self._undo, self._redo) if steps > 0 else (self._redo, self._undo)
        count = min(abs(steps), len(source))
        for _ in range(count):
            step = source.pop()
            target.append(Step(step.label, *now))
            now = step.project, step.selected
        if not count:
            return None
        self._merge_key = None
        return now

    def kept(self) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
        """All of it as it is now, for `put_back`."""
        return tuple(self._undo), tuple(self._redo)

    def put_back(self, kept: tuple[tuple[Step, ...], tuple[Step, ...]]) -> None:
        """All of it as it was."""
        self._undo[:], self._redo[:] = kept

    def forget(self) -> None:
        """There is no way back any more."""
        self.put_back(((), ()))
        self._merge_key = None
