"""glTF 2.0 in one binary file: meshes with texture coordinates, each with a picture on it.

Source: Khronos, glTF 2.0 Specification, "GLB File Format" and "Binary Data Storage". Metres, y up, the front towards
+z; texture coordinates count from the picture's upper left corner. The container is twelve bytes and two chunks: it is
written here and read back in tests by a library.
"""

from __future__ import annotations

from collections.abc import Sequence
from struct import pack
from typing import Any, Final

import msgspec
import numpy as np
from numpy.typing import NDArray

MAGIC: Final = b"glTF"
VERSION: Final = 2
JSON_CHUNK, BIN_CHUNK = b"JSON", b"BIN\0"
FLOAT, UNSIGNED = 5126, 5125  # component types
VERTICES, INDICES = 34962, 34963  # targets of buffer views
REPEAT, CLAMP = 10497, 33071  # how a picture goes on beyond its edges
LINEAR, MIPMAPS = 9729, 9987  # filters
METRE: Final = 0.001  # of a mm


class Skin(msgspec.Struct, frozen=True):
    """A picture that lies on wood: the bytes of a JPEG or PNG file."""

    name: str
    data: bytes
    mime: str = "image/jpeg"
    repeats: bool = False
    roughness: float = 0.8


class Part(msgspec.Struct, frozen=True):
    """Triangles that share a skin, its place in the list: places [mm], normals, texture coordinates, row by row."""

    skin: int
    places: NDArray[np.float64]  # (N, 3)
    normals: NDArray[np.float64]  # (N, 3)
    at: NDArray[np.float64]  # (N, 2)


class Node(msgspec.Struct, frozen=True):
    """A thing with a name: its own parts, and things of it. Places are the world's. extras: facts about it."""

    name: str
    parts: tuple[Part, ...] = ()
    of: tuple[Node, ...] = ()
    extras: dict[str, Any] | None = None


def glb_bytes(roots: Sequence[Node], skins: Sequence[Skin], generator: str) -> bytes:
    """The file of a scene of these things."""
    writer = _Writer()
    top = [writer.add_node(node) for node in roots]
    writer.add_skins(skins)
    data = writer.json(top, generator)
    data += b" " * (-len(data) % 4)
    binary = bytes(writer.binary)
    size = 12 + 8 + len(data) + 8 + len(binary)
    head = MAGIC + pack("<II", VERSION, size)
    return b"".join((head, pack("<I", len(data)), JSON_CHUNK, data, pack("<I", len(binary)), BIN_CHUNK, binary))


class _Writer:
    """Gathers what stands in the file."""

    def __init__(self) -> None:
        self.binary = bytearray()
        self._nodes: list[dict[str, Any]] = []
        self._meshes: list[dict[str, Any]] = []
        self._accessors: list[dict[str, Any]] = []
        self._views: list[dict[str, Any]] = []
        self._skins: dict[str, list[dict[str, Any]]] = {}

    def add_node(self, node: Node) -> int:
        found: dict[str, Any] = {"name": node.name}
        if node.extras:
            found["extras"] = node.extras
        parts = [self._primitive(part) for part in node.parts if len(part.places)]
        if parts:
            self._meshes.append({"name": node.name, "primitives": parts})
            found["mesh"] = len(self._meshes) - 1
        if node.of:
            found["children"] = [self.add_node(one) for one in node.of]
        self._nodes.append(found)
        return len(self._nodes) - 1

    def _primitive(self, part: Part) -> dict[str, Any]:
        rows = np.column_stack([part.places * METRE, part.normals, part.at]).astype("<f4")
        rows, order = np.unique(rows, axis=0, return_inverse=True)
        places, normals, at = rows[:, :3], rows[:, 3:6], rows[:, 6:]
        bounds = {"min": places.min(axis=0).tolist(), "max": places.max(axis=0).tolist()}
        attributes = {
            "POSITION": self._accessor(places, "VEC3", VERTICES, bounds),
            "NORMAL": self._accessor(normals, "VEC3", VERTICES),
            "TEXCOORD_0": self._accessor(at, "VEC2", VERTICES),
        }
        indices = self._accessor(order.reshape(-1).astype("<u4"), "SCALAR", INDICES)
        return {"attributes": attributes, "indices": indices, "material": part.skin}

    def _accessor(
        self, values: NDArray[Any], kind: str, target: int, bounds: dict[str, list[float]] | None = None
    ) -> int:
        view = self._view(np.ascontiguousarray(values).tobytes(), target)
        number = FLOAT if values.dtype.kind == "f" else UNSIGNED
        found = {"bufferView": view, "componentType": number, "count": len(values), "type": kind}
        self._accessors.append(found | (bounds or {}))
        return len(self._accessors) - 1

    def _view(self, data: bytes, target: int | None = None) -> int:
        view = {"buffer": 0, "byteOffset": len(self.binary), "byteLength": len(data)}
        self._views.append(view if target is None else view | {"target": target})
        self.binary += data + bytes(-len(data) % 4)
        return len(self._views) - 1

    def add_skins(self, skins: Sequence[Skin]) -> None:
        found: dict[str, list[dict[str, Any]]] = {"images": [], "samplers": [], "textures": [], "materials": []}
        for at, skin in enumerate(skins):
            found["images"].append({"name": skin.name, "mimeType": skin.mime, "bufferView": self._view(skin.data)})
            wrap = REPEAT if skin.repeats else CLAMP
            found["samplers"].append({"magFilter": LINEAR, "minFilter": MIPMAPS, "wrapS": wrap, "wrapT": CLAMP})
            found["textures"].append({"source": at, "sampler": at})
            look = {"baseColorTexture": {"index": at}, "metallicFactor": 0.0, "roughnessFactor": skin.roughness}
            found["materials"].append({"name": skin.name, "pbrMetallicRoughness": look})
        self._skins = found if skins else {}

    def json(self, top: list[int], generator: str) -> bytes:
        found: dict[str, Any] = {
            "asset": {"version": "2.0", "generator": generator},
            "scene": 0,
            "scenes": [{"nodes": top}],
            "nodes": self._nodes,
            "meshes": self._meshes,
            "accessors": self._accessors,
            "bufferViews": self._views,
            "buffers": [{"byteLength": len(self.binary)}],
        }
        kept = {name: value for name, value in (found | self._skins).items() if value not in ([], {})}
        return msgspec.json.encode(kept)
