"""The language of every text the program shows: `tr` looks a text up in the catalogue of the language.

English stands in the code; every other language is one catalogue in `resources/language`, named after it. A process
speaks one language from its start to its end: the one its surroundings name in GRAINFOLD_LANGUAGE, so that processes it
starts speak it too. So a text may be looked up when its module is loaded.
"""

from __future__ import annotations

from core.language.words import CODE, POINT, decimal, short, tr, within

__all__ = ["CODE", "POINT", "decimal", "short", "tr", "within"]
