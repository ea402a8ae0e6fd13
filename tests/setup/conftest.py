"""A project as small as can be, with packages of its own: a true set-up takes a second and no network."""

import zipfile
from pathlib import Path

import pytest

from app.setup.environment import Environment

PYPROJECT = """
[project]
name = "toy"
version = "1"
dependencies = ["toy-plank"]
optional-dependencies.tests = ["toy-gauge"]
"""


def write_wheel(folder: Path, name: str, version: str) -> None:
    """A package of one empty module `name`, as pip installs it."""
    info = f"{name}-{version}.dist-info"
    files = {
        f"{name}.py": "",
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: {version}\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nGenerator: toy\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    record = "".join(f"{path},,\n" for path in [*files, f"{info}/RECORD"])
    with zipfile.ZipFile(folder / f"{name}-{version}-py3-none-any.whl", "w") as wheel:
        for path, text in {**files, f"{info}/RECORD": record}.items():
            wheel.writestr(path, text)


@pytest.fixture
def toy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Environment:
    """The environment, not yet made, of a project that pins the older of two versions of each package."""
    house = tmp_path / "wheels"
    house.mkdir()
    for name in ("toy_plank", "toy_gauge"):
        write_wheel(house, name, "1.0")
        write_wheel(house, name, "2.0")
    project = tmp_path / "project"
    (project / "resources").mkdir(parents=True)
    (project / "pyproject.toml").write_text(PYPROJECT, encoding="utf-8")
    (project / "resources" / "constraints.txt").write_text("toy-plank==1.0\n", encoding="utf-8")
    (project / "resources" / "constraints-tests.txt").write_text("toy-gauge==1.0\n", encoding="utf-8")
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    monkeypatch.setenv("PIP_FIND_LINKS", str(house))
    return Environment(str(project))
