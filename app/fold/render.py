"""A picture of a plan's shelves without a window: for tests, and wherever a still picture is wanted."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtGui import QImage

from app.fold.camera import Camera
from app.fold.edges import edge_levels
from app.fold.faces import Where, face_key, face_picture, nowhere
from app.fold.gl.renderer import Renderer
from app.fold.gl.target import Gathering, image_of
from app.fold.levels import Bytes, levels_of
from app.fold.look import look_of
from app.fold.pose import HOME_TILT, HOME_TURN, WALL_TILT, WALL_TURN, Pose
from app.fold.room import build_room
from app.fold.scene import EdgeKey, Scene, build_scene
from app.fold.shot import Shot
from app.fold.standing import standing
from app.theme.palette import LIGHT, Palette
from core.face import fine_size
from core.plan.model import Plan, StockSheet

FacePicture = Callable[[StockSheet], Bytes]


class View(NamedTuple):
    """What is shown of a plan, and from where. camera: None fits what is shown, from the board's own side."""

    shelf: str = ""  # '' for the first
    pose: Pose = Pose()
    camera: Camera | None = None
    selected: str = ""
    palette: Palette = LIGHT


def fine_face(sheet: StockSheet, where: Where = nowhere) -> Bytes:
    """The sheet's own face, fine. where: the files of its photographs."""
    return face_picture(face_key(sheet, where), fine_size(sheet.length, sheet.width))


def scene_of(plan: Plan, view: View, size: tuple[float, float]) -> tuple[Scene, Camera]:
    """What `render` draws, and the camera it uses: to measure in the picture."""
    shelf = view.shelf or next((shelf.id for shelf in plan.project.shelves), "")
    scene = build_scene(standing(plan, view.pose, shelf), view.pose.fold, view.selected)
    home = (WALL_TURN, WALL_TILT) if view.pose.wall else (HOME_TURN, HOME_TILT)
    return scene, view.camera or Camera(*home).fitted(scene.points, size)


def render(
    plan: Plan, view: View, size: tuple[int, int], faces: FacePicture = fine_face, renderer: Renderer | None = None
) -> QImage:
    """A picture of so many pixels, as fine as it gets.

    faces: the picture of a sheet's face, (rows, columns, 3 bytes), row 0 at the sheet's upper edge.
    renderer: one to use again; it must have none of the plan's faces yet, or they are used.
    Raises NoOpenGLError where there is no OpenGL.
    """
    drawer = renderer or started()
    scene, camera = scene_of(plan, view, size)
    shelf = view.shelf or next((shelf.id for shelf in plan.project.shelves), "")
    room = build_room(standing(plan, view.pose, shelf), plan.project.wall, view.pose, scene.points)
    for key in {batch.picture for batch in scene.batches}:
        if isinstance(key, EdgeKey):
            drawer.give(key, edge_levels(key))
        elif not drawer.has(key):
            drawer.give(key, levels_of(faces(scene.sheets[key])))
    while drawer.feed(1000.0):
        pass
    gathering = Gathering()
    shot = Shot(scene, room, camera, look_of(view.palette), size)
    while gathering.place is not None:
        drawer.gather(gathering, shot)
    image = image_of(gathering.mean()).copy()
    if renderer is None:
        drawer.destroy()
    return image


def started() -> Renderer:
    """A renderer, ready to draw."""
    renderer = Renderer()
    for step in renderer.steps():
        step()
    return renderer
