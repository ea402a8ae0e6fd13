"""A PDF file of lines, filled shapes and letters, page by page: fonts embedded, every text with its characters.

Places are points from the upper left corner of the page, y down. Source: ISO 32000-1 (PDF 1.7): 8.4 and 8.5 graphics,
9.7 composite fonts, 9.10.3 ToUnicode; pydyf puts the file together, fontTools the fonts.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from io import BytesIO
from os import cpu_count
from pathlib import Path
from typing import Final
from zlib import compress

from pydyf import PDF, Array, Dictionary, Stream, String

from core.drawing.model import Point
from core.export.fontfile import FontFile

FONTS: Final = Path(__file__).parents[2] / "resources" / "fonts"
FACES: Final = (("SourceSansPro-Regular", 80), ("SourceSansPro-Semibold", 110))  # name, and width of its stems
LEVEL: Final = 3  # of compression: more takes longer than it saves
CAP: Final = 660  # height of capitals in both faces
FORM: Final[dict[str, object]] = {
    "Type": "/XObject",
    "Subtype": "/Form",
    "BBox": Array([-9999, -9999, 9999, 9999]),
}
MOST: Final = 100  # characters in one block of a ToUnicode map
_START: Final = "{:.2f} {:.2f} m".format  # quicker than f-strings
_ON: Final = " {:.2f} {:.2f} l".format
_STROKE: Final = "{:.2f} {:.2f} m {:.2f} {:.2f} l".format


@cache
def _font(name: str) -> FontFile:
    return FontFile(FONTS / f"{name}.ttf")


class Face:
    """One of the two bundled faces in a file: the glyphs that are used of it."""

    def __init__(self, number: int) -> None:
        self.name, self.stem = FACES[number]
        self.key = f"F{number}"
        self.font = _font(self.name)
        self.used: dict[int, str] = {}  # character of each glyph
        self._laid: dict[str, tuple[str, int] | None] = {}
        self._glyphs: dict[str, tuple[str, int]] = {}  # of each character: its glyph as a PDF writes it, its width

    def laid(self, text: str) -> tuple[str, int] | None:
        """A text's glyphs as a PDF writes them and its width in thousandths; None where a character has none."""
        if text not in self._laid:
            self._laid[text] = self._lay(text)
        return self._laid[text]

    def _lay(self, text: str) -> tuple[str, int] | None:
        known = self._glyphs
        try:
            glyphs = [known.get(char) or self._glyph(char) for char in text]
        except KeyError:
            return None
        return f"<{''.join([one[0] for one in glyphs])}>", sum([one[1] for one in glyphs])

    def _glyph(self, char: str) -> tuple[str, int]:
        """Raises KeyError where the face has none."""
        glyph = self.font.glyphs[ord(char)]
        self.used[glyph] = char
        found = self._glyphs[char] = (f"{glyph:04x}", self.font.width(glyph))
        return found


class PdfPage:
    """One page under the pen. Everything is black on white."""

    def __init__(self, width: float, height: float, faces: Sequence[Face]) -> None:
        self.width, self.height = width, height
        self._faces = faces
        self._marks = ["0 G 0 g", f"1 0 0 -1 0 {height:.2f} cm"]  # from here on y runs down
        self._pen: object = None
        self._type: object = None

    def lines(self, lines: Iterable[tuple[float, float, float, float]], width: float) -> None:
        """Straight lines with flat ends."""
        self._use_pen(width, ())
        self._marks += [_STROKE(*line) for line in lines]
        self._marks.append("S")

    def outlines(
        self, closed: Iterable[Sequence[Point]], runs: Iterable[Sequence[Point]], width: float, dash: tuple[float, ...]
    ) -> None:
        """Outlines of closed shapes and open runs of lines, their corners mitred. dash: on and off, in turn."""
        self._use_pen(width, dash)
        self._marks += [_path(points) + " h" for points in closed]
        self._marks += [_path(points) for points in runs]
        self._marks.append("S")

    def white(self, shapes: Iterable[Sequence[Point]]) -> None:
        """Shapes filled with white, one after the other."""
        self._marks += ["1 g", *(f"{_path(points)} f" for points in shapes), "0 g"]

    def black(self, shapes: Iterable[Sequence[Point]]) -> None:
        """Shapes filled with black together, by the even-odd rule."""
        self._marks += [*(f"{_path(points)} h" for points in shapes), "f*"]

    def text(self, x: float, y: float, glyphs: str, strong: bool, size: float, turn: tuple[float, float]) -> None:
        """A text from its face's `laid`, from x, y on its baseline. turn: cosine and sine of the way it runs."""
        chosen = (strong, size)
        font = "" if chosen == self._type else f"/{self._faces[strong].key} {size:.2f} Tf "
        self._type = chosen
        cosine, sine = turn
        matrix = f"{cosine:.5f} {-sine:.5f} {-sine:.5f} {-cosine:.5f}" if sine else "1 0 0 -1"
        self._marks.append(f"BT {font}{matrix} {x:.2f} {y:.2f} Tm {glyphs} Tj ET")

    def form(self, x: float, y: float, name: str) -> None:
        """What the file keeps under a name, its origin at x, y."""
        self._marks.append(f"q 1 0 0 -1 {x:.2f} {y:.2f} cm /{name} Do Q")

    def _use_pen(self, width: float, dash: tuple[float, ...]) -> None:
        if (width, dash) != self._pen:
            self._pen = (width, dash)
            self._marks.append(f"{width:.3f} w [{' '.join(f'{length:.2f}' for length in dash)}] 0 d")

    def content(self) -> bytes:
        """What a PDF has of the page, not compressed yet."""
        return "\n".join(self._marks).encode("ascii")


