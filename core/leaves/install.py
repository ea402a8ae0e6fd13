"""The install sheet: hung by the wall."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.document.model import Shelf
from core.drawing.loads import load_table, no_load_words
from core.drawing.measure import clean
from core.drawing.names import shelf_letters
from core.drawing.tables import Column, Table
from core.drawing.wall import frame_box, wall_length
from core.frame.studs import pilot_hole
from core.frame.supplies import is_lock_screw
from core.language import tr
from core.leaves.model import Block, Leaf, Notice, Rows, Words
from core.lengths import Unit, parse_length, show_length, show_thickness
from core.plan.model import Frame, Plan
from core.supplies.buying import screw_name, screw_reason
from core.wall.level import front_drop
from core.wall.places import Hung, hung

BLANK: Final = "________"
LEVELS: Final = (
    Column(tr("Shelf")),
    Column(tr("Line, from the floor"), "right"),
    Column(tr("Found")),
    Column(tr("Frame's left end"), "right"),
    Column(tr("Level: left")),
    Column(tr("Right")),
    Column(tr("Front")),
)
PLACES: Final = (
    Column(tr("Shelf")),
    Column(tr("Screw")),
    Column(tr("From the left corner"), "right"),
    Column(tr("From the floor"), "right"),
    Column(tr("From the frame's left end"), "right"),
    Column(tr("In"), "tick"),
)
HANGING: Final = (
    tr(
        "Strike the line, dead level unless you have chosen to follow counter or tiles; tell it "
        "from the floor at both ends."
    ),
    tr(
        "Hold the frame on the line, its back rail to the wall; drive one screw near its middle, look at the level, "
        "swing it true."
    ),
    tr("Pilot by hand. Shim every hollow, so that the rail stays straight, then drive the rest; sight along it."),
    tr("Tight by feel: until the washer is home, no more."),
    tr("Lay a level from wall to front at both ends and in the middle: the front a hair high, never low."),
    tr("Slide the shell on, dry: by hand, and it stops on the wall, not on the frame."),
    tr(
        "Scribe: shell on, level; pencil on a block as thick as the widest gap, along top, "
        "bottom and ends; off; plane to the line, back-bevelled."
    ),
    tr("Lock it with the small screws from the unseen side, near the back, so that it can come off again."),
)
WARNINGS: Final = (
    tr(
        "Wires and pipes first: detect them, power off, pilot by hand; a metal plate means stop. "
        "Cables keep 1-1/4 in (32 mm) from the stud's face only where a rule says so; a screw "
        "goes deeper."
    ),
    tr(
        "Codes of your place, the screw maker's data and licensed practice come before this "
        "sheet. Electric and plumbing work is for those who are licensed for it."
    ),
    tr("Never to be climbed, sat or hung on. Keep what is planned for it, and less at the front edge."),
    tr("Two people for anything longer than 60 in (1.5 m). Glasses on while drilling."),
)


def install_leaf(plan: Plan) -> Leaf | None:
    """The sheet for the wall; None where no shelf hangs."""
    shelves = hung(plan.project)
    if not shelves:
        return None
    frames = {frame.shelf: frame for frame in plan.frames}
    unplanned = tuple(_unplanned(plan))
    blocks: list[Block] = [
        Rows(level_table(plan, shelves, frames), wide=True, big=True),
        Rows(place_table(plan, shelves, frames), wide=True, big=True),
        *([Rows(load_table(plan), wide=True)] if plan.loads else []),
        Notice(tr("Before you drill"), WARNINGS),
        Words(tr("Hanging it"), HANGING, tick=True),
        Words(tr("Screws"), tuple(_screws(plan))),
        *([Words(tr("Load, an estimate"), unplanned)] if unplanned else []),
    ]
    return Leaf(tr("Install"), tuple(blocks))


def level_table(plan: Plan, shelves: list[Hung], frames: dict[str, Frame]) -> Table:
    """The line each frame's lower edge stands on, with blanks for what the level says."""
    unit, letters = Unit(plan.project.units), shelf_letters(plan)
    rows: list[tuple[str, ...]] = []
    for one in shelves:
        frame = frames.get(one.shelf.id)
        place = (tr("no frame"), BLANK, tr("no frame"))
        if frame is not None:
            box = frame_box(plan, one, frame)
            place = (wall_length(box[1], unit), BLANK, wall_length(box[0], unit))
        rows.append((f"{letters[one.shelf.id]}  {clean(one.shelf.id, 40)}", *place, BLANK, BLANK, BLANK))
    notes = (tr("The line is the frame's lower edge. The left end is from the left corner, as you face the wall."),)
    return Table("levels", "", LEVELS, tuple(rows), tuple(one.shelf.id for one in shelves), notes)


