"""The few numbers of OpenGL that are used here. Source: Khronos, gl.xml."""

from __future__ import annotations

from typing import Final

NO_ERROR: Final = 0
TRIANGLES: Final = 0x0004
DEPTH_BUFFER_BIT: Final = 0x0100
COLOR_BUFFER_BIT: Final = 0x4000
SRC_ALPHA: Final = 0x0302
ONE_MINUS_SRC_ALPHA: Final = 0x0303
ONE: Final = 1
FRONT: Final = 0x0404
BACK: Final = 0x0405
CW: Final = 0x0900
CULL_FACE: Final = 0x0B44
DEPTH_TEST: Final = 0x0B71
BLEND: Final = 0x0BE2
UNPACK_ALIGNMENT: Final = 0x0CF5
MAX_TEXTURE_SIZE: Final = 0x0D33
TEXTURE_2D: Final = 0x0DE1
UNSIGNED_BYTE: Final = 0x1401
FLOAT: Final = 0x1406
RGB: Final = 0x1907
RGBA: Final = 0x1908
RENDERER: Final = 0x1F01
LEQUAL: Final = 0x0203
BGRA: Final = 0x80E1
TEXTURE0: Final = 0x84C0
RGBA8: Final = 0x8058
