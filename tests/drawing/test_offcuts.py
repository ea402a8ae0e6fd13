"""The table of offcuts and the marks of the spares say what lies on the bench, and no more than that."""

from hypothesis import given, settings

from core.document.model import Project, Sheet, Shelf
from core.drawing.model import Text
from core.drawing.names import shelf_letters
from core.drawing.offcuts import LARGE, NEXT_JOB, offcut_table
from core.drawing.sheet import draw_sheet
from core.layout.spares import spares
from core.lengths import Unit, parse_length
from core.plan.make import make_plan
from core.plan.proof import prove
from core.steps.fates import falls_in_words
from core.steps.steps import steps_of
from tests.conftest import examples
from tests.drawing.plans import plan_of
from tests.strategies import projects

STEP = {"in": 25.4 / 32.0, "mm": 0.1}


@settings(max_examples=examples(40, 400))
@given(projects(max_shelves=3))
def test_sizes_are_square_through_and_rounded_down(project: Project) -> None:
    plan = make_plan(project)
    pieces, unit, table = prove(plan).pieces, Unit(project.units), offcut_table(plan)
    areas = []
    for about, row in zip(table.abouts, table.rows, strict=True):
        x0, y0, x1, y1 = pieces[about].clear_box()
        for text, real in ((row[1], x1 - x0), (row[2], y1 - y0)):
            assert -1e-6 <= real - parse_length(text, unit) <= STEP[project.units] + 1e-6
        areas.append((x1 - x0) * (y1 - y0))
    assert areas == sorted(areas, reverse=True)


@settings(max_examples=examples(40, 400))
@given(projects(max_shelves=3))
def test_it_lists_offcuts_and_spares_and_no_waste(project: Project) -> None:
    plan = make_plan(project)
    table, letters = offcut_table(plan), shelf_letters(plan)
    offcuts, good = {o.piece for o in plan.offcuts}, {s.piece: s for s in spares(plan)}
    sizes = {piece.piece: (piece.length, piece.width) for piece in (*plan.offcuts, *good.values())}
    assert set(table.abouts) == offcuts | set(good)
    assert len(table.abouts) == len(set(table.abouts))
    for about, row in zip(table.abouts, table.rows, strict=True):
        assert row[0] == ("offcut" if about in offcuts else "spare")
        large = max(sizes[about]) >= LARGE
        assert row[6].startswith(NEXT_JOB if large or about not in good else good[about].use)
        assert about not in good or good[about].use in row[6]
        if about in good and good[about].shelves:
            said = row[6].rpartition("for ")[2].split(", ")
            assert said == [letters[shelf] for shelf in good[about].shelves]


def test_letters_of_ends_are_explained() -> None:
    plan = plan_of("hallway")
    ends = {shelf for spare in spares(plan) for shelf in spare.shelves}
    assert ends
    legend = offcut_table(plan).notes[-1]
    assert all(shelf in legend for shelf in ends)


def test_an_empty_plan_has_an_empty_table() -> None:
    assert offcut_table(make_plan(Project((Sheet("A", 2440.0, 1220.0),), ()))).rows == ()


def test_spares_are_marked_inside_themselves() -> None:
    plan = plan_of("hallway")
    drawing = draw_sheet(plan, plan.sheets[0].id)
    for spare in spares(plan):
        marks = [i for i in drawing.items if isinstance(i, Text) and i.about == spare.piece and spare.use in i.text]
        assert len(marks) == (spare.sheet == plan.sheets[0].id and max(spare.length, spare.width) < LARGE)
        for mark in marks:
            assert mark.room == (spare.x, spare.y, spare.x + spare.length, spare.y + spare.width)


def test_where_something_does_not_fit_its_words_come_first() -> None:
    shelves = (Shelf("a", 900.0, 200.0, 80.0), Shelf("long", 2400.0, 200.0, 80.0))
    plan = make_plan(Project((Sheet("A", 2440.0, 1220.0),), shelves))
    assert plan.overruns
    assert spares(plan)
    texts = [item.text for item in draw_sheet(plan, plan.overruns[0].sheet).items if isinstance(item, Text)]
    assert not any("spare" in text for text in texts)


@settings(max_examples=examples(30, 300))
@given(projects(max_shelves=2))
def test_a_card_says_of_an_offcut_what_the_table_says(project: Project) -> None:
    """One number, one way: by the piece's name, its size across the cut as it stands in the table."""
    plan = make_plan(project)
    table = offcut_table(plan)
    rows = dict(zip(table.abouts, table.rows, strict=True))
    for step in steps_of(plan):
        told = " ".join(falls_in_words(plan, step))
        for fall in step.falls:
            if fall.kind == "offcut":
                size = rows[fall.piece][2 if step.kind == "rip" else 1]
                assert f"{fall.piece}, {size} {'wide' if step.kind == 'rip' else 'long'}" in told
