"""What each action of the window does."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtGui import QAction, QActionGroup

from app.actions import GUESTS
from app.rule.several import STARTERS
from app.safe.dropping import shortened
from app.window.exporting import WORDS as FORMS
from app.window.preferences import PAPERS
from core import LANGUAGES
from core.language import tr

if TYPE_CHECKING:
    from app.showing.writing import Kind
    from app.window.window import Window

PICTURES: Final[tuple[Kind, ...]] = ("picture", "turntable", "model")


def connect_actions(window: Window) -> None:
    """Connect all of them."""
    for name, action in (_plain(window) | _families(window)).items():
        window.actions_[name].triggered.connect(partial(_call, action))
    chosen = window.preferences
    _group(window, "theme_", ("system", "light", "dark"), window.theme.mode, window.pick_theme)
    _group(window, "paper_", ("auto", *PAPERS), chosen.paper or "auto", window.pick_paper)
    _group(window, "language_", ("system", *LANGUAGES), chosen.language or "system", window.pick_language)
    window.top_bar.recent_menu.aboutToShow.connect(partial(_fill_recent, window))


def _plain(window: Window) -> dict[str, Callable[[], object]]:
    return {
        "new": window.files.new,
        "open": window.files.open,
        "save": window.files.save,
        "save_as": window.files.save_as,
        "undo": window.store.undo,
        "redo": window.store.redo,
        "add_shelf": window.rule.add_shelf,
        "duplicate_shelf": window.sets.duplicate,
        "remove_shelf": window.sets.remove,
        "earlier_shelf": partial(window.sets.move, -1),
        "later_shelf": partial(window.sets.move, 1),
        "all_shelves": window.sets.take_all,
        "turn_net": window.choosing.turn,
        "swap_nets": window.choosing.swap,
        "copy_shelf": window.copy,
        "paste_shelf": window.paste,
        "keep_offcuts": window.rack.keep,
        "findings": window.line.toggle_list,
        "nominal": window.line.toggle_nominal,
        "find": window.find_action,
        "help": window.show_help,
        "guide": window.begin_guide,
        "next_region": window.go_on,
        "thing_menu": window.menus.open_at_focus,
        "quit": window.close,
    }


def _families(window: Window) -> dict[str, Callable[[], object]]:
    """Actions there are several of a kind of."""
    found: dict[str, Callable[[], object]] = {}
    found |= {f"start_{name.replace(' ', '_')}": partial(window.rule.start_from, name) for name, *_ in STARTERS}
    found |= {f"export_{form}": partial(window.exporting.export, form) for form in FORMS}
    found |= {f"export_{kind}": partial(window.write_picture, kind) for kind in PICTURES}
    found |= {f"fill_{place}": partial(window.boards.toggle_fill, place) for place in ("wall", "fold", "sheet")}
    found |= {guest: partial(window.guests.flip, guest) for guest in GUESTS}
    return found


def _group(window: Window, prefix: str, names: tuple[str, ...], chosen: str, pick: Callable[[str], None]) -> None:
    group = QActionGroup(window)
    for name in names:
        action: QAction = window.actions_[prefix + name]
        group.addAction(action)
        action.setChecked(name == chosen)
        action.triggered.connect(partial(_call, partial(pick, name)))


def _fill_recent(window: Window) -> None:
    menu = window.top_bar.recent_menu
    menu.clear()
    for path in window.preferences.recent:
        action = menu.addAction(f"{path.stem}    {shortened(path.parent)}".replace("&", "&&"))
        action.setToolTip(str(path))
        action.triggered.connect(partial(_call, partial(window.files.open_guarded, path)))
    if menu.isEmpty():
        menu.addAction(tr("No project opened yet")).setEnabled(False)


def _call(action: Callable[[], object], *_sent: object) -> None:
    """Call an action, whatever the signal sends along."""
    action()
