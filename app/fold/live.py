"""The renderer of a board and what it needs: started in small steps, fed with faces in the pauses between frames."""

from __future__ import annotations

import atexit
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from PySide6.QtCore import QObject, QTimer, Signal
from shiboken6 import isValid

from app.fold.faces import FaceKey, Faces, Levels, Where, Wish, face_key, nowhere
from app.fold.gl.context import NoOpenGLError
from app.fold.gl.renderer import Renderer
from app.fold.gl.target import Gathering
from app.fold.levels import Bytes
from app.fold.scene import EdgeKey, Scene
from app.fold.shot import Shot
from core.plan.model import StockSheet

FEED_MS, PAUSE_MS = 5.0, 12  # pictures are brought to the card for so long, so often
NEAR = 1.0  # a pixel that spans less than this wants the whole fine face [mm]
Key = tuple[FaceKey, str]  # a face, and which of its sizes: small, middle, whole


class Live(QObject):
    """`started`: it can draw. `changed`: the next picture would be another one. `lost`: it cannot draw, and why."""

    started = Signal()
    changed = Signal()
    lost = Signal(str)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._renderer: Renderer | None = None
        self._is_started = False
        self._steps: Iterator[Callable[[], None]] = iter(())
        self._on_card: dict[str, Key] = {}
        self._scene: Scene | None = None
        self._is_near = False
        self._shown: set[object] = set()
        self.where: Where = nowhere
        self.faces = Faces(self)
        self.faces.ready.connect(self._serve)
        self._starter = QTimer(self, interval=0)
        self._starter.timeout.connect(self._step)
        self._feeder = QTimer(self, interval=PAUSE_MS)
        self._feeder.timeout.connect(self._feed)

    @property
    def is_ready(self) -> bool:
        """Can it draw?"""
        return self._is_started

    @property
    def renderer(self) -> Renderer | None:
        """What draws, once it is there."""
        return self._renderer

    def begin(self) -> None:
        """Start, step by step, while the window goes on."""
        if self._renderer is None and not self._starter.isActive():
            atexit.register(self.end)  # for a program that never quits by Qt's own way
            self._steps = self._start()
            self._starter.start()

    def end(self) -> None:
        """Give everything back while there is a display to give it to, even when it is itself being taken away."""
        atexit.unregister(self.end)
        self._is_started = False
        renderer, self._renderer = self._renderer, None
        if renderer is not None:
            renderer.destroy()
        if isValid(self):
            self._starter.stop()
            self._feeder.stop()
            self.faces.stop()

    def _start(self) -> Iterator[Callable[[], None]]:
        yield self._make_renderer
        assert self._renderer is not None
        yield from self._renderer.steps()

    def _make_renderer(self) -> None:
        self._renderer = Renderer()

    def _step(self) -> None:
        with self._failing():
            step = next(self._steps, None)
            if step is not None:
                step()
                return
        if not self._starter.isActive():  # it has failed
            return
        self._starter.stop()
        self._is_started = True
        self.started.emit()

    def fail(self, why: str) -> None:
        """Draw no more."""
        self.end()
        self.lost.emit(why)

    # Pictures on the wood

    def show_scene(self, scene: Scene, pixel: float) -> None:
        """Have the faces of this scene made and brought. pixel: what one of the picture spans. [mm]"""
        is_near = pixel < NEAR
        before, self._scene = self._shown, scene
        self._shown = self._faces_of(scene)
        if is_near == self._is_near and before == self._shown:
            return
        self._is_near = is_near
        edges = {batch.picture for batch in scene.batches if isinstance(batch.picture, EdgeKey)}
        self.faces.want(sorted(edges), [self._key(sheet) for sheet in scene.sheets.values()])
        self._serve()

    def _serve(self) -> None:
        with self._failing():
            self._bring()

    def _bring(self) -> None:
        """Bring what is there and wanted."""
        renderer, scene = self._renderer, self._scene
        if renderer is None or scene is None:
            return
        for batch in scene.batches:
            if isinstance(batch.picture, EdgeKey) and not renderer.has(batch.picture):
                levels = self.faces.kept(Wish(batch.picture, "edge"))
                if levels is not None:
                    renderer.give(batch.picture, levels)
        for name, sheet in scene.sheets.items():
            found = self._best(self._key(sheet))
            held = self._on_card.get(name)
            if found is not None and held != found[0] and held != (found[0][0], "whole"):
                renderer.give(name, found[1])
                self._on_card[name] = found[0]
        renderer.keep({batch.picture for batch in scene.batches})
        self._on_card = {name: key for name, key in self._on_card.items() if renderer.has(name)}
        self._feeder.start()

    def _key(self, sheet: StockSheet) -> FaceKey:
        return face_key(sheet, self.where)

    def _faces_of(self, scene: Scene) -> set[object]:
        return {batch.picture for batch in scene.batches} | {self._key(sheet) for sheet in scene.sheets.values()}

    def _best(self, key: FaceKey) -> tuple[Key, Levels] | None:
        fine = self.faces.kept(Wish(key, "fine"))
        if fine is not None:
            return ((key, "whole"), fine) if self._is_near else ((key, "middle"), fine[1:])
        small = self.faces.kept(Wish(key, "small"))
        return ((key, "small"), small) if small is not None else None

    def _feed(self) -> None:
        with self._failing():
            if self._renderer is None or not self._renderer.feed(FEED_MS):
                self._feeder.stop()
            self.changed.emit()

    # Drawing

    def begin_picture(self, shot: Shot) -> None:
        """Have a picture drawn while the program does other things."""
        with self._failing():
            if self._renderer is not None:
                self._renderer.begin(shot)

    def finish_picture(self) -> Bytes | None:
        """The picture begun last; None where there is no OpenGL any more."""
        pixels = None
        with self._failing():
            if self._renderer is not None:
                pixels = self._renderer.finish()
        return pixels

    def gather(self, gathering: Gathering, shot: Shot) -> None:
        """One more picture for a still one."""
        with self._failing():
            if self._renderer is not None:
                self._renderer.gather(gathering, shot)

    @contextmanager
    def _failing(self) -> Iterator[None]:
        """Where OpenGL is lost inside, draw no more, and say so."""
        try:
            yield
        except NoOpenGLError as error:
            self.fail(str(error))