def _path(points: Sequence[Point]) -> str:
    return _START(*points[0]) + "".join([_ON(*place) for place in points[1:]])


class PdfFile:
    """Pages, kept as they will stand in the file."""

    def __init__(self, title: str, creator: str) -> None:
        self._title, self._creator = title, creator
        self.faces = tuple(Face(number) for number in range(len(FACES)))
        self._pages: list[tuple[float, float, bytes]] = []  # width, height and content of each
        self._forms: dict[Hashable, tuple[str, bytes]] = {}

    def page(self, width: float, height: float) -> PdfPage:
        """A page to write on; it is in the file once it is given to `add`. [points]"""
        return PdfPage(width, height, self.faces)

    def add(self, page: PdfPage) -> None:
        """Put a page that is done behind those before it."""
        self._pages.append((page.width, page.height, page.content()))

    def form(self, key: Hashable) -> str | None:
        """The name of what is kept under a key; None where there is nothing yet."""
        kept = self._forms.get(key)
        return None if kept is None else kept[0]

    def keep(self, key: Hashable, form: PdfPage) -> str:
        """Keep what many pages have, written about the origin; returns its name."""
        name = f"X{len(self._forms)}"
        self._forms[key] = (name, form.content())
        return name

    def to_bytes(self) -> bytes:
        """The whole file."""
        pdf = PDF()
        pdf.info["Title"], pdf.info["Creator"] = String(self._title), String(self._creator)
        fonts = Dictionary({face.key: _add_face(pdf, face) for face in self.faces if face.used})
        forms = Dictionary()
        for name, content in self._forms.values():
            forms[name] = _add_stream(pdf, compress(content, LEVEL), FORM | {"Resources": Dictionary({"Font": fonts})})
        resources = Dictionary({"Font": fonts, "XObject": forms})
        pdf.add_object(resources)
        packed = _packed([content for *_, content in self._pages])
        for (width, height, _), content in zip(self._pages, packed, strict=True):
            page = {"Type": "/Page", "Parent": pdf.pages.reference, "MediaBox": Array([0, 0, width, height])}
            page |= {"Resources": resources.reference, "Contents": _add_stream(pdf, content)}
            pdf.add_page(Dictionary(page))
        written = BytesIO()
        pdf.write(written)
        return written.getvalue()


def _packed(contents: list[bytes]) -> list[bytes]:
    """All of them compressed, by as many threads as there are cores: zlib lets the others run meanwhile."""
    share = len(contents) // (cpu_count() or 1) + 1
    shares = [contents[start : start + share] for start in range(0, len(contents), share)]
    with ThreadPoolExecutor(len(shares) or 1) as threads:
        done = threads.map(lambda some: [compress(content, LEVEL) for content in some], shares)
        return [content for some in done for content in some]


def _add(pdf: PDF, fields: dict[str, object]) -> bytes:
    """A numbered dictionary; returns the reference to it."""
    added = Dictionary(fields)
    pdf.add_object(added)
    reference: bytes = added.reference
    return reference


def _add_stream(pdf: PDF, content: bytes, extra: dict[str, object] | None = None) -> bytes:
    """A numbered stream of what is compressed already; returns the reference to it."""
    added = Stream([content], {"Filter": "/FlateDecode", **(extra or {})})
    pdf.add_object(added)
    reference: bytes = added.reference
    return reference


def _add_face(pdf: PDF, face: Face) -> bytes:
    """A composite font of the glyphs used."""
    font, glyphs = face.font, sorted(face.used)
    data = font.only(glyphs)
    name = f"/{_tag(face)}+{face.name}"
    described: dict[str, object] = {"Type": "/FontDescriptor", "FontName": name, "Flags": 32, "ItalicAngle": 0}
    described |= {"FontBBox": Array(font.box), "Ascent": font.ascent, "Descent": font.descent, "CapHeight": CAP}
    described |= {"StemV": face.stem, "FontFile2": _add_stream(pdf, compress(data), {"Length1": len(data)})}
    system = Dictionary({"Registry": String("Adobe"), "Ordering": String("Identity"), "Supplement": 0})
    below: dict[str, object] = {"Type": "/Font", "Subtype": "/CIDFontType2", "BaseFont": name, "CIDSystemInfo": system}
    below |= {"CIDToGIDMap": "/Identity", "FontDescriptor": _add(pdf, described), "DW": 0}
    below["W"] = Array(part for glyph in glyphs for part in (glyph, Array([font.width(glyph)])))
    whole: dict[str, object] = {"Type": "/Font", "Subtype": "/Type0", "BaseFont": name, "Encoding": "/Identity-H"}
    whole |= {"DescendantFonts": Array([_add(pdf, below)]), "ToUnicode": _add_stream(pdf, compress(_to_unicode(face)))}
    return _add(pdf, whole)


def _tag(face: Face) -> str:
    """Six letters that name a choice of glyphs."""
    number, letters = hash(tuple(sorted(face.used))), ""
    for _ in range(6):
        number, letter = divmod(number, 26)
        letters += chr(ord("A") + letter)
    return letters


def _to_unicode(face: Face) -> bytes:
    """Which character each glyph stands for."""
    lines = [f"<{glyph:04x}> <{char.encode('utf-16-be').hex()}>" for glyph, char in sorted(face.used.items())]
    blocks = [lines[start : start + MOST] for start in range(0, len(lines), MOST)]
    told = "\n".join(f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar" for block in blocks)
    return (
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap"
        " /CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def /CMapName /Adobe-Identity-UCS def"
        f" /CMapType 2 def 1 begincodespacerange <0000> <ffff> endcodespacerange\n{told}\n"
        "endcmap CMapName currentdict /CMap defineresource pop end end"
    ).encode("ascii")
