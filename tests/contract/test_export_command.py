"""`python3 -m app export`: what it writes, what it returns, and what it refuses to write over."""

from __future__ import annotations

import errno
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from app import export_command
from app.export_command import run
from tests.contract.files import SAMPLE_FILE, put
from tests.contract.test_refusals import ROOT, refusal

STARTS = {
    ".json": b"{",
    ".csv": b"shelf,",
    ".pdf": b"%PDF-",
    ".svg": b"<",
    ".dxf": b"  0\n",
    ".png": b"\x89PNG\r\n\x1a\n",
}


@pytest.fixture(autouse=True)
def traceback_of_a_bug(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(export_command.DEBUG, "1")


@pytest.fixture
def crowded(tmp_path: Path) -> Path:
    """A project that can be planned and cannot be built."""
    project = tmp_path / "crowded.grainfold"
    project.write_bytes(put("sheets.0.length", 1500))
    return project


def command(*words: object, **more: str) -> subprocess.CompletedProcess[str]:
    """The command as it is typed, with no screen to be had."""
    surroundings = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")}
    line = [sys.executable, "-m", "app", "export", *map(str, words)]
    return subprocess.run(line, cwd=ROOT, env=surroundings | more, capture_output=True, text=True, check=False)


@pytest.mark.parametrize("ending", STARTS)
def test_each_kind_of_file_is_written_without_a_screen(ending: str, tmp_path: Path) -> None:
    target = tmp_path / f"plan{ending}"
    done = command(SAMPLE_FILE, "--to", target)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    assert target.read_bytes().startswith(STARTS[ending])
    assert list(tmp_path.iterdir()) == [target]


def test_a_plan_with_errors_is_written_and_said(crowded: Path, tmp_path: Path) -> None:
    target = tmp_path / "plan.json"
    done = command(crowded, "--to", target)
    assert (done.returncode, done.stdout) == (1, "")
    errors = [f for f in json.loads(target.read_bytes())["findings"] if f["severity"] == "error"]
    lines = done.stderr.splitlines()
    assert len(lines) == len(errors) > 0
    for line, error in zip(lines, errors, strict=True):
        assert line == f"{error['about']}: {error['code']}: {error['message']}"


@pytest.mark.parametrize("ending", [".json", ".csv"])
def test_data_is_written_without_loading_qt(ending: str, tmp_path: Path) -> None:
    code = (
        "import sys; from app.cli import main; code = main(sys.argv[1:]);"
        "print(code, *sorted({'PySide6', 'shiboken6', 'pyqtgraph', 'OpenGL'} & set(sys.modules)))"
    )
    words = [sys.executable, "-c", code, "export", str(SAMPLE_FILE), "--to", str(tmp_path / f"plan{ending}")]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout == "0\n"


def test_the_ending_may_be_in_capitals(tmp_path: Path) -> None:
    assert run(SAMPLE_FILE, tmp_path / "PLAN.JSON") == 0
    assert json.loads((tmp_path / "PLAN.JSON").read_bytes())["format"] == "grainfold plan"


def test_an_older_file_is_replaced_and_the_project_left(tmp_path: Path) -> None:
    before = SAMPLE_FILE.read_bytes()
    target = tmp_path / "plan.json"
    target.write_text("an older plan")
    assert run(SAMPLE_FILE, target) == 0
    assert json.loads(target.read_bytes())["project"] == "Hallway ledge"
    assert SAMPLE_FILE.read_bytes() == before


def test_the_same_project_makes_the_same_file(tmp_path: Path) -> None:
    for name in ("one", "two"):
        assert run(SAMPLE_FILE, tmp_path / f"{name}.json") == 0
    assert (tmp_path / "one.json").read_bytes() == (tmp_path / "two.json").read_bytes()


def test_an_unknown_ending_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert ".step is not known" in refusal(capsys, SAMPLE_FILE, tmp_path / "plan.step")
    assert "no ending" in refusal(capsys, SAMPLE_FILE, tmp_path / "plan")
    assert ".grainfold is not known" in refusal(capsys, SAMPLE_FILE, tmp_path / "copy.grainfold")


def test_a_folder_is_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "plan.json").mkdir()
    assert "is a folder" in refusal(capsys, SAMPLE_FILE, tmp_path / "plan.json")


