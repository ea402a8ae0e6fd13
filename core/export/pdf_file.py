"""A PDF file of lines, filled shapes and letters, page by page: fonts embedded, every text with its characters.

Places are points from the lower left corner of the page, y up. Source: ISO 32000-1 (PDF 1.7): 7.5 file structure,
8.4 and 8.5 graphics, 9.7 composite fonts, 9.10.3 ToUnicode.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from functools import cache
from pathlib import Path
from typing import Final
from zlib import compress

from core.drawing.model import Point
from core.export.truetype import TrueType, load_truetype

FONTS: Final = Path(__file__).parents[2] / "resources" / "fonts"
FACES: Final = (("SourceSansPro-Regular", 80), ("SourceSansPro-Semibold", 110))  # name, and width of its stems
LEVEL: Final = 3  # of compression: more takes longer than it saves
CAP: Final = 660  # height of capitals in both faces
FORM: Final = "/Type /XObject /Subtype /Form /BBox [-9999 -9999 9999 9999]"
MOST: Final = 100  # characters in one block of a ToUnicode map


@cache
def _font(name: str) -> TrueType:
    return load_truetype(FONTS / f"{name}.ttf")


class Face:
    """One of the two bundled faces in a file: the glyphs that are used of it."""

    def __init__(self, number: int) -> None:
        self.name, self.stem = FACES[number]
        self.key = f"/F{number}"
        self.font = _font(self.name)
        self.used: dict[int, str] = {}  # character of each glyph
        self._glyphs: dict[str, tuple[str, int]] = {}  # of each character: its glyph as a PDF writes it, its width

    def laid(self, text: str) -> tuple[str, int] | None:
        """A text's glyphs as a PDF writes them and its width in thousandths; None where a character has none."""
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
        self._marks = ["0 G 0 g"]
        self._pen: object = None
        self._type: object = None

    def lines(self, lines: Iterable[tuple[float, float, float, float]], width: float) -> None:
        """Straight lines with flat ends."""
        self._use_pen(width, ())
        self._marks += [f"{x0:.2f} {y0:.2f} m {x1:.2f} {y1:.2f} l" for x0, y0, x1, y1 in lines]
        self._marks.append("S")

    def outlines(
        self, closed: Iterable[Sequence[Point]], runs: Iterable[Sequence[Point]], width: float, dash: tuple[float, ...]
    ) -> None:
        """Outlines of closed shapes and open runs of lines, their corners mitred. dash: on and off, in turn."""
        self._use_pen(width, dash)
        self._marks += [f"{_path(points)} h" for points in closed]
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
        font = "" if chosen == self._type else f"{self._faces[strong].key} {size:.2f} Tf "
        self._type = chosen
        cosine, sine = turn
        matrix = f"{cosine:.5f} {sine:.5f} {-sine:.5f} {cosine:.5f}" if sine else "1 0 0 1"
        self._marks.append(f"BT {font}{matrix} {x:.2f} {y:.2f} Tm {glyphs} Tj ET")

    def form(self, x: float, y: float, name: str) -> None:
        """What the file keeps under a name, its origin at x, y."""
        self._marks.append(f"q 1 0 0 1 {x:.2f} {y:.2f} cm {name} Do Q")

    def _use_pen(self, width: float, dash: tuple[float, ...]) -> None:
        if (width, dash) != self._pen:
            self._pen = (width, dash)
            self._marks.append(f"{width:.3f} w [{' '.join(f'{length:.2f}' for length in dash)}] 0 d")

    def content(self) -> bytes:
        """What a PDF has of the page."""
        return compress("\n".join(self._marks).encode("ascii"), LEVEL)


def _path(points: Sequence[Point]) -> str:
    first, *rest = [f"{x:.2f} {y:.2f}" for x, y in points]
    return f"{first} m" + "".join([f" {place} l" for place in rest])


