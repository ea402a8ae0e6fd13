"""The fewest sheets for some rectangles by trying everything, written apart from the solver.

Which outer sizes a set of rectangles can be cut from with edge-to-edge cuts: for every way to part the set in two, side
by side or one above the other. Only sizes that no other size beats both ways are kept.
"""

from collections.abc import Sequence

Size = tuple[float, float]

SAME = 1e-6  # mm


class Everything:
    """Rectangles, none turned, and the kerf of the cuts between them. [mm]"""

    def __init__(self, sizes: Sequence[Size], sheet: Size, kerf: float) -> None:
        self.sheet = sheet
        self.boxes: list[list[Size]] = [[] for _ in range(1 << len(sizes))]
        for some in range(1, 1 << len(sizes)):
            if some & (some - 1) == 0:
                found = [sizes[some.bit_length() - 1]]
            else:
                found = self._parted(some, kerf)
            self.boxes[some] = self._best(found)

    def _parted(self, some: int, kerf: float) -> list[Size]:
        first = some & -some
        found = []
        part = (some ^ first) & ((some ^ first) - 1)
        while True:
            one, two = self.boxes[first | part], self.boxes[some ^ first ^ part]
            for w1, h1 in one:
                for w2, h2 in two:
                    found.append((w1 + kerf + w2, max(h1, h2)))
                    found.append((max(w1, w2), h1 + kerf + h2))
            if not part:
                return found
            part = (part - 1) & (some ^ first)

    def _best(self, found: list[Size]) -> list[Size]:
        kept: list[Size] = []
        for w, h in sorted(found):
            inside = w <= self.sheet[0] + SAME and h <= self.sheet[1] + SAME
            if inside and (not kept or h < kept[-1][1] - SAME):
                kept.append((w, h))
        return kept

    def sheets(self) -> int:
        """How many sheets they need at least, all of one size; each must fit one."""
        every = len(self.boxes) - 1
        fewest = [0] * (every + 1)
        for some in range(1, every + 1):
            first = some & -some
            rest = some ^ first
            best, part = every, rest
            while True:
                if self.boxes[first | part]:
                    best = min(best, 1 + fewest[rest ^ part])
                if not part:
                    break
                part = (part - 1) & rest
            fewest[some] = best
        return fewest[every]
