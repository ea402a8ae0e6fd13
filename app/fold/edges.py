"""The pictures of sawn edges, small enough to be made at once. No Qt here."""

from __future__ import annotations

from functools import lru_cache

from app.fold.levels import Bytes, levels_of
from app.fold.scene import EdgeKey
from core.face import edge_face
from core.solid.plies import plies

ACROSS, DOWN = 512, 64  # pixels: 1 mm along, and at least four for a ply of 18 mm stock
SEED = 11


@lru_cache(maxsize=32)
def edge_levels(key: EdgeKey) -> tuple[Bytes, ...]:
    """An edge's picture and its halvings."""
    layers = plies(key.thickness, key.veneer)
    return levels_of(edge_face(layers, SEED, ACROSS, DOWN, crosswise=key.crosswise))
