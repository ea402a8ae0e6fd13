"""Paper that cannot be written, and names that no file could have: one sentence each, nothing half-written."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.export_command import MAKERS, run
from app.naming import LONGEST, MOST_BYTES, file_stem
from tests.contract.files import SAMPLE_FILE, put
from tests.contract.test_export_command import command
from tests.contract.test_refusals import refusal

NAMES = {
    "slashes": 'hall/left\\right: 3/4" ply',
    "emoji": "🪵 shelf 🪚🔨",
    "nothing but emoji": "🪵🪚",
    "300 letters": "w" * 300,
    "300 wide letters": "棚" * 300,
    "right to left": "مدفأة החלל",
    "dots": "../../etc",
    "a device": "CON",
}
LINUX = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="limits of files are set the Linux way")


@pytest.mark.parametrize("name", NAMES)
def test_a_folder_takes_every_file_whatever_the_projects_name(name: str, tmp_path: Path) -> None:
    project, folder = tmp_path / "p.grainfold", tmp_path / "out"
    project.write_bytes(put("name", NAMES[name]))
    folder.mkdir()
    assert run(project, folder, pages="cover") == 0
    written = sorted(folder.rglob("*"))
    assert {file.suffix for file in written} == set(MAKERS)
    assert {file.parent for file in written} == {folder}
    assert len({file.stem for file in written}) == 1
    assert all(file.stat().st_size > 0 for file in written)
    assert sorted(tmp_path.iterdir()) == [folder, project]


@pytest.mark.parametrize("name", NAMES)
def test_a_stem_is_a_name_that_any_system_takes(name: str) -> None:
    stem = file_stem(NAMES[name])
    assert 0 < len(stem) <= LONGEST + len(" project")
    assert len(stem.encode()) <= MOST_BYTES + len(" project")
    assert not set(stem) & set('/\\:*?"<>|\n\t\0')
    assert stem == stem.strip()
    assert stem.strip(".") == stem


@pytest.mark.parametrize("name", ["🪵 shelf", "שלום עולם", "مدفأة", "a b,c", "-", "x" * 200])
def test_a_file_is_written_under_the_very_name_that_is_asked_for(name: str, tmp_path: Path) -> None:
    target = tmp_path / f"{name}.pdf"
    assert run(SAMPLE_FILE, target, pages="cover") == 0
    assert list(tmp_path.iterdir()) == [target]
    assert target.read_bytes().startswith(b"%PDF-")


def test_a_name_of_300_letters_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    line = refusal(capsys, SAMPLE_FILE, tmp_path / f"{'w' * 300}.pdf")
    assert "the name is too long" in line


@pytest.mark.parametrize("ending", sorted(MAKERS))
def test_a_folder_where_a_file_should_be(ending: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / f"plan{ending}").mkdir()
    assert "is a folder" in refusal(capsys, SAMPLE_FILE, tmp_path / f"plan{ending}")


def test_a_folder_among_the_files_of_a_whole_export(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One name in the folder is taken by a folder: none of the other files is written either."""
    (tmp_path / "Hallway ledge.svg").mkdir()
    assert "is a folder" in refusal(capsys, SAMPLE_FILE, tmp_path)


def test_a_file_where_a_folder_should_be(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "out").write_text("a file")
    line = refusal(capsys, SAMPLE_FILE, tmp_path / "out" / "plan.pdf")
    assert "there is no folder" in line


@LINUX
@pytest.mark.parametrize("target", ["plan.pdf", "."])
def test_a_disk_that_is_full_in_the_middle_of_a_file(target: str, tmp_path: Path) -> None:
    """No file may grow past 1,000 bytes, as on a full disk: the older file stands, no part is left."""
    older = tmp_path / "plan.pdf"
    older.write_bytes(b"older")
    line = (
        "import resource, signal, sys; signal.signal(signal.SIGXFSZ, signal.SIG_IGN);"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000));"
        "from app.cli import main;"
        f"sys.exit(main(['export', {str(SAMPLE_FILE)!r}, '--to', {str(tmp_path / target)!r}]))"
    )
    done = subprocess.run([sys.executable, "-c", line], cwd=Path(__file__).parents[2], capture_output=True, text=True,
                          env=os.environ | {"PYTHONDONTWRITEBYTECODE": "1"}, check=False)  # fmt: skip
    assert done.returncode == 2
    assert len(done.stderr.splitlines()) == 1
    assert "cannot be written: the file is larger than this disk allows" in done.stderr
    assert list(tmp_path.iterdir()) == [older]
    assert older.read_bytes() == b"older"


@LINUX
def test_a_folder_of_the_system_takes_no_file() -> None:
    done = command(SAMPLE_FILE, "--to", "/proc/plan.pdf", "--pages", "cover")
    assert (done.returncode, done.stdout, len(done.stderr.splitlines())) == (2, "", 1)
    assert done.stderr.startswith("/proc/plan.pdf: cannot be written: ")
