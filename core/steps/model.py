"""A step: everything to do and to look out for at one pass of the saw.

A pass is one go of the blade: one cut, or the cuts of several strips laid back toe to toe. Sides are `low` and `high`
of the sheet's own axes, seen from the show face, whatever way the wood lies: `core.steps.words` says near and far,
left and right, and mirrors them where the show face lies down. Lengths mm, angles degrees.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from core.document.model import Face
from core.plan.model import CutKind, Side
from core.steps.edges import EdgeKind

Means = Literal["raw edge", "datum edge", "datum end", "square edge", "arris", "other toe"]
Device = Literal["mark", "fence", "stop"]
Bearing = Literal["square", "toe up", "toe down"]
FallKind = Literal["part", "strip", "offcut", "triangle", "waste"]
Move = Literal["tilt", "flip", "across", "along", "turn over", "new sheet"]
Danger = Literal[
    "trapped", "waste side", "toe creeps", "tall fence", "narrow", "triangle", "guide short", "fence travel"
]
# Foam board under all; foam under a triangle; what is long held up; wood beside what is too short under the guide; what
# is too large for a sled.
# Before bevels: ticks over all seams; the guide clamped where it is laid anew; a table saw's splitter and insert.
Support = Literal["bed", "ticks", "clamp", "splitter", "foam", "long fall", "beside", "large"]


class Value(msgspec.Struct, frozen=True, gc=False):
    """Base of the steps' values."""


class SetBy(Value, frozen=True):
    """How the cut is brought to its place.

    means: what the toe is measured from; `side` is the side of the cut that lies on.
    toe: from there to the toe, on the show face (to the line of a square cut); for `arris` what the cut takes off it.
    device: pencil `mark` and guide, the `fence`'s scale, or a `stop` on the sled.
    edge: from the toe to the guide rail's edge, positive towards the guide; None on a table saw.
    stick: gauge stick from the far edge of what lies under the guide to the guide's back; None where none serves:
        that edge is not sound, or the guide reaches beyond it and there is no packer.
    reading: of the fence, from the blade's near side at table level; None where there is no fence, or the blade would
        run into it.
    seen: where the arris lies underneath, from the edge that is seen above it to the guide's edge.
    bears: how the edge against the fence or the stop stands: square, its toe up (at height t), or its toe down on the
        table.
    stop: of the sled, from the stop to the blade's near side at table level; None where there is no stop.
    against, opposite: what kind of edge or end bears on the fence or the stop, and what the one across the cut from
        it is; None where there is neither.
    fresh: is the edge against the fence the one that the step before has sawn, all others of its kind being older?
    back_of: the panel whose back that edge is, in words, where the one across the cut is as square.
    back, back_edge: of a panel whose cut is set on an arris, from the toe to its own square back, and what kind of
        edge that is; None for all others. Parts that meet have it alike: the cut goes by it, the arris is its check.
    told, told_stick: number and gauge stick as they are printed, where those are not their own, rounded; see
        `core.steps.printed`.
    told_toe: of a number that a scale reads: how far from that edge the toe then lies, the numbers before it kept to.
    """

    means: Means
    side: Side
    of: str  # whose edge it is, in words
    toe: float
    device: Device
    edge: float | None = None
    stick: float | None = None
    reading: float | None = None
    bears: Bearing | None = None
    seen: float | None = None
    stop: float | None = None
    against: EdgeKind | None = None
    opposite: EdgeKind | None = None
    fresh: bool = False
    back_of: str = ""
    back: float | None = None
    back_edge: EdgeKind | None = None
    told: float | None = None
    told_stick: float | None = None
    told_toe: float | None = None

    @property
    def reads_scale(self) -> bool:
        """Is the number read at the fence or the stop, not on the wood?"""
        return not self.on_line and (self.reading is not None or self.stop is not None)

    @property
    def number(self) -> float:
        """The number the cut goes by, as it is planned: reading, stop, a panel's own size, or from edge to toe."""
        if self.reads_scale:
            return (self.reading if self.reading is not None else self.stop) or 0.0
        return self.toe if self.back is None else self.back

    @property
    def printed(self) -> float:
        """The same as it is printed."""
        return self.number if self.told is None else self.told

    @property
    def printed_stick(self) -> float | None:
        """The gauge stick as it is printed."""
        return self.stick if self.told_stick is None else self.told_stick

    @property
    def printed_toe(self) -> float:
        """From the edge to the toe or the line on the show face, where the cut is set by the printed number."""
        if self.told_toe is not None:
            return self.told_toe
        return self.toe if self.reads_scale else self.printed

    @property
    def on_line(self) -> bool:
        """Is the wood brought to a pencilled line, for want of an edge that fence or stop could bear on?"""
        return self.device != "mark" and (self.means == "raw edge" or (self.reading is None and self.stop is None))


