"""The hand on the fold board's picture: its handles, and an eye that stays while one of them is pulled."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QObject
from PySide6.QtGui import QPainter

from app.fold.overlay import paint_way
from app.fold.pose import Pose
from app.hand.grip import Handle
from app.hand.hand import Hand
from app.hand.reach import NONE, TARGET, name_of
from core.language import tr
from core.plan.model import Plan

if TYPE_CHECKING:
    from app.fold.camera import Camera
    from app.fold.eye import Fit
    from app.fold.picture import FoldPicture

LEAST_FOLD = 0.6  # less folded, a shelf has no outer sizes to take hold of
TOO_FLAT = tr("To pull its sizes here, fold it further")


class _Kept(NamedTuple):
    """The eye as it was when a handle was taken."""

    grip: Handle
    camera: Camera
    fit: Fit


class _Made(NamedTuple):
    """What handles were made for; compared part by part, the plan as the very same one."""

    plan: Plan
    rest: tuple[Pose, Camera, tuple[float, float], tuple[str, ...], str]


class Sizes(QObject):
    """Pulls sizes in a picture."""

    def __init__(self, picture: FoldPicture) -> None:
        super().__init__(picture)
        self._picture = picture
        self._kept: _Kept | None = None
        self._made: tuple[_Made, tuple[Handle, ...]] | None = None
        self.hand = Hand(picture, picture.store, picture.theme, picture)
        self.hand.reach.handles = self._handles
        self.hand.ended.connect(self._end)

    @property
    def is_in_hand(self) -> bool:
        """Is a handle held or under the pointer?"""
        return self.hand.busy or self.hand.reach.over != NONE

    @property
    def words(self) -> str:
        """Why a shelf that is pointed at or selected has no handles, '' where it has some."""
        return TOO_FLAT if self._picture.pose.fold < LEAST_FOLD and self._shelves() else ""

    @property
    def note(self) -> str:
        """Why the handle under the pointer is faint, '' where there is no such."""
        if self._picture.store.held is not None:
            return ""
        for handle in self._handles():
            away = self.hand.reach.square(handle) - self._picture.pointer
            if handle.is_still and max(abs(away.x()), abs(away.y())) <= TARGET:
                number = handle.number
                value = number.show(number.value, self._picture.store.unit)
                return tr(
                    "{words} {value}: turn the shelf to pull it, or press {letter}",
                    words=number.words.capitalize(),
                    value=value,
                    letter=handle.letter,
                )
        return ""

    def paint(self, painter: QPainter) -> None:
        """Over the picture."""
        if self._picture.stage is None or (self._picture.store.held is not None and not self.hand.busy):
            return  # another board's hand is dragging
        handle = self.hand.grip or self.hand.reach.find(self.hand.reach.over)
        shown = self.hand.reach.find(name_of(handle)) if isinstance(handle, Handle) else None
        if shown is not None and not shown.is_still:
            paint_way(painter, self.hand.reach.square(shown), shown.number.axis, self._picture.theme.palette)
        self.hand.paint(painter)

    # Handles

    def _shelves(self) -> tuple[str, ...]:
        """The shelves whose handles are shown: the selected one, and the one under the pointer."""
        picture = self._picture
        if picture.stage is None or picture.is_turning or not picture.isEnabled():
            return ()
        chosen, hover = (about.partition("/")[0] for about in (picture.store.selected, picture.hover))
        return tuple(dict.fromkeys(about for about in (chosen, hover) if about))

    def _handles(self) -> tuple[Handle, ...]:
        stage, store, pose = self._picture.stage, self._picture.store, self._picture.pose
        held = self.hand.grip
        names = (held.about,) if isinstance(held, Handle) else self._shelves()
        if stage is None or not names or pose.fold < LEAST_FOLD:
            return ()
        only = held.key if isinstance(held, Handle) else ""
        made = _Made(store.plan, (pose, stage.eye.camera, stage.size, names, only))
        if self._made is None or self._made[0].plan is not made.plan or self._made[0].rest != made.rest:
            from app.fold.pulling import Seen, size_handles  # with numpy, which is there once there are solids

            seen = Seen(stage.eye.camera, stage.size)
            some = (size_handles(store.plan, pose, name, seen, only) for name in names)
            self._made = made, tuple(handle for handles in some for handle in handles)
        return self._made[1]

    # The eye

    def keep_still(self) -> None:
        """The plan is another one: while a handle is pulled the eye stays, and goes with a face that is pulled away
        from the shelf's own origin."""
        stage, held = self._picture.stage, self.hand.grip
        if stage is None or not isinstance(held, Handle):
            return
        if self._kept is None or self._kept.grip is not held:
            self._kept = _Kept(held, stage.eye.camera, stage.eye.fit)
        stage.eye.camera, stage.eye.fit = self._carried(self._kept), "own"

    def _carried(self, kept: _Kept) -> Camera:
        """The eye where it belongs for the size as it is in the plan."""
        from app.fold.pulling import eye_shift  # as above

        grip, shelves = kept.grip, self._picture.store.plan.project.shelves
        shelf = next((one for one in shelves if one.id == grip.about), None)
        grown = getattr(shelf, grip.number.name) - grip.number.value if shelf is not None else 0.0
        return kept.camera.moved(eye_shift(grip.key, grown, self._picture.pose))

    def _end(self) -> None:
        """Let go: the eye is fitted again as it was before."""
        kept, self._kept = self._kept, None
        stage = self._picture.stage
        if kept is not None and stage is not None:
            stage.eye.camera, stage.eye.fit = self._carried(kept), kept.fit
            stage.redraw()
