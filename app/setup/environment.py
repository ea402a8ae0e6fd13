"""The project's environment `.venv`, and the stamps in it that say what was installed.

A stamp is written last, and holds word for word what was asked for: the Python version, pyproject.toml and
the pinned versions. So a missing or differing stamp means half-made or out of date. (Comparing the text is
quicker than loading a hash, and this is done at every start.)

What is installed comes in two layers: "app", what the program runs with, and on top of it "tests".
"""

import os
import sys

PROJECT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))


class Environment:
    """Where the environment of the project in the folder `project` is, and what it holds."""

    def __init__(self, project: str = PROJECT) -> None:
        self.project = project
        self.pyproject = os.path.join(project, "pyproject.toml")
        self.folder = os.path.join(project, ".venv")
        self.python = os.path.join(self.folder, *(("Scripts", "python.exe") if os.name == "nt" else ("bin", "python")))

    def is_needed(self) -> bool:
        """False where this process has its packages already: in the environment, or installed by pip."""
        if not os.path.exists(self.pyproject):
            return False
        return not (os.path.isdir(self.folder) and os.path.samefile(sys.prefix, self.folder))

    def constraints(self, layer: str) -> list[str]:
        """The files of pinned versions that `layer` is installed with; tests come on top of the app."""
        names = ["constraints.txt"] if layer == "app" else ["constraints.txt", "constraints-tests.txt"]
        return [os.path.join(self.project, "resources", name) for name in names]

    def holds(self, layer: str) -> bool:
        """Whether `layer` was installed completely, as it is asked for now, for this version of Python."""
        if not os.path.exists(self.python):  # also false for a link to a Python that is gone
            return False
        try:
            with open(self._stamp(layer), "rb") as file:
                return file.read() == self._asked_for(layer)
        except FileNotFoundError:
            return False

    def mark(self, layer: str) -> None:
        """Write the stamp of `layer`: its installation is complete."""
        with open(self._stamp(layer), "wb") as file:
            file.write(self._asked_for(layer))

    def unmark(self, layer: str) -> None:
        """Take the stamp of `layer` away, if it is there."""
        if os.path.exists(self._stamp(layer)):
            os.remove(self._stamp(layer))

    def _stamp(self, layer: str) -> str:
        return os.path.join(self.folder, f"grainfold-{layer}.stamp")

    def _asked_for(self, layer: str) -> bytes:
        parts = [b"Python %d.%d\n" % sys.version_info[:2]]
        for path in (self.pyproject, *self.constraints(layer)):
            with open(path, "rb") as file:
                parts.append(file.read())
        return b"".join(parts)
