"""Reading a project file. Whatever the file holds, the outcome is a usable project or one ProjectError."""

from __future__ import annotations

import json
import os
import re
import stat
from pathlib import Path
from typing import Any

from core.document.check import check_project
from core.document.errors import ProjectError, os_reason, quoted, words
from core.document.model import FORMAT, VERSION, Project
from core.document.shape import JsonObject, described, read_project
from core.language import tr

MAX_BYTES = 16 * 2**20
MAX_DEPTH = 64  # objects and lists in each other; the format itself needs 4
_LONGEST_WHOLE = 300  # digits; Python refuses to read very long whole numbers, and float ends at 308


def load_project(path: str | os.PathLike[str]) -> Project:
    """The project in a file. Without a `name` in it, the file's own name without its ending is the name.

    Raises ProjectError, whose text begins with the path as given.
    """
    return load_with_bytes(path)[0]


def load_with_bytes(path: str | os.PathLike[str]) -> tuple[Project, bytes]:
    """The project in a file, as `load_project` has it, and the very bytes it was read from."""
    file = os.fspath(path)
    try:
        data = _read_bytes(file)
        return parse_project(data, Path(file).stem), data
    except ProjectError as error:
        raise error.in_file(file) from None
    except (OSError, ValueError) as error:
        raise ProjectError("", os_reason(error), file) from error


def parse_project(data: bytes, name: str) -> Project:
    """The project in the bytes of a file (UTF-8, a byte order mark is allowed).

    name: the project's name where the file gives none.
    Raises ProjectError.
    """
    fields = _header_checked(_parse_json(data))
    fields.setdefault("name", name)
    project = read_project(fields)
    check_project(project)
    return project


def _read_bytes(file: str) -> bytes:
    status = os.stat(file)  # before opening: a pipe would wait for a writer
    if stat.S_ISDIR(status.st_mode):
        raise ProjectError("", tr("is a folder, not a project file"))
    if not stat.S_ISREG(status.st_mode):
        raise ProjectError("", tr("is a device or a pipe, not a file"))
    _check_size(status.st_size)
    with open(file, "rb") as stream:
        return stream.read(MAX_BYTES + 1)  # it may have grown since


def _check_size(count: int) -> None:
    if count > MAX_BYTES:
        raise ProjectError("", tr("is larger than {MAX_BYTES} MB, no project file is", MAX_BYTES=MAX_BYTES // 2**20))


def _parse_json(data: bytes) -> object:
    _check_size(len(data))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise ProjectError("", tr("is not UTF-8 text (byte {start})", start=error.start + 1)) from None
    if not text.strip():
        raise ProjectError("", tr("the file is empty"))
    if nested_deeper(data, MAX_DEPTH):
        raise ProjectError("", tr("is nested more than {MAX_DEPTH} deep", MAX_DEPTH=MAX_DEPTH))
    try:
        return json.loads(text, object_pairs_hook=_json_object, parse_int=_whole)
    except json.JSONDecodeError as error:
        why = error.msg[0].lower() + error.msg[1:]
        raise ProjectError(
            "",
            tr("is not JSON: {why} (line {lineno}, column {colno})", why=why, lineno=error.lineno, colno=error.colno),
        ) from None


# A string, closed or not. The possessive + keeps the search linear on hostile input.
_STRING = re.compile(rb'"[^"\\]*+(?:\\.[^"\\]*+)*+"?', re.DOTALL)
_BRACKETS = bytes.maketrans(b"{}", b"[]")
_OTHERS = bytes(set(range(256)) - set(b"[]{}"))


def nested_deeper(data: bytes, most: int) -> bool:
    """Whether JSON text holds objects and lists more than `most` deep. Takes any text, in linear time.

    Each round takes the innermost pairs away, so as many rounds as there are levels leave nothing.
    """
    rest = _STRING.sub(b"", data).translate(_BRACKETS, _OTHERS)
    for _ in range(most):
        rest, before = rest.replace(b"[]", b""), len(rest)
        if len(rest) == before:
            break
    return b"[]" in rest or rest.count(b"[") > most


def _json_object(pairs: list[tuple[str, Any]]) -> JsonObject:
    result = JsonObject(pairs)
    if len(result) < len(pairs):
        seen: set[str] = set()
        for key, _ in pairs:
            if key in seen:
                result.twice = key
                break
            seen.add(key)
    return result


def _whole(digits: str) -> int | float:
    return int(digits) if len(digits) <= _LONGEST_WHOLE else float(digits)


def _header_checked(document: object) -> dict[str, Any]:
    """The document without `format` and `version`, both as they must be."""
    if not isinstance(document, JsonObject):
        raise ProjectError("", tr("must be an object, is {described}", described=described(document)))
    if document.twice is not None:
        raise ProjectError(words((document.twice,)), tr("this key is written twice"))
    for key in ("format", "version"):
        if key not in document:
            raise ProjectError(key, tr("this key is missing"))
    if document["format"] != FORMAT:
        raise ProjectError(
            "format",
            tr("must be {quoted}, is {described}", quoted=quoted(FORMAT), described=described(document["format"])),
        )
    version = document["version"]
    if isinstance(version, bool) or not isinstance(version, int):
        raise ProjectError("version", tr("must be a whole number, is {described}", described=described(version)))
    if version != VERSION:
        newer = tr("newer than this program") if version > VERSION else "unknown"
        raise ProjectError(
            "version",
            tr(
                "{described} is {newer}; it reads version {VERSION}",
                described=described(version),
                newer=newer,
                VERSION=VERSION,
            ),
        )
    return {key: value for key, value in document.items() if key not in ("format", "version")}
