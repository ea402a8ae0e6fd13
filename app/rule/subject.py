"""What a section of the rule is about: a part of the project, how to read it and how to put a changed one back."""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import Generic, TypeVar

import msgspec

from app.rule.several import change_together
from app.store import Store
from core.document.check import field_error
from core.document.errors import ProjectError
from core.document.model import FrameWish, Project, Saw, Screw, Sheet, Shelf, Wall
from core.language import tr

V = TypeVar("V", bound=msgspec.Struct)


def sentence(phrase: str) -> str:
    """A reason as a sentence."""
    return phrase[:1].upper() + phrase[1:] + ("" if phrase.endswith((".", "?")) else ".")


class Subject(ABC, Generic[V]):
    """One part of the project."""

    def __init__(self, store: Store) -> None:
        self.store = store

    @property
    @abstractmethod
    def value(self) -> V | None:
        """The part as it is; None where there is none."""

    @property
    def shown(self) -> object:
        """What can be seen of the part: while it is the same there is nothing to show anew."""
        return self.value

    @property
    @abstractmethod
    def pointer(self) -> str:
        """JSON pointer to it."""

    @abstractmethod
    def put(self, project: Project, value: V) -> Project:
        """The project with this part replaced."""

    def label(self, what: str) -> str:
        """Name of an undo step that changes `what`."""
        return what

    def change(self, what: str, fields: dict[str, object], select: str = "") -> str:
        """Set fields, as one step with others on the same fields. Returns why not, '' when it is done."""
        value = self.value
        if value is None:
            return ""
        for name, new in fields.items():
            reason = field_error(f"{self.pointer}/{name}", msgspec.to_builtins(new), self.store.unit)
            if reason:
                return sentence(reason)
        changed = msgspec.structs.replace(value, **fields)
        key = f"{self.pointer}:{','.join(fields)}"
        try:
            self.store.apply(self.label(what), lambda project: self.put(project, changed), key, select)
        except ProjectError as error:
            return sentence(error.why)
        return ""


class ShelfSubject(Subject[Shelf]):
    """The shelf that is selected."""

    @property
    def value(self) -> Shelf | None:
        return self.store.shelf

    @property
    def pointer(self) -> str:
        return f"/shelves/{self.store.shelf_index}"

    def put(self, project: Project, value: Shelf) -> Project:
        return change_together(project, self.store.shelf_index, value, self.store.together)

    def label(self, what: str) -> str:
        if len(self.store.together) > 1:
            return tr("{what} of {together} shelves", what=what, together=len(self.store.together))
        return tr("{what} of {id}", what=what, id=self.store.shelf.id) if self.store.shelf else what


class StockSubject(Subject[Sheet]):
    """The kind of sheet the rule shows."""

    @property
    def value(self) -> Sheet:
        return self.store.stock

    @property
    def pointer(self) -> str:
        return f"/sheets/{self.store.stock_index}"

    def put(self, project: Project, value: Sheet) -> Project:
        at = self.store.stock_index
        sheets = (*project.sheets[:at], value, *project.sheets[at + 1 :])
        return msgspec.structs.replace(project, sheets=sheets)

    def label(self, what: str) -> str:
        return tr("{what} of sheet {id}", what=what, id=self.store.stock.id)


class SawSubject(Subject[Saw]):
    """The saw."""

    pointer = "/saw"

    @property
    def value(self) -> Saw:
        return self.store.project.saw

    def put(self, project: Project, value: Saw) -> Project:
        return msgspec.structs.replace(project, saw=value)


class FrameSubject(Subject[FrameWish]):
    """How the frame is to be built."""

    pointer = "/frame"

    @property
    def value(self) -> FrameWish:
        return self.store.project.frame

    def put(self, project: Project, value: FrameWish) -> Project:
        return msgspec.structs.replace(project, frame=value)


class ScrewSubject(Subject[Screw]):
    """The screws into the studs."""

    pointer = "/screw"

    @property
    def value(self) -> Screw:
        return self.store.project.screw

    def put(self, project: Project, value: Screw) -> Project:
        return msgspec.structs.replace(project, screw=value)


class WallSubject(Subject[Wall]):
    """The wall."""

    pointer = "/wall"

    @property
    def value(self) -> Wall:
        return self.store.project.wall

    def put(self, project: Project, value: Wall) -> Project:
        return msgspec.structs.replace(project, wall=value)


class ProjectSubject(Subject[Project]):
    """The whole project, for what stands at its top: name, units, glue line."""

    pointer = ""

    @property
    def value(self) -> Project:
        return self.store.project

    @property
    def shown(self) -> object:
        return (self.value.name, self.value.units, self.value.glue_line, self.value.rules)

    def put(self, project: Project, value: Project) -> Project:
        return value
