"""The PDF writer by itself: what is written is read back by readers that know nothing of it."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pdfplumber
import pypdfium2 as pdfium
import pytest
from PySide6.QtCore import QByteArray
from PySide6.QtGui import QRawFont

from app.paint.ink import Ink
from app.paper.canvas import Canvas
from app.paper.pdfink import PdfInk
from core.drawing.measure import text_width
from core.export.fontfile import FontFile
from core.export.pdf_file import FONTS, PdfFile

pytestmark = pytest.mark.usefixtures("qapp")
FACES = sorted(FONTS.glob("*.ttf"))


def written(*texts: str, pages: int = 1) -> tuple[PdfFile, bytes]:
    file = PdfFile("Any name", "Grainfold")
    for _ in range(pages):
        page = file.page(400.0, 300.0)
        canvas = Canvas(PdfInk(page, file))
        for number, text in enumerate(texts, 1):
            canvas.text(20.0, 40.0 * number, text, 12.0, strong=number % 2 == 0)
        file.add(page)
    return file, file.to_bytes()


def test_what_is_written_is_read_where_it_was_put() -> None:
    text = 'Toe 10-3/16" + from its far edge, größer als 45.5°'
    page = pdfplumber.open(BytesIO(written(text)[1])).pages[0]
    assert (page.width, page.height) == (400, 300)
    assert "".join(char["text"] for char in page.chars) == text
    first, last = page.chars[0], page.chars[-1]
    assert first["x0"] == pytest.approx(20.0, abs=0.01)
    assert last["x1"] - first["x0"] == pytest.approx(text_width(text, 12.0), abs=0.05)
    assert all(char["size"] == pytest.approx(12.0, abs=0.01) for char in page.chars)


@pytest.mark.parametrize("face", FACES, ids=lambda path: path.stem)
def test_the_font_in_the_file_has_the_letters_that_are_used_and_no_others(face: Path) -> None:
    """Against Qt's own reader of fonts."""
    font, whole = FontFile(face), QRawFont(str(face), 1000.0)
    glyphs = [font.glyphs[ord(char)] for char in "AgÄ½"]
    some = QRawFont(QByteArray(font.only(glyphs)), 1000.0)
    assert some.isValid()
    for glyph in glyphs:
        assert font.width(glyph) == round(whole.advancesForGlyphIndexes([glyph])[0].x())
        assert some.pathForGlyph(glyph).elementCount() == whole.pathForGlyph(glyph).elementCount() > 0
    other = font.glyphs[ord("M")]
    assert whole.pathForGlyph(other).elementCount() > some.pathForGlyph(other).elementCount() == 0
    assert len(font.only(glyphs)) < 0.3 * face.stat().st_size


def test_letters_the_faces_lack_are_drawn_as_shapes() -> None:
    with pdfium.PdfDocument(written("עולם")[1]) as file:
        picture = file[0].render(scale=2).to_numpy()
    assert picture.min() == 0  # ink


def test_what_many_pages_have_is_in_the_file_once() -> None:
    file = PdfFile("", "")

    def mark(ink: Ink) -> None:
        ink.text((0.0, 0.0), "the same", 10.0, False, "left", 0.0)

    for number in range(20):
        page = file.page(400.0, 300.0)
        PdfInk(page, file).again("key", (30.0 + number, 50.0), mark)
        file.add(page)
    data = file.to_bytes()
    assert data.count(b"/Subtype /Form") == 1
    with pdfplumber.open(BytesIO(data)) as read:
        for number, page in enumerate(read.pages):
            assert "".join(char["text"] for char in page.chars) == "the same"
            assert page.chars[0]["x0"] == pytest.approx(30.0 + number, abs=0.01)


def test_turned_letters_run_upwards() -> None:
    file = PdfFile("", "")
    page = file.page(400.0, 300.0)
    PdfInk(page, file).text((100.0, 200.0), "up", 10.0, False, "left", 90.0)
    file.add(page)
    chars = pdfplumber.open(BytesIO(file.to_bytes())).pages[0].chars
    assert [char["upright"] for char in chars] == [False, False]
    assert chars[0]["bottom"] == pytest.approx(200.0, abs=0.01)
    assert chars[1]["bottom"] < chars[0]["bottom"]
