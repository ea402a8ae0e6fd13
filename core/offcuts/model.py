"""An offcut as it is kept: its size, what it is made of, and where it is from."""

from __future__ import annotations

import re
from typing import Final

import msgspec

ID = re.compile(r"offcut-([1-9][0-9]{0,8})")  # whole; written on the piece itself
DEFAULT_VENEER: Final = 0.6  # mm


class KeptOffcut(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One piece in the rack, square through; the grain runs along `length`.

    id: "offcut-3", unique in the store and never given twice; "" before it is in the store.
    face: wood and what there is to say of its face, in the maker's words.
    date: the day it was kept, "2031-05-30".
    project, sheet, piece: what it was left over from; "" where nobody knows.
    used_in: the project it was used up in, "" while it is there.
    removed: it is gone some other way; only its id is still taken.
    """

    id: str
    length: float  # [mm]
    width: float  # [mm]
    thickness: float  # as measured [mm]
    veneer: float = DEFAULT_VENEER  # [mm]
    face: str = ""
    date: str = ""
    project: str = ""
    sheet: str = ""
    piece: str = ""
    used_in: str = ""
    removed: bool = False

    @property
    def there(self) -> bool:
        """Is it still in the rack?"""
        return not self.used_in and not self.removed

    @property
    def area(self) -> float:
        """Of its face. [mm2]"""
        return self.length * self.width


def offcut_id(number: int) -> str:
    """The id of the offcut with that number, from 1."""
    return f"offcut-{number}"


def offcut_number(text: str) -> int | None:
    """The number in an id, None for a text that is none."""
    match = ID.fullmatch(text)
    return int(match[1]) if match else None
