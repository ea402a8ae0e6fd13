"""Verbs for what lies on a sheet beside the shelves: areas to keep clear, what is left, and bare ground."""

from __future__ import annotations

from functools import partial
from typing import get_args

from app.rule.area_edits import Place, area_at
from app.verbs import edits
from app.verbs.doing import Doing
from app.verbs.verb import Groups, Verb
from core.document.model import Flaw, KeptOut
from core.drawing.clear import OUT
from core.drawing.names import find_sheet, size_text
from core.language import tr
from core.plan.model import Offcut


def area_verbs(doing: Doing, place: Place) -> Groups:
    """For an area that is kept clear."""
    area = area_at(doing.store.project, place)
    kinds: tuple[Flaw, ...] = get_args(Flaw)
    label = tr("Area to keep clear")
    what = [
        Verb(
            "clear",
            tr(kind),
            doing.way(label, edits.area_as, place=place, kind=kind),
            True,
            kind == area.kind,
        )
        for kind in kinds
    ]
    keeps: tuple[KeptOut, ...] = get_args(KeptOut)
    who = [
        Verb(
            "sheet",
            OUT[of],
            doing.way(label, edits.area_as, place=place, of=of),
            True,
            of == area.of,
        )
        for of in keeps
    ]
    return (what, who, [Verb("remove", tr("Remove it"), doing.window.sheet.areas.remove)])


def offcut_verbs(doing: Doing, offcut: Offcut) -> Groups:
    """For what is left and worth keeping."""
    size = size_text(offcut.length, offcut.width, doing.store.unit, rounding="down")
    return (
        [
            Verb("keep_offcuts", tr("Keep these offcuts"), doing.window.rack.keep),
            Verb("offcuts", tr("Show all offcuts"), partial(doing.open, "offcuts", offcut.piece)),
            Verb("copy", tr("Copy as text"), partial(doing.copy, f"{tr('Offcut')} {offcut.piece}: {size}")),
        ],
        _whole(doing, find_sheet(doing.plan, offcut.sheet).stock),
    )


def _whole(doing: Doing, stock: str) -> list[Verb]:
    """What is done to a whole sheet of this kind."""
    return [
        Verb("pages", tr("Print the sheets"), partial(doing.print_pages, "sheets")),
        Verb("sizes", tr("Sizes of the sheet"), partial(doing.window.rule.show_sheet, stock)),
    ]


def sheet_verbs(doing: Doing, stock: str, sheet: int, place: tuple[float, float] | None) -> Groups:
    """For bare ground of a sheet. stock: its kind; sheet: its number there, -1 where areas cannot be put on it."""
    window = doing.window
    own = []
    if sheet >= 0 and place is not None:
        change = partial(edits.area_put, sheet=sheet, place=place)
        own.append(Verb("clear", tr("Keep an area clear here"), partial(doing.edit, tr("Area to keep clear"), change)))
    return (
        [*own, Verb("paste_shelf", tr("Paste shelves"), window.paste)],
        [
            *_whole(doing, stock),
            Verb("photo", tr("Photograph of the sheet"), partial(window.guests.toggle, "photo", True)),
            Verb("fit", tr("Whole sheet"), window.sheet.canvas.fit),
        ],
    )
