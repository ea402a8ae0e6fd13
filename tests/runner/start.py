"""The way from `python3 -m tests` to the stages, in the project's environment."""

import importlib.util
import sys

from app.setup.environment import Environment
from app.setup.start import go_on
from tests.runner import debian

USAGE = """usage: python3 -m tests [--long] [PYTEST ARGUMENT ...]

Without arguments all that must pass runs: ruff (lint, format), mypy, contracts between packages, pytest.
--long    the same with the large sizes: more random cases, and the tests marked slow
With any other argument only pytest runs, and gets them all: python3 -m tests tests/core -k seam
"""


def start_tests(arguments: list[str]) -> int:
    """Run what `arguments` ask for; returns the exit code, not 0 if anything failed."""
    if set(arguments) & {"-h", "--help"}:
        sys.stdout.write(USAGE)
        return 0
    if not debian.see_to_packages():
        return 2
    environment = Environment()
    if environment.is_needed():
        return go_on(environment, ["-m", "tests", *arguments], tests=True)
    if importlib.util.find_spec("pytest") is None:
        sys.stderr.write("This Python lacks the packages of the tests: use the one outside .venv, it adds them.\n")
        return 2
    from tests.runner import stages

    return stages.run(arguments)
