"""One picture while it is being drawn: from the wall at the back to the chalk line round what is selected."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from PySide6.QtGui import QMatrix4x4, QOpenGLFunctions

from app.fold.gl import names
from app.fold.gl.faces import CardFaces
from app.fold.gl.shaders import Program
from app.fold.look import INSIDE_LIGHT, LAMP, LOW, PLAIN
from app.fold.scene import Batch, Role
from app.fold.shot import Shot
from app.fold.strokes import Style

GLASS = 0.24  # how solid the shell is while its frame is seen through it
FAR_GLASS = 0.6  # the same of its far side, in shares of that
COARSER = 2.0  # its figure is read so many halvings coarser: it is not the show face
FAR = 4.0  # where a pixel spans more, lines grow fainter and marks are too small to be read [mm]
FAINTEST = 0.4  # the least of a line's strength that is left
PULL = 1.6  # lines lie so much before the wood they are drawn on [mm]
ABOVE: tuple[Style, ...] = ("edge", "seam", "turned", "mark", "chosen")  # lines on the shell, the lowest first

Use = Callable[[QOpenGLFunctions, str], Program]


class Drawing:
    """Paints one shot. The context must be current, and the shot's rows uploaded."""

    def __init__(
        self, gl: QOpenGLFunctions, faces: CardFaces, use: Use, shot: Shot, place: tuple[float, float], bias: float
    ) -> None:
        """place: the picture is moved by these parts of a pixel; bias: faces are read so many halvings coarser."""
        self._gl, self._faces, self._use, self._shot, self._bias = gl, faces, use, shot, bias
        self._near, self._far = shot.camera.range(_reach(shot))
        clip = shot.camera.clip_matrix(shot.span, self._near, self._far)
        clip[:2] += np.array([[2.0 * place[0] / shot.size[0]], [2.0 * place[1] / shot.size[1]]]) * clip[3]
        self._clip = QMatrix4x4(*(float(v) for v in clip.ravel()))

    def paint(self) -> None:
        """All of it."""
        gl = self._gl
        gl.glColorMask(1, 1, 1, 1)
        gl.glClearColor(*self._shot.look.paper, 1.0)
        gl.glClear(names.COLOR_BUFFER_BIT | names.DEPTH_BUFFER_BIT)
        gl.glColorMask(1, 1, 1, 0)  # the picture stays opaque, whatever is laid over it
        gl.glEnable(names.BLEND)
        gl.glBlendFunc(names.SRC_ALPHA, names.ONE_MINUS_SRC_ALPHA)
        gl.glFrontFace(names.CW)  # outsides turn clockwise in the picture, whose y points down
        gl.glDepthFunc(names.LEQUAL)
        self._paint_room()
        gl.glEnable(names.DEPTH_TEST)
        gl.glEnable(names.CULL_FACE)
        gl.glCullFace(names.BACK)
        if self._shot.scene.is_see_through:
            self._paint_solids("frame", 1.0)
            self._paint_lines(("stick",))
            self._paint_glass()
        else:
            self._paint_solids("shell", 1.0)
        self._paint_lines(ABOVE)

    def _paint_room(self) -> None:
        gl, look, room = self._gl, self._shot.look, self._shot.room
        gl.glDisable(names.DEPTH_TEST)
        gl.glDisable(names.CULL_FACE)
        if not room.shades:
            return
        program = self._program("shade")
        from_above = min(1.0, max(0.0, self._shot.camera.tilt / LOW))
        (dark, depth) = look.shadow
        inks = {
            "wall": (look.wall, 1.0),
            "stud": (look.stud, 1.0),
            "floor": (look.floor, 1.0),
            "cast": (dark, depth),
            "ground": (dark, depth * from_above),
        }
        for shade in room.shades:
            colour, alpha = inks[shade.ink]
            program.set("u_ink", *colour, alpha)
            gl.glDrawArrays(names.TRIANGLES, len(self._shot.scene.rows) + shade.start, shade.length)

    def _paint_glass(self) -> None:
        """The shell, seen through: its far side, then its near side."""
        gl = self._gl
        gl.glDepthMask(False)
        gl.glCullFace(names.FRONT)
        self._paint_solids("shell", FAR_GLASS * GLASS)
        gl.glCullFace(names.BACK)
        self._paint_solids("shell", GLASS)
        gl.glDepthMask(True)

    def _paint_solids(self, role: Role, solidity: float) -> None:
        lamp = np.array(LAMP) @ self._shot.camera.orbit_only
        for name, is_over in (("solid", False), ("over", True)):
            batches = [b for b in self._shot.scene.batches if b.role == role and b.is_over == is_over and b.length]
            if batches:
                program = self._program(name)
                program.set("u_lamp", *lamp)
                for batch in batches:
                    self._paint_batch(program, batch, solidity)

    def _paint_batch(self, program: Program, batch: Batch, solidity: float) -> None:
        look = self._shot.look
        is_plain = batch.group == "inside" or (batch.role == "frame" and batch.group == "show")
        program.set("u_tone", *look.plain, PLAIN if is_plain else 0.0)
        program.set("u_glass", look.light * (INSIDE_LIGHT if batch.group == "inside" else 1.0), solidity)
        program.set("u_bias", COARSER if is_plain else self._bias)
        self._faces.bind(batch.picture)
        self._gl.glDrawArrays(names.TRIANGLES, batch.start, batch.length)

    def _paint_lines(self, styles: Sequence[Style]) -> None:
        gl, shot = self._gl, self._shot
        runs = {stroke.style: stroke for stroke in shot.scene.strokes if stroke.length}
        program = self._program("line")
        program.set("u_half", shot.size[0] / 2.0, shot.size[1] / 2.0)
        program.set("u_near", self._near)
        depth = 2.0 * self._far * self._near / (self._far - self._near) * PULL / shot.camera.distance**2
        gl.glDisable(names.CULL_FACE)
        gl.glDepthMask(False)
        span = shot.camera.pixel(shot.span) * shot.ratio
        for style in styles:
            if style not in runs or (style == "mark" and span > FAR):
                continue
            fade = 1.0 if style == "chosen" else min(1.0, max(FAINTEST, FAR / span))
            for pen in shot.look.pens[style]:
                program.set("u_ink", *pen.colour, fade * pen.alpha)
                program.set("u_casing", *shot.look.casing, fade * pen.casing_alpha)
                program.set("u_pen", max(pen.width, pen.casing) * shot.ratio, depth)
                program.set("u_line", *(value * shot.ratio for value in (pen.width, *pen.dash)))
                gl.glDrawArrays(names.TRIANGLES, runs[style].start, runs[style].length)
        gl.glDepthMask(True)
        gl.glEnable(names.CULL_FACE)

    def _program(self, name: str) -> Program:
        program = self._use(self._gl, name)
        program.set_matrix("u_clip", self._clip)
        return program


def _reach(shot: Shot) -> float:
    """How far from the camera's target there is anything. [mm]"""
    room = shot.room.rows[:, :3].astype(float)
    spread = np.concatenate([shot.scene.points, room]) - np.array(shot.camera.target)
    return float(np.sqrt((spread * spread).sum(axis=1).max(initial=0.0))) + 20.0
