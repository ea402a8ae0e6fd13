"""The plan set as PDF: black on white, fonts embedded."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Final

from PySide6.QtCore import QBuffer, QIODevice, QMarginsF, QSizeF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter, QPdfWriter

from app.paper.canvas import RESOLUTION, Canvas, start_gui
from app.paper.frame import PAPERS, Frame, Paper
from app.paper.page import Page
from app.paper.plan_set import pages_of
from core.document.revisions import revision_words
from core.drawing.measure import clean
from core.plan.model import Plan

UNIT_WORDS: Final = {"in": "inches", "mm": "millimetres"}


def pdf_bytes(
    plan: Plan, paper: Paper | None = None, day: date | None = None, names: Iterable[str] | None = None
) -> bytes:
    """The plan set.

    paper: by default letter for inches, A4 for millimetres. day: printed in the title block, by default today.
    names: of the pages wanted (`plan_set.page_names`), by default all.
    """
    start_gui()
    frame = frame_of(plan, paper, day)
    pages = pages_of(plan, frame, names)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = _writer(buffer, plan, frame)
    painter = QPainter(writer)
    _draw(Canvas(painter), writer, pages, frame)
    painter.end()
    return bytes(buffer.data().data())


def frame_of(plan: Plan, paper: Paper | None = None, day: date | None = None) -> Frame:
    """The frame of a plan's pages; arguments as for `pdf_bytes`."""
    units = plan.project.units
    width, height = PAPERS[paper or ("letter" if units == "in" else "a4")]
    printed = day or date.today()
    day_words, revision = f"{printed.day} {printed:%b %Y}", revision_words(plan.project)
    return Frame(width, height, plan.project.name, day_words, UNIT_WORDS[units], revision)


def _writer(buffer: QBuffer, plan: Plan, frame: Frame) -> QPdfWriter:
    writer = QPdfWriter(buffer)
    writer.setResolution(RESOLUTION)
    writer.setTitle(clean(plan.project.name))
    writer.setCreator("Grainfold")
    writer.setPageSize(QPageSize(QSizeF(frame.height, frame.width), QPageSize.Unit.Point))
    writer.setPageOrientation(QPageLayout.Orientation.Landscape)
    writer.setPageMargins(QMarginsF(0.0, 0.0, 0.0, 0.0))
    return writer


def _draw(canvas: Canvas, writer: QPdfWriter, pages: list[Page], frame: Frame) -> None:
    for number, page in enumerate(pages, 1):
        if number > 1:
            writer.newPage()
        frame.draw(canvas, page.title, page.scale_text(frame), number, len(pages))
        page.draw(canvas, frame)
