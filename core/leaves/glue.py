"""The glue-up's pages: one for each kind of shell, in the order the hands move."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import Final

from core.document.model import Shelf
from core.drawing.glueup import draw_fold, draw_mouth, fold_order
from core.drawing.names import shelf_letters
from core.drawing.numbers import AT_THE_BENCH, with_numbers
from core.drawing.tables import Column, Table
from core.language import tr
from core.leaves.model import Block, Leaf, Picture, Rows, Words
from core.lengths import Unit, show_length
from core.plan.model import Frame, Plan
from core.steps.contents import ENDS
from core.supplies import rates
from core.supplies.buying import seam_length, spacer_places

COLUMNS: Final = (Column(tr("What")), Column(tr("How much"), "right"))
DRY: Final = (
    tr("Dry first, with tape alone, ends too: fold it, look at every corner, try the frame's blank inside."),
    tr(
        "Show faces up on a flat board, strips toe to toe, tick to tick. Tape stretched across "
        "each seam, then along it."
    ),
    tr("Cut the tape flush with the toes at every cross of the drawing: there it would be caught in a joint."),
    tr("Lay a carrier board on it and turn the whole net over, two people."),
)
GLUE: Final = (
    tr("Size the bevels: a thin wipe of glue, wiped back; wait a few minutes. Half of it is end grain and drinks."),
    tr("Glue both faces thinly, more at the heel, a hair shy of the toe."),
)
CHECKS: Final = (
    tr("The mouth is as high as its spacers all along, within a 64th of an inch (0.4 mm); it bows most in its middle."),
    tr("Both diagonals are equal; the back edges are flush."),
    tr("Light clamps over cauls, no more than closes the toes. Tape over the seams that have closed last."),
    tr("Scrape the squeeze-out inside when it is rubbery. Never wash glue into the pores outside."),
    tr("An open toe: burnish it with a round shank while the glue is soft."),
)


def glue_leaves(plan: Plan) -> Iterator[Leaf]:
    """How it goes, then one leaf for all shelves whose shells are alike."""
    if plan.project.shelves:
        words = ((tr("Tape"), DRY), (tr("Glue"), GLUE), (tr("Check before it sets"), CHECKS))
        yield Leaf(tr("Glue-up"), tuple(Words(heading, lines, tick=True) for heading, lines in words))
    letters = shelf_letters(plan)
    frames = {frame.shelf: frame for frame in plan.frames}
    for shelves in alike(plan):
        names = ", ".join(letters[shelf.id] for shelf in shelves)
        title = tr("Glue-up, {rest} {names}", rest="shelf" if len(shelves) == 1 else "shelves", names=names)
        yield Leaf(title, tuple(_blocks(plan, shelves[0], frames.get(shelves[0].id))))


def alike(plan: Plan) -> list[list[Shelf]]:
    """Shelves in groups of those whose shells are the same."""
    groups: dict[object, list[Shelf]] = {}
    nets = {net.owner: net for net in plan.shapes}
    for shelf in plan.project.shelves:
        net = nets.get(shelf.id)
        key = (net.panels, net.joints, net.apart) if net is not None else shelf.id
        groups.setdefault(key, []).append(shelf)
    return list(groups.values())


def _blocks(plan: Plan, shelf: Shelf, frame: Frame | None) -> Iterator[Block]:
    yield Picture(draw_fold(plan, shelf.id), 0.42)
    if frame is not None:
        yield Picture(with_numbers(draw_mouth(plan, frame), AT_THE_BENCH), 0.22)
    yield Rows(glue_table(plan, shelf, frame))
    yield Words(tr("Fold"), _folds(plan, shelf), tick=True)


def glue_table(plan: Plan, shelf: Shelf, frame: Frame | None) -> Table:
    """The numbers of one glue-up."""
    unit, length = Unit(plan.project.units), seam_length(plan, shelf.id)
    minutes = ceil(2.0 * length / rates.SPREAD / 60.0)
    rows = [
        (tr("Seams to glue, all together"), show_length(length, unit)),
        (tr("Spreading both faces of each takes about"), tr("{minutes} min", minutes=minutes)),
    ]
    if frame is not None:
        rows += [
            (tr("Spacers, high: the cavity's height"), show_length(frame.cavity[2], unit)),
            (tr("Spacers, how many"), str(len(spacer_places(frame.cavity[0], unit)))),
        ]
    notes = (
        tr("The glue's open time has to be longer than spreading and folding: choose a slow one, read its label."),
        tr("Places of the spacers are from the left inner end; each reaches from the mouth in to the front, tight."),
    )
    return Table("glue", tr("Glue"), COLUMNS, tuple(rows), (shelf.id,) * len(rows), notes)


def _folds(plan: Plan, shelf: Shelf) -> tuple[str, ...]:
    net = next(net for net in plan.shapes if net.owner == shelf.id)
    lines = []
    for number, role in enumerate(fold_order(net), 1):
        parent = net.panel(role).parent
        piece = tr("{part} end", part=role) if role in ENDS else tr(role)
        lines.append(tr("{number}. The {piece}, square to the {parent}.", number=number, piece=piece, parent=parent))
    end = tr("Close the bottom on top of everything last, on the spacers; tape it over.")
    two = tr(
        "Safer alone: fold top, front and bottom on their spacers with the ends dry as squares; glue the ends next day."
    )
    return (*lines, end, two) if shelf.mitred_ends else (*lines, end)
