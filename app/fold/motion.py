"""Whether the system asks for less motion."""

from __future__ import annotations

import sys
from pathlib import Path

from PySide6.QtCore import QSettings, QStandardPaths

GTK_INI, KDE_INI = "gtk-3.0/settings.ini", "kdeglobals"


def less_motion() -> bool:
    """True where the desktop's setting says that things should not be animated."""
    if sys.platform == "win32":
        return _windows()
    if sys.platform == "darwin":
        chosen = QSettings(QSettings.Format.NativeFormat, QSettings.Scope.UserScope, "apple.com", "universalaccess")
        return bool(chosen.value("reduceMotion", False, bool))
    folder = Path(QStandardPaths.writableLocation(QStandardPaths.StandardLocation.GenericConfigLocation))
    gtk = _entry(folder / GTK_INI, "Settings/gtk-enable-animations")
    kde = _entry(folder / KDE_INI, "KDE/AnimationDurationFactor")
    return gtk in ("0", "false") or kde in ("0", "0.0")


def _entry(path: Path, key: str) -> str:
    if not path.is_file():
        return ""
    return str(QSettings(str(path), QSettings.Format.IniFormat).value(key, "")).strip().lower()


def _windows() -> bool:
    """Source: Microsoft, SystemParametersInfoW, SPI_GETCLIENTAREAANIMATION."""
    import ctypes

    shown = ctypes.c_int(1)
    library = getattr(ctypes, "windll", None)  # there on Windows only
    if library is not None:
        library.user32.SystemParametersInfoW(0x1042, 0, ctypes.byref(shown), 0)
    return not shown.value