class Packer(Value, frozen=True):
    """Wood of the same thickness that carries the guide where what lies under it is too narrow."""

    width: float  # at least
    length: float  # to lie all along the cut
    pieces: tuple[str, ...]  # one as long as the cut, or one for each end of it
    words: str
    toe_to_toe: bool  # its toe meets the toe of what it packs out
    instead: str = ""  # finished panels, by name, among the pieces: `words` asks for scrap instead of them


class Uneven(Value, frozen=True):
    """Two panels that meet and do not come out alike where all keep to what is printed.

    part, mate: their ids; the mate is cut before. longer: the part, than the mate [mm], negative where it is shorter.
    """

    part: str
    mate: str
    longer: float


class Untrue(Value, frozen=True):
    """A part that does not come out as planned where all keep to what is printed.

    along: is it its length along x, on the sheet? longer: than planned [mm], negative where it is shorter.
    """

    part: str
    along: bool
    longer: float


class Fall(Value, frozen=True):
    """A piece that is free now and not worked on in the very next step."""

    piece: str
    kind: FallKind
    words: str
    width: float  # across the cut: its widest; the base of a triangle
    lies: Literal["guide", "off"]  # under the guide (against the fence), or on the other side of the blade
    of: str = ""  # where a pass saws several pieces, of what holds no panel: the one it comes off, in words


class Step(Value, frozen=True):
    """One pass of the saw."""

    number: int
    setup: int
    cuts: tuple[int, ...]  # their n
    sheet: str
    kind: CutKind
    at: float
    bevel: float
    keep: Side
    length: float  # the blade's travel through all pieces [mm]
    about: str  # panel or part whose edge this makes, of the first cut
    abouts: tuple[str, ...]  # of all cuts
    seams: tuple[str, ...]  # letters of the seams these edges go to
    second: bool  # the second cut of a V
    datum: Side  # the side the trued edge (of a crosscut: the trued end) is on
    guide: Side  # the side the guide, the fence or the sled's stop is on
    under: tuple[str, ...]  # pieces that lie under the guide or against the fence, by name
    parts: tuple[str, ...]  # ids of the panels and frame parts in them
    words: str  # the same in words: 'top + front, one piece'
    width: float  # of what lies under, from its far edge to the guide's edge (against the fence: to the toe)
    foot: Side | None  # where the blade's foot leans to; None for a square cut
    face: Face
    flip: bool  # guide turned end for end (table saw: the piece) since the last step of this kind
    moves: tuple[Move, ...]  # what changes from the step before; laid another way anyway, the guide is not flipped
    set_by: SetBy
    packer: Packer | None
    falls: tuple[Fall, ...]
    support: tuple[Support, ...]
    chips: Side | None  # the side of the cut whose show face is to be taped and scored
    dangers: tuple[Danger, ...]
    uneven: tuple[Uneven, ...] = ()  # of the panels this is the last cut of
    untrue: tuple[Untrue, ...] = ()
    take: tuple[str, ...] = ()  # the pieces sawn, by the names they were put by with; () where they lie at the saw
