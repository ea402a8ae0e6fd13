"""What a page is, and how pages are asked for by name."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Protocol, runtime_checkable

import msgspec

from app.paper.canvas import Canvas
from app.paper.frame import Frame
from core.plan.model import Plan


class Page(Protocol):
    """Anything that can be put on a page. Its room is `frame`'s; edge, title block and check bar are drawn for it."""

    @property
    def title(self) -> str:
        """What the title block calls it."""
        ...

    def scale_text(self, frame: Frame) -> str:
        """'Scale 1 : 10', or `frame.NO_SCALE`."""
        ...

    def draw(self, canvas: Canvas, frame: Frame) -> None:
        """Draw what is on it."""
        ...


@runtime_checkable
class Upright(Page, Protocol):
    """A page with upright paper of its own: no edge, title block or check bar is drawn for it."""

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of its paper. [points]"""
        ...


@runtime_checkable
class InUnit(Page, Protocol):
    """A page whose lengths are in a unit of its own."""

    @property
    def unit(self) -> str:
        """What the title block says of it."""
        ...


def own_size(page: Page) -> tuple[float, float] | None:
    """The upright paper of a page that has its own; None for all others. [points]"""
    return page.size if hasattr(type(page), "size") and isinstance(page, Upright) else None


def own_unit(page: Page) -> str:
    """What is said of the lengths of a page that has a unit of its own; '' for all others."""
    return page.unit if hasattr(type(page), "unit") and isinstance(page, InUnit) else ""


class Pages(msgspec.Struct, frozen=True):
    """Pages of one kind. name: what `--pages` calls them, plain words in lower case; make: none where there is nothing.

    asked: only there when they are asked for by name. public: part of the reader's edition too.
    """

    name: str
    make: Callable[[Plan, Frame], Iterable[Page]]
    asked: bool = False
    public: bool = False
