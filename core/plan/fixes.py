"""Ways out, tried before they are offered: each is planned with the change made."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

import msgspec

from core.document.errors import ProjectError
from core.document.model import APART, Project, Sheet, Shelf
from core.document.patch import apply_pointers
from core.findings.way import Way
from core.findings.ways_out import ways_out
from core.findings.words import limit, sizes_below
from core.kept import Kept
from core.layout.bands import lay_out
from core.layout.largest import Dimension, likely
from core.plan.model import Finding, Fix, Plan, Pointers
from core.plan.shapes import Shape, apart_shapes, shape_of
from core.wall.places import lies_free
from core.wall.studs import same_wood

MOST_FIXES = 12
LEAST_SHARE = 0.6  # a size cut down to less than this is another shelf, not a way out
# What may be spent on a plan's ways out, counted in plans of one shelf; a bare layout costs a fraction of a plan.
SPENT = 150.0
BARE = 0.15

# Findings whose ways out move a shelf on the wall, to where they are known to be gone: where the frame keeps its
# sticks not a cut is another one, and no whole plan has to be tried.
MOVED = frozenset(("more-studs", "overhang", "clear-height", "keep-out", "cable-zone"))

_SLID: Kept[bool] = Kept(256)  # shelves whose slide along the wall was tried

Planning = Callable[[Project], Plan]
Told = tuple[str, str]  # code and about of a finding


def _go_on() -> None:
    """Between two tries, where nobody wants to stop."""


def with_fixes(plan: Plan, planning: Planning, between: Callable[[], None] = _go_on) -> Plan:
    """The plan with, for each finding, those fixes that make it go and make nothing else wrong.

    planning: makes a plan without trying fixes. between: called between two tries; what it raises ends them.
    """
    trial = _Trial(plan, planning, between)
    findings = [msgspec.structs.replace(finding, fixes=trial.good(finding)) for finding in plan.findings]
    return msgspec.structs.replace(plan, findings=tuple(findings))


def without_fixes(plan: Plan) -> Plan:
    """The plan while a hand drags: what is wrong is said, ways out come when the hand rests."""
    return msgspec.structs.replace(plan, findings=tuple(msgspec.structs.replace(f, fixes=()) for f in plan.findings))


def _shapes(project: Project) -> list[Shape]:
    shapes = [shape_of(project, i) for i in range(len(project.shelves))]
    return [*shapes, *apart_shapes(shapes)]


def _is_frame_of(shelf: str, about: str) -> bool:
    """Is this a part of that shelf's frame?"""
    return about.startswith(f"{shelf}/") and about.rpartition("/")[2] not in APART


def _told(findings: Iterable[Finding]) -> set[Told]:
    return {(f.code, f.about) for f in findings}


def _moved(shelf: Shelf, key: Sequence[str], value: object) -> Shelf | None:
    """A shelf that hangs with its place on the wall changed, or its frame's in it; None for any other change."""
    if shelf.mount is None or not isinstance(value, float):
        return None
    if key == ["frame_shift"]:
        return msgspec.structs.replace(shelf, frame_shift=value)
    if key in (["mount", "x"], ["mount", "top"]):
        return msgspec.structs.replace(shelf, mount=msgspec.structs.replace(shelf.mount, **{key[1]: value}))
    return None


