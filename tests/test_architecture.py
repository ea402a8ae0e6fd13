"""The shape of the house: what may know what, where files are touched, what lies at the top."""

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

PROJECT = Path(__file__).parents[1]
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "app", "core", "resources", "tests", "demo_projects"}

LOAD_CORE = """
import core, importlib, pkgutil, sys
found = [m.name for m in pkgutil.walk_packages(core.__path__, "core.")]
for name in found:
    importlib.import_module(name)
print(len(found), *sorted({name.split(".")[0] for name in sys.modules}))
"""
SCREEN = {"PySide6", "shiboken6", "pyqtgraph", "OpenGL", "app"}

# Modules of the core that touch files: a name ending in / is a whole package.
MAY_TOUCH_FILES = ("document/load.py", "document/save.py", "export/", "photo/opening.py", "language/read.py")
IO_CALLS = {"open", "print", "input"}
IO_METHODS = {
    *("open", "read_text", "read_bytes", "write_text", "write_bytes", "touch", "mkdir", "unlink", "rmdir"),
    *("exists", "is_file", "is_dir", "iterdir", "glob", "rglob", "stat", "symlink_to", "hardlink_to"),
}
IO_MODULES = {
    *("os", "io", "shutil", "tempfile", "glob", "subprocess", "socket", "urllib", "http", "ssl"),
    *("sqlite3", "logging", "mmap", "fileinput"),
}


def top_level(folder: Path) -> set[str]:
    """The visible names at the top: of a git checkout all files but the ignored ones, else all there is."""
    names = os.listdir(folder)
    if (folder / ".git").exists():
        command = ["git", "ls-files", "--cached", "--others", "--exclude-standard"]
        answer = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
        if answer.returncode == 0:
            names = [line.partition("/")[0] for line in answer.stdout.splitlines()]
    return {name for name in names if not name.startswith(".")}


def io_in(source: str) -> list[str]:
    """What in `source` reads or writes outside the process: "line: name" for each call or import."""
    found = []
    for node in ast.walk(ast.parse(source)):
        names: list[str] = []
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            names = [node.func.id] if node.func.id in IO_CALLS else []
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            names = [node.func.attr] if node.func.attr in IO_METHODS else []
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names if alias.name.split(".")[0] in IO_MODULES]
        elif isinstance(node, ast.ImportFrom) and not node.level:
            names = [str(node.module)] if str(node.module).split(".")[0] in IO_MODULES else []
        found += [f"{getattr(node, 'lineno', 0)}: {name}" for name in names]
    return found


def test_core_loads_nothing_of_the_screen() -> None:
    run = subprocess.run([sys.executable, "-c", LOAD_CORE], cwd=PROJECT, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
    count, *loaded = run.stdout.split()
    assert int(count) >= sum(1 for path in (PROJECT / "core").rglob("*.py") if path.name != "__init__.py")
    assert not SCREEN & set(loaded)


def test_the_command_line_loads_no_package() -> None:
    """--help and usage errors answer before anything is installed."""
    code = "import sys, app.cli, app.setup.start, app.setup.make; print(*sys.modules)"
    isolated = [sys.executable, "-S", "-c", code]  # -S: no installed packages at all
    run = subprocess.run(isolated, cwd=PROJECT, capture_output=True, text=True, check=True)
    assert "app.cli" in run.stdout.split()


def test_the_top_level_is_as_agreed() -> None:
    assert top_level(PROJECT) == TOP


def test_core_touches_files_only_where_it_loads_saves_and_exports() -> None:
    core = PROJECT / "core"
    paths = {path.relative_to(core).as_posix(): path for path in core.rglob("*.py")}
    closed = {name: path for name, path in paths.items() if not name.startswith(MAY_TOUCH_FILES)}
    assert closed
    found = {name: io_in(path.read_text(encoding="utf-8")) for name, path in closed.items()}
    assert {name: calls for name, calls in found.items() if calls} == {}


@pytest.mark.parametrize(
    "source",
    [
        "open('x')",
        "Path('x').write_text('y')",
        "with path.open() as file: pass",
        "import os.path",
        "from urllib import request",
        "def f():\n    print(1)",
    ],
)
def test_reading_and_writing_is_noticed(source: str) -> None:
    assert io_in(source)


@pytest.mark.parametrize(
    "source",
    ["text.replace('a', 'b')", "replace(saw, kerf=2.0)", "from .glob import names", "import ostrich"],
)
def test_computing_is_not_taken_for_it(source: str) -> None:
    assert io_in(source) == []


def test_the_map_of_the_top_leaves_out_ignored_files(tmp_path: Path) -> None:
    subprocess.run(["git", "init", "--quiet", tmp_path], check=True)
    (tmp_path / ".gitignore").write_text("build/\n", encoding="utf-8")
    (tmp_path / "build").mkdir()
    (tmp_path / "build" / "x").touch()
    (tmp_path / "stray.txt").touch()
    assert top_level(tmp_path) == {"stray.txt"}
