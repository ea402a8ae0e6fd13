"""What the pages of words say, read back."""

from math import ceil

import msgspec
import pytest

from core.document.model import Alcove, KeepOut, Wall
from core.drawing.frame import draw_frame
from core.drawing.glueup import draw_fold, draw_mouth, fold_order, taped
from core.drawing.label import labels_of
from core.drawing.model import Area, Ordinates, Sign, Text
from core.drawing.wall import draw_wall, frame_box
from core.leaves.finish import finish_leaf
from core.leaves.frame import frame_leaves
from core.leaves.glue import alike, glue_leaves, glue_table
from core.leaves.install import install_leaf
from core.leaves.model import Leaf, Notice, Picture, Rows, Words
from core.leaves.reader import public_plan
from core.leaves.templates import drill_strips
from core.leaves.wall import keep_out_table, wall_leaf
from core.lengths import Unit, show_length, show_mass
from core.plan.make import make_plan
from core.wall.places import hung
from tests.drawing.plans import hallway, plan_of


def words_of(leaf: Leaf | None) -> str:
    """All sentences and cells of a leaf."""
    assert leaf is not None
    found: list[str] = []
    for block in leaf.blocks:
        if isinstance(block, (Words, Notice)):
            found += [block.heading, *block.lines]
        elif isinstance(block, Rows):
            found += [block.table.title, *(cell for row in block.table.rows for cell in row), *block.table.notes]
    return " ".join(found)


def test_the_shells_top_lies_on_the_frame() -> None:
    """Design, wall: a frame's upper edge is one thickness under the top's show face."""
    plan = plan_of("hallway")
    for one in hung(plan.project):
        frame = next(frame for frame in plan.frames if frame.shelf == one.shelf.id)
        box = frame_box(plan, one, frame)
        thickness = next(panel.thickness for panel in plan.panels if panel.shelf == one.shelf.id)
        assert box[3] == pytest.approx(one.mount.top - thickness)
        assert box[3] - box[1] == pytest.approx(frame.height)
        on_wall = [box[0] + screw.x for screw in frame.screws]
        assert on_wall == pytest.approx(sorted(set(frame.studs)))


def test_the_wall_draws_what_is_in_the_way() -> None:
    wall = Wall(keep_outs=(KeepOut(500.0, 300.0, 80.0, 80.0), KeepOut(900.0, 300.0, 40.0, 900.0, "pipe")))
    drawing = draw_wall(make_plan(hallway(wall=wall)))
    assert sum(isinstance(item, Area) and item.layer == "keepout" for item in drawing.items) == 2
    assert {"socket", "pipe"} <= {item.text for item in drawing.items if isinstance(item, Text)}


def test_what_is_in_the_way_is_listed_with_its_places_and_blanks() -> None:
    wall = Wall(keep_outs=(KeepOut(900.0, 300.0, 40.0, 900.0, "pipe"),))
    rows = keep_out_table(make_plan(hallway(wall=wall, units="mm"))).rows
    assert rows == (("pipe", "900 mm to 940 mm", "300 mm to 1200 mm", "________"),)


def test_an_alcoves_widths_and_a_bow_are_tables_with_blanks() -> None:
    wall = Wall(alcove=Alcove((2000.0, 2001.0, 2002.0), (2003.0, 2004.0, 2005.0)), bow=((100.0, 0.0), (900.0, 6.35)))
    leaf = words_of(wall_leaf(make_plan(hallway(wall=wall))))
    assert "at the front" in leaf
    assert '1/4"' in leaf
    assert "________" in leaf


def test_no_wall_no_pages_of_the_wall() -> None:
    plan = public_plan(plan_of("hallway"))
    assert wall_leaf(plan) is None
    assert install_leaf(plan) is None
    assert [panel.show for panel in plan.panels] == [panel.show for panel in plan_of("hallway").panels]
    assert not any(frame.screws for frame in plan.frames)


def test_folds_begin_with_the_ends_and_end_with_the_bottom() -> None:
    for net in plan_of("hallway").shapes:
        order = fold_order(net)
        ends = [role for role in order if role in ("left", "right")]
        assert order == (*ends, "top", "bottom")
        assert len(taped(net)) == len(net.panels) - 1  # a tree: one hinge for each panel but the first


def test_tape_is_cut_at_both_ends_of_every_seam_it_lies_on() -> None:
    plan = plan_of("hallway")
    for net in plan.shapes:
        cuts = [item for item in draw_fold(plan, net.owner).items if isinstance(item, Sign)]
        assert len(cuts) == 2 * len(taped(net))


def test_glue_length_and_time() -> None:
    """60 x 10 x 2-1/2 in: 2L + nH + 2nD = 165 in; both faces at 10 ft a minute, common practice: 2 x 165 / 120, "
    "so 3 min."""
    plan = plan_of("golden")
    table = glue_table(plan, plan.project.shelves[0], plan.frames[0])
    cells = dict(table.rows)
    assert cells["Seams to glue, all together"] == '165"'
    assert cells["Spreading both faces of each takes about"] == f"{ceil(2.0 * 165.0 * 25.4 / 50.0 / 60.0)} min"


