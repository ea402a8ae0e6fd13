"""The wall in the rule: what is typed is the document's, and what it cannot be is refused beside the field."""

from __future__ import annotations

from collections.abc import Callable
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtWidgets import QLabel, QWidget

from app.rule.keep_out_rows import KINDS as HIDDEN
from app.rule.wall_section import KINDS
from app.rule.wall_text import bow_text, read_bow, read_studs, read_widths, studs_text, widths_text
from app.window.window import Window
from core.document.model import Alcove, KeepOut, Obstacle, Studs, Wall, WallKind
from core.lengths import Unit
from tests.strategies import lengths

Find = Callable[[str], QWidget]
Click = Callable[[str], None]
Enter = Callable[[str, str], None]


@given(st.lists(st.tuples(lengths(0.0, 3000.0), lengths(0.0, 20.0)), max_size=6), st.sampled_from(Unit))
def test_what_is_measured_reads_back_the_same(readings: list[tuple[float, float]], unit: Unit) -> None:
    bow, studs = tuple(readings), tuple(x for x, _ in readings)
    assert read_bow(bow_text(bow, unit), unit) == bow
    assert read_studs(studs_text(studs, unit), unit) == studs
    widths = (*studs, 900.0, 910.0, 920.0)[:3]
    assert read_widths(widths_text((widths[0], widths[1], widths[2]), unit), unit) == widths
    assert read_widths(widths_text(None, unit), unit) is None


@pytest.mark.parametrize("unit", Unit)
def test_an_alcove_as_wide_everywhere_is_one_width(unit: Unit) -> None:
    assert read_widths("1124 mm", unit) == (1124.0, 1124.0, 1124.0)
    assert ";" not in widths_text((1124.0, 1124.0, 1124.0), unit)


def wall(window: Window) -> Wall:
    return window.store.project.wall


def test_every_key_of_the_wall_is_in_the_rule(window: Window, find: Find, click: Click, enter: Enter) -> None:
    window.rule.fold(())
    plain = wall(window)
    enter("wall_tile", "3/8")
    enter("wall_run_out", "-1/4")
    enter("wall_bow", "12: 0; 48: 3/8")
    enter("wall_over", "44; 44 1/8; 44 1/4")
    enter("wall_under", "43; 44; 45")
    click("wall_keep_out_add")
    enter("wall_keep_out_x", "20")
    changed = wall(window)
    assert changed.tile == pytest.approx(9.525)
    assert changed.run_out == pytest.approx(-6.35)
    assert changed.bow == ((304.8, 0.0), (1219.2, 9.525))
    assert changed.alcove == Alcove((1117.6, 1120.775, 1123.95), (1092.2, 1117.6, 1143.0))
    assert [(area.kind, area.x) for area in changed.keep_outs] == [("socket", 508.0)]
    enter("wall_over", " ")
    assert wall(window).alcove is None
    click("wall_keep_out_remove")
    assert wall(window).keep_outs == plain.keep_outs == ()


def test_studs_as_noted_start_as_the_even_ones(window: Window, click: Click, enter: Enter) -> None:
    window.rule.fold(())
    even = wall(window).studs
    assert isinstance(even, Studs)
    click("wall_studs_noted")
    noted = wall(window).studs
    assert isinstance(noted, tuple)
    assert noted[:2] == pytest.approx((even.first, even.first + even.spacing))
    enter("wall_noted", "10; 26")
    assert wall(window).studs == (254.0, 660.4)
    click("wall_studs_even")
    assert wall(window).studs == Studs(254.0, pytest.approx(406.4))


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("wall_bow", "12 3/8", "place: gap"),
        ("wall_bow", "12: -1", "at least 0"),
        ("wall_over", "44; 45", "or three"),
        ("wall_tile", "-1", "at least 0"),
    ],
)
def test_what_cannot_be_is_refused_beside_the_field(
    window: Window, find: Find, enter: Enter, field: str, typed: str, words: str
) -> None:
    window.rule.fold(())
    before = wall(window)
    enter(field, typed)
    reason = find(f"{field}_reason")
    assert isinstance(reason, QLabel)
    assert words in reason.text()
    assert wall(window) == before


def test_the_choices_are_the_files() -> None:
    assert [key for key, _ in KINDS] == list(get_args(WallKind))
    assert [key for key, _ in HIDDEN] == list(get_args(Obstacle))
    assert KeepOut(0.0, 0.0, 1.0, 1.0).kind in get_args(Obstacle)
