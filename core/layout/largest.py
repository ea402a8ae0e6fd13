"""The largest that fits: how long, deep or high a shelf may be while everything the project asks for has its room.

What fits is what the plan says: at the size found it has nothing new to complain of, 0.01 mm above it has. Plans are
dear, so a bare layout of the nets guesses the size first; two plans then prove it, and only where they do not is the
size searched for with plans. Where frame parts come from the waste a shelf may fit, not fit, and fit again as it
grows: so a few sizes between the one found and the largest the sheet alone allows are tried too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cached_property, partial
from itertools import chain
from typing import Literal

import msgspec

from core.document.model import Project, Sheet, Shelf
from core.document.ranges import LARGEST
from core.drawing.names import part_word
from core.findings.words import limit
from core.frame.build import frame_of
from core.language import tr
from core.layout.allowed import named
from core.layout.bands import lay_out
from core.layout.model import Misfit, trimmed
from core.lengths import Unit, snap_down
from core.packing.clock import Stop, never
from core.plan.model import Finding, Plan
from core.plan.shapes import Shape, apart_shapes, section_of, shape_of

Dimension = Literal["length", "depth", "height"]
Planning = Callable[[Project], Plan]

STEPS = 100  # to the millimetre: sizes are tried in whole hundredths
PROBES = 6  # sizes tried above the one found
SPEAK_AGAINST = {"length": "alcove-length"}  # warnings that count as errors do


class Largest(msgspec.Struct, frozen=True):
    """The largest size that fits.

    value: it fits, 0.01 mm more does not; None where no size fits. [mm]
    size: `value` as it is printed, rounded down to 1/32 in or 0.1 mm. [mm]
    text: `size` with its unit, '' for none.
    pointers: set the size as printed; empty for none. What is set is what was read.
    limit_reason: what stands in the way of more (or of any size), one sentence.
    """

    what: Dimension
    value: float | None
    size: float | None
    text: str
    pointers: dict[str, float]
    limit_reason: str


def largest(
    project: Project,
    what: Dimension,
    shelf_index: int | None,
    planning: Planning | None = None,
    stop: Stop = never,
) -> Largest | None:
    """The largest size of one shelf, or with None of all shelves together, for which all have their room.

    In an alcove it is the longest that slides in. Against it count no errors there are without the shelf, nor what the
    saw cannot do at any size. A sheet too thick for the tilted blade is none it may grow onto while there is another.
    planning: makes a plan without trying fixes; default: the one `make_plan` tries fixes with.
    stop: asked before each plan; None is returned once it says True.
    Raises IndexError where there is no such shelf, ValueError where there are none at all.
    """
    count = len(project.shelves)
    if not count:
        raise ValueError("a project without shelves has no largest shelf")
    if shelf_index is not None and not 0 <= shelf_index < count:
        raise IndexError(tr("there is no shelf {shelf_index}, there are {count}", shelf_index=shelf_index, count=count))
    indices = range(count) if shelf_index is None else (shelf_index,)
    job = _Job(project, what, tuple(indices), planning or _usual_planning(), stop)
    try:
        return _answer(job)
    except _StoppedError:
        return None


def likely(
    project: Project, what: Dimension, shelf_index: int | None, sizes: Sequence[float], stop: Stop = never
) -> float | None:
    """The largest of some sizes for which a bare layout finds room for the nets, whatever their frames need. [mm]

    Quicker than `largest` and mostly right. sizes: ascending. None where the least of them does not fit, or once
    `stop` says True.
    """
    indices = range(len(project.shelves)) if shelf_index is None else (shelf_index,)
    job = _Job(project, what, tuple(indices), _usual_planning(), stop)
    try:
        if not sizes or not job.likely(sizes[0]):
            return None
        return sizes[_edge(lambda n: job.likely(sizes[n]), 0, len(sizes))]
    except _StoppedError:
        return None


def _usual_planning() -> Planning:
    """Imported when first used, so that whatever makes plans may ask for the largest size too."""
    from core.plan.make import best_plan

    return best_plan


class _StoppedError(Exception):
    """Nobody waits for the answer any more."""


class _Verdict(msgspec.Struct, frozen=True):
    """Whether a size fits, else the first thing that is wrong."""

    finding: Finding | None = None
    misfit: Misfit | None = None

    @property
    def fits(self) -> bool:
        return self.finding is None


class _Job:
    """One question, and what has been found out so far."""

    def __init__(
        self, project: Project, what: Dimension, indices: tuple[int, ...], planning: Planning, stop: Stop
    ) -> None:
        self.project, self.what, self.indices = project, what, indices
        self.own = {project.shelves[i].id for i in indices}
        self.planning, self.stop = planning, stop
        self.verdicts: dict[float, _Verdict] = {}
        self._excuses: set[tuple[str, str]] | None = None

    def at(self, value: float) -> Project:
        """The project with that size."""
        shelves = list(self.project.shelves)
        for i in self.indices:
            shelves[i] = msgspec.structs.replace(shelves[i], **{self.what: value})
        return msgspec.structs.replace(self.project, shelves=tuple(shelves))

    @property
    def now(self) -> float:
        """The size as it stands; of several shelves the least."""
        sizes: list[float] = [getattr(self.project.shelves[i], self.what) for i in self.indices]
        return min(sizes)

    def fits(self, step: int) -> bool:
        """Does the plan find room for everything at so many hundredths?"""
        return self.verdict(step / STEPS).fits

    def verdict(self, value: float) -> _Verdict:
        """What the plan says of a size. [mm]"""
        found = self.verdicts.get(value)
        if found is None:
            plan = self._plan(self.at(value))
            wrong = next((f for f in self._wrong(plan) if self._counts(f)), None)
            about = wrong.about if wrong else None
            shelves = self.project.shelves
            misfits = (m for m in plan.layout.misfits if m.index < len(shelves) and shelves[m.index].id == about)
            found = self.verdicts[value] = _Verdict(wrong, next(misfits, None))
        return found

    def likely(self, value: float) -> bool:
        """Does a bare layout find room for the nets at a size? [mm]"""
        project, shapes = self._shapes(value)
        shapes += apart_shapes(shapes)
        misfits = lay_out(project, [shape.size for shape in shapes])[0].misfits
        names = {shapes[m.index].shelf.id for m in misfits}
        return not names or (not names & self.own and names <= {about for _, about in self._excused})

    def framed(self, step: int) -> bool:
        """Has every shelf that is sized room inside for its frame?"""
        project, shapes = self._shapes(step / STEPS, self.indices)
        return all(_has_frame(project, shape) for shape in shapes)

    def refuses(self, thickness: float, step: int) -> bool:
        """Has one of the shelves that are sized a panel without an inside face in wood so thick? [mm, hundredths]"""
        return any(shape.size.thickest <= thickness for shape in self._shapes(step / STEPS, self.indices)[1])

    def _shapes(self, value: float, indices: Iterable[int] | None = None) -> tuple[Project, list[Shape]]:
        if self.stop():
            raise _StoppedError
        project = self.at(value)
        wanted = range(len(project.shelves)) if indices is None else indices
        return project, [shape_of(project, i) for i in wanted]

    def _plan(self, project: Project) -> Plan:
        if self.stop():
            raise _StoppedError
        return self.planning(project)

    def _wrong(self, plan: Plan) -> list[Finding]:
        warning = SPEAK_AGAINST.get(self.what)
        return [f for f in plan.findings if f.severity == "error" or f.code == warning]

    def _counts(self, finding: Finding) -> bool:
        """Is this error the size's doing?"""
        if finding.code == "tilt" or (finding.code == "reach" and self._out_of_reach):
            return False
        if finding.about.partition("/")[0] in self.own:
            return True
        return (finding.code, finding.about) not in self._excused

    @property
    def _excused(self) -> set[tuple[str, str]]:
        """Errors there are without the shelf as well.

        No `cached_property`: until Python 3.12 that holds a lock of all jobs while it works, and `stop` may pause one.
        """
        if self._excuses is None:
            others = tuple(s for s in self.project.shelves if s.id not in self.own)
            without = self._plan(msgspec.structs.replace(self.project, shelves=others))
            self._excuses = {(f.code, f.about) for f in self._wrong(without)}
        return self._excuses

    @cached_property
    def _out_of_reach(self) -> bool:
        """Is every sheet the shelf may come from too thick for the tilted blade?"""
        stocks = [s for i in self.indices for s in self.project.sheets if named(self.project.shelves[i], s)]
        reach = self.project.saw.depth_at_bevel + 1e-9
        return all(section_of(self.project, stock).bevel_face > reach for stock in stocks)


