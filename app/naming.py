"""File names made from names that people give."""

from __future__ import annotations

from typing import Final

LONGEST: Final = 80  # characters of a name
MOST_BYTES: Final = 200  # file systems take 255 for a name with its ending
RESERVED: Final = frozenset(  # names that one system keeps for devices, whatever their ending
    ["con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(10))]
)


def file_stem(name: str, otherwise: str = "project") -> str:
    """A file name without ending made from a project's name; `otherwise` where nothing of it can stand in one."""
    kept = "".join(c if c.isalnum() or c in " -_,()" else " " for c in name)
    stem = " ".join(kept.split())[:LONGEST]
    while len(stem.encode()) > MOST_BYTES:
        stem = stem[:-1]
    stem = stem.strip()
    return f"{stem} {otherwise}" if stem.lower() in RESERVED else stem or otherwise
