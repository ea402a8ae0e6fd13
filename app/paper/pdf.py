"""The cut sheet as PDF: sheets, cut list, cut order, offcuts, saw set-up, findings. Black on white, fonts embedded."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final, Literal, Protocol

from PySide6.QtCore import QBuffer, QIODevice, QMarginsF, QSizeF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter, QPdfWriter

from app.paper.canvas import RESOLUTION, Canvas, start_gui
from app.paper.cautions import CAUTIONS, setup_numbers
from app.paper.frame import PAPERS, Frame
from app.paper.listing import Listing, listings
from app.paper.sheets import SeamPage, SheetPage
from core.drawing.catalog import drawings, seam_kinds
from core.drawing.cutlist import cut_list_table
from core.drawing.cutorder import cut_order_table
from core.drawing.loads import load_table
from core.drawing.measure import clean
from core.drawing.names import shelf_thickness
from core.drawing.offcuts import offcut_table
from core.drawing.section import draw_seam
from core.drawing.tables import Column, Table
from core.plan.model import Plan

Paper = Literal["letter", "a4"]
LONGEST: Final = 1500  # characters of a finding that are printed
UNIT_WORDS: Final = {"in": "inches", "mm": "millimetres"}


class Page(Protocol):
    """Anything that can be put on a page."""

    @property
    def title(self) -> str: ...

    def draw(self, canvas: Canvas, frame: Frame) -> None: ...


def pdf_bytes(plan: Plan, paper: Paper | None = None, day: date | None = None) -> bytes:
    """The whole cut sheet.

    paper: by default letter for inches, A4 for millimetres. day: printed in the title block, by default today.
    """
    start_gui()
    units = plan.project.units
    width, height = PAPERS[paper or ("letter" if units == "in" else "a4")]
    printed = day or date.today()
    frame = Frame(width, height, plan.project.name, f"{printed.day} {printed:%b %Y}", UNIT_WORDS[units])
    pages: list[Page] = list(_pages(plan, frame))
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(RESOLUTION)
    writer.setTitle(clean(plan.project.name))
    writer.setCreator("Grainfold")
    writer.setPageSize(QPageSize(QSizeF(height, width), QPageSize.Unit.Point))
    writer.setPageOrientation(QPageLayout.Orientation.Landscape)
    writer.setPageMargins(QMarginsF(0.0, 0.0, 0.0, 0.0))
    painter = QPainter(writer)
    canvas = Canvas(painter)
    for number, page in enumerate(pages, 1):
        if number > 1:
            writer.newPage()
        scale = page.scale_text(frame) if isinstance(page, (SheetPage, SeamPage)) else "Not to scale"
        frame.draw(canvas, page.title, scale, number, len(pages))
        page.draw(canvas, frame)
    painter.end()
    return bytes(buffer.data().data())


def _pages(plan: Plan, frame: Frame) -> Iterator[Page]:
    trouble = tuple(clean(finding.message, LONGEST) for finding in plan.errors)
    for number, drawing in enumerate(drawings(plan)):
        yield SheetPage(drawing, plan.project.units, trouble if number == 0 else ())
    yield from listings(cut_list_table(plan), frame)
    yield from listings(cut_order_table(plan), frame)
    left = offcut_table(plan)
    if left.rows:
        yield from listings(left, frame)
    loads = load_table(plan)
    if loads.rows:
        yield from listings(loads, frame)
    for number, seam in enumerate(seam_kinds(plan)):
        shelf = next(s.shelf for s in plan.seams if s.id == seam)
        numbers = setup_numbers(plan, shelf_thickness(plan, shelf))
        yield SeamPage(draw_seam(plan, seam), numbers, CAUTIONS if number == 0 else ())
    if plan.findings:
        yield from _findings(plan, frame)


def _findings(plan: Plan, frame: Frame) -> list[Listing]:
    columns = (Column(""), Column("About"), Column("What"))
    rows = tuple((f.severity, clean(f.about) or "the whole job", clean(f.message, LONGEST)) for f in plan.findings)
    table = Table("findings", "Findings", columns, rows, tuple(f.about for f in plan.findings))
    return listings(table, frame)
