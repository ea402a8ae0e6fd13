"""How a project that cannot be used says where and why, in one line."""

from __future__ import annotations

import errno
import json
import re

from core.language import tr

# Where a value lies in the file: keys and list places from the top, ("shelves", 1, "depth").
KeyPath = tuple[str | int, ...]

_PLAIN_KEY = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
_QUOTED_CHARS = 40  # of a foreign text; more would hide the sentence around it


class ProjectError(Exception):
    """A project that cannot be used, read or written. `str()` is one line: `file: where: why`.

    where: key path in words (`shelves[1].depth`), "" where the whole file is meant.
    why: what is wrong, and what would be right.
    file: the file's name as it was given, "" where there is none.
    """

    def __init__(self, where: str, why: str, file: str = "") -> None:
        super().__init__(where, why, file)
        self.where, self.why, self.file = where, why, file

    def __str__(self) -> str:
        return one_line(": ".join(part for part in (self.file, self.where, self.why) if part))

    def in_file(self, file: str) -> ProjectError:
        """The same error, naming the file it was found in."""
        return ProjectError(self.where, self.why, file)


def words(path: KeyPath) -> str:
    """A key path as people read it: `shelves[1].depth`; a strange key is quoted: `saw["ker f"]`."""
    text = ""
    for key in path:
        if isinstance(key, int):
            text += f"[{key}]"
        elif _PLAIN_KEY.fullmatch(key) and len(key) <= _QUOTED_CHARS:
            text += f".{key}" if text else key
        else:
            text += f"[{quoted(key)}]"
    return text


def quoted(text: str) -> str:
    """A foreign text in quotes, cut where it is long."""
    short = text if len(text) <= _QUOTED_CHARS else text[: _QUOTED_CHARS - 1] + "…"
    return json.dumps(short, ensure_ascii=False)


def one_line(text: str) -> str:
    """`text` with everything that is not printed (line ends, control characters, half characters) escaped."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)


_REASONS = {
    errno.ENOENT: tr("no such file or folder"),
    errno.ENOTDIR: tr("no such folder"),
    errno.EISDIR: tr("is a folder"),
    errno.EACCES: tr("permission denied"),
    errno.EPERM: tr("permission denied"),
    errno.EROFS: tr("the disk is read-only"),
    errno.ENOSPC: tr("no room left on the disk"),
    errno.EFBIG: tr("the file is larger than this disk allows"),
    errno.ENAMETOOLONG: tr("the name is too long"),
    errno.ELOOP: tr("the links go round in a circle"),
}


def os_reason(error: OSError | ValueError) -> str:
    """Why the system refused a file, in a few words. A ValueError is a path with a zero byte in it."""
    if isinstance(error, OSError):
        known = _REASONS.get(error.errno or 0)
        return known or (error.strerror or str(error) or type(error).__name__).lower()
    return tr("the name has characters that no file name can have")
