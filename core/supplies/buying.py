"""The buying list of a plan: sheets, frame stock, screws, glue, tape, filler, abrasives, finish, sticks."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import ceil

from core.document.model import Sheet
from core.drawing.measure import clean
from core.drawing.names import section_of, shelf_thickness, size_text
from core.frame.studs import sold_name
from core.frame.supplies import GLUE_DENSITY, LITRE_OUNCES, glue_rate
from core.language import decimal, tr
from core.lengths import INCH_MM, Unit, show_length, show_thickness
from core.plan.model import FramePart, Plan, Supply
from core.steps.steps import steps_of
from core.supplies import rates

QUART = 32.0  # fluid ounces, US
FOOT = 12.0 * INCH_MM
OWN = ("sheet", "wall screw")  # kinds of supplies of the plan that this list says more of


class Purchase(Supply, frozen=True):
    """Something to buy. price: of one; None where it is not known."""

    price: float | None = None

    @property
    def cost(self) -> float | None:
        """Of all of it; None where the price of one is not known."""
        return None if self.price is None else self.quantity * self.price


def buying_list(plan: Plan) -> tuple[Purchase, ...]:
    """Everything to buy, in the order one meets it; what the plan itself says is needed stands for the list's own."""
    unit = Unit(plan.project.units)
    given = [
        Purchase(f"{s.what[:1].upper()}{s.what[1:]}", *_counted(s, unit), s.basis)
        for s in plan.supplies
        if s.kind not in OWN
    ]
    if not plan.panels:
        return (*_sheets(plan), *given)
    return (
        *_sheets(plan),
        *_frame_stock(plan),
        *_screws(plan),
        *given,
        *_glue(plan),
        *_tape(plan),
        *_surface(plan),
        *_spacers(plan),
        *_sticks(plan),
    )


def _counted(supply: Supply, unit: Unit) -> tuple[float, str]:
    """How much of a supply as it is sold: glue by volume, more than one piece as pieces."""
    if supply.unit == "kg":
        return _volume(supply.quantity / GLUE_DENSITY, unit)
    return supply.quantity, "pieces" if supply.unit == "piece" and supply.quantity != 1 else supply.unit


def seam_faces(plan: Plan) -> float:
    """Area of all bevel faces that get glue, both sides of every seam. [mm2]"""
    faces = {s.id: section_of(plan, shelf_thickness(plan, s.id)).bevel_face for s in plan.project.shelves}
    return sum(2.0 * seam.length * faces[seam.shelf] for seam in plan.seams)


def seam_length(plan: Plan, shelf: str | None = None) -> float:
    """Length of all seams, or of one shelf's. [mm]"""
    return sum(seam.length for seam in plan.seams if shelf in (None, seam.shelf))


def show_area(plan: Plan) -> float:
    """Area of all show faces. [mm2]"""
    return sum(panel.show[0] * panel.show[1] for panel in plan.panels)


def spacer_places(length: float, unit: Unit) -> tuple[float, ...]:
    """Where spacers stand in a mouth of that length: one near each end, no two farther apart than their step. [mm]"""
    end = min(rates.SPACER_END[unit], length / 4.0)
    count = max(1, ceil((length - 2.0 * end) / rates.SPACER_STEP[unit]))
    return tuple(end + n * (length - 2.0 * end) / count for n in range(count + 1))


def _sheets(plan: Plan) -> Iterator[Purchase]:
    unit = Unit(plan.project.units)
    used = Counter(sheet.stock for sheet in plan.sheets)
    for stock in plan.project.sheets:
        if used[stock.id]:
            count = used[stock.id]
            basis = tr("the plan lays everything on {count} of them", count=count)
            yield Purchase(
                _sheet_words(stock, unit), float(count), "sheets" if count > 1 else "sheet", basis, price=stock.price
            )


def _sheet_words(stock: Sheet, unit: Unit) -> str:
    size = size_text(stock.length, stock.width, unit)
    return tr(
        "Sheet {clean}, {size}, {thickness} thick, grain along the first",
        clean=clean(stock.id, 60),
        size=size,
        thickness=show_thickness(stock.thickness, unit),
    )


