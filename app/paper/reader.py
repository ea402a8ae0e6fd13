"""The reader's edition on paper: the public pages of a plan without its wall, once in each unit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, get_args

import msgspec

from app.paper.canvas import Canvas
from app.paper.frame import Frame
from app.paper.leaf import leaf_pages
from app.paper.page import Page, Pages
from core.document.model import Units
from core.language import tr
from core.leaves.reader import in_unit, public_plan, reader_leaf
from core.plan.model import Plan

WORDS: Final[dict[Units, str]] = {"in": "inches", "mm": "millimetres"}


class ReaderPage(msgspec.Struct, frozen=True):
    """A page with the unit its lengths are in."""

    page: Page
    unit: str

    @property
    def title(self) -> str:
        """What the page is called."""
        return self.page.title

    def scale_text(self, frame: Frame) -> str:
        """As the page has it."""
        return self.page.scale_text(frame)

    def draw(self, canvas: Canvas, frame: Frame) -> None:
        """Draw the page."""
        self.page.draw(canvas, frame)


def reader_pages(plan: Plan, frame: Frame, kinds: tuple[Pages, ...]) -> Iterator[Page]:
    """The cover, then the pages of those kinds in each unit, the project's own first."""
    public = public_plan(plan)
    for cover in leaf_pages(reader_leaf(public), frame):
        yield ReaderPage(cover, tr("inches and millimetres"))
    for units in sorted(get_args(Units), key=lambda one: one != plan.project.units):
        shown = in_unit(public, units)
        for kind in kinds:
            for page in kind.make(shown, frame):
                yield ReaderPage(page, WORDS[units])
