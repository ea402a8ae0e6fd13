"""A net in its parts: what is left of the net, and the panels cut apart from it."""

from __future__ import annotations

from math import cos, radians

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.check import check_project
from core.document.errors import ProjectError
from core.document.model import APART, Project, Sheet, Shelf
from core.geometry.net import EDGES, Net
from core.geometry.parts import apart_part, main_part, part_origin
from core.geometry.shell import shell_net
from tests.conftest import examples
from tests.strategies import cut_apart

BEVEL, KERF = 45.5, 2.2
LOSS = KERF / cos(radians(BEVEL))


@st.composite
def shelves(draw: st.DrawFn) -> Shelf:
    left, right = draw(st.sampled_from(["mitred", "open"])), draw(st.sampled_from(["mitred", "open"]))
    ends_from = draw(st.sampled_from(["front", "top", "bottom"]))
    sizes = draw(st.floats(300, 2000)), draw(st.floats(90, 400)), draw(st.floats(50, 150))
    apart = draw(cut_apart(left, right, ends_from))
    return Shelf("s", *sizes, left, right, ends_from, draw(st.floats(0, 12)), apart=apart)


def net_of(shelf: Shelf) -> Net:
    return shell_net(shelf, BEVEL, LOSS)


@settings(max_examples=examples(200, 3000))
@given(shelves())
def test_a_net_is_smaller_by_what_is_cut_apart(shelf: Shelf) -> None:
    """Each end is one reach along the grain, each of top and bottom one depth across it, with the V between."""
    net, depth = main_part(net_of(shelf)), shelf.depth + shelf.scribe
    reach = (depth if shelf.ends_from == "front" else shelf.height) + LOSS
    ends = shelf.mitred_ends - len({"left", "right"} & set(shelf.apart))
    strips = 2 - len({"top", "bottom"} & set(shelf.apart))
    assert net.length == pytest.approx(shelf.length + ends * reach, abs=1e-9)
    assert net.width == pytest.approx(shelf.height + strips * (depth + LOSS), abs=1e-9)


@settings(max_examples=examples(200, 3000))
@given(shelves())
def test_every_panel_is_in_one_part_as_it_was(shelf: Shelf) -> None:
    """Size, bevels and grain as without anything cut apart; its place that of the whole net, less the part's."""
    whole, usual = net_of(shelf), net_of(msgspec.structs.replace(shelf, apart=()))
    assert whole.panels == usual.panels
    parts = [main_part(whole), *(apart_part(whole, role) for role in shelf.apart)]
    found = [(panel, part_origin(whole, panel.role)) for part in parts for panel in part.panels]
    assert sorted(panel.role for panel, _ in found) == sorted(panel.role for panel in usual.panels)
    for panel, (dx, dy) in found:
        before = usual.panel(panel.role)
        assert (panel.length, panel.width, panel.bevels) == (before.length, before.width, before.bevels)
        assert (panel.x + dx, panel.y + dy) == pytest.approx((before.x, before.y))
    for part in parts:
        assert min(p.x for p in part.panels) == pytest.approx(0.0, abs=1e-9)
        assert min(p.y for p in part.panels) == pytest.approx(0.0, abs=1e-9)
        roles = {p.role for p in part.panels}
        assert all(p.parent is None or p.parent in roles for p in part.panels)
        assert all(any(p.bevel(edge) == 0.0 for edge in EDGES) for p in part.panels if p.role in APART)


@settings(max_examples=examples(100, 1000))
@given(shelves())
def test_only_seams_within_the_net_keep_their_figure(shelf: Shelf) -> None:
    usual = {j.name: j.wraps for j in net_of(msgspec.structs.replace(shelf, apart=())).joints}
    for joint in net_of(shelf).joints:
        assert joint.wraps == (usual[joint.name] and not set(joint.panels) & set(shelf.apart))


@settings(max_examples=examples(100, 1000))
@given(shelves(), st.lists(st.sampled_from(APART), max_size=3))
def test_what_is_allowed_always_makes_a_net(shelf: Shelf, more: list[str]) -> None:
    """Whatever is named: it is refused in one sentence, or every part hangs together."""
    project = Project((Sheet("A", 2440.0, 1220.0),), (msgspec.structs.replace(shelf, apart=(*shelf.apart, *more)),))
    refused = ""
    try:
        check_project(project)
    except ProjectError as error:
        refused = str(error)
    if refused:
        assert "shelves[0].apart: " in refused
        return
    net = main_part(net_of(project.shelves[0]))
    assert all(p.parent is None or net.panel(p.parent) for p in net.panels)
    assert {p.role for p in net.panels} & set(APART).difference(project.shelves[0].apart) == {
        p.role for p in net_of(project.shelves[0]).panels
    } - {"front", *project.shelves[0].apart}
