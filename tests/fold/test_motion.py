"""Whether the desktop asks for less motion is read from where desktops keep it."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from app.fold import motion


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="other systems keep it elsewhere")
@pytest.mark.parametrize(
    ("file", "text", "is_less"),
    [
        ("", "", False),
        (motion.GTK_INI, "[Settings]\ngtk-enable-animations=0\n", True),
        (motion.GTK_INI, "[Settings]\ngtk-enable-animations=false\n", True),
        (motion.GTK_INI, "[Settings]\ngtk-enable-animations=1\n", False),
        (motion.KDE_INI, "[KDE]\nAnimationDurationFactor=0\n", True),
        (motion.KDE_INI, "[KDE]\nAnimationDurationFactor=0.5\n", False),
    ],
)
def test_the_desktops_setting(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, file: str, text: str, is_less: bool
) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    if file:
        (tmp_path / file).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / file).write_text(text)
    assert motion.less_motion() is is_less
