"""Cut cards on paper: two on a page where both fit, else one; read at arm's length beside the saw."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from typing import Final

import msgspec

from app.paper.canvas import BODY, LARGER, PIXELS, Canvas
from app.paper.cardwords import CardWords, Sizes
from app.paper.frame import NO_SCALE, Frame
from core.drawing.cutsection import draw_cut_section
from core.drawing.cutstep import bench_at, draw_step
from core.drawing.fit import LEAST, View, fit
from core.drawing.flat import bounds, united
from core.drawing.model import Area, Box, Drawing, Line
from core.drawing.seen import picture_box, sides
from core.drawing.stepnotes import TALL
from core.language import tr
from core.plan.model import Plan
from core.steps.cards import Card, cards_of
from core.steps.lying import Bench

GUTTER: Final = 14.0  # between cards [points]
COLUMN: Final = 0.58  # of the width: words; the rest is for the drawings
GAP: Final = 12.0  # between words and drawings
SECTION: Final = 0.55  # of the height: the section; the rest is for the bench
HALF: Final = (1.7, 1.5, 1.35, 1.2, 1.13, 1.06, 1.0, 0.97)  # of their size letters have where two cards share a page
WHOLE: Final = (1.7, 1.5, 1.35, 1.25, 1.15, 1.08, 1.0, 0.95)  # the same on a page of one card
UPPER: Final = 0.66  # of a page of one card: words no longer leave room for the bench under them, right across
STOCKY: Final = 2.2  # times its height: a bench no longer than that would be small in half a page
LONG: Final = 2.0  # times its height: so long at least is a bench that is drawn right across
BESIDE: Final = 0.56  # of the room for drawings: a section that stands beside its bench
SMALLEST: Final = 0.15  # of the scale they would have without words: rather so small are drawings than without them
PICTURE: Final = 1.5  # most that letters of drawings are larger beside larger words


class CardPage(msgspec.Struct, frozen=True):
    """One or two cut cards. room: height of each; upper: of what stands over the bench, where that goes right across.
    [points]"""

    plan: Plan
    cards: tuple[Card, ...]
    room: float
    sizes: Sizes
    upper: float | None = None

    @property
    def title(self) -> str:
        """'Cut cards 3 and 4 of 11', 'Cut cards 5 to 7 and 8 of 11'."""
        numbers = [card.numbers for card in self.cards]
        if len(numbers) == 1 and self.cards[0].times == 1:
            return tr("Cut card {number} of {of}", number=numbers[0], of=self.cards[0].of)
        return tr("Cut cards {numbers} of {of}", numbers=tr(" and ").join(numbers), of=self.cards[0].of)

    def scale_text(self, frame: Frame) -> str:
        """Sections fill their room."""
        return NO_SCALE

    def draw(self, canvas: Canvas, frame: Frame) -> None:
        """Draw the cards, a line between them."""
        y = frame.top
        for number, card in enumerate(self.cards):
            if number:
                canvas.line(frame.left, y - GUTTER / 2.0, frame.right, y - GUTTER / 2.0, 1.6)
            _words(canvas, self.plan, card, frame, self.sizes).draw(y)
            self._draw_drawings(canvas, card, frame, y)
            y += self.room + GUTTER

    def _draw_drawings(self, canvas: Canvas, card: Card, frame: Frame, top: float) -> None:
        """The section at the right; the bench under it, or under all words."""
        letters = min(max(self.sizes.body / BODY, 1.0), PICTURE)
        left = frame.left + COLUMN * (frame.right - frame.left) + GAP
        high = self.upper or SECTION * self.room
        wide = frame.right - left
        section = _nameless(draw_cut_section(self.plan, card.number))
        bench = draw_step(self.plan, card.number, close=True)
        if len(self.cards) > 1 and _is_tall(self.plan, card):  # side by side both are larger than one over the other
            middle = left + BESIDE * wide
            _place(canvas, section, (left, top, middle - GAP, top + self.room), letters, often=True)
            _place(canvas, bench, (middle, top, frame.right, top + self.room), letters)
            return
        _place(canvas, section, (left, top, frame.right, top + high), letters, often=True)
        start = frame.left if self.upper is not None else left
        _place(canvas, bench, (start, top + high, frame.right, top + self.room), letters)


def card_pages(plan: Plan, frame: Frame) -> Iterator[CardPage]:
    """All cut cards, in order."""
    half = (frame.bottom - frame.top - GUTTER) / 2.0
    waiting: list[Card] = []
    for card in cards_of(plan):
        if _height(plan, card, frame, HALF[-1]) > half or _is_crowded(plan, card):
            yield from (_alone(plan, one, frame) for one in (*waiting, card))
            waiting = []
        else:
            waiting.append(card)
        if len(waiting) == 2:
            yield _pair(plan, tuple(waiting), frame, half)
            waiting = []
    yield from (_alone(plan, one, frame) for one in waiting)


def _pair(plan: Plan, both: tuple[Card, ...], frame: Frame, half: float) -> CardPage:
    """Two cards on a page, in letters as large as both let them be."""
    factor = _first(HALF, lambda f: all(_height(plan, one, frame, f) <= half for one in both))
    return CardPage(plan, both, half, Sizes().times(factor or HALF[-1]))


def _alone(plan: Plan, card: Card, frame: Frame) -> CardPage:
    """A card that has a page for itself, as large as that lets it be."""
    whole = frame.bottom - frame.top
    factor = _first(WHOLE, lambda f: _height(plan, card, frame, f) <= UPPER * whole)
    if factor is not None and factor >= 1.0 and _is_long(plan, card):
        high = _height(plan, card, frame, factor)
        return CardPage(plan, (card,), whole, Sizes().times(factor), max(high + GAP, SECTION * whole))
    factor = _first(WHOLE, lambda f: _height(plan, card, frame, f) <= whole) or WHOLE[-1]
    return CardPage(plan, (card,), whole, Sizes().times(factor))


def _first(factors: Sequence[float], fits: Callable[[float], bool]) -> float | None:
    """The first of factors that fits, found by halving: after one that fits all do."""
    at = bisect_left(factors, True, key=fits)
    return factors[at] if at < len(factors) else None


def _is_long(plan: Plan, card: Card) -> bool:
    return _shape(bench_at(plan, card.number, close=True)) >= LONG


def _is_crowded(plan: Plan, card: Card) -> bool:
    """Has its bench, small, no room for all that is written on it: names of several strips, two numbers of a rip?"""
    bench = bench_at(plan, card.number, close=True)
    two = bench.axis == "y" and bench.is_guided and bench.step.set_by.stick is not None
    return (two or len(bench.step.cuts) > 1) and _shape(bench) < STOCKY


def _shape(bench: Bench) -> float:
    """Width of a bench's picture, by its height."""
    wide, high = sides(picture_box(bench))
    return wide / high


