"""Who came first: boxes that do not overlap, looked up by a grid so that many are as quick as few."""

from __future__ import annotations

from collections import defaultdict

from core.drawing.model import Box


class Crowd:
    """Boxes let in one by one; a box that overlaps one already in is turned away."""

    def __init__(self, cell: float) -> None:
        self._cell = cell
        self._boxes: defaultdict[tuple[int, int], list[Box]] = defaultdict(list)

    def admits(self, box: Box) -> bool:
        """Whether the box overlaps none before it; then it is in."""
        places = self._places(box)
        if self._meets(box, places):
            return False
        for place in places:
            self._boxes[place].append(box)
        return True

    def add(self, box: Box) -> None:
        """Let a box in, whatever it overlaps."""
        for place in self._places(box):
            self._boxes[place].append(box)

    def meets(self, box: Box) -> bool:
        """Whether the box overlaps one that is in."""
        return self._meets(box, self._places(box))

    def _places(self, box: Box) -> list[tuple[int, int]]:
        x0, y0, x1, y1 = box
        cell = self._cell
        return [
            (i, j)
            for i in range(int(x0 // cell), int(x1 // cell) + 1)
            for j in range(int(y0 // cell), int(y1 // cell) + 1)
        ]

    def _meets(self, box: Box, places: list[tuple[int, int]]) -> bool:
        x0, y0, x1, y1 = box
        for place in places:
            for a0, b0, a1, b1 in self._boxes.get(place, ()):
                if x0 < a1 and a0 < x1 and y0 < b1 and b0 < y1:
                    return True
        return False
