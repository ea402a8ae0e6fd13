"""Verbs for what is told in words: a finding, a row of a table, a cut step."""

from __future__ import annotations

from functools import partial

from app.steps.words import Said
from app.verbs.doing import Doing
from app.verbs.verb import Groups, Verb
from core.language import tr
from core.plan.model import Finding


def finding_verbs(doing: Doing, finding: Finding, place: str) -> Groups:
    """Its ways out, and where it is. place: what it is about, in words."""
    window = doing.window
    ways = [Verb("take", fix.text, partial(window.line.fix_asked.emit, fix)) for fix in finding.fixes]
    text = f"{place}: {finding.message}" if place else finding.message
    told = [
        Verb(
            "view",
            tr("Show what it is about"),
            partial(window.line.about_asked.emit, finding.about),
            bool(finding.about),
        ),
        Verb("copy", tr("Copy as text"), partial(doing.copy, text)),
    ]
    return (ways, told)


def row_verbs(doing: Doing, about: str, cells: tuple[str, ...]) -> Groups:
    """For a row of a table."""
    text = "\t".join(cells).rstrip()
    own = [Verb("copy", tr("Copy the row as text"), partial(doing.copy, text))]
    if "/" not in about:
        return (own,)
    return (
        [
            Verb("cut_steps", tr("Go to its cut"), partial(doing.show_cut, about), bool(doing.plan.cuts)),
            Verb("fill_sheet", tr("Show on the sheet"), partial(doing.show, about, "sheet")),
        ],
        own,
    )


def step_verbs(doing: Doing, said: Said) -> list[Verb]:
    """For the cut that is shown."""
    lines = (said.where, said.setup, *said.moves, said.title, f"{said.number} {said.number_is}".strip())
    rest = (*said.do, *said.falls, *said.dangers, *said.care)
    text = "\n".join(line for line in (*lines, *rest) if line)
    return [
        Verb("copy", tr("Copy what is to be done as text"), partial(doing.copy, text)),
        Verb("cut_order", tr("Cut order"), partial(doing.window.guests.toggle, "cut_order", True)),
    ]
