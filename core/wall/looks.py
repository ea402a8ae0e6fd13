"""Which seams the eye sees, from where a shelf hangs."""

from __future__ import annotations

from core.document.model import EndsFrom
from core.language import tr
from core.plan.model import Finding
from core.wall.eye import EYE
from core.wall.job import WallJob


def better_ends(job: WallJob) -> EndsFrom | None:
    """Where the ends had better come from than now; None where they are well as they are.

    Over the eye one sees bottom and ends, under it top and ends; ends from the front wrap there either way.
    """
    shelf = job.shelf
    if not shelf.mitred_ends:
        return None
    if shelf.ends_from == "top" and job.mount.top - shelf.height > EYE:
        return "bottom"
    return "top" if shelf.ends_from == "bottom" and job.mount.top < EYE else None


def eye_findings(job: WallJob) -> list[Finding]:
    """`eye-line`: a hint where other ends would keep the figure at the seams one sees."""
    better = better_ends(job)
    if better is None:
        return []
    way, seen_from = ("over", "below") if better == "bottom" else ("under", "above")
    message = tr(
        "The shelf hangs {way} the eye line, {EYE} from the floor. Seen from {seen_from} are "
        "{better} and ends, but the ends come from the {ends_from}: those seams turn.",
        way=way,
        EYE=job.show(EYE),
        seen_from=seen_from,
        better=better,
        ends_from=job.shelf.ends_from,
    )
    fix = job.set_shelf(tr("Take the ends from the {better}", better=better), "ends_from", better)
    return [job.finding("note", "eye-line", message, (fix,))]
