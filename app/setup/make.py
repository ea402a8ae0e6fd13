"""Makes the project's environment, or adds what it lacks."""

import os
import shutil
import time
import tomllib
import venv

from app.setup import lock, pip
from app.setup.environment import Environment
from app.setup.speech import tr


def say(text: str) -> None:
    """Report progress on stdout: stderr is for what went wrong."""
    print(text, flush=True)


def requirements(environment: Environment, layer: str) -> list[str]:
    """What pyproject.toml asks for: the program's dependencies, or those of its extra `tests`."""
    with open(environment.pyproject, "rb") as file:
        project = tomllib.load(file)["project"]
    found: list[str] = project["dependencies"] if layer == "app" else project["optional-dependencies"][layer]
    return found


def make(environment: Environment, *, tests: bool) -> None:
    """See to it that the environment holds the program's packages and, with `tests`, the tests' packages.

    Waits while another process does the same. Raises SetupError or OSError, and leaves nothing half-made.
    """
    with lock.held(environment.folder + ".lock", lambda: say(tr("Another start is setting up: waiting for it."))):
        if not environment.holds("app"):
            _make_anew(environment)
        if tests and not environment.holds("tests"):
            environment.unmark("tests")
            _install(environment, "tests", tr("Adding the packages of the tests to .venv."))


def _make_anew(environment: Environment) -> None:
    _remove(environment.folder)
    try:
        venv.EnvBuilder(symlinks=os.name != "nt", with_pip=False).create(environment.folder)
        _install(environment, "app", tr("Setting up Grainfold's packages in .venv: once, later starts are quick."))
    except BaseException:
        shutil.rmtree(environment.folder, ignore_errors=True)
        raise


def _install(environment: Environment, layer: str, heading: str) -> None:
    began = time.monotonic()
    say(heading)
    asked = [*requirements(environment, layer)]
    pip.install(environment.python, asked, environment.constraints(layer), lambda text: say(f"  {text}"))
    environment.mark(layer)
    say(tr("Done in {seconds} s.", seconds=round(time.monotonic() - began)))


def _remove(folder: str) -> None:
    """Remove an environment out of date or half-made; a link is removed, not what it leads to."""
    if os.path.islink(folder) or os.path.isfile(folder):
        os.remove(folder)
    elif os.path.isdir(folder):
        shutil.rmtree(folder)
