"""Verbs for a shelf, for a panel of its net, and for a seam."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from app.boards.inset import seam_caption, seam_title
from app.fold.words import reading
from app.verbs import edits
from app.verbs.doing import Doing
from app.verbs.verb import Groups, Verb
from core.document.apart import may_be_apart
from core.document.model import APART, Apart, Shelf
from core.drawing.names import part_word
from core.language import tr
from core.plan.model import Panel, Seam

BOARDS = (
    ("wall", tr("Show on the wall")),
    ("fold", tr("Show folded")),
    ("sheet", tr("Show on the sheet")),
)


def shelf_verbs(doing: Doing, shelf: Shelf, here: str) -> Groups:
    """For a whole shelf. here: the board that is pressed; in the list ('list') its place there too."""
    sets, store, name = doing.window.sets, doing.store, shelf.id
    many = store.together if name in store.together and len(store.together) > 1 else ()

    def on_set(action: Callable[[], object]) -> None:
        doing.mean(name)
        action()

    first = [
        Verb("rename", tr("Rename"), partial(doing.rename, name), not many),
        Verb(
            "duplicate_shelf",
            tr("Duplicate all {count}", count=len(many)) if many else tr("Duplicate"),
            partial(on_set, sets.duplicate),
        ),
        Verb("copy_shelf", tr("Copy as text"), partial(on_set, doing.window.copy)),
        Verb(
            "remove_shelf",
            tr("Remove all {count}", count=len(many)) if many else tr("Remove"),
            partial(on_set, sets.remove),
        ),
    ]
    if here == "list":
        ids = [one.id for one in store.project.shelves]
        first += [
            Verb("earlier_shelf", tr("Earlier in the list"), partial(on_set, partial(sets.move, -1)), name != ids[0]),
            Verb("later_shelf", tr("Later in the list"), partial(on_set, partial(sets.move, 1)), name != ids[-1]),
        ]
    return (first, _places(doing, shelf, here), list(_shown(doing, name, here)))


def _places(doing: Doing, shelf: Shelf, here: str) -> list[Verb]:
    """Where it is to be, on the wall and on the sheet; a better place is for those who see the wood."""
    name = shelf.id
    if shelf.mount is None:
        hang = Verb(
            "hang",
            tr("Hang it on the wall"),
            doing.way(tr("Hang {id}", id=name), edits.hung, shelf=name),
        )
    else:
        hang = Verb(
            "take_down",
            tr("Take it off the wall"),
            doing.way(tr("Take {id} off the wall", id=name), edits.taken_down, shelf=name),
        )
    of_net = net_verbs(doing, shelf)
    return [hang, *(of_net if here in ("fold", "sheet") else of_net[:1])]


def net_verbs(doing: Doing, shelf: Shelf) -> list[Verb]:
    """Where its net lies on the sheet."""
    name, plan = shelf.id, doing.plan
    lies = any(net.shelf == name and net.panel is None for net in plan.nets)
    if shelf.at is None:
        pin = Verb(
            "pin",
            tr("Pin the net where it lies"),
            doing.way(tr("Pin {id}", id=name), edits.pinned, plan=plan, shelf=name),
            lies,
        )
    else:
        pin = Verb(
            "unpin",
            tr("Let the net lie freely"),
            doing.way(tr("Let {id} lie freely", id=name), edits.freed, shelf=name),
        )
    choosing = doing.window.choosing

    def meant(action: Callable[[], None]) -> None:
        doing.store.select_alone(name)
        action()

    return [
        pin,
        Verb("turn_net", tr("Turn end for end"), partial(meant, choosing.turn), lies),
        Verb("swap_nets", tr("Swap places"), partial(meant, choosing.swap), lies and len(plan.nets) > 1),
        Verb("place", tr("Find a better place"), partial(doing.search_place, name), lies),
    ]


def _shown(doing: Doing, about: str, here: str) -> Iterator[Verb]:
    """Where else it can be seen, and its first cut."""
    shelf = about.partition("/")[0]
    for place, words in BOARDS:
        if place != here:
            yield Verb(f"fill_{place}", words, partial(doing.show, about if place != "wall" else shelf, place))
    yield cut_verb(doing, about if "/" in about else f"{about}/front")


def cut_verb(doing: Doing, about: str) -> Verb:
    """To the cut that makes it."""
    return Verb("cut_steps", tr("Go to its cut"), partial(doing.show_cut, about), bool(doing.plan.cuts))


def panel_verbs(doing: Doing, shelf: Shelf, panel: Panel, here: str) -> Groups:
    """For a panel, and for the net it lies in."""
    said = reading(doing.plan, panel.id, doing.store.unit)
    own = [*_apart(doing, shelf, panel.role), Verb("copy", tr("Copy as text"), partial(doing.copy, said))]
    sets = doing.window.sets

    def on_shelf(action: Callable[[], object]) -> None:
        doing.store.select_alone(shelf.id)
        action()

    whole = [
        Verb("duplicate_shelf", tr("Duplicate the shelf"), partial(on_shelf, sets.duplicate)),
        Verb("remove_shelf", tr("Remove the shelf"), partial(on_shelf, sets.remove)),
    ]
    return (own, net_verbs(doing, shelf), list(_shown(doing, panel.id, here)), whole)


def _apart(doing: Doing, shelf: Shelf, role: str) -> Iterator[Verb]:
    known: Apart | None = next((one for one in APART if one == role), None)
    if known is None:
        return
    label, change = tr("Cut apart"), partial(edits.switched_apart, shelf=shelf.id, role=role)
    if known in shelf.apart:
        yield Verb("sheet", tr("Cut it with the net again"), partial(doing.edit, label, change))
    elif may_be_apart(shelf, known):
        yield Verb("apart", tr("Cut the {role} apart", role=part_word(role)), partial(doing.edit, label, change))


def seam_verbs(doing: Doing, shelf: Shelf, seam: Seam, here: str) -> Groups:
    """For the line where two panels meet."""
    text = f"{seam_title(doing.plan, seam)}: {seam_caption(seam, doing.store.unit)}"
    section = Verb("section", tr("Show its section"), partial(doing.open, "section", seam.id))
    own = [
        *([section] if here != "section" else []),
        Verb("figure", tr("See the figure across it"), partial(doing.open, "figure", seam.id), not seam.broken),
        cut_verb(doing, seam.id),
        Verb("copy", tr("Copy as text"), partial(doing.copy, text)),
    ]
    parted = [verb for panel in seam.between for verb in _apart(doing, shelf, panel.partition("/")[2])]
    shown = [verb for verb in _shown(doing, seam.id, here) if verb.name in ("fill_fold", "fill_sheet")]
    return (own, parted, shown)
