"""The document: what a maker asks for, as a frozen value, and its file."""

from core.document.model import (
    EndsFrom,
    FrameWish,
    KeepClear,
    Lean,
    Mount,
    Project,
    Saw,
    Screw,
    Sheet,
    Shelf,
    Studs,
    Wall,
)

__all__ = [
    "EndsFrom",
    "FrameWish",
    "KeepClear",
    "Lean",
    "Mount",
    "Project",
    "Saw",
    "Screw",
    "Sheet",
    "Shelf",
    "Studs",
    "Wall",
]
