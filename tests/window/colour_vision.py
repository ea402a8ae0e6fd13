"""How colours look to eyes that lack one kind of cone.

Matrices for severity 1.0 from Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color
Vision Deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (6), 2009; they work on linear RGB.
`python -m tests.window.colour_vision protanopia|deuteranopia|tritanopia FROM.png TO.png` shows a whole picture so.
"""

from __future__ import annotations

import sys
from typing import Final

import numpy as np
from numpy.typing import NDArray

MATRICES: Final = {
    "protanopia": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def seen(picture: NDArray[np.float64], kind: str) -> NDArray[np.float64]:
    """A picture (..., 3), sRGB from 0 to 1, as such eyes see it."""
    linear = np.where(picture <= 0.04045, picture / 12.92, ((picture + 0.055) / 1.055) ** 2.4)
    found = np.clip(linear @ np.array(MATRICES[kind]).T, 0.0, 1.0)
    return np.where(found <= 0.0031308, 12.92 * found, 1.055 * found ** (1.0 / 2.4) - 0.055)


def seen_colour(colour: str, kind: str) -> str:
    """A colour `#rrggbb` as such eyes see it."""
    parts = np.array([int(colour[at : at + 2], 16) / 255.0 for at in (1, 3, 5)])
    return "#" + "".join(f"{round(255.0 * part):02x}" for part in seen(parts, kind))


if __name__ == "__main__":
    from PIL import Image

    with Image.open(sys.argv[2]) as whole:
        shown = seen(np.asarray(whole.convert("RGB"), dtype=np.float64) / 255.0, sys.argv[1])
    Image.fromarray((255.0 * shown).round().astype(np.uint8)).save(sys.argv[3])
