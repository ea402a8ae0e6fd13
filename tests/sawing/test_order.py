"""The order of cuts is one a careful maker would choose: as few tilts and flips as any, and nothing cut too early."""

import msgspec
import pytest
from hypothesis import assume, given, settings

from core.document.model import Project, Saw, Sheet, Shelf
from core.plan.make import make_plan
from core.plan.model import Cut, Plan
from core.plan.proof import prove
from core.sawing.guide import guide_side
from core.sawing.setups import flips, setup_numbers, tilt_changes
from tests.conftest import examples
from tests.sawing.jobs import jobs
from tests.sawing.least import least

SMALL = settings(max_examples=examples(60, 300))


@SMALL
@given(jobs(max_shelves=1))
def test_no_admissible_order_of_one_shelf_has_fewer_tilts_or_flips(project: Project) -> None:
    check_least(project)


@SMALL
@given(jobs(min_shelves=2))
def test_no_admissible_order_of_two_shelves_has_fewer_tilts_or_flips(project: Project) -> None:
    check_least(project)


def check_least(project: Project) -> None:
    plan = make_plan(project)
    assert (tilt_changes(plan.cuts), flips(plan.cuts, project.saw)) == least(plan)


@settings(max_examples=examples(60, 1000))
@given(jobs(max_shelves=6))
def test_the_order_can_be_sawn_and_pieces_are_named_as_they_fall(project: Project) -> None:
    plan = make_plan(project)
    prove(plan)
    for sheet in plan.sheets:
        names = [name for cut in plan.cuts if cut.sheet == sheet.id for name in cut.makes if name is not None]
        assert names == [f"{sheet.id}.{n}" for n in range(1, len(names) + 1)]


@SMALL
@given(jobs(max_shelves=6))
def test_a_pass_is_one_line_of_one_setup_and_is_not_made_twice(project: Project) -> None:
    plan = make_plan(project)
    passes: dict[int, set[object]] = {}
    for cut, setup in zip(plan.cuts, setup_numbers(plan.cuts, project.saw), strict=True):
        side = guide_side(project.saw, cut.bevel, cut.keep)
        passes.setdefault(cut.pass_, set()).add((cut.sheet, cut.kind, cut.at, cut.bevel, cut.keep, side, setup))
    assert all(len(lines) == 1 for lines in passes.values())
    lines: dict[object, set[int]] = {}
    for cut in plan.cuts:
        if cut.bevel and cut.kind == "crosscut":
            lines.setdefault((_line(cut), _band(plan, cut)), set()).add(cut.pass_)
    assert all(len(numbers) == 1 for numbers in lines.values())


def test_a_panel_cut_apart_parts_no_pass_of_the_net_beside_it() -> None:
    """Its own bevel lies on the same line as those of the net's left ends, both being laid at the sheet's end."""
    wide = Shelf("wide", 250.0, 156.4, 68.8)
    cut = Shelf("cut", 250.0, 150.8, 100.0, ends_from="top", apart=("left",))
    sheet = Sheet("A", 1220.0, 600.0, 21.4, trim=0.0)
    plan = make_plan(Project(sheets=(sheet,), shelves=(wide, cut), saw=Saw(kerf=0.8)))
    bevels = [c for c in plan.cuts if c.bevel and c.kind == "crosscut"]
    lines: dict[object, set[int]] = {}
    for c in bevels:
        lines.setdefault((_line(c), _band(plan, c)), set()).add(c.pass_)
    at_one_line = {_line(c) for c in bevels if c.about == "cut/left"} & {
        _line(c) for c in bevels if c.about == "cut/bottom"
    }
    assert at_one_line
    assert all(len(numbers) == 1 for numbers in lines.values())


def _line(cut: Cut) -> tuple[object, ...]:
    return (cut.sheet, cut.kind, round(cut.at, 6), cut.bevel, cut.keep)


def _band(plan: Plan, cut: Cut) -> float:
    """The lower edge of the net, or the panel cut apart, whose edge a cut makes."""
    shelf, _, role = cut.about.rpartition("/")
    own = {net.panel: net.y for net in plan.nets if net.shelf == shelf}
    return own.get(role, own[None])


@SMALL
@given(jobs(max_shelves=6))
def test_bevels_are_ripped_before_they_are_crosscut_and_frames_come_last(project: Project) -> None:
    plan = make_plan(project)
    parts = {part.id for frame in plan.frames for part in frame.parts}
    work = [(cut.about in parts, bool(cut.bevel) and cut.kind == "crosscut") for cut in plan.cuts if cut.bevel]
    assert work == sorted(work)
    of_frames = [(cut.about in parts, cut.about in parts and cut.kind == "crosscut") for cut in plan.cuts]
    assert of_frames == sorted(of_frames)


