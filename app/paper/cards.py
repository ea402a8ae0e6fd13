"""Cut cards on paper: two on a page where both fit, else one; read at arm's length beside the saw."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import msgspec

from app.paper.canvas import LARGER, PIXELS, Canvas
from app.paper.cardwords import CardWords, Sizes
from app.paper.frame import NO_SCALE, Frame
from core.drawing.cutsection import draw_cut_section
from core.drawing.cutstep import draw_step
from core.drawing.fit import fit
from core.drawing.flat import bounds, united
from core.drawing.model import Area, Drawing, Line
from core.language import tr
from core.plan.model import Plan
from core.steps.cards import Card, cards_of

GUTTER: Final = 14.0  # between cards [points]
COLUMN: Final = 0.58  # of the width: words; the rest is for the drawings
GAP: Final = 12.0  # between words and drawings
SECTION: Final = 0.55  # of the height: the section; the rest is for the bench
HALF: Final = 0.97  # of their size letters have where two cards share a page; the smallest stay over 9 points
WHOLE: Final = (1.35, 1.25, 1.15, 1.08, 1.0, 0.95)  # how much larger letters are on a page of one card


class CardPage(msgspec.Struct, frozen=True):
    """One or two cut cards. room: height of each. [points]"""

    plan: Plan
    cards: tuple[Card, ...]
    room: float
    sizes: Sizes

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
            _draw_drawings(canvas, self.plan, card, frame, y, self.room)
            y += self.room + GUTTER


def card_pages(plan: Plan, frame: Frame) -> Iterator[CardPage]:
    """All cut cards, in order."""
    half = (frame.bottom - frame.top - GUTTER) / 2.0
    sizes = Sizes().times(HALF)
    waiting: list[Card] = []
    for card in cards_of(plan):
        if _words(None, plan, card, frame, sizes).draw(0.0) > half:
            yield from (_alone(plan, one, frame) for one in (*waiting, card))
            waiting = []
        else:
            waiting.append(card)
        if len(waiting) == 2:
            yield CardPage(plan, tuple(waiting), half, sizes)
            waiting = []
    yield from (_alone(plan, one, frame) for one in waiting)


def _alone(plan: Plan, card: Card, frame: Frame) -> CardPage:
    """A card that has a page for itself, as large as that lets it be."""
    whole = frame.bottom - frame.top
    for factor in WHOLE:
        sizes = Sizes().times(factor)
        if _words(None, plan, card, frame, sizes).draw(0.0) <= whole:
            break
    return CardPage(plan, (card,), whole, sizes)


def _words(canvas: Canvas | None, plan: Plan, card: Card, frame: Frame, sizes: Sizes) -> CardWords:
    width = COLUMN * (frame.right - frame.left)
    return CardWords(canvas, card, frame.left, width, plan.project.units, sizes)


def _draw_drawings(canvas: Canvas, plan: Plan, card: Card, frame: Frame, top: float, room: float) -> None:
    """The section over the bench, at the right."""
    left = frame.left + COLUMN * (frame.right - frame.left) + GAP
    wide, high = frame.right - left, SECTION * room
    _place(canvas, draw_cut_section(plan, card.number), left, top, wide, high)
    _place(canvas, draw_step(plan, card.number, close=True), left, top + high, wide, room - high)


def _place(canvas: Canvas, drawing: Drawing, left: float, top: float, wide: float, high: float) -> None:
    drawn = [bounds(item.points) for item in drawing.items if isinstance(item, Area | Line)]
    drawing = msgspec.structs.replace(drawing, box=united([drawing.box, *drawn]))  # nothing may leave the page
    view = fit(drawing, wide * PIXELS, high * PIXELS, pad=2.0 * PIXELS, points=PIXELS * LARGER)
    moved = msgspec.structs.replace(view, x=view.x + left * PIXELS, y=view.y + top * PIXELS)
    canvas.drawing(drawing, moved)