def _has_frame(project: Project, shape: Shape) -> bool:
    thickness = shape.stock.thickness
    wish = project.frame.thickness or thickness
    if shape.size.thickest <= thickness:
        return False
    return frame_of(project, shape.shelf, thickness, wish, shape.section).frame is not None


def _answer(job: _Job) -> Largest:
    top = int(min(_sheet_limit(job), LARGEST) * STEPS + 1e-4)  # of panels all cut apart some size meets no sheet
    least = _edge(lambda n: not job.framed(n), 0, top) + 1 if top > 0 and job.framed(top) else None
    found = _search(job, least or 1, top) if top > 0 else None
    if found is None:
        wrong = job.verdict(least / STEPS if least else job.now)
        text = wrong.finding.message if wrong.finding else ""
        return Largest(job.what, None, None, "", {}, tr("No {what} fits. {text}", what=job.what, text=text).rstrip())
    value = _on_a_fraction(job, found)
    while job.verdict(value + 1 / STEPS).fits:  # a limit that lies on a hundredth to the last bit
        value += 1 / STEPS
    size = snap_down(value, Unit(job.project.units))
    if not job.verdict(size).fits:
        size = value
    pointers = {f"/shelves/{i}/{job.what}": size for i in job.indices}
    reason = _reason(job, job.verdict(value + 1 / STEPS))
    return Largest(job.what, value, size, limit(job.project, size), pointers, reason)


