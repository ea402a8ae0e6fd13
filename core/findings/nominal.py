"""What a plan goes by that nobody has measured: said before anything is cut, and never in the way.

A number counts as measured where its maker said so (`Project.measured`, for that very number), or where it is none that
stock or blades are sold by: 18.05 mm was read off calipers, 18 mm stands on a label.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import msgspec

from core.document.model import Measurable, Measured, Project, Sheet, Studs
from core.drawing.names import size_text
from core.language import tr
from core.lengths import INCH_MM, Unit, show_angle, show_length, show_thickness
from core.plan.model import Plan
from core.stock.sizes import INCH_SIZES, MM_SIZES

SAME: Final = 1e-6  # mm: float noise only
SOLD: Final = (18.2, 17.8, 0.703 * INCH_MM)  # mm: thicknesses a project begins with
BLANK: Final = "________"
STEPS: Final = {"thickness": (1.0, INCH_MM / 32.0), "kerf": (0.1, INCH_MM / 64.0)}  # mm: what labels count in


class Nominal(msgspec.Struct, frozen=True, gc=False):
    """One thing nobody has measured.

    word: in one word. planned: the number as it is taken. text: a sentence with it. done: what a maker says who has
    measured it. field: JSON pointer of the number it is about.
    """

    what: Measurable
    word: str
    planned: str
    text: str
    done: str
    field: str
    of: str = ""
    values: tuple[float, ...] = ()


def still_nominal(plan: Plan) -> tuple[Nominal, ...]:
    """Everything of a plan that is taken as it is sold or as it is drawn; nothing where there is no shelf."""
    if not plan.project.shelves:
        return ()
    known = {(one.what, one.of, one.values) for one in plan.project.measured}
    return tuple(one for one in _all(plan) if (one.what, one.of, one.values) not in known)


def nominal_words(found: tuple[Nominal, ...]) -> str:
    """All of it in one line: '3 things are still nominal: thickness, kerf, bevel.'; '' for none."""
    words = tuple(dict.fromkeys(one.word for one in found))
    if not words:
        return ""
    if len(words) == 1:
        return tr("One thing is still nominal: {words}.", words=words[0])
    return tr("{count} things are still nominal: {words}.", count=len(words), words=", ".join(words))


def nominal_lines(found: tuple[Nominal, ...]) -> tuple[str, ...]:
    """For paper: each with its number and room for the one that is measured."""
    return tuple(
        tr("{word}: {planned}, measured {blank}", word=_called(one), planned=one.planned, blank=BLANK) for one in found
    )


def _called(one: Nominal) -> str:
    return tr("{word} of {stock}", word=one.word, stock=one.of) if one.of else one.word


def as_measured(project: Project, one: Nominal) -> Project:
    """The project with this found to be as it stands."""
    others = tuple(old for old in project.measured if (old.what, old.of) != (one.what, one.of))
    return msgspec.structs.replace(project, measured=(*others, Measured(one.what, one.of, one.values)))


def _all(plan: Plan) -> Iterator[Nominal]:
    project, used = plan.project, {sheet.stock for sheet in plan.sheets}
    sheets = [(n, stock) for n, stock in enumerate(project.sheets) if stock.id in used]
    for n, stock in sheets:
        yield from _thickness(project, n, stock)
    yield from _saw(project)
    for n, stock in sheets:
        yield from _sheet(project, n, stock)
    yield from _wall(project)
    yield Nominal(
        "cavity",
        tr("cavity"),
        tr("as drawn"),
        tr("The frame is sized for the cavity as planned. Measure the folded shell before you cut its parts."),
        tr("Measured"),
        "/frame/side_play",
        values=(project.frame.side_play, project.frame.front_play, project.frame.height_play),
    )


def _thickness(project: Project, n: int, stock: Sheet) -> Iterator[Nominal]:
    thick = stock.thickness
    if _is_label("thickness", thick) or any(abs(thick - sold) < SAME for sold in SOLD):
        shown = show_thickness(thick, Unit(project.units))
        text = tr(
            "Sheet {stock} is taken to be {thick} thick, as sold. Measure it with calipers at six spots.",
            stock=stock.id,
            thick=shown,
        )
        field = f"/sheets/{n}/thickness"
        yield Nominal("thickness", tr("thickness"), shown, text, tr("Measured"), field, stock.id, (thick,))


def _saw(project: Project) -> Iterator[Nominal]:
    saw, unit = project.saw, Unit(project.units)
    if _is_label("kerf", saw.kerf):
        shown = show_thickness(saw.kerf, unit)
        text = tr("The kerf is taken to be {kerf}, as blades are sold. Measure it on a cut in scrap.", kerf=shown)
        yield Nominal("kerf", tr("kerf"), shown, text, tr("Measured"), "/saw/kerf", values=(saw.kerf,))
    shown = show_angle(saw.overcut, 2)
    text = tr(
        "The tilt, {overcut} past half the corner, is not tried yet. Fold a test seam from scrap of the same sheet.",
        overcut=shown,
    )
    yield Nominal(
        "bevel",
        tr("bevel"),
        tr("overcut {shown}", shown=shown),
        text,
        tr("Tried"),
        "/saw/overcut",
        values=(saw.overcut,),
    )


def _sheet(project: Project, n: int, stock: Sheet) -> Iterator[Nominal]:
    unit = Unit(project.units)
    if not stock.photos:
        shown = show_length(stock.length, unit)
        text = tr(
            "The grain of sheet {stock} is taken to run along its {length}. Look at the sheet itself.",
            stock=stock.id,
            length=shown,
        )
        yield Nominal(
            "grain",
            tr("grain"),
            tr("along {shown}", shown=shown),
            text,
            tr("Looked at"),
            f"/sheets/{n}/length",
            stock.id,
        )
    sides = (max(stock.length, stock.width), min(stock.length, stock.width))
    if any(abs(sides[0] - a) < SAME and abs(sides[1] - b) < SAME for a, b in (*INCH_SIZES, *MM_SIZES)):
        shown = size_text(stock.length, stock.width, unit)
        text = tr(
            "Sheet {stock} is taken to be {size}, as sold. Measure it, and its corners for square.",
            stock=stock.id,
            size=shown,
        )
        values = (stock.length, stock.width)
        yield Nominal("size", tr("sheet's size"), shown, text, tr("Measured"), f"/sheets/{n}/length", stock.id, values)


def _wall(project: Project) -> Iterator[Nominal]:
    wall = project.wall
    if wall.kind != "timber stud" or not isinstance(wall.studs, Studs):
        return
    if any(shelf.mount is not None for shelf in project.shelves):
        shown = show_length(wall.studs.spacing, Unit(project.units))
        text = tr("Studs are taken to stand {spacing} apart. Find each, and note it where it is.", spacing=shown)
        values = (wall.studs.first, wall.studs.spacing)
        yield Nominal(
            "studs",
            tr("studs"),
            tr("{shown} apart", shown=shown),
            text,
            tr("Found"),
            "/wall/studs/first",
            values=values,
        )


def _is_label(what: str, mm: float) -> bool:
    """Is it a number that such things are sold by?"""
    return any(abs(mm / step - round(mm / step)) * step < SAME for step in STEPS[what])
