"""A wall noted wrongly, shelves where none can hang: a finding or a refusal of one line, and nothing is lost."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from app.export_command import run
from app.store import Store
from core.document.errors import ProjectError
from core.document.load import parse_project
from core.document.model import Alcove, FrameWish, KeepOut, Mount, Project, Screw, Studs, Wall
from core.document.patch import apply_pointers
from core.document.save import dump_project
from core.frame.studs import stud_lines
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.conftest import examples
from tests.frame.test_wall_laws import hung
from tests.wall.test_findings import LEDGE, mended, on, one, told

# What is told

OTHER = replace(LEDGE, id="other", mount=Mount(800.0, 1380.0))
NICHE = Alcove((1131.0, 1128.0, 1120.0), (1131.0, 1128.0, 1120.0))
OPEN = replace(LEDGE, length=1125.0, left="open", right="open", mount=Mount(0.0, 1400.0))
SLIT, PIPE = Alcove((4.0, 4.0, 4.0), (4.0, 4.0, 4.0)), KeepOut(9.0, 0.0, 50.0, 9e3, "pipe")


def at(x: float, top: float) -> Project:
    return on(Wall(), replace(LEDGE, mount=Mount(x, top)))


ASKEW: dict[str, tuple[Project, str, str, bool]] = {  # project, code, severity, is there a way out
    "studs out of order": (on(Wall(studs=(600.0, 200.0, 1400.0))), "stud-order", "note", True),
    "a stud noted twice": (on(Wall(studs=(600.0, 600.0, 1400.0))), "stud-order", "note", True),
    "a stud off the wall": (on(Wall(studs=(600.0, 1000.0, 4000.0))), "stud-off-wall", "warning", True),
    "a stud left of the wall": (on(Wall(studs=(-40.0, 600.0, 1000.0))), "stud-off-wall", "warning", True),
    "even studs that begin off the wall": (on(Wall(studs=Studs(3400.0, 400.0))), "stud-off-wall", "warning", False),
    "studs on top of each other": (on(Wall(studs=(600.0, 610.0, 1400.0))), "stud-close", "note", False),
    "no studs at all": (on(Wall(studs=())), "no-stud", "warning", False),
    "a shelf off the wall": (at(-30.0, 1400.0), "off-wall", "warning", True),
    "a shelf past the right": (at(2900.0, 1400.0), "off-wall", "warning", True),
    "a shelf through the ceiling": (at(300.0, 2460.0), "off-wall", "warning", True),
    "a shelf in the floor": (at(300.0, 40.0), "off-wall", "warning", True),
    "a shelf longer than the wall": (on(Wall(width=900.0)), "off-wall", "warning", False),
    "two shelves in one place": (on(Wall(), LEDGE, OTHER), "overlap", "warning", True),
    "the same shelf twice": (on(Wall(), LEDGE, replace(LEDGE, id="other")), "overlap", "warning", True),
    "a screw longer than the wall is deep": (on(Wall(), screw=Screw(length=200.0)), "screw-deep", "warning", True),
    "a screw that ends in the board": (on(Wall(), screw=Screw(length=30.0)), "screw-length", "warning", True),
    "a bite deeper than a stud": (on(Wall(), screw=Screw(bite=120.0)), "screw-deep", "warning", False),
    "more screws than a rail has room for": (on(Wall(), screw=Screw(per_stud=9)), "screw-crowd", "warning", True),
    "ribs closer than they are thick": (on(Wall(), frame=FrameWish(spacing=10.0)), "rib-spacing", "error", True),
    "more play than the cavity is high": (on(Wall(), frame=FrameWish(height_play=60.0)), "no-cavity", "error", True),
    "more play than it is long": (on(Wall(), frame=FrameWish(side_play=700.0)), "no-cavity", "error", True),
    "more rails than it is deep": (on(Wall(), frame=FrameWish(back_layers=10)), "no-cavity", "error", True),
    "an alcove narrower in front": (on(Wall(width=1131.0, alcove=NICHE), OPEN), "alcove-front", "error", True),
    "an alcove of another wall": (on(Wall(width=3000.0, alcove=NICHE), OPEN), "alcove-wall", "note", True),
    "an alcove no shelf fits in": (on(Wall(width=4.0, alcove=SLIT)), "off-wall", "warning", False),
    "a socket off the wall": (on(Wall(keep_outs=(KeepOut(2980.0, 300.0, 86.0, 86.0),))), "keep-out-off", "note", True),
    "a pipe through the ceiling": (on(Wall(keep_outs=(PIPE,))), "keep-out-off", "note", True),
    "a reading off the wall": (on(Wall(bow=((300.0, 0.0), (3200.0, 4.0)))), "bow-off-wall", "note", True),
}  # fmt: skip


@pytest.mark.parametrize("name", ASKEW)
def test_what_is_askew_is_told_and_the_way_out_mends_it(name: str) -> None:
    project, code, severity, has_way_out = ASKEW[name]
    found = told(project, code)
    assert [f.severity for f in found][:1] == [severity], [(f.code, f.message) for f in make_plan(project).findings]
    assert "\n" not in found[0].message
    assert bool(found[0].fixes) is has_way_out
    for fix in range(len(found[0].fixes)):
        if len(found) == 1:
            mended(project, code, fix)


@pytest.mark.parametrize("name", ASKEW)
def test_nothing_of_a_project_that_is_askew_is_lost(name: str, tmp_path: Path) -> None:
    """The plan has the very project, a saved file reads back the same, and it can be written out."""
    project, _, severity, _ = ASKEW[name]
    assert make_plan(project).project == project
    data = dump_project(project)
    assert parse_project(data, project.name) == project
    source, target = tmp_path / "askew.grainfold", tmp_path / "plan.json"
    source.write_bytes(data)
    assert run(source, target, None, None) in ((1,) if severity == "error" else (0, 1))
    assert source.read_bytes() == data
    assert json.loads(target.read_text())["frames"] is not None


def test_studs_in_any_order_make_the_same_frame() -> None:
    orders = ((600.0, 200.0, 1400.0), (1400.0, 600.0, 200.0), (200.0, 600.0, 1400.0, 600.0))
    frames = [make_plan(on(Wall(studs=studs))).frames for studs in orders]
    assert frames[0] == frames[1] == frames[2]
    assert stud_lines(Wall(studs=orders[2]), 0.0, 3000.0) == (200.0, 600.0, 1400.0)


# What is refused

REFUSED: dict[str, tuple[str, Any, str]] = {  # pointer, value, words of the refusal
    "zero spacing of studs": ("/wall/studs", {"first": 100.0, "spacing": 0.0}, "wall.studs.spacing"),
    "negative spacing of studs": ("/wall/studs", {"first": 100.0, "spacing": -406.4}, "wall.studs.spacing"),
    "more studs than a wall has": ("/wall/studs", {"first": 0.0, "spacing": 0.5}, "wall.studs.spacing"),
    "zero spacing of ribs": ("/frame/spacing", 0.0, "frame.spacing"),
    "negative spacing of ribs": ("/frame/spacing", -228.6, "frame.spacing"),
    "no width": ("/wall/width", 0.0, "wall.width"),
    "a negative height": ("/wall/height", -2400.0, "wall.height"),
    "a board of less than nothing": ("/wall/board", -1.0, "wall.board"),
    "a stud without width": ("/wall/stud_width", 0.0, "wall.stud_width"),
    "a stud nowhere": ("/wall/studs", [200.0, 1e9], "wall.studs"),
    "a gap before the straightedge": ("/wall/bow", [[100.0, -2.0]], "wall.bow"),
    "two gaps in one place": ("/wall/bow", [[100.0, 2.0], [100.0, 3.0]], "wall.bow"),
    "an alcove without width": ("/wall/alcove", {"top": [0, 9, 9], "bottom": [9, 9, 9]}, "wall.alcove"),
    "an alcove of two widths": ("/wall/alcove", {"top": [9, 9], "bottom": [9, 9, 9]}, "wall.alcove"),
    "a socket without height": ("/wall/keep_outs", [{"x": 1, "y": 1, "width": 9, "height": 0}], "wall.keep_outs"),
    "a screw of no length": ("/screw/length", 0.0, "screw.length"),
    "no screw to a stud": ("/screw/per_stud", 0, "screw.per_stud"),
    "less than no bite": ("/screw/bite", -5.0, "screw.bite"),
    "a kind of wall nobody knows": ("/wall/kind", "paper", "wall.kind"),
    "a shelf at no number": ("/shelves/0/mount", {"x": "left", "top": 1400.0}, "mount.x"),
    "a rib at no place": ("/shelves/0/ribs", [1e9], "ribs"),
}


def as_file(project: Project, pointer: str, value: Any) -> bytes:
    """The project's file with one value in the place of another."""
    document = json.loads(dump_project(project))
    inner = document
    *path, last = pointer.strip("/").split("/")
    for key in path:
        inner = inner[int(key)] if isinstance(inner, list) else inner[key]
    inner[last] = value
    return json.dumps(document).encode()


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_is_refused_in_one_line_and_changes_nothing(name: str) -> None:
    """The same refusal whether it is read from a file, comes as a way out or from the window."""
    pointer, value, words = REFUSED[name]
    project = on(Wall())
    store = Store(project)
    ways: tuple[Callable[[], object], ...] = (
        lambda: parse_project(as_file(project, pointer, value), "wall"),
        lambda: apply_pointers(project, {pointer: value}),
        lambda: store.apply("Wall", lambda now: apply_pointers(now, {pointer: value})),
    )
    for way in ways:
        with pytest.raises(ProjectError) as refusal:
            way()
        line = str(refusal.value)
        assert words in line
        assert len(line.splitlines()) == 1
        assert len(line) < 200
    assert store.project == project
    assert store.undo_labels == ()


