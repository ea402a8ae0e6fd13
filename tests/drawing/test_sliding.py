"""Words that may be moved: clear of other words and of lines where they can be, and never out of their room."""

from __future__ import annotations

from core.drawing.flat import Words, bounds
from core.drawing.flatten import flatten
from core.drawing.model import Area, Box, Drawing, Item, Line, Text
from core.drawing.panels import rectangle

ROOM = (0.0, 0.0, 200.0, 40.0)
AT = (100.0, 20.0)


def name(text: str = "name", **more: object) -> Text:
    values: dict[str, object] = {"align": "middle", "room": ROOM, "slide": 1.0}
    return Text("kept", AT, text, 10.0, **(values | more))  # type: ignore[arg-type]


def placed(*items: Item) -> list[Words]:
    """At one mm for a point."""
    return list(flatten(Drawing("", "", ROOM, items), 1.0).words)


def crosses(box: Box, line: Line) -> bool:
    x0, y0, x1, y1 = bounds(line.points)
    return x0 <= box[2] and box[0] <= x1 and y0 <= box[3] and box[1] <= y1


def test_words_that_are_clear_stay_where_they_are() -> None:
    (word,) = placed(Area("kept", rectangle(ROOM)), name())
    assert word.at[0] == AT[0]


def test_words_on_a_line_are_moved_off_it() -> None:
    line = Line("setting", ((98.0, 0.0), (98.0, 40.0)))
    (word,) = placed(line, name())
    assert not crosses(word.box(1.0), line)
    level = Line("setting", ((0.0, 20.0), (200.0, 20.0)))  # right across: up or down
    (word,) = placed(level, name())
    assert not crosses(word.box(1.0), level)


def test_words_that_can_only_stand_on_lines_do_so_but_tidy_ones_are_left_out() -> None:
    grid = [Line("setting", ((x, 0.0), (x, 40.0))) for x in range(0, 201, 10)]
    assert len(placed(*grid, name())) == 1
    assert placed(*grid, name(tidy=True)) == []


def test_an_outline_is_crossed_rather_than_a_drawn_line() -> None:
    thin = (0.0, 14.0, 200.0, 26.0)  # no higher than the words: its outline is always too near
    line = Line("setting", ((98.0, 0.0), (98.0, 40.0)))
    (word,) = placed(Area("kept", rectangle(thin)), line, name(room=thin))
    assert not crosses(word.box(1.0), line)


def test_of_two_words_at_one_place_the_later_moves_and_both_stay_in_their_room() -> None:
    first, second = placed(name("first"), name("second"))
    assert first.at[0] == AT[0]
    a, b = first.box(1.0), second.box(1.0)
    assert b[0] >= a[2] or b[2] <= a[0] or b[1] >= a[3] or b[3] <= a[1]
    assert all(ROOM[0] <= box[0] and box[2] <= ROOM[2] and ROOM[1] <= box[1] and box[3] <= ROOM[3] for box in (a, b))
