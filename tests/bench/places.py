"""Where the project's own files are."""

from pathlib import Path

HOME = Path(__file__).parents[2]
FIRST_DEMO = HOME / "demo_projects" / "reading-corner.grainfold"
