"""One drag, from the press to the release: one undo step, or nothing at all. No widgets here."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import count

from app.hand.grid import Aim
from app.hand.grip import Edit, Grip, Point, Values
from app.rule.subject import sentence
from app.store import Store
from core.document.errors import ProjectError
from core.drawing.names import letter
from core.language import tr
from core.lengths import Unit, show_length
from core.plan.model import Plan

FINE = 0.1  # of the pointer's way while dragging fine

_NUMBERS = count()


@dataclass(frozen=True)
class Readout:
    """What stands beside the pointer: (word, value) for each number, what caught it, what is wrong."""

    numbers: tuple[tuple[str, str], ...]
    caught: str = ""
    trouble: str = ""


class Drag:
    """Holds the store's layout still until `release` or `cancel`; either ends it, and so does anybody's undo.

    Each `move`, `step` and `put` is one edit with the same merge key. `cancel` puts back the project, the selection
    and what could be done again, exactly as they were.
    """

    def __init__(self, store: Store, grip: Grip) -> None:
        self._store = store
        self.grip = grip
        self._key = f"hand {next(_NUMBERS)}"
        self._travel: Point = (0.0, 0.0)
        self._base: Values = grip.values
        self.values: Values = grip.values
        self._edit: Edit | None = None
        self._refused = ""
        self._held = store.take_hold()
        about = select_for(store, grip.about)
        if about and any(shelf.id == about for shelf in store.project.shelves):
            store.select(about)

    @property
    def alive(self) -> bool:
        """Is it still going on?"""
        return self._store.held is self._held

    @property
    def changed(self) -> bool:
        """Has it changed the project?"""
        return self.alive and self._store.project != self._held.project

    # What the hand does

    def move(self, way: Point, aim: Aim) -> None:
        """The pointer has moved on by `way` board millimetres."""
        share = FINE if aim.fine else 1.0
        self._travel = (self._travel[0] + share * way[0], self._travel[1] + share * way[1])
        wanted = tuple(
            base + asked - first
            for base, asked, first in zip(self._base, self.grip.after(self._travel), self.grip.values, strict=True)
        )
        self._take(self.grip.drop(wanted, aim))

    def step(self, way: Point, unit: Unit, fine: bool) -> None:
        """One step in a direction of the board; the pointer goes on from there."""
        self._go_on_from(self.grip.stepped(self.values, way, unit, fine))

    def put(self, values: Values) -> str:
        """Set exactly these values. Returns why not, '' when it is done."""
        numbers = self.grip.numbers
        for number, value in zip(numbers, values, strict=True):
            complaint = number.limits.complaint(value, self._store.unit) if number.limits else None
            if complaint:
                return sentence(f"{tr(number.words)} {complaint}")
        self._go_on_from(values)
        return self._refused

    def _go_on_from(self, values: Values) -> None:
        self._take(self.grip.put(values))
        if not self._refused:
            self._travel = (0.0, 0.0)
            self._base = self.values

    def _take(self, edit: Edit | None) -> None:
        self._refused = ""
        if edit is None or not self.alive:
            return
        try:
            self._store.apply(
                self.grip.label, lambda _: edit.project, self._key, select_for(self._store, self.grip.about)
            )
        except ProjectError as error:
            self._refused = sentence(error.why)
            return
        self._edit = edit
        self.values = edit.values

    # How it ends

    def release(self) -> None:
        """Done: what was made stays, and is planned afresh."""
        if self.alive:
            self._store.let_go()

    def cancel(self) -> None:
        """Put everything back as it was."""
        if self.alive:
            self._store.put_back()

    # What stands beside the pointer

    def readout(self) -> Readout:
        """The exact values, and in words what caught the hand, stopped it or does not fit."""
        unit, edit = self._store.unit, self._edit
        shown = tuple(
            (tr(number.words), number.show(value, unit))
            for number, value in zip(self.grip.numbers, self.values, strict=True)
        )
        trouble = self._refused or (edit.stop if edit else "") or overrun_words(self._store.plan, self.grip.about)
        return Readout(shown, edit.caught if edit else "", trouble)


def select_for(store: Store, about: str) -> str:
    """What an edit of `about` selects; '' where it, or a part of it, is selected already."""
    return "" if store.selected.partition("/")[0] == about else about


def overrun_words(plan: Plan, first: str = "") -> str:
    """How much a shelf is too long or too wide, the one called `first` before others; '' where all fit."""
    over = min(plan.overruns, key=lambda o: o.shelf != first, default=None)
    if over is None:
        return ""
    unit = Unit(plan.project.units)
    said = [
        f"{show_length(amount, unit, rounding='up')} {word}"
        for amount, word in ((over.over_x, tr("too long")), (over.over_y, tr("too wide")))
        if amount > 0.0
    ]
    words = tr("{join} for the sheet", join=" and ".join(said)) if said else tr("no room on a sheet")
    at = next((at for at, shelf in enumerate(plan.project.shelves) if shelf.id == over.shelf), 0)
    return (
        words
        if over.shelf == first
        else tr("{letter} is now {words}", letter=letter(at), words=words)
        if said
        else f"{letter(at)}: {words}"
    )
