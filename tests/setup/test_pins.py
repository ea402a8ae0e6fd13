"""The lists of packages: complete, exact, and what is installed."""

import re
import tomllib
from importlib.metadata import distribution
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from app.setup.environment import PROJECT, Environment

PIN = re.compile(r"[\w.-]+==[\w.]+")


def project() -> dict[str, object]:
    with Path(PROJECT, "pyproject.toml").open("rb") as file:
        return tomllib.load(file)["project"]


def pins(name: str) -> dict[str, str]:
    lines = Path(PROJECT, "resources", name).read_text(encoding="utf-8").splitlines()
    wanted = [line for line in lines if not line.startswith("#")]
    assert all(PIN.fullmatch(line) for line in wanted)
    return {canonicalize_name(left): right for left, right in (line.split("==") for line in wanted)}


def closure(asked_for: list[str]) -> set[str]:
    """The packages asked for, and those they ask for in turn, here."""
    found: set[str] = set()
    todo = [Requirement(line) for line in asked_for]
    while todo:
        requirement = todo.pop()
        name = canonicalize_name(requirement.name)
        if name in found or (requirement.marker and not requirement.marker.evaluate({"extra": ""})):
            continue
        found.add(name)
        todo += [Requirement(line) for line in distribution(name).requires or []]
    return found


def test_every_package_is_pinned_and_no_other() -> None:
    asked_for = project()["dependencies"]
    added = project()["optional-dependencies"]["tests"]
    app = closure(asked_for)
    assert set(pins("constraints.txt")) == app
    assert set(pins("constraints-tests.txt")) == closure(added) - app


def test_what_runs_here_is_what_is_pinned() -> None:
    wanted = pins("constraints.txt") | pins("constraints-tests.txt")
    assert {name: distribution(name).version for name in wanted} == wanted


def test_the_needed_python_is_the_same_everywhere() -> None:
    needed = str(project()["requires-python"]).removeprefix(">=").replace(".", ", ")
    for module in ("app", "tests"):
        assert f"NEEDED = ({needed})\n" in Path(PROJECT, module, "__main__.py").read_text(encoding="utf-8")


def test_the_files_of_pins_are_where_the_set_up_looks() -> None:
    environment = Environment()
    assert all(Path(path).is_file() for path in environment.constraints("app") + environment.constraints("tests"))
