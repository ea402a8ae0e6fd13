"""The style sheet made from a palette, and the few colours Qt's own parts take from QPalette."""

from __future__ import annotations

from string import Template

from PySide6.QtGui import QColor, QPalette

from app.theme import type as faces
from app.theme.palette import Palette

_SHEET = Template("""
QWidget { color: $ink; font-family: "$family"; font-size: ${body}px; }
QWidget#window { background: $paper; }
QWidget#top_bar, QWidget#rule, QWidget#rule_body, QWidget#bottom_line, QWidget#findings_list, QWidget#findings_body,
QWidget#nominal_list,
QScrollArea#rule_scroll, QScrollArea#findings_scroll { background: $card; border: none; }
QLabel { background: transparent; }
QLabel[role="soft"] { color: $soft; }
QLabel[role="small"] { color: $soft; font-size: ${small}px; }
QLabel[role="strong"] { font-weight: 600; }
QLabel[role="lead"] { font-size: ${lead}px; font-weight: 600; }
QLabel[role="big"] { font-size: ${big}px; }
QLabel[role="huge"] { font-size: ${huge}px; font-weight: 600; }
QLabel[role="moves"] { background: $chalk_wash; border-left: 3px solid $chalk; padding: 3px 8px; font-weight: 600; }
QFrame#finder, QFrame#guide { background: $card; border: 1px solid $soft; border-radius: 6px; }
QTextBrowser#help_text { background: $paper; border: none; padding: 0px 10px; selection-background-color: $chalk;
  selection-color: $on_chalk; }
QTextBrowser#help_text:focus { border: 2px solid $chalk; }
QScrollArea#steps_words_scroll, QWidget#steps_words_body { background: $card; border: none; }
QWidget#steps_words, QWidget#steps_words_head { background: $card; border: none; }
QListWidget { background: $card; border: none; outline: none; selection-background-color: $chalk_wash;
  selection-color: $chalk; }
QListWidget::item { padding: 4px 10px; min-height: 18px; }
QListWidget:focus { border: 2px solid $chalk; }
QLabel[role="reason"] { color: $trouble; font-size: ${body}px; }

QLineEdit { background: $field; border: 1px solid $soft; border-radius: 4px; padding: 0px 7px; min-height: 24px;
  selection-background-color: $chalk; selection-color: $on_chalk; }
QLineEdit:hover { background: $card; }
QLineEdit:focus { border: 2px solid $chalk; padding: 0px 6px; min-height: 22px; background: $chalk_wash; }
QLineEdit[refused="true"] {
  border: 2px solid $trouble; padding: 0px 6px; min-height: 22px; background: $trouble_wash; }
QLineEdit:disabled { color: $soft; background: transparent; border-color: $hairline; }
QLineEdit#project_name { background: transparent; border: 1px solid transparent; font-size: ${lead}px;
  font-weight: 600; padding: 0px 5px; }
QLineEdit#project_name:hover { border: 1px solid $hairline; }
QLineEdit#project_name:focus { border: 2px solid $chalk; padding: 0px 4px; background: $card; }

QPushButton { outline: none; background: transparent; border: 1px solid transparent; border-radius: 4px; color: $ink;
  padding: 0px 8px; min-height: 24px; }
QPushButton:hover { background: $hover; }
QPushButton:pressed { background: $hairline; }
QPushButton:focus { border: 2px solid $chalk; padding: 0px 7px; min-height: 22px; }
QPushButton:disabled { color: $soft; background: transparent; }
QPushButton::menu-indicator { width: 0px; }
QPushButton[look="accent"] { background: $chalk; color: $on_chalk; font-weight: 600; padding: 0px 14px;
  border: 1px solid $chalk; }
QPushButton[look="accent"]:hover { background: $chalk_deep; border-color: $chalk_deep; }
QPushButton[look="accent"]:focus { border: 2px solid $ink; padding: 0px 13px; }
QPushButton[look="line"] { border: 1px solid $soft; }
QPushButton[look="line"]:focus { border: 2px solid $chalk; padding: 0px 7px; }
QPushButton[look="quiet"] { color: $chalk; padding: 0px 6px; }
QPushButton[look="quiet"]:disabled { color: $soft; }
QPushButton[look="quiet"]:focus { border: 2px solid $chalk; padding: 0px 5px; }
QPushButton[look="arrow"] { color: $chalk; padding: 0px 6px; font-size: ${lead}px; font-weight: 600; }
QPushButton[look="arrow"]:disabled { color: $soft; }
QPushButton[look="arrow"]:focus { border: 2px solid $chalk; padding: 0px 5px; }
QPushButton[look="pill"] { border: 1px solid $chalk; border-radius: 14px; color: $chalk; background: $paper;
  padding: 0px 14px; min-height: 26px; }
QPushButton[look="pill"]:hover { background: $chalk_wash; }
QPushButton[look="pill"]:focus {
  border: 2px solid $chalk; padding: 0px 13px; min-height: 24px; background: $chalk_wash; }
QPushButton[look="chip"] { border: 1px solid $soft; border-radius: 4px; padding: 0px 8px; background: $field; }
QPushButton[look="chip"]:hover { background: $hover; }
QPushButton[look="chip"]:checked { background: $chalk; border-color: $chalk; color: $on_chalk; font-weight: 600; }
QPushButton[look="chip"][together="true"] { background: $chalk_wash; border: 2px solid $chalk; color: $chalk;
  font-weight: 600; padding: 0px 7px; }
QPushButton[look="chip"]:focus { border: 2px solid $chalk; padding: 0px 7px; }
QPushButton[look="chip"]:checked:focus { border: 2px solid $ink; padding: 0px 7px; }
QPushButton[look="segment"] {
  border: 1px solid $soft; border-radius: 0px; padding: 0px 4px; background: $field; color: $soft;
  margin-left: -1px; }
QPushButton[look="segment"]:hover { background: $hover; color: $ink; }
QPushButton[look="segment"]:checked {
  background: $chalk_wash; color: $chalk; border: 1px solid $chalk; font-weight: 600; }
QPushButton[look="segment"]:focus { border: 2px solid $chalk; padding: 0px 3px; }
QPushButton[look="segment"][place="first"] {
  border-top-left-radius: 4px; border-bottom-left-radius: 4px; margin-left: 0px; }
QPushButton[look="segment"][place="last"] { border-top-right-radius: 4px; border-bottom-right-radius: 4px; }
QPushButton[look="hint"] { color: $soft; font-size: ${small}px; padding: 0px 3px; min-height: 22px; }
QPushButton[look="hint"]:hover { color: $chalk; background: $chalk_wash; }
QPushButton[look="starter"] { text-align: left; border: 1px solid $soft; background: $field; padding: 0px 8px; }
QPushButton[look="starter"]:hover { background: $hover; }
QPushButton[look="starter"]:focus { border: 2px solid $chalk; padding: 0px 7px; }
QPushButton[look="plain"] { text-align: left; padding: 0px 4px; }
QPushButton[look="plain"]:focus { border: 2px solid $chalk; padding: 0px 3px; }

QComboBox { background: $field; border: 1px solid $soft; border-radius: 4px; padding: 0px 7px; min-height: 24px; }
QComboBox:hover { background: $card; }
QComboBox:focus { border: 2px solid $chalk; padding: 0px 6px; min-height: 22px; background: $chalk_wash; }
QComboBox::drop-down { width: 0px; border: none; }
QComboBox QAbstractItemView { background: $card; border: 1px solid $soft; outline: 0px; padding: 2px;
  selection-background-color: $chalk_wash; selection-color: $ink; }
QComboBox QAbstractItemView::item { min-height: 26px; padding: 0px 6px; border: none; }

QMenu { background: $card; border: 1px solid $soft; padding: 5px; }
QMenu::item { padding: 5px 22px 5px 10px; border-radius: 3px; min-height: 18px; }
QMenu::item:selected { background: $chalk_wash; color: $ink; }
QMenu::item:disabled { color: $soft; }
QMenu::separator { height: 1px; background: $hairline; margin: 5px 8px; }
QMenu::icon { padding-left: 8px; }
QMenu::icon:checked { background: $chalk_wash; border: 1px solid $chalk; border-radius: 3px; padding: 2px;
  margin-left: 5px; }
QMenu::indicator { width: 8px; height: 8px; left: 7px; }
QMenu::indicator:checked { background: $chalk; border-radius: 4px; }
QToolTip { background: $card; color: $ink; border: 1px solid $soft; padding: 4px 6px; }

QScrollBar { background: transparent; border: none; margin: 0px; }
QScrollBar:vertical { width: 10px; }
QScrollBar:horizontal { height: 10px; }
QScrollBar::handle { background: $hairline; border-radius: 3px; margin: 2px; }
QScrollBar::handle:vertical { min-height: 32px; }
QScrollBar::handle:horizontal { min-width: 32px; }
QScrollBar::handle:hover { background: $soft; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0px; height: 0px; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }

QTableView { background: $paper; alternate-background-color: $card; border: none; gridline-color: transparent;
  selection-background-color: $chalk_wash; selection-color: $ink; outline: none; }
QTableView::item { padding: 0px 8px; border: none; border-bottom: 1px solid $hairline; }
QTableView:focus { border: 2px solid $chalk; }
QHeaderView { background: $paper; border: none; }
QHeaderView::section {
  background: $paper; color: $soft; border: none; border-bottom: 1px solid $soft; padding: 4px 8px; }
""")


