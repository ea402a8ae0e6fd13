"""The bottom line: the worst finding in plain words with its ways out, or a question, or what was just done.

A question stands before a message, a message before the findings. Nothing pops up: the list of all findings opens
right above the line.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QPoint, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QContextMenuEvent, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from app.bottomline.findings_list import FindingsList, Said
from app.bottomline.nominal_list import NominalList
from app.bottomline.pill import Looking, pill
from app.bottomline.sentence import Sentence
from app.theme import Theme
from app.theme.icons import icon
from app.theme.marks import Mark, Tone
from app.theme.type import LEAD, font
from core.findings.nominal import Nominal, nominal_words
from core.language import tr
from core.plan.model import Fix

HEIGHT = 56
MOST_PILLS = 3
MOST_BESIDE_PROOF = 1  # pills that leave room for it
MESSAGE_MS = 7000  # what is well goes by itself
# Object name, words, what it does, and who hears that it is looked at.
Pill = tuple[str, str, Callable[[], None], Looking | None]


@dataclass(frozen=True)
class Answer:
    """A way out of a question or message: words and what they do."""

    name: str
    words: str
    action: Callable[[], None]


class BottomLine(QWidget):
    """`fix_asked` carries a Fix, `about_asked` the id of what a finding is about. `findings_list` goes above it.

    `fix_looked` carries the Fix that is looked at, None when that is over. `menu_asked`: a finding, what it is about in
    words, and where on the screen a menu for it is wanted.
    """

    fix_asked = Signal(object)
    fix_looked = Signal(object)
    about_asked = Signal(str)
    menu_asked = Signal(object, str, QPoint)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bottom_line")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFixedHeight(HEIGHT)
        self._theme = theme
        self._said: Said = ()
        self._calm = ""
        self._checked = True
        self._is_nominal = False
        self._question: tuple[str, Sequence[Answer]] | None = None
        self._message: tuple[Tone, str, Sequence[Answer]] | None = None
        self._shown: object = None
        self._pills: list[QPushButton] = []
        self._fade = QTimer(self, singleShot=True, interval=MESSAGE_MS)
        self._fade.timeout.connect(self.clear_message)
        self.findings_list = FindingsList(theme, parent)
        self.findings_list.fix_asked.connect(self.fix_asked)
        self.findings_list.fix_looked.connect(self.fix_looked)
        self.findings_list.about_asked.connect(self.about_asked)
        self.findings_list.menu_asked.connect(self.menu_asked)
        self.nominal_list = NominalList(theme, parent)
        self._mark = Mark(theme, "fine", 22, self)
        self._sentence = Sentence("bottom_sentence", font(LEAD, strong=True), theme, self)
        self._sentence.clicked.connect(self._sentence_clicked)
        self._more = QPushButton(self)
        self._more.setObjectName("more_to_read")
        self._more.setProperty("look", "quiet")
        self._more.clicked.connect(self.toggle_list)
        self._nominal = QPushButton(self)
        self._nominal.setObjectName("still_nominal")
        self._nominal.setProperty("look", "quiet")
        self._nominal.setIcon(icon("check", theme, "chalk"))
        self._nominal.clicked.connect(self.toggle_nominal)
        self._nominal.hide()
        self._proof = QLabel(self)
        self._proof.setObjectName("proof")
        self._proof.setProperty("role", "soft")
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(18, 0, 12, 0)
        self._row.setSpacing(8)
        self._row.addWidget(self._mark)
        self._row.addWidget(self._sentence)
        self._row.addStretch(1)
        self._row.addWidget(self._proof)
        self._row.addWidget(self._nominal)
        self._row.addWidget(self._more)
        theme.changed.connect(self.update)

    # What it says

    @property
    def text(self) -> str:
        """The words that stand there now."""
        return self._sentence.text()

    @property
    def tone(self) -> Tone:
        """The mark beside them."""
        return self._mark.tone

    @property
    def asking(self) -> bool:
        """Does a question wait for its answer?"""
        return self._question is not None

    def show_findings(self, said: Said, calm: str, checked: bool = True) -> None:
        """The plan's findings, worst first; calm: what to say when there is none to act on.

        checked: False where there was nothing to check.
        """
        self._said, self._calm, self._checked = said, calm, checked
        self.findings_list.show_findings(said)
        self._show()

    def show_nominal(self, found: tuple[Nominal, ...]) -> None:
        """What is still nominal: a quiet word that opens the list of it."""
        self._is_nominal = bool(found)
        self._nominal.setText(tr("{count} still nominal", count=len({one.word for one in found})))
        self._nominal.setToolTip(nominal_words(found))
        self.nominal_list.show_found(found)
        self._show_proof_too()

    def show_proof(self, words: str) -> None:
        """What is known of the layout: said quietly, where nothing else needs the room; '' says nothing."""
        self._proof.setText(words)
        self._show_proof_too()

    def _show_proof_too(self) -> None:
        free = self._question is None and self._message is None and len(self._pills) <= MOST_BESIDE_PROOF
        self._proof.setVisible(free and bool(self._proof.text()))
        self._nominal.setVisible(free and self._is_nominal)

    def say(self, tone: Tone, text: str, answers: Sequence[Answer] = ()) -> None:
        """Tell what was done, or what went wrong. What is well goes by itself, trouble stays until the next edit."""
        self._message = (tone, text, answers)
        self._fade.stop()
        if tone == "fine":
            self._fade.start()
        self._show()

    def clear_message(self) -> None:
        """Back to the findings."""
        self._fade.stop()
        if self._message is not None:
            self._message = None
            self._show()

    def ask(self, text: str, answers: Sequence[Answer]) -> None:
        """Ask, and wait for one of the answers; the last one is what Escape means."""
        self._question = (text, answers)
        self._show()
        if self._pills:
            self._pills[0].setFocus(Qt.FocusReason.TabFocusReason)

    def _answered(self, answer: Answer) -> None:
        self._question = None
        self._show()
        answer.action()

    # How it says it

    def _show(self) -> None:
        state = (self._question, self._message, self._said, self._calm, self._checked)
        if state == self._shown:
            return
        self._shown = state
        pills: list[Pill] = []
        if self._question is not None:
            text, answers = self._question
            pills = [(a.name, a.words, partial(self._answered, a), None) for a in answers]
            self._put("question", text, pills)
        elif self._message is not None:
            tone, text, answers = self._message
            self._put(tone, text, [(a.name, a.words, a.action, None) for a in answers])
        elif self._worst_said():
            worst, place = self._said[0]
            named = not place or worst.about.partition("/")[0] in worst.message
            text = worst.message if named else f"{place}: {worst.message}"
            for at, fix in enumerate(worst.fixes[:MOST_PILLS]):
                pills.append((f"fix_{at}", fix.text, partial(self.fix_asked.emit, fix), partial(self._looked, fix)))
            self._put(worst.severity, text, pills, leads=bool(worst.about))
        else:
            self._put("fine" if self._checked else "note", self._calm, pills)
        self._show_more()

    def _worst_said(self) -> bool:
        """Is there a finding to act on, and room to say it?"""
        free = self._question is None and self._message is None
        return free and bool(self._said) and self._said[0][0].severity != "note"

    def _put(self, tone: Tone, text: str, pills: Sequence[Pill], leads: bool = False) -> None:
        if tone != self.tone:
            self._mark.set_tone(tone)
            self.update()
        self._sentence.set_text(text, leads)
        for old in self._pills:
            self._row.removeWidget(old)
            old.hide()
            old.deleteLater()
        self._pills = [pill(name, words, action, self, looking) for name, words, action, looking in pills]
        for at, made in enumerate(self._pills):
            self._row.insertWidget(2 + at, made)
            made.show()
        self._show_proof_too()

    def _looked(self, fix: Fix, looks: bool) -> None:
        self.fix_looked.emit(fix if looks else None)

    def _show_more(self) -> None:
        is_open = not self.findings_list.isHidden()
        worst = self._worst_said()
        rest = len(self._said) - worst
        only_notes = all(finding.severity == "note" for finding, _ in self._said)
        if is_open:
            self._more.setText(tr("Close the list"))
        elif only_notes:
            self._more.setText(tr("1 note") if rest == 1 else tr("{rest} notes", rest=rest))
        else:
            self._more.setText(tr("{rest} more to read", rest=rest) if rest else tr("More ways out"))
        more_fixes = worst and len(self._said[0][0].fixes) > MOST_PILLS
        self._more.setVisible(is_open or rest > 0 or more_fixes)

    def _sentence_clicked(self) -> None:
        if self._worst_said():
            self.about_asked.emit(self._said[0][0].about)

    def toggle_list(self) -> None:
        """Open or shut the list of findings."""
        is_open = not self.findings_list.isHidden()
        if is_open or self._said:
            self.nominal_list.hide()
            self.findings_list.setVisible(not is_open)
            self._show_more()

    def toggle_nominal(self) -> None:
        """Open or shut the list of what is still nominal."""
        is_open = not self.nominal_list.isHidden()
        if is_open or self._is_nominal:
            self.findings_list.hide()
            self.nominal_list.setVisible(not is_open)
            self._show_more()

    # Keys and ground

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if self._worst_said():
            self.menu_asked.emit(*self._said[0], event.globalPos())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            if self._question is not None:
                self._answered(self._question[1][-1])
                return
            if self._message is not None:
                self.clear_message()
                return
        pressed = self.focusWidget()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and isinstance(pressed, QPushButton):
            pressed.click()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        palette = self._theme.palette
        wash = {"error": palette.trouble_wash, "warning": palette.doubt_wash, "question": palette.chalk_wash}
        if self.tone in wash:
            painter.fillRect(self.rect(), QColor(wash[self.tone]))
        painter.setPen(QPen(QColor(palette.hairline), 1))
        painter.drawLine(0, 0, self.width(), 0)
        painter.end()