def _frame_stock(plan: Plan) -> Iterator[Purchase]:
    """Sticks of the frames by their section: those that lie on the sheets are no purchase."""
    unit = Unit(plan.project.units)
    groups: dict[tuple[str, str], list[FramePart]] = {}
    for frame in plan.frames:
        for part in frame.parts:
            groups.setdefault((show_length(part.width, unit), show_thickness(part.thickness, unit)), []).append(part)
    for (width, thickness), parts in groups.items():
        home = sum(part.sheet is not None for part in parts)
        total = sum(part.length for part in parts if part.sheet is None)
        basis = _cut_at_home(len(parts), home)
        quantity, word = _run(total, unit)
        yield Purchase(
            tr("Frame stock {width} wide, {thickness} thick", width=width, thickness=thickness), quantity, word, basis
        )


def _cut_at_home(parts: int, home: int) -> str:
    """How many of the sticks need not be bought."""
    if home == parts:
        return tr("{parts} sticks, all of them cut from the sheets above", parts=parts)
    if not home:
        return tr("{parts} sticks, none of them cut from the sheets above", parts=parts)
    return tr("{parts} sticks, {home} of them cut from the sheets above", parts=parts, home=home)


def _run(mm: float, unit: Unit) -> tuple[float, str]:
    """A length to buy, rounded up: feet or metres."""
    if unit is Unit.INCH:
        return float(ceil(mm / FOOT - 1e-9)), "ft"
    return ceil(mm / 100.0 - 1e-9) / 10.0, "m"


def screw_reason(plan: Plan, thickness: float, length: float) -> str:
    """Why the screws are as long as they are: `1 x 0.711" of rail + 1/2" of board + ...`.

    thickness: of the frame's sticks; length: of the screw. [mm]
    """
    unit, wall, screw, layers = (
        Unit(plan.project.units),
        plan.project.wall,
        plan.project.screw,
        plan.project.frame.back_layers,
    )
    thick = show_thickness(thickness, unit)
    terms = [
        tr("{layers} back rails of {thick}", layers=layers, thick=thick)
        if layers > 1
        else tr("{thick} of back rail", thick=thick),
        tr("{board} of board", board=show_length(wall.board, unit)),
        *([tr("{tile} of tile", tile=show_length(wall.tile, unit))] if wall.tile else []),
        tr("{bite} of thread in the stud", bite=show_length(screw.bite, unit)),
    ]
    least = layers * thickness + wall.cover + screw.bite
    how = tr("as the project says") if screw.length is not None else tr("the next length sold")
    return tr(
        "{join} = {least}; {screw_name} is {how}",
        join=" + ".join(terms),
        least=show_length(least, unit, rounding="up"),
        screw_name=screw_name(length, unit),
        how=how,
    )


def screw_name(length: float, unit: Unit) -> str:
    """What the shop calls a screw of that length. [mm]"""
    return sold_name(length, unit) or show_length(length, unit)


def _screws(plan: Plan) -> Iterator[Purchase]:
    unit, screw = Unit(plan.project.units), plan.project.screw
    groups: dict[tuple[float, float], int] = {}
    for frame in plan.frames:
        for place in frame.screws:
            key = (place.length, frame.thickness)
            groups[key] = groups.get(key, 0) + 1
    for (length, thickness), count in groups.items():
        what = tr(
            "Wood screws {diameter} × {screw_name}, structural, with washers",
            diameter=show_thickness(screw.diameter, unit),
            screw_name=screw_name(length, unit),
        )
        basis = tr(
            "{per_stud} in each stud crossed; {screw_reason}",
            per_stud=screw.per_stud,
            screw_reason=screw_reason(plan, thickness, length),
        )
        yield Purchase(what, float(count), "screws", basis)


def _volume(litres: float, unit: Unit) -> tuple[float, str]:
    """Rounded up: fluid ounces, or tens of millilitres."""
    if unit is Unit.INCH:
        return float(ceil(litres * LITRE_OUNCES)), "fl oz"
    return 10.0 * ceil(100.0 * litres), "ml"


def _area(mm2: float, unit: Unit) -> str:
    return decimal(f"{mm2 / FOOT**2:.1f} sq ft" if unit is Unit.INCH else f"{mm2 / 1e6:.2f} m²")


def _covers(unit: Unit) -> str:
    """How far oil goes."""
    if unit is Unit.MM:
        return tr("{area:g} m² in a litre", area=rates.OIL_COVERS / 1e6)
    return tr("{area:.0f} sq ft in a quart", area=rates.OIL_COVERS / FOOT**2 * QUART / LITRE_OUNCES)


