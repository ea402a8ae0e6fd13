"""A photograph of 24 megapixels on its way to the folded shelf, in a window of its own process."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from tests.bench.measure import Measure, at_most
from tests.bench.places import HOME

RUNS = 3
PIXELS = (6000, 4000)
BEAT_MS = 2


def measures() -> Iterator[Measure]:
    """From the file to the preview, small and fine; how long the window was held; memory above the idle window's."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "sheet.jpg"
        take_photograph(path)
        found = [_child(path) for _ in range(RUNS)]
    yield at_most("24 megapixels, in the preview", median(one["shown"] for one in found), "s", 1.5)
    yield at_most("24 megapixels, as fine as it gets", median(one["fine"] for one in found), "s")
    yield at_most("24 megapixels, window held at most", median(one["held"] for one in found), "ms", 50.0)
    yield at_most("24 megapixels, memory above idle", max(one["memory"] for one in found), "MB", 300.0)


def take_photograph(path: Path) -> None:
    """A sheet on a dark floor, as a camera writes it."""
    from PIL import Image

    from core.face import veneer

    wood = Image.fromarray(veneer(2440.0, 1220.0, 3, 2700, 1350)).resize((5400, 2700))
    picture = Image.new("RGB", PIXELS, (60, 66, 74))
    picture.paste(wood, (300, 650))
    picture.save(path, quality=92)


def _child(path: Path) -> dict[str, float]:
    command = [sys.executable, "-m", "tests.bench.photographs", str(path)]
    done = subprocess.run(command, cwd=HOME, env=dict(os.environ), check=True, capture_output=True, text=True)
    result: dict[str, float] = json.loads(done.stdout.splitlines()[-1])
    return result


def watched(path: Path) -> dict[str, float]:
    """What the child measures: the photograph is opened on its board while the fold board is seen."""
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from app.photo.board import PhotoBoard
    from app.window.window import Window
    from core.document.model import Project, Sheet, Shelf
    from tests.bench.child import peak_mb

    app = QApplication([])
    window = Window(Project((Sheet("A", 2440.0, 1220.0),), (Shelf("ledge", 1320.0, 210.0, 84.0),), "Oak"))
    window.show()
    window.actions_["photo"].trigger()
    board = window.guests.get("photo")
    assert isinstance(board, PhotoBoard)

    def run_until(is_so: Callable[[], bool]) -> float:
        start = perf_counter()
        while not is_so() and perf_counter() - start < 60.0:
            app.processEvents()
        return perf_counter() - start

    def on_card(size: str, photographed: bool) -> bool:
        stage = window.fold.picture.stage
        held = list(stage.live._on_card.values()) if stage is not None else []
        sizes = ("small", "middle", "whole") if size == "small" else ("middle", "whole")
        is_fed = stage is not None and not stage.live._feeder.isActive()
        return is_fed and any(bool(key.photos) is photographed and which in sizes for key, which in held)

    run_until(lambda: on_card("fine", False))
    settled = perf_counter()
    run_until(lambda: perf_counter() - settled > 2.0)
    idle = _memory()
    beats = [perf_counter()]
    beat = QTimer(interval=BEAT_MS)
    beat.timeout.connect(lambda: beats.append(perf_counter()))
    beat.start()
    start = perf_counter()
    board.take(str(path), path.name)
    run_until(lambda: on_card("small", True))
    shown = perf_counter() - start
    run_until(lambda: on_card("fine", True))
    fine = perf_counter() - start
    beat.stop()
    held = max(after - before for before, after in pairwise(beats))
    return {"shown": shown, "fine": fine, "held": 1000.0 * held, "memory": peak_mb() - idle}


def _memory() -> float:
    """What this process has now. [MB]"""
    for line in Path("/proc/self/status").read_text().splitlines():
        if line.startswith("VmRSS"):
            return int(line.split()[1]) / 1000.0
    return 0.0


if __name__ == "__main__":
    print(json.dumps(watched(Path(sys.argv[1]))))
    sys.stdout.flush()
    os._exit(0)
