"""A project dropped on the window."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QMimeData

ENDING = ".grainfold"


def project_file(data: QMimeData) -> Path | None:
    """The one project file that is dragged, None where it is something else."""
    urls = data.urls()
    if len(urls) != 1 or not urls[0].isLocalFile():
        return None
    path = Path(urls[0].toLocalFile())
    return path if path.suffix == ENDING else None


def shortened(folder: Path) -> str:
    """A folder in few words: its last two names."""
    parts = folder.parts
    return str(folder) if len(parts) <= 3 else str(Path("…", *parts[-2:]))
