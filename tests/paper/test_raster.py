"""The page as a printer rasters it: the check bar in dots, and letters that stay letters in black and white."""

from __future__ import annotations

from itertools import islice

import numpy as np
import pypdfium2 as pdfium
import pytest

from app.paper.frame import MARGIN, Paper
from app.paper.pdf import pdf_bytes
from tests.paper.letters import lettered_pages
from tests.paper.recorder import demo

pytestmark = pytest.mark.usefixtures("qapp")
MM = 72.0 / 25.4
DOTS = 600.0 / 72.0  # to a point: as common printers print
BLACK = 128  # darker is ink, lighter is paper: what a printer without greys makes of it


def rastered(page: pdfium.PdfPage, scale: float, crop: tuple[float, float, float, float] = (0, 0, 0, 0)) -> np.ndarray:
    """A page in dots: True is ink. scale: dots to a point; crop: left, bottom, right, top taken off. [points]"""
    bitmap = page.render(scale=scale, crop=crop, grayscale=True)
    return bitmap.to_numpy().reshape(bitmap.height, bitmap.width) < BLACK


def runs(row: np.ndarray) -> list[tuple[int, int]]:
    """Where ink starts and ends along a row of dots."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], row.astype(np.int8), [0]))))
    return [(int(a), int(b)) for a, b in edges.reshape(-1, 2)]


@pytest.mark.parametrize("paper", ["letter", "a4", "tabloid", "a3"])
def test_the_check_bar_is_true_to_a_tenth(paper: Paper) -> None:
    """100 mm and 4 in (101.6 mm), measured on dots of 0.04 mm: the two lines, and from the first tick to the last."""
    file = pdfium.PdfDocument(pdf_bytes(demo("hearth"), paper, names=("cover", "cut list")))
    for page in file:
        wide, high = page.get_size()
        corner = (MARGIN + 4.0, MARGIN + 4.0, wide - MARGIN - 310.0, high - MARGIN - 50.0)
        ink = rastered(page, DOTS, corner)
        lines = {round((b - a) / DOTS / MM, 2) for row in ink for a, b in runs(row) if b - a > 90.0 * MM * DOTS}
        assert any(abs(length - 100.0) <= 0.1 for length in lines), lines
        assert any(abs(length - 101.6) <= 0.1 for length in lines), lines
        rows = [[(a + b) / 2.0 / DOTS / MM for a, b in runs(row)] for row in ink]
        ticks = {
            (len(row), round(row[-1] - row[0], 2)) for row in rows if len(row) in (11, 17) and row[-1] - row[0] > 90.0
        }
        assert {count for count, _ in ticks} == {11, 17}  # every 10 mm, every 1/4 in
        assert all(abs(length - {11: 100.0, 17: 101.6}[count]) <= 0.1 for count, length in ticks), ticks


@pytest.mark.parametrize("kind", ["sheets", "saw", "cut cards", "frame", "wall"])
def test_letters_stay_letters_without_greys(kind: str) -> None:
    """No letter drowns in a hatch or fades: ink and paper both are seen in every letter's own box. At 300 dots to the
    inch, common practice of office printers."""
    data = pdf_bytes(demo("hearth"), "letter", names=(kind,))
    file, scale = pdfium.PdfDocument(data), 300.0 / 72.0
    for page, letters in zip(file, islice(lettered_pages(data), 4), strict=False):
        ink = rastered(page, scale)
        for char in (c for c in letters.chars if c["text"].isalnum()):
            box = [int(char[side] * scale) for side in ("top", "bottom", "x0", "x1")]
            share = ink[box[0] : box[1] + 1, box[2] : box[3] + 1].mean()
            assert 0.03 < share < 0.6, (char["text"], share)


def test_everything_is_black_or_white() -> None:
    """Rendered in colour, no page has a colour: red, green and blue are the same everywhere."""
    file = pdfium.PdfDocument(pdf_bytes(demo("reading-corner"), "a4"))
    for page in file:
        bitmap = page.render(scale=1.0, rev_byteorder=True)
        pixels = bitmap.to_numpy()[..., :3].astype(int)
        assert int(np.ptp(pixels, axis=2).max()) <= 2
