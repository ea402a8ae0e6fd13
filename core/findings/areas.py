"""Findings about areas of a sheet that are to be kept clear: a net that lies on one, by how much, and ways out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from core.document.model import KeptOut, Project, Sheet
from core.findings.slid import slid
from core.findings.words import need, spoken
from core.language import tr
from core.layout.clear import areas_on, intrusion
from core.layout.model import Layout, pin_of
from core.plan.model import Finding, Fix
from core.plan.shapes import Shape

RULES: Final[dict[KeptOut, str]] = {
    "net": tr("no part of a net may lie there"),
    "faces": tr("no show face may lie there"),
    "front": tr("no front may lie there"),
}


def area_findings(project: Project, shapes: Sequence[Shape], layout: Layout) -> list[Finding]:
    """An error `in-area` for every net that lies where it must not; only a pinned net, or one held by a hand, does."""
    found = []
    for spot in layout.spots:
        areas = areas_on(layout.stocks, spot.sheet)
        hit = intrusion(shapes[spot.index].net, (spot.x, spot.y), areas) if areas else None
        if hit is not None:
            stock, shape = layout.stocks[spot.sheet], shapes[spot.index]
            name = spoken(shape)
            where = (
                tr("{name} is pinned", name=name)
                if pin_of(project, spot.index) is not None
                else tr("{name} lies", name=name)
            )
            far = need(project, hit.by)
            text = tr(
                "{where} {far} into the {kind} of sheet {id}: {RULES}.",
                where=where,
                far=far,
                kind=hit.area.kind,
                id=stock.id,
                RULES=RULES[hit.area.of],
            )
            fixes = tuple(_ways(project, shapes, spot.index, stock))
            found.append(Finding("error", "in-area", shape.name, text, fixes, hit.by))
    return found


def _ways(project: Project, shapes: Sequence[Shape], index: int, stock: Sheet) -> list[Fix]:
    """Slide it, or let it lie elsewhere; each is tried before it is offered."""
    if pin_of(project, index) is None:
        return []
    fix = slid(project, shapes, index, stock)
    free = Fix(tr("Let it lie where there is room"), {f"/shelves/{index}/at": None})
    return [fix, free] if fix is not None else [free]
