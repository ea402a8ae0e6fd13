"""Where a shelf is: pinned on the sheet or free, hung on the wall or not yet; the numbers go with the place."""

from __future__ import annotations

from collections.abc import Callable

import msgspec

from app.rule import edits
from app.rule.choices import Segments
from app.rule.fields import Number, NumberField, Take
from app.rule.nets import turn
from app.rule.reading import LENGTH
from app.rule.rows import BoundSection
from app.rule.subject import ShelfSubject, sentence
from core.document.check import field_error
from core.document.model import Mount, Shelf
from core.language import tr

LEFT_TIP = tr("Outside of the left end, from the wall's left edge.")
SHIFT_TIP = tr("How far the frame stands right of the middle of its play at the sides; negative: left of it.")
TOP_TIP = tr("Height of the top's show face above the floor.")
CORNER_TIP = tr("Lower left corner of the pinned net on the sheet.")


def add_pin(section: BoundSection, subject: ShelfSubject) -> None:
    """Free or pinned on the sheet, with the net's corner."""
    place = Pin(subject)
    choice = Segments("shelf_pin", (("free", "free"), ("pinned", "pinned")))
    choice.set_name(tr("Place on the sheet"))
    choice.chosen.connect(place.choose)
    section.add(tr("On the sheet"), choice, tr("Pinned: the net stays where it lies now, whatever else changes."))
    section.listen(lambda _fresh: choice.show_value("pinned" if place.shelf.at else "free"))
    lies = Segments("shelf_turned", (("upright", "upright"), ("turned", tr("end for end"))))
    lies.set_name(tr("Way round on the sheet"))
    lies.chosen.connect(lambda key: turn(subject.store, key == "turned"))
    section.add(tr("Way round"), lies, tr("End for end: turned by half, so that another figure lands on each face."))
    section.listen(lambda _fresh: lies.show_value("turned" if place.shelf.turned else "upright"))
    _add_number(section, "at_x", tr("Net from left"), CORNER_TIP, lambda: place.get(0), lambda v: place.move(0, v))
    _add_number(section, "at_y", tr("Net from below"), CORNER_TIP, lambda: place.get(1), lambda v: place.move(1, v))


def add_mount(section: BoundSection, subject: ShelfSubject) -> None:
    """Hung on the wall or not yet, with its place there."""
    place = Hanging(subject)
    choice = Segments("shelf_mount", (("hung", "hung"), ("off", tr("not yet"))))
    choice.set_name(tr("Place on the wall"))
    choice.chosen.connect(place.choose)
    section.add(tr("On the wall"), choice, tr("Only a shelf that hangs on the wall has studs, screws and a load."))
    section.listen(lambda _fresh: choice.show_value("hung" if place.shelf.mount else "off"))
    _add_number(section, "mount_x", tr("From the left"), LEFT_TIP, lambda: place.get("x"), lambda v: place.move("x", v))
    _add_number(section, "mount_top", tr("Top at"), TOP_TIP, lambda: place.get("top"), lambda v: place.move("top", v))
    _add_number(section, "frame_shift", tr("Frame off middle"), SHIFT_TIP, place.shift, place.slide)


def _add_number(
    section: BoundSection, name: str, label: str, tip: str, get: Callable[[], float | None], take: Take
) -> None:
    store = section.subject.store
    field = NumberField(f"shelf_{name}", LENGTH, take)
    field.settled.connect(store.end_run)
    row = section.add(label, field, tip)

    def show(fresh: bool) -> None:
        value = get()
        row.setVisible(value is not None)
        if value is not None:
            field.show_value(value, store.unit, fresh)

    section.listen(show)


class _Place:
    """What both places need: the shelf they are about."""

    def __init__(self, subject: ShelfSubject) -> None:
        self._subject = subject
        self._store = subject.store

    @property
    def shelf(self) -> Shelf:
        """The selected shelf; the rule asks only while there is one."""
        shelf = self._store.shelf
        assert shelf is not None
        return shelf


class Pin(_Place):
    """The place on the sheet."""

    def get(self, axis: int) -> float | None:
        """One coordinate, None where the shelf is free. [mm]"""
        at = self.shelf.at
        return None if at is None else at[axis]

    def move(self, axis: int, value: Number) -> str:
        """Set one coordinate. Returns why not, '' when it is done."""
        at = self.shelf.at
        if at is None or value is None:
            return ""
        new = (float(value), at[1]) if axis == 0 else (at[0], float(value))
        return self._subject.change(tr("Place on the sheet"), {"at": new})

    def choose(self, key: str) -> None:
        """Free it, or pin it where it lies now."""
        self._store.end_run()
        shelf, project = self.shelf, self._store.project
        if key == "free":
            self._subject.change(tr("Freed place"), {"at": None})
            return
        net = next((net for net in self._store.plan.nets if net.shelf == shelf.id), None)
        stock = next((sheet for sheet in project.sheets if sheet.id == shelf.sheet), project.sheets[0])
        self._subject.change(tr("Pinned place"), {"at": (net.x, net.y) if net else (stock.trim, stock.trim)})


class Hanging(_Place):
    """The place on the wall."""

    def get(self, name: str) -> float | None:
        """`x` or `top`, None where it does not hang. [mm]"""
        mount = self.shelf.mount
        return None if mount is None else float(getattr(mount, name))

    def move(self, name: str, value: Number) -> str:
        """Set `x` or `top`. Returns why not, '' when it is done."""
        mount = self.shelf.mount
        if mount is None or value is None:
            return ""
        reason = field_error(f"{self._subject.pointer}/mount/{name}", value, self._store.unit)
        if reason:
            return sentence(reason)
        moved = msgspec.structs.replace(mount, **{name: float(value)})
        return self._subject.change(tr("Place on the wall"), {"mount": moved})

    def shift(self) -> float | None:
        """How far its frame is slid in its play, None where it does not hang. [mm]"""
        return None if self.shelf.mount is None else self.shelf.frame_shift

    def slide(self, value: Number) -> str:
        """Slide the frame. Returns why not, '' when it is done."""
        return "" if value is None else self._subject.change(tr("Frame off the middle"), {"frame_shift": float(value)})

    def choose(self, key: str) -> None:
        """Hang it in a free place, or take it off."""
        self._store.end_run()
        mount = edits.free_mount(self._store.project, self.shelf.length) or Mount(0.0, edits.LOWEST)
        self._subject.change(tr("Place on the wall"), {"mount": mount if key == "hung" else None})
