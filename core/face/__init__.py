"""Generated faces of a sheet: veneer at true scale, millimetres in and RGB pixels out."""

from core.face.cuts import leaf_width
from core.face.edge import edge_face
from core.face.size import fine_size, pixel_of, small_size
from core.face.stopping import StoppedError
from core.face.veneer import veneer

__all__ = ["StoppedError", "edge_face", "fine_size", "leaf_width", "pixel_of", "small_size", "veneer"]