@SMALL
@given(jobs(max_shelves=6))
def test_a_table_saws_fence_bears_on_sound_edges_alone(project: Project) -> None:
    """Common practice: a fence bears on a square sawn edge or a sawn toe, never on a factory edge or on the rough
    arris that the other cut of a V has left.

    Not asked of the trims (a sheet is roughed out and trued with a guided saw), nor of frame strips held in a sled.
    So is a square crosscut between two V's, where neither edge is sound: it is made on the line.
    Where the blade leans so that the fence lies on the waste, no order does it: a V's second cut has but the sliver
    between fence and blade.
    """
    project = msgspec.structs.replace(project, saw=msgspec.structs.replace(project.saw, kind="table"))
    assume(guide_side(project.saw, 45.0, "low") == "low")
    plan = make_plan(project)
    parts = {part.id for frame in plan.frames for part in frame.parts}
    rough = {sheet.id: _edges(sheet.source.trim > 0.0) for sheet in plan.sheets}
    for cut in plan.cuts:
        edges = rough.pop(cut.piece)
        axis = "y" if cut.kind == "rip" else "x"
        between = not cut.bevel and edges[axis, "low"] and edges[axis, "high"]
        sled = cut.kind == "crosscut" and (cut.about in parts or between)
        if cut.about != "trim" and not sled:
            assert not edges[axis, guide_side(project.saw, cut.bevel, cut.keep)], cut
        for name, side, facing in zip(cut.makes, ("low", "high"), ("high", "low"), strict=True):
            if name is not None:
                rough[name] = {**edges, (axis, facing): cut.keep != side and cut.bevel > 0.0}


def _edges(rough: bool) -> dict[tuple[str, str], bool]:
    return {(axis, side): rough for axis in "xy" for side in ("low", "high")}


GUIDED = Saw(kind="guided", lean="under", face="up")
SHEET = Sheet("A", 2440.0, 1220.0)


@pytest.mark.parametrize("kind", ["guided", "table"])
def test_the_four_rips_and_the_crosscuts_of_one_shelf(kind: str) -> None:
    """Common practice: the front while the guide lies on the wide piece with the datum back, one flip, the bottom's
    bevel on the new arris, the front's other bevel packed out by the bottom; crosscuts alike, ends last."""
    saw = msgspec.structs.replace(GUIDED, kind=kind)
    plan = make_plan(Project((SHEET,), (Shelf("s", 900.0, 200.0, 80.0),), saw=saw))
    bevels = [cut for cut in plan.cuts if cut.bevel]
    sides = [(cut.about[2:], guide_side(saw, cut.bevel, cut.keep)) for cut in bevels if cut.kind == "rip"]
    assert sides == [("front", "high"), ("top", "high"), ("bottom", "low"), ("front", "low")]
    passes: dict[int, list[Cut]] = {}
    for cut in bevels:
        if cut.kind == "crosscut":
            passes.setdefault(cut.pass_, []).append(cut)
    made = [({cut.about[2:] for cut in cuts}, guide_side(saw, 45.0, cuts[0].keep)) for cuts in passes.values()]
    body = {"top", "front", "bottom"}
    assert made == [(body, "high"), ({"right"}, "high"), (body, "low"), ({"left"}, "low")]


def test_the_upper_edge_is_trued_first_then_the_left_end() -> None:
    plan = make_plan(Project((SHEET,), (Shelf("s", 900.0, 200.0, 80.0),)))
    edge, end = plan.cuts[:2]
    assert (edge.kind, edge.at, edge.keep) == ("rip", SHEET.width - SHEET.trim, "low")
    assert (end.kind, end.at, end.keep) == ("crosscut", SHEET.trim, "high")


def test_nets_with_no_room_for_a_bevel_between_them_are_parted_before_any_bevel() -> None:
    """Both shelves have their ends from the top, so that a bevel of either faces the other across one kerf: parted
    after the bevels, the blade would be tilted back and forth twice more."""
    shelves = tuple(Shelf(name, 500.0, 200.0, 80.0, ends_from="top") for name in "st")
    plan = make_plan(Project((SHEET,), shelves))
    assert len({net.y for net in plan.nets}) == 1
    assert tilt_changes(plan.cuts) == 2


def test_bevels_begin_on_the_side_where_the_guide_lies_already() -> None:
    """A net as long as the trimmed sheet wants no crosscut after the rip along its upper edge, which is guided low."""
    plan = make_plan(Project((SHEET,), (Shelf("s", 2430.0, 200.0, 80.0, left="open", right="open"),), saw=GUIDED))
    first = next(n for n, cut in enumerate(plan.cuts) if cut.bevel)
    before, bevel = plan.cuts[first - 1 : first + 1]
    assert before.kind == bevel.kind == "rip"
    assert guide_side(GUIDED, bevel.bevel, bevel.keep) == before.keep
    assert (tilt_changes(plan.cuts), flips(plan.cuts, GUIDED)) == least(plan)