def _search(job: _Job, least: int, top: int) -> int | None:
    """The largest step that fits, as far as the probes see; None for none."""
    guess = _edge(lambda n: job.likely(n / STEPS), least, top + 1) if job.likely(least / STEPS) else least
    known = int(job.now * STEPS)
    tries = (guess, *([known] if known <= top else []), least, *_between(least, top))
    fit = next((n for n in chain(tries, _refusing(job, top)) if job.fits(n)), None)
    above = fit
    while above is not None:  # each round leaves at most 5/6 of the sizes above
        fit = _raised(job, above, top)
        above = next((n for n in _between(fit + 1, top) if job.fits(n)), None)
    return fit


def _raised(job: _Job, fit: int, top: int) -> int:
    """The last of the steps from one that fits up to the first that is known not to."""
    if fit >= top or not job.fits(fit + 1):
        return fit
    steps = (round(value * STEPS) for value, verdict in job.verdicts.items() if not verdict.fits)
    return _edge(job.fits, fit + 1, min((n for n in steps if n > fit + 1), default=top + 1))


def _refusing(job: _Job, top: int) -> Iterator[int]:
    """The last steps at which panels are still too small to have an inside face in one of the sheets.

    Up to there the shelf comes from thinner wood, which may leave its frame the room that thick wood does not.
    """
    thicknesses = {stock.thickness for stock in job.project.sheets if stock.use != "frame"}
    for thickness in sorted(thicknesses, reverse=True):
        step = _edge(partial(job.refuses, thickness), 0, top + 1)
        if step > 0:
            yield step


