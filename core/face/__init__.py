"""Generated faces of a sheet: veneer at true scale, millimetres in and RGB pixels out."""

from core.face.edge import edge_face
from core.face.log import leaf_width
from core.face.size import fine_size, pixel_of, small_size
from core.face.sliced import StoppedError, plain_sliced

__all__ = ["StoppedError", "edge_face", "fine_size", "leaf_width", "pixel_of", "plain_sliced", "small_size"]
