"""Shelves as a text, to carry them from one project to another:

{"format": "grainfold shelves", "version": 1, "shelves": [{"id": "ledge", "length": 1320, …}]}

with the keys of the project file; which sheet they come from and where they are pinned stays behind.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, Final

import msgspec

from core.document.check import check_project
from core.document.errors import ProjectError
from core.document.load import nested_deeper
from core.document.model import Shelf
from core.document.ranges import MAX_SHELVES
from core.document.shape import plain, read_project
from core.language import tr

FORMAT: Final = "grainfold shelves"
VERSION: Final = 1
MAX_CHARS: Final = 4_000_000
_ANY_SHEET: Final = {"id": "any", "length": 2440.0, "width": 1220.0}


def shelves_text(shelves: Sequence[Shelf]) -> str:
    """The text of some shelves."""
    loose = [plain(msgspec.structs.replace(shelf, sheet=None, at=None)) for shelf in shelves]
    return json.dumps({"format": FORMAT, "version": VERSION, "shelves": loose}, ensure_ascii=False, indent=1)


def parse_shelves(text: str) -> tuple[Shelf, ...]:
    """The shelves in a text. Raises ProjectError where it holds none that can be used."""
    if len(text) > MAX_CHARS or nested_deeper(text.encode("utf-8", "replace"), 16):
        raise ProjectError("", tr("there are no shelves in the text"))
    try:
        document: Any = json.loads(text)
    except ValueError as error:
        raise ProjectError("", tr("there are no shelves in the text")) from error
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise ProjectError("", tr("there are no shelves in the text"))
    if document.get("version") != VERSION:
        raise ProjectError("version", tr("the shelves are of another version of this program"))
    shelves = document.get("shelves")
    if not isinstance(shelves, list) or not 0 < len(shelves) <= MAX_SHELVES:
        raise ProjectError("shelves", tr("there are no shelves in the text"))
    project = read_project({"sheets": [_ANY_SHEET], "shelves": shelves})
    loose = tuple(msgspec.structs.replace(shelf, sheet=None, at=None) for shelf in project.shelves)
    check_project(msgspec.structs.replace(project, shelves=loose))
    return loose
