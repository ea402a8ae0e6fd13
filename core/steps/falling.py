"""What falls at a pass, how it must be held, and where the show face chips."""

from __future__ import annotations

from typing import Final, Literal

from core.document.model import Saw
from core.plan.model import Side
from core.sawing.piece import TOUCH, Piece
from core.steps.bench import TRIM, Pass
from core.steps.contents import ONE, Contents, piece_words
from core.steps.model import Fall, FallKind, Support
from core.steps.section import OTHER, Section

LONG: Final = 1000.0  # mm: a piece longer than this sags off the table as it comes free (common practice)
CARRIED: Final = 150.0  # mm: a guide that lies on less of its length tips along it (common practice)
SLED: Final = 500.0  # mm: a longer cut than most sleds take (common practice)
CLEANS: Final = 0.3  # mm: a second cut that takes less leaves chips in the arris (common practice: 0.4 to 0.8)


def falls_of(work: Pass, cut: Section, contents: Contents, next_up: set[str]) -> tuple[Fall, ...]:
    """The pieces made that are not worked on in the next step. next_up: the pieces that step saws."""
    found = []
    for before, pair in zip(work.before, work.made, strict=True):
        for side, piece in zip(("low", "high"), pair, strict=True):
            if piece is None or piece.name in next_up:
                continue
            kind = _kind(work, piece, contents)
            words = "triangle" if kind == "triangle" else piece_words(contents, piece.name)
            alone = contents.panels.isdisjoint(contents.parts.get(piece.name, ()))
            of = piece_words(contents, before.name).removesuffix(ONE) if alone and len(work.before) > 1 else ""
            lies: Literal["guide", "off"] = "guide" if side == cut.guide else "off"
            found.append(Fall(piece.name, kind, words, _across(work, piece), lies, of))
    return tuple(found)


def _kind(work: Pass, piece: Piece, contents: Contents) -> FallKind:
    if piece.name in contents.sawn:
        return "strip"
    if contents.parts.get(piece.name):
        return "part"
    if piece.name in contents.offcuts:
        return "offcut"
    x0, y0, x1, y1 = piece.clear_box()
    return "triangle" if (x1 - x0 if work.axis == "x" else y1 - y0) <= TOUCH else "waste"


def _across(work: Pass, piece: Piece) -> float:
    """The piece's widest across the cut, on either face. [mm]"""
    show, inside = piece.show_box(), piece.inside_box()
    low, high = (0, 2) if work.axis == "x" else (1, 3)
    return max(show[high] - show[low], inside[high] - inside[low])


def supports_of(work: Pass, falls: tuple[Fall, ...], saw: Saw) -> tuple[Support, ...]:
    """How the wood is held: foam under a triangle of a guided cut; on a table saw what is long, or too large for it."""
    triangle = any(fall.kind == "triangle" for fall in falls)
    found: list[Support] = ["foam"] if triangle and saw.kind == "guided" else []
    if saw.kind == "guided" and sum(cut.length for cut in work.cuts) < CARRIED:
        found.append("beside")
    loose = [made for pair in work.made for made in pair if made is not None]
    if saw.kind == "table" and any(max(_sizes(piece)) > LONG for piece in loose):
        found.append("long fall")
    if saw.kind == "table" and work.axis == "x" and sum(cut.length for cut in work.cuts) > SLED:
        found.append("large")
    return tuple(found)


def _sizes(piece: Piece) -> tuple[float, float]:
    x0, y0, x1, y1 = piece.show_box()
    return x1 - x0, y1 - y0


def chips_of(work: Pass, cut: Section, saw: Saw, contents: Contents) -> Side | None:
    """The side of the cut whose show face chips and is wanted; None where nothing wanted chips.

    Teeth of a guided saw rise through the wood and chip the face that is up, but not under the guide's strip; teeth
    of a table saw come down and chip the face on the table. Bevels across the grain are always taped and scored.
    """
    off = OTHER[cut.guide]
    wanted = _wanted(work, off, contents)
    if work.axis == "x":
        if wanted and work.cuts[0].about != TRIM:
            return off
        return cut.keep if cut.bevel else None
    if saw.kind == "table":
        return cut.keep if cut.face == "down" else None
    if cut.face == "down" or not wanted:
        return None
    return off if cut.keep == off or (cut.bevel and saw.allowance < CLEANS) else None


def _wanted(work: Pass, side: Side, contents: Contents) -> bool:
    """Does a panel come out of what lies on a side?"""
    made = [pair[side == "high"] for pair in work.made]
    return any(p in contents.panels for piece in made if piece for p in contents.parts.get(piece.name, ()))
