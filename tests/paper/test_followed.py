"""The cut cards as they are printed, read back from the PDF: what they say, and what comes of following them.

Limits are the plan set's own promise: 0.4 mm in 1/32 with its marks, 0.1 mm in millimetres.
"""

from __future__ import annotations

import re
from functools import cache

import msgspec
import pytest
from hypothesis import given, settings

from app.paper.pdf import frame_of, pdf_bytes
from app.paper.plan_set import pages_of
from core.document.model import Project, Saw, Sheet, Shelf, Units
from core.drawing.names import part_name, shelf_letters
from core.lengths import Unit, show_angle, show_length
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.conftest import examples
from tests.paper.maker import Maker, edge, measured_from, side_named
from tests.paper.read_cards import INCH, ReadCard, read_cards, read_number, written_cards
from tests.paper.recorder import demo, demo_names, recorded
from tests.steps.derive import Seen, foot_of, guide_of, kept_side, plane_beside, seen_cuts
from tests.steps.test_law import sawn_projects

pytestmark = pytest.mark.usefixtures("qapp")
BOTH: tuple[Units, ...] = ("in", "mm")
CLOSE = {"in": 0.4, "mm": 0.1}  # mm
NOISE = 1e-6  # mm
GRID = {"in": INCH / 64.0, "mm": 0.1}  # mm: how fine numbers are printed
MADE_UP = 16  # steps of the grid: most that a cut which gives no part its size leaves more or less wood
LINE = 0.02  # mm: no pencil line is finer
UNEVEN = (
    r"({names}) comes out ([\d.]+)( mm|\") (?:longer|shorter) than ({names}), which it meets: set this cut by \4 itself"
)
UNTRUE = r"({names}) comes out ([\d.]+)( mm|\") (?:longer|shorter|wider|narrower) than planned"
DEMOS = [(name, units) for name in demo_names() for units in BOTH]


def cards_in(plan: Plan) -> list[ReadCard]:
    return read_cards(pdf_bytes(plan, names=("cut cards",))) if plan.cuts else []


@cache
def demo_cards(name: str, units: Units) -> list[ReadCard]:
    return cards_in(demo(name, units))


def cards_written(plan: Plan) -> list[ReadCard]:
    """The same from the words as they are drawn, without a PDF: many times quicker."""
    frame = frame_of(plan, "letter")
    cards: list[ReadCard] = []
    for page in pages_of(plan, frame, ("cut cards",)) if plan.cuts else ():
        cards += written_cards(recorded(page, frame).words, frame.width, frame.height)
    return cards


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
        check_number(plan, card, number_of(plan, card, seen, guide, face))


def check_number(plan: Plan, card: ReadCard, number: str) -> None:
    """The number is the planned one; or one that makes up for what those before it, as printed, are off."""
    if card.setting != number:
        assert "arris" not in card.what
        most = MADE_UP * (4 if card.where == "on the other side" else 1)  # by the waste nothing has a size of its own
        assert abs(read_number(card.setting) - read_number(number)) <= most * GRID[plan.project.units] + NOISE


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
    side = measured_from(card, keep if card.device == "no" else guide, keep)
    toe = abs(edge(one.before, one.axis, side, 0) - one.cut.at)
    if "arris" in card.setting:
        assert toe <= GRID[plan.project.units] / 2.0 + NOISE  # nothing that could be printed
        return card.setting
    return show_length(toe, unit, 64, marks=False) if "arris" in card.what else show_length(toe, unit)


def followed(plan: Plan, cards: list[ReadCard]) -> dict[str, tuple[float, float]]:
    """Show faces of all parts as a maker gets them from the cards: along and across the grain, by id. [mm]"""
    maker = Maker(plan)
    maker.work(cards)
    for card, said, found in maker.checked:  # a scale's number is another than the place of its line on the wood
        assert said == pytest.approx(found, abs=GRID[plan.project.units] / 2.0 + LINE), card.number
    parts = {p.id: p.piece for p in plan.panels if p.piece}
    parts |= {p.id: p.piece for f in plan.frames for p in f.parts if p.piece}
    boxes = {part: maker.pieces[piece].show_box() for part, piece in parts.items()}
    return {part: (x1 - x0, y1 - y0) for part, (x0, y0, x1, y1) in boxes.items()}


def check_followed(plan: Plan, cards: list[ReadCard]) -> None:
    """All parts within the limit, and those that meet just as long; but what a card says itself is not, and by how
    much: an end that is what another and the kerf leave, and what is cut by a fence that bears on waste."""
    made, close = followed(plan, cards), CLOSE[plan.project.units]
    told = told_uneven(plan, cards)
    over = {part: error for part, error in off_by(plan, made).items() if error > close + NOISE}
    assert over == pytest.approx(told_untrue(plan, cards), abs=INCH / 1000.0)
    for parts, apart in unequal(plan, made):
        assert told[parts] == pytest.approx(apart, abs=INCH / 1000.0)


