"""Findings about photographs of sheets that are not there any more, or are others by now."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from core.document.model import Project
from core.language import tr
from core.plan.model import Finding, Fix, Plan


def picture_findings(project: Project, troubles: Mapping[str, str]) -> list[Finding]:
    """A warning `picture` for each photograph that cannot be shown.

    troubles: what is wrong with each picture, by its checksum, to follow its name ("cannot be read: no such file").
    """
    found = []
    for n, sheet in enumerate(project.sheets):
        for m, photo in enumerate(sheet.photos):
            if why := troubles.get(photo.sum):
                text = tr(
                    "Photograph {m} of sheet {id}, {file}, {why}; a made-up face stands in for it. Put it "
                    "back beside the project.",
                    m=m + 1,
                    id=sheet.id,
                    file=photo.file,
                    why=why,
                )
                way = Fix(tr("Do without it"), {f"/sheets/{n}/photos/{m}": None})
                found.append(Finding("warning", "picture", sheet.id, text, (way,)))
    return found


def with_picture_findings(plan: Plan, troubles: Mapping[str, str]) -> Plan:
    """The plan with those findings among its own; the very plan where all pictures are there."""
    found = picture_findings(plan.project, troubles) if troubles else []
    if not found:
        return plan
    order = ("error", "warning", "note")
    findings = sorted((*plan.findings, *found), key=lambda finding: order.index(finding.severity))
    return msgspec.structs.replace(plan, findings=tuple(findings))
