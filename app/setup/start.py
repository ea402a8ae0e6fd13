"""The way from `python3 -m app` (or `-m tests`) into the project's environment."""

import sys

from app.setup import speech
from app.setup.environment import Environment
from app.setup.problems import SetupError, explain
from app.setup.speech import tr


def start_app(arguments: list[str]) -> int:
    """Run the program, in the project's environment if there is a project around it.

    Returns the exit code.
    """
    environment = Environment()
    if not environment.is_needed():
        from app.cli import main

        return main(arguments)
    if not environment.holds("app"):
        from app.cli import parse

        speech.speak(arguments)
        parse(arguments)  # a usage error or --help should not wait for a set-up
    return go_on(environment, ["-m", "app", *arguments], tests=False)


def go_on(environment: Environment, arguments: list[str], *, tests: bool) -> int:
    """Set the environment up if it lacks something, then run its Python with `arguments`.

    Returns the exit code of that, or 2 after one sentence on stderr if there is no way on.
    """
    try:
        if not (environment.holds("app") and (not tests or environment.holds("tests"))):
            from app.setup.make import make

            make(environment, tests=tests)
        from app.setup import child

        return child.run([environment.python, *arguments])
    except KeyboardInterrupt:
        sys.stderr.write(tr("Stopped before the set-up was done; the next start begins it anew.") + "\n")
        return 130
    except SetupError as error:
        sys.stderr.write(f"{error}\n")
    except OSError as error:
        sys.stderr.write(explain(error, environment.project) + "\n")
    return 2
