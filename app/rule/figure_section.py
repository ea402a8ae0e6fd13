"""The face that is made up for a sheet until there is a photograph of it: how its veneer was cut, and from what."""

from __future__ import annotations

from typing import Final

import msgspec

from app.rule.choices import Choice
from app.rule.reading import Count
from app.rule.rows import BoundSection
from app.rule.subject import StockSubject, Subject
from app.store import Store
from app.theme import Theme
from core.document.model import Figure, Project
from core.language import tr
from core.lengths import Unit

CUTS: Final = (
    ("plain", "plain-sliced"),
    ("rift", "rift"),
    ("quartered", "quartered"),
    ("rotary", "rotary"),
)
WOODS: Final = tuple((wood, wood) for wood in ("oak", "birch", "walnut", "maple", "cherry"))
CUT_TIP: Final = tr(
    "Rift and quartered run straight and hide what a seam loses; plain-sliced shows cathedrals; rotary wanders."
)


class LogNumber(Count):
    """A whole number that may be left empty."""

    def read(self, text: str, unit: Unit) -> float | int | None:
        return super().read(text, unit) if text.strip() else None

    def show(self, value: float | int | None, unit: Unit) -> str:
        return "" if value is None else super().show(value, unit)


class FigureSubject(Subject[Figure]):
    """The made-up face of the kind of sheet that is shown."""

    def __init__(self, store: Store) -> None:
        super().__init__(store)
        self._stock = StockSubject(store)

    @property
    def value(self) -> Figure:
        return self._stock.value.figure

    @property
    def shown(self) -> object:
        return self.store.stock.id, self.value, bool(self.store.stock.photos)

    @property
    def pointer(self) -> str:
        return f"{self._stock.pointer}/figure"

    def put(self, project: Project, value: Figure) -> Project:
        return self._stock.put(project, msgspec.structs.replace(self._stock.value, figure=value))

    def label(self, what: str) -> str:
        return self._stock.label(what)


class FigureSection(BoundSection):
    """Cut, wood, match and number of the log."""

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("figure", theme, FigureSubject(store))
        self._store, self._theme = store, theme
        self._choice(
            "wood", tr("Wood"), WOODS, tr("Whose pores and colours are drawn. A look only: it changes no number.")
        )
        self._choice("cut", tr("Cut"), CUTS, CUT_TIP)
        tip = tr("Book: leaves turned over like pages, mirrored at each joint. Slip: laid side by side, repeated.")
        self.segments("match", tr("Leaves"), (("book", "book"), ("slip", "slip")), tip)
        self.number(
            "seed",
            tr("Log"),
            LogNumber(),
            tr("Another number is another log. Empty: each sheet has its own."),
            tr("its own"),
        )

    def _choice(self, name: str, label: str, options: tuple[tuple[str, str], ...], tip: str) -> None:
        control = Choice(f"figure_{name}", self._theme)
        control.setAccessibleName(label)

        def pick(key: str) -> None:
            self._store.end_run()
            self.subject.change(label, {name: key})

        control.chosen.connect(pick)
        self.add(label, control, tip)
        self.listen(lambda _fresh: control.offer(options, getattr(self.subject.value, name)))

    def title(self) -> str:
        return tr("Face of sheet {id}", id=self._store.stock.id)

    def summary(self) -> str:
        figure = self._store.stock.figure
        if self._store.stock.photos:
            return tr("photographed")
        return f"{tr(dict(CUTS)[figure.cut])} {tr(figure.wood)}"
