"""Help on a board, in the sheet's place; on the sheet itself, in the fold's."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QTextBrowser

from app.boards.board import Board
from app.reach.help_words import PAGES, page
from app.store import Store
from app.theme import Theme
from app.theme.type import LEAD, font
from core.language import tr, within


class HelpBoard(Board):
    """One page. `close_asked` brings the board back that was there."""

    close_asked = Signal()

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("help", tr("Help"), store, theme)
        self._text = QTextBrowser(self)
        self._text.setObjectName("help_text")
        self._text.setAccessibleName(tr("Help"))
        self._text.document().setDefaultFont(font(LEAD))
        self._text.setFont(font(LEAD))
        self._text.setOpenLinks(False)
        self.add_tool(self.tool("close", tr("Close"), tr("Back to the board."), self.close_asked.emit))
        self.set_content(self._text)
        self._topic = ""

    @property
    def topic(self) -> str:
        """Key of the board it is about."""
        return self._topic

    def show_topic(self, key: str) -> None:
        """Show the page of this board."""
        self._topic = key
        self._text.setHtml(page(key))
        self._text.setAccessibleDescription(self._text.toPlainText())
        self.subtitle.set_words(tr("on {get}", get=within(PAGES.get(key, PAGES["sheet"])[0])))
