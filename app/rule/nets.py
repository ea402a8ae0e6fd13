"""Choosing the figure by hand: nets turned end for end where they lie, two nets that swap places. Each one step."""

from __future__ import annotations

from app.store import Store
from core.document.errors import ProjectError
from core.document.model import Project
from core.figure.choosing import exchanged, no_exchange, turned_over
from core.language import tr
from core.layout.pin import placed_net
from core.plan.model import Plan


def turn(store: Store, wanted: bool | None = None) -> None:
    """Turn the nets of the shelves edited together, or the one selected, end for end.

    wanted: whether they are to lie turned; None: each the other way from now.
    """
    plan = _whole_plan(store)
    ids = [
        shelf.id for shelf in plan.project.shelves if shelf.id in store.together and wanted in (None, not shelf.turned)
    ]
    if ids:
        called = ids[0] if len(ids) == 1 else tr("{ids} shelves", ids=len(ids))
        _apply(store, tr("Turn {called} end for end", called=called), turned_over(plan, ids))


def partners(store: Store) -> tuple[str, ...]:
    """Ids of the shelves that the selected one's net can swap places with: of two edited together the other alone."""
    shelf, plan = store.shelf, store.plan
    if shelf is None or placed_net(plan, shelf.id) is None:
        return ()
    both = store.together if len(store.together) == 2 else tuple(one.id for one in store.project.shelves)
    return tuple(one for one in both if one != shelf.id and not no_exchange(plan, shelf.id, one))


def swap(store: Store, other: str) -> str:
    """Swap the places of the selected shelf's net and another's. Returns why not, '' when it is done."""
    plan, shelf = _whole_plan(store), store.shelf
    if shelf is None:
        return ""
    if why := no_exchange(plan, shelf.id, other):
        return why
    return _apply(
        store, tr("Swap the places of {id} and {id2}", id=shelf.id, id2=other), exchanged(plan, shelf.id, other)
    )


def _whole_plan(store: Store) -> Plan:
    """The plan of the document as it is now."""
    store.end_preview()
    store.end_run()
    store.planner.catch_up()
    return store.plan


def _apply(store: Store, label: str, project: Project) -> str:
    try:
        store.apply(label, lambda _: project)
    except ProjectError as error:  # a pin outside the range of the file
        return error.why
    return ""