def _is_tall(plan: Plan, card: Card) -> bool:
    return _shape(bench_at(plan, card.number, close=True)) <= TALL


def _height(plan: Plan, card: Card, frame: Frame, factor: float) -> float:
    return _words_high(card, COLUMN * (frame.right - frame.left), plan.project.units, factor)


@lru_cache(maxsize=64)
def _words_high(card: Card, width: float, units: str, factor: float) -> float:
    return CardWords(None, card, 0.0, width, units, Sizes().times(factor)).draw(0.0)


def _words(canvas: Canvas, plan: Plan, card: Card, frame: Frame, sizes: Sizes) -> CardWords:
    width = COLUMN * (frame.right - frame.left)
    return CardWords(canvas, card, frame.left, width, plan.project.units, sizes)


def _nameless(drawing: Drawing) -> Drawing:
    """A drawing without what tells it from others that look the same."""
    items = tuple(msgspec.structs.replace(item, about="") if isinstance(item, Area) else item for item in drawing.items)
    return msgspec.structs.replace(drawing, name="", title="", items=items)


def _place(canvas: Canvas, drawing: Drawing, room: Box, letters: float, *, often: bool = False) -> None:
    """A drawing in the middle of its room [points], nothing of it outside. often: many cards have the same."""
    left, top, right, bottom = room
    fitted = _fitted_often if often else _fitted
    drawing, view = fitted(drawing, right - left, bottom - top, letters)
    moved = msgspec.structs.replace(view, x=view.x + left * PIXELS, y=view.y + top * PIXELS)
    canvas.drawing(drawing, moved, often=often)


def _fitted(drawing: Drawing, wide: float, high: float, letters: float) -> tuple[Drawing, View]:
    """A drawing, its box about all of it, and its view in a room."""
    drawn = [bounds(item.points) for item in drawing.items if isinstance(item, Area | Line)]
    drawing = msgspec.structs.replace(drawing, box=united([drawing.box, *drawn]))
    for size, least in ((letters, LEAST), (1.0, LEAST), (1.0, SMALLEST)):
        points = PIXELS * LARGER * size
        view = fit(drawing, wide * PIXELS, high * PIXELS, pad=2.0 * PIXELS, points=points, least=least)
        if not view.plain:  # there is room for all that is told beside it: near and far, what falls, which face is up
            break
    return drawing, view


_fitted_often = lru_cache(maxsize=256)(_fitted)
