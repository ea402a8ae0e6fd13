"""Projects and faces for the fold board's tests."""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from app.fold.levels import Bytes
from core.document.model import Mount, Project, Saw, Sheet, Shelf
from core.plan.make import make_plan
from core.plan.model import Plan, StockSheet

STOCK = Sheet("birch", 1200.0, 700.0, thickness=18.0, trim=5.0)
# A wide kerf, so that what is lost at a seam is plain to see.
SAW = Saw(kerf=5.0, overcut=0.5)
SHELVES = (
    Shelf("upper", 420.0, 130.0, 90.0, mount=Mount(600.0, 1500.0)),
    Shelf("lower", 380.0, 120.0, 80.0, left="open", mount=Mount(700.0, 1100.0)),
)
PROJECT = Project((STOCK,), SHELVES, saw=SAW)
STEP = 10.0  # between the lines of the ruled face [mm]
FINE = 0.2  # a pixel of it [mm]
ALONG, ACROSS, WHITE = (200, 0, 0), (0, 0, 200), (255, 255, 255)  # lines along the grain, lines across it, the rest


def plan_of(*shelves: Shelf, stock: Sheet = STOCK, saw: Saw = SAW) -> Plan:
    return make_plan(replace(PROJECT, sheets=(stock,), shelves=shelves, saw=saw))


def ruled(sheet: StockSheet) -> Bytes:
    """Red lines along the grain and blue ones across it, a millimetre wide, every ten millimetres of the sheet."""
    across, down = round(sheet.length / FINE), round(sheet.width / FINE)
    x = (np.arange(across) + 0.5) * sheet.length / across
    y = sheet.width - (np.arange(down) + 0.5) * sheet.width / down
    face = np.full((down, across, 3), WHITE, np.uint8)
    face[near_a_line(y)] = ALONG
    face[:, near_a_line(x)] = ACROSS
    return face


def near_a_line(places: np.ndarray) -> np.ndarray:
    return np.abs(places - STEP * np.round(places / STEP)) <= 0.5


def white(sheet: StockSheet) -> Bytes:
    return np.full((32, 64, 3), 255, np.uint8)


def quarters(sheet: StockSheet) -> Bytes:
    """Left and right, upper and lower half told apart: green at low x, blue at high x, bright in the upper half."""
    face = np.zeros((256, 512, 3), np.uint8)
    face[:128], face[128:] = 120, 40
    face[:, :256, 1] += 100
    face[:, 256:, 2] += 100
    return face
