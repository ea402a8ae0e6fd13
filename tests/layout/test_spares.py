"""Spares: an end is really sawn from every piece that is said to make one."""

from math import cos, radians

import msgspec
import pytest
from hypothesis import given, settings

from core.document.model import FrameWish, KeepClear, KeptOut, Project, Saw, Sheet, Shelf
from core.geometry.net import NetPanel, inside_size
from core.layout.spares import SAMPLE, TEST, Spare, spares
from core.plan.make import make_plan
from core.plan.model import Plan
from core.plan.proof import prove
from core.plan.shapes import section_of, setbacks
from core.sawing.piece import Piece, saw_piece
from tests.conftest import examples
from tests.strategies import projects

WOOD = Sheet("A", 2440.0, 1220.0, 18.0, use="shell")
OTHER = Sheet("F", 2440.0, 1220.0, 18.0, use="frame")
THIN = msgspec.structs.replace(OTHER, id="thin", thickness=12.0)


def ends_of(plan: Plan, shelf: str) -> list[NetPanel]:
    net = next(net for net in plan.shapes if net.owner == shelf)
    return [panel for panel in net.panels if panel.role in ("left", "right")]


def sawn_from(plan: Plan, piece: Piece, panel: NetPanel, setback: float) -> Piece | None:
    """The end, sawn at the lower left of what is square through, `allowance` inside each edge that is mitred."""
    clean, bevel = plan.project.saw.allowance, radians(45.0 + plan.project.saw.overcut)
    x0, y0, _, _ = piece.clear_box()
    x0, y0 = x0 + clean * bool(panel.bevels[0]), y0 + clean * bool(panel.bevels[2])
    q = setbacks(panel, setback)
    cuts = (("x", x0, "high"), ("x", x0 + panel.length, "low"), ("y", y0, "high"), ("y", y0 + panel.width, "low"))
    for (axis, at, keep), tilted, back in zip(cuts, panel.bevels, q, strict=True):
        footprint = plan.project.saw.kerf / (cos(bevel) if tilted else 1.0)
        low, high = saw_piece(piece, axis, at, keep, back, footprint, ("", ""))
        kept = low if keep == "low" else high
        if kept is None:
            return None
        piece = kept
    return piece


@settings(max_examples=examples(60, 1000))
@given(projects(max_shelves=4))
def test_every_spare_end_comes_off_the_saw_whole(project: Project) -> None:
    plan = make_plan(project)
    pieces = prove(plan).pieces
    stocks = {s.id: s.source for s in plan.sheets}
    found = spares(plan)
    assert [s.length * s.width for s in found] == sorted((s.length * s.width for s in found), reverse=True)
    assert sorted(found, key=str) == sorted((s for sheet in stocks for s in spares(plan, sheet)), key=str)
    for spare in found:
        box = (spare.x, spare.y, spare.x + spare.length, spare.y + spare.width)
        assert box == pytest.approx(pieces[spare.piece].clear_box(), abs=1e-6)
        assert (spare.use == "spare end") == bool(spare.shelves)
        for shelf in spare.shelves:
            setback = section_of(project, stocks[spare.sheet]).setback
            assert any(_comes_out(plan, pieces[spare.piece], panel, setback) for panel in ends_of(plan, shelf))


def _comes_out(plan: Plan, piece: Piece, panel: NetPanel, setback: float) -> bool:
    end = sawn_from(plan, piece, panel, setback)
    if end is None:
        return False
    show, inside = end.show_box(), end.inside_box()
    want = (panel.length, panel.width, *inside_size(panel, setbacks(panel, setback)))
    have = (show[2] - show[0], show[3] - show[1], inside[2] - inside[0], inside[3] - inside[1])
    return all(abs(a - b) < 1e-5 for a, b in zip(have, want, strict=True))


def of_a_shelf(shelf: Shelf, **saw: float) -> tuple[Plan, tuple[Spare, ...]]:
    """Its plan, the frame from other wood, and its spares but for the two large offcuts beside and above the net."""
    plan = make_plan(Project((WOOD, OTHER), (shelf,), saw=Saw(**saw)))
    assert not plan.errors
    net = plan.nets[0]
    pieces, inside = prove(plan).pieces, (net.x + net.length - 1.0, net.y + net.width - 1.0)
    boxes = {spare: pieces[spare.piece].clear_box() for spare in spares(plan) if spare.sheet == net.sheet}
    return plan, tuple(s for s, box in boxes.items() if box[0] < inside[0] and box[1] < inside[1])


def test_the_corner_squares_make_ends_from_the_front() -> None:
    """Four corners fall out beside the strips, D by D less the set-back, with their clean-up (common practice)."""
    for allowance in (0.0, 0.8):
        for right, count in (("mitred", 4), ("open", 2)):
            shelf = Shelf("ledge", 1320.0, 210.0, 84.0, right=right)
            _, corners = of_a_shelf(shelf, allowance=allowance)
            assert [(s.use, s.shelves) for s in corners] == [("spare end", ("ledge",))] * count
            assert {round(s.length, 6) for s in corners} == {210.0 + allowance}


