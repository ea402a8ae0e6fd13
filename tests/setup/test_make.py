"""Making the environment: true ones of a toy project, and what is left when it fails."""

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.setup import make, pip
from app.setup.environment import Environment
from app.setup.problems import DISK_FULL, NOT_WRITABLE, SetupError, explain

CLOSED_PORT = "http://127.0.0.1:9/simple"  # discard: nobody listens


def versions(environment: Environment) -> dict[str, str]:
    """The versions of the packages that the environment's own Python finds."""
    code = "from importlib.metadata import distributions as d; print(*(f'{x.name}={x.version}' for x in d()))"
    command = [environment.python, "-I", "-c", code]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    return dict(word.split("=") for word in run.stdout.split())


def leave_a_mark(environment: Environment) -> Path:
    mark = Path(environment.folder, "mark")
    mark.touch()
    return mark


def no_install(*_arguments: object) -> None:
    raise AssertionError("nothing was to be installed")


def test_packages_are_installed_as_pinned_and_only_what_changed(
    toy: Environment, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert not toy.holds("app")
    make.make(toy, tests=False)
    assert versions(toy) == {"toy_plank": "1.0"}
    assert (toy.holds("app"), toy.holds("tests")) == (True, False)
    assert sorted(os.listdir(toy.project)) == [".venv", "pyproject.toml", "resources"]

    mark = leave_a_mark(toy)
    make.make(toy, tests=True)
    assert versions(toy) == {"toy_plank": "1.0", "toy_gauge": "1.0"}

    Path(toy.project, "resources", "constraints-tests.txt").write_text("toy-gauge==2.0\n", encoding="utf-8")
    assert (toy.holds("app"), toy.holds("tests")) == (True, False)
    make.make(toy, tests=True)
    assert versions(toy) == {"toy_plank": "1.0", "toy_gauge": "2.0"}

    monkeypatch.setattr(pip, "install", no_install)
    make.make(toy, tests=True)
    make.make(toy, tests=False)
    assert mark.exists()  # it was never made anew


def test_the_stamp_is_the_last_thing_written(toy: Environment, monkeypatch: pytest.MonkeyPatch) -> None:
    seen = []
    monkeypatch.setattr(pip, "install", lambda *_: seen.append((toy.holds("app"), os.listdir(toy.folder))))
    make.make(toy, tests=False)
    [(held, files)] = seen
    assert "pyvenv.cfg" in files
    assert not held
    assert toy.holds("app")


@pytest.mark.parametrize(
    "path",
    [
        "pyproject.toml",
        "resources/constraints.txt",
        ".venv/grainfold-app.stamp",
        ".venv/bin/python" if os.name != "nt" else ".venv/Scripts/python.exe",
    ],
)
@pytest.mark.parametrize("change", ["remark", "lost"])
def test_it_is_made_anew_when_it_no_longer_fits(
    toy: Environment, path: str, change: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pip, "install", lambda *_: None)
    make.make(toy, tests=False)
    mark = leave_a_mark(toy)
    changed = Path(toy.project, path)
    if change == "lost" and path.startswith(".venv"):
        changed.unlink()
    elif "python" not in changed.stem:
        with changed.open("a", encoding="utf-8") as file:
            file.write("# changed\n")
    else:  # a link to a Python that is gone
        changed.unlink()
        changed.symlink_to("gone")
    assert not toy.holds("app")
    make.make(toy, tests=False)
    assert toy.holds("app")
    assert not mark.exists()


def test_another_version_of_python_makes_it_anew(toy: Environment, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pip, "install", lambda *_: None)
    make.make(toy, tests=False)
    monkeypatch.setattr(sys, "version_info", (sys.version_info[0], sys.version_info[1] + 1, 0, "final", 0))
    assert not toy.holds("app")


def test_without_network_there_is_one_sentence_and_nothing_is_left(
    toy: Environment, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("PIP_NO_INDEX")
    monkeypatch.delenv("PIP_FIND_LINKS")
    monkeypatch.setenv("PIP_INDEX_URL", CLOSED_PORT)
    monkeypatch.setenv("PIP_RETRIES", "1")
    with pytest.raises(SetupError) as caught:
        make.make(toy, tests=False)
    assert str(caught.value) == pip.NO_NETWORK
    assert sorted(os.listdir(toy.project)) == ["pyproject.toml", "resources"]


def test_a_package_that_does_not_exist_is_named(toy: Environment) -> None:
    Path(toy.project, "resources", "constraints.txt").write_text("toy-plank==9.9\n", encoding="utf-8")
    with pytest.raises(SetupError, match="toy-plank"):
        make.make(toy, tests=False)


def test_failed_tests_leave_the_program_as_it_was(toy: Environment, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail_for_tests(_python: str, names: list[str], *_rest: object) -> None:
        if names == ["toy-gauge"]:
            raise SetupError("no gauge")

    monkeypatch.setattr(pip, "install", fail_for_tests)
    with pytest.raises(SetupError, match="no gauge"):
        make.make(toy, tests=True)
    assert (toy.holds("app"), toy.holds("tests")) == (True, False)


@pytest.mark.parametrize("error", [OSError(errno.ENOSPC, "No space left on device"), KeyboardInterrupt()])
def test_whatever_stops_it_leaves_nothing_half_made(
    toy: Environment, error: BaseException, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_arguments: object) -> None:
        raise error

    monkeypatch.setattr(pip, "install", fail)
    with pytest.raises(type(error)):
        make.make(toy, tests=False)
    assert sorted(os.listdir(toy.project)) == ["pyproject.toml", "resources"]


@pytest.mark.skipif(os.name == "nt", reason="making a link needs a right there")
def test_a_link_in_its_place_is_removed_and_not_followed(
    toy: Environment, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = tmp_path / "other"
    other.mkdir()
    (other / "precious").touch()
    Path(toy.folder).symlink_to(other)
    monkeypatch.setattr(pip, "install", lambda *_: None)
    make.make(toy, tests=False)
    assert (other / "precious").exists()
    assert toy.holds("app")


def test_errors_of_the_file_system_become_sentences() -> None:
    assert explain(OSError(errno.ENOSPC, "x"), "F") == DISK_FULL.format(folder="F")
    for number in (errno.EROFS, errno.EACCES, errno.EPERM):
        assert explain(OSError(number, "x"), "F") == NOT_WRITABLE.format(folder="F")
    assert "loop" in explain(OSError(errno.ELOOP, "loop"), "F")


@pytest.mark.parametrize(
    ("output", "sentence"),
    [
        (
            "ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device",
            DISK_FULL,
        ),
        ("OSError: [Errno 30] Read-only file system: '/x'", NOT_WRITABLE),
        ("no such option: --python", pip.OLD_PIP),
        (
            "WARNING: Retrying (Retry(total=0)) after connection broken by 'NewConnectionError'\n"
            "ERROR: No matching distribution found for numpy>=2",
            pip.NO_NETWORK,
        ),
        ("ERROR: No matching distribution found for numpy>=2", "numpy>=2"),
        ("ERROR: Cannot install numpy>=2 because these package versions have conflicts.", "no numpy>=2 for"),
        ("ERROR: something new.\nlast words", "something new"),
        ("", "no reason given"),
    ],
)
def test_complaints_of_pip_become_sentences(output: str, sentence: str) -> None:
    """The outputs are pip's own words, from memory."""
    answer = pip.explain(output, "F")
    assert sentence.format(folder="F") in answer
    assert "\n" not in answer


def test_the_sign_of_a_fetched_package() -> None:
    """Lines of pip 23 to 25, from memory."""
    line = "  Downloading PySide6_Essentials-6.11.3-cp310-abi3-manylinux_2_34_x86_64.whl (96.3 MB)"
    found = pip.FETCHED.match(line)
    assert found
    assert found.groups() == ("PySide6_Essentials", "(96.3 MB)")
    stored = pip.FETCHED.match("  Using cached pyparsing-3.3.3-py3-none-any.whl (from ezdxf>=1.4)")
    assert stored
    assert stored.groups() == ("pyparsing", None)
    assert not pip.FETCHED.match("  Downloading ezdxf-1.4.5-py3-none-any.whl.metadata (10 kB)")
    assert not pip.FETCHED.match("Collecting ezdxf")


def test_no_pip_anywhere(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pip, "_candidates", lambda: iter([[sys.executable, "-c", "raise SystemExit(1)"]]))
    with pytest.raises(SetupError, match="needs pip"):
        pip.find()
