"""The maker's saws at the top of the saw's section: choose one for this project, keep this one, rename, remove."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

import msgspec
from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from app.rack.work import Work
from app.rule.choices import Choice
from app.rule.edits import free_name
from app.rule.section import Row
from app.store import Store
from app.theme import Theme
from core.document.model import Project, Saw
from core.language import tr

if TYPE_CHECKING:  # nothing of it is needed before the section is looked at
    from app.saws import SawStore

LABELS: Final = {  # of the fields, as the section's rows have them
    "kind": "kind",
    "lean": "foot leans",
    "kerf": "kerf",
    "overcut": "overcut",
    "bevel_sd": "bevel spread",
    "allowance": "clean-up",
    "tilt_max": "greatest tilt",
    "depth_at_bevel": "reach",
    "face": "show face",
    "guide_length": "guide length",
    "guide_width": "guide width",
    "guide_offset": "toe from guide",
    "fence_travel": "fence travel",
}
TOLD: Final = 3  # fields that are named; more are counted


def changed_words(saw: Saw, kept: Saw) -> str:
    """What differs from the saw that was kept, in words; '' for nothing."""
    fields = [words for key, words in LABELS.items() if getattr(saw, key) != getattr(kept, key)]
    if not fields:
        return ""
    named = ", ".join(fields[:TOLD]) + (
        tr(" and {fields} more", fields=len(fields) - TOLD) if len(fields) > TOLD else ""
    )
    return tr("Changed since it was kept: {named}.", named=named)


class _Name(QLineEdit):
    """A name asked for: Enter takes it, Escape gives it up."""

    given_up = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()
            return
        super().keyPressEvent(event)


class SawProfiles(QWidget):
    """Reads the store when it is looked at, beside the window. What goes wrong is said below."""

    def __init__(self, store: Store, theme: Theme, parent: QWidget, saws: SawStore | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("saw_profiles")
        self.saws = saws
        self.work = Work(self)
        self.listing: tuple[Saw, ...] | None = None  # None: not read yet
        self._store = store
        self._wrong = ""
        self._removed: Saw | None = None
        self._take_name: Callable[[str], None] = self._keep_as
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 2)
        column.setSpacing(5)
        self._choice = Choice("saw_profile", theme, self)
        self._choice.setAccessibleName(tr("Saw"))
        self._choice.chosen.connect(self._choose)
        column.addWidget(
            Row(tr("This saw"), self._choice, theme, tr("One of the saws you keep, for all your projects."), self)
        )
        self._name = _Name(self)
        self._name.setObjectName("saw_profile_name")
        self._name.setAccessibleName(tr("Name of the saw"))
        self._name.returnPressed.connect(self._named)
        self._name.given_up.connect(self._give_up)
        self._name_row = Row(tr("Its name"), self._name, theme, tr("Enter keeps it, Escape leaves it."), self)
        self._name_row.hide()
        column.addWidget(self._name_row)
        self._said = QLabel(self)
        self._said.setObjectName("saw_profile_said")
        self._said.setWordWrap(True)
        column.addWidget(self._said)
        self._buttons = self._make_buttons(column)

    def _make_buttons(self, column: QVBoxLayout) -> dict[str, QPushButton]:
        made: dict[str, QPushButton] = {}
        for row in (
            (
                ("update", tr("Keep the change"), self._update, tr("The kept saw becomes as this one is.")),
                ("revert", tr("As it was kept"), self._revert, tr("This project's saw becomes as it was kept.")),
                ("restore", tr("Put it back"), self._restore, tr("Keep it again.")),
            ),
            (
                ("keep", tr("Keep this saw"), self._ask_keep, tr("Under a name, for all your projects.")),
                ("rename", tr("Rename"), self._ask_rename, tr("Call the kept saw something else.")),
                ("remove", tr("Remove"), self._remove, tr("Keep it no longer. This project's saw stays as it is.")),
            ),
        ):
            line = QHBoxLayout()
            line.setContentsMargins(0, 0, 0, 0)
            line.setSpacing(2)
            line.addStretch(1)
            for name, word, action, tip in row:
                button = QPushButton(word, self)
                button.setObjectName(f"saw_profile_{name}")
                button.setProperty("look", "quiet")
                button.setToolTip(tip)
                button.clicked.connect(action)
                line.addWidget(button)
                made[name] = button
            column.addLayout(line)
        return made

    # The disk

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.read()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isVisible() and self.isActiveWindow():
            self.read()  # another window may have changed it meanwhile

    def read(self) -> None:
        """Look what is there."""
        self._do(lambda saws: saws.listing(), lambda: None)

    def _do(self, job: Callable[[SawStore], tuple[Saw, ...]], then: Callable[[], None]) -> None:
        def whole() -> tuple[Saw, ...]:
            if self.saws is None:
                from app.saws import SawStore

                self.saws = SawStore()
            return job(self.saws)

        def shown(listing: tuple[Saw, ...]) -> None:
            self._wrong = ""
            self.listing = listing
            then()
            self.refresh()

        self.work.do(whole, shown, self._failed)

    def _failed(self, error: Exception) -> None:
        from app.saws import SawStoreError

        if not isinstance(error, SawStoreError):
            raise error
        self._wrong = str(error)
        self.refresh()

    # What there is

    @property
    def kept(self) -> Saw | None:
        """The kept saw that the project's says it is."""
        name = self._store.project.saw.name
        return next((saw for saw in self.listing or () if saw.name == name), None)

    def refresh(self) -> None:
        """Show the project's saw among the kept ones."""
        saw, kept = self._store.project.saw, self.kept
        options = [(other.name, other.name) for other in self.listing or ()]
        if kept is None:
            words = saw.name if self.listing is None else tr("{it}, not kept", it=saw.name or tr("this one"))
            options.insert(0, ("", words))
        self._choice.offer(options, saw.name if kept else "")
        changed = changed_words(saw, kept) if kept else ""
        restore = self._removed is not None and not self._wrong and not changed
        words = self._wrong or changed
        if restore and self._removed is not None:
            words = tr("{name} is kept no longer.", name=self._removed.name)
        self._said.setProperty("role", "reason" if self._wrong else "soft")
        self._said.style().polish(self._said)
        self._said.setText(words)
        self._said.setVisible(bool(words))
        shown = {
            "update": bool(changed),
            "revert": bool(changed),
            "restore": restore,
            "keep": True,
            "rename": kept is not None,
            "remove": kept is not None,
        }
        for name, button in self._buttons.items():
            button.setVisible(shown[name])
        self._buttons["keep"].setText(tr("Keep as …") if kept else tr("Keep this saw"))

    # What is done

    def _apply(self, label: str, change: Callable[[Saw], Saw]) -> None:
        """One step of undo that changes the project's saw."""

        def changed(project: Project) -> Project:
            return msgspec.structs.replace(project, saw=change(project.saw))

        self._store.end_run()
        self._store.apply(label, changed)
        self._store.end_run()

    def _choose(self, name: str) -> None:
        kept = next((saw for saw in self.listing or () if saw.name == name), None)
        if kept is not None:
            self._removed = None
            self._apply(tr("Saw {name}", name=name), lambda _saw: kept)

    def _ask(self, suggestion: str, take: Callable[[str], None]) -> None:
        self._take_name = take
        self._name.setText(suggestion)
        self._name_row.show_reason("")
        self._name_row.show()
        self._name.setFocus(Qt.FocusReason.OtherFocusReason)
        self._name.selectAll()

    def _give_up(self) -> None:
        self._name_row.hide()
        self._choice.setFocus(Qt.FocusReason.OtherFocusReason)

    def _named(self) -> None:
        from core.saws.form import name_complaint

        name = self._name.text().strip()
        complaint = name_complaint(name)
        if complaint is None and any(saw.name == name for saw in self.listing or ()):
            complaint = tr("is that of a saw you keep already")
        self._name_row.show_reason(tr("The name {complaint}.", complaint=complaint) if complaint else "")
        if complaint is None:
            self._give_up()
            self._take_name(name)

    def _ask_keep(self) -> None:
        saw = self._store.project.saw
        wanted = saw.name or (tr("Table saw") if saw.kind == "table" else tr("Guided saw"))
        self._ask(free_name(wanted, {other.name for other in self.listing or ()}), self._keep_as)

    def _keep_as(self, name: str) -> None:
        saw = msgspec.structs.replace(self._store.project.saw, name=name)
        self._removed = None
        self._do(lambda saws: saws.keep(saw), lambda: self._call_it(tr("Keep saw {name}", name=name), name))

    def _call_it(self, label: str, name: str) -> None:
        self._apply(label, lambda saw: msgspec.structs.replace(saw, name=name))

    def _ask_rename(self) -> None:
        old = self._store.project.saw.name

        def rename(new: str) -> None:
            self._do(lambda saws: saws.rename(old, new), lambda: self._call_it(tr("Rename saw {old}", old=old), new))

        self._ask(old, rename)

    def _remove(self) -> None:
        kept = self.kept
        if kept is not None:

            def told() -> None:
                self._removed = kept

            self._do(lambda saws: saws.remove(kept.name), told)

    def _restore(self) -> None:
        gone, self._removed = self._removed, None
        if gone is not None:
            self._do(lambda saws: saws.keep(gone), lambda: None)

    def _update(self) -> None:
        saw = self._store.project.saw
        self._do(lambda saws: saws.keep(saw), lambda: None)

    def _revert(self) -> None:
        kept = self.kept
        if kept is not None:
            self._apply(tr("Saw {name} as it was kept", name=kept.name), lambda _saw: kept)
