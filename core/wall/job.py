"""One shelf on the wall, with its frame where it has one."""

from __future__ import annotations

from core.document.model import Mount, Wall
from core.frame.job import FrameJob
from core.plan.model import Frame


class WallJob(FrameJob, frozen=True):
    """A shelf that hangs. mount: its place; frame: None where it can have none."""

    mount: Mount
    frame: Frame | None

    @property
    def wall(self) -> Wall:
        """The wall it hangs on."""
        return self.project.wall

    @property
    def span(self) -> tuple[float, float]:
        """Left and right end of the shelf, from the wall's left edge. [mm]"""
        return self.mount.x, self.mount.x + self.shelf.length
