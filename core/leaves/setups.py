"""The saw's set-ups on one card: what is set when, and the scrap that is sawn before the sheet is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final

from core.drawing.names import part_name, section_of, shelf_letters
from core.drawing.tables import Column, Table
from core.findings.nominal import nominal_lines, still_nominal
from core.findings.words import length
from core.language import tr
from core.leaves.model import Block, Leaf, Notice, Rows, Words
from core.lengths import Unit, show_angle, show_length, show_thickness
from core.plan.model import Plan
from core.steps.cards import changes_of, facts_of
from core.steps.model import Step
from core.steps.rounding import rounding_cost, to_fraction
from core.steps.steps import steps_of
from core.steps.words import number_in_words

COLUMNS: Final = (
    Column(tr("Set-up"), "right"),
    Column(tr("Cards"), "right"),
    Column(tr("How the saw stands")),
    Column(tr("What changes")),
    Column(tr("Test cut first, on scrap of the sheet")),
    Column(tr("Card: set to")),
    Column(tr("Set"), "tick"),
)
STICKS: Final = (Column(tr("Gauge stick"), "right"), Column(tr("Cards")), Column(tr("Cut"), "tick"))
SAW: Final = (Column(tr("This saw")), Column(tr("Planned"), "right"), Column(tr("Measured")))
BLANK: Final = "________"
NEEDS: Final = 3.0  # mm: how much deeper than the wood the blade is set (common practice)
HELD: Final = 38.1  # mm: a shorter gauge stick is hard to hold (common practice)
MOST: Final = 16  # settings that are told of one set-up
FRACTION: Final = 16  # of an inch: what a tape without thirty-seconds shows

TESTS: Final = {
    "bevel": tr("Two strips at this tilt, folded: a square corner, no gap at the toe."),
    "square": tr("One cut, one half turned end for end: no daylight."),
    "flip": tr("One cut to a pencilled line: the toe is on it."),
    "across": tr("One cut across a strip: square to its edge."),
}
SEAMS: Final = (
    tr("Set the tilt by the test cut, never by the scale alone. A corner that opens at the toe wants more tilt."),
    tr("Within a set-up neither tilt nor guide changes sides. Do all its cards before you touch the tilt."),
)


def setup_leaf(plan: Plan) -> Leaf | None:
    """The card for the saw; None where nothing is cut."""
    steps = steps_of(plan)
    return Leaf(tr("Saw set-ups"), tuple(_blocks(plan, steps))) if steps else None


def _blocks(plan: Plan, steps: tuple[Step, ...]) -> Iterator[Block]:
    yield Rows(setup_table(plan, steps), wide=True)
    yield Words(tr("Tilt"), SEAMS)
    if plan.project.units == "in":
        yield Notice(tr("In sixteenths"), (sixteenths(plan),))
    if nominal := still_nominal(plan):
        yield Words(tr("Still nominal: measure, then cut"), nominal_lines(nominal), tick=True)
    yield Rows(saw_table(plan))
    sticks = stick_table(plan, steps)
    if sticks.rows:
        yield Rows(sticks)


def setup_table(plan: Plan, steps: tuple[Step, ...]) -> Table:
    """One row for each set-up, in order."""
    rows = []
    before: Step | None = None
    for number, group in groupby(steps, key=lambda step: step.setup):
        own = list(group)
        rows.append((str(number), _range(own), *_told(plan, own, before), ""))
        before = own[-1]
    return Table("set-ups", "", COLUMNS, tuple(rows), ("",) * len(rows))


def _range(steps: Sequence[Step]) -> str:
    first, last = steps[0].number, steps[-1].number
    return str(first) if first == last else tr("{first} to {last}", first=first, last=last)


def _told(plan: Plan, steps: list[Step], before: Step | None) -> tuple[str, str, str, str]:
    stands = dict.fromkeys(" · ".join(fact for fact in facts_of(step) if fact != tr("flip")) for step in steps)
    kind = tr("rips") if steps[0].kind == "rip" else tr("crosscuts")
    how = f"{kind}, {tr('; or ').join(stands)}"
    return how, " ".join(changes_of(plan, steps[0])), TESTS[_test(steps[0], before)], _settings(plan, steps)


def _settings(plan: Plan, steps: list[Step]) -> str:
    """Like '9: 11-3/8"; 10 to 12: 8-1/2"': cards that follow each other with one number are told together."""
    told = [
        f"{_range(list(cards))}: {number}"
        for number, cards in groupby(steps, key=lambda step: number_in_words(plan, step)[0])
    ]
    return "; ".join(told if len(told) <= MOST else [*told[:MOST], tr("and {count} more", count=len(told) - MOST)])


def _test(step: Step, before: Step | None) -> str:
    """Which test comes before a set-up."""
    if before is None or before.bevel != step.bevel:
        return "bevel" if step.bevel else "square"
    return "across" if before.kind != step.kind and step.kind == "crosscut" else "flip"


def sixteenths(plan: Plan) -> str:
    """What it costs to leave the thirty-seconds and the marks away."""
    cost = rounding_cost(plan, to_fraction(FRACTION))
    if not cost.worst:
        return tr("Every number here is a whole 1/16: nothing is lost by a tape of sixteenths.")
    off = f"{show_thickness(cost.off, Unit.INCH)} ({show_length(cost.off, Unit.MM)})"
    return tr(
        "Numbers are in 1/32, + and − are a 64th more or less. Rounded to 1/16, {parts} of {of} parts come out off "
        "their size, the worst, {worst}, by {off}. Parts that meet stay equal, for they are cut from one number.",
        parts=cost.parts,
        of=cost.of,
        worst=part_name(cost.worst, shelf_letters(plan)),
        off=off,
    )


def saw_table(plan: Plan) -> Table:
    """What the saw is taken to be, with blanks for what it is."""
    saw, unit = plan.project.saw, Unit(plan.project.units)
    rows = [(tr("kerf"), show_thickness(saw.kerf, unit), BLANK)]
    for thickness in sorted({sheet.thickness for sheet in plan.sheets}):
        deep = section_of(plan, thickness).bevel_face + NEEDS
        rows.append((_blade_out(plan, thickness), length(plan.project, deep), BLANK))
    if saw.kind == "guided":
        rows += [
            (tr("guide, wide"), length(plan.project, saw.guide_width), BLANK),
            (tr("guide, long"), length(plan.project, saw.guide_length), BLANK),
            (tr("guide's edge to the toe at the bevel"), length(plan.project, saw.guide_offset), BLANK),
        ]
    else:
        rows.append((tr("fence travels"), length(plan.project, saw.fence_travel), BLANK))
    return Table("saw", "", SAW, tuple(rows), ("",) * len(rows))


def _blade_out(plan: Plan, thickness: float) -> str:
    tilt = max((cut.bevel for cut in plan.cuts), default=0.0)
    thick = show_thickness(thickness, Unit(plan.project.units))
    return tr("blade out at {tilt}, {thick} thick", tilt=show_angle(tilt), thick=thick)


def stick_table(plan: Plan, steps: tuple[Step, ...]) -> Table:
    """The gauge sticks, each with the cards it is used on."""
    sticks: dict[str, list[int]] = {}
    for step in sorted(steps, key=lambda step: step.set_by.printed_stick or 0.0):
        stick = step.set_by.printed_stick
        if stick is not None and stick > 0.05:
            sticks.setdefault(length(plan.project, stick), []).append(step.number)
    rows = tuple((long, ", ".join(map(str, sorted(cards))), "") for long, cards in sticks.items())
    short = tr(
        "A short one is not held in fingers at the saw: saw it off a long strip, and glue it on a longer one as a step."
    )
    some = any((step.set_by.printed_stick or HELD) < HELD for step in steps)
    return Table("sticks", "", STICKS, rows, ("",) * len(rows), notes=(short,) if some else ())
