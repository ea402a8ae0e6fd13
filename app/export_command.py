"""`export PROJECT --to FILE`: makes the plan and writes one file of it, or all of them into a folder, without a window.

Exit codes: 0 written; 1 written, and the plan has errors; 2 nothing written, one line on stderr says where
and why.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Final

import msgspec

from core.language import tr

if TYPE_CHECKING:
    from app.paper.frame import Paper
    from core.document.model import Project
    from core.drawing.model import Drawing
    from core.plan.model import Plan

StrPath = str | os.PathLike[str]

WRITTEN: Final = 0
WITH_ERRORS: Final = 1
NOTHING_WRITTEN: Final = 2
INTERRUPTED: Final = 130  # as shells have it: 128 + SIGINT

SECONDS: Final = 10.0  # for a layout with fewer sheets; most take a small part of it

PAPERS: Final[dict[str, Paper]] = {"letter": "letter", "a4": "a4", "tabloid": "tabloid", "a3": "a3"}
UNITS: Final = {"inch": "in", "mm": "mm"}
DEBUG: Final = "GRAINFOLD_DEBUG"  # in the surroundings: an error of the program shows where it happened


class ExportError(Exception):
    """Nothing can be written. `str()` is one line: where and why."""

    def __init__(self, where: StrPath, why: str) -> None:
        super().__init__(f"{os.fspath(where)}: {why}")


class Wish(msgspec.Struct, frozen=True):
    """What is asked for beyond project and target. Of None each the project, or everything, is taken.

    drawing: name of a drawing for .svg, .dxf, .png. For .pdf: paper, one of `PAPERS`, and pages, a list of names with
    commas. units: of `UNITS`. For pictures of the shelves (.png with `show`, .webp, .glb): show, 'wall' or a shelf's
    id; finish, raw or oiled; pixels, like 1920x1080; clear, nothing behind the shelves.
    """

    drawing: str | None = None
    paper: str | None = None
    pages: str | None = None
    units: str | None = None
    show: str | None = None
    finish: str | None = None
    pixels: str | None = None
    clear: bool = False


def run(
    project: StrPath,
    target: StrPath,
    drawing: str | None = None,
    paper: str | None = None,
    pages: str | None = None,
    units: str | None = None,
) -> int:
    """Write the project's plan to `target`, whose ending says what is written; returns the exit code.

    A target that is a folder takes every kind of file but pictures, named after the project. The rest: see `Wish`.
    """
    return run_wish(project, target, Wish(drawing, paper, pages, units))


def run_wish(project: StrPath, target: StrPath, wish: Wish) -> int:
    """The same for a whole wish."""
    from core.document.errors import ProjectError

    try:
        return _export(project, Path(target), wish)
    except KeyboardInterrupt:
        return INTERRUPTED
    except (ExportError, ProjectError) as error:
        _say(str(error))
    except Exception as error:
        if os.environ.get(DEBUG):
            raise
        what = f"{type(error).__name__}: {error}" if str(error) else type(error).__name__
        _say(
            tr(
                "{fspath}: internal error, {what}; {DEBUG}=1 shows where, please report it",
                fspath=os.fspath(project),
                what=what,
                DEBUG=DEBUG,
            )
        )
    return NOTHING_WRITTEN


def _export(project: StrPath, target: Path, wish: Wish) -> int:
    from core.document.load import load_project

    _check_wish(wish)
    endings = _endings(target)
    document = load_project(project)
    files = _files(target, endings, document)
    for file in files:
        _check_target(file, project)
    from core.plan.least import least_layout
    from core.plan.make import make_plan

    if wish.units is not None:
        document = msgspec.structs.replace(document, units=UNITS[wish.units])
    found = least_layout(document, SECONDS)
    plan = make_plan(document, found.layout, found.proof)
    if any(sheet.photos for sheet in document.sheets):
        plan = _with_pictures(plan, Path(project))
    _write({file: _made(plan, wish, ending, Path(project)) for file, ending in files.items()})
    for finding in plan.errors:
        _say(f"{finding.about or 'plan'}: {finding.code}: {finding.message}")
    return WITH_ERRORS if plan.errors else WRITTEN


def _made(plan: Plan, wish: Wish, ending: str, project: Path) -> bytes:
    """The bytes of one file."""
    if ending in PICTURES or (ending == ".png" and wish.show is not None):
        from app.showing.command import picture_bytes

        return picture_bytes(plan, wish, ending, project.parent)
    return MAKERS[ending](plan, wish)


def _with_pictures(plan: Plan, project: Path) -> Plan:
    """The plan with what is wrong with the pictures beside the project."""
    from core.findings.pictures import with_picture_findings
    from core.photo.opening import troubles_beside

    pictures = {photo.sum: photo.file for sheet in plan.project.sheets for photo in sheet.photos}
    return with_picture_findings(plan, troubles_beside(pictures, project.parent))


def _check_wish(wish: Wish) -> None:
    for name, given, known in (("paper", wish.paper, PAPERS), ("units", wish.units, UNITS)):
        if given is not None and given not in known:
            raise ExportError(f"--{name} {given}", tr("must be {one_of}", one_of=_one_of(known)))
    if wish.pages is not None:
        _page_names(wish.pages)
    if wish.finish is not None or wish.pixels is not None:
        from app.showing.command import check_look

        check_look(wish)


def _one_of(words: Iterable[str]) -> str:
    """'letter, a4 or a3'."""
    *first, last = words
    return tr("{join} or {last}", join=", ".join(first), last=last)


def _endings(target: Path) -> tuple[str, ...]:
    """What kinds of files the target takes: all where it is a folder, else the one its ending says."""
    ending = target.suffix.lower()
    if ending in MAKERS or ending in PICTURES:
        return (ending,)
    if _is_folder(target):
        return tuple(MAKERS)
    why = tr("the ending {ending} is not known", ending=ending) if ending else tr("the name has no ending")
    raise ExportError(target, tr("{why}; it must be one of {join}", why=why, join=" ".join((*MAKERS, *PICTURES))))


def _is_folder(target: Path) -> bool:
    try:
        return target.is_dir()
    except (OSError, ValueError) as error:
        raise _unwritable(target, error) from error


def _files(target: Path, endings: tuple[str, ...], document: Project) -> dict[Path, str]:
    """The files to write, each with its ending."""
    if len(endings) == 1:
        return {target: endings[0]}
    from app.naming import file_stem

    stem = file_stem(document.name)
    return {target / f"{stem}{ending}": ending for ending in endings}


def _check_target(target: Path, project: StrPath) -> None:
    """What can be known before the plan is made; the writing itself has the last word."""
    try:
        if target.is_dir():
            raise ExportError(target, tr("is a folder"))
        if not target.parent.is_dir():
            raise ExportError(target, tr("there is no folder {parent}", parent=target.parent))
        if target.exists() and target.samefile(project):
            raise ExportError(target, tr("is the project file itself"))
    except (OSError, ValueError) as error:
        raise _unwritable(target, error) from error


def _write(files: dict[Path, bytes]) -> None:
    from core.export.atomic import write_together

    try:
        write_together({os.fspath(file): data for file, data in files.items()})
    except (OSError, ValueError) as error:
        first = next(iter(files))
        raise _unwritable(first if len(files) == 1 else first.parent, error) from error


def _unwritable(target: Path, error: OSError | ValueError) -> ExportError:
    from core.document.errors import os_reason

    return ExportError(target, tr("cannot be written: {os_reason}", os_reason=os_reason(error)))


def _say(line: str) -> None:
    from core.document.errors import one_line

    print(one_line(line), file=sys.stderr)


def _page_names(pages: str) -> tuple[str, ...]:
    from app.paper.plan_set import UnknownPagesError, wanted_names

    try:
        return wanted_names(pages)
    except UnknownPagesError as error:
        raise ExportError("--pages", str(error)) from error


def _json(plan: Plan, wish: Wish) -> bytes:
    from core.export.plan_json import json_bytes

    return json_bytes(plan)


def _csv(plan: Plan, wish: Wish) -> bytes:
    from core.export.cut_list_csv import csv_bytes

    return csv_bytes(plan)


def _pdf(plan: Plan, wish: Wish) -> bytes:
    from app.paper.pdf import pdf_bytes

    paper = PAPERS[wish.paper] if wish.paper else None
    return pdf_bytes(plan, paper, names=None if wish.pages is None else _page_names(wish.pages))


def _svg(plan: Plan, wish: Wish) -> bytes:
    wanted = _drawings(plan, wish.drawing)
    from core.export.svg import svg_bytes

    return svg_bytes(wanted)


def _dxf(plan: Plan, wish: Wish) -> bytes:
    wanted = _drawings(plan, wish.drawing)  # first: says which there are before a slow library is loaded
    from core.export.dxf import dxf_bytes

    return dxf_bytes(wanted)


def _png(plan: Plan, wish: Wish) -> bytes:
    _drawings(plan, wish.drawing)
    from app.paper.png import png_bytes

    return png_bytes(plan, wish.drawing)


def _drawings(plan: Plan, name: str | None) -> tuple[Drawing, ...]:
    from core.drawing.catalog import drawings

    try:
        return drawings(plan, name)
    except KeyError as error:
        if name is None:
            raise
        raise ExportError(f"--drawing {name}", tr("there is no such drawing: {args}", args=error.args[0])) from error


MAKERS: Final[dict[str, Callable[[Plan, Wish], bytes]]] = {  # each loads what it needs when it is called
    ".json": _json,
    ".csv": _csv,
    ".pdf": _pdf,
    ".svg": _svg,
    ".dxf": _dxf,
    ".png": _png,
}

PICTURES: Final = (".glb", ".webp")  # of the shelves as they will be; see `app.showing`
