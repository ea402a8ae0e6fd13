"""The words of the list of actions, and of the guide."""

from __future__ import annotations

from core.language import tr

FIND, FIND_HINT = tr("What can be done"), tr("Type what you want to do")
NOTHING_FOUND = tr("Nothing is called so")
NOT_NOW = tr("not now")

GUIDE_OF = tr("Step {at} of {count}")
NEXT, BACK, END_GUIDE, DONE = tr("Next"), tr("Back"), tr("End the guide"), tr("Done")

# Title and words of each step of the guide; what it points at is in `app.reach.guide`.
GUIDE = (
    (
        tr("What you want"),
        tr(
            "The wall shows the shelves as they will hang. Pull a square handle, or click a shelf "
            "and type its length, depth and height in the rule at the left."
        ),
    ),
    (
        tr("What it becomes"),
        tr(
            "The fold shows one shelf as it closes up, with the grain running on round each mitred "
            "edge. Pull the slider to open it flat and shut it again."
        ),
    ),
    (
        tr("What it comes from"),
        tr(
            "The sheet shows where each unfolded net lies, and what is left over. Measure your own "
            "sheet and type its real thickness under Sheet: the bevels need it."
        ),
    ),
    (
        tr("What stands in the way"),
        tr(
            "The line at the bottom says the worst trouble in plain words. Its round buttons are "
            "ways out: rest the pointer on one to see what it would do, press it to take it. Undo "
            "takes it back."
        ),
    ),
    (
        tr("What you saw by"),
        tr(
            "Print shows the pages for the bench. Cut steps, on the sheet's heading, goes through "
            "every cut on the screen. Save the project first: it is kept in a file of your own."
        ),
    ),
)
