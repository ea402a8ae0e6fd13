"""Verbs for the wall: its studs, what screws keep out of, and bare wall."""

from __future__ import annotations

from functools import partial
from typing import get_args

import msgspec

from app.hand.keep_out import with_keep_out
from app.verbs import edits
from app.verbs.doing import Doing
from app.verbs.verb import Groups, Verb
from core.document.model import Obstacle, Project
from core.language import tr

Point = tuple[float, float]


def keep_out_verbs(doing: Doing, at: int) -> Groups:
    """For a socket, switch, pipe or tile edge."""
    area = doing.store.project.wall.keep_outs[at]
    kinds: tuple[Obstacle, ...] = get_args(Obstacle)

    def called(kind: Obstacle, project: Project) -> Project:
        return with_keep_out(project, at, msgspec.structs.replace(project.wall.keep_outs[at], kind=kind))

    label = tr("What is in the wall")
    what = [
        Verb("clear", tr(kind), partial(doing.edit, label, partial(called, kind)), True, kind == area.kind)
        for kind in kinds
    ]
    gone = Verb("remove", tr("Remove it"), doing.way(tr("Remove a keep-out"), edits.without_keep_out, at=at))
    return (what, [_sizes(doing), gone])


def stud_verbs(doing: Doing, x: float, place: Point) -> Groups:
    """For the stud at x, pressed at a place of the wall."""
    label = tr("Studs")
    own = [
        Verb("remove", tr("There is no stud here"), doing.way(label, edits.without_stud, x=x)),
        _sizes(doing),
    ]
    return (own, *bare_verbs(doing, place)[:1])


def bare_verbs(doing: Doing, place: Point) -> Groups:
    """For bare wall at a place."""
    timber = doing.store.project.wall.kind == "timber stud"
    return (
        [
            Verb("add_shelf", tr("Add a shelf here"), partial(_add, doing, place)),
            Verb("paste_shelf", tr("Paste shelves"), doing.window.paste),
        ],
        [
            Verb(
                "stud",
                tr("There is a stud here"),
                doing.way(tr("Studs"), edits.stud_put, x=place[0]),
                timber,
            ),
            Verb(
                "clear",
                tr("There is a socket here"),
                doing.way(tr("Add a socket"), edits.socket_put, place=place),
            ),
            _sizes(doing),
        ],
    )


def _add(doing: Doing, place: Point) -> None:
    project, name = edits.shelf_at(doing.store.project, place)
    doing.edit(tr("Add {name}", name=name), lambda _: project, select=name)


def _sizes(doing: Doing) -> Verb:
    return Verb("sizes", tr("Sizes of the wall"), doing.window.rule.show_wall)
