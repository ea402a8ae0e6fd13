"""Owns what lies on the graphics card, and draws shots into arrays of pixels."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence
from functools import partial

import numpy as np
from PySide6.QtCore import QSize
from PySide6.QtGui import QOpenGLFunctions
from PySide6.QtOpenGL import QOpenGLBuffer

from app.fold.gl import names
from app.fold.gl.context import GlContext, GlError
from app.fold.gl.drawing import Drawing
from app.fold.gl.faces import CardFaces
from app.fold.gl.memory import address
from app.fold.gl.shaders import SOURCES, Program
from app.fold.gl.target import SHARPER, Gathering, Target
from app.fold.levels import Bytes
from app.fold.scene import Rows
from app.fold.shot import Shot, blank


class Renderer:
    """One context, its programs, and the pictures that lie on the wood."""

    def __init__(self) -> None:
        """Raises NoOpenGLError where there is none. Call all `steps` before the first `draw`."""
        self._context = GlContext()
        self._programs: dict[str, Program] = {}
        self._faces: CardFaces | None = None
        self._target: Target | None = None
        self._buffer = QOpenGLBuffer(QOpenGLBuffer.Type.VertexBuffer)
        self._held: tuple[Rows, Rows] | None = None

    def steps(self) -> Iterator[Callable[[], None]]:
        """What has to be made before the first picture, in steps, so that none holds the window for long."""
        for name, source in SOURCES.items():
            yield partial(self._add_program, name, source)
        yield self._add_store
        for name in ("shade", "solid", "line"):
            yield partial(self._warm, name)

    def _add_program(self, name: str, source: tuple[str, str, str]) -> None:
        with self._context.using():
            self._programs[name] = Program(*source)

    def _add_store(self) -> None:
        with self._context.using() as gl:
            self._buffer.create()
            self._buffer.setUsagePattern(QOpenGLBuffer.UsagePattern.DynamicDraw)
            self._faces = CardFaces(gl)

    def _warm(self, name: str) -> None:
        """Draw nothing with one program: drivers put off the real work till then."""
        self.draw(blank(name))
        self._target = None

    @property
    def objects(self) -> int:
        """How many things it holds on the card: for tests of growth."""
        faces = self._faces.count if self._faces is not None else 0
        return len(self._programs) + faces + (self._target is not None)

    # Pictures on the wood

    @property
    def _card(self) -> CardFaces:
        assert self._faces is not None
        return self._faces

    def give(self, key: Hashable, levels: Sequence[Bytes]) -> None:
        """A picture for a sheet (its id) or an edge. It comes with `feed`; until then there is what there was."""
        with self._context.using():
            self._card.give(key, levels)

    def feed(self, milliseconds: float) -> bool:
        """Bring pictures for about so long; says whether there is more to bring."""
        if not self._card.is_waiting:
            return False
        with self._context.using():
            return self._card.feed(milliseconds)

    def keep(self, used: set[Hashable]) -> None:
        """Take other pictures off the card, but for the last few."""
        with self._context.using():
            self._card.keep(used)

    def has(self, key: Hashable) -> bool:
        """Is its picture there, or on its way?"""
        return self._card.has(key)

    # Drawing

    def draw(self, shot: Shot) -> Bytes:
        """The picture's pixels, as `Target.read` gives them: the next one overwrites them.

        Raises NoOpenGLError where the context was lost, GlError where OpenGL reports a fault.
        """
        self.begin(shot)
        return self.finish()

    def gather(self, gathering: Gathering, shot: Shot) -> None:
        """One more picture for a still one; raises as `draw`."""
        if gathering.place is not None:
            self.begin(shot, gathering.place, SHARPER)
            gathering.add(self.finish())

    def begin(self, shot: Shot, place: tuple[float, float] = (0.0, 0.0), bias: float = 0.0) -> None:
        """Have a picture drawn, without waiting for it; raises as `draw`. place, bias: see `Drawing`."""
        with self._context.using() as gl:
            size = QSize(*shot.size)
            if self._target is None or self._target.size != size:
                self._target = None
                self._target = Target(gl, size)
            self._target.bind()
            self._upload(shot)
            Drawing(gl, self._card, self._use, shot, place, bias).paint()
            gl.glFlush()
            fault = gl.glGetError()
            if fault != names.NO_ERROR:
                raise GlError(f"OpenGL reports fault {fault:#06x} after drawing")

    def finish(self) -> Bytes:
        """The pixels of the picture begun last; raises as `draw`."""
        assert self._target is not None
        with self._context.using():
            return self._target.read()

    def _upload(self, shot: Shot) -> None:
        """The rows of scene and room, one after the other, if they are not there already."""
        self._buffer.bind()
        if self._held is None or self._held[0] is not shot.scene.rows or self._held[1] is not shot.room.rows:
            rows = np.concatenate([shot.scene.rows, shot.room.rows])
            self._buffer.allocate(rows.nbytes)
            self._buffer.write(0, address(rows), rows.nbytes)
            self._held = (shot.scene.rows, shot.room.rows)

    def _use(self, gl: QOpenGLFunctions, name: str) -> Program:
        program = self._programs[name]
        program.use(gl)
        return program

    def destroy(self) -> None:
        """Give everything back."""
        if not self._context.is_alive:  # the display went first, and took everything with it
            return
        with self._context.using():
            if self._faces is not None:
                self._faces.destroy()
            self._buffer.destroy()
            self._programs.clear()
            self._target = None
        self._held = None
