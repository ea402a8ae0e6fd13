"""The document: what a maker asks for, as a frozen value, and its file."""

from core.document.model import (
    Alcove,
    EndsFrom,
    Figure,
    FrameWish,
    KeepClear,
    KeepOut,
    Lean,
    Mount,
    Photo,
    Project,
    Saw,
    Screw,
    Sheet,
    Shelf,
    Studs,
    Wall,
)

__all__ = [
    "Alcove",
    "EndsFrom",
    "Figure",
    "FrameWish",
    "KeepClear",
    "KeepOut",
    "Lean",
    "Mount",
    "Photo",
    "Project",
    "Saw",
    "Screw",
    "Sheet",
    "Shelf",
    "Studs",
    "Wall",
]
