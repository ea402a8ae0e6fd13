"""Why a shelf can have no frame: error `no-cavity`, with the size that would give it one."""

from __future__ import annotations

from typing import Final

from core.frame.cavity import FrameSize
from core.frame.job import FrameJob
from core.frame.ribs import THINNEST, RibRefusal
from core.frame.spread import FLOAT_TOL
from core.language import tr
from core.plan.model import Finding, Fix

LEAST_HEIGHT: Final = 20.0  # mm: a lower frame has no arm for its screws
LEAST_PART: Final = 0.1  # mm: shorter than this is no part, whatever float numbers say
LEAST_RIB: Final = 5.0  # mm: a shorter one cannot be sawn off its strip nor held
WORTH_HAVING: Final = 15.0  # mm: rib length a fix asks for; a rib of less is all glue line
LEAST_FACE: Final = 1.0  # mm: inside face a fix leaves between two bevels


def cavity_faults(job: FrameJob, size: FrameSize) -> tuple[Finding, ...]:
    """Every way in which the shelf is too low, too shallow or too short for a frame; empty if none."""
    faults = (_height_fault(job, size), _depth_fault(job, size), _length_fault(job, size))
    return tuple(fault for fault in faults if fault is not None)


def rib_fault(job: FrameJob, refusal: RibRefusal) -> Finding:
    """The error `rib-spacing`: a spacing that no frame can have."""
    spacing = job.show(job.project.frame.spacing)
    usual = type(job.project.frame)().spacing
    if refusal.reason == "thin":
        rib = job.show_sheet(job.frame_thickness)
        message = tr(
            "Ribs {spacing} apart, centre to centre, would overlap: each is {rib} thick.", spacing=spacing, rib=rib
        )
    else:
        message = tr(
            "Ribs {spacing} apart would make {count} ribs, which is more than a frame can have.",
            spacing=spacing,
            count=refusal.count,
        )
    fix = Fix(tr("Space the ribs {usual} apart", usual=job.show(usual)), {"/frame/spacing": usual})
    return job.finding("error", "rib-spacing", message, (fix,) if usual >= 2 * job.frame_thickness else ())


def _height_fault(job: FrameJob, size: FrameSize) -> Finding | None:
    height, t, q = job.shelf.height, job.shell_thickness, job.section.setback
    play = job.project.frame.height_play
    low, no_face = size.height < LEAST_HEIGHT - FLOAT_TOL, 2.0 * q >= height
    if not low and not no_face:
        return None
    need = job.coarse_up(max(LEAST_HEIGHT + 2.0 * t + play, 2.0 * q + LEAST_FACE))
    least = job.show(LEAST_HEIGHT, "up")
    if low:
        left = (
            tr("a frame {height} high", height=job.show(size.height, "down"))
            if size.height > 0.0
            else tr("no room for a frame")
        )
        message = tr(
            "A height of {height}, less two sheets of {show_sheet} and {play} of play, leaves "
            "{left}; it needs {least}. Make the shelf {need} high or use a thinner sheet.",
            height=job.show(height),
            show_sheet=job.show_sheet(t),
            play=job.show(play),
            left=left,
            least=least,
            need=job.show(need),
        )
    else:
        message = tr(
            "The bevels of the front take {q} of its height of {height}: no inside face is left. "
            "Make the shelf {need} high or use a thinner sheet.",
            q=job.show(2.0 * q, "up"),
            height=job.show(height),
            need=job.show(need),
        )
    fix = job.set_shelf(tr("Make it {need} high", need=job.show(need)), "height", need)
    return job.finding("error", "no-cavity", message, (fix,), need - height)


def _depth_fault(job: FrameJob, size: FrameSize) -> Finding | None:
    shelf, wish, t = job.shelf, job.project.frame, job.frame_thickness
    face = shelf.depth + shelf.scribe - job.section.setback
    if size.rib_length >= LEAST_RIB and face > 0.0:
        return None
    rails = wish.back_layers + wish.front_layers
    lacking = max(WORTH_HAVING - size.rib_length, LEAST_FACE - face)
    need = job.coarse_up(shelf.depth + lacking)
    left = tr("only {rib_length}", rib_length=job.show(size.rib_length, "up")) if size.rib_length > 0.0 else "nothing"
    message = tr(
        "A depth of {depth}, less the front, {front_play} of play and {rails} rail {rest} of "
        "{show_sheet}, leaves {left} for the ribs. Make the shelf {need} deep.",
        depth=job.show(shelf.depth),
        front_play=job.show(wish.front_play),
        rails=rails,
        rest="layer" if rails == 1 else "layers",
        show_sheet=job.show_sheet(t),
        left=left,
        need=job.show(need),
    )
    fixes = [job.set_shelf(tr("Make it {need} deep", need=job.show(need)), "depth", need)]
    if face > 0.0 and wish.front_layers and size.rib_length + wish.front_layers * t >= WORTH_HAVING:
        fixes.append(Fix(tr("Leave out the front rail"), {"/frame/front_layers": 0}))
    return job.finding("error", "no-cavity", message, tuple(fixes), need - shelf.depth)


def _length_fault(job: FrameJob, size: FrameSize) -> Finding | None:
    shelf, wish, t = job.shelf, job.project.frame, max(job.frame_thickness, THINNEST)
    ribs, face = 2 * wish.end_layers, shelf.length - shelf.mitred_ends * job.section.setback
    if size.length > max(ribs * t + FLOAT_TOL, LEAST_PART) and face > 0.0:
        return None
    need = job.coarse_up(shelf.length + max((ribs + 1) * t - size.length, LEAST_FACE - face))
    left = (
        tr("a frame {length} long", length=job.show(size.length)) if size.length > 0.0 else tr("no length for a frame")
    )
    message = tr(
        "A length of {length} leaves {left}, and {ribs} end ribs of {show_sheet} meet in it. "
        "Make the shelf {need} long.",
        length=job.show(shelf.length),
        left=left,
        ribs=ribs,
        show_sheet=job.show_sheet(t),
        need=job.show(need),
    )
    fixes = [job.set_shelf(tr("Make it {need} long", need=job.show(need)), "length", need)]
    if face > 0.0 and wish.end_layers > 1 and size.length > 3.0 * t:
        fixes.append(Fix(tr("Use one rib at each end"), {"/frame/end_layers": 1}))
    return job.finding("error", "no-cavity", message, tuple(fixes), need - shelf.length)