def _edge(test: Callable[[int], bool], low: int, high: int) -> int:
    """Halving between a step that passes and one that does not: the last that passes, one that fails after it."""
    while high - low > 1:
        middle = (low + high) // 2
        if test(middle):
            low = middle
        else:
            high = middle
    return low


def _between(low: int, high: int) -> Iterator[int]:
    """Steps evenly above one, the highest first."""
    for n in range(PROBES, 0, -1):
        step = low + (high - low) * n // PROBES
        if step > low:
            yield step


def _on_a_fraction(job: _Job, step: int) -> float:
    """The size in mm: a 64th of an inch that lies less than a hundredth above it and fits is the limit meant."""
    value = step / STEPS
    fraction = snap_down((step + 1) / STEPS - 1e-7, Unit.INCH, 64)
    if fraction > value and job.verdict(fraction).fits and not job.verdict(fraction + 1 / STEPS).fits:
        return fraction
    return value


def _sheet_limit(job: _Job) -> float:
    """The size at which a net alone fills the roomiest sheet it may come from; no plan fits more. [mm]"""
    limits = []
    for i in job.indices:
        shelf = job.project.shelves[i]
        stocks = [s for s in job.project.sheets if named(shelf, s) and s.quantity > 0]
        limits.append(max((_net_limit(job, i, stock) for stock in stocks), default=0.0))
    return min(limits)


def _net_limit(job: _Job, index: int, stock: Sheet) -> float:
    """The size at which a net fills one sheet. A net's sides grow evenly with any of the three sizes. [mm]"""
    one, two = (shape_of(job.at(v), index, stock).net for v in (1000.0, 2000.0))
    room, shelf = trimmed(stock), job.project.shelves[index]
    low = shelf.at or room[:2]
    found = float("inf")
    for side, grown, free in ((one.length, two.length, room[2] - low[0]), (one.width, two.width, room[3] - low[1])):
        slope = (grown - side) / 1000.0
        if slope > 1e-9:
            found = min(found, 1000.0 + (free - side) / slope)
        elif side > free + 1e-6:
            return 0.0
    return max(0.0, found)


def _reason(job: _Job, more: _Verdict) -> str:
    """What 0.01 mm more would run into."""
    finding, misfit = more.finding, more.misfit
    if finding is None:
        return ""
    shelf, _, part = finding.about.partition("/")
    if part:
        return tr("With more, no room is left for {shelf}, {part}.", shelf=shelf, part=part_word(part))
    if misfit is not None and misfit.reason == "large" and misfit.stock is not None and shelf in job.own:
        return _full(job.project, job.project.shelves[misfit.index], misfit, misfit.stock)
    if shelf not in job.own:
        return tr("With more, {shelf} finds no room.", shelf=shelf)
    if misfit is not None and misfit.reason == "pin-outside":
        return tr("From where it is pinned, {shelf} reaches to the edge of the trimmed sheet.", shelf=shelf)
    if misfit is not None and misfit.reason == "pin-overlap" and misfit.other is not None:
        return tr(
            "From where it is pinned, {shelf} leaves just a cut to {id}.",
            shelf=shelf,
            id=job.project.shelves[misfit.other].id,
        )
    return finding.message


def _full(project: Project, shelf: Shelf, misfit: Misfit, stock: Sheet) -> str:
    along = misfit.over_x >= misfit.over_y
    if misfit.sheet is not None:
        return tr(
            "The room left on sheet {id} is used up {along} the grain.",
            id=stock.id,
            along="along" if along else "across",
        )
    room = trimmed(stock)
    inside = room[2] - room[0] if along else room[3] - room[1]
    side = "length" if along else "width"
    return tr(
        "{id} takes the whole {side} of sheet {id2}: {limit} inside its trim.",
        id=shelf.id,
        side=side,
        id2=stock.id,
        limit=limit(project, inside),
    )
