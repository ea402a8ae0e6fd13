"""The hidden frame of a shelf: its size in the cavity, its ribs, and the studs it is screwed to.

`core.frame.build` puts it together; each other module answers one question of it.
"""

from core.frame.build import FrameResult, frame_of
from core.frame.cavity import Cavity, FrameSize, cavity_of, frame_size
from core.frame.mouth import clamped_tilt, held_tilt, mouth_closing
from core.frame.ribs import RibPlan, RibRefusal, place_ribs
from core.frame.studs import driver_way, frame_left, sold_name, stud_lines

__all__ = [
    "Cavity",
    "FrameResult",
    "FrameSize",
    "RibPlan",
    "RibRefusal",
    "cavity_of",
    "clamped_tilt",
    "driver_way",
    "frame_left",
    "frame_of",
    "frame_size",
    "held_tilt",
    "mouth_closing",
    "place_ribs",
    "sold_name",
    "stud_lines",
]
