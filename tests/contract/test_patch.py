"""Changing a project by JSON pointers."""

from __future__ import annotations

import msgspec
import pytest
from hypothesis import given

from core.document import Mount, Sheet
from core.document.errors import ProjectError
from core.document.load import load_project
from core.document.patch import apply_pointers
from core.document.pointer import key_path
from tests.contract.files import SAMPLE_FILE
from tests.strategies import projects

SAMPLE = load_project(SAMPLE_FILE)
SHELF = SAMPLE.shelves[0]


def test_a_value_is_set_and_nothing_else() -> None:
    changed = apply_pointers(SAMPLE, {"/shelves/0/depth": 223.8})
    expected = msgspec.structs.replace(SHELF, depth=223.8)
    assert changed == msgspec.structs.replace(SAMPLE, shelves=(expected,))
    assert SHELF.depth == 210.0


@given(projects())
def test_no_change_changes_nothing(project) -> None:
    assert apply_pointers(project, {}) == project


def test_several_changes_are_one() -> None:
    changed = apply_pointers(SAMPLE, {"/shelves/0/left": "open", "/saw/kerf": 1.8, "/units": "mm"})
    assert (changed.shelves[0].left, changed.saw.kerf, changed.units) == ("open", 1.8, "mm")


def test_null_removes() -> None:
    changed = apply_pointers(SAMPLE, {"/shelves/0/mount": None, "/saw/kerf": None})
    assert changed.shelves[0].mount is None
    assert changed.saw == SAMPLE.saw  # the default, which the sample has
    assert apply_pointers(SAMPLE, {"/shelves/0": None}).shelves == ()


def test_a_pin_can_be_set_and_moved() -> None:
    pinned = apply_pointers(SAMPLE, {"/shelves/0/at": [5.0, 6.0]})
    assert pinned.shelves[0].at == (5.0, 6.0)
    assert apply_pointers(pinned, {"/shelves/0/at/1": 7.5}).shelves[0].at == (5.0, 7.5)


def test_items_and_objects_can_be_added() -> None:
    sheet = {"id": "B", "length": 3100, "width": 1500}
    changed = apply_pointers(SAMPLE, {"/sheets/-": sheet, "/shelves/0/sheet": "B"})
    assert changed.sheets[1] == Sheet("B", 3100.0, 1500.0)
    assert changed.shelves[0].sheet == "B"
    assert sheet == {"id": "B", "length": 3100, "width": 1500}
    moved = apply_pointers(SAMPLE, {"/shelves/0/mount": Mount(1.0, 2.0), "/sheets/-": Sheet("C", 10.0, 10.0)})
    assert (moved.shelves[0].mount, moved.sheets[1].id) == (Mount(1.0, 2.0), "C")


def test_later_changes_see_earlier_ones() -> None:
    shelf = {"id": "two", "length": 600, "depth": 200, "height": 80}
    changed = apply_pointers(SAMPLE, {"/shelves/-": shelf, "/shelves/1/depth": 150.0, "/shelves/0": None})
    assert [(s.id, s.depth) for s in changed.shelves] == [("two", 150.0)]


def test_the_changes_are_not_changed() -> None:
    studs = [200.0, 600.0]
    changed = apply_pointers(SAMPLE, {"/wall/studs": studs, "/wall/studs/0": 210.0, "/wall/studs/-": 900.0})
    assert changed.wall.studs == (210.0, 600.0, 900.0)
    assert studs == [200.0, 600.0]


@pytest.mark.parametrize(
    ("pointer", "value", "words"),
    [
        ("/shelves/0/depth", -1.0, r"shelves\[0\].depth: must be more than 0"),
        ("/shelves/0/depth", "210", r"shelves\[0\].depth: must be a number"),
        ("/shelves/0/depth", None, r"shelves\[0\].depth: this key is missing"),
        ("/shelves/0/colour", "oak", r"shelves\[0\].colour: unknown key"),
        ("/shelves/1/depth", 5.0, r"shelves\[1\]: the project has no such place"),
        ("/shelves/1", {}, r"shelves\[1\]: the project has no such place"),
        ("/shelves/00/depth", 5.0, "no such place"),
        ("/shelves/-1/depth", 5.0, "no such place"),
        ("/shelves/-/depth", 5.0, "no such place"),
        ("/saw/kerf/0", 5.0, "no such place"),
        ("/sheets/0", None, "sheets: at least one"),
        ("/shelves/0/sheet", "B", "there is no sheet"),
        ("/saw/0", 5.0, "no such place"),
        ("", {}, "no pointer"),
        ("shelves/0/depth", 5.0, "no pointer"),
    ],
)
def test_a_change_that_leads_nowhere_is_refused(pointer: str, value: object, words: str) -> None:
    with pytest.raises(ProjectError, match=words):
        apply_pointers(SAMPLE, {pointer: value})


def test_a_place_inside_nothing_is_refused() -> None:
    bare = apply_pointers(SAMPLE, {"/shelves/0/mount": None})
    with pytest.raises(ProjectError, match="no such place"):
        apply_pointers(bare, {"/shelves/0/mount/x": 5.0})


@pytest.mark.parametrize(
    ("pointer", "path"),
    [("/a~1b", ("a/b",)), ("/m~0n", ("m~n",)), ("/~01", ("~1",)), ("/", ("",)), ("/foo/0", ("foo", 0)), ("/ ", (" ",))],
)
def test_pointers_are_read_as_the_standard_says(pointer: str, path: tuple[str | int, ...]) -> None:
    """RFC 6901, sections 4 and 5."""
    assert key_path(pointer) == path
