"""A font file: which glyph a character has, how wide it is, and the file with only the glyphs that are used."""

from __future__ import annotations

from collections.abc import Iterable
from io import BytesIO
from pathlib import Path
from typing import Final

from fontTools.ttLib import TTFont

NOT_OF_A_PDF: Final = {"BASE", "DSIG", "GDEF", "GPOS", "GSUB", "OS/2", "gasp", "name", "post"}  # tables


class FontFile:
    """A font with TrueType outlines. Lengths are in thousandths of the text size, y up."""

    def __init__(self, file: Path) -> None:
        """Raises OSError where the file cannot be read."""
        self._data = file.read_bytes()
        font = TTFont(BytesIO(self._data), lazy=True)
        head, numbers = font["head"], font.getReverseGlyphMap()
        self._em: int = head.unitsPerEm
        self.glyphs: dict[int, int] = {code: numbers[name] for code, name in font.getBestCmap().items()}
        self._widths = {numbers[name]: self._scaled(units) for name, (units, _) in font["hmtx"].metrics.items()}
        self.box = tuple(self._scaled(units) for units in (head.xMin, head.yMin, head.xMax, head.yMax))
        self.ascent, self.descent = self._scaled(font["hhea"].ascent), self._scaled(font["hhea"].descent)

    def _scaled(self, units: int) -> int:
        return round(1000.0 * units / self._em)

    def width(self, glyph: int) -> int:
        """How far a glyph goes on."""
        return self._widths[glyph]

    def only(self, glyphs: Iterable[int]) -> bytes:
        """The font file with the outlines of only some glyphs and of those they are made of; numbers stay."""
        from fontTools.subset import Options, Subsetter

        font, smaller = TTFont(BytesIO(self._data), lazy=True), BytesIO()
        for table in NOT_OF_A_PDF & set(font.keys()):  # before, not after: reading some takes longer than all the rest
            del font[table]
        subsetter = Subsetter(Options(retain_gids=True, notdef_outline=True, drop_tables=["cmap"]))
        subsetter.populate(gids=list(glyphs))
        subsetter.subset(font)
        font.save(smaller)
        return smaller.getvalue()
