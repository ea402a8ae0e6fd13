"""A TrueType font file: which glyph a character has, how wide it is, and the file with only the glyphs that are used.

Source: the OpenType specification, tables cmap (formats 4 and 12), head, hhea, hmtx, maxp, loca, glyf.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from struct import calcsize, pack, unpack_from
from typing import Final

KEPT: Final = ("cvt ", "fpgm", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "prep")  # what a PDF's font needs
MAGIC: Final = 0xB1B0AFBA  # what a font's sums add up to
WORDS, SCALE, MORE, XY_SCALE, TWO_BY_TWO = 0x01, 0x08, 0x20, 0x40, 0x80  # flags of a glyph made of others


class TrueType:
    """A font read from its bytes. Lengths are in thousandths of the text size, y up."""

    def __init__(self, data: bytes) -> None:
        self._data = data
        count = unpack_from(">H", data, 4)[0]
        found = (unpack_from(">4s4xII", data, 12 + 16 * i) for i in range(count))
        self._tables: dict[str, tuple[int, int]] = {tag.decode("latin-1"): (at, size) for tag, at, size in found}
        head, hhea = self._at("head"), self._at("hhea")
        self._long = unpack_from(">h", data, head + 50)[0] == 1
        self._glyphs: int = unpack_from(">H", data, self._at("maxp") + 4)[0]
        self._em: int = unpack_from(">H", data, head + 18)[0]
        self._measured: int = unpack_from(">H", data, hhea + 34)[0]  # glyphs with a width of their own
        self.box = tuple(map(self._scaled, unpack_from(">4h", data, head + 36)))
        self.ascent, self.descent = map(self._scaled, unpack_from(">2h", data, hhea + 4))
        self.glyphs = self._characters()

    def _at(self, table: str) -> int:
        return self._tables[table][0]

    def _scaled(self, units: int) -> int:
        return round(1000.0 * units / self._em)

    def width(self, glyph: int) -> int:
        """How far a glyph goes on."""
        units: int = unpack_from(">H", self._data, self._at("hmtx") + 4 * min(glyph, self._measured - 1))[0]
        return self._scaled(units)

    def _characters(self) -> dict[int, int]:
        """The glyph of each character by its code point."""
        start = self._at("cmap")
        found: dict[int, int] = {}
        for i in range(unpack_from(">H", self._data, start + 2)[0]):
            system, kind, offset = unpack_from(">HHI", self._data, start + 4 + 8 * i)
            if (system, kind) in ((3, 1), (3, 10), (0, 3), (0, 4)):
                found |= self._mapped(start + offset)
        return {code: glyph for code, glyph in found.items() if glyph}

    def _mapped(self, at: int) -> dict[int, int]:
        form = unpack_from(">H", self._data, at)[0]
        if form == 12:
            return self._grouped(at)
        return self._segments(at) if form == 4 else {}

    def _grouped(self, at: int) -> dict[int, int]:
        """Format 12: runs of characters with runs of glyphs."""
        found: dict[int, int] = {}
        for i in range(unpack_from(">I", self._data, at + 12)[0]):
            first, last, glyph = unpack_from(">III", self._data, at + 16 + 12 * i)
            found.update((code, glyph + code - first) for code in range(first, last + 1))
        return found

    def _segments(self, at: int) -> dict[int, int]:
        """Format 4: the same in segments, some through a list of glyphs."""
        found: dict[int, int] = {}
        twice = unpack_from(">H", self._data, at + 6)[0]
        for i in range(0, twice, 2):
            last = unpack_from(">H", self._data, at + 14 + i)[0]
            first = unpack_from(">H", self._data, at + 16 + twice + i)[0]
            delta = unpack_from(">h", self._data, at + 16 + 2 * twice + i)[0]
            place = at + 16 + 3 * twice + i
            offset = unpack_from(">H", self._data, place)[0]
            for code in range(first, min(last, 0xFFFE) + 1):
                glyph = code
                if offset:
                    glyph = unpack_from(">H", self._data, place + offset + 2 * (code - first))[0]
                    if not glyph:
                        continue
                found[code] = (glyph + delta) & 0xFFFF
        return found

    def only(self, glyphs: Iterable[int]) -> bytes:
        """The font file with the outlines of only some glyphs and of those they are made of; numbers stay."""
        places = self._places()
        wanted = self._closed({0, *glyphs}, places)
        outlines, ends = bytearray(), [0]
        for glyph in range(self._glyphs):
            if glyph in wanted:
                outline = self._data[places[glyph] : places[glyph + 1]]
                outlines += outline + b"\0" * (-len(outline) % 4)
            ends.append(len(outlines))
        tables: dict[str, bytes] = {tag: self._table(tag) for tag in KEPT if tag in self._tables}
        head = tables["head"]
        tables["head"] = head[:8] + b"\0\0\0\0" + head[12:50] + pack(">h", 1) + head[52:]
        tables["loca"] = pack(f">{len(ends)}I", *ends)
        tables["glyf"] = bytes(outlines)
        return _file(tables)

    def _table(self, tag: str) -> bytes:
        start, size = self._tables[tag]
        return self._data[start : start + size]

    def _places(self) -> list[int]:
        """Where the outline of each glyph starts in the file, and where the last one ends."""
        form = f">{self._glyphs + 1}{'I' if self._long else 'H'}"
        start, times = self._at("glyf"), 1 if self._long else 2
        return [start + times * place for place in unpack_from(form, self._data, self._at("loca"))]

    def _closed(self, glyphs: set[int], places: list[int]) -> set[int]:
        """The glyphs and all they are made of."""
        wanted: set[int] = set()
        waiting = list(glyphs)
        while waiting:
            glyph = waiting.pop()
            if glyph not in wanted:
                wanted.add(glyph)
                if places[glyph + 1] > places[glyph]:
                    waiting += self._made_of(places[glyph])
        return wanted

    def _made_of(self, at: int) -> list[int]:
        if unpack_from(">h", self._data, at)[0] >= 0:
            return []
        made_of, flags = [], MORE
        at += 10
        while flags & MORE:
            flags, glyph = unpack_from(">HH", self._data, at)
            made_of.append(glyph)
            at += 8 if flags & WORDS else 6
            at += 2 if flags & SCALE else 4 if flags & XY_SCALE else 8 if flags & TWO_BY_TWO else 0
        return made_of


def load_truetype(file: Path) -> TrueType:
    """A font from its file. Raises OSError where it cannot be read."""
    return TrueType(file.read_bytes())


def _sum(data: bytes) -> int:
    padded = data + b"\0" * (-len(data) % 4)
    total: int = sum(unpack_from(f">{len(padded) // 4}I", padded))
    return total & 0xFFFFFFFF


def _file(tables: dict[str, bytes]) -> bytes:
    """A font file of some tables, its sums right."""
    count, power = len(tables), 1
    while 2 * power <= count:
        power *= 2
    search = 16 * power
    start = pack(">IHHHH", 0x00010000, count, search, power.bit_length() - 1, 16 * count - search)
    at = len(start) + count * calcsize(">4sIII")
    records, body, head = b"", b"", 0
    for tag in sorted(tables):
        data = tables[tag]
        if tag == "head":
            head = at + len(body)
        records += pack(">4sIII", tag.encode("latin-1"), _sum(data), at + len(body), len(data))
        body += data + b"\0" * (-len(data) % 4)
    whole = start + records + body
    return whole[: head + 8] + pack(">I", (MAGIC - _sum(whole)) & 0xFFFFFFFF) + whole[head + 12 :]
