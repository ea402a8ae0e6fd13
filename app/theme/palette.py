"""The two tables of colours: paper, pencil, wood and chalk, by day and by lamplight.

Contrast is part of the table: ink on paper and card over 7:1, soft ink, chalk, trouble, doubt and fine over 4.5:1,
edges of fields 3:1 (WCAG 2.2 AA). `tests/window/test_theme.py` computes it.
"""

from __future__ import annotations

from dataclasses import dataclass

from core.drawing.style import COLOURS

_DAY, _LAMP = COLOURS["light"], COLOURS["dark"]  # what drawings and window share


@dataclass(frozen=True, slots=True)
class Palette:
    """One theme's colours, each `#rrggbb`."""

    name: str
    paper: str  # the ground
    card: str  # what lies on it: rule, bars, insets
    field: str  # inside of an entry field
    ink: str
    soft: str  # soft ink: labels, edges of fields
    hairline: str
    hover: str  # ground under the pointer
    chalk: str  # selected, draggable
    chalk_wash: str  # ground of what is selected
    on_chalk: str  # words on chalk
    trouble: str
    trouble_wash: str
    doubt: str
    doubt_wash: str
    fine: str
    wood: str
    wood_edge: str
    wood_shade: str
    wood_deep: str
    wood_ink: str  # words on wood, in both themes
    wood_chalk: str  # chalk on wood, in both themes
    stud: str
    stud_edge: str


LIGHT = Palette(
    name="light",
    paper=_DAY["paper"],
    card="#FFFDF8",
    field=_DAY["paper"],
    ink=_DAY["ink"],
    soft=_DAY["soft"],
    hairline=_DAY["hairline"],
    hover="#F1ECE1",
    chalk=_DAY["chalk"],
    chalk_wash="#E6EEF8",
    on_chalk="#FFFFFF",
    trouble=_DAY["trouble"],
    trouble_wash="#FAE9E4",
    doubt="#8A5A00",
    doubt_wash="#FAF0DC",
    fine="#3F6B3A",
    wood=_DAY["wood"],
    wood_edge="#8B6F42",
    wood_shade="#D2B27F",
    wood_deep="#BF9C67",
    wood_ink=_DAY["wood_ink"],
    wood_chalk=_DAY["wood_chalk"],
    stud="#F0EADD",
    stud_edge="#D9CFBC",
)

DARK = Palette(
    name="dark",
    paper=_LAMP["paper"],
    card="#282521",
    field=_LAMP["paper"],
    ink=_LAMP["ink"],
    soft=_LAMP["soft"],
    hairline=_LAMP["hairline"],
    hover="#332F2A",
    chalk=_LAMP["chalk"],
    chalk_wash="#27384C",
    on_chalk="#14202E",
    trouble=_LAMP["trouble"],
    trouble_wash="#43261F",
    doubt="#E0B050",
    doubt_wash="#3B3019",
    fine="#93C48B",
    wood=_LAMP["wood"],
    wood_edge="#8B6F42",
    wood_shade="#BD9C6A",
    wood_deep="#A58353",
    wood_ink=_LAMP["wood_ink"],
    wood_chalk=_LAMP["wood_chalk"],
    stud="#2F2B26",
    stud_edge="#4A443B",
)
