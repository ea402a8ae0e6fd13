"""Work that is measured in a process of its own. `python -m tests.bench.child WHAT FILE` prints one JSON object."""

from __future__ import annotations

import json
import os
import sys
import time
from pathlib import Path

STARTED = "GRAINFOLD_BENCH_STARTED"


def peak_mb() -> float:
    """Most memory this process has had. [MB]"""
    import resource

    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / (1e6 if sys.platform == "darwin" else 1e3)


def window(path: Path) -> dict[str, float]:
    """Seconds from the start of the process until the window has been painted whole, and the memory it then has."""
    from PySide6.QtCore import QEvent, QObject, QTimer
    from PySide6.QtWidgets import QApplication, QWidget

    from app.window.start import open_window

    app = QApplication([])
    found: dict[str, float] = {}

    class Watch(QObject):
        def eventFilter(self, thing: QObject, event: QEvent) -> bool:
            if event.type() == QEvent.Type.Paint and isinstance(thing, QWidget) and not found:
                found["seconds"] = 0.0
                QTimer.singleShot(0, painted)  # runs when this whole round of painting is over
            return False

    def painted() -> None:
        found["seconds"] = time.time() - float(os.environ[STARTED])
        found["peak"] = peak_mb()
        app.exit(0)

    watch = Watch()
    app.installEventFilter(watch)
    open_window(path)
    return found


def paper(path: Path) -> dict[str, float]:
    """Seconds for the whole cut sheet as PDF once the program has started, and its pages' size."""
    from app.paper.pdf import pdf_bytes
    from core.document.load import load_project
    from core.plan.make import make_plan

    plan = make_plan(load_project(path))
    start = time.perf_counter()
    data = pdf_bytes(plan, "letter")
    return {"seconds": time.perf_counter() - start, "bytes": float(len(data)), "peak": peak_mb()}


def hundred(path: Path) -> dict[str, float]:
    """Seconds for the whole set of 100 shelves as PDF once they are planned, for its first page, and the memory."""
    from app.paper.canvas import start_gui
    from app.paper.pdf import frame_of, pdf_bytes
    from app.paper.plan_set import kinds_of
    from core.plan.make import make_plan
    from tests.bench.planning import many_shelves

    start_gui()
    plan = make_plan(many_shelves(100))
    start = time.perf_counter()
    first = next(iter(kinds_of()[0].make(plan, frame_of(plan, "letter"))))
    shown = time.perf_counter() - start
    data = pdf_bytes(plan, "letter")
    assert first.title
    assert data
    return {"seconds": time.perf_counter() - start, "first": shown, "bytes": float(len(data)), "peak": peak_mb()}


if __name__ == "__main__":
    work = {"window": window, "paper": paper, "hundred": hundred}[sys.argv[1]]
    print(json.dumps(work(Path(sys.argv[2]))))
