"""What Grainfold computes: project in, plan out. No Qt, no screen; millimetres, degrees, newtons, kilograms."""

__version__ = "0.1.0"

LANGUAGE = "GRAINFOLD_LANGUAGE"  # names the language of a process in its surroundings
LANGUAGES = {"en": "English", "de": "Deutsch"}  # the first where none is named
