"""The wall's page: the elevation, and what is still to be read off the wall, with blanks."""

from __future__ import annotations

from math import ceil
from typing import Final

from core.document.model import Alcove
from core.drawing.numbers import AT_THE_WALL, with_numbers
from core.drawing.tables import Column, Table
from core.drawing.wall import draw_wall, wall_length
from core.frame.studs import stud_lines
from core.language import tr
from core.leaves.model import Block, Leaf, Notice, Picture, Rows, Words
from core.lengths import Unit, show_length
from core.plan.model import Plan
from core.supplies import rates
from core.wall.bow import gap_at
from core.wall.places import hung

BLANK: Final = "________"
MOST: Final = 40  # rows of readings
READING: Final = (
    tr(
        "Left and right are as you face the wall. Every place is measured from its left corner, "
        "every height from the floor: never from one mark to the next. A story stick beats a "
        "tape."
    ),
    tr(
        "Find both edges of each stud, prove them with a fine nail where a shelf will hide it, "
        "and write down the middle."
    ),
    tr(
        "Lay a straightedge on each line, read the gap behind it, and say how much the line of "
        "counter, ceiling or tiles runs out of level at both ends."
    ),
    tr(
        "Detect wires and pipes; power off; pilot by hand. A metal plate means stop. Never drill "
        "above, below or level with a socket or a switch without proof."
    ),
)


def wall_leaf(plan: Plan) -> Leaf | None:
    """The wall; None where no shelf hangs."""
    if not hung(plan.project):
        return None
    blocks: list[Block] = [
        Picture(with_numbers(draw_wall(plan), AT_THE_WALL), 0.99),
        Rows(stud_table(plan), big=True),
        Rows(bow_table(plan)),
    ]
    if plan.project.wall.alcove is not None:
        blocks.append(Rows(alcove_table(plan, plan.project.wall.alcove), big=True))
    blocks.append(Rows(level_table(plan), big=True))
    if plan.project.wall.keep_outs:
        blocks.append(Rows(keep_out_table(plan), big=True))
    blocks.append(Words(tr("Reading the wall"), READING))
    wall = plan.project.wall
    if wall.kind != "timber stud":
        kind = tr("of an unknown kind") if wall.kind == "unknown" else wall.kind
        blocks.append(
            Notice(
                tr("No fixings are planned"), (tr("The wall is {kind}: what holds in it is never guessed.", kind=kind),)
            )
        )
    return Leaf(tr("Wall"), tuple(blocks))


def stud_table(plan: Plan) -> Table:
    """Centres of the studs as noted, with blanks for their edges as found."""
    unit, wall = Unit(plan.project.units), plan.project.wall
    columns = (
        Column(tr("Stud"), "right"),
        Column(tr("Middle"), "right"),
        Column(tr("Left edge found")),
        Column(tr("Right edge found")),
    )
    rows = tuple(
        (str(n), wall_length(x, unit), BLANK, BLANK) for n, x in enumerate(stud_lines(wall, 0.0, wall.width), 1)
    )
    return Table("studs", tr("Studs, from the left corner"), columns, rows, ("",) * len(rows))


def bow_table(plan: Plan) -> Table:
    """The gap behind a straightedge every foot: as read, or a blank."""
    unit, wall = Unit(plan.project.units), plan.project.wall
    shelves = hung(plan.project)
    low = min(one.mount.x for one in shelves)
    high = max(one.mount.x + one.shelf.length for one in shelves)
    columns = (Column(tr("From the left corner"), "right"), Column(tr("Gap noted"), "right"), Column(tr("Gap read")))
    if wall.bow:
        ordered = tuple(sorted(wall.bow))
        places = [(x, show_length(gap_at(ordered, x), unit)) for x, _ in ordered]
    else:
        step = rates.BOW_STEP[unit]
        first = step * ceil(max(low, 0.0) / step)
        count = max(1, int((min(high, wall.width) - first) / step) + 1)
        places = [(first + n * step, tr("none yet")) for n in range(min(count, MOST))]
    rows = tuple((wall_length(x, unit), gap, BLANK) for x, gap in places)
    return Table("bow", tr("Bow, gap behind a straightedge on the line"), columns, rows, ("",) * len(rows))


def alcove_table(plan: Plan, alcove: Alcove) -> Table:
    """The six widths of an alcove, with blanks."""
    unit = Unit(plan.project.units)
    columns = (Column(tr("Alcove is wide")), Column(tr("Noted"), "right"), Column(tr("Read")))
    rows = tuple(
        (tr("{over} the shelf, {where}", over=over, where=where), wall_length(width, unit), BLANK)
        for over, widths in (("over", alcove.top), ("under", alcove.bottom))
        for where, width in zip((tr("at the back"), tr("in the middle"), tr("at the front")), widths, strict=True)
    )
    return Table("alcove", tr("Alcove"), columns, rows, ("",) * len(rows))


def level_table(plan: Plan) -> Table:
    """How far a line near the shelves runs out of level."""
    unit, run = Unit(plan.project.units), plan.project.wall.run_out
    columns = (Column(tr("Counter, ceiling or tiles, from level")), Column(tr("Noted"), "right"), Column(tr("Read")))
    noted = wall_length(run, unit) if run else tr("none yet")
    rows = ((tr("at the left corner"), wall_length(0.0, unit), BLANK), (tr("at the right corner"), noted, BLANK))
    return Table("level", tr("Level"), columns, rows, ("",) * len(rows))


def keep_out_table(plan: Plan) -> Table:
    """Where the things are that no screw may meet, with blanks."""
    unit, areas = Unit(plan.project.units), plan.project.wall.keep_outs[:MOST]
    columns = (
        Column(tr("Screws keep clear of")),
        Column(tr("From the left corner"), "right"),
        Column(tr("From the floor"), "right"),
        Column(tr("Read")),
    )

    def span(start: float, size: float) -> str:
        return tr("{low} to {high}", low=wall_length(start, unit), high=wall_length(start + size, unit))

    rows = tuple((one.kind, span(one.x, one.width), span(one.y, one.height), BLANK) for one in areas)
    return Table("keep-outs", tr("In the wall"), columns, rows, ("",) * len(rows))