def told_untrue(plan: Plan, cards: list[ReadCard]) -> dict[str, float]:
    """What the cards say of parts that do not come out as planned: by how much, at most. [mm]"""
    names, found = names_of(plan), dict[str, float]()
    pattern = re.compile(UNTRUE.format(names="|".join(map(re.escape, names))))
    for card in cards:
        for part, off, unit in pattern.findall(card.text):
            most = float(off) * (INCH if unit == '"' else 1.0)
            found[names[part]] = max(most, found.get(names[part], 0.0))
    return found


def names_of(plan: Plan) -> dict[str, str]:
    """The ids of all parts by what a card calls them."""
    letters = shelf_letters(plan) if len(plan.project.shelves) > 1 else {p.shelf: "" for p in plan.panels}
    parts = [*(p.id for p in plan.panels), *(p.id for f in plan.frames for p in f.parts)]
    return {part_name(part, letters): part for part in parts}


def told_uneven(plan: Plan, cards: list[ReadCard]) -> dict[frozenset[str], float]:
    """What the cards say of parts that meet and do not come out alike: by how much. [mm]"""
    names, found = names_of(plan), dict[frozenset[str], float]()
    pattern = re.compile(UNEVEN.format(names="|".join(map(re.escape, names))))
    for card in cards:
        for part, off, unit, mate in pattern.findall(card.text):
            parts = frozenset((names[part], names[mate]))
            found[parts] = float(off) * (INCH if unit == '"' else 1.0)
    return found


def off_by(plan: Plan, made: dict[str, tuple[float, float]]) -> dict[str, float]:
    """How far each part's show face is off what is planned. [mm]"""
    planned = {p.id: p.show for p in plan.panels if p.piece}
    planned |= {p.id: (p.length, p.width) for f in plan.frames for p in f.parts if p.piece}
    return {part: max(abs(a - b) for a, b in zip(made[part], size, strict=True)) for part, size in planned.items()}


def unequal(plan: Plan, made: dict[str, tuple[float, float]]) -> list[tuple[frozenset[str], float]]:
    """Panels that meet and whose edges there are not just as long, and by how much."""
    found = []
    for net in plan.shapes:
        for joint in net.joints:
            longs = {}
            for role, side in zip(joint.panels, joint.edges, strict=True):
                if (part := f"{net.owner}/{role}") in made:
                    longs[part] = made[part][0 if side.endswith("_y") else 1]
            if len(longs) == 2 and max(longs.values()) - min(longs.values()) > LINE:
                found.append((frozenset(longs), max(longs.values()) - min(longs.values())))
    return found


@pytest.mark.parametrize(("name", "units"), DEMOS)
def test_cards_agree_with_the_sawn_pieces(name: str, units: Units) -> None:
    check_cards(demo(name, units), demo_cards(name, units))


@pytest.mark.parametrize(("name", "units"), DEMOS)
def test_followed_literally_they_give_the_parts(name: str, units: Units) -> None:
    check_followed(demo(name, units), demo_cards(name, units))


@pytest.mark.parametrize(("name", "units"), DEMOS)
def test_in_a_demo_nothing_comes_out_unlike(name: str, units: Units) -> None:
    plan, cards = demo(name, units), demo_cards(name, units)
    assert told_uneven(plan, cards) == {}
    assert told_untrue(plan, cards) == {}


@settings(max_examples=examples(10, 200), derandomize=True, database=None)
@given(sawn_projects())
def test_cards_of_any_job_agree_with_its_sawn_pieces(project: Project) -> None:
    for units in BOTH:
        plan = make_plan(msgspec.structs.replace(project, units=units))
        check_cards(plan, cards_written(plan))


@settings(max_examples=examples(12, 200), derandomize=True, database=None)
@given(sawn_projects())
def test_followed_literally_cards_of_any_job_give_its_parts(project: Project) -> None:
    """The letters are those the recorder wrote down, which are the PDF's (see `test_dimensions`)."""
    for units in BOTH:
        plan = make_plan(msgspec.structs.replace(project, units=units))
        check_followed(plan, cards_written(plan))


@pytest.mark.parametrize("units", BOTH)
@pytest.mark.parametrize("more", [0.0, 0.3])
def test_where_nothing_is_left_for_cleaning_up_panels_come_out_as_long_all_the_same(units: Units, more: float) -> None:
    """A V with no allowance has its two cuts in one place: where one moves on, the panel's other end goes with it."""
    wood = Sheet("A", 2440.0, 1265.0, 25.0, trim=0.2, quantity=2)
    saw = Saw(kerf=4.6, overcut=0.0, allowance=0.0)
    for ends in ({"right": "open"}, {"left": "open"}, {}):
        shelf = Shelf("s", 925.3 + more, 238.91875, 90.7 + more, **ends)
        plan = make_plan(Project((wood,), (shelf,), saw=saw, units=units))
        check_followed(plan, cards_written(plan))


def test_numbers_are_read_as_makers_read_them() -> None:
    """1/64 in is 0.396875 mm."""
    assert read_number('10-3/16"') == pytest.approx(258.7625)
    assert read_number('10-3/16" +') == pytest.approx(258.7625 + 0.396875)
    assert read_number('3/32" −') == pytest.approx(2.38125 - 0.396875)
    assert read_number('8"') == pytest.approx(203.2)
    assert read_number("258.8 mm") == 258.8
