"""JSON pointers (RFC 6901): "/shelves/0/depth" names the depth of the first shelf."""

from __future__ import annotations

import re

from core.document.errors import KeyPath, ProjectError, quoted

_PLACE = re.compile(r"0|[1-9][0-9]{0,8}")  # RFC 6901, 4: no leading zeros


def key_path(pointer: str) -> KeyPath:
    """The pointer as a key path: "/shelves/0/depth" is ("shelves", 0, "depth").

    "~1" and "~0" stand for "/" and "~". No key of the document is a number, so digits are a place in a list.
    Raises ProjectError for text that is no pointer.
    """
    if not pointer.startswith("/"):
        raise ProjectError("", f"{quoted(pointer)} is no pointer into the project; one begins with /")
    steps = (step.replace("~1", "/").replace("~0", "~") for step in pointer[1:].split("/"))
    return tuple(int(step) if _PLACE.fullmatch(step) else step for step in steps)
