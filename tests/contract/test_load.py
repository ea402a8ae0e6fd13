"""Reading project files: the sample, defaults, names, and one field at a time."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import msgspec
import pytest

from core.document import (
    Alcove,
    Figure,
    FrameWish,
    KeepClear,
    KeepOut,
    Measured,
    Mount,
    Photo,
    Project,
    Revision,
    Saw,
    Screw,
    Sheet,
    Shelf,
    Studs,
    Wall,
)
from core.document.check import check_project, field_error
from core.document.errors import ProjectError
from core.document.load import load_project, parse_project
from core.document.ranges import RANGES
from core.lengths import Unit
from tests.contract.files import SAMPLE, SAMPLE_FILE

CORNER = KeepClear(((0.0, 1100.0), (150.0, 1100.0), (150.0, 1220.0), (0.0, 1220.0)), "bruise", "net")
SEEN = Photo(
    "sheet A.jpg",
    "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08",
    ((0.1, 0.8), (0.9, 0.85), (0.85, 0.2), (0.15, 0.2)),
    (0.0, 0.0, 1220.0, 1220.0),
    -0.02,
    0.8,
    "none",
)
OAK = Figure("plain", "oak", "book", None)
SOCKET = KeepOut(2500.0, 300.0, 86.0, 86.0, "socket")
BOW = ((300.0, 0.0), (900.0, 3.0), (1500.0, 1.0))
ALCOVE = Alcove((3000.0, 3002.0, 3004.0), (3000.0, 3001.0, 3003.0))
LEAST: dict[str, Any] = {
    "format": "grainfold project",
    "version": 1,
    "sheets": [{"id": "A", "length": 2440, "width": 1220}],
    "shelves": [{"id": "ledge", "length": 1320, "depth": 210, "height": 84}],
}


def parsed(document: object, name: str = "wall") -> Project:
    return parse_project(json.dumps(document).encode(), name)


def test_the_sample_is_read_value_for_value() -> None:
    read = load_project(SAMPLE_FILE)
    project = Project(
        name="Hallway ledge",
        units="in",
        saw=Saw("guided", "under", 2.2, 0.5, 0.2, 0.0, 47.0, 40.0, 2800.0, 190.0, 800.0, 0.0, "up", ""),
        sheets=(
            Sheet(
                "A",
                2440.0,
                1220.0,
                18.2,
                0.6,
                5.0,
                1,
                "any",
                None,
                (CORNER,),
                (SEEN,),
                Figure("plain", "oak", "book", None),
            ),
        ),
        glue_line=0.15,
        shelves=(
            Shelf("ledge", 1320.0, 210.0, 84.0, "mitred", "mitred", "front", 0.0, None, None, Mount(300.0, 1400.0)),
        ),
        frame=FrameWish(None, 1, 1, 2, 228.6, 25.4, 3.0, 1.5),
        wall=Wall(
            3000.0, 2400.0, Studs(200.0, 406.4), 38.0, 12.7, 0.42, "timber stud", 0.0, BOW, 0.0, ALCOVE, (SOCKET,)
        ),
        screw=Screw(4.83, None, 1, 38.1, 25.4, 6.0),
    )
    measured = (Measured("thickness", "A", (18.2,)),)
    before = msgspec.structs.replace(project, shelves=(msgspec.structs.replace(project.shelves[0], depth=200.0),))
    revisions = (Revision("as measured", "2026-05-17", before),)
    assert read == msgspec.structs.replace(project, measured=measured, revisions=revisions)


def test_the_sample_states_the_defaults() -> None:
    """What the file's description says: all but required keys, `mount`, `name`, areas, revisions, what is measured."""
    sample = load_project(SAMPLE_FILE)
    shelf = msgspec.structs.replace(sample.shelves[0], mount=None)
    sheet = msgspec.structs.replace(sample.sheets[0], keep_clear=(), photos=())
    wall = msgspec.structs.replace(sample.wall, bow=(), alcove=None, keep_outs=())
    plain = msgspec.structs.replace(sample, shelves=(shelf,), sheets=(sheet,), wall=wall, measured=(), revisions=())
    assert parsed(LEAST, "Hallway ledge") == plain
    assert KeepClear(CORNER.corners) == CORNER


def test_without_a_name_the_file_gives_it(tmp_path: Path) -> None:
    file = tmp_path / "north wall.grainfold"
    file.write_text(json.dumps(LEAST))
    assert load_project(file).name == "north wall"
    file.write_text(json.dumps(LEAST | {"name": ""}))
    assert load_project(file).name == ""


def test_a_byte_order_mark_and_any_script_are_read() -> None:
    data = json.dumps(LEAST | {"name": "Küche, 北の壁"}, ensure_ascii=False)
    assert parse_project(b"\xef\xbb\xbf" + data.encode(), "").name == "Küche, 北の壁"


def test_no_shelves_is_a_project() -> None:
    assert parsed(LEAST | {"shelves": []}).shelves == ()


