"""A report of an error: what a mender needs, and nothing of the maker: no names, no paths, no text of the project."""

from __future__ import annotations

import platform
import sys
from pathlib import PurePath
from traceback import walk_tb
from types import TracebackType
from typing import Final

from core import __version__
from core.language import tr

OURS: Final = ("app", "core", "resources", "tests")
MOST_FRAMES: Final = 60


def report(error: BaseException) -> str:
    """The report: versions, kind of the error, and the functions it came through. The error's text may hold names
    and is left out.
    """
    lines = [
        f"Grainfold {__version__}",
        f"Python {platform.python_version()}, {platform.system()} {platform.machine()}, Qt {_qt()}",
        "",
    ]
    seen: set[int] = set()
    told: BaseException | None = error
    while told is not None and id(told) not in seen:
        seen.add(id(told))
        lines.append(f"{type(told).__module__}.{type(told).__qualname__}")
        lines += _frames(told.__traceback__)
        told = told.__cause__ or told.__context__
        if told is not None:
            lines.append(tr("caused by"))
    return "\n".join(lines) + "\n"


def signature(error: BaseException) -> str:
    """The same for errors of one kind from one place."""
    frames = _frames(error.__traceback__)
    return f"{type(error).__qualname__} {frames[-1] if frames else ''}"


def _qt() -> str:
    module = sys.modules.get("PySide6")
    return str(getattr(module, "__version__", "not loaded"))


def _frames(trace: TracebackType | None) -> list[str]:
    found = [f"  {_place(f.f_code.co_filename)}:{line} {f.f_code.co_qualname}" for f, line in walk_tb(trace)]
    return found[-MOST_FRAMES:]


def _place(file: str) -> str:
    """Where in the program, or in which package: never where on the disk."""
    parts = PurePath(file).parts
    for at in range(len(parts) - 1, -1, -1):
        if parts[at] == "site-packages":
            return "/".join(parts[at + 1 :])
        if parts[at] in OURS and at:
            return "/".join(parts[at:])
    return "python"
