"""A sliding net always comes to lie where the saw can part it."""

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from core.document.model import Sheet
from core.layout.slide import Neighbour, slide
from tests.conftest import examples

SHEET = Sheet("A", 2440.0, 1220.0, trim=5.0)
KERF = 2.2
OTHERS = (Neighbour("a", (5.0, 5.0, 900.0, 400.0)), Neighbour("b", (902.2, 5.0, 1500.0, 400.0)))


@settings(max_examples=examples(200, 3000))
@given(st.floats(-200, 2600), st.floats(-200, 1400), st.floats(100, 900), st.floats(100, 500))
def test_it_lies_inside_and_clear_by_a_kerf(x: float, y: float, length: float, width: float) -> None:
    found = slide(SHEET, (length, width), (x, y), OTHERS, KERF, 12.0, 25.4 / 16)
    here = box(found.x, found.y, found.x + length, found.y + width)
    inner = box(5.0, 5.0, 2435.0, 1215.0).buffer(1e-5, join_style="mitre")
    assert here.within(inner)
    for other in OTHERS:
        grown = box(*other.rect).buffer(KERF - 1e-5, join_style="mitre")
        assert here.intersection(grown).area < 1e-6
    free = slide(SHEET, (length, width), (found.x, found.y), OTHERS, KERF, 0.001, 0.0)
    assert (free.x, free.y, free.stop) == (found.x, found.y, "")  # it can stay there


def test_it_snaps_to_edges_nets_and_lines() -> None:
    size = (500.0, 300.0)
    assert slide(SHEET, size, (1509.0, 9.0), OTHERS, KERF, 12.0, 1.0).snapped == ("kerf", "edge")
    on_grid = slide(SHEET, size, (1703.4, 700.4), OTHERS, KERF, 2.0, 1.0)
    assert ((on_grid.x - 5.0) % 1.0, (on_grid.y - 5.0) % 1.0) == (0.0, 0.0)


def test_it_says_what_stops_it() -> None:
    size = (500.0, 300.0)
    over = slide(SHEET, size, (950.0, 100.0), OTHERS, KERF, 12.0, 1.0)
    assert (over.stop, over.other) == ("net", "b")
    assert slide(SHEET, size, (2300.0, 700.0), OTHERS, KERF, 12.0, 1.0).stop == "edge"
    nowhere = slide(SHEET, (3000.0, 300.0), (10.0, 500.0), OTHERS, KERF, 12.0, 1.0)
    assert (nowhere.stop, nowhere.x, nowhere.y) == ("edge", 10.0, 500.0)