class PdfFile:
    """Pages, kept as they will stand in the file."""

    def __init__(self, title: str, creator: str) -> None:
        self._title, self._creator = title, creator
        self.faces = tuple(Face(number) for number in range(len(FACES)))
        self._pages: list[tuple[float, float, bytes]] = []
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
        name = f"/X{len(self._forms)}"
        self._forms[key] = (name, form.content())
        return name

    def to_bytes(self) -> bytes:
        """The whole file."""
        body = _Body()
        info = body.add(f"<< /Title {_string(self._title)} /Creator {_string(self._creator)} >>")
        faces = " ".join(f"{face.key} {_add_face(body, face)} 0 R" for face in self.faces if face.used)
        fonts = body.add(f"<< {faces} >>")
        forms = " ".join(
            f"{name} {body.add_stream(f'{FORM} /Resources << /Font {fonts} 0 R >> /Filter /FlateDecode', content)} 0 R"
            for name, content in self._forms.values()
        )
        resources = body.add(f"<< /Font {fonts} 0 R /XObject << {forms} >> >>")
        tree = body.reserve()
        kids = []
        for width, height, content in self._pages:
            stream = body.add_stream("/Filter /FlateDecode", content)
            box = f"[0 0 {width:.2f} {height:.2f}]"
            leaf = f"/Type /Page /Parent {tree} 0 R /MediaBox {box} /Resources {resources} 0 R /Contents {stream} 0 R"
            kids.append(body.add(f"<< {leaf} >>"))
        body.fill(tree, f"<< /Type /Pages /Count {len(kids)} /Kids [{' '.join(f'{kid} 0 R' for kid in kids)}] >>")
        root = body.add(f"<< /Type /Catalog /Pages {tree} 0 R >>")
        return body.to_bytes(root, info)


class _Body:
    """Numbered objects; their numbers count from 1."""

    def __init__(self) -> None:
        self._objects: list[bytes] = []

    def reserve(self) -> int:
        """A number for what is known later."""
        self._objects.append(b"")
        return len(self._objects)

    def fill(self, number: int, words: str) -> None:
        self._objects[number - 1] = words.encode("ascii")

    def add(self, words: str) -> int:
        self._objects.append(words.encode("ascii"))
        return len(self._objects)

    def add_stream(self, words: str, data: bytes) -> int:
        head = f"<< {words} /Length {len(data)} >>\nstream\n".encode("ascii")
        self._objects.append(head + data + b"\nendstream")
        return len(self._objects)

    def to_bytes(self, root: int, info: int) -> bytes:
        """The objects with the table that says where each starts."""
        parts, at, places = [b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"], 15, []
        for number, data in enumerate(self._objects, 1):
            whole = b"%d 0 obj\n%b\nendobj\n" % (number, data)
            parts.append(whole)
            places.append(at)
            at += len(whole)
        count = len(places) + 1
        parts.append(b"xref\n0 %d\n0000000000 65535 f \n" % count)
        parts += [b"%010d 00000 n \n" % place for place in places]
        parts.append(b"trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R >>\n" % (count, root, info))
        parts.append(b"startxref\n%d\n%%%%EOF\n" % at)
        return b"".join(parts)


def _string(text: str) -> str:
    """A text of the document's own data, in UTF-16."""
    return f"<feff{text.encode('utf-16-be').hex()}>"


def _add_face(body: _Body, face: Face) -> int:
    """A composite font of the glyphs used."""
    font, glyphs = face.font, sorted(face.used)
    data = font.only(glyphs)
    name = f"/{_tag(face)}+{face.name}"
    file = body.add_stream(f"/Length1 {len(data)} /Filter /FlateDecode", compress(data))
    box = " ".join(map(str, font.box))
    described = body.add(
        f"<< /Type /FontDescriptor /FontName {name} /Flags 32 /FontBBox [{box}] /ItalicAngle 0 /Ascent {font.ascent}"
        f" /Descent {font.descent} /CapHeight {CAP} /StemV {face.stem} /FontFile2 {file} 0 R >>"
    )
    widths = " ".join(f"{glyph} [{font.width(glyph)}]" for glyph in glyphs)
    below = body.add(
        f"<< /Type /Font /Subtype /CIDFontType2 /BaseFont {name} /CIDToGIDMap /Identity /FontDescriptor {described} 0 R"
        f" /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /DW 0 /W [{widths}] >>"
    )
    told = body.add_stream("/Filter /FlateDecode", compress(_to_unicode(face)))
    return body.add(
        f"<< /Type /Font /Subtype /Type0 /BaseFont {name} /Encoding /Identity-H /DescendantFonts [{below} 0 R]"
        f" /ToUnicode {told} 0 R >>"
    )


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
