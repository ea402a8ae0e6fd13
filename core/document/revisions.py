"""Revisions: the project as it once was, kept under a name in the project's own file."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import date
from typing import Final

import msgspec

from core.document.errors import ProjectError, quoted
from core.document.model import Project, Revision
from core.document.ranges import MAX_REVISIONS
from core.kept import Kept
from core.language import tr

MAX_NAME: Final = 60  # characters: it is printed in a title block
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_sound: Kept[None] = Kept(2 * MAX_REVISIONS)  # revisions that were checked: they never change


def check_revisions(revisions: Sequence[Revision], check: Callable[[Project], None]) -> None:
    """Raises ProjectError where a revision could not be kept. check: raises it for a project that is none."""
    if len(revisions) > MAX_REVISIONS:
        raise ProjectError(
            "revisions",
            tr(
                "at most {MAX_REVISIONS} are kept, there are {revisions}",
                MAX_REVISIONS=MAX_REVISIONS,
                revisions=len(revisions),
            ),
        )
    names: set[str] = set()
    for n, revision in enumerate(revisions):
        where = f"revisions[{n}]"
        if complaint := name_complaint(revision.name):
            raise ProjectError(f"{where}.name", complaint)
        if revision.name in names:
            raise ProjectError(
                f"{where}.name", tr("{quoted} is the name of another revision", quoted=quoted(revision.name))
            )
        names.add(revision.name)
        if not is_day(revision.day):
            raise ProjectError(
                f"{where}.day", tr("must be a day like 2026-05-17, is {quoted}", quoted=quoted(revision.day))
            )
        if revision.project.revisions:
            raise ProjectError(f"{where}.project.revisions", tr("a revision has no revisions of its own"))
        try:
            _sound.get((n, revision.name), revision, lambda: check(revision.project))  # noqa: B023 - called at once
        except ProjectError as error:
            raise ProjectError(".".join((where, "project", error.where)).rstrip("."), error.why) from None


def name_complaint(name: str) -> str | None:
    """What is wrong with a revision's name, None if nothing."""
    from core.document.shape import text_complaint

    if not name.strip():
        return tr("must not be empty")
    if len(name) > MAX_NAME:
        return tr("must have at most {MAX_NAME} characters, has {name}", MAX_NAME=MAX_NAME, name=len(name))
    return text_complaint(name)


def is_day(text: str) -> bool:
    """Is this a day as the file writes it?"""
    if not _DAY.fullmatch(text):
        return False
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def design(project: Project) -> Project:
    """The project without its revisions: what a revision keeps and what is compared."""
    return msgspec.structs.replace(project, revisions=()) if project.revisions else project


def keep_revision(project: Project, name: str, day: str) -> Project:
    """With one revision more: the project as it is now."""
    return msgspec.structs.replace(project, revisions=(*project.revisions, Revision(name, day, design(project))))


def restore_revision(project: Project, at: int) -> Project:
    """The project as it was then; the revisions all stay."""
    return msgspec.structs.replace(project.revisions[at].project, revisions=project.revisions)


def remove_revision(project: Project, at: int) -> Project:
    """Without that revision."""
    return msgspec.structs.replace(project, revisions=(*project.revisions[:at], *project.revisions[at + 1 :]))


def rename_revision(project: Project, at: int, name: str) -> Project:
    """With that revision called something else."""
    renamed = msgspec.structs.replace(project.revisions[at], name=name)
    return msgspec.structs.replace(project, revisions=(*project.revisions[:at], renamed, *project.revisions[at + 1 :]))


def current_revision(project: Project) -> int:
    """The newest revision that is the project as it stands, -1 for none."""
    now = design(project)
    places = range(len(project.revisions) - 1, -1, -1)
    return next((n for n in places if _same(project.revisions[n].project, now)), -1)


def _same(one: Project, other: Project) -> bool:
    """Units only choose how numbers are shown."""
    return one == (other if one.units == other.units else msgspec.structs.replace(other, units=one.units))


def revision_words(project: Project) -> str:
    """What a title block says: the revision that is printed, or the newest one and that it was changed since."""
    if not project.revisions:
        return tr("none yet")
    at = current_revision(project)
    if at >= 0:
        return f"{at + 1}, {project.revisions[at].name}"
    last = len(project.revisions)
    return tr("{last}, {name}, changed since", last=last, name=project.revisions[-1].name)
