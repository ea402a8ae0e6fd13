"""Verbs for the parts of a hidden frame: its ribs and its rails."""

from __future__ import annotations

from functools import partial

from app.fold.words import reading
from app.hand.frame import SAME, by_themselves
from app.verbs import edits
from app.verbs.doing import Doing
from app.verbs.shelves import cut_verb
from app.verbs.verb import Groups, Verb
from core.document.model import FrameWish
from core.document.ranges import RANGES
from core.language import tr
from core.layout.pin import index_of
from core.plan.model import Frame, FramePart


def part_verbs(doing: Doing, frame: Frame, part: FramePart, here: str) -> Groups:
    """For one stick of a frame."""
    own = _rib(doing, frame, part) if "rib" in part.role else _rail(doing, part)
    said = reading(doing.plan, part.id, doing.store.unit)
    shown = {
        "frame": Verb("frame", tr("Show the frame"), partial(doing.open, "frame", part.id)),
        "sheet": Verb("fill_sheet", tr("Show on the sheet"), partial(doing.show, part.id, "sheet")),
        "steps": cut_verb(doing, part.id),
        "": Verb("copy", tr("Copy as text"), partial(doing.copy, said)),
    }
    return (own, [verb for board, verb in shown.items() if board != here])


def _rib(doing: Doing, frame: Frame, part: FramePart) -> list[Verb]:
    number = int(part.id.rpartition(" ")[2]) - 1
    put = doing.store.project.shelves[index_of(doing.store.project, frame.shelf)].ribs
    by_hand = any(abs(rib - frame.ribs[number]) <= SAME for rib in put)
    label = tr("Ribs of {shelf}", shelf=frame.shelf)
    words = tr("Let this rib find its place") if by_hand else tr("Keep this rib where it stands")
    verbs = []
    if part.role != "end rib":
        change = partial(edits.rib_put, frame=frame, number=number)
        verbs.append(Verb("even" if by_hand else "pin", words, partial(doing.edit, label, change)))
    if put:
        verbs.append(
            Verb(
                "even",
                tr("Let all ribs find their place"),
                partial(doing.edit, label, lambda project: by_themselves(project, frame.shelf)),
            )
        )
    return verbs


def _rail(doing: Doing, part: FramePart) -> list[Verb]:
    which = part.role.partition(" ")[0]
    now = getattr(doing.store.project.frame, f"{which}_layers")
    limits = RANGES[FrameWish][f"{which}_layers"]
    label = tr("Layers of the {role}", role=part.role)
    return [
        Verb(name, words, doing.way(label, edits.rail_layers, which=which, more=more), can)
        for name, words, more, can in (
            ("frame", tr("One layer more"), 1, now < limits.most),
            ("frame", tr("One layer fewer"), -1, now > limits.least),
        )
    ]