# Laws


def _studs(plan: Plan, shelf: str) -> int:
    return next(len(frame.studs) for frame in plan.frames if frame.shelf == shelf)


def _amounts(plan: Plan) -> dict[tuple[str, str], float | None]:
    return {(f.code, f.about): f.amount for f in plan.findings}


@settings(max_examples=examples(40, 1000))
@given(hung())
def test_every_way_out_on_a_wall_helps(project: Project) -> None:
    """What a finding complains of is gone, or its number is better; and no error is there that was not before."""
    plan = make_plan(project)
    errors = {(f.code, f.about) for f in plan.errors}
    for finding in plan.findings:
        for fix in finding.fixes:
            after = make_plan(apply_pointers(project, fix.set))
            left = _amounts(after)
            key = (finding.code, finding.about)
            if finding.code == "more-studs":  # one more it is; still another may then be within reach
                assert _studs(after, finding.about) > _studs(plan, finding.about)
            elif key in left:
                now, before = left[key], finding.amount
                assert now is not None and before is not None and now < before, (finding.code, fix.text)  # noqa: PT018
            new = {(f.code, f.about) for f in after.errors} - errors
            assert all(about.startswith(f"{finding.about}/") for _, about in new), (finding.code, fix.text, new)


PLACES = st.one_of(st.floats(-500.0, 4000.0), st.sampled_from((0.0, -1e5, 1e5, 3000.0)))
KINDS = st.sampled_from(("socket", "switch", "pipe", "tile edge"))


