"""Reading a catalogue: pairs of `msgid` and `msgstr`, each on one line, as translators' programs write them."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Final

FOLDER: Final = Path(__file__).parents[2] / "resources" / "language"
_PAIR: Final = re.compile(r'^msgid "(.*)"\nmsgstr "(.*)"$', re.MULTILINE)
_ESCAPED: Final = re.compile(r"\\(.)")
_SIGNS: Final = {"n": "\n", "t": "\t"}


def asked(variable: str, known: tuple[str, ...]) -> str:
    """The language the surroundings name, the first known where they name none that is known."""
    code = os.environ.get(variable, "")[:2].lower()
    return code if code in known else known[0]


def catalogue(code: str) -> dict[str, str]:
    """The texts of a language by the English ones; none for a language without a file."""
    file = FOLDER / f"{code}.po"
    if not file.is_file():
        return {}
    pairs = _PAIR.findall(file.read_text(encoding="utf-8"))
    return {_plain(text): _plain(said) for text, said in pairs if text and said}


def _plain(text: str) -> str:
    return _ESCAPED.sub(lambda found: _SIGNS.get(found[1], found[1]), text) if "\\" in text else text
