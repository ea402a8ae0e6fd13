"""What a plan goes by that nobody has measured: told by the numbers stock and blades are sold by, or by their maker."""

from __future__ import annotations

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.document.check import check_project
from core.document.load import parse_project
from core.document.model import Mount, Photo, Project, Saw, Sheet, Shelf
from core.document.save import dump_project
from core.findings.nominal import as_measured, nominal_lines, nominal_words, still_nominal
from core.leaves.model import Words
from core.leaves.setups import setup_leaf
from core.plan.make import make_plan
from core.plan.model import Plan

LEDGE = Shelf("ledge", 900.0, 200.0, 64.0, mount=Mount(300.0, 1400.0))
SOLD = Project((Sheet("oak", 2440.0, 1220.0, 18.0),), (LEDGE,), units="mm")


def whats(plan: Plan) -> list[str]:
    return [one.what for one in still_nominal(plan)]


def test_a_job_of_labels_is_all_nominal_and_says_so_in_one_line() -> None:
    found = still_nominal(make_plan(SOLD))
    assert [one.what for one in found] == ["thickness", "kerf", "bevel", "grain", "size", "studs", "cavity"]
    said = nominal_words(found)
    assert said.startswith("7 things are still nominal: thickness, kerf,")
    assert "18 mm" in found[0].text
    assert nominal_words(found[:1]) == "One thing is still nominal: thickness."
    assert nominal_words(()) == ""


def test_with_no_shelf_there_is_nothing_to_measure() -> None:
    assert still_nominal(make_plan(msgspec.structs.replace(SOLD, shelves=()))) == ()


@pytest.mark.parametrize(
    ("thickness", "kerf", "nominal"),
    [
        (18.0, 2.2, {"thickness", "kerf"}),  # whole mm; tenths, as blades are labelled
        (19.05, 3.175, {"thickness", "kerf"}),  # 3/4 in, 1/8 in
        (18.256249999999998, 1.984375, {"thickness", "kerf"}),  # 23/32 in, 5/64 in
        (18.2, 2.23, {"thickness"}),  # what a sheet begins with; calipers
        (17.83, 2.2, {"kerf"}),
        (18.05, 1.97, set()),
    ],
)
def test_numbers_that_are_on_no_label_were_measured(thickness: float, kerf: float, nominal: set[str]) -> None:
    sheet = msgspec.structs.replace(SOLD.sheets[0], thickness=thickness)
    plan = make_plan(msgspec.structs.replace(SOLD, sheets=(sheet,), saw=Saw(kerf=kerf)))
    assert set(whats(plan)) & {"thickness", "kerf"} == nominal


def test_what_the_document_tells_is_not_asked_for() -> None:
    """Studs noted one by one, a photograph that shows the grain, a sheet of no usual size, a wall without studs."""
    noted = msgspec.structs.replace(SOLD, wall=msgspec.structs.replace(SOLD.wall, studs=(211.0, 604.0)))
    assert "studs" not in whats(make_plan(noted))
    masonry = msgspec.structs.replace(SOLD, wall=msgspec.structs.replace(SOLD.wall, kind="masonry"))
    assert "studs" not in whats(make_plan(masonry))
    lying = msgspec.structs.replace(SOLD, shelves=(msgspec.structs.replace(LEDGE, mount=None),))
    assert "studs" not in whats(make_plan(lying))
    seen = Photo("oak.jpg", "0" * 64, ((0.0, 1.0), (1.0, 1.0), (1.0, 0.0), (0.0, 0.0)))
    own = msgspec.structs.replace(SOLD.sheets[0], length=2432.0, photos=(seen,))
    assert not {"grain", "size"} & set(whats(make_plan(msgspec.structs.replace(SOLD, sheets=(own,)))))


@given(st.integers(min_value=0, max_value=6))
def test_what_is_found_to_be_so_is_said_no_more_until_its_number_changes(which: int) -> None:
    found = still_nominal(make_plan(SOLD))
    known = as_measured(SOLD, found[which])
    check_project(known)
    assert still_nominal(make_plan(known)) == (*found[:which], *found[which + 1 :])
    assert as_measured(known, found[which]).measured == known.measured
    assert parse_project(dump_project(known), "") == known


def test_another_number_is_not_measured_by_that() -> None:
    known = as_measured(SOLD, still_nominal(make_plan(SOLD))[0])
    thicker = msgspec.structs.replace(known.sheets[0], thickness=15.0)
    plan = make_plan(msgspec.structs.replace(known, sheets=(thicker,)))
    assert "thickness" in whats(plan)


def test_a_sheet_that_nothing_is_cut_from_need_not_be_measured() -> None:
    spare = Sheet("spare", 2500.0, 1250.0, 18.0)
    plan = make_plan(msgspec.structs.replace(SOLD, sheets=(*SOLD.sheets, spare)))
    assert {one.of for one in still_nominal(plan)} == {"", "oak"}


def test_paper_has_a_box_and_room_for_each() -> None:
    plan = make_plan(SOLD)
    leaf = setup_leaf(plan)
    assert leaf is not None
    boxes = [block for block in leaf.blocks if isinstance(block, Words) and block.tick]
    assert [block.lines for block in boxes] == [nominal_lines(still_nominal(plan))]
    assert boxes[0].lines[0] == "thickness of oak: 18 mm, measured ________"
