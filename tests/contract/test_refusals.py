"""A file that cannot be used: exit code 2, one line that says where and why, nothing written, nothing lost."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.export_command import run
from core.document.errors import ProjectError
from core.document.load import load_project, parse_project
from tests.contract.files import REFUSED, SAMPLE_FILE

ROOT = Path(__file__).parents[2]


def refusal(capsys: pytest.CaptureFixture[str], project: Path, target: Path) -> str:
    """The one line with which an export is refused; nothing may have been written."""
    before = sorted(target.parent.iterdir()) if target.parent.is_dir() else None
    code = run(project, target, None, None)
    out, err = capsys.readouterr()
    assert code == 2, err
    assert out == ""
    assert err.endswith("\n")
    assert len(err.splitlines()) == 1, err  # splitlines knows every kind of line end
    assert "internal error" not in err
    assert "Traceback" not in err
    assert len(err) < 400 + len(str(project)) + len(str(target))
    if before is not None:
        assert sorted(target.parent.iterdir()) == before
    return err


@pytest.mark.parametrize("name", REFUSED)
def test_a_file_that_cannot_be_used_is_refused_in_one_line(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data, words = REFUSED[name]
    project = tmp_path / "wall.grainfold"
    project.write_bytes(data)
    line = refusal(capsys, project, tmp_path / "plan.json")
    assert line.startswith(f"{project}: ")
    assert words in line.removeprefix(f"{project}: ")
    assert project.read_bytes() == data


@pytest.mark.parametrize("name", ["empty", "100,000 lists deep", "duplicate key", "NaN", "a key with a line end"])
def test_the_command_refuses_in_one_line(name: str, tmp_path: Path) -> None:
    data, words = REFUSED[name]
    project, target = tmp_path / "wall.grainfold", tmp_path / "plan.json"
    project.write_bytes(data)
    command = [sys.executable, "-m", "app", "export", str(project), "--to", str(target)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert len(done.stderr.splitlines()) == 1
    assert words in done.stderr
    assert not target.exists()


def test_a_plan_is_never_written_over_an_older_one_by_a_refusal(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project, target = tmp_path / "wall.grainfold", tmp_path / "plan.json"
    project.write_bytes(REFUSED["zero"][0])
    target.write_text("an older plan")
    refusal(capsys, project, target)
    assert target.read_text() == "an older plan"


def test_a_folder_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "is a folder" in refusal(capsys, tmp_path, tmp_path / "plan.json")


def test_a_missing_file_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "no such file" in refusal(capsys, tmp_path / "wall.grainfold", tmp_path / "plan.json")
    assert "no such folder" in refusal(capsys, SAMPLE_FILE / "wall.grainfold", tmp_path / "plan.json")


def test_a_name_that_no_file_can_have_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "no file name" in refusal(capsys, tmp_path / "wall\0.grainfold", tmp_path / "plan.json")
    assert "too long" in refusal(capsys, tmp_path / ("w" * 300), tmp_path / "plan.json")


def test_a_file_of_50_mb_is_refused_unread(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    project = tmp_path / "wall.grainfold"
    with project.open("wb") as file:
        file.truncate(50_000_000)
    monkeypatch.setattr("core.document.load.open", pytest.fail, raising=False)
    assert "16 MB" in refusal(capsys, project, tmp_path / "plan.json")


def test_a_file_that_may_not_be_read_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def forbid(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("core.document.load.open", forbid, raising=False)
    assert "permission denied" in refusal(capsys, SAMPLE_FILE, tmp_path / "plan.json")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes in this system's folders")
def test_a_pipe_or_device_is_refused_and_not_waited_for(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    os.mkfifo(tmp_path / "pipe")
    for project in (tmp_path / "pipe", Path(os.devnull)):
        assert "not a file" in refusal(capsys, project, tmp_path / "plan.json")


def test_an_error_knows_place_reason_and_file_apart(tmp_path: Path) -> None:
    project = tmp_path / "wall.grainfold"
    project.write_bytes(REFUSED["zero"][0])
    with pytest.raises(ProjectError) as caught:
        load_project(project)
    error = caught.value
    assert (error.file, error.where) == (str(project), "shelves[0].height")
    assert str(error) == f"{error.file}: {error.where}: {error.why}"


def test_64_deep_is_read_as_far_as_it_goes() -> None:
    """One level less than what is refused for its depth is refused for what it holds instead."""
    with pytest.raises(ProjectError, match="must be an object"):
        parse_project(b"[" * 64 + b"]" * 64, "wall")
    with pytest.raises(ProjectError, match="nested"):
        parse_project(b"[" * 65 + b"]" * 65, "wall")


def test_brackets_in_texts_are_not_depth() -> None:
    text = "[{" * 60 + '\\"' + "[" * 60
    with pytest.raises(ProjectError, match="must be an object"):
        parse_project(f'"{text}"'.encode(), "wall")
