"""What of a shelf is cut apart from its net: a strip from another board, an end from an offcut."""

from __future__ import annotations

from app.rule.choices import Toggles
from app.rule.rows import BoundSection
from app.rule.subject import ShelfSubject
from core.document.apart import may_be_apart
from core.document.model import APART, Shelf
from core.language import tr

STRIP_TIP = tr("A piece of its own, wherever there is room. Its colour matches, but its figure is broken at the seam.")
END_TIP = tr("From an offcut, wherever there is room. Its colour matches, but its figure is broken at the corner.")


def add_apart(section: BoundSection, subject: ShelfSubject) -> None:
    """Top and bottom, and where there are ends these too, each cut with the net or apart."""
    pieces = _Pieces(subject)
    strips = Toggles("shelf_apart", (("top", "top"), ("bottom", "bottom")))
    ends = Toggles("shelf_ends_apart", (("left", "left"), ("right", "right")))
    for control, label in ((strips, tr("Cut apart")), (ends, tr("Ends apart"))):
        control.set_name(label)
        control.switched.connect(pieces.switch)
    section.add(tr("Cut apart"), strips, STRIP_TIP)
    row = section.add(tr("Ends apart"), ends, END_TIP)

    def show(_fresh: bool) -> None:
        row.setVisible(pieces.shelf.mitred_ends > 0)
        for control in (strips, ends):
            control.show_values(pieces.shelf.apart, pieces.possible())

    section.listen(show)


class _Pieces:
    """The panels of the selected shelf that are cut apart."""

    def __init__(self, subject: ShelfSubject) -> None:
        self._subject = subject

    @property
    def shelf(self) -> Shelf:
        shelf = self._subject.value
        assert shelf is not None
        return shelf

    def possible(self) -> list[str]:
        """What can be cut apart as the shelf is."""
        return [role for role in APART if may_be_apart(self.shelf, role)]

    def switch(self, role: str) -> None:
        """Cut it apart, or with the net again."""
        self._subject.store.end_run()
        wanted = set(self.shelf.apart) ^ {role}
        self._subject.change(tr("Cut apart"), {"apart": tuple(one for one in APART if one in wanted)})
