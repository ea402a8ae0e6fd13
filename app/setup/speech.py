"""The language of what is said before anything is loaded: help, and the first run. Standard library alone.

It is the one named after --language, or in the surroundings, else the system's. Nothing of `core.language` is loaded
before another than English is wanted: there a process speaks one language from its start to its end.
"""

import os
from collections.abc import Mapping, Sequence

from core import LANGUAGE, LANGUAGES

ENGLISH = next(iter(LANGUAGES))
SYSTEM = ("LC_ALL", "LC_MESSAGES", "LANG")  # the first that is set counts
_spoken = [ENGLISH]


def wanted(arguments: Sequence[str], surroundings: Mapping[str, str]) -> str:
    """Code of the language that is asked for; English for one there is not."""
    for at, word in enumerate(arguments):
        if word == "--language" or word.startswith("--language="):
            named = word.partition("=")[2] or next(iter(arguments[at + 1 :]), "")
            return named if named in LANGUAGES else ENGLISH
    said = (surroundings.get(name, "") for name in (LANGUAGE, *SYSTEM))
    code = next((text for text in said if text), "")[:2].lower()
    return code if code in LANGUAGES else ENGLISH


def speak(arguments: Sequence[str]) -> None:
    """From now on `tr` speaks the language that these arguments, or the surroundings, ask for."""
    _spoken[0] = wanted(arguments, os.environ)


def tr(text: str, **values: object) -> str:
    """A text in that language, its holes filled."""
    if _spoken[0] != ENGLISH:
        from core.language.read import catalogue

        text = catalogue(_spoken[0]).get(text, text)
    return text.format(**values) if values else text