class _Trial:
    """The ways out of one plan, tried one after the other as long as there is something to spend."""

    def __init__(self, plan: Plan, planning: Planning, between: Callable[[], None]) -> None:
        self.plan, self.project, self.planning, self.between = plan, plan.project, planning, between
        self.errors = _told(plan.errors)
        self.cost = float(max(1, len(plan.project.shelves)))  # of a plan
        self.left = max(SPENT, 8 * self.cost)
        self.alone: dict[tuple[Dimension, int | None], float] = {}
        self.after: dict[tuple[tuple[str, str], ...], tuple[set[Told], set[Told]]] = {}  # what is told after a fix

    def good(self, finding: Finding) -> tuple[Fix, ...]:
        """The fixes to offer for a finding: those that bring nothing new, else those that only lack frame stock."""
        moved = self._leaving_cuts(finding) if finding.code in MOVED else ()
        if moved:
            return moved
        good: list[Fix] = []
        second: list[Fix] = []  # the finding goes, but the frame of the same shelf then finds no room
        for fix, wrong in self._helping(finding):
            if any(fix.set == other.set for other in good):
                continue
            if not wrong:
                good.append(fix)
            elif all(_is_frame_of(finding.about, about) for _, about in wrong):
                second.append(fix)
            if len(good) == MOST_FIXES:
                break
        return tuple(good or second)

    def _leaving_cuts(self, finding: Finding) -> tuple[Fix, ...]:
        """The fixes that move a shelf on the wall and leave its frame's sticks, and so every cut, as they are."""
        return tuple(fix for fix in finding.fixes if all(self._keeps_sticks(at, x) for at, x in fix.set.items()))

    def _keeps_sticks(self, pointer: str, value: object) -> bool:
        """Up and down a frame stays what it is; along the wall its ribs may have to make way for other studs."""
        _, _, number, *rest = pointer.split("/")
        project, index = self.project, int(number)
        shelf = project.shelves[index]
        moved = _moved(shelf, rest, value)
        if moved is None or moved.mount is None or not lies_free(project, index, moved.mount):
            return False
        if rest[-1] == "top":
            return True
        frame = next((frame for frame in self.plan.frames if frame.shelf == shelf.id), None)
        if frame is None:
            return False
        stock = self._stock(shelf.id)
        source = (project.frame, project.wall, project.screw, project.saw, shelf, stock, frame)

        def tried() -> bool:
            return same_wood(project, shape_of(project, index, stock), frame, moved)

        return _SLID.get((shelf.id, rest[-1], value), source, tried)

    def _stock(self, shelf: str) -> Sheet | None:
        """The stock a shelf's net has found, None where it has none."""
        sheets = {sheet.id: sheet.source for sheet in self.plan.sheets}
        return next((sheets[net.sheet] for net in self.plan.nets if net.shelf == shelf and net.panel is None), None)

    def _helping(self, finding: Finding) -> Iterator[tuple[Fix, set[Told]]]:
        """Each fix that makes the finding go, with the errors it brings."""
        for fix in finding.fixes:
            wrong = self._wrong(fix, finding)
            if wrong is not None:
                yield fix, wrong
        done = set()
        for way, index in self._ways(finding):
            if way.once in done:
                continue
            for fix, wrong in self._led(way, index, finding):
                if way.once and not wrong:
                    done.add(way.once)
                yield fix, wrong

    def _ways(self, finding: Finding) -> Iterator[tuple[Way, int]]:
        if finding.code != "no-room":
            return
        shapes: Sequence[Shape] = ()
        for before, misfit in enumerate(m for m in self.plan.layout.misfits if m.reason != "main"):
            shapes = shapes or _shapes(self.project)
            shape = shapes[misfit.index]
            if shape.name == finding.about:
                for way in ways_out(self.project, shapes, misfit, before):
                    yield way, shape.shelf_index

    def _led(self, way: Way, index: int, finding: Finding) -> Iterator[tuple[Fix, set[Told]]]:
        """Where a way leads: the change by itself; where that is not enough, with the largest size that then fits."""
        if way.set:
            fix = Fix(way.text, way.set)
            wrong = self._wrong(fix, finding)
            if wrong is not None:
                yield fix, wrong
            if wrong == set():
                return
        if way.size is not None:
            yield from self._cut_down(way, way.size, index, finding)

    def _cut_down(self, way: Way, size: Dimension, index: int, finding: Finding) -> Iterator[tuple[Fix, set[Told]]]:
        """The change with the largest size that then fits: as a bare layout has it, else as whole plans have it."""
        changed = self._changed(way.set)
        if changed is None:
            return
        which = None if way.together else index
        now = getattr(self.project.shelves[index], size)
        sizes = sizes_below(self.project, now, LEAST_SHARE * now)
        if way.set:  # only more than the size alone would give makes the change worth it
            least = self._alone(size, which, sizes)
            sizes = [more for more in sizes if more > least]
        value = self._likely(changed, size, which, sizes)
        if value is None:
            return
        fix = self._sized(way, size, which, value)
        wrong = self._wrong(fix, finding)
        if wrong is not None:
            yield fix, wrong
        if wrong != set():  # frame parts lack room: a smaller size may leave it
            below = [self._sized(way, size, which, less) for less in sizes if less < value]
            best = self._last_good(below, finding)
            if best is not None:
                yield best, set()

    def _likely(self, project: Project, size: Dimension, which: int | None, sizes: Sequence[float]) -> float | None:
        return likely(project, size, which, sizes, lambda: not self._pay(BARE * self.cost))

    def _alone(self, size: Dimension, which: int | None, sizes: Sequence[float]) -> float:
        """The largest of the sizes that likely fits with nothing else changed, 0 for none. [mm]"""
        key = (size, which)
        if key not in self.alone:
            self.alone[key] = self._likely(self.project, size, which, sizes) or 0.0
        return self.alone[key]

    def _last_good(self, fixes: Sequence[Fix], finding: Finding) -> Fix | None:
        """Of fixes by ascending size the last that brings nothing new, found by halving."""
        if not fixes or self._wrong(fixes[0], finding) != set():
            return None
        low, high = 0, len(fixes)
        while high - low > 1:
            middle = (low + high) // 2
            if self._wrong(fixes[middle], finding) == set():
                low = middle
            else:
                high = middle
        return fixes[low]

    def _sized(self, way: Way, size: Dimension, index: int | None, value: float) -> Fix:
        which = range(len(self.project.shelves)) if index is None else (index,)
        sizes: Pointers = {f"/shelves/{i}/{size}": value for i in which}
        return Fix(way.sized.format(limit(self.project, value)), {**way.set, **sizes})

    def _changed(self, pointers: Pointers) -> Project | None:
        """The project with a change made, None where it cannot be."""
        try:
            return apply_pointers(self.project, pointers) if pointers else self.project
        except ProjectError:
            return None

    def _pay(self, cost: float) -> bool:
        self.between()
        self.left -= cost
        return self.left >= 0.0

    def _wrong(self, fix: Fix, finding: Finding) -> set[Told] | None:
        """New errors the fix would bring; None where it cannot be made or does not make the finding go."""
        key = tuple((at, str(value)) for at, value in sorted(fix.set.items()))
        if key not in self.after:
            changed = self._changed(fix.set)
            if changed is None or not self._pay(BARE * self.cost) or not self._room_for(finding, changed):
                return None
            if not self._pay(self.cost):
                return None
            plan = self.planning(changed)
            self.after[key] = _told(plan.findings), _told(plan.errors) - self.errors
        told, wrong = self.after[key]
        return None if (finding.code, finding.about) in told else wrong

    def _room_for(self, finding: Finding, changed: Project) -> bool:
        """Does a bare layout find room for what the finding is about? Quick, and most changes end here."""
        index = next((i for i, shelf in enumerate(changed.shelves) if shelf.id == finding.about), None)
        if finding.code != "no-room" or index is None:
            return True
        layouts = lay_out(changed, [shape.size for shape in _shapes(changed)])
        return any(all(misfit.index != index for misfit in layout.misfits) for layout in layouts)