def _glue(plan: Plan) -> Iterator[Purchase]:
    unit, faces = Unit(plan.project.units), seam_faces(plan)
    if faces <= 0.0:
        return
    quantity, word = _volume(faces / 1e6 * rates.GLUE * rates.SIZING / GLUE_DENSITY, unit)
    basis = tr(
        "{area} of bevel faces at {rate}, typical, to size and to glue them",
        area=_area(faces, unit),
        rate=glue_rate(rates.GLUE, unit),
    )
    yield Purchase(tr("Wood glue, slow setting"), quantity, word, basis)


def _tape(plan: Plan) -> Iterator[Purchase]:
    unit, seams = Unit(plan.project.units), seam_length(plan)
    chips = sum(step.length for step in steps_of(plan) if step.chips is not None)
    total = seams * (1.0 + rates.TAPE_STRIP[unit] / rates.TAPE_STEP[unit]) + chips
    if total <= 0.0:
        return
    quantity, word = _run(total, unit)
    basis = tr(
        "once along each seam, a strip {TAPE_STRIP} long across it every {TAPE_STEP}, and along each cut that chips",
        TAPE_STRIP=show_length(rates.TAPE_STRIP[unit], unit),
        TAPE_STEP=show_length(rates.TAPE_STEP[unit], unit),
    )
    yield Purchase(tr("Tape, low tack but strong"), quantity, word, basis)


def _surface(plan: Plan) -> Iterator[Purchase]:
    unit, area = Unit(plan.project.units), show_area(plan)
    tubs = ceil(seam_length(plan) / rates.FILLER_SEAM)
    if tubs:
        yield Purchase(
            tr("Filler, tinted to the face"), float(tubs), "tub", tr("hairlines along the seams; a little goes far")
        )
    sheets = ceil(area / rates.PAPER_AREA)
    if sheets:
        grits = ", ".join(str(grit) for grit in rates.GRITS)
        basis = tr("{area} of show face, {area2} each", area=_area(area, unit), area2=_area(rates.PAPER_AREA, unit))
        yield Purchase(tr("Abrasive, grits {grits}", grits=grits), float(sheets), tr("of each"), basis)
    both = 2.0 * area
    quantity, word = _volume(both / rates.OIL_COVERS * rates.COATS * rates.SAMPLES, unit)
    rate = tr("{COATS} coats at {covers}, typical, a tenth for samples", COATS=rates.COATS, covers=_covers(unit))
    basis = tr("{area}, show and inside faces, {rate}", area=_area(both, unit), rate=rate)
    yield Purchase(tr("Oil"), quantity, word, basis)


def _spacers(plan: Plan) -> Iterator[Purchase]:
    unit = Unit(plan.project.units)
    counts: Counter[str] = Counter()
    for frame in plan.frames:
        counts[show_length(frame.cavity[2], unit)] += len(spacer_places(frame.cavity[0], unit))
    for height, count in counts.items():
        basis = tr(
            "in the mouth while the glue dries, none farther apart than {SPACER_STEP}",
            SPACER_STEP=show_length(rates.SPACER_STEP[unit], unit),
        )
        yield Purchase(tr("Spacers {height} high, from waste", height=height), float(count), "pieces", basis)


def _sticks(plan: Plan) -> Iterator[Purchase]:
    unit = Unit(plan.project.units)
    sticks = gauge_sticks(plan)
    if sticks:
        quantity, word = _run(sum(sticks), unit)
        yield Purchase(
            tr("Stick for gauges, straight and dry"), quantity, word, tr("{sticks} gauge sticks", sticks=len(sticks))
        )
    if any(shelf.mount is not None for shelf in plan.project.shelves):
        quantity, word = _run(plan.project.wall.width, unit)
        yield Purchase(
            tr("Story stick for the wall"), quantity, word, tr("as long as the wall is wide; joined where it must be")
        )


def gauge_sticks(plan: Plan) -> tuple[float, ...]:
    """Lengths of the gauge sticks that the cuts are set by, ascending; those that print alike are one. [mm]"""
    unit = Unit(plan.project.units)
    found: dict[str, float] = {}
    for step in steps_of(plan):
        stick = step.set_by.printed_stick
        if stick is not None:
            found.setdefault(show_length(stick, unit), stick)
    return tuple(sorted(found.values()))
