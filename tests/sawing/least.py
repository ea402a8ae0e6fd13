"""The fewest tilts and flips any order of a plan's cuts can have: an exhaustive search, apart from the solver.

The cuts that are bevelled are derived from the wanted panel edges alone, so which cut of a V comes first is free. What
is given is which square cuts are made (the plan's own) and what the trade asks of an order:

    a piece exists before it is cut, and a square parting round a net comes before the net's bevels
    all bevels along the grain come before those across it, of panels that are cut apart too
    sheets are trimmed and parted one after the other; rips round a net come before the crosscuts beside it
    partings, too, are "all rips, then all crosscuts": none is crosscut while another could be ripped
    frames come after shells, since the cavity is measured first; all strips are ripped before any is crosscut

While the saw is set up, everything that can be cut with it may as well be cut at once: that never forbids anything
later. So a state of the search is the set of cuts made, and a move is a set-up and all it can do.
"""

from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from core.document.model import Saw
from core.plan.model import Cut, Plan

Lie = tuple[float, str, str]  # tilt, kind, side of the guide
Score = tuple[int, int]  # changes of tilt, flips
EDGES = {"low_x": ("crosscut", 0, "high"), "high_x": ("crosscut", 0, "low"), "low_y": ("rip", 1, "high")} | {
    "high_y": ("rip", 1, "low")
}


class Task(NamedTuple):
    """A cut that has to be made, how the saw is set up for it, the cuts that come before it, and is it a parting?"""

    lie: Lie
    before: frozenset[int]
    parting: bool = False


def least(plan: Plan) -> Score:
    """The fewest changes of tilt, and with those the fewest flips, of all admissible orders."""
    tasks = tasks_of(plan)
    everything = frozenset(range(len(tasks)))

    @cache
    def rest(done: frozenset[int], last: Lie | None) -> Score:
        if done == everything:
            return (0, 0)
        best: Score | None = None
        free = [tasks[i] for i in everything - done if tasks[i].before <= done]
        ready = {task.lie for task in free}
        if any(task.parting and task.lie[1] == "rip" for task in free):
            ready = {lie for lie in ready if lie[1] == "rip"}
        for lie in ready:
            here = set(done)
            while more := {i for i in everything if i not in here and tasks[i].lie == lie and tasks[i].before <= here}:
                here |= more
            tilts, flips = rest(frozenset(here), lie)
            if last is not None:
                tilts += last[0] != lie[0]
                flips += last[1] == lie[1] and last[2] != lie[2]
            if best is None or (tilts, flips) < best:
                best = (tilts, flips)
        assert best is not None
        return best

    return rest(frozenset(), None)


def side_of_guide(saw: Saw, bevel: float, keep: str) -> str:
    """A square cut is guided on the part it keeps. The foot of a tilted blade runs under the guide or away from it,
    with the show face up or down: that the toe comes to the show face of the kept part, the guide lies on it, or, where
    one of both is the other way, across the line from it (common practice)."""
    across = bevel > 0.0 and (saw.lean == "away") != (saw.face == "down")
    return keep if not across else {"low": "high", "high": "low"}[keep]


def tasks_of(plan: Plan) -> list[Task]:
    """The square cuts of the plan, and each bevelled cut that the panels want."""
    saw = plan.project.saw
    square = [cut for cut in plan.cuts if not cut.bevel]
    parts = {part.id for frame in plan.frames for part in frame.parts}
    homes = _homes(plan)
    rips, crosscuts = _wanted(plan, homes)
    bevels = [*rips, *crosscuts]
    number = {cut.n: i for i, cut in enumerate(square)}
    maker = {name: cut.n for cut in plan.cuts for name in cut.makes if name is not None}
    tasks = []
    late = {c.n for c in square if _after_bevels(plan, c, maker)}
    for cut in square:
        frame = cut.about in parts
        before = {number[n] for n in _makers(plan, cut, maker) if n in number}
        if frame:
            before |= {number[c.n] for c in square if c.about not in parts}
            before |= {len(square) + i for i in range(len(bevels))}
            if cut.kind == "crosscut":
                before |= {number[c.n] for c in square if c.about in parts and c.kind == "rip"}
        elif cut.n in late:
            home = {homes[p.id] for p in plan.panels if p.sheet == cut.sheet and p.shelf == cut.about.partition("/")[0]}
            before |= {len(square) + i for i, (run, *_) in enumerate(bevels) if run in home}
        else:
            before |= {number[c.n] for c in square if c.n < cut.n and c.n not in late and _waits(plan, c, cut)}
        parting = not frame and cut.n not in late and cut.about != "trim"
        tasks.append(Task((0.0, cut.kind, side_of_guide(saw, 0.0, cut.keep)), frozenset(before), parting))
    for run, kind, bevel, _, keep in bevels:
        before = {number[c.n] for c in square if c.n not in late and c.sheet == run[0] and c.about not in parts}
        if kind == "crosscut":
            before |= {len(square) + i for i in range(len(rips))}
        tasks.append(Task((bevel, kind, side_of_guide(saw, bevel, keep)), frozenset(before)))
    return tasks


Wanted = tuple[tuple[str, int], str, float, float, str]  # run, kind, tilt, place, side kept


def _wanted(plan: Plan, homes: dict[str, tuple[str, int]]) -> tuple[list[Wanted], list[Wanted]]:
    """Every bevelled line of every run of nets: panels whose edges lie on one line are cut there in one go."""
    lines: set[Wanted] = set()
    for panel in plan.panels:
        if panel.sheet is None:
            continue
        for edge, bevel in panel.bevels.items():
            kind, axis, keep = EDGES[edge]
            low = (panel.x, panel.y)[axis]
            assert low is not None
            at = low if edge.startswith("low") else low + panel.show[axis]
            lines.add((homes[panel.id], kind, bevel, round(at, 4), keep))
    ordered = sorted(lines)
    return [w for w in ordered if w[1] == "rip"], [w for w in ordered if w[1] == "crosscut"]


def _homes(plan: Plan) -> dict[str, tuple[str, int]]:
    """The piece that each placed panel is bevelled out of: the last that square cuts alone have made."""
    parent = {name: cut for cut in plan.cuts for name in cut.makes if name is not None}
    homes = {}
    for panel in plan.panels:
        if panel.piece is None or panel.sheet is None:
            continue
        piece, first = panel.piece, None
        while piece in parent:
            cut = parent[piece]
            if cut.bevel:
                first = cut.n
            piece = cut.piece
        # the number of the earliest bevelled cut on the way to it names the piece it is made on
        homes[panel.id] = (panel.sheet, first or 0)
    return homes


def _makers(plan: Plan, cut: Cut, maker: dict[str, int]) -> Iterable[int]:
    """The numbers of all cuts that a cut's piece comes from."""
    piece = cut.piece
    while piece in maker:
        yield maker[piece]
        piece = plan.cuts[maker[piece] - 1].piece


def _after_bevels(plan: Plan, cut: Cut, maker: dict[str, int]) -> bool:
    return any(plan.cuts[n - 1].bevel for n in _makers(plan, cut, maker))


def _waits(plan: Plan, first: Cut, cut: Cut) -> bool:
    """Must a trim or a parting wait for one that the plan has before it?"""
    if first.sheet != cut.sheet:
        return first.sheet < cut.sheet or _order(plan, first.sheet) < _order(plan, cut.sheet)
    if "trim" in (first.about, cut.about):
        return True
    return first.about == cut.about and first.kind == "rip" and cut.kind == "crosscut"


def _order(plan: Plan, sheet: str) -> int:
    return [s.id for s in plan.sheets].index(sheet)
