"""A page for each board: what it shows, the formula, what is common practice, what to mind. Simple HTML."""

from __future__ import annotations

from typing import Final

from core.language import tr

# Key of the board -> title, what it shows, formula, common practice, caution.
PAGES: Final[dict[str, tuple[str, str, str, str, str]]] = {
    "wall": (
        tr("Wall"),
        tr(
            "The wall from the front, with the shelves as they will hang, its studs and what stands "
            "in the way. Pull a shelf by its middle to move it, by its squares to change its size; a "
            "stroke on the bare wall draws a new one. Sockets and pipes are pulled the same way, studs "
            "at the floor. Edges drawn bold are seams that the eye sees from where it is: whole where "
            "the figure runs on, dashed where it turns."
        ),
        tr(
            "A stud is used where its middle lies between the innermost end ribs of the frame and "
            "the driver's way to the screw is clear. Screw length = rail layers + board + tile + "
            "bite, rounded up to a length that is sold."
        ),
        tr("Find studs with a magnet or a fine drill before you type them in. Eye line 1500 to 1600 mm (59 to 63 in)."),
        tr(
            "The load is an estimate. Local codes and the maker of the screws have the last word. "
            "Look for wires and pipes before you drill."
        ),
    ),
    "fold": (
        tr("Fold"),
        tr(
            "One shelf as its unfolded net closes up, or all of them on the wall. Where the line "
            "between two faces is whole, the grain runs on; where it is dashed, it turns."
        ),
        tr(
            "Two cuts at 45° and the overcut leave a V. At the show face it takes s = kerf / "
            "cos(tilt) + clean-up from the figure; inside it is s + 2 t tan(tilt) wide, for a sheet "
            "t thick."
        ),
        tr("An overcut of 0.3° to 0.5° closes the outside first; tape across the show face is the clamp."),
        tr("Fold it dry before there is any glue in it, and look along every edge."),
    ),
    "sheet": (
        tr("Sheet"),
        tr(
            "Your real sheet from its show face: the nets, the frame's parts, and what is left. "
            "Lengths are measured from the trued end and the trued edge. Pull a net to pin it; draw "
            "areas to keep clear of knots and bruises."
        ),
        tr(
            "A net is L + n (D + s) long and 2 D + H + 2 s wide: L, D and H are the shelf's outside "
            "sizes, n its mitred ends, s what a V takes."
        ),
        tr("Measure thickness with calipers at six spots, and the kerf on scrap. Trim the factory edges first."),
        tr("What is printed is right for the numbers typed, no others: a sheet 0.5 mm thicker needs a new plan."),
    ),
    "section": (
        tr("Seam section"),
        tr("One seam at true scale: flat with its V, and closed. Pull the squares to change overcut and clean-up."),
        tr(
            "Closed to a true corner the inside stays open by 2 l sin(overcut), with l = t / "
            "cos(tilt). Glue bites where that wedge is thinner than the widest glue line."
        ),
        tr("A test seam from scrap of the same sheet costs ten minutes and saves a sheet."),
        tr("An undercut leaves the outside open: no clamp closes it."),
    ),
    "steps": (
        tr("Cut steps"),
        tr("Every pass of the saw in order: which piece, which side the guide lies on, what to set, what falls."),
        tr("All cuts of one tilt are made together; what is left to turn over or set anew is the least there can be."),
        tr("Tick each pass when it is done. Keep every piece on the same face until the list says turn."),
        tr("The triangle of a V falls free. Hands clear until the blade has stopped."),
    ),
    "frame": (
        tr("Frame"),
        tr(
            "The hidden frame of one shelf to scale: from above with ribs, studs, screws and the "
            "drivers' ways, and its back rail. Pull a rib to put it elsewhere, an end to slide the "
            "whole frame in its play."
        ),
        tr(
            "Frame = cavity less the play; cavity = L - n t by D - t by H - 2 t. Ribs stand at most "
            "the rib spacing apart, half a rib, half an access hole and the room beside the driver "
            "away from each screw."
        ),
        tr("Build it a little loose: 25 mm (1 in) of side play is hidden by the shell."),
        tr("Measure the glued shell before you cut the frame. The rail must lie flat on the wall."),
    ),
    "photo": (
        tr("Photograph"),
        tr("A photograph of your own sheet, straightened to true size, so that the nets lie on the real figure."),
        tr("Four corners of the picture are four known places of the sheet; lens and light are evened out."),
        tr("Stand square to the sheet, far away, in even light; no flash. Two pictures of a long sheet beat one."),
        tr("The picture shows the figure, not the size: sizes come from the tape."),
    ),
    "figure": (
        tr("Figure"),
        tr(
            "The figure of one shelf across its seams: both sides of each laid edge to edge, as they "
            "meet when it is shut. Another figure comes on its faces when the net is slid on its sheet, turned end "
            "for end (Ctrl+T) or swaps places with another (Ctrl+Shift+T)."
        ),
        tr(
            "At a seam the strip s is gone. Grain that crosses it at an angle a from square steps sideways by "
            "s tan(a). Where it runs along the seam, the match says how alike the wood is: its hue, and the direction "
            "and closeness of its lines."
        ),
        tr("Straight grain along the shelf hides the strip that is lost; a wild figure shows it."),
        tr("Where the grain turns, nothing matches: choose which end that is before you cut."),
    ),
    "showing": (
        tr("Pictures to show"),
        tr("The shelves as they will be, all on their wall or one alone. Drag to turn them, then write what is seen."),
        tr("Every face is the sheet's own, at true scale: across a seam that wraps it goes on one V farther along."),
        tr("Oil deepens the colour and warms it. Wood goes darker or lighter in its first months of light."),
        tr("A made-up face is not your sheet: photograph it before you promise anybody how it will look."),
    ),
    "pages": (
        tr("Plan set"),
        tr("All pages for the bench as they will be printed: sheets, cut list, cut order, seams, frame, wall."),
        tr("Each page has its scale and a check bar of 100 mm and 4 in. Its title block says which revision it is."),
        tr("Print at 100 %, measure the bar, then pin the pages up in the order of the work."),
        tr("Paper of an older revision is not the plan on the screen: throw it away."),
    ),
    "cuts": (
        tr("Cut order"),
        tr("The same passes as a list, as they stand on paper."),
        tr(
            "A rip runs with the grain, a crosscut across it. The kept side's show face ends exactly "
            "at the number given."
        ),
        tr("Work from one trued edge and one trued end, always with the same tape."),
        tr("A number that does not fit what lies before you means stop: something was cut or measured otherwise."),
    ),
    "parts": (
        tr("Cut list"),
        tr("Every piece that is kept: show face and inside face, from which sheet."),
        tr("The inside face is shorter than the show face by t tan(tilt) for each mitred edge."),
        tr("Mark each piece with its letter and the maker's triangle as soon as it is free."),
        tr("Sizes of frame parts follow the cavity as planned: measure the glued shell before you cut them."),
    ),
    "offcuts": (
        tr("Offcuts"),
        tr("What this plan leaves that is worth keeping."),
        tr("Sizes are square through: the rectangle that both faces of the piece share."),
        tr("Write the size and the thickness on the piece before you put it away."),
        tr("An offcut has its own thickness: measure it again before you plan with it."),
    ),
    "rack": (
        tr("Kept offcuts"),
        tr("Pieces you kept from earlier jobs, and how long a shelf each still gives."),
        tr("The longest shelf has the depth and height of the one chosen, with one mitred end or two as it has."),
        tr("Take an offcut for short shelves first, a whole sheet last."),
        tr("Veneer of another batch may differ in colour: hold it against the sheet in daylight."),
    ),
    "history": (
        tr("History"),
        tr(
            "Every step back to the opening of the project, the revisions kept in it, and what "
            "differs from any of them."
        ),
        tr(
            "A revision is the whole project as it was. Prints carry its number and name, and say "
            "where the project was changed since."
        ),
        tr("Keep a revision before you cut, so that the paper on the bench can be found again."),
        tr("Restoring a revision changes the whole project. Undo takes it back."),
    ),
}
OF_THINGS: Final = frozenset({"wall", "fold", "sheet", "frame", "section", "steps", "cuts", "parts"})
MENUS: Final = tr(
    "The other mouse button opens a menu of what can be done with the thing under the pointer; Shift+F10 with what is "
    "selected."
)
HEADINGS: Final = (tr("What it shows"), tr("The formula"), tr("Common practice"), tr("Mind this"))


def page(key: str) -> str:
    """The page of a board as HTML; that of the sheet where a board has none."""
    title, *parts = PAGES.get(key, PAGES["sheet"])
    body = "".join(
        f"<p style='margin-top:10px'><b>{heading}</b><br>{said}</p>"
        for heading, said in zip(HEADINGS, parts, strict=True)
    )
    menus = f"<p style='margin-top:10px'>{MENUS}</p>" if key in OF_THINGS else ""
    return f"<h3>{title}</h3>{body}{menus}"
