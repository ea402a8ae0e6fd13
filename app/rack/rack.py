"""What can be done with kept offcuts: keep those of the plan, use one, take one out; each with its way back."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, TypeVar

import msgspec
from PySide6.QtCore import QObject, Signal

from app.boards.words import counted
from app.bottomline import Answer, BottomLine
from app.rack.work import Work
from app.store import Store
from core.document.model import Project
from core.drawing.measure import clean
from core.drawing.names import size_text
from core.language import tr

if TYPE_CHECKING:  # nothing of it is needed before somebody asks for an offcut
    from app.offcuts import Kept, Listing, OffcutStore
    from core.offcuts.model import KeptOffcut

T = TypeVar("T")


class Rack(QObject):
    """The kept offcuts as the window knows them. The disk is touched beside the window, and not before it is asked.

    `changed`: the offcuts are others. What was done is said in the bottom line.
    """

    changed = Signal()

    def __init__(self, store: Store, line: BottomLine, parent: QObject, offcuts: OffcutStore | None = None) -> None:
        super().__init__(parent)
        self._store = store
        self._line = line
        self._offcuts = offcuts
        self._told: set[str] = set()
        self.work = Work(self)
        self.listing: tuple[KeptOffcut, ...] | None = None  # None: not read yet

    # Reading

    def read(self) -> None:
        """Look what is there."""
        self._do(lambda offcuts: None, lambda nothing: None)

    def offcut(self, name: str) -> KeptOffcut | None:
        """The one with that id."""
        return next((offcut for offcut in self.listing or () if offcut.id == name), None)

    def _do(self, job: Callable[[OffcutStore], T], then: Callable[[T], None], *, tell: bool = True) -> None:
        """Do a job in the store and look what is there after it; `then` comes when the new listing is shown.

        tell: say what is wrong with files; else that is left for the next time.
        """

        def whole() -> tuple[T, Listing]:
            if self._offcuts is None:
                from app.offcuts import OffcutStore

                self._offcuts = OffcutStore()
            outcome = job(self._offcuts)
            return outcome, self._offcuts.listing()

        def shown(done: tuple[T, Listing]) -> None:
            outcome, listing = done
            if listing.offcuts != self.listing:
                self.listing = listing.offcuts
                self.changed.emit()
            then(outcome)
            if tell:
                self._tell(listing.said)

        self.work.do(whole, shown, self._failed)

    def _tell(self, said: tuple[str, ...]) -> None:
        """What is wrong with files of the store, once."""
        fresh = [sentence for sentence in said if sentence not in self._told]
        self._told.update(fresh)
        if fresh:
            more = tr(" {counted} too.", counted=counted(len(fresh) - 1, tr("more file"))) if len(fresh) > 1 else ""
            self._line.say("warning", clean(fresh[0]) + more)

    def _failed(self, error: Exception) -> None:
        from app.offcuts import OffcutStoreError

        if not isinstance(error, OffcutStoreError):
            raise error
        self._line.say("error", clean(str(error)))
        self._do(lambda offcuts: None, lambda nothing: None, tell=False)

    # Keeping

    def keep(self) -> None:
        """Keep the offcuts of the plan; those it is cut from are used up."""
        self._store.planner.catch_up()
        plan = self._store.planner.plan  # not that of a way out which is only previewed
        if not plan.offcuts:
            self._line.say("note", tr("This plan leaves nothing worth keeping."))
            return
        self._do(lambda offcuts: offcuts.keep(plan), self._say_kept)

    def _say_kept(self, kept: Kept) -> None:
        answers = []
        if kept.new or kept.used:
            answers.append(Answer("answer_unkeep", tr("Undo"), lambda: self._unkeep(kept)))
        if kept.stale:
            word = counted(len(kept.stale), tr("older one"))
            answers.append(
                Answer("answer_stale", tr("Take out {word}", word=word), lambda: self._remove_all(kept.stale))
            )
        self._line.say("note", self._kept_words(kept), answers)

    def _kept_words(self, kept: Kept) -> str:
        used = (
            tr(" {names} {rest} used up.", names=_names(kept.used), rest="is" if len(kept.used) == 1 else "are")
            if kept.used
            else ""
        )
        older, are = counted(len(kept.stale), "offcut"), "is" if len(kept.stale) == 1 else "are"
        stale = tr(" {older} kept before {are} no longer in it.", older=older, are=are) if kept.stale else ""
        if not kept.new:
            one = tr("its offcut is") if kept.known == 1 else tr("its {known} offcuts are", known=kept.known)
            return tr(
                "Nothing new to keep of this plan: {one} in the rack already.{used}{stale}",
                one=one,
                used=used,
                stale=stale,
            )
        new, largest = counted(len(kept.new), "offcut"), self._size(kept.new[0])
        return tr(
            "Kept {new} of this plan, the largest {largest}.{used}{stale}",
            new=new,
            largest=largest,
            used=used,
            stale=stale,
        )

    def _unkeep(self, kept: Kept) -> None:
        word = counted(len(kept.new), "offcut")
        self._do(
            lambda offcuts: offcuts.unkeep(kept),
            lambda nothing: self._line.say(
                "fine", tr("{word} taken out again.", word=word) if kept.new else tr("It is there again.")
            ),
        )

    # Taking out

    def remove(self, name: str) -> None:
        """It is in the rack no more."""
        if (offcut := self.offcut(name)) is not None:
            self._remove_all((offcut,))

    def _remove_all(self, gone: tuple[KeptOffcut, ...]) -> None:
        def remove(offcuts: OffcutStore) -> None:
            for offcut in gone:
                offcuts.remove(offcut.id)

        back = Answer(
            "answer_put_back", tr("Put it back") if len(gone) == 1 else tr("Put them back"), lambda: self._back(gone)
        )
        words = (
            tr("{names}, {size}, is", names=_names(gone), size=self._size(gone[0]))
            if len(gone) == 1
            else tr("{names} are", names=_names(gone))
        )
        self._do(remove, lambda nothing: self._line.say("note", tr("{words} out of the rack.", words=words), (back,)))

    def _back(self, gone: tuple[KeptOffcut, ...]) -> None:
        def put_back(offcuts: OffcutStore) -> None:
            for offcut in gone:
                offcuts.put_back(offcut.id)

        word = "is" if len(gone) == 1 else "are"
        self._do(
            put_back,
            lambda nothing: self._line.say(
                "fine", tr("{names} {word} in the rack again.", names=_names(gone), word=word)
            ),
        )

    # Using

    def describe(self, name: str, face: str) -> None:
        """Say what its face is like."""
        offcut = self.offcut(name)
        if offcut is not None and face != offcut.face:
            changed = msgspec.structs.replace(offcut, face=face)
            self._do(lambda offcuts: offcuts.change(changed), lambda nothing: None)

    def in_project(self, offcut: KeptOffcut) -> bool:
        """Is it among the project's sheets already?"""
        return self._sheet_of(offcut) is not None

    def _sheet_of(self, offcut: KeptOffcut) -> str | None:
        from core.offcuts.rules import is_sheet_of

        return next((sheet.id for sheet in self._store.project.sheets if is_sheet_of(sheet, offcut)), None)

    def use(self, name: str) -> bool:
        """Make it a sheet of the project, as one step; trimmed as the first is. Returns whether the project has it."""
        offcut = self.offcut(name)
        if offcut is None:
            return False
        if (known := self._sheet_of(offcut)) is not None:
            self._store.choose_stock(known)
            self._line.say("note", tr("{id} is a sheet of this project already.", id=offcut.id))
            return True

        def add(project: Project) -> Project:
            from core.offcuts.rules import as_sheet

            sheet = as_sheet(offcut, {sheet.id for sheet in project.sheets}, project.sheets[0].trim)
            return msgspec.structs.replace(project, sheets=(*project.sheets, sheet))

        self._store.apply(tr("Use {id}", id=offcut.id), add)
        self._store.choose_stock(self._store.project.sheets[-1].id)
        answer = Answer("answer_unuse", tr("Undo"), self._store.undo)
        self._line.say(
            "fine",
            tr("{id}, {size}, is a sheet of this project now.", id=offcut.id, size=self._size(offcut)),
            (answer,),
        )
        return True

    def _size(self, offcut: KeptOffcut) -> str:
        return size_text(offcut.length, offcut.width, self._store.unit, rounding="down")


def _names(offcuts: tuple[KeptOffcut, ...]) -> str:
    """Like 'offcut-1, offcut-4 and 3 more'."""
    names = [offcut.id for offcut in offcuts]
    return (
        ", ".join(names)
        if len(names) <= 3
        else tr("{join} and {names} more", join=", ".join(names[:2]), names=len(names) - 2)
    )
