"""Which parts, how often, packed into a few whole numbers so that sums of many are checked at once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]

BITS = 62  # of a word


class Packing:
    """A field of bits for each part, with a bit above it that is set once there are more than wanted."""

    def __init__(self, demand: Sequence[int]) -> None:
        self.demand = list(demand)
        self.fields: list[tuple[int, int, int]] = []  # word, shift, mask
        word = used = 0
        for wanted in demand:
            bits = max(1, int(wanted).bit_length()) + 1
            if used + bits > BITS:
                word, used = word + 1, 0
            self.fields.append((word, used, (1 << (bits - 1)) - 1))
            used += bits
        self.words = word + 1
        self.offset = self.slack(demand)
        self.guard = np.zeros(self.words, dtype=np.int64)
        for word, shift, mask in self.fields:
            self.guard[word] |= (mask + 1) << shift

    def slack(self, most: Sequence[int]) -> Ints:
        """What to add to a multiset so that its guard bits show where it holds more than `most`."""
        offset = np.zeros(self.words, dtype=np.int64)
        for (word, shift, mask), n in zip(self.fields, most, strict=True):
            offset[word] += (mask - min(n, mask)) << shift
        return offset

    def one(self, part: int) -> Ints:
        """The multiset of a single part."""
        word, shift, _ = self.fields[part]
        result = np.zeros(self.words, dtype=np.int64)
        result[word] = 1 << shift
        return result

    def pack(self, counts: Sequence[int]) -> Ints:
        """The multiset of some counts."""
        result = np.zeros(self.words, dtype=np.int64)
        for (word, shift, _), n in zip(self.fields, counts, strict=True):
            result[word] += n << shift
        return result

    def unpack(self, multiset: Ints) -> tuple[tuple[int, int], ...]:
        """(part, how often) for each part in it."""
        words = [int(word) for word in multiset]
        counts = ((part, words[word] >> shift & mask) for part, (word, shift, mask) in enumerate(self.fields))
        return tuple((part, n) for part, n in counts if n)

    def within(self, sums: Ints, offset: Ints | None = None) -> NDArray[np.bool_]:
        """Which rows hold no part more often than wanted (or than the offset of `slack` allows)."""
        over = (sums + (self.offset if offset is None else offset)) & self.guard
        result: NDArray[np.bool_] = (over == 0).all(axis=1) if self.words > 1 else over[:, 0] == 0
        return result