def test_shells_that_are_alike_share_a_page() -> None:
    shelf = hallway().shelves[0]
    twins = (shelf, msgspec.structs.replace(shelf, id="twin", mount=None), hallway().shelves[1])
    plan = make_plan(hallway(shelves=twins))
    assert [[s.id for s in group] for group in alike(plan)] == [["ledge", "twin"], ["short"]]
    assert len(list(glue_leaves(plan))) == 1 + 2  # how it goes, then each kind


def test_the_mouth_has_its_spacers() -> None:
    plan = plan_of("hallway")
    for frame in plan.frames:
        packers = [i for i in draw_mouth(plan, frame).items if isinstance(i, Area) and i.layer == "packer"]
        heights = {point[1] for item in packers for point in item.points}
        assert heights == {0.0, frame.cavity[2]}


def test_the_frames_page_has_the_frames_own_drawing() -> None:
    """Made once for board and paper; every rib, screw, layer and length is told from the frame's left end or front."""
    plan = plan_of("hallway")
    unit, wish = Unit(plan.project.units), plan.project.frame
    for frame, leaf in zip(plan.frames, frame_leaves(plan), strict=True):
        pictures = [block.drawing for block in leaf.blocks if isinstance(block, Picture)]
        assert pictures == [draw_frame(plan, frame.shelf)]
        told = {
            (item.axis, item.side): item.marks for item in pictures[0].items if isinstance(item, Ordinates)
        }  # along the rail, along the studs, up the depth
        assert [x for x, _ in told["x", "low"]] == pytest.approx([0.0, *frame.ribs, frame.length])
        assert [x for x, _ in told.get(("x", "high"), ())] == pytest.approx(sorted({screw.x for screw in frame.screws}))
        back = frame.depth - wish.back_layers * frame.thickness
        layers = {0.0, wish.front_layers * frame.thickness, back, frame.depth}
        assert [y for y, _ in told["y", "high"]] == pytest.approx(sorted(layers))
        assert all(text == show_length(place, unit) for marks in told.values() for place, text in marks)


def test_a_frame_is_provisional() -> None:
    for leaf in frame_leaves(plan_of("hallway")):
        assert "Provisional until measured" in words_of(leaf)


def test_parts_lists_count_every_part() -> None:
    plan = plan_of("hallway")
    for leaf, frame in zip(frame_leaves(plan), plan.frames, strict=True):
        parts = next(b.table for b in leaf.blocks if isinstance(b, Rows) and b.table.name == "frame parts")
        assert sum(int(row[1]) for row in parts.rows) == len(frame.parts)


def test_labels_meet_at_their_letters() -> None:
    """Each seam's letter is on two labels of its shelf."""
    plan = plan_of("hallway")
    labels = labels_of(plan)
    assert len(labels) == len(plan.panels) + sum(len(frame.parts) for frame in plan.frames)
    for shelf, letter in zip(plan.project.shelves, "ABC", strict=True):
        found = [
            word for one in labels if one.panel and one.name.startswith(f"{letter} ") for word in one.letters.values()
        ]
        wanted = [seam.letter for seam in plan.seams if seam.shelf == shelf.id]
        assert sorted(found) == sorted(2 * wanted)


def test_what_a_maker_must_not_overlook_is_said() -> None:
    install, finish = words_of(install_leaf(plan_of("hallway"))), words_of(finish_leaf(plan_of("hallway")))
    for word in ("Wires and pipes", "power off", "licensed", "Never to be climbed", "level", "estimate"):
        assert word in install
    for word in ("veneer", "80", "120", "180", "15 min", "Rags", "catch fire", "can's own words", "common practice"):
        assert word in finish


def test_a_frame_with_no_front_rail_is_told_of_none() -> None:
    """Nothing is marked, drilled or bored in a rail that is not there; and where it is, the driver's holes are told."""
    project = hallway()
    bare = make_plan(msgspec.structs.replace(project, frame=msgspec.structs.replace(project.frame, front_layers=0)))
    for plan, told in ((make_plan(project), True), (bare, False)):
        words = " ".join([words_of(install_leaf(plan)), *(words_of(leaf) for leaf in frame_leaves(plan))])
        strips = list(drill_strips(plan))
        assert ("front rail" in words) is told
        assert all(("front rail" in strip.name) is told for strip in strips)
        assert {mark.kind for strip in strips for mark in strip.marks} == {"end", "hole" if told else "cross"}


def test_the_install_sheet_says_what_a_shelf_may_carry() -> None:
    plan = plan_of("hallway")
    assert plan.loads
    words = words_of(install_leaf(plan))
    for load in plan.loads:
        assert show_mass(load.front_edge_kg, Unit(plan.project.units)) in words
        assert load.raise_by in words
