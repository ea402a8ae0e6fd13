"""The words of a cut card set in type, from the top down."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

import msgspec

from app.paper.canvas import BODY, SMALL, Canvas, wrapped
from core.drawing.measure import text_width
from core.language import tr
from core.steps.cards import Card

MARKS: Final = {"in": tr("+ a 64th more, − a 64th less"), "mm": ""}

CLOSE: Final = 1.15  # of their side from one box to tick to the next, where there are many


class Sizes(msgspec.Struct, frozen=True):
    """Sizes of a card's letters and of what goes with them. [points]"""

    number: float = 30.0  # the one that matters: at least 24
    head: float = 13.5
    body: float = BODY
    small: float = SMALL
    line: float = 13.0  # from one sentence to the next
    pad: float = 5.0  # from a box to its words
    tick: float = 17.0  # side of the box to tick
    mark: float = 30.0  # width of the flip mark
    blank: float = 90.0  # width of a blank to write in

    def times(self, factor: float) -> Sizes:
        """All of them larger."""
        return Sizes(*(factor * getattr(self, name) for name in self.__struct_fields__))


class CardWords:
    """Sets a card's words; without a canvas it only finds their height."""

    def __init__(self, canvas: Canvas | None, card: Card, left: float, width: float, units: str, sizes: Sizes) -> None:
        self._canvas, self._card, self._s = canvas, card, sizes
        self._left, self._width, self._marks = left, width, MARKS[units]

    def draw(self, y: float) -> float:
        """Draw all from y down; returns where it ends."""
        y = self._draw_head(y)
        y = self._draw_changes(y + 4.0)
        y = self._draw_setting(y + 3.0)
        y = self._draw_times(y + 2.0)
        y = self._draw_lines(y + 3.0, facts_lines(self._card.facts, self._s.body, self._width), strong=True)
        y = self._draw_lines(y + 2.0, self._card.do)
        y = self._draw_own(y)
        y = self._draw_lines(y + 2.0, (*self._card.falls, *self._card.care))
        return self._draw_dangers(y + 5.0)

    def _text(self, x: float, y: float, words: str, size: float, *, strong: bool = False) -> None:
        if self._canvas is not None:
            self._canvas.text(x, y, words, size, strong=strong)

    def _box(self, x: float, y: float, wide: float, high: float, width: float) -> None:
        if self._canvas is not None:
            self._canvas.box(x, y, wide, high, width)

    def _draw_head(self, y: float) -> float:
        card, s = self._card, self._s
        base, right = y + s.head, self._left + self._width
        x = self._left
        alone = card.times == 1
        done = right - s.tick - 5.0 - text_width(tr("done"), s.body) if alone else right
        name = (
            tr("Card {number} of {of}", number=card.number, of=card.of)
            if alone
            else tr("Cards {numbers} of {of}", numbers=card.numbers, of=card.of)
        )
        for words, size, strong in (
            (name, s.head, True),
            (tr("Set-up {setup}", setup=card.setup), s.head, False),
        ):
            self._text(x, base, words, size, strong=strong)
            x += text_width(words, size, strong) + 14.0
        small = s.small if x + text_width(self._marks, s.small) < done - 8.0 else SMALL
        beside = x + text_width(self._marks, small) < done - 8.0
        if beside:
            self._text(x, base, self._marks, small)
        if alone:
            self._box(right - s.tick, y, s.tick, s.tick, 1.2)
            self._text(done, base, tr("done"), s.body)
        y += s.tick + 1.0
        if not beside:
            y += 1.2 * SMALL
            self._text(self._left, y - 1.0, self._marks, SMALL)
        for line in wrapped(card.title, s.head, self._width, strong=True):
            y += s.head + 2.0
            self._text(self._left, y - 1.0, line, s.head, strong=True)
        return y

    def _draw_changes(self, y: float) -> float:
        """What changes, boxed; with the flip mark where something is turned end for end."""
        s = self._s
        mark = s.mark if self._card.flips else 0.0
        lines = wrapped(" ".join(self._card.changes), s.body, self._width - 2.0 * s.pad - mark, strong=True)
        high = max(s.line * len(lines) + s.pad, 0.77 * mark)
        self._box(self._left, y, self._width, high, 1.0)
        if mark and self._canvas is not None:
            _flip_mark(self._canvas, self._left + s.pad, y + high / 2.0, mark)
        self._boxed(y, high, lines, mark)
        return y + high

    def _boxed(self, y: float, high: float, lines: tuple[str, ...], indent: float = 0.0) -> None:
        s = self._s
        base = y + (high - s.line * len(lines)) / 2.0 - 0.23 * s.line
        for line in lines:
            base += s.line
            self._text(self._left + s.pad + indent, base, line, s.body, strong=True)

    def _draw_setting(self, y: float) -> float:
        """The number, large, and what it is: beside it or, where there is no room, under it."""
        s, what = self._s, self._card.setting_is
        lines = wrapped(self._card.setting, s.number, self._width, strong=True)
        for line in lines:
            y += s.number
            self._text(self._left, y - 0.1 * s.number, line, s.number, strong=True)
        beside = text_width(lines[-1], s.number, True) + 10.0
        under = wrapped(what, s.head, max(self._width - beside, 1.0), strong=True)
        if len(under) <= 2 and max(text_width(line, s.head, True) for line in under) <= self._width - beside:
            for number, line in enumerate(reversed(under)):
                base = y - 0.1 * s.number - number * 1.12 * s.head
                self._text(self._left + beside, base, line, s.head, strong=True)
            return y
        for line in wrapped(what, s.head, self._width, strong=True):
            y += 1.15 * s.head
            self._text(self._left, y - 2.0, line, s.head, strong=True)
        return y

    def _draw_times(self, y: float) -> float:
        """How many are cut so, with a box to tick for each."""
        s, times = self._s, self._card.times
        if times == 1:
            return y
        words = tr("Cut {times} of these, a tick for each:", times=times)
        y += s.line
        self._text(self._left, y - 2.0, words, s.body, strong=True)
        x, side = self._left + text_width(words, s.body, True) + 8.0, 0.8 * s.line
        step, room = 1.35 * side, self._left + self._width - x
        if times * CLOSE * side <= room:  # a little closer, rather than one of them in a row more
            step = min(step, room / times)
        for _ in range(times):
            if x + side > self._left + self._width:
                x, y = self._left, y + 1.15 * s.line
            self._box(x, y - 1.0 - side, side, side, 1.0)
            x += step
        return y + 1.0

    def _draw_lines(self, y: float, sentences: tuple[str, ...], *, strong: bool = False) -> float:
        s = self._s
        lines = [line for sentence in sentences for line in wrapped(sentence, s.body, self._width, strong=strong)]
        if self._canvas is not None:
            for number, line in enumerate(lines, 1):
                self._canvas.text(self._left, y + s.line * number - 2.0, line, s.body, strong=strong)
        return y + s.line * len(lines)

    def _draw_own(self, y: float) -> float:
        """A blank for a number of the maker's own."""
        s, room = self._s, self._width - self._s.blank - 6.0
        if not self._card.own:
            return y
        words = wrapped(self._card.own, s.body, self._width)
        if text_width(words[-1], s.body) > room:  # no room for the blank beside it: the last sentence goes down with it
            first, _, last = self._card.own.rpartition(". ")
            words = (*wrapped(f"{first}.", s.body, self._width), *wrapped(last, s.body, room))
        y = self._draw_lines(y + 2.0, words)
        start = self._left + text_width(words[-1], s.body) + 6.0
        if self._canvas is not None:
            self._canvas.line(start, y, start + s.blank, y)
        return y

    def _draw_dangers(self, y: float) -> float:
        """Dangers in a heavy box."""
        if not self._card.dangers:
            return y
        s = self._s
        lines = wrapped(
            tr("Danger: {join}", join=" ".join(self._card.dangers)), s.body, self._width - 2.0 * s.pad, strong=True
        )
        high = s.line * len(lines) + s.pad
        self._box(self._left, y, self._width, high, 2.4)
        self._boxed(y, high, lines)
        return y + high


def _flip_mark(canvas: Canvas, left: float, middle: float, wide: float) -> None:
    """Two arrows past each other: turned end for end."""
    right, head, apart = left + 0.7 * wide, 0.15 * wide, 0.135 * wide
    for y, start, end in ((middle - apart, left, right), (middle + apart, right, left)):
        back = end - head if end > start else end + head
        canvas.line(start, y, end, y, 1.8)
        canvas.line(back, y - 0.8 * head, end, y, 1.8)
        canvas.line(back, y + 0.8 * head, end, y, 1.8)


@lru_cache(maxsize=1 << 10)
def facts_lines(facts: tuple[str, ...], size: float, width: float) -> tuple[str, ...]:
    """Facts in lines, strong: broken between two of them where that takes no line more."""
    plain = wrapped(" · ".join(facts), size, width, strong=True)
    lines: list[str] = []
    for number, fact in enumerate(facts, 1):
        words = fact if number == len(facts) else f"{fact} ·"
        if lines and text_width(f"{lines[-1]} {words}", size, True) <= width:
            lines[-1] += f" {words}"
        else:
            lines += wrapped(words, size, width, strong=True)
    return tuple(lines if len(lines) <= len(plain) else plain)