@settings(max_examples=examples(60, 1000))
@given(
    st.lists(PLACES, max_size=6).map(tuple),
    st.lists(st.builds(KeepOut, PLACES, PLACES, st.floats(0.1, 5000.0), st.floats(0.1, 5000.0), KINDS), max_size=3),
    st.lists(st.tuples(PLACES, st.floats(0.0, 1e4)), max_size=4, unique_by=lambda r: r[0]),
    st.floats(1.0, 1e5),
    st.tuples(PLACES, PLACES),
    st.sampled_from((None, 1.0, 30.0, 500.0, 1e5)),
)
def test_no_wall_however_noted_stops_a_plan(
    studs: tuple[float, ...],
    areas: list[KeepOut],
    bow: list[tuple[float, float]],
    width: float,
    place: tuple[float, float],
    length: float | None,
) -> None:
    wall = Wall(width=width, studs=studs, keep_outs=tuple(areas), bow=tuple(bow))
    project = on(wall, replace(LEDGE, mount=Mount(*place)), screw=Screw(length=length))
    plan = make_plan(project)
    assert plan.project == project
    assert all("\n" not in f.message and f.message.endswith((".", "?")) for f in plan.findings)
    codes = {f.code for f in plan.findings}
    assert ("off-wall" in codes) is not _on_wall(project)
    assert ("stud-off-wall" in codes) is any(not 0.0 <= x <= width for x in studs)


def _on_wall(project: Project) -> bool:
    wall, (shelf,) = project.wall, project.shelves
    assert shelf.mount is not None
    x, top, slack = shelf.mount.x, shelf.mount.top, 1e-6
    across = -slack <= x and x + shelf.length <= wall.width + slack
    return across and shelf.height - slack <= top <= wall.height + slack


def test_the_front_of_an_alcove_may_be_narrower_where_the_shelf_still_goes_in() -> None:
    """Then it is no error, but the gap that is left at the back is told."""
    fits = replace(OPEN, length=1114.0, mount=Mount(8.5, 1400.0))
    assert one(on(Wall(width=1131.0, alcove=NICHE), fits), "alcove-gap").amount == pytest.approx(17.0)
