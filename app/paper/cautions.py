"""What a maker should have read before the first cut."""

from __future__ import annotations

from core.drawing.names import section_of
from core.language import tr
from core.lengths import Unit, show_angle, show_thickness
from core.plan.model import Plan

CAUTIONS = (
    tr("Unplug the saw before you touch the blade or change its tilt."),
    tr("Guard in its place. Wear glasses and ear defenders; extractor on, mask on."),
    tr(
        "Measure your own sheet with calipers at six spots, and the kerf of your own blade on "
        "scrap. If they are not the numbers on this page, change them in the project and print "
        "anew."
    ),
    tr("Cut a test seam from scrap of the same sheet first: fold it, look at the corner, then cut the sheet."),
    tr("The triangle of a V falls free: foam under it, hands clear, wait until the blade has stopped."),
    tr("Measure to the toe on the show face, always from the datum, with one tape."),
    tr("A guide rail creeps when the saw is tilted: clamp it. Support both sides of every cut."),
    tr("Measure the cavity of the glued shell before you cut the frame."),
)


def setup_numbers(plan: Plan, thickness: float) -> tuple[tuple[str, str], ...]:
    """The numbers of the saw and the seam at one thickness, each with its name."""
    unit, saw = Unit(plan.project.units), plan.project.saw
    section = section_of(plan, thickness)

    def fine(mm: float) -> str:
        return show_thickness(mm, unit)

    numbers = [
        (tr("thickness, as measured"), fine(thickness)),
        (tr("kerf, square to the blade"), fine(saw.kerf)),
        (tr("tilt from upright"), show_angle(section.bevel, 2)),
        (tr("taken by one cut on the face"), fine(section.footprint)),
        (tr("cleaned by the second cut"), fine(saw.allowance)),
        (tr("lost at a seam"), fine(section.loss)),
        (tr("toe to heel"), fine(section.setback)),
        (tr("blade deep through, along the bevel"), fine(section.bevel_face)),
    ]
    return tuple(numbers)
