"""`export PROJECT --to FILE`: makes the plan and writes one file of it, without a window.

Exit codes: 0 written; 1 written, and the plan has errors; 2 nothing written, one line on stderr says where
and why.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from core.drawing.model import Drawing
    from core.plan.model import Plan

StrPath = str | os.PathLike[str]

WRITTEN: Final = 0
WITH_ERRORS: Final = 1
NOTHING_WRITTEN: Final = 2
INTERRUPTED: Final = 130  # as shells have it: 128 + SIGINT

SECONDS: Final = 10.0  # for a layout with fewer sheets; most take a small part of it

PAPERS: Final = ("letter", "a4")
DEBUG: Final = "GRAINFOLD_DEBUG"  # in the surroundings: an error of the program shows where it happened


class ExportError(Exception):
    """Nothing can be written. `str()` is one line: where and why."""

    def __init__(self, where: StrPath, why: str) -> None:
        super().__init__(f"{os.fspath(where)}: {why}")


def run(project: StrPath, target: StrPath, drawing: str | None = None, paper: str | None = None) -> int:
    """Write the project's plan to `target`, whose ending says what is written; returns the exit code.

    drawing: name of a drawing for .svg, .dxf, .png; None writes the sheets.
    paper: "letter" or "a4" for .pdf; None lets the project's unit choose.
    """
    from core.document.errors import ProjectError

    try:
        return _export(project, Path(target), drawing, paper)
    except KeyboardInterrupt:
        return INTERRUPTED
    except (ExportError, ProjectError) as error:
        _say(str(error))
    except Exception as error:
        if os.environ.get(DEBUG):
            raise
        what = f"{type(error).__name__}: {error}" if str(error) else type(error).__name__
        _say(f"{os.fspath(project)}: internal error, {what}; {DEBUG}=1 shows where, please report it")
    return NOTHING_WRITTEN


def _export(project: StrPath, target: Path, drawing: str | None, paper: str | None) -> int:
    from core.document.load import load_project

    make = _maker(target, drawing, paper)
    document = load_project(project)
    _check_target(target, project)
    from core.plan.least import least_layout
    from core.plan.make import make_plan

    found = least_layout(document, SECONDS)
    plan = make_plan(document, found.layout, found.proof)
    _write(target, make(plan))
    for finding in plan.errors:
        _say(f"{finding.about or 'plan'}: {finding.code}: {finding.message}")
    return WITH_ERRORS if plan.errors else WRITTEN


def _maker(target: Path, drawing: str | None, paper: str | None) -> Callable[[Plan], bytes]:
    """The function that makes the target's bytes. Each loads what it needs when it is called."""
    makers: dict[str, Callable[[Plan], bytes]] = {
        ".json": _json,
        ".csv": _csv,
        ".pdf": lambda plan: _pdf(plan, paper),
        ".svg": lambda plan: _svg(plan, drawing),
        ".dxf": lambda plan: _dxf(plan, drawing),
        ".png": lambda plan: _png(plan, drawing),
    }
    if paper is not None and paper not in PAPERS:
        raise ExportError(f"--paper {paper}", f"must be {' or '.join(PAPERS)}")
    ending = target.suffix.lower()
    if ending not in makers:
        why = f"the ending {ending} is not known" if ending else "the name has no ending"
        raise ExportError(target, f"{why}; it must be one of {' '.join(makers)}")
    return makers[ending]


def _check_target(target: Path, project: StrPath) -> None:
    """What can be known before the plan is made; the writing itself has the last word."""
    try:
        if target.is_dir():
            raise ExportError(target, "is a folder")
        if not target.parent.is_dir():
            raise ExportError(target, f"there is no folder {target.parent}")
        if target.exists() and target.samefile(project):
            raise ExportError(target, "is the project file itself")
    except (OSError, ValueError) as error:
        raise _unwritable(target, error) from error


def _write(target: Path, data: bytes) -> None:
    from core.export.atomic import write_atomically

    try:
        write_atomically(target, data)
    except OSError as error:
        raise _unwritable(target, error) from error


def _unwritable(target: Path, error: OSError | ValueError) -> ExportError:
    from core.document.errors import os_reason

    return ExportError(target, f"cannot be written: {os_reason(error)}")


def _say(line: str) -> None:
    from core.document.errors import one_line

    print(one_line(line), file=sys.stderr)


def _json(plan: Plan) -> bytes:
    from core.export.plan_json import json_bytes

    return json_bytes(plan)


def _csv(plan: Plan) -> bytes:
    from core.export.cut_list_csv import csv_bytes

    return csv_bytes(plan)


def _pdf(plan: Plan, paper: str | None) -> bytes:
    from app.paper.pdf import pdf_bytes

    known: dict[str, Literal["letter", "a4"]] = {"letter": "letter", "a4": "a4"}
    return pdf_bytes(plan, known[paper] if paper else None)


def _svg(plan: Plan, drawing: str | None) -> bytes:
    wanted = _drawings(plan, drawing)
    from core.export.svg import svg_bytes

    return svg_bytes(wanted)


def _dxf(plan: Plan, drawing: str | None) -> bytes:
    wanted = _drawings(plan, drawing)  # first: says which there are before a slow library is loaded
    from core.export.dxf import dxf_bytes

    return dxf_bytes(wanted)


def _png(plan: Plan, drawing: str | None) -> bytes:
    _drawings(plan, drawing)
    from app.paper.png import png_bytes

    return png_bytes(plan, drawing)


def _drawings(plan: Plan, name: str | None) -> tuple[Drawing, ...]:
    from core.drawing.catalog import drawings

    try:
        return drawings(plan, name)
    except KeyError as error:
        if name is None:
            raise
        raise ExportError(f"--drawing {name}", f"there is no such drawing: {error.args[0]}") from error
