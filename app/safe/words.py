"""What is said of files and of the safety of the work."""

from __future__ import annotations

from collections.abc import Sequence

from core.document.differences import summed
from core.language import tr

SAVE, SAVE_ELSEWHERE, SAVE_OVER, TRY_AGAIN = tr("Save"), tr("Save elsewhere"), tr("Save over it"), tr("Try again")
STAY, LEAVE_WITHOUT, GO_ON_WITHOUT = tr("Stay"), tr("Leave without saving"), tr("Go on without saving")
TAKE_FILE, KEEP_MINE, SHOW_DIFFERENCES = tr("Take the file's"), tr("Keep mine"), tr("Show what differs")
KEEP_RECOVERED, AS_SAVED, LEAVE_OUT = tr("Keep"), tr("As it was saved"), tr("Leave it out")
OPEN_COPY, OPEN_ANYWAY = tr("Work on a copy"), tr("Go on all the same")
COPY_REPORT, SAVE_REPORT = tr("Copy a report"), tr("Write a report")
RECOVERED_STEP, FILES_STEP = tr("Recovered changes"), tr("Changes from the disk")


def unsaved(name: str) -> str:
    """Asked before changes would be lost."""
    if not name:
        return tr("The project has changes that are not saved.")
    return tr("The project “{name}” has changes that are not saved.", name=name)


def not_saved(why: str) -> str:
    """Saving did not go."""
    hints = {
        tr("no room left on the disk"): tr("Free some room and try again, or save it elsewhere"),
        tr("permission denied"): tr("Save it in a folder you may write to"),
        tr("the disk is read-only"): tr("Save it on another disk"),
        tr("no such file or folder"): tr("Its folder is gone: save it elsewhere"),
        tr("no such folder"): tr("Its folder is gone: save it elsewhere"),
    }
    hint = next((words for reason, words in hints.items() if why.endswith(reason)), tr("Save it elsewhere"))
    return tr("Not saved. {why}. {hint}; your work is kept until then.", why=why, hint=hint)


def kept_elsewhere(why: str, kept: bool) -> str:
    """The place beside the project cannot be written."""
    where = (
        tr("they are kept in the program's own folder")
        if kept
        else tr("they are kept nowhere yet: save them elsewhere now")
    )
    return tr("Changes cannot be kept beside the project ({why}); {where}.", why=why, where=where)


def recovered(name: str, at: str, phrases: Sequence[str], moved_on: bool) -> str:
    """Work of a window that ended without saving was found."""
    when = _when(at)
    since = tr(" The file itself was changed after that.") if moved_on else ""
    return tr(
        "Recovered: changes to {it} made{when} that were not saved. {summed}.{since}",
        it=name or tr("the project"),
        when=when,
        summed=summed(phrases),
        since=since,
    )


def recovered_new(name: str, at: str, shelves: int) -> str:
    """The same for work that never had a file."""
    count = tr("1 shelf") if shelves == 1 else tr("{shelves} shelves", shelves=shelves)
    return tr(
        "Recovered: {it}, {count}, worked on{when} and never saved in a file.",
        it=name or tr("a project"),
        count=count,
        when=_when(at),
    )


def _when(at: str) -> str:
    return tr(" at {at} on {at2}", at=at[11:16], at2=at[:10]) if len(at) >= 16 else ""


def changed_on_disk(name: str, phrases: Sequence[str] | None) -> str:
    """Something else wrote the project's file. phrases: what differs, None where it is no project any more."""
    if phrases is None:
        return tr("{name} was changed on the disk and is no project any more. Yours is still here.", name=name)
    return tr("{name} was changed on the disk. {summed}.", name=name, summed=summed(phrases))


def gone_from_disk(name: str) -> str:
    """The project's file is not there any more."""
    return tr("{name} is no longer on the disk. The project is still here: save it again, or elsewhere.", name=name)


def save_over(name: str) -> str:
    """Saving would write over what something else wrote."""
    return tr("{name} was changed on the disk since you opened it. Saving writes over that.", name=name)


def open_twice(name: str) -> str:
    """Another window has the project open."""
    return tr("{name} is open in another window too. Whoever saves last writes over the other's changes.", name=name)


def went_wrong(kept: bool) -> str:
    """An error nobody caught."""
    work = tr("Your work is kept") if kept else tr("Your work is still here: save it")
    return tr("Something went wrong in the program. {work}, and you can go on.", work=work)


REPORT_COPIED = tr("The report is copied. It has no names and no paths in it.")
NOTHING_DROPPED = tr("That is no Grainfold project.")

# The history board

HISTORY, STEPS, REVISIONS, DIFFERENCES = tr("History"), tr("Steps"), tr("Revisions"), tr("What differs")
OPENED, BEGUN = tr("As it was opened"), tr("As it was begun")
REVISION_NAME, KEEP_REVISION = tr("Name of the revision"), tr("Keep as a revision")
KEEP_REVISION_TIP = tr("Keep the project as it is now, under this name, in its own file. Prints carry the name.")
RESTORE, RESTORE_TIP = tr("Restore"), tr("Make the project what it was then. Undo takes that back.")
REMOVE, REMOVE_TIP = tr("Remove"), tr("Keep this revision no longer. Undo takes that back.")
CLOSE, CLOSE_TIP = tr("Close"), tr("Back to the sheet.")
AS_SAVED_LOWER, AS_BEGUN_LOWER = tr("as it was saved"), tr("as it was begun")
NOTHING_DIFFERS = tr("Nothing differs")


def undone(label: str) -> str:
    """A step that was taken back."""
    return tr("{label} (taken back)", label=label)


def revision_line(at: int, name: str, day: str, now: bool) -> str:
    """A revision in the list."""
    return f"{at + 1}, {name}, {day}" + (tr(": as it is now") if now else "")


def revision_called(at: int, name: str) -> str:
    """A revision within a sentence."""
    return tr("revision {at}, {name}", at=at + 1, name=name)


def differs_from(called: str) -> str:
    """Heading of the differences."""
    return tr("{DIFFERENCES} now from: {called}", DIFFERENCES=DIFFERENCES, called=called)


def history_summary(count: int, at: int) -> str:
    """Beside the board's name."""
    if not count:
        return tr("no revision kept yet")
    kept = tr("1 revision") if count == 1 else tr("{count} revisions", count=count)
    return (
        tr("{kept}; this is revision {at}", kept=kept, at=at + 1) if at >= 0 else tr("{kept}; changed since", kept=kept)
    )


def unnamed(number: int) -> str:
    """A revision nobody named."""
    return tr("revision {number}", number=number)


def keep_step(name: str) -> str:
    """Undo steps of the board."""
    return tr("Keep revision {name}", name=name)


def restore_step(name: str) -> str:
    """The same."""
    return tr("Restore revision {name}", name=name)


def remove_step(name: str) -> str:
    """The same."""
    return tr("Remove revision {name}", name=name)
