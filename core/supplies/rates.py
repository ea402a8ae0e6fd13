"""How much of a thing goes how far: common practice, from memory. What the tin or packet says comes first."""

from __future__ import annotations

from typing import Final

from core.lengths import INCH_MM, Unit

GLUE: Final = 0.2  # kg on a square metre of joint
SIZING: Final = 2.0  # times as much: a thin coat first, for bevels drink
SPREAD: Final = 50.0  # mm of bevel face spread in a second, 10 ft in a minute
TAPE_STEP: Final = {Unit.INCH: 3.0 * INCH_MM, Unit.MM: 75.0}  # from one strip of tape across a seam to the next [mm]
TAPE_STRIP: Final = {Unit.INCH: 6.0 * INCH_MM, Unit.MM: 150.0}  # length of such a strip [mm]
PAPER_AREA: Final = 1.0e6  # mm2 of face that one abrasive sheet of 230 x 280 mm does
GRITS: Final = (80, 120, 180)
OIL_COVERS: Final = 12.0e6  # mm2 that a litre covers, once
COATS: Final = 2
SAMPLES: Final = 1.1  # for sample boards and what stays in the cloth
SPACER_STEP: Final = {Unit.INCH: 16.0 * INCH_MM, Unit.MM: 400.0}  # between spacers in the mouth, at most [mm]
SPACER_END: Final = {Unit.INCH: 2.0 * INCH_MM, Unit.MM: 50.0}  # from the mouth's ends to the outer ones [mm]
FILLER_SEAM: Final = 30.0e3  # mm of seam that a small tub fills with ease
VENEER_LEFT: Final = 0.5  # of the face veneer: sand no deeper
BOW_STEP: Final = {Unit.INCH: 12.0 * INCH_MM, Unit.MM: 300.0}  # between readings of the wall's bow [mm]
