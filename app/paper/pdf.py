"""The plan set as PDF: black on white, fonts embedded."""

from __future__ import annotations

from collections.abc import Generator, Iterable, Sequence
from datetime import date
from typing import Final

import msgspec
from PySide6.QtCore import QMarginsF, QSizeF
from PySide6.QtGui import QPagedPaintDevice, QPageLayout, QPageSize, QPainter

from app.collecting import no_collecting, settle_what_lasts
from app.paint.ink import QtInk
from app.paper.canvas import PIXELS, Canvas
from app.paper.frame import PAPERS, Frame, Paper, usual_paper
from app.paper.page import Page, own_size, own_unit
from app.paper.pdfink import PdfInk
from app.paper.plan_set import pages_of
from core.document.revisions import revision_words
from core.drawing.measure import clean
from core.export.pdf_file import PdfFile
from core.plan.model import Plan

UNIT_WORDS: Final = {"in": "inches", "mm": "millimetres"}


def pdf_bytes(
    plan: Plan, paper: Paper | None = None, day: date | None = None, names: Iterable[str] | None = None
) -> bytes:
    """The plan set.

    paper: by default letter for inches, A4 for millimetres. day: printed in the title block, by default today.
    names: of the pages wanted (`plan_set.page_names`), by default all.
    """
    frame = frame_of(plan, paper, day)
    file = pdf_file(plan)
    with no_collecting():  # among so many small things that last, looking for garbage takes a tenth of the time
        for _ in write_pages(file, pages_of(plan, frame, names), frame):
            pass
        data = file.to_bytes()
        settle_what_lasts()
    return data


def frame_of(plan: Plan, paper: Paper | None = None, day: date | None = None) -> Frame:
    """The frame of a plan's pages; arguments as for `pdf_bytes`."""
    units = plan.project.units
    width, height = PAPERS[paper or usual_paper(units)]
    printed = day or date.today()
    day_words, revision = f"{printed.day} {printed:%b %Y}", revision_words(plan.project)
    return Frame(width, height, plan.project.name, day_words, UNIT_WORDS[units], revision)


def pdf_file(plan: Plan) -> PdfFile:
    """A file for the pages of a plan."""
    return PdfFile(clean(plan.project.name), "Grainfold")


def write_pages(file: PdfFile, pages: Sequence[Page], frame: Frame) -> Generator[int, None, None]:
    """Write pages into a file; gives the number of each one when it is written."""
    for number, page in enumerate(pages, 1):
        sheet = file.page(*page_size(page, frame))
        draw_page(Canvas(PdfInk(sheet, file)), page, frame, number, len(pages))
        file.add(sheet)
        yield number


def draw_pages(device: QPagedPaintDevice, pages: Sequence[Page], frame: Frame) -> Generator[int, None, None]:
    """Draw pages on a printer of `RESOLUTION`; gives the number of each one when it is drawn."""
    if pages:
        device.setPageLayout(_layout(pages[0], frame))
    painter = QPainter(device)
    try:
        canvas = Canvas(QtInk(painter, PIXELS))
        for number, page in enumerate(pages, 1):
            if number > 1:
                device.setPageLayout(_layout(page, frame))
                device.newPage()
            draw_page(canvas, page, frame, number, len(pages))
            yield number
    finally:
        painter.end()


def draw_page(canvas: Canvas, page: Page, frame: Frame, number: int, count: int) -> None:
    """Draw one page of so many with its edge, title block and check bar; upright ones have none."""
    if own_size(page) is None:
        unit = own_unit(page)
        shown = msgspec.structs.replace(frame, unit=unit) if unit else frame
        shown.draw(canvas, page.title, page.scale_text(frame), number, count)
    page.draw(canvas, frame)


def page_size(page: Page, frame: Frame) -> tuple[float, float]:
    """Width and height of a page as it is looked at. [points]"""
    return own_size(page) or (frame.width, frame.height)


def _layout(page: Page, frame: Frame) -> QPageLayout:
    """Landscape like the frame, or the page's own upright paper."""
    upright = own_size(page)
    width, height = upright or (frame.height, frame.width)
    way = QPageLayout.Orientation.Portrait if upright else QPageLayout.Orientation.Landscape
    return QPageLayout(QPageSize(QSizeF(width, height), QPageSize.Unit.Point), way, QMarginsF(0.0, 0.0, 0.0, 0.0))
