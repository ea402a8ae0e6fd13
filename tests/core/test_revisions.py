"""Revisions kept in the project, and what differs between two projects, in words."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document import Project, Revision, Sheet, Shelf
from core.document.check import check_project
from core.document.differences import differences, summed
from core.document.errors import ProjectError
from core.document.load import load_project, parse_project
from core.document.model import Mount
from core.document.names import FIELD_NAMES
from core.document.patch import apply_pointers
from core.document.ranges import MAX_REVISIONS
from core.document.rescue import Rescue, parse_rescue, rescue_bytes
from core.document.revisions import (
    current_revision,
    design,
    keep_revision,
    remove_revision,
    rename_revision,
    restore_revision,
    revision_words,
)
from core.document.save import dump_project
from core.lengths import Unit
from core.plan.make import make_plan
from tests.conftest import examples
from tests.contract.files import SAMPLE_FILE
from tests.strategies import projects

DAY = "2026-05-17"
SAMPLE = load_project(SAMPLE_FILE)
FIRST = Project((Sheet("A", 2440.0, 1220.0),), (Shelf("ledge", 1320.0, 210.0, 84.0),), name="Hallway")


def deeper(project: Project, depth: float) -> Project:
    shelf = msgspec.structs.replace(project.shelves[0], depth=depth)
    return msgspec.structs.replace(project, shelves=(shelf, *project.shelves[1:]))


@settings(max_examples=examples(25, 500))
@given(st.lists(projects(max_shelves=2), min_size=1, max_size=4), projects(max_shelves=2))
def test_revisions_come_back_from_the_file_and_are_restored(kept: list[Project], now: Project) -> None:
    project = msgspec.structs.replace(now, revisions=tuple(Revision(f"r{n}", DAY, was) for n, was in enumerate(kept)))
    read = parse_project(dump_project(project), "")
    assert read == project
    for n, was in enumerate(kept):
        back = restore_revision(read, n)
        assert design(back) == was
        assert back.revisions == project.revisions
        assert not differences(back, was, Unit.MM)
        assert project.revisions[current_revision(back)].project == was


@settings(max_examples=examples(25, 500))
@given(projects(max_shelves=3), projects(max_shelves=3))
def test_two_projects_are_equal_exactly_where_nothing_differs(one: Project, other: Project) -> None:
    assert differences(one, one, Unit.INCH) == ()
    assert bool(differences(one, other, Unit.MM)) == (one != other)


def test_the_revision_on_paper_is_the_one_that_is_printed() -> None:
    assert revision_words(FIRST) == "none yet"
    project = keep_revision(FIRST, "as drawn", DAY)
    assert revision_words(project) == "1, as drawn"
    changed = deeper(project, 200.0)
    assert revision_words(changed) == "1, as drawn, changed since"
    twice = keep_revision(changed, "less deep", DAY)
    assert revision_words(twice) == "2, less deep"
    assert revision_words(restore_revision(twice, 0)) == "1, as drawn"
    assert revision_words(msgspec.structs.replace(twice, units="mm")) == "2, less deep"


def test_revisions_change_nothing_of_the_plan() -> None:
    plan = make_plan(FIRST)
    again = make_plan(keep_revision(FIRST, "as drawn", DAY))
    assert msgspec.structs.replace(again, project=FIRST, shapes=plan.shapes) == plan


def test_removing_and_renaming() -> None:
    project = keep_revision(keep_revision(FIRST, "one", DAY), "two", DAY)
    assert [r.name for r in remove_revision(project, 0).revisions] == ["two"]
    assert [r.name for r in rename_revision(project, 1, "three").revisions] == ["one", "three"]


def test_a_way_out_leaves_the_revisions() -> None:
    project = keep_revision(FIRST, "one", DAY)
    changed = apply_pointers(project, {"/shelves/0/depth": 200.0})
    assert changed.revisions is project.revisions
    assert apply_pointers(project, {"/revisions/0/name": "other"}).revisions[0].name == "other"
    assert apply_pointers(project, {"/revisions": []}).revisions == ()


@pytest.mark.parametrize(
    ("revision", "where"),
    [
        (Revision("", DAY, FIRST), "revisions[0].name"),
        (Revision(" ", DAY, FIRST), "revisions[0].name"),
        (Revision("x" * 61, DAY, FIRST), "revisions[0].name"),
        (Revision("one", "17.5.2026", FIRST), "revisions[0].day"),
        (Revision("one", "2026-02-30", FIRST), "revisions[0].day"),
        (Revision("one", DAY, keep_revision(FIRST, "in it", DAY)), "revisions[0].project.revisions"),
        (Revision("one", DAY, deeper(FIRST, -1.0)), "revisions[0].project.shelves[0].depth"),
        (Revision("one", DAY, msgspec.structs.replace(FIRST, sheets=())), "revisions[0].project.sheets"),
    ],
)
def test_a_revision_that_could_not_be_used_is_refused(revision: Revision, where: str) -> None:
    with pytest.raises(ProjectError) as caught:
        check_project(msgspec.structs.replace(FIRST, revisions=(revision,)))
    assert caught.value.where == where


def test_names_are_unique_and_there_is_an_end_of_them() -> None:
    with pytest.raises(ProjectError, match="name of another"):
        check_project(keep_revision(keep_revision(FIRST, "one", DAY), "one", DAY))
    many = tuple(Revision(str(n), DAY, FIRST) for n in range(MAX_REVISIONS + 1))
    check_project(msgspec.structs.replace(FIRST, revisions=many[:-1]))
    with pytest.raises(ProjectError, match="at most"):
        check_project(msgspec.structs.replace(FIRST, revisions=many))


def test_a_file_that_could_not_be_read_again_is_not_written(monkeypatch: pytest.MonkeyPatch) -> None:
    import core.document.save

    monkeypatch.setattr(core.document.save, "MAX_BYTES", 2000)
    with pytest.raises(ProjectError, match="remove revisions"):
        dump_project(keep_revision(FIRST, "one", DAY))


def upper(project: Project) -> Project:
    return msgspec.structs.replace(project, shelves=(*project.shelves, Shelf("upper", 600.0, 200.0, 80.0)))


def renamed(project: Project) -> Project:
    return msgspec.structs.replace(project, shelves=(msgspec.structs.replace(project.shelves[0], id="bench"),))


def kerf(project: Project) -> Project:
    return msgspec.structs.replace(project, saw=msgspec.structs.replace(project.saw, kerf=2.2001))


def hung(project: Project) -> Project:
    shelf = msgspec.structs.replace(project.shelves[0], mount=Mount(300.0, 1400.0))
    return msgspec.structs.replace(project, shelves=(shelf,))


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda p: deeper(p, 200.0), "Depth of ledge: 200 mm, was 210 mm"),
        (upper, "Shelf upper is new"),
        (renamed, "Shelf ledge is now called bench"),
        (kerf, "Kerf: 2.2001 mm, was 2.2 mm"),
        (hung, "Place on the wall of ledge: set, was none given"),
        (lambda p: msgspec.structs.replace(p, name="Landing"), "Project name: Landing, was Hallway"),
    ],
)
def test_a_change_is_told_with_both_numbers(change: Callable[[Project], Project], said: str) -> None:
    assert differences(FIRST, change(FIRST), Unit.MM) == (said,)


def test_another_order_is_a_difference() -> None:
    two = upper(FIRST)
    turned = msgspec.structs.replace(two, shelves=two.shelves[::-1])
    assert differences(two, turned, Unit.MM) == ("The shelves stand in another order",)
    assert differences(two, FIRST, Unit.MM) == ("Shelf upper is gone",)


def test_many_differences_are_summed_up() -> None:
    assert summed(("A", "B", "C")) == "A; and 2 more"
    assert summed(("A",)) == "A"


def test_every_field_has_a_name() -> None:
    """Also one that is added tomorrow."""
    import core.document.model as model

    values = {v for v in vars(model).values() if isinstance(v, type) and issubclass(v, model.Value)} - {model.Value}
    assert set(FIELD_NAMES) == values
    for struct, names in FIELD_NAMES.items():
        assert list(names) == list(struct.__struct_fields__), struct


@settings(max_examples=examples(20, 500))
@given(projects(max_shelves=3), st.text(max_size=40), st.lists(st.text(max_size=20), max_size=60))
def test_a_rescue_comes_back(project: Project, of: str, steps: list[str]) -> None:
    clean = of.encode("utf-8", "replace").decode()
    rescue = Rescue(
        project, clean, "9f", "2026-05-17T14:32:05", tuple(s.encode("utf-8", "replace").decode() for s in steps)
    )
    read = parse_rescue(rescue_bytes(rescue))
    assert read == msgspec.structs.replace(rescue, steps=rescue.steps[-50:])


@pytest.mark.parametrize("cut", [0, 1, 40, 200, -3])
def test_a_broken_rescue_is_refused(cut: int) -> None:
    data = rescue_bytes(Rescue(SAMPLE))
    with pytest.raises(ProjectError):
        parse_rescue(data[:cut])
    with pytest.raises(ProjectError):
        parse_rescue(dump_project(SAMPLE))
