"""What each layer looks like: pens, dashes, hatches, and the three tables of colours.

Widths, dashes and spacings are in points on the surface. On a screen at 100 % a pixel is 3/4 of a point, so the
outline of a show face, 1.4 pixels there, is 1.05 points on paper.
"""

from __future__ import annotations

from typing import Final, Literal

import msgspec

from core.drawing.model import Layer

Theme = Literal["light", "dark", "paper"]
Role = Literal[
    "paper",
    "ink",
    "soft",
    "hairline",
    "chalk",
    "trouble",
    "wood",  # a panel's show face
    "pale",  # the sheet's face where no panel lies
    "grain",  # grain lines on the wood
    "hatch",  # hatches on the wood
    "wood_ink",
    "wood_soft",
    "wood_chalk",
    "wood_trouble",
    "glue",
    "metal",  # guide rail, fence, stop
    "tape",
]
PIXEL: Final = 0.75  # points in a screen's pixel at 100 %

COLOURS: Final[dict[Theme, dict[Role, str]]] = {
    "light": {
        "paper": "#FAF7F1",
        "ink": "#2B2A28",
        "soft": "#6B6660",
        "hairline": "#D9D2C6",
        "chalk": "#1F5FA8",
        "trouble": "#A8321F",
        "wood": "#E3C89B",
        "pale": "#F0E3CB",
        "grain": "#D6B581",
        "hatch": "#A5977F",
        "wood_ink": "#2B2A28",
        "wood_soft": "#5F574A",
        "wood_chalk": "#1F5FA8",
        "wood_trouble": "#A8321F",
        "glue": "#1F5FA8",
        "metal": "#CBD6DF",
        "tape": "#F6F0B8",
    },
    "dark": {
        "paper": "#1F1D1A",
        "ink": "#EEE8DD",
        "soft": "#A9A196",
        "hairline": "#403B34",
        "chalk": "#7FB2EE",
        "trouble": "#F0907E",
        "wood": "#D4B688",
        "pale": "#C9B797",
        "grain": "#C4A472",
        "hatch": "#8F8063",
        "wood_ink": "#2B2A28",
        "wood_soft": "#4A4235",
        "wood_chalk": "#1F5FA8",
        "wood_trouble": "#8F2414",
        "glue": "#1F5FA8",
        "metal": "#A9B7C2",
        "tape": "#E6DFA0",
    },
    "paper": {
        "paper": "#FFFFFF",
        "ink": "#000000",
        "soft": "#000000",
        "hairline": "#000000",
        "chalk": "#000000",
        "trouble": "#000000",
        "wood": "#FFFFFF",
        "pale": "#FFFFFF",
        "grain": "#FFFFFF",
        "hatch": "#000000",
        "wood_ink": "#000000",
        "wood_soft": "#000000",
        "wood_chalk": "#000000",
        "wood_trouble": "#000000",
        "glue": "#000000",
        "metal": "#FFFFFF",
        "tape": "#FFFFFF",
    },
}


class Hatch(msgspec.Struct, frozen=True):
    """Parallel lines over an area, at the same places whatever the area, so that neighbours join up."""

    angles: tuple[float, ...]  # counter-clockwise from x [deg]
    spacing: float  # square to the lines
    pair: float = 0.0  # a second line this far after each one
    width: float = 0.5 * PIXEL
    ink: Role = "hatch"


class LayerStyle(msgspec.Struct, frozen=True):
    """How one layer is drawn: `ink` for lines (None: none), `fill` and `hatch` for areas, `words` for texts."""

    ink: Role | None
    width: float = 0.5 * PIXEL
    dash: tuple[float, ...] = ()
    fill: Role | None = None
    hatch: Hatch | None = None
    words: Role = "ink"
    strong: bool = False  # texts in the semibold face
    ground: Role = "wood"  # what its texts lie on


WASTE: Final = Hatch((45.0,), 8.0 * PIXEL / 2**0.5)
FRAME: Final = Hatch((30.0,), 8.0 * PIXEL, pair=2.2 * PIXEL)
KEPT: Final = Hatch((0.0,), 4.0 * PIXEL)
PACKED: Final = Hatch((135.0,), 6.0 * PIXEL)
CROSSED: Final = Hatch((45.0, 135.0), 11.0 * PIXEL / 2**0.5, ink="wood_soft")
OVER: Final = Hatch((45.0, 135.0), 8.0 * PIXEL / 2**0.5, width=0.7 * PIXEL, ink="trouble")

