"""Choosing which figure lands on which shelf: what the window's actions for it do, and the question they may ask."""

from __future__ import annotations

from functools import partial
from typing import Final

from app.bottomline.line import Answer, BottomLine
from app.rule.nets import partners, swap, turn
from app.store import Store
from core.drawing.names import shelf_letters
from core.language import tr

MOST: Final = 6  # of shelves that are offered by name


class Choosing:
    """Turns nets and swaps them; where it is not clear with which, the bottom line asks."""

    def __init__(self, store: Store, line: BottomLine) -> None:
        self._store, self._line = store, line

    def turn(self) -> None:
        """The selected nets, end for end."""
        if self._store.held is None:
            turn(self._store)

    def swap(self) -> None:
        """The selected net with the one other there is, or with one that is asked for."""
        store, shelf = self._store, self._store.shelf
        if shelf is None or store.held is not None:
            return
        others = partners(store)
        letters = shelf_letters(store.plan)
        if not others:
            self._line.say("note", tr("There is no other net that {id} could swap places with.", id=shelf.id))
        elif len(others) == 1:
            self._with(others[0])
        else:
            answers = [Answer(f"swap_{letters[one]}", letters[one], partial(self._with, one)) for one in others[:MOST]]
            self._line.say("note", tr("Swap the place of {letter} with which?", letter=letters[shelf.id]), answers)

    def _with(self, other: str) -> None:
        self._line.clear_message()
        if why := swap(self._store, other):
            self._line.say("note", tr("They cannot swap places: {why}.", why=why))
