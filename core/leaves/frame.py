"""The frame's pages: one for each shelf that has one, provisional until the shell is measured."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.drawing.frame import draw_frame
from core.drawing.names import of_several, part_name, shelf_letters
from core.drawing.tables import Column, Table
from core.language import tr
from core.leaves.model import Block, Leaf, Notice, Picture, Rows, Words
from core.lengths import Unit, show_length, show_thickness
from core.plan.model import Frame, FramePart, Plan

BLANK: Final = "________"
CAVITY: Final = (
    Column(tr("Cavity")),
    Column(tr("Planned"), "right"),
    Column(tr("Left")),
    Column(tr("Middle")),
    Column(tr("Right")),
)
PARTS: Final = (
    Column(tr("Part")),
    Column(tr("No."), "right"),
    Column(tr("Long"), "right"),
    Column(tr("High"), "right"),
    Column(tr("Measured")),
    Column(tr("Cut"), "tick"),
)
MEASURE: Final = tr(
    "Measure the glued shell, then rip: every part from straight stock, bows paired against each other."
)
JOINT: Final = tr(
    "Each rib to its rails: glue, and two long screws high and low, or housed. That joint is "
    "the weak link, not the screw in the stud."
)
WAYS: Final = tr("No rib in a driver's way.")
BOTH_RAILS: Final = (
    MEASURE,
    tr(
        "Mark ribs on both rails clamped together, from the left end; ease the frame's front "
        "arrises, so that a bead of glue does not stop it."
    ),
    JOINT,
    tr("Drill the back rail at each cross; the front rail in line with each, for the driver."),
    WAYS,
)
BACK_RAIL: Final = (
    MEASURE,
    tr(
        "Mark ribs on the back rail, from the left end; ease their front arrises, so that a bead of "
        "glue does not stop the frame."
    ),
    JOINT,
    tr("Drill the back rail at each cross."),
    WAYS,
)


def frame_leaves(plan: Plan) -> Iterator[Leaf]:
    """One leaf for each frame; how all are built stands on the first."""
    letters = shelf_letters(plan)
    for number, frame in enumerate(plan.frames):
        blocks = list(_blocks(plan, frame, letters))
        if number == 0:  # before the last table, for its sentences may stand in two columns
            building = BOTH_RAILS if plan.project.frame.front_layers else BACK_RAIL
            blocks.insert(-1, Words(tr("Building it"), building, tick=True))
        yield Leaf(tr("Frame of shelf {letters}", letters=letters[frame.shelf]), tuple(blocks))


def _blocks(plan: Plan, frame: Frame, letters: dict[str, str]) -> Iterator[Block]:
    yield Picture(draw_frame(plan, frame.shelf), 0.62)
    yield Notice(tr("Provisional until measured"), _measured(plan, frame))
    yield Rows(cavity_table(plan, frame))
    yield Rows(parts_table(plan, frame, letters))


def _measured(plan: Plan, frame: Frame) -> tuple[str, ...]:
    unit, wish = Unit(plan.project.units), plan.project.frame
    return (
        tr(
            "High: the smallest mouth less {height_play} = {BLANK}. Long: the cavity less "
            "{side_play} at each end = {BLANK}. Deep: the cavity less {front_play}, and less what is "
            "still to be scribed off = {BLANK}. Ribs: Deep less the thickness of all rails = {BLANK}. "
            "Do not cut the frame by the numbers on this page.",
            height_play=show_length(wish.height_play, unit),
            BLANK=BLANK,
            side_play=show_length(wish.side_play, unit),
            front_play=show_length(wish.front_play, unit),
        ),
    )


def cavity_table(plan: Plan, frame: Frame) -> Table:
    """The cavity as planned, with blanks for what it came to."""
    unit = Unit(plan.project.units)
    length, depth, height = (show_length(mm, unit) for mm in frame.cavity)
    rows = (
        ("length", length, BLANK, "", ""),
        ("depth", depth, BLANK, BLANK, BLANK),
        (tr("height, at the mouth"), height, BLANK, BLANK, BLANK),
    )
    return Table("cavity", tr("The shell, inside"), CAVITY, rows, (frame.shelf,) * len(rows))


def parts_table(plan: Plan, frame: Frame, letters: dict[str, str]) -> Table:
    """The parts, those that are alike in one row."""
    unit = Unit(plan.project.units)
    groups: dict[tuple[str, ...], list[FramePart]] = {}
    for part in frame.parts:
        sizes = (show_length(part.length, unit), show_length(part.width, unit))
        groups.setdefault((part.role, *sizes), []).append(part)
    rows = tuple((_name(parts, letters), str(len(parts)), *key[1:], BLANK, "") for key, parts in groups.items())
    title = tr("Parts, {thickness} thick", thickness=show_thickness(frame.thickness, unit))
    return Table(tr("frame parts"), title, PARTS, rows, tuple(parts[0].id for parts in groups.values()))


def _name(parts: list[FramePart], letters: dict[str, str]) -> str:
    """Like 'A ribs 3, 4, 5': the names of parts that are alike, their common beginning once."""
    names = [part_name(part.id, letters) for part in parts]
    if len(names) == 1:
        return names[0]
    if all(name.startswith(names[0]) for name in names):  # 'A back rail' and 'A back rail 2'
        first = letters[parts[0].id.rpartition("/")[0]]
        return ", ".join((names[0], *(name.removeprefix(first).strip() for name in names[1:])))
    stem, _, _ = names[0].rpartition(" ")
    if all(name.startswith(f"{stem} ") for name in names):
        return f"{of_several(stem)} {', '.join(name.removeprefix(stem).strip() for name in names)}"
    return ", ".join(names)
