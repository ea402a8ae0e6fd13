"""What differs between two projects, in words: each a short phrase with both numbers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import msgspec

from core.document.model import Project
from core.document.names import FIELD_NAMES
from core.document.ranges import RANGES
from core.document.revisions import design
from core.language import decimal, tr
from core.lengths import Unit, show_angle, show_exact, show_length, show_thickness

_FINE = frozenset({"kerf", "allowance", "thickness", "veneer", "glue_line", "guide_offset"})  # measured with calipers


def differences(before: Project, after: Project, unit: Unit) -> tuple[str, ...]:
    """What `after` has that `before` had not, most important first; lengths are written in `unit`.

    Revisions are not compared. Empty where the projects are the same.
    """
    return tuple(_capital(phrase) for phrase in _of_projects(design(before), design(after), unit))


def summed(phrases: Sequence[str], most: int = 1) -> str:
    """The first few, and how many more there are."""
    shown = "; ".join(phrases[:most])
    rest = len(phrases) - most
    return tr("{shown}; and {rest} more", shown=shown, rest=rest) if rest > 0 else shown


def _of_projects(before: Project, after: Project, unit: Unit) -> Iterator[str]:
    yield from _of_items(before.shelves, after.shelves, "shelf", unit)
    yield from _of_items(before.sheets, after.sheets, "sheet", unit)
    for key in after.__struct_fields__:
        if key not in ("shelves", "sheets", "revisions"):
            yield from _of_field(before, after, key, "", unit)


def _of_items(before: Sequence[Any], after: Sequence[Any], what: str, unit: Unit) -> Iterator[str]:
    old, new = {item.id: item for item in before}, {item.id: item for item in after}
    gone, come = [item for key, item in old.items() if key not in new], []
    called: dict[str, str] = {}
    for key, item in new.items():
        if key in old:
            continue
        same = next((g for g in gone if msgspec.structs.replace(g, id=key) == item), None)
        if same is None:
            come.append(key)
        else:
            gone.remove(same)
            called[same.id] = key
    yield from (tr("{what} {key} is new", what=what, key=key) for key in come)
    yield from (tr("{what} {id} is gone", what=what, id=item.id) for item in gone)
    yield from (tr("{what} {was} is now called {key}", what=what, was=was, key=key) for was, key in called.items())
    stay = [called.get(key, key) for key in old if called.get(key, key) in new]
    if stay != [key for key in new if key in stay]:
        yield tr("the {rest} stand in another order", rest="shelves" if what == "shelf" else "sheets")
    for key, item in new.items():
        if key in old:
            yield from _of_structs(
                old[key],
                item,
                tr(" of {what} {key}", what=what, key=key) if what == "sheet" else tr(" of {key}", key=key),
                unit,
            )


def _of_structs(before: msgspec.Struct, after: msgspec.Struct, of: str, unit: Unit) -> Iterator[str]:
    for key in after.__struct_fields__:
        yield from _of_field(before, after, key, of, unit)


def _of_field(before: msgspec.Struct, after: msgspec.Struct, key: str, of: str, unit: Unit) -> Iterator[str]:
    was, now = getattr(before, key), getattr(after, key)
    if was == now:
        return
    if isinstance(was, msgspec.Struct) and type(was) is type(now):
        yield from _of_structs(was, now, of, unit)
        return
    name = FIELD_NAMES[type(after)][key]
    new, old = _told(after, key, now, unit), _told(after, key, was, unit)
    if new == old:
        new, old = _told(after, key, now, unit, exact=True), _told(after, key, was, unit, exact=True)
    yield (
        tr("{name}{of}: {new}, was {old}", name=name, of=of, new=new, old=old)
        if new != old
        else tr("{name}{of}: changed", name=name, of=of)
    )


def _told(owner: msgspec.Struct, key: str, value: object, unit: Unit, exact: bool = False) -> str:
    """A value in words. exact: with every digit."""
    if value is None:
        return tr("none given")
    if isinstance(value, bool):
        return tr("yes") if value else tr("no")
    if isinstance(value, str):
        return value or tr("no name")
    if isinstance(value, int | float):
        limits = RANGES[type(owner)].get(key)
        measure = limits.measure if limits else ""
        if measure == "mm":
            if exact:
                return show_exact(value, unit)
            return show_thickness(value, unit) if key in _FINE else show_length(value, unit)
        return show_angle(value, 2) if measure == "°" and not exact else decimal(f"{value:.12g}")
    if isinstance(value, tuple):
        if all(isinstance(item, str) for item in value):
            return ", ".join(value) or "none"
        if key == "at":
            return ", ".join(show_length(number, unit) for number in value)
        return str(len(value))
    return "set"


def _capital(phrase: str) -> str:
    return phrase[:1].upper() + phrase[1:]
