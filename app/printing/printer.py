"""Printers: which there are, and pages on one of them. Qt's printing is loaded when it is first asked for."""

from __future__ import annotations

from collections.abc import Generator
from pathlib import Path

from app.paper.canvas import RESOLUTION
from app.paper.frame import Frame
from app.paper.page import Page
from core.language import tr


def printer_names() -> tuple[str, ...]:
    """The printers that are set up, the usual one first; none where the system has none."""
    from PySide6.QtPrintSupport import QPrinterInfo

    names = QPrinterInfo.availablePrinterNames()
    usual = QPrinterInfo.defaultPrinterName()
    return tuple(sorted(names, key=lambda name: name != usual))


def print_pages(
    printer: str, name: str, pages: list[Page], frame: Frame, file: Path | None = None
) -> Generator[int, None, None]:
    """Print pages; gives the number of each one when it is drawn. Called off, nothing comes out of the printer.

    printer: one of `printer_names`; name: of the job. file: print into a PDF instead.
    Raises OSError where the printer takes no job.
    """
    from PySide6.QtPrintSupport import QPrinter, QPrinterInfo

    from app.paper.pdf import draw_pages

    device = QPrinter(QPrinter.PrinterMode.HighResolution)
    if file is not None:
        device.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        device.setOutputFileName(str(file))
    else:
        device = QPrinter(QPrinterInfo.printerInfo(printer), QPrinter.PrinterMode.HighResolution)
    device.setResolution(RESOLUTION)
    device.setFullPage(True)
    device.setDocName(name)
    done = 0
    try:
        for done in draw_pages(device, pages, frame):
            yield done
    finally:
        if done < len(pages):
            device.abort()
    if device.printerState() == QPrinter.PrinterState.Error:
        raise OSError(tr("the printer {printer} takes no job", printer=printer))
