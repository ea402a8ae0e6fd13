"""What the fold board's picture looks like, for each theme. Colours are red, green, blue 0..1. No Qt here."""

from __future__ import annotations

from typing import Final, NamedTuple

from app.fold.strokes import Style
from app.theme.palette import Palette

Colour = tuple[float, float, float]

PLAIN: Final = 0.72  # how much plain colour lies over the figure of an inside face
INSIDE_LIGHT: Final = 0.93  # the inside of a shell is a little darker
LAMP: Final = (-0.46, 0.62, 0.63)  # where the lamp is, from what it shines on, as the eye sees it
LOW: Final = 15.0  # a shadow on the ground fades as the eye comes down to it from here [deg]


class Pen(NamedTuple):
    """How a line is drawn; widths in pixels at 100 %. A casing lies below it and parts it from the wood."""

    colour: Colour
    alpha: float
    width: float
    casing: float = 0.0
    casing_alpha: float = 0.0
    dash: tuple[float, float] = (0.0, 0.0)


class Look(NamedTuple):
    """Colours and pens of one theme."""

    paper: Colour
    wall: Colour
    stud: Colour
    floor: Colour
    shadow: tuple[Colour, float]
    plain: Colour  # inside of the wood
    light: float  # how much of the light there is
    casing: Colour
    pens: dict[Style, tuple[Pen, ...]]  # the lowest first


def colour(name: str) -> Colour:
    """`#rrggbb` as three numbers."""
    red, green, blue = (int(name[i : i + 2], 16) / 255.0 for i in (1, 3, 5))
    return red, green, blue


CASING: Final = "#FAF7F1"  # parts a line from the wood


def look_of(palette: Palette) -> Look:
    """The look of a theme. On wood both themes use the same pens."""
    ink, chalk = colour(palette.wood_ink), colour(palette.wood_chalk)
    is_dark = palette.name == "dark"
    rim = colour("#0F0D0B") if is_dark else ink
    return Look(
        paper=colour(palette.paper),
        wall=colour("#292622" if is_dark else "#F4EFE5"),
        stud=colour(palette.stud),
        floor=colour(palette.hairline),
        shadow=((0.0, 0.0, 0.0), 0.55) if is_dark else (colour("#4A3B22"), 0.26),
        plain=colour("#DCC49A"),
        light=0.90 if is_dark else 1.0,
        casing=colour(CASING),
        pens={
            "stick": (Pen(ink, 0.45, 0.8),),
            "edge": (Pen(rim, 0.55, 1.1),),
            "seam": (Pen(ink, 0.75, 1.0),),
            "turned": (Pen(ink, 0.95, 1.2, 2.4, 0.8, (5.0, 3.5)),),
            "mark": (Pen(ink, 0.95, 1.3, 3.2, 0.8),),
            "chosen": (Pen(colour(CASING), 1.0, 4.6), Pen(chalk, 1.0, 2.2)),
        },
    )
