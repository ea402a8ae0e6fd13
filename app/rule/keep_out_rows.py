"""Rows for the rectangles of the wall that screws keep out of: which one, what it is, where it is."""

from __future__ import annotations

from typing import Final

import msgspec

from app.rule.choices import Choice
from app.rule.fields import Number, NumberField, Take
from app.rule.reading import LENGTH
from app.rule.rows import BoundSection
from app.rule.subject import WallSubject, sentence
from app.theme import Theme
from core.document.check import field_error
from core.document.model import KeepOut
from core.language import tr

KINDS: Final = tuple((kind, kind) for kind in ("socket", "switch", "pipe", "tile edge"))
NUMBERS: Final = (
    ("x", tr("From the left"), tr("Its left side, from the wall's left edge.")),
    ("y", tr("From the floor"), tr("Its lower side, from the floor.")),
    ("width", tr("Width"), tr("Along the wall.")),
    ("height", tr("Height"), tr("Up the wall.")),
)
SIDE: Final = 86.0  # mm: a socket plate, common practice
HIGH: Final = 300.0  # mm from the floor: a socket, common practice


class KeepOutRows:
    """The rows, at the end of a section. `which`: number of the rectangle that is shown."""

    def __init__(self, section: BoundSection, wall: WallSubject, theme: Theme) -> None:
        self._wall = wall
        self.which = 0
        self._section = section
        chosen = Choice("wall_keep_out", theme)
        chosen.setAccessibleName(tr("Keep out of"))
        chosen.chosen.connect(self._show)
        self._pick = chosen
        first = section.add(
            tr("Keep out of"), chosen, tr("Sockets, switches, pipes, tile edges: no screw may meet them.")
        )
        kind = Choice("wall_keep_out_kind", theme)
        kind.setAccessibleName(tr("What it is"))
        kind.chosen.connect(lambda key: self._change("kind", key))
        rows = [
            first,
            section.add(tr("What it is"), kind, tr("Cables run above, below and level with sockets and switches.")),
        ]
        fields = []
        for name, label, tip in NUMBERS:
            field = NumberField(f"wall_keep_out_{name}", LENGTH, self._take(name))
            field.settled.connect(wall.store.end_run)
            rows.append(section.add(label, field, tip))
            fields.append((name, field))

        _, remove = section.buttons(
            ("keep_out_add", tr("Add a socket"), self._add, tr("A rectangle that screws keep out of.")),
            ("keep_out_remove", tr("Remove it"), self._remove, tr("The rectangle shown above.")),
        )

        def show(fresh: bool) -> None:
            areas = wall.value.keep_outs
            self.which = min(self.which, max(0, len(areas) - 1))
            for widget in (*rows, remove):
                widget.setVisible(bool(areas))
            if not areas:
                return
            chosen.offer(tuple((str(n), f"{n + 1}: {area.kind}") for n, area in enumerate(areas)), str(self.which))
            kind.offer(KINDS, areas[self.which].kind)
            for name, field in fields:
                field.show_value(getattr(areas[self.which], name), wall.store.unit, fresh)

        self._fill = show
        section.listen(show)

    def _show(self, key: str) -> None:
        self.which = int(key)
        self._fill(True)

    def _take(self, name: str) -> Take:
        def take(value: Number) -> str:
            if value is None or not self._wall.value.keep_outs:
                return ""
            return self._change(name, value)

        return take

    def _change(self, name: str, value: object) -> str:
        reason = field_error(f"/wall/keep_outs/{self.which}/{name}", value, self._wall.store.unit)
        if reason:
            return sentence(reason)
        areas = list(self._wall.value.keep_outs)
        areas[self.which] = msgspec.structs.replace(areas[self.which], **{name: value})
        return self._wall.change(
            tr("Keep-out {which}, {name}", which=self.which + 1, name=name), {"keep_outs": tuple(areas)}
        )

    def _add(self) -> None:
        wall = self._wall.value
        area = KeepOut(max(0.0, (wall.width - SIDE) / 2.0), min(HIGH, wall.height), SIDE, SIDE)
        self.which = len(wall.keep_outs)
        self._wall.store.end_run()
        self._wall.change(tr("Add a socket"), {"keep_outs": (*wall.keep_outs, area)})

    def _remove(self) -> None:
        areas = self._wall.value.keep_outs
        if areas:
            self._wall.store.end_run()
            self._wall.change(tr("Remove a keep-out"), {"keep_outs": areas[: self.which] + areas[self.which + 1 :]})
