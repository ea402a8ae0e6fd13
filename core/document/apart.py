"""Which panels of a shelf can be cut apart from its net: an end that is there, and a strip no end is cut from."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final

import msgspec

from core.document.errors import quoted
from core.document.model import Apart, End, Shelf
from core.language import tr

ENDS: Final[tuple[Apart, ...]] = ("left", "right")


def apart_complaint(shelf: Shelf) -> str | None:
    """Why the panels named cannot be cut apart, one phrase; None where they can."""
    twice = next((role for role in shelf.apart if shelf.apart.count(role) > 1), None)
    if twice is not None:
        return tr("{quoted} is named twice", quoted=quoted(twice))
    for role in ENDS:
        if role in shelf.apart and _end(shelf, role) == "open":
            return tr("the {role} end is open, there is nothing to cut apart", role=role)
    if shelf.ends_from in shelf.apart and (held := _ends_within(shelf, shelf.apart)):
        return tr(
            "the {held} end is cut from the {ends_from} strip, which so cannot be cut apart",
            held=held[0],
            ends_from=shelf.ends_from,
        )
    return None


def still_apart(shelf: Shelf) -> Shelf:
    """The shelf without what can no longer be cut apart, after its ends were changed."""
    kept = tuple(role for role in shelf.apart if role not in ENDS or _end(shelf, role) == "mitred")
    if shelf.ends_from in kept and _ends_within(shelf, kept):
        kept = tuple(role for role in kept if role != shelf.ends_from)
    return shelf if kept == shelf.apart else msgspec.structs.replace(shelf, apart=kept)


def may_be_apart(shelf: Shelf, role: Apart) -> bool:
    """Could that panel be cut apart with the others?"""
    more = msgspec.structs.replace(shelf, apart=(*(other for other in shelf.apart if other != role), role))
    return apart_complaint(more) is None


def _end(shelf: Shelf, role: str) -> End:
    return shelf.left if role == "left" else shelf.right


def _ends_within(shelf: Shelf, apart: Collection[str]) -> list[Apart]:
    """The mitred ends that are cut in one with the net."""
    return [role for role in ENDS if role not in apart and _end(shelf, role) == "mitred"]
