"""The cut cards as they are printed, read back from the PDF: what they say, and what comes of following them.

Limits are the plan set's own promise: 0.4 mm in 1/32 with its marks, 0.1 mm in millimetres.
"""

from __future__ import annotations

from functools import cache

import msgspec
import pytest
from hypothesis import given, settings

from app.paper.pdf import pdf_bytes
from core.document.model import Project, Units
from core.lengths import Unit, show_angle, show_length
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.conftest import examples
from tests.paper.maker import Maker, edge, measured_from, side_named
from tests.paper.read_cards import ReadCard, read_cards, read_number
from tests.paper.recorder import demo, demo_names
from tests.steps.derive import Seen, foot_of, guide_of, kept_side, plane_beside, seen_cuts
from tests.steps.test_law import sawn_projects

pytestmark = pytest.mark.usefixtures("qapp")
BOTH: tuple[Units, ...] = ("in", "mm")
CLOSE = {"in": 0.4, "mm": 0.1}  # mm
NOISE = 1e-6  # mm
LINE = 0.02  # mm: no pencil line is finer
DEMOS = [(name, units) for name in demo_names() for units in BOTH]


def cards_in(plan: Plan) -> list[ReadCard]:
    return read_cards(pdf_bytes(plan, names=("cut cards",))) if plan.cuts else []


@cache
def demo_cards(name: str, units: Units) -> list[ReadCard]:
    return cards_in(demo(name, units))


def check_cards(plan: Plan, cards: list[ReadCard]) -> None:
    """Number, guide's side, lean, flip and face against the second derivation, which knows the sawn pieces alone."""
    passes = seen_cuts(plan)
    assert [(card.number, card.of) for card in cards] == [(n, len(passes)) for n in range(1, len(passes) + 1)]
    last: dict[str, str] = {}
    before = ""
    for card, seen in zip(cards, passes, strict=True):
        one, saw = seen[0], plan.project.saw
        face = saw.face if one.cut.bevel else "up"
        guide, foot = guide_of(one, saw.lean, face), foot_of(one, face)
        assert card.face == face
        assert card.tilt == (read_angle(one.cut.bevel) if one.cut.bevel else 0.0)
        assert card.way == ("" if foot is None else "under" if foot == guide else "away from")
        assert card.flip == (before == one.cut.kind and last.get(before, guide) != guide)
        last[one.cut.kind], before = guide, one.cut.kind
        if card.device == "guide":
            assert side_named(card.where.split()[2], card) == guide
            assert not foot or side_named(card.foot, card) == foot
        elif card.device != "no":
            assert card.where == ("on what is kept" if guide == kept_side(one) else "on the other side")
        if card.device != "no":
            assert card.kept == ("this" if guide == kept_side(one) else "other")
        assert card.setting == number_of(plan, card, seen, guide, face)


def read_angle(deg: float) -> float:
    return float(show_angle(deg).removesuffix("°"))


def number_of(plan: Plan, card: ReadCard, seen: list[Seen], guide: str, face: str) -> str:
    """The number a card must have, off the sawn pieces: what it is measured from is as the card says."""
    one, unit = seen[0], Unit(plan.project.units)
    if "at table level" in card.what:
        ends = [edge(s.before, s.axis, guide, side) for s in seen for side in (0, 1)]
        bearing = min(ends) if guide == "low" else max(ends)
        return show_length(abs(bearing - plane_beside(one, guide)[1 if face == "up" else 0]), unit)
    keep = kept_side(one)
    side = measured_from(card, guide, keep)
    toe = abs(edge(one.before, one.axis, side, 0) - one.cut.at)
    if "arris" in card.setting:
        assert toe <= 0.05
        return card.setting
    return show_length(toe, unit, 64, marks=False) if "arris" in card.what else show_length(toe, unit)


def followed(plan: Plan, cards: list[ReadCard]) -> dict[str, tuple[float, float]]:
    """Show faces of all parts as a maker gets them from the cards: along and across the grain, by id. [mm]"""
    maker = Maker(plan)
    maker.work(cards)
    parts = {p.id: p.piece for p in plan.panels if p.piece}
    parts |= {p.id: p.piece for f in plan.frames for p in f.parts if p.piece}
    boxes = {part: maker.pieces[piece].show_box() for part, piece in parts.items()}
    return {part: (x1 - x0, y1 - y0) for part, (x0, y0, x1, y1) in boxes.items()}


def check_followed(plan: Plan, cards: list[ReadCard]) -> None:
    made, close = followed(plan, cards), CLOSE[plan.project.units]
    planned = {p.id: p.show for p in plan.panels if p.piece}
    planned |= {p.id: (p.length, p.width) for f in plan.frames for p in f.parts if p.piece}
    off = {part: max(abs(a - b) for a, b in zip(made[part], size, strict=True)) for part, size in planned.items()}
    assert {part: error for part, error in off.items() if error > close + NOISE} == {}
    assert unequal(plan, made) == []


def unequal(plan: Plan, made: dict[str, tuple[float, float]]) -> list[str]:
    """Seams whose two edges are not just as long."""
    found = []
    for net in plan.shapes:
        for joint in net.joints:
            longs = []
            for role, side in zip(joint.panels, joint.edges, strict=True):
                if (part := f"{net.owner}/{role}") in made:
                    longs.append(made[part][0 if side.endswith("_y") else 1])
            if len(longs) == 2 and abs(longs[0] - longs[1]) > LINE:
                found.append(f"{net.owner}/{joint.name}: {longs[0]:.3f} and {longs[1]:.3f}")
    return found


@pytest.mark.parametrize(("name", "units"), DEMOS)
def test_cards_agree_with_the_sawn_pieces(name: str, units: Units) -> None:
    check_cards(demo(name, units), demo_cards(name, units))


@pytest.mark.parametrize(("name", "units"), DEMOS)
def test_followed_literally_they_give_the_parts(name: str, units: Units) -> None:
    check_followed(demo(name, units), demo_cards(name, units))


@settings(max_examples=examples(3, 200))
@given(sawn_projects())
def test_cards_of_any_job_agree_with_its_sawn_pieces(project: Project) -> None:
    for units in BOTH:
        plan = make_plan(msgspec.structs.replace(project, units=units))
        cards = cards_in(plan)
        check_cards(plan, cards)


def test_numbers_are_read_as_makers_read_them() -> None:
    """1/64 in is 0.396875 mm."""
    assert read_number('10-3/16"') == pytest.approx(258.7625)
    assert read_number('10-3/16" +') == pytest.approx(258.7625 + 0.396875)
    assert read_number('3/32" −') == pytest.approx(2.38125 - 0.396875)
    assert read_number('8"') == pytest.approx(203.2)
    assert read_number("258.8 mm") == 258.8
