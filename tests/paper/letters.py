"""The letters of a PDF with their sizes and places, by PDFium: an outside reader, and a quick one."""

from __future__ import annotations

from collections.abc import Iterator
from ctypes import byref, c_double
from math import sqrt
from typing import Any, NamedTuple

import pypdfium2
from pypdfium2 import raw

DOWN = 0.26  # of its size: how far a letter's box goes below the line it stands on


class LetteredPage(NamedTuple):
    """A page's letters, as pdfplumber names what is told of them; sizes in points, y from the upper edge down."""

    chars: list[dict[str, Any]]
    width: float
    height: float


def lettered_pages(pdf: bytes) -> Iterator[LetteredPage]:
    """The pages of a PDF, in order."""
    with pypdfium2.PdfDocument(pdf) as document:
        for page in document:
            text = page.get_textpage()
            width, height = page.get_size()
            yield LetteredPage(list(_letters(text, height)), width, height)
            text.close()
            page.close()


def _letters(text: pypdfium2.PdfTextPage, height: float) -> Iterator[dict[str, Any]]:
    """All letters but the blanks and line ends a reader adds."""
    box, matrix = raw.FS_RECTF(), raw.FS_MATRIX()
    x, y = c_double(), c_double()
    for n in range(text.count_chars()):
        if raw.FPDFText_IsGenerated(text, n) == 1:
            continue
        raw.FPDFText_GetLooseCharBox(text, n, byref(box))
        raw.FPDFText_GetCharOrigin(text, n, byref(x), byref(y))
        raw.FPDFText_GetMatrix(text, n, byref(matrix))
        size = raw.FPDFText_GetFontSize(text, n) * sqrt(abs(matrix.a * matrix.d - matrix.b * matrix.c))
        is_level = abs(matrix.b) < 1e-6 and matrix.a > 0.0
        foot = height - y.value + DOWN * size if is_level else height - box.bottom
        yield {
            "text": chr(raw.FPDFText_GetUnicode(text, n)),
            "x0": box.left,
            "x1": box.right,
            "top": foot - size if is_level else height - box.top,
            "bottom": foot,
            "size": round(size, 5),  # PDFium reckons in single precision
            "upright": is_level,
        }
