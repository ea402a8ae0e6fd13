"""What makes a wall unusable although each of its numbers is in range: too many of a kind, readings that contradict."""

from __future__ import annotations

from core.document.errors import ProjectError, words
from core.document.model import Studs, Wall
from core.document.ranges import MAX_KEEP_OUTS, MAX_READINGS, MAX_STUDS
from core.language import tr


def check_wall(wall: Wall) -> None:
    """Raises ProjectError at the first thing that no plan can be made with. Its numbers are known to be in range."""
    _check_studs(wall)
    if len(wall.keep_outs) > MAX_KEEP_OUTS:
        why = tr(
            "at most {MAX_KEEP_OUTS} rectangles of a wall are kept out of, there are {keep_outs}",
            MAX_KEEP_OUTS=MAX_KEEP_OUTS,
            keep_outs=len(wall.keep_outs),
        )
        raise ProjectError(words(("wall", "keep_outs")), why)
    if wall.bow:
        _check_bow(wall.bow)


def _check_studs(wall: Wall) -> None:
    where = words(("wall", "studs"))
    if not isinstance(wall.studs, Studs):
        if len(wall.studs) > MAX_STUDS:
            raise ProjectError(
                where, tr("at most {MAX_STUDS} studs, there are {studs}", MAX_STUDS=MAX_STUDS, studs=len(wall.studs))
            )
    elif (wall.width - min(wall.studs.first, 0.0)) / wall.studs.spacing > MAX_STUDS:
        why = tr(
            "{spacing:g} mm makes more than {MAX_STUDS} studs from the first to the wall's end",
            spacing=wall.studs.spacing,
            MAX_STUDS=MAX_STUDS,
        )
        raise ProjectError(where + ".spacing", why)


def _check_bow(bow: tuple[tuple[float, float], ...]) -> None:
    if len(bow) > MAX_READINGS:
        raise ProjectError(
            words(("wall", "bow")),
            tr("at most {MAX_READINGS} readings, there are {bow}", MAX_READINGS=MAX_READINGS, bow=len(bow)),
        )
    first: dict[float, int] = {}
    for n, (x, gap) in enumerate(bow):
        if gap < 0.0:
            raise ProjectError(words(("wall", "bow", n, 1)), tr("a gap must be at least 0 mm, is {gap:g} mm", gap=gap))
        if first.setdefault(x, n) != n:
            raise ProjectError(
                words(("wall", "bow", n, 0)),
                tr("{x:g} mm is already the place of reading {first}", x=x, first=first[x] + 1),
            )
