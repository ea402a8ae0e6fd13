"""What falls at a pass, how it must be held, and where the show face chips."""

from __future__ import annotations

from typing import Final

from core.document.model import Saw
from core.plan.model import Side
from core.sawing.piece import TOUCH, Piece
from core.steps.bench import Pass
from core.steps.contents import Contents, piece_words
from core.steps.model import Fall, FallKind, Support
from core.steps.section import OTHER, Section

LONG: Final = 1000.0  # mm: a piece longer than this sags off the bench as it comes free (common practice)
CLEANS: Final = 0.3  # mm: a second cut that takes less leaves chips in the arris (common practice: 0.4 to 0.8)


def falls_of(work: Pass, cut: Section, contents: Contents, next_up: set[str]) -> tuple[Fall, ...]:
    """The pieces made that are not worked on in the next step. next_up: the pieces that step saws."""
    found = []
    for pair in work.made:
        for side, piece in zip(("low", "high"), pair, strict=True):
            if piece is None or piece.name in next_up:
                continue
            kind = _kind(work, piece, contents)
            words = "triangle" if kind == "triangle" else piece_words(contents, piece.name)
            found.append(Fall(piece.name, kind, words, _across(work, piece), "guide" if side == cut.guide else "off"))
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
    """How the wood is held: a guided cut on a full bed; foam under a triangle; a hand under what is long."""
    found: list[Support] = ["bed"] if saw.kind == "guided" else []
    if any(fall.kind == "triangle" for fall in falls):
        found.append("foam")
    loose = [made for pair in work.made for made in pair if made is not None]
    if any(max(p.show_box()[2] - p.show_box()[0], p.show_box()[3] - p.show_box()[1]) > LONG for p in loose):
        found.append("long fall")
    return tuple(found)


def chips_of(work: Pass, cut: Section, saw: Saw, contents: Contents) -> Side | None:
    """The side of the cut whose show face chips and is wanted; None where nothing wanted chips.

    Teeth of a guided saw rise through the wood and chip the face that is up beside the guide's strip; teeth of a
    table saw come down and chip the face on the table. Crosscuts of panels are always taped and scored.
    """
    off = OTHER[cut.guide]
    if not any(part in contents.panels for piece in work.before for part in contents.parts.get(piece.name, ())):
        return None
    if work.axis == "x":
        return off
    if saw.kind == "table":
        return cut.keep if cut.face == "down" else None
    if cut.face == "down":
        return None
    if cut.keep == off:
        return off
    index = 0 if off == "low" else 1
    kept = [pair[index] for pair in work.made]
    wanted = any(p in contents.panels for made in kept if made for p in contents.parts.get(made.name, ()))
    return off if wanted and cut.bevel and saw.allowance < CLEANS else None
