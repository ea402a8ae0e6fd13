"""Why a shelf can have no frame: error `no-cavity`, with the size that would give it one."""

from __future__ import annotations

from typing import Final

from core.frame.cavity import FrameSize
from core.frame.job import FrameJob
from core.frame.ribs import THINNEST, RibRefusal
from core.frame.spread import FLOAT_TOL
from core.plan.model import Finding, Fix

LEAST_HEIGHT: Final = 20.0  # mm: a lower frame has no arm for its screws
LEAST_PART: Final = 0.1  # mm: shorter than this is no part, whatever float numbers say
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
        message = f"Ribs {spacing} apart, centre to centre, would overlap: each is {rib} thick."
    else:
        message = f"Ribs {spacing} apart would make {refusal.count} ribs, which is more than a frame can have."
    fix = Fix(f"Space the ribs {job.show(usual)} apart", {"/frame/spacing": usual})
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
        left = f"a frame {job.show(size.height, 'down')} high" if size.height > 0.0 else "no room for a frame"
        message = (
            f"A height of {job.show(height)}, less two sheets of {job.show_sheet(t)} and {job.show(play)} of play, "
            f"leaves {left}; it needs {least}. Make the shelf {job.show(need)} high or use a thinner sheet."
        )
    else:
        message = (
            f"The bevels of the front take {job.show(2.0 * q, 'up')} of its height of {job.show(height)}: no inside "
            f"face is left. Make the shelf {job.show(need)} high or use a thinner sheet."
        )
    fix = job.set_shelf(f"Make it {job.show(need)} high", "height", need)
    return job.finding("error", "no-cavity", message, (fix,), need - height)


def _depth_fault(job: FrameJob, size: FrameSize) -> Finding | None:
    shelf, wish, t = job.shelf, job.project.frame, job.frame_thickness
    face = shelf.depth + shelf.scribe - job.section.setback
    if size.rib_length > LEAST_PART and face > 0.0:
        return None
    rails = wish.back_layers + wish.front_layers
    lacking = max(WORTH_HAVING - size.rib_length, LEAST_FACE - face)
    need = job.coarse_up(shelf.depth + lacking)
    left = f"only {job.show(size.rib_length, 'up')}" if size.rib_length > 0.0 else "nothing"
    message = (
        f"A depth of {job.show(shelf.depth)}, less the front, {job.show(wish.front_play)} of play and {rails} rail "
        f"{'layer' if rails == 1 else 'layers'} of {job.show_sheet(t)}, leaves {left} for the ribs. "
        f"Make the shelf {job.show(need)} deep."
    )
    fixes = [job.set_shelf(f"Make it {job.show(need)} deep", "depth", need)]
    if face > 0.0 and wish.front_layers and size.rib_length + wish.front_layers * t >= WORTH_HAVING:
        fixes.append(Fix("Leave out the front rail", {"/frame/front_layers": 0}))
    return job.finding("error", "no-cavity", message, tuple(fixes), need - shelf.depth)


def _length_fault(job: FrameJob, size: FrameSize) -> Finding | None:
    shelf, wish, t = job.shelf, job.project.frame, max(job.frame_thickness, THINNEST)
    ribs, face = 2 * wish.end_layers, shelf.length - shelf.mitred_ends * job.section.setback
    if size.length > max(ribs * t + FLOAT_TOL, LEAST_PART) and face > 0.0:
        return None
    need = job.coarse_up(shelf.length + max((ribs + 1) * t - size.length, LEAST_FACE - face))
    left = f"a frame {job.show(size.length)} long" if size.length > 0.0 else "no length for a frame"
    message = (
        f"A length of {job.show(shelf.length)} leaves {left}, and {ribs} end ribs of {job.show_sheet(t)} meet in it. "
        f"Make the shelf {job.show(need)} long."
    )
    fixes = [job.set_shelf(f"Make it {job.show(need)} long", "length", need)]
    if face > 0.0 and wish.end_layers > 1 and size.length > 3.0 * t:
        fixes.append(Fix("Use one rib at each end", {"/frame/end_layers": 1}))
    return job.finding("error", "no-cavity", message, tuple(fixes), need - shelf.length)
