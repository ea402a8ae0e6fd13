"""Leaves set in type: headings clear of what they stand over, columns that start level."""

import pytest

from app.paper.canvas import words_of, wrapped
from app.paper.cardwords import facts_lines
from app.paper.flow import BIG, CLOSER, LARGER_ONES, PLAIN, Setting, pieces_of
from app.paper.leaf import leaf_pages
from app.paper.pdf import frame_of
from core.drawing.measure import text_width
from core.drawing.tables import Column, Table
from core.leaves.model import Leaf, Rows, Words
from tests.paper.recorder import demo, recorded

pytestmark = pytest.mark.usefixtures("qapp")
UNDER = 0.2  # of their size letters reach under their line, of the bundled font


@pytest.mark.parametrize("how", [PLAIN, *CLOSER, *LARGER_ONES])
@pytest.mark.parametrize("big", [False, True])
def test_a_heading_ends_over_what_it_stands_over(how: Setting, big: bool) -> None:
    table = Table("sizes", "Heading", (Column("What"),), (("1",),), ("",))
    heading = pieces_of(Rows(table, big=big), 400.0, 400.0, how)[0]
    size = max(BIG, how.body) if big else how.body
    assert heading.height >= how.gap + (1.0 + UNDER) * size - 0.5


def test_a_column_that_goes_on_starts_level_with_the_heading_beside_it() -> None:
    frame = frame_of(demo("reading-corner"), "a4")
    leaf = Leaf("Title", (Words("Heading", tuple(f"{n} is a sentence" for n in range(9))),))
    (page,) = leaf_pages(leaf, frame)
    words = [one for one in recorded(page, frame).words if one.text == "Heading" or one.text.endswith("sentence")]
    heading = next(one for one in words if one.text == "Heading")
    beside = min((one for one in words if one.box[0] > frame.width / 2.0), key=lambda one: one.box[1])
    assert beside.box[3] == pytest.approx(heading.box[3], abs=0.1)


def test_a_note_stands_under_rows_of_its_table() -> None:
    table = Table("sizes", "Heading", (Column("What"),), (("1",), ("2",)), ("", ""), ("a note", "another"))
    pieces = pieces_of(Rows(table), 400.0, 400.0)
    assert [piece.held for piece in pieces[-3:]] == [True, True, False]  # the last row, and both notes


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("the stock for A rib 2.", ["the", "stock", "for", "A", "rib 2."]),
        ("A rib 3 to 10; B", ["A", "rib 3 to 10;", "B"]),
        ('22: 85-9/32"; 23 to 25: 1-29/32" −', ['22: 85-9/32";', '23 to 25: 1-29/32" −']),
        ("760 mm long", ["760 mm", "long"]),
        ("Card 3 of 11", ["Card 3", "of 11"]),
    ],
)
def test_a_name_keeps_its_number_on_its_line(text: str, words: list[str]) -> None:
    assert words_of(text) == words


@pytest.mark.parametrize("how", [PLAIN, *CLOSER, *LARGER_ONES])
def test_a_table_read_at_arms_length_is_never_smaller_than_another(how: Setting) -> None:
    table = Table("sizes", "", (Column("What"),), (("1",),), ("",))
    row, big = (pieces_of(Rows(table, big=one), 400.0, 400.0, how)[2] for one in (False, True))
    assert big.height >= max(row.height, BIG)


def test_the_facts_of_a_card_are_broken_between_facts_where_that_takes_no_line_more() -> None:
    facts = ("guide on the far side", "blade 45.5°, foot under the guide, to the far side", "show face up", "flip")
    size = 10.0
    wide = text_width(" · ".join(facts[:3]), size, True) - 1.0  # by words it would break within 'show face up'
    assert facts_lines(facts, size, wide) == (f"{facts[0]} · {facts[1]} ·", f"{facts[2]} · {facts[3]}")
    narrow = text_width(facts[1], size, True) - 1.0
    lines = facts_lines(facts, size, narrow)
    assert " ".join(lines) == " · ".join(facts)
    assert len(lines) == len(wrapped(" · ".join(facts), size, narrow, strong=True))
