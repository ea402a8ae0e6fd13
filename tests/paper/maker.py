"""A maker with nothing but the cards: saws the sheets by the numbers that are printed, mark by mark.

The wood is what the saw has left so far, not what the plan says it should be. What is measured from is an edge of it.
"""

from __future__ import annotations

import re
from math import cos, radians, tan

from core.plan.model import Cut, Plan
from core.sawing.piece import Axis, Piece, saw_piece, whole_sheet
from core.steps.bench import pass_cuts
from tests.paper.read_cards import ReadCard, read_number
from tests.steps.derive import Seen, seen_cuts

WAYS = {"low": -1.0, "high": 1.0}
OTHER = {"low": "high", "high": "low"}
CHECK = re.compile(  # where the line then lies on the show face
    r"(?:Toe|Line) (?P<number>\S+?(?: mm)?(?: [+−])?) (?P<what>(?:from|on) [^.]*?)(?:, (?:toe|measured)|\.)"
)


def edge(piece: Piece, axis: Axis, side: str, face: int) -> float:
    """Where a piece ends on a side of one face: 0 the show face, 1 the inside."""
    lines = piece.low(axis) if side == "low" else piece.high(axis)
    places = [line[face] for line in lines]
    return max(places) if side == "low" else min(places)


def side_named(word: str, card: ReadCard) -> str:
    """A side by its name: near is at the trued edge, the upper one; face down, left and right change places."""
    if word in ("near", "far"):
        return "high" if word == "near" else "low"
    return "low" if (word == "left") != (card.face == "down") else "high"


def measured_from(card: ReadCard, guide: str, keep: str, what: str = "") -> str:
    """The side of the cut that the number runs from, by the card's words."""
    what = what or card.what or card.setting
    if "trued edge" in what or "trued end" in what:
        return "high" if "edge" in what else "low"
    if "arris" in what:
        return OTHER[keep]
    if "as it came" in what:
        return OTHER[keep]
    if named := re.search(r"(near|far|left|right) (?:square|bevelled)", what):
        return side_named(named[1], card)
    return guide if re.search(r"from (its|their) ", what) else OTHER[guide]


class Maker:
    """Saws a plan's sheets. What each piece is called is the plan's; where it ends is what the cards have come to."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.kerf = plan.project.saw.kerf
        self.sheets = {sheet.id: sheet for sheet in plan.sheets}
        self.pieces = {s.id: whole_sheet(s.id, s.length, s.width) for s in plan.sheets}
        self.checked: list[tuple[ReadCard, float, float]] = []  # cards that say where their line then lies: said, found

    def work(self, cards: list[ReadCard]) -> None:
        """Make all cuts, card by card."""
        passes = pass_cuts(self.plan)
        assert len(cards) == len(passes)
        for card, cuts, seen in zip(cards, passes, seen_cuts(self.plan), strict=True):
            self.saw(card, cuts, seen[0])

    def saw(self, card: ReadCard, cuts: tuple[Cut, ...], seen: Seen) -> None:
        """One pass. seen: the same as planned; only which way up a table saw's wood is turned is taken from it."""
        thickness, axis, keep = self.sheets[cuts[0].sheet].thickness, seen.axis, cuts[0].keep
        tilt = radians(card.tilt)
        setback, footprint = thickness * tan(tilt), self.kerf / cos(tilt)
        before = [self.pieces.pop(cut.piece) for cut in cuts]
        if "at table level" in card.what:
            guide = keep if card.where == "on what is kept" else OTHER[keep]
            at = self._by_the_scale(card, before, axis, keep, guide, setback, footprint)
            if said := CHECK.search(card.text):
                side = measured_from(card, guide, keep, said["what"])
                found = abs(edge(before[0], axis, side, 0) - at)
                self.checked.append((card, read_number(said["number"]), found))
        else:
            guide = keep if card.device != "guide" else side_named(card.where.split()[2], card)
            side = measured_from(card, guide, keep)
            number = 0.0 if card.setting.startswith("on the ") else read_number(card.setting)
            at = edge(before[0], axis, side, 0) - WAYS[side] * number
        for cut, piece in zip(cuts, before, strict=True):
            names = (cut.makes[0] or "", cut.makes[1] or "")
            made = saw_piece(piece, axis, at, cut.keep, setback, footprint, names)
            self.pieces.update((one.name, one) for one in made if one is not None)

    def _by_the_scale(
        self, card: ReadCard, before: list[Piece], axis: Axis, keep: str, guide: str, setback: float, footprint: float
    ) -> float:
        """Fence and stop stand on the table: the blade beside them is where it meets the face that lies down."""
        ends = [edge(piece, axis, guide, face) for piece in before for face in (0, 1)]
        bearing = min(ends) if guide == "low" else max(ends)
        blade = bearing - WAYS[guide] * read_number(card.setting)  # the blade's side towards the fence, at the table
        beside = 0.0 if guide == keep else footprint
        back = setback if card.face == "up" else 0.0  # the kept part's lower face is set back where its show face is up
        return blade + WAYS[keep] * (beside - back)
