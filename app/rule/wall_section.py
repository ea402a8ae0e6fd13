"""The wall as it was measured: what it is made of, its studs, how flat and level it is, what is hidden in it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import msgspec
from PySide6.QtCore import Qt

from app.rule.choices import Choice, Segments
from app.rule.fields import NameField, Number, NumberField
from app.rule.keep_out_rows import KeepOutRows
from app.rule.reading import LENGTH, RATIO
from app.rule.rows import BoundSection, row_of
from app.rule.section import Row
from app.rule.subject import WallSubject, sentence
from app.rule.wall_text import bow_text, read_bow, read_studs, read_widths, studs_text, widths_text
from app.store import Store
from app.theme import Theme
from core.document.check import field_error
from core.document.model import Alcove, Studs, Wall
from core.frame.studs import stud_lines
from core.language import tr
from core.lengths import Unit, show_length

KINDS: Final = tuple((kind, kind) for kind in ("timber stud", "metal stud", "masonry", "unknown"))
Read = Callable[[str, Unit], dict[str, object]]


class WallSection(BoundSection):
    """The wall's numbers."""

    def __init__(self, store: Store, theme: Theme) -> None:
        self._wall = WallSubject(store)
        super().__init__("wall", theme, self._wall)
        self._store = store
        kind = Choice("wall_kind", theme)
        kind.setAccessibleName(tr("What it is made of"))
        kind.chosen.connect(lambda key: self._choose(tr("Kind of wall"), {"kind": key}))
        self.add(tr("Made of"), kind, tr("Screws and load are planned for timber studs alone."))
        self.listen(lambda _fresh: kind.offer(KINDS, self._wall.value.kind))
        self._width = self.number("width", tr("Width"), LENGTH, tr("From its left edge to its right one."))
        self.number("height", tr("Height"), LENGTH, tr("From the floor to the ceiling."))
        self._add_studs()
        self.number("board", tr("Wall board"), LENGTH, tr("What covers the studs."))
        self.number("tile", tr("Tile"), LENGTH, tr("On the board, where the shelf hangs: the screws are longer by it."))
        tip = tr("How far counter, ceiling or tiles rise from the left edge to the right; negative: they fall.")
        self.number("run_out", tr("Out of level"), LENGTH, tip)
        tip = tr("Gaps behind a straightedge on the line, as place: gap; place: gap; from the left edge.")
        self._text("bow", tr("Bow"), tip, lambda: bow_text(self._wall.value.bow, store.unit), _bow)
        tip = tr("One width, or three: at the back; in the middle; at the front, {} the shelf. Empty: no alcove.")
        self._text("over", tr("Alcove, over"), tip.format(tr("over")), lambda: self._widths("top"), self._over)
        self._text("under", tr("Alcove, under"), tip.format(tr("under")), lambda: self._widths("bottom"), self._under)
        self._keep_outs = KeepOutRows(self, self._wall, theme)

    def begin(self) -> None:
        """Ready to type the wall's width."""
        self.set_open(True)
        self._width.setFocus(Qt.FocusReason.TabFocusReason)
        self._width.selectAll()

    def _choose(self, what: str, fields: dict[str, object]) -> None:
        self._store.end_run()
        self._wall.change(what, fields)

    # Studs

    def _add_studs(self) -> None:
        choice = Segments("wall_studs", (("even", "even"), ("noted", tr("as noted"))))
        choice.set_name(tr("Studs"))
        choice.chosen.connect(self._choose_studs)
        rows = [self.add(tr("Studs"), choice, tr("At even spacing, or each as it was found."))]
        self.listen(lambda _fresh: choice.show_value("even" if isinstance(self._wall.value.studs, Studs) else "noted"))
        even = [
            self._stud("first", tr("First stud"), tr("Centre line, from the wall's left edge.")),
            self._stud("spacing", tr("Spacing"), tr("Centre to centre.")),
        ]
        tip = tr("Centre lines from the wall's left edge, with ; between them.")
        noted = self._text("noted", tr("Centre lines"), tip, self._noted, _studs)
        rows += [
            row_of(self.number("stud_width", tr("Stud width"), LENGTH, tr("As it stands behind the board."))),
            row_of(
                self.number(
                    "gravity", tr("Stud density"), RATIO, tr("Specific gravity of the studs' wood: 0.42 spruce.")
                )
            ),
        ]

        def show(_fresh: bool) -> None:
            timber, is_even = self._wall.value.kind == "timber stud", isinstance(self._wall.value.studs, Studs)
            for row in rows:
                row.setVisible(timber)
            for row in even:
                row.setVisible(timber and is_even)
            noted.setVisible(timber and not is_even)

        self.listen(show)

    def _stud(self, name: str, label: str, tip: str) -> Row:
        """A row for one number of even studs."""

        def take(value: Number) -> str:
            studs = self._wall.value.studs
            if not isinstance(studs, Studs) or value is None:
                return ""
            limits = field_error(f"/wall/studs/{name}", value, self._store.unit)
            return (
                sentence(limits)
                if limits
                else self._wall.change(label, {"studs": msgspec.structs.replace(studs, **{name: value})})
            )

        field = NumberField(f"wall_{name}", LENGTH, take)
        field.settled.connect(self._store.end_run)

        def show(fresh: bool) -> None:
            studs = self._wall.value.studs
            if isinstance(studs, Studs):
                field.show_value(getattr(studs, name), self._store.unit, fresh)

        self.listen(show)
        return self.add(label, field, tip)

    def _choose_studs(self, key: str) -> None:
        """Even studs as a list of the same places; a list as even studs from the first two."""
        wall = self._wall.value
        if key == "noted" and isinstance(wall.studs, Studs):
            places = stud_lines(msgspec.structs.replace(wall, kind="timber stud"), 0.0, wall.width)
            self._choose(tr("Studs"), {"studs": places})
        elif key == "even" and not isinstance(wall.studs, Studs):
            self._choose(tr("Studs"), {"studs": _even(wall.studs)})

    def _noted(self) -> str:
        studs = self._wall.value.studs
        return "" if isinstance(studs, Studs) else studs_text(studs, self._store.unit)

    # Alcove

    def _widths(self, side: str) -> str:
        alcove = self._wall.value.alcove
        return widths_text(getattr(alcove, side) if alcove else None, self._store.unit)

    def _over(self, text: str, unit: Unit) -> dict[str, object]:
        widths, before = read_widths(text, unit), self._wall.value.alcove
        return {"alcove": Alcove(widths, before.bottom if before else widths) if widths else None}

    def _under(self, text: str, unit: Unit) -> dict[str, object]:
        widths, before = read_widths(text, unit), self._wall.value.alcove
        return {"alcove": Alcove(before.top if before else widths, widths) if widths else None}

    def _text(self, name: str, label: str, tip: str, get: Callable[[], str], read: Read) -> Row:
        """A line of text that stands for several numbers."""

        def take(text: str) -> str:
            try:
                fields = read(text, self._store.unit)
            except ValueError as error:
                return sentence(str(error))
            return self._wall.change(label, fields)

        field = NameField(f"wall_{name}", take, live=False)
        field.settled.connect(self._store.end_run)
        self.listen(lambda fresh: field.show_value(get(), fresh))
        return self.add(label, field, tip)

    def title(self) -> str:
        return tr("Wall")

    def summary(self) -> str:
        wall: Wall = self._wall.value
        size = " × ".join(show_length(side, self._store.unit, marks=False) for side in (wall.width, wall.height))
        return f"{tr(wall.kind)}, {size}"


def _bow(text: str, unit: Unit) -> dict[str, object]:
    return {"bow": read_bow(text, unit)}


def _studs(text: str, unit: Unit) -> dict[str, object]:
    return {"studs": read_studs(text, unit)}


def _even(studs: tuple[float, ...]) -> Studs:
    """Even studs that begin as those of a list do."""
    places = sorted(set(studs))
    if len(places) < 2:
        return Studs(places[0]) if places else Studs()
    return Studs(places[0], places[1] - places[0])
