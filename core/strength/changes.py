"""Changes to a shelf that might raise what it carries, each in words and as the case that it makes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from core.document.model import Screw
from core.frame.studs import screw_heights, screws_that_fit
from core.language import tr
from core.lengths import INCH_MM, Unit, show_length
from core.stock.panel import BIRCH_DENSITY, panel_mass
from core.stock.stud import STUD_DEPTH
from core.strength.estimate import Case

THICKER: Final = {Unit.INCH: (INCH_MM / 4.0, '1/4"'), Unit.MM: (6.0, "6 mm")}  # the next screw in use for this


Change = tuple[str, float, Case]  # words with a place for a length, the length [mm], and what it makes


def in_words(words: str, length: float, unit: Unit) -> str:
    """The words of a change, already in the program's language, with its length."""
    return tr(words, length=show_length(length, unit, marks=False))


def changes(case: Case, screw: Screw, unit: Unit) -> Iterator[Change]:
    """Changes worth trying, one at a time."""
    step = INCH_MM if unit is Unit.INCH else 25.0
    yield from _of_screws(case, screw, step / 2.0, unit)
    yield from _of_shelf(case, screw, step, unit)


def _of_screws(case: Case, screw: Screw, half: float, unit: Unit) -> Iterator[Change]:
    height, count = case.rail[2], len(case.heights)
    thread = min(case.thread + half, STUD_DEPTH)
    yield tr("{length} more thread in the stud"), half, replace(case, thread=thread)
    thick, name = THICKER[unit]
    if case.diameter < thick - 0.05:
        heights = screw_heights(height, thick, count, screw.stand)
        yield tr("{name} screws", name=name), 0.0, replace(case, diameter=thick, heights=heights)
    if count == 1 and screw.stand == "middle":
        heights = screw_heights(height, screw.diameter, 1, "upper third")
        yield tr("screws in the rail's upper third"), 0.0, replace(case, heights=heights)
    if screws_that_fit(height, screw.diameter) > count:
        heights = screw_heights(height, screw.diameter, count + 1)
        yield tr("{count} screws to a stud", count=count + 1), 0.0, replace(case, heights=heights)


def _of_shelf(case: Case, screw: Screw, step: float, unit: Unit) -> Iterator[Change]:
    thickness, layers, height = case.rail
    shallower = replace(case, depth=case.depth - step, own_reach=case.own_reach - step / 2.0)
    yield tr("a shelf {length} less in depth"), step, shallower
    rail = (thickness, layers, height + step / 2.0)
    heights = screw_heights(rail[2], screw.diameter, len(case.heights), screw.stand)
    higher = replace(case, height=case.height + step / 2.0, rail=rail, heights=heights)
    yield tr("a shelf {length} higher"), step / 2.0, higher
    if layers == 1 and case.rib[0] > 2.0 * thickness:
        own = case.own + panel_mass(case.length, height, thickness, BIRCH_DENSITY)
        rib = (case.rib[0] - thickness, case.rib[1])
        doubled = replace(case, rail=(thickness, 2, height), rib=rib, own=own)
        yield tr("a doubled back rail"), 0.0, doubled
