"""What is said of files and of the safety of the work."""

from __future__ import annotations

from collections.abc import Sequence

from core.document.differences import summed

SAVE, SAVE_ELSEWHERE, SAVE_OVER, TRY_AGAIN = "Save", "Save elsewhere", "Save over it", "Try again"
STAY, LEAVE_WITHOUT, GO_ON_WITHOUT = "Stay", "Leave without saving", "Go on without saving"
TAKE_FILE, KEEP_MINE, SHOW_DIFFERENCES = "Take the file's", "Keep mine", "Show what differs"
KEEP_RECOVERED, AS_SAVED, LEAVE_OUT = "Keep", "As it was saved", "Leave it out"
OPEN_COPY, OPEN_ANYWAY = "Work on a copy", "Go on all the same"
COPY_REPORT, SAVE_REPORT = "Copy a report", "Write a report"
RECOVERED_STEP, FILES_STEP = "Recovered changes", "Changes from the disk"


def unsaved(name: str) -> str:
    """Asked before changes would be lost."""
    return f"{name or 'The project'} has changes that are not saved."


def not_saved(why: str) -> str:
    """Saving did not go."""
    hints = {
        "no room left on the disk": "Free some room and try again, or save it elsewhere",
        "permission denied": "Save it in a folder you may write to",
        "the disk is read-only": "Save it on another disk",
        "no such file or folder": "Its folder is gone: save it elsewhere",
        "no such folder": "Its folder is gone: save it elsewhere",
    }
    hint = next((words for reason, words in hints.items() if why.endswith(reason)), "Save it elsewhere")
    return f"Not saved. {why}. {hint}; your work is kept until then."


def kept_elsewhere(why: str, kept: bool) -> str:
    """The place beside the project cannot be written."""
    where = (
        "they are kept in the program's own folder" if kept else "they are kept nowhere yet: save them elsewhere now"
    )
    return f"Changes cannot be kept beside the project ({why}); {where}."


def recovered(name: str, at: str, phrases: Sequence[str], moved_on: bool) -> str:
    """Work of a window that ended without saving was found."""
    when = _when(at)
    since = " The file itself was changed after that." if moved_on else ""
    return f"Recovered: changes to {name or 'the project'} made{when} that were not saved. {summed(phrases)}.{since}"


def recovered_new(name: str, at: str, shelves: int) -> str:
    """The same for work that never had a file."""
    count = "1 shelf" if shelves == 1 else f"{shelves} shelves"
    return f"Recovered: {name or 'a project'}, {count}, worked on{_when(at)} and never saved in a file."


def _when(at: str) -> str:
    return f" at {at[11:16]} on {at[:10]}" if len(at) >= 16 else ""


def changed_on_disk(name: str, phrases: Sequence[str] | None) -> str:
    """Something else wrote the project's file. phrases: what differs, None where it is no project any more."""
    if phrases is None:
        return f"{name} was changed on the disk and is no project any more. Yours is still here."
    return f"{name} was changed on the disk. {summed(phrases)}."


def gone_from_disk(name: str) -> str:
    """The project's file is not there any more."""
    return f"{name} is no longer on the disk. The project is still here: save it again, or elsewhere."


def save_over(name: str) -> str:
    """Saving would write over what something else wrote."""
    return f"{name} was changed on the disk since you opened it. Saving writes over that."


def open_twice(name: str) -> str:
    """Another window has the project open."""
    return f"{name} is open in another window too. Whoever saves last writes over the other's changes."


def went_wrong(kept: bool) -> str:
    """An error nobody caught."""
    work = "Your work is kept" if kept else "Your work is still here: save it"
    return f"Something went wrong in the program. {work}, and you can go on."


REPORT_COPIED = "The report is copied. It has no names and no paths in it."
NOTHING_DROPPED = "That is no Grainfold project."

# The history board

HISTORY, STEPS, REVISIONS, DIFFERENCES = "History", "Steps", "Revisions", "What differs"
OPENED, BEGUN = "As it was opened", "As it was begun"
REVISION_NAME, KEEP_REVISION = "Name of the revision", "Keep as a revision"
KEEP_REVISION_TIP = "Keep the project as it is now, under this name, in its own file. Prints carry the name."
RESTORE, RESTORE_TIP = "Restore", "Make the project what it was then. Undo takes that back."
REMOVE, REMOVE_TIP = "Remove", "Keep this revision no longer. Undo takes that back."
CLOSE, CLOSE_TIP = "Close", "Back to the sheet."
AS_SAVED_LOWER, AS_BEGUN_LOWER = "as it was saved", "as it was begun"
NOTHING_DIFFERS = "Nothing differs"


def undone(label: str) -> str:
    """A step that was taken back."""
    return f"{label} (taken back)"


def revision_line(at: int, name: str, day: str, now: bool) -> str:
    """A revision in the list."""
    return f"{at + 1}, {name}, {day}" + (": as it is now" if now else "")


def revision_called(at: int, name: str) -> str:
    """A revision within a sentence."""
    return f"revision {at + 1}, {name}"


def differs_from(called: str) -> str:
    """Heading of the differences."""
    return f"{DIFFERENCES} now from: {called}"


def history_summary(count: int, at: int) -> str:
    """Beside the board's name."""
    if not count:
        return "no revision kept yet"
    kept = "1 revision" if count == 1 else f"{count} revisions"
    return f"{kept}; this is revision {at + 1}" if at >= 0 else f"{kept}; changed since"


def unnamed(number: int) -> str:
    """A revision nobody named."""
    return f"revision {number}"


def keep_step(name: str) -> str:
    """Undo steps of the board."""
    return f"Keep revision {name}"


def restore_step(name: str) -> str:
    """The same."""
    return f"Restore revision {name}"


def remove_step(name: str) -> str:
    """The same."""
    return f"Remove revision {name}"