def test_studs_may_be_a_list() -> None:
    assert parsed(LEAST | {"wall": {"studs": [600, 200.5]}}).wall.studs == (600.0, 200.5)
    assert parsed(LEAST | {"wall": {"studs": []}}).wall.studs == ()
    assert parsed(LEAST | {"wall": {"studs": {"first": 31}}}).wall.studs == Studs(first=31.0)


def test_a_64th_of_an_inch_comes_back_as_it_was_written() -> None:
    project = parsed(LEAST | {"glue_line": 0.396875})
    assert project.glue_line == 25.4 / 64


def test_numbers_keep_every_digit() -> None:
    value = 210.00000000000003
    assert parsed(LEAST | {"glue_line": value}).glue_line == value


@dataclass(frozen=True)
class Field:
    """A field of the document: its struct, its name, and whether it takes numbers."""

    owner: type[msgspec.Struct]
    name: str
    numeric: bool


def fields() -> list[Field]:
    structs = (Project, Saw, Sheet, KeepClear, Mount, Shelf, FrameWish, Studs, Wall, KeepOut, Alcove, Screw)
    structs += (Figure, Photo, Measured, Revision)
    return [
        Field(struct, field.name, re.search(r"\b(float|int)\b", str(field.type)) is not None)
        for struct in structs
        for field in msgspec.structs.fields(struct)
    ]


def test_every_number_of_the_file_has_a_range() -> None:
    """Also one that is added tomorrow."""
    numbers = {(f.owner, f.name) for f in fields() if f.numeric}
    assert {(owner, name) for owner, ranges in RANGES.items() for name in ranges} == numbers


@pytest.mark.parametrize(
    ("pointer", "good", "bad"),
    [
        ("/shelves/0/depth", 210.0, 0.0),
        ("/shelves/1/depth", 100_000.0, 100_000.1),
        ("/shelves/0/at", [5.0, 5.0], [5.0, 2e5]),
        ("/shelves/0/at/1", 5.0, 2e5),
        ("/shelves/0/mount/top", -40.0, None),
        ("/shelves/0/mount", None, 3),
        ("/shelves/0/id", "ledge", "led/ge"),
        ("/shelves/0/left", "open", "closed"),
        ("/sheets/0/quantity", 0, 1.5),
        ("/saw/kerf", 20.0, 20.1),
        ("/saw/overcut", -5.0, -5.1),
        ("/wall/studs/spacing", 400.0, 0.0),
        ("/wall/studs/3", -1.0, float("nan")),
        ("/wall/studs", [1.0, 2.0], [1.0, float("inf")]),
        ("/frame/thickness", None, 0.0),
        ("/screw/length", None, -1.0),
        ("/glue_line", 0.0, -0.1),
        ("/sheets/0/keep_clear/0/corners", [[0, 0], [9, 0], [9, 9]], [[0, 0], [9, 0], [9, 2e5]]),
        ("/sheets/0/keep_clear/0/kind", "sapwood", "knot"),
        ("/sheets/0/photos/0/lens", 0.1, 0.2),
        ("/sheets/0/photos/0/mirror", "across", "upside"),
        ("/sheets/0/figure/wood", "walnut", "stone"),
        ("/sheets/0/figure/seed", 7, -1),
        ("/measured/0/what", "kerf", "colour"),
        ("/measured/0/values", [2.2, 0.5], [1e7]),
        ("/name", "", "two\nlines"),
        ("/units", "mm", "cm"),
    ],
)
def test_one_field_is_judged_by_itself(pointer: str, good: object, bad: object) -> None:
    assert field_error(pointer, good) is None
    assert field_error(pointer, bad)


def test_a_field_is_judged_in_the_unit_shown() -> None:
    assert field_error("/saw/kerf", 25.4, Unit.MM) == "must be at most 20 mm, is 25.4 mm"
    assert str(field_error("/saw/kerf", 25.4, Unit.INCH)).endswith('is 1"')


@pytest.mark.parametrize("pointer", ["/saw/colour", "/shelves/0", "/shelves/first/depth", "/saw/kerf/0"])
def test_what_is_no_field_cannot_be_judged(pointer: str) -> None:
    if pointer == "/shelves/0":
        assert field_error(pointer, 3)
        return
    with pytest.raises(KeyError):
        field_error(pointer, 3.0)


def test_a_project_made_in_the_program_is_checked_like_a_file() -> None:
    project = parsed(LEAST)
    check_project(project)
    broken = msgspec.structs.replace(project, glue_line=float("nan"))
    with pytest.raises(ProjectError, match="glue_line: must be a finite number"):
        check_project(broken)
    with pytest.raises(ProjectError, match="sheets: at least one"):
        check_project(msgspec.structs.replace(project, sheets=()))


def test_the_sample_of_the_tests_is_the_one_described() -> None:
    """The copy holds every key of the document, or the tests above would prove less than they say."""
    names = {f.name for f in fields()}
    found: set[str] = set()

    def collect(value: object) -> None:
        for key, item in value.items() if isinstance(value, dict) else ():
            found.add(key)
            collect(item)
        for item in value if isinstance(value, list) else ():
            collect(item)

    collect(SAMPLE)
    assert found == names | {"format", "version"}
