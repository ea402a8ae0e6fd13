"""What a guide rail needs of its own length and of the wood under it, and what a fence needs beside the blade."""

from __future__ import annotations

from typing import Final, Literal

RUN: Final = 300.0  # mm: how much longer than the cut a guide rail is, so that the saw starts and stops on it
NARROW: Final = 25.0  # mm: wood narrower than this between blade and fence is no work for a hand
SAME: Final = 0.3  # mm: a packer no more uneven than this holds the guide level
END: Final = 150.0  # mm: least length of a packer that carries one end of the guide
OVERHANG: Final = 5.0  # mm: a guide that reaches no further beyond the wood lies firm without a packer
# All five: common practice.

Carries = Literal["all", "end", ""]


def carries(long: float, short: float, lack: float, length: float) -> Carries:
    """How far a piece laid beside the cut carries the guide: all along it, at one end, or not.

    long, short: of the piece, square through. lack: width that is missing under the guide; length: of the cut. [mm]
    """
    if (short >= lack and long >= length) or (short >= length and long >= lack):
        return "all"
    if (short >= lack and long >= END) or (short >= END and long >= lack):
        return "end"
    return ""
