"""Writing a project file, the whole of it or nothing.

Every key is written, defaults too, in the order the format is documented in: the file explains itself, and a
changed default never changes an old project. Numbers are the shortest text that reads back the same.
"""

from __future__ import annotations

import json
import os
import re
from typing import Any

from core.document.check import check_project
from core.document.errors import ProjectError, os_reason
from core.document.load import MAX_BYTES
from core.document.model import FORMAT, VERSION, Project
from core.document.shape import plain
from core.export.atomic import write_atomically
from core.language import tr

_KEYS = (
    *("name", "units", "saw", "sheets", "glue_line", "shelves", "frame", "wall", "screw", "rules", "measured"),
    "revisions",
)
# A list of numbers only. No string matches: line ends are escaped in strings.
_NUMBERS = re.compile(r"\[\n\s+([-+.\deE]+(?:,\n\s+[-+.\deE]+)*)\n\s+\]")


def save_project(project: Project, path: str | os.PathLike[str]) -> bytes:
    """Write the project; a crash or a full disk leaves the old file as it was. Returns what the file now holds.

    Raises ProjectError naming the path where it cannot be written.
    """
    file = os.fspath(path)
    try:
        data = dump_project(project)
        write_atomically(file, data)
    except ProjectError as error:
        raise error.in_file(file) from None
    except (OSError, ValueError) as error:
        raise ProjectError("", tr("cannot be written: {os_reason}", os_reason=os_reason(error)), file) from error
    return data


def dump_project(project: Project) -> bytes:
    """The bytes of the project's file; `parse_project` makes an equal project of them.

    Raises ProjectError for a project that could not be read again.
    """
    check_project(project)
    fields = plain(project)
    for revision in fields["revisions"]:
        revision["project"] = {key: revision["project"][key] for key in _KEYS[:-1]}
    document = {"format": FORMAT, "version": VERSION} | {key: _shortened(fields[key]) for key in _KEYS}
    text = json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False)
    try:
        data = _NUMBERS.sub(_on_one_line, text).encode() + b"\n"
    except UnicodeEncodeError:
        raise ProjectError("", tr("a name has a character that cannot be written")) from None
    if len(data) > MAX_BYTES:
        why = tr(
            "the file would be larger than {MAX_BYTES} MB and could not be read again", MAX_BYTES=MAX_BYTES // 2**20
        )
        raise ProjectError("", tr("{why}; remove revisions", why=why) if project.revisions else why)
    return data


def _on_one_line(found: re.Match[str]) -> str:
    return "[" + re.sub(r",\n\s+", ", ", found[1]) + "]"


def _shortened(value: Any) -> Any:
    """Whole floats as whole numbers, 1320 for 1320.0."""
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, dict):
        return {key: _shortened(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_shortened(item) for item in value]
    return value
