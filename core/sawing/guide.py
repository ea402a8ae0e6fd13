"""Which side of a cut the guide lies on: the guide rail, or a table saw's fence.

Section of a bevel cut, show face up, the kept part (K) on the low side; the guide's edge is at the line:

    lean under: the blade's foot goes under the guide     lean away: its foot goes away from the guide
        guide ====|                                                        |==== guide
        KKKKKKKKKK/ waste                                      KKKKKKKKKK/ waste
        KKKKKKKK/                                              KKKKKKKK/
    the guide lies on the kept part                        the guide lies on the waste

With the show face down everything is mirrored. A square cut is guided on the kept part whatever the lean. The same
holds for a fence ("under": the foot goes under the fence side, so the head tilts away from it).
"""

from __future__ import annotations

from core.document.model import Saw
from core.sawing.piece import Keep


def guide_side(saw: Saw, bevel: float, keep: Keep) -> Keep:
    """The side, low or high, that the guide lies on for a cut that keeps `keep`.

    bevel: the blade's tilt, 0 for a square cut. [deg]
    """
    if not bevel or (saw.lean == "under") == (saw.face == "up"):
        return keep
    return "high" if keep == "low" else "low"