def place_table(plan: Plan, shelves: list[Hung], frames: dict[str, Frame]) -> Table:
    """Every screw on the wall and on its rail."""
    unit, letters = Unit(plan.project.units), shelf_letters(plan)
    rows: list[tuple[str, ...]] = []
    abouts: list[str] = []
    for one in shelves:
        frame = frames.get(one.shelf.id)
        if frame is None:
            continue
        left, low = frame_box(plan, one, frame)[:2]
        line = parse_length(wall_length(low, unit), unit)  # as it is printed and struck: screws are measured up from it
        for number, screw in enumerate(frame.screws, 1):
            on_wall = (wall_length(left + screw.x, unit), wall_length(line + screw.height, unit))
            rows.append((letters[one.shelf.id], str(number), *on_wall, show_length(screw.x, unit), ""))
            abouts.append(one.shelf.id)
    return Table("screws", tr("Where the screws go"), PLACES, tuple(rows), tuple(abouts))


def _screws(plan: Plan) -> Iterator[str]:
    unit, screw = Unit(plan.project.units), plan.project.screw
    told: set[tuple[float, float]] = set()
    for frame in plan.frames:
        for place in frame.screws:
            if (place.length, frame.thickness) in told:
                continue
            told.add((place.length, frame.thickness))
            reason = screw_reason(plan, frame.thickness, place.length)
            yield f"{show_thickness(screw.diameter, unit)} × {screw_name(place.length, unit)}: {reason}."
    if not told:
        yield tr("No screws are planned: no stud is where a frame could be held.")
    else:
        yield tr("Structural wood screws with washers; no drywall screws, they are brittle.")
        yield _holes(plan)
    for supply in plan.supplies:
        if is_lock_screw(supply):
            yield f"{supply.what[:1].upper()}{supply.what[1:]}: {supply.basis}."
    yield from _slack(plan)


def _holes(plan: Plan) -> str:
    """What is drilled where; a frame with no front rail needs no way through it."""
    unit, screw = Unit(plan.project.units), plan.project.screw
    pilot = show_thickness(pilot_hole(screw), unit)
    if not plan.project.frame.front_layers:
        return tr(
            "Drill a clearance hole as wide as the screw through the rail; the pilot in the stud no wider than {pilot} "
            "(common practice for softwood).",
            pilot=pilot,
        )
    return tr(
        "Drill a clearance hole as wide as the screw through the rail, access holes {hole} wide for the driver "
        "through the front rail; the pilot in the stud no wider than {pilot} (common practice for softwood).",
        hole=show_length(screw.access_hole, unit),
        pilot=pilot,
    )


def _slack(plan: Plan) -> Iterator[str]:
    unit, play = Unit(plan.project.units), plan.project.frame.height_play
    if plan.frames and play > 0.0:
        drop = max(front_drop(play, depth, frame.depth) for frame, depth in _depths(plan))
        yield (
            tr(
                "A height play of {play} lets the front drop by about {drop}: veneer or card on the ribs "
                "at the front and under the rail at the back takes it up.",
                play=show_length(play, unit),
                drop=show_length(drop, unit),
            )
        )


def _depths(plan: Plan) -> Iterator[tuple[Frame, float]]:
    shelves: dict[str, Shelf] = {shelf.id: shelf for shelf in plan.project.shelves}
    for frame in plan.frames:
        yield frame, shelves[frame.shelf].depth


def _unplanned(plan: Plan) -> Iterator[str]:
    """Why there is no estimate, for each shelf that has none."""
    letters, planned = shelf_letters(plan), {load.shelf for load in plan.loads}
    for one in hung(plan.project):
        if one.shelf.id not in planned:
            yield f"{letters[one.shelf.id]}: {no_load_words(one.shelf, plan.project.wall.kind)}"