def test_scribe_is_in_the_end() -> None:
    _, corners = of_a_shelf(Shelf("ledge", 1320.0, 210.0, 84.0, scribe=9.0))
    assert {round(s.length, 6) for s in corners} == {219.0}
    assert {s.use for s in corners} == {"spare end"}


def test_corners_of_ends_from_the_top_are_too_small_for_ends() -> None:
    """Beside front and bottom H by H and H by D less the set-back are left: no end, H by D, comes from those."""
    plan, corners = of_a_shelf(Shelf("ledge", 1320.0, 210.0, 120.0, ends_from="top"))
    assert corners
    assert all(s.use != "spare end" for s in corners)
    rest = next(s for s in spares(plan) if s.sheet == "A1")
    assert rest.use == "spare end"  # from the rest of the sheet they do


def test_smaller_pieces_are_samples_and_tests() -> None:
    """Corners D by D - 18.3: lower than the end they make no end; 210 is a sample, 120 a test, 68 nothing."""
    for depth, height, use in ((210.0, 200.0, "finish sample"), (120.0, 110.0, "bevel test")):
        _, corners = of_a_shelf(Shelf("ledge", 1320.0, depth, height))
        assert {s.use for s in corners} == {use}
    assert of_a_shelf(Shelf("ledge", 1320.0, 68.0, 84.0))[1] == ()
    assert SAMPLE > TEST


def test_an_end_comes_from_its_own_kind_of_sheet() -> None:
    thick = Sheet("thick", 2440.0, 1220.0, 25.0, use="shell")
    shelves = (Shelf("a", 1000.0, 200.0, 90.0, sheet="A"), Shelf("b", 1000.0, 200.0, 90.0, sheet="thick"))
    plan = make_plan(Project((WOOD, thick, OTHER), shelves, frame=FrameWish(thickness=18.0)))
    kinds = {s.id: s.stock for s in plan.sheets}
    found = {kinds[s.sheet]: set[str]() for s in spares(plan)}
    for spare in spares(plan):
        found[kinds[spare.sheet]] |= set(spare.shelves)
    assert {"A": {"a"}, "thick": {"b"}}.items() <= found.items()
    assert found.get("F", set()) == set()
    assert {s.use for s in spares(plan) if kinds[s.sheet] == "F"} == {"bevel test"}  # as thick, but another face


def test_wood_of_another_thickness_tests_no_bevel() -> None:
    plan = make_plan(Project((WOOD, THIN), (Shelf("a", 1000.0, 200.0, 90.0),), frame=FrameWish(thickness=12.0)))
    assert {s.stock for s in plan.sheets} == {"A", "thin"}
    assert {s.sheet for s in spares(plan)} == {"A1"}


def test_no_shelf_no_spare_end() -> None:
    assert spares(make_plan(Project((WOOD,), ()))) == ()


@pytest.mark.parametrize(("more", "use"), [(1.5, "bevel test"), (1.7, "spare end")])
def test_an_end_needs_its_clean_up_at_each_mitred_edge(more: float, use: str) -> None:
    """A strip above the net, as long as it: H and twice the 0.8 of clean-up it has to be wide."""
    shelf, saw = Shelf("ledge", 1000.0, 210.0, 84.0, left="open"), Saw(overcut=0.0, allowance=0.8)
    loss = saw.kerf / cos(radians(45.0)) + saw.allowance
    net = (1000.0 + 210.0 + loss, 2 * 210.0 + 84.0 + 2 * loss)
    wood = Sheet("A", net[0], net[1] + saw.kerf + 84.0 + more, 18.0, trim=0.0, use="shell")
    found = [s for s in spares(make_plan(Project((wood, OTHER), (shelf,), saw=saw))) if s.sheet == "A1"]
    assert (found[0].use, found[0].length) == (use, pytest.approx(net[0]))


@pytest.mark.parametrize(
    ("high", "of", "use"),
    [
        (60.0, "faces", "spare end"),
        (150.0, "faces", "bevel test"),
        (150.0, "net", "bevel test"),
        (150.0, "front", "spare end"),
    ],
)
def test_a_corner_with_a_bruise_makes_an_end_only_beside_it(high: float, of: KeptOut, use: str) -> None:
    """Of a corner 210 deep, 150 clear of a bruise make an end 84 high, 60 do not; only a front keeps out of some."""
    bruise = KeepClear(((0.0, 0.0), (200.0, 0.0), (200.0, high), (0.0, high)), of=of)
    wood = msgspec.structs.replace(WOOD, keep_clear=(bruise,))
    plan = make_plan(Project((wood, OTHER), (Shelf("ledge", 1320.0, 210.0, 84.0, at=(5.0, 5.0)),)))
    assert not plan.errors
    assert {s.use for s in spares(plan) if s.x < 100.0 and s.y < 100.0} == {use}
