"""The selected area that is kept clear on a sheet: what it is, what keeps out of it, where it lies."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from app.rule.area_edits import Place, area_at, moved, place_of, resized, with_area, without_area
from app.rule.choices import Choice, Segments
from app.rule.fields import Number, NumberField
from app.rule.reading import LENGTH
from app.rule.rows import BoundSection
from app.rule.subject import Subject
from app.store import Store
from app.theme import Theme
from core.document.areas import box_of
from core.document.model import KeepClear, Project, Sheet
from core.language import tr
from core.layout.clear import bounds

KINDS: Final = (("leaf joint", "leaf joint"), ("sapwood", "sapwood"), ("patch", "patch"), ("bruise", "bruise"))
NOISE: Final = 1e-8  # mm
OUT: Final = (("net", "nets"), ("faces", "faces"), ("front", "fronts"))


class AreaSubject(Subject[KeepClear]):
    """The area that is selected."""

    @property
    def place(self) -> Place | None:
        """Where it stands in the project; None while none is selected."""
        return place_of(self.store.project, self.store.selected)

    @property
    def value(self) -> KeepClear | None:
        place = self.place
        return area_at(self.store.project, place) if place else None

    @property
    def stock(self) -> Sheet:
        """The sheet it is on; the first one while none is selected."""
        return self.store.project.sheets[self.place[0] if self.place else 0]

    @property
    def pointer(self) -> str:
        at, number = self.place or (0, 0)
        return f"/sheets/{at}/keep_clear/{number}"

    def put(self, project: Project, value: KeepClear) -> Project:
        place = self.place
        return with_area(project, place, value) if place else project

    def label(self, what: str) -> str:
        return tr("{what} on sheet {id}", what=what, id=self.stock.id)


class AreaSection(BoundSection):
    """Shown while an area is selected."""

    def __init__(self, store: Store, theme: Theme) -> None:
        self._area = AreaSubject(store)
        super().__init__("area", theme, self._area)
        self._store = store
        kind = Choice("area_kind", theme)
        kind.setAccessibleName(tr("What it is"))
        kind.chosen.connect(lambda key: self._choose("kind", key))
        self.add(tr("What it is"), kind, tr("Why it is kept clear."))
        self.listen(lambda _fresh: kind.offer(KINDS, self._value().kind))
        of = Segments("area_of", OUT)
        of.set_name(tr("What keeps out"))
        of.chosen.connect(lambda key: self._choose("of", key))
        tip = tr("Nets: panels and the V's between them. Faces: show faces alone. Fronts: the front's face alone.")
        self.add(tr("Keeps out"), of, tip)
        self.listen(lambda _fresh: of.show_value(self._value().of))
        self._length("x", tr("From trued end"), tr("Its left end, from the trimmed end of the sheet."), self._corner(0))
        self._length(
            "y", tr("From lower edge"), tr("Its lower edge, from the trimmed one of the sheet."), self._corner(1)
        )
        self._length("along", tr("Along"), tr("How far it reaches along the grain."), self._side(0))
        self._length("across", tr("Across"), tr("How far it reaches across the grain."), self._side(1))
        self.buttons(("remove", tr("Remove"), self._remove, tr("The whole sheet may be used there (Delete).")))

    def refresh(self) -> None:
        """Shown while there is one."""
        self.setVisible(self._area.value is not None)
        super().refresh()

    def title(self) -> str:
        area = self._area.value
        return (
            tr("{kind} on sheet {id}", kind=area.kind.capitalize(), id=self._area.stock.id)
            if area
            else tr("Keep clear")
        )

    def _value(self) -> KeepClear:
        area = self._area.value
        assert area is not None
        return area

    def _choose(self, field: str, key: str) -> None:
        self._store.end_run()
        self._area.change(tr("Keep clear"), {field: key})

    # Numbers

    def _length(
        self, name: str, label: str, tip: str, number: tuple[Callable[[], float | None], Callable[[float], KeepClear]]
    ) -> None:
        get, changed = number

        def take(value: Number) -> str:
            if value is None:
                return ""
            return self._area.change(label, {"corners": changed(float(value)).corners})

        field = NumberField(f"area_{name}", LENGTH, take)
        field.settled.connect(self._store.end_run)
        row = self.add(label, field, tip)

        def show(fresh: bool) -> None:
            value = get()
            row.setVisible(value is not None)
            if value is not None:
                if field.value is not None and abs(value - field.value) < NOISE:
                    value = field.value  # it is what was typed, but for adding and taking away
                field.show_value(value, self._store.unit, fresh)

        self.listen(show)

    def _corner(self, axis: int) -> tuple[Callable[[], float | None], Callable[[float], KeepClear]]:
        """Where the box round it begins along an axis, from the trim."""

        def changed(value: float) -> KeepClear:
            corner = list(bounds(self._value().corners)[:2])
            corner[axis] = value + self._area.stock.trim
            return moved(self._value(), (corner[0], corner[1]))

        return lambda: bounds(self._value().corners)[axis] - self._area.stock.trim, changed

    def _side(self, axis: int) -> tuple[Callable[[], float | None], Callable[[float], KeepClear]]:
        """A rectangle's side along an axis; None for any other area."""

        def get() -> float | None:
            box = box_of(self._value())
            return box[axis + 2] - box[axis] if box else None

        def changed(value: float) -> KeepClear:
            box = box_of(self._value()) or (0.0, 0.0, 0.0, 0.0)
            sides = [box[2] - box[0], box[3] - box[1]]
            sides[axis] = value
            return resized(self._value(), sides[0], sides[1])

        return get, changed

    def _remove(self) -> None:
        place = self._area.place
        if place is not None:
            label = self._area.label(tr("Remove the {kind}", kind=self._value().kind))
            self._store.apply(label, lambda project: without_area(project, place))
            self._store.select(self._store.shelf.id if self._store.shelf else "")