def style_sheet(palette: Palette) -> str:
    """The window's style sheet."""
    names = {name: getattr(palette, name) for name in palette.__slots__}
    deep = QColor(palette.chalk)
    chalk_deep = (deep.darker(115) if palette.name == "light" else deep.lighter(110)).name()
    return _SHEET.substitute(
        names,
        chalk_deep=chalk_deep,
        family=faces.family(),
        small=faces.SMALL,
        body=faces.BODY,
        lead=faces.LEAD,
        big=faces.BIG,
        huge=faces.HUGE,
    )


def qt_palette(palette: Palette) -> QPalette:
    """Colours for what the style sheet does not reach: placeholders, links, the caret."""
    made = QPalette()
    for role, colour in (
        (QPalette.ColorRole.Window, palette.paper),
        (QPalette.ColorRole.Base, palette.field),
        (QPalette.ColorRole.Button, palette.card),
        (QPalette.ColorRole.WindowText, palette.ink),
        (QPalette.ColorRole.Text, palette.ink),
        (QPalette.ColorRole.ButtonText, palette.ink),
        (QPalette.ColorRole.PlaceholderText, palette.soft),
        (QPalette.ColorRole.Highlight, palette.chalk),
        (QPalette.ColorRole.HighlightedText, palette.on_chalk),
        (QPalette.ColorRole.Accent, palette.chalk),
        (QPalette.ColorRole.Link, palette.chalk),
        (QPalette.ColorRole.ToolTipBase, palette.card),
        (QPalette.ColorRole.ToolTipText, palette.ink),
    ):
        made.setColor(role, QColor(colour))
    return made
