"""Findings of guide and fence: said once, with the worst number and its unit; each fix makes its finding go."""

from __future__ import annotations

import re

import msgspec
import pytest

from core.document.model import Project
from core.document.patch import apply_pointers
from core.plan.make import make_plan
from core.plan.model import Finding
from core.steps.minding import dangers_in_words
from core.steps.steps import steps_of
from tests.steps.jobs import golden_inch, golden_metric


def told(project: Project, code: str) -> Finding | None:
    found = [f for f in make_plan(project).findings if f.code == code]
    assert len(found) < 2
    return found[0] if found else None


@pytest.mark.parametrize("project", [golden_inch(), golden_metric()], ids=["inch", "metric"])
def test_a_guide_is_300_mm_longer_than_the_cut(project: Project) -> None:
    """Common practice: the saw starts and stops on the guide."""
    longest = max(step.length for step in steps_of(make_plan(project)))
    enough = msgspec.structs.replace(project.saw, guide_length=longest + 300.0)
    assert told(msgspec.structs.replace(project, saw=enough), "guide-short") is None
    short = msgspec.structs.replace(project, saw=msgspec.structs.replace(enough, guide_length=longest + 299.0))
    finding = told(short, "guide-short")
    assert finding is not None
    assert finding.severity == "warning"
    assert finding.amount == pytest.approx(1.0)
    (fix,) = finding.fixes
    assert told(apply_pointers(short, fix.set), "guide-short") is None


def test_a_table_saw_knows_no_guide_rail() -> None:
    assert told(golden_metric(kind="table", guide_length=500.0), "guide-short") is None


def test_the_blade_must_not_lean_to_the_fence() -> None:
    project = golden_metric(kind="table", lean="away")
    finding = told(project, "trapped")
    assert finding is not None
    assert (finding.severity, len(finding.fixes)) == ("warning", 1)
    mended = apply_pointers(project, finding.fixes[0].set)
    assert told(mended, "trapped") is None
    assert told(golden_metric(lean="away"), "trapped") is None  # a guided saw has no fence to trap wood


def test_a_fence_too_short_for_a_bevel_warns_and_for_a_square_cut_notes() -> None:
    fits = golden_metric(kind="table", fence_travel=400.0)
    square = told(fits, "fence-travel")
    assert square is not None
    assert square.severity == "note"
    bevel = told(golden_metric(kind="table", fence_travel=200.0), "fence-travel")
    assert bevel is not None
    assert bevel.severity == "warning"
    assert told(golden_metric(kind="table", fence_travel=3000.0), "fence-travel") is None


def test_the_fences_travel_is_one_number_on_cards_and_in_the_finding() -> None:
    """800 mm are 31-1/2 in but for a hair: said alike wherever it is said."""
    project = golden_inch(kind="table", fence_travel=800.0)
    finding, plan = told(project, "fence-travel"), make_plan(project)
    assert finding is not None
    on_cards = [" ".join(dangers_in_words(plan, s)) for s in steps_of(plan) if "fence travel" in s.dangers]
    assert on_cards
    assert all('31-1/2"' in words for words in (finding.message, *on_cards))


def test_a_strip_narrower_than_25_mm_at_the_fence_is_narrow() -> None:
    """Common practice. The frame's rails are as wide as the cavity is high, less the play: 60 - 2 x 17.8 - 1.5."""
    finding = told(golden_metric(kind="table"), "narrow")
    assert finding is not None
    assert finding.amount == pytest.approx(60.0 - 2 * 17.8 - 1.5)
    tall = golden_metric(kind="table")
    shelves = (msgspec.structs.replace(tall.shelves[0], height=80.0),)
    assert told(msgspec.structs.replace(tall, shelves=shelves), "narrow") is None


def test_nothing_to_pack_a_wide_guide_out_with() -> None:
    assert told(golden_metric(guide_width=190.0), "narrow") is None
    finding = told(golden_metric(guide_width=1300.0), "narrow")
    assert finding is not None
    assert finding.severity == "warning"


@pytest.mark.parametrize(("lean", "face"), [("away", "up"), ("under", "down")])
def test_a_fence_on_the_waste_is_told_with_a_way_out(lean: str, face: str) -> None:
    project = golden_metric(kind="table", lean=lean, face=face)
    finding = told(project, "waste-side")
    assert finding is not None
    assert finding.severity == "warning"
    (fix,) = finding.fixes
    mended = apply_pointers(project, fix.set)
    assert told(mended, "waste-side") is None
    assert told(mended, "trapped") is None
    assert told(golden_metric(lean=lean, face=face), "waste-side") is None  # a guide rail may lie on the waste


@pytest.mark.parametrize("face", ["up", "down"])
def test_the_way_out_of_a_trap_does_not_lead_to_a_fence_on_the_waste(face: str) -> None:
    project = golden_metric(kind="table", lean="away", face=face)
    finding = told(project, "trapped")
    assert finding is not None
    mended = apply_pointers(project, finding.fixes[0].set)
    assert {f.code for f in make_plan(mended).findings}.isdisjoint({"trapped", "waste-side"})


@pytest.mark.parametrize("units", ["in", "mm"])
def test_every_message_has_a_number_with_its_unit(units: str) -> None:
    hard = {"guide_width": 1300.0, "guide_length": 900.0, "fence_travel": 200.0, "lean": "away"}
    for kind in ("guided", "table"):
        project = apply_pointers(golden_metric(kind=kind, **hard), {"/units": units})
        mine = [
            f
            for f in make_plan(project).findings
            if f.code in ("guide-short", "narrow", "fence-travel", "trapped", "waste-side")
        ]
        assert len(mine) >= 2
        for finding in mine:
            assert re.search(r"\d(\"| mm|°)", finding.message)
