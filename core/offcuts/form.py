"""An offcut as bytes of a JSON file and back. Whatever the bytes are, the outcome is an offcut or one sentence."""

from __future__ import annotations

import json
from datetime import date

import msgspec

from core.document.errors import one_line
from core.document.ranges import LARGEST
from core.document.shape import text_complaint
from core.offcuts.model import KeptOffcut, offcut_number

FORMAT = "grainfold offcut"
VERSION = 1
MAX_BYTES = 64 * 1024  # no offcut has so much to say


class OffcutFormError(Exception):
    """Bytes that are no offcut; `str()` says why in one line. `newer`: they are of a newer version of this program."""

    def __init__(self, why: str, newer: bool = False) -> None:
        super().__init__(one_line(why))
        self.newer = newer


class _Head(msgspec.Struct):
    """What every version of the form has."""

    format: str
    version: int


def offcut_bytes(offcut: KeptOffcut) -> bytes:
    """The file of an offcut, UTF-8. Raises OffcutFormError for one that could not be read again."""
    if complaint := _complaint(offcut):
        raise OffcutFormError(complaint)
    document = {"format": FORMAT, "version": VERSION} | msgspec.structs.asdict(offcut)
    return json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False).encode() + b"\n"


def parse_offcut(data: bytes) -> KeptOffcut:
    """The offcut in a file's bytes. Raises OffcutFormError."""
    if len(data) > MAX_BYTES:
        raise OffcutFormError("the file is too large for an offcut")
    try:
        head = msgspec.json.decode(data, type=_Head)
        if head.format != FORMAT:
            raise OffcutFormError(f"it is not a {FORMAT}")
        if head.version != VERSION:
            newer = head.version > VERSION
            raise OffcutFormError(f"version {head.version} is {'newer than this program' if newer else 'none'}", newer)
        fields = msgspec.json.decode(data, type=dict[str, msgspec.Raw])
        body = {key: value for key, value in fields.items() if key not in _Head.__struct_fields__}
        offcut = msgspec.json.decode(msgspec.json.encode(body), type=KeptOffcut)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        raise OffcutFormError(str(error) or "it cannot be read") from None
    if complaint := _complaint(offcut):
        raise OffcutFormError(complaint)
    return offcut


def _complaint(offcut: KeptOffcut) -> str | None:
    """What is wrong with an offcut's values, None if nothing."""
    if offcut_number(offcut.id) is None:
        return "its id is not of the form offcut-3"
    for key in ("length", "width", "thickness"):
        if not 0.0 < getattr(offcut, key) <= LARGEST:
            return f"its {key} is not between 0 and {LARGEST:g} mm"
    if not 0.0 <= offcut.veneer <= LARGEST:
        return f"its veneer is not between 0 and {LARGEST:g} mm"
    for key in ("face", "project", "sheet", "piece", "used_in"):
        if wrong := text_complaint(getattr(offcut, key)):
            return f"its {key} {wrong}"
    return None if _is_day(offcut.date) else "its date is no day like 2031-05-30"


def _is_day(text: str) -> bool:
    try:
        return not text or date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