def test_a_missing_folder_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = tmp_path / "gone" / "plan.json"
    assert f"there is no folder {target.parent}" in refusal(capsys, SAMPLE_FILE, target)
    assert "there is no folder" in refusal(capsys, SAMPLE_FILE, SAMPLE_FILE / "plan.json")


@pytest.mark.parametrize("link", [None, "symlink_to", "hardlink_to"])
def test_the_project_itself_is_not_written_over(
    link: str | None, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project, target = tmp_path / "wall.json", tmp_path / "wall.json"
    project.write_bytes(SAMPLE_FILE.read_bytes())
    if link is not None:
        target = tmp_path / "plan.json"
        getattr(target, link)(project)
    assert "is the project file itself" in refusal(capsys, project, target)
    assert project.read_bytes() == SAMPLE_FILE.read_bytes()


@pytest.mark.parametrize(
    ("call", "code", "words"),
    [
        ("write", errno.ENOSPC, "no room left on the disk"),
        ("open", errno.EACCES, "permission denied"),
        ("open", errno.EROFS, "read-only"),
        ("replace", errno.EIO, "input/output error"),
    ],
)
def test_a_disk_that_takes_no_file_is_said(
    call: str,
    code: int,
    words: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(*_: object) -> None:
        raise OSError(code, os.strerror(code))

    target = tmp_path / "plan.json"
    target.write_text("an older plan")
    monkeypatch.setattr(f"core.export.atomic.os.{call}", fail)
    line = refusal(capsys, SAMPLE_FILE, target)
    monkeypatch.undo()
    assert line.startswith(f"{target}: cannot be written: ")
    assert words in line
    assert target.read_text() == "an older plan"


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_may_not_be_written_in(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "locked"
    folder.mkdir(mode=0o500)
    assert "permission denied" in refusal(capsys, SAMPLE_FILE, folder / "plan.json")


def test_an_unknown_drawing_is_refused_with_the_known_ones(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code = run(SAMPLE_FILE, tmp_path / "plan.svg", "no such thing")
    assert (code, list(tmp_path.iterdir())) == (2, [])
    line = capsys.readouterr().err
    assert len(line.splitlines()) == 1
    assert line.startswith("--drawing no such thing: there is no such drawing")


def test_an_unknown_paper_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(SAMPLE_FILE, tmp_path / "plan.pdf", None, "a9") == 2
    assert capsys.readouterr().err == "--paper a9: must be letter, a4, tabloid or a3\n"
    assert list(tmp_path.iterdir()) == []


def break_the_planner(monkeypatch: pytest.MonkeyPatch, error: BaseException) -> None:
    def fail(*_: object) -> None:
        raise error

    monkeypatch.setattr("core.plan.make.make_plan", fail)


def test_an_interrupt_has_its_own_code(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    break_the_planner(monkeypatch, KeyboardInterrupt())
    assert run(SAMPLE_FILE, tmp_path / "plan.json") == 130
    assert capsys.readouterr().err == ""
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("error", [RecursionError(), MemoryError(), ValueError("two\nlines"), KeyError("x")])
def test_a_bug_is_one_line_for_a_maker_and_a_traceback_for_us(
    error: Exception, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    break_the_planner(monkeypatch, error)
    with pytest.raises(type(error)):
        run(SAMPLE_FILE, tmp_path / "plan.json")
    monkeypatch.delenv(export_command.DEBUG)
    assert run(SAMPLE_FILE, tmp_path / "plan.json") == 2
    line = capsys.readouterr().err
    assert len(line.splitlines()) == 1
    assert f"internal error, {type(error).__name__}" in line
    assert list(tmp_path.iterdir()) == []
