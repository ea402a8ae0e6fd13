"""Kept saws as bytes of one JSON file and back. Whatever the bytes are, the outcome is saws or one sentence."""

from __future__ import annotations

import json
from collections.abc import Sequence

import msgspec

from core.document.errors import ProjectError, one_line, words
from core.document.model import Saw
from core.document.ranges import RANGES
from core.document.shape import plain, read_value, text_complaint

FORMAT = "grainfold saws"
VERSION = 1
MAX_BYTES = 2**20  # no shop has so many
MAX_SAWS = 200
MAX_NAME = 60  # characters: it stands in a field of the rule


class SawFormError(Exception):
    """Bytes or values that are no kept saws; `str()` says where and why in one line."""

    def __init__(self, why: str) -> None:
        super().__init__(one_line(why))


class _Document(msgspec.Struct):
    """What every version of the form has."""

    format: str
    version: int
    saws: msgspec.Raw = msgspec.Raw(b"null")


def saws_bytes(saws: Sequence[Saw]) -> bytes:
    """The file of these saws, UTF-8. Raises SawFormError for what could not be read again."""
    _check(saws)
    document = {"format": FORMAT, "version": VERSION, "saws": plain(tuple(saws))}
    return json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False).encode() + b"\n"


def parse_saws(data: bytes) -> tuple[Saw, ...]:
    """The saws in a file's bytes, as they stand there. Raises SawFormError."""
    if len(data) > MAX_BYTES:
        raise SawFormError("the file is too large for kept saws")
    try:
        head = msgspec.json.decode(data, type=_Document)
        if head.format != FORMAT:
            raise SawFormError(f"it is not a file of {FORMAT}")
        if head.version != VERSION:
            newer = "newer than this program" if head.version > VERSION else "none"
            raise SawFormError(f"version {head.version} is {newer}")
        listed = msgspec.json.decode(head.saws)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        raise SawFormError(str(error) or "it cannot be read") from None
    if not isinstance(listed, list):
        raise SawFormError("saws: must be a list")
    saws = tuple(_read(at, value) for at, value in enumerate(listed))
    _check(saws)
    return saws


def name_complaint(name: str) -> str | None:
    """What is wrong with a saw's name, None if nothing."""
    if not name.strip():
        return "must not be empty"
    if name != name.strip():
        return "must not begin or end with a blank"
    if len(name) > MAX_NAME:
        return f"must have at most {MAX_NAME} characters, has {len(name)}"
    return text_complaint(name)


def _read(at: int, value: object) -> Saw:
    try:
        _owner, _key, saw = read_value(("saw",), value)
    except ProjectError as error:
        raise SawFormError(f"saws[{at}]{error.where.removeprefix('saw')}: {error.why}") from None
    assert isinstance(saw, Saw)
    return saw


def _check(saws: Sequence[Saw]) -> None:
    """Raises SawFormError at the first name or number that is not allowed."""
    if len(saws) > MAX_SAWS:
        raise SawFormError(f"at most {MAX_SAWS} saws are kept, there are {len(saws)}")
    first: dict[str, int] = {}
    for at, saw in enumerate(saws):
        if complaint := name_complaint(saw.name):
            raise SawFormError(f"{words(('saws', at, 'name'))}: {complaint}")
        if saw.name in first:
            raise SawFormError(f"{words(('saws', at, 'name'))}: is already the name of saws[{first[saw.name]}]")
        first[saw.name] = at
        for key, limits in RANGES[Saw].items():
            if complaint := limits.complaint(getattr(saw, key)):
                raise SawFormError(f"{words(('saws', at, key))}: {complaint}")
