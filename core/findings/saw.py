"""Findings about the saw: tilt, reach, undercut, and whether the overcut closes the corners outside."""

from __future__ import annotations

from collections.abc import Sequence
from math import erf, sqrt

from core.document.model import Project
from core.findings.words import ceiling_angle, floor_angle, length
from core.geometry.seam import least_overcut
from core.language import tr
from core.lengths import show_angle
from core.plan.model import Finding, Fix
from core.plan.shapes import Shape

CONFIDENCE = 1.645  # standard deviations: 95 of 100 corners close


def saw_findings(project: Project, shapes: Sequence[Shape]) -> list[Finding]:
    """Everything to say about the saw for this job; nothing where no shelf is asked for."""
    if not shapes:
        return []
    return [*_tilt(project, shapes), *_reach(project, shapes), *_closing(project, shapes)]


def _tilt(project: Project, shapes: Sequence[Shape]) -> list[Finding]:
    bevel, most = shapes[0].section.bevel, project.saw.tilt_max
    if bevel <= most + 1e-9:
        return []
    text = tr(
        "The bevel is {bevel}, but the saw tilts to {most} at most.",
        bevel=show_angle(bevel, 2),
        most=show_angle(most, 2),
    )
    overcut = floor_angle(project.saw.overcut - (bevel - most))
    fixes = (
        (Fix(tr("Overcut {overcut}", overcut=show_angle(overcut, 2)), {"/saw/overcut": overcut}),)
        if overcut >= 0
        else ()
    )
    return [Finding("error", "tilt", shapes[0].shelf.id, text, fixes, bevel - most)]


def _reach(project: Project, shapes: Sequence[Shape]) -> list[Finding]:
    found, told = [], set[str]()
    for shape in shapes:
        face, reach = shape.section.bevel_face, project.saw.depth_at_bevel
        if face <= reach + 1e-9 or shape.stock.id in told:
            continue
        told.add(shape.stock.id)
        text = tr(
            "Tilted, the cut through sheet {id} is {project} deep; the saw reaches {project2}.",
            id=shape.stock.id,
            project=length(project, face),
            project2=length(project, reach),
        )
        found.append(Finding("error", "reach", shape.shelf.id, text, (), face - reach))
    return found


def _closing(project: Project, shapes: Sequence[Shape]) -> list[Finding]:
    """Undercut is a warning; an overcut too small for the saw's spread is a note."""
    saw, shape = project.saw, shapes[0]
    enough = least_overcut(saw.bevel_sd, CONFIDENCE)
    whole = ceiling_angle(enough)
    fix = Fix(tr("Overcut {whole}", whole=show_angle(whole, 2)), {"/saw/overcut": whole})
    if saw.overcut < 0:
        gap = max(s.section.outside_gap for s in shapes)
        text = tr("Undercut: every corner stays open {project} at the show face.", project=length(project, gap))
        return [Finding("warning", "undercut", shape.shelf.id, text, (fix,), gap)]
    if saw.overcut >= enough or saw.bevel_sd <= 0:
        return []
    closes = 50.0 * (1.0 + erf(saw.overcut / saw.bevel_sd))  # P(2 overcut + e1 + e2 >= 0), spread sqrt 2 sd
    text = tr(
        "With bevels off by {bevel_sd}, an overcut of {overcut} closes {closes:.0f} of 100 "
        "corners at the show face; {whole} closes 95.",
        bevel_sd=show_angle(saw.bevel_sd, 2),
        overcut=show_angle(saw.overcut, 2),
        closes=closes,
        whole=show_angle(whole, 2),
    )
    return [Finding("note", "open-corners", shape.shelf.id, text, (fix,), enough * sqrt(2.0))]
