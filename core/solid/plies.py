"""The plies of a sheet: how many, how thick and which way each runs, so that edges show their real count."""

from __future__ import annotations

import msgspec

# Thinnest inner ply looked for: the 1.4 mm birch veneer of Finnish plywood, sanded faces apart. [mm]
INNER_PLY = 1.4
# Float noise let through when a layup comes out exactly at INNER_PLY. [mm]
PLY_TOL = 1e-6


class Ply(msgspec.Struct, frozen=True):
    """One ply, as depths below the show face. [mm]"""

    top: float
    bottom: float
    along: bool  # its grain runs along the sheet's length; neighbours cross

    @property
    def thickness(self) -> float:
        """[mm]"""
        return self.bottom - self.top


def ply_count(thickness: float, veneer: float) -> int:
    """Number of plies: two faces and the most inner plies, odd, of at least `INNER_PLY`; never below 3.

    thickness: of the sheet. veneer: of one face; 0 (not known) makes the faces as thick as the inner plies. [mm]
    """
    faces = 2 if veneer > 0.0 else 0  # plies that are not inner ones
    inner = int((thickness - faces * veneer) / (INNER_PLY - PLY_TOL))
    return max(inner - 1 + inner % 2 + faces, 3)


def plies(thickness: float, veneer: float) -> tuple[Ply, ...]:
    """The plies from the show face to the inside face; the first starts at 0, the last ends at `thickness`.

    Faces are `veneer` thick and run with the sheet; inner plies are equal and cross in turn. All are equal where
    `veneer` is 0, or so thick that two faces leave nothing between them.
    """
    count = ply_count(thickness, veneer)
    face = veneer if 0.0 < 2.0 * veneer < thickness else thickness / count
    inner = (thickness - 2.0 * face) / (count - 2)
    depths = [0.0, *(face + i * inner for i in range(count - 1)), thickness]
    return tuple(Ply(depths[i], depths[i + 1], i % 2 == 0) for i in range(count))
