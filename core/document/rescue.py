"""The rescue file: work that is not saved yet, kept beside the project until it is.

It is JSON like the project file, with keys of its own around the whole project:

    {"format": "grainfold rescue", "version": 1,
     "of": "hallway.grainfold",   the project's file, "" for work that was never saved;
     "base": "9f86d0…",           SHA-256 of that file's bytes as the work began from it, "" for none;
     "at": "2026-05-17T14:32:05", local time of the last change kept;
     "steps": ["Depth of ledge"], names of what was done since, the newest last;
     "project": {…}}              the project, as in its own file
"""

from __future__ import annotations

import json
from typing import Any, Final

import msgspec

from core.document.errors import ProjectError
from core.document.load import nested_deeper, parse_project
from core.document.model import Project
from core.document.save import dump_project

FORMAT: Final = "grainfold rescue"
VERSION: Final = 1
MAX_BYTES: Final = 40 * 2**20  # the project's own limit, the text of the steps, and the marks of a text in a text
MAX_STEPS: Final = 50  # the newest


class Rescue(msgspec.Struct, frozen=True):
    """Work that was not saved."""

    project: Project
    of: str = ""
    base: str = ""
    at: str = ""
    steps: tuple[str, ...] = ()


def rescue_bytes(rescue: Rescue) -> bytes:
    """The file's bytes. Raises ProjectError for a project that could not be read again."""
    head = {
        "format": FORMAT,
        "version": VERSION,
        "of": rescue.of,
        "base": rescue.base,
        "at": rescue.at,
        "steps": list(rescue.steps[-MAX_STEPS:]),
    }
    text = json.dumps(head, ensure_ascii=False, indent=2).encode("utf-8", "replace")
    return text[:-2] + b',\n  "project": ' + dump_project(rescue.project).rstrip() + b"\n}\n"


def parse_rescue(data: bytes) -> Rescue:
    """The work in a file's bytes. Raises ProjectError where it holds none."""
    if len(data) > MAX_BYTES or nested_deeper(data, 66):
        raise ProjectError("", "is no rescue file")
    try:
        document: Any = json.loads(data.decode())
    except ValueError as error:
        raise ProjectError("", "is no rescue file") from error
    if not isinstance(document, dict) or document.get("format") != FORMAT or document.get("version") != VERSION:
        raise ProjectError("", "is no rescue file of this program")
    project = parse_project(json.dumps(document.get("project")).encode(), "")
    texts = {key: str(document.get(key, "")) for key in ("of", "base", "at")}
    steps = document.get("steps")
    return Rescue(project, **texts, steps=tuple(map(str, steps)) if isinstance(steps, list) else ())