# In the order in which they are painted, the lowest first.
STYLES: Final[dict[Layer, LayerStyle]] = {
    "wall": LayerStyle("soft", 1.0 * PIXEL, words="soft"),
    "stud": LayerStyle("hairline", 0.5 * PIXEL, dash=(2.0, 2.0), words="soft"),
    "keepout": LayerStyle("trouble", 1.0 * PIXEL, hatch=CROSSED, words="trouble", strong=True),
    "level": LayerStyle("chalk", 0.8 * PIXEL, dash=(9.0, 2.5, 2.0, 2.5), words="ink"),
    "sheet": LayerStyle("wood_ink", 1.0 * PIXEL, fill="pale", words="wood_ink"),
    "waste": LayerStyle("wood_soft", 0.5 * PIXEL, hatch=WASTE, words="wood_ink", ground="pale"),
    "offcut": LayerStyle("wood_soft", 1.0 * PIXEL, dash=(0.75, 2.25), words="wood_ink", ground="pale"),
    "frame": LayerStyle("wood_ink", 0.7 * PIXEL, hatch=FRAME, words="wood_ink", ground="pale"),
    "ghost": LayerStyle("wood_trouble", 1.0 * PIXEL, dash=(6.0, 3.0), words="wood_trouble", strong=True, ground="pale"),
    "net": LayerStyle("wood_soft", 0.5 * PIXEL, words="wood_soft"),
    "panel": LayerStyle("wood_ink", 1.4 * PIXEL, fill="wood", words="wood_ink", strong=True),
    "bench": LayerStyle("wood_soft", 0.7 * PIXEL, fill="pale", words="wood_soft", ground="pale"),
    "work": LayerStyle("wood_ink", 1.4 * PIXEL, fill="wood", words="wood_ink", strong=True),
    "wood": LayerStyle("wood_ink", 1.0 * PIXEL, fill="wood", words="wood_ink", strong=True),
    "kept": LayerStyle("wood_ink", 1.4 * PIXEL, fill="wood", hatch=KEPT, words="wood_ink", strong=True),
    "fallen": LayerStyle("wood_soft", 0.7 * PIXEL, fill="pale", hatch=WASTE, words="wood_ink", ground="pale"),
    "tape": LayerStyle("wood_soft", 0.4 * PIXEL, fill="tape", words="wood_ink", ground="tape"),
    "packer": LayerStyle("wood_ink", 1.4 * PIXEL, fill="wood", hatch=PACKED, words="wood_ink", strong=True),
    "void": LayerStyle(None, fill="paper"),
    "ply": LayerStyle("wood_soft", 0.35 * PIXEL),
    "heel": LayerStyle("wood_soft", 0.7 * PIXEL, dash=(4.0, 2.5), words="wood_soft"),
    "trim": LayerStyle("wood_soft", 0.5 * PIXEL, words="wood_soft"),
    "clear": LayerStyle("wood_ink", 1.0 * PIXEL, hatch=CROSSED, words="wood_ink", strong=True, ground="pale"),
    "blade": LayerStyle("chalk", 0.7 * PIXEL, dash=(7.0, 2.0, 1.5, 2.0), words="soft"),
    "saw": LayerStyle("ink", 0.7 * PIXEL, fill="metal", hatch=Hatch((45.0,), 3.0 * PIXEL, ink="wood_ink"), words="ink"),
    "gap": LayerStyle("trouble", 0.7 * PIXEL, words="ink"),
    "glue": LayerStyle("glue", 2.0 * PIXEL, words="ink"),
    "cut": LayerStyle("wood_ink", 1.0 * PIXEL, words="wood_ink"),
    "guide": LayerStyle("wood_ink", 1.4 * PIXEL, fill="metal", words="wood_ink", strong=True, ground="metal"),
    "under": LayerStyle("wood_ink", 0.9 * PIXEL, dash=(5.0, 3.0)),
    "datum": LayerStyle("wood_ink", 2.4 * PIXEL, words="wood_ink"),
    "mark": LayerStyle("wood_soft", 0.8 * PIXEL, words="wood_ink"),
    "label": LayerStyle("wood_ink", words="wood_ink", strong=True),
    "now": LayerStyle("wood_ink", 3.4 * PIXEL, words="wood_ink", strong=True),
    "setting": LayerStyle("wood_chalk", 1.2 * PIXEL, words="wood_chalk", strong=True, ground="pale"),
    "grain": LayerStyle("soft", 1.0 * PIXEL, words="soft"),
    "dimension": LayerStyle("soft", 0.5 * PIXEL, words="ink"),
    "title": LayerStyle("ink", words="ink", strong=True),
    "note": LayerStyle("soft", 0.5 * PIXEL, words="soft"),
    "trouble": LayerStyle("trouble", 1.4 * PIXEL, hatch=OVER, words="trouble", strong=True),
    "chosen": LayerStyle("chalk", 2.0 * PIXEL, words="chalk", strong=True),
}
LAYERS: Final[tuple[Layer, ...]] = tuple(STYLES)


def colour(theme: Theme, role: Role) -> str:
    """A role's colour, `#RRGGBB`."""
    return COLOURS[theme][role]
