"""`python -m tests.bench [--json] [GROUP ...]`: measure, and say which bounds hold. Exit 1 where one does not."""

from __future__ import annotations

import argparse
import importlib
import json
import os
import sys
from collections.abc import Iterator
from tempfile import TemporaryDirectory

from tests.bench.measure import Measure

GROUPS = ("planning", "program", "boards", "layouts", "packing", "photographs", "monkey")


def main() -> int:
    """Run the groups asked for, all by default, on a display of their own."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("groups", nargs="*", metavar="GROUP", help=f"any of {', '.join(GROUPS)}")
    parser.add_argument("--json", action="store_true", help="one object a line: name, value, unit, bound, ok")
    options = parser.parse_args()
    if unknown := set(options.groups) - set(GROUPS):
        parser.error(f"no group is called {', '.join(sorted(unknown))}")
    failed = False
    with _display(), TemporaryDirectory() as home:
        os.environ["XDG_DATA_HOME"] = home  # what a window keeps of unsaved work goes there
        for group in options.groups or GROUPS:
            for measure in _measures(group):
                failed |= not measure.ok
                print(json.dumps(measure._asdict()) if options.json else _line(measure), flush=True)
    return int(failed)


def _measures(group: str) -> Iterator[Measure]:
    module = importlib.import_module(f"tests.bench.{group}")
    yield from module.measures()


def _line(measure: Measure) -> str:
    bound = "" if measure.bound is None else f"   at most {measure.bound:g} {measure.unit}"
    verdict = "" if measure.bound is None else ("   ok" if measure.ok else "   TOO MUCH")
    return f"{measure.name:<58} {measure.value:>10.3f} {measure.unit:<6}{bound}{verdict}"


def _display():  # type: ignore[no-untyped-def]  # a context manager of one of two kinds
    """A display of its own where there is X, so that a measurement neither shows nor disturbs anything."""
    from contextlib import nullcontext

    if not sys.platform.startswith("linux"):
        return nullcontext()
    os.environ["QT_QPA_PLATFORM"] = "xcb"
    os.environ["LIBGL_ALWAYS_SOFTWARE"] = "1"
    from pyvirtualdisplay.display import Display

    return Display(backend="xvfb", size=(1366, 768), color_depth=24)


if __name__ == "__main__":
    sys.exit(main())
