"""Writing projects: nothing changes on the way to the disk and back, and no failure costs the old file."""

from __future__ import annotations

import errno
import json
import os
import stat
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document import Studs
from core.document.errors import ProjectError
from core.document.load import load_project, parse_project
from core.document.save import dump_project, save_project
from core.export.atomic import write_atomically
from tests.conftest import examples
from tests.contract.files import SAMPLE, SAMPLE_FILE
from tests.strategies import projects, projects_with_areas

ROOT = Path(__file__).parents[2]
EXAMPLE = load_project(SAMPLE_FILE)


@settings(max_examples=examples(50, 1000))
@given(projects() | projects_with_areas())
def test_load_of_dump_is_the_same_project(project) -> None:
    assert parse_project(dump_project(project), "another name") == project


@given(st.floats(min_value=1e-300, max_value=1e5), st.floats(min_value=-1e5, max_value=1e5))
def test_every_number_comes_back_bit_for_bit(size: float, place: float) -> None:
    shelf = msgspec.structs.replace(EXAMPLE.shelves[0], length=size, at=(place, size))
    wall = msgspec.structs.replace(EXAMPLE.wall, studs=(place, size, -size))
    project = msgspec.structs.replace(EXAMPLE, shelves=(shelf,), wall=wall)
    assert parse_project(dump_project(project), "") == project


@given(st.text(max_size=30), st.text(max_size=30))
def test_a_text_is_refused_or_comes_back(name: str, name_of_shelf: str) -> None:
    shelf = msgspec.structs.replace(EXAMPLE.shelves[0], id=name_of_shelf)
    project = msgspec.structs.replace(EXAMPLE, name=name, shelves=(shelf,))
    try:
        data = dump_project(project)
    except ProjectError:
        return
    assert parse_project(data, "") == project


def test_keys_stand_in_the_order_of_the_description() -> None:
    written = json.loads(dump_project(EXAMPLE))
    assert list(written) == list(SAMPLE)
    for key, value in SAMPLE.items():
        if isinstance(value, dict):
            assert list(written[key]) == list(value), key
    assert list(written["shelves"][0]) == list(SAMPLE["shelves"][0])
    assert list(written["sheets"][0]) == list(SAMPLE["sheets"][0])
    assert written == SAMPLE


def test_a_file_is_written_for_people() -> None:
    wall = msgspec.structs.replace(EXAMPLE.wall, studs=(200.0, 606.4, 1012.8))
    lines = dump_project(msgspec.structs.replace(EXAMPLE, wall=wall)).decode().splitlines()
    assert '      "length": 1320,' in lines
    assert '    "studs": [200, 606.4, 1012.8],' in lines


def test_text_that_looks_like_a_list_is_left_alone() -> None:
    project = msgspec.structs.replace(EXAMPLE, name="[ 1,  2 ] and [\\n  3\\n]")
    assert parse_project(dump_project(project), "") == project


def test_a_project_that_could_not_be_read_again_is_not_written(tmp_path: Path) -> None:
    wall = msgspec.structs.replace(EXAMPLE.wall, studs=Studs(spacing=0.0))
    for broken in (
        msgspec.structs.replace(EXAMPLE, wall=wall),
        msgspec.structs.replace(EXAMPLE, name="\ud800"),
        msgspec.structs.replace(EXAMPLE, name="two\nlines"),
    ):
        file = tmp_path / "wall.grainfold"
        with pytest.raises(ProjectError):
            save_project(broken, file)
        assert list(tmp_path.iterdir()) == []


def refuse(code: int) -> Callable[..., int]:
    """Stands in for a call of the system that fails."""

    def fail(*_: object) -> int:
        raise OSError(code, os.strerror(code))

    return fail


@pytest.mark.parametrize("call", ["write", "fsync", "replace", "close", "open"])
@pytest.mark.parametrize("existed", [True, False])
def test_whatever_fails_the_old_file_stands(
    call: str, existed: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "wall.grainfold"
    if existed:
        file.write_bytes(b"the old file")
    real_close = os.close

    def close_and_fail(descriptor: int) -> None:  # as a network disk does when it is full
        real_close(descriptor)
        refuse(errno.ENOSPC)()

    monkeypatch.setattr(os, call, close_and_fail if call == "close" else refuse(errno.ENOSPC))
    with pytest.raises(ProjectError) as caught:
        save_project(EXAMPLE, file)
    monkeypatch.undo()
    assert str(caught.value) == f"{file}: cannot be written: no room left on the disk"
    assert list(tmp_path.iterdir()) == ([file] if existed else [])
    if existed:
        assert file.read_bytes() == b"the old file"


def test_an_interrupt_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "wall.grainfold"
    file.write_bytes(b"the old file")

    def interrupt(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupt)
    with pytest.raises(KeyboardInterrupt):
        write_atomically(file, b"the new file")
    assert [p.read_bytes() for p in tmp_path.iterdir()] == [b"the old file"]


FULL_DISK = """
import resource, sys
from core.export.atomic import write_atomically
resource.setrlimit(resource.RLIMIT_FSIZE, (70_000, 70_000))
try:
    write_atomically(sys.argv[1], b"x" * 100_000)
except OSError as error:
    print(error.errno)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no limits of a file's size there")
def test_a_disk_that_fills_up_half_way_leaves_the_old_file(tmp_path: Path) -> None:
    """With a real limit of the system, which takes part of the data before it refuses the rest."""
    file = tmp_path / "wall.grainfold"
    file.write_bytes(b"the old file")
    command = [sys.executable, "-c", FULL_DISK, str(file)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    assert int(done.stdout) == errno.EFBIG
    assert [p.read_bytes() for p in tmp_path.iterdir()] == [b"the old file"]


def test_short_writes_are_gone_on_with(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = os.write
    monkeypatch.setattr(os, "write", lambda descriptor, data: real(descriptor, data[:7]))
    write_atomically(tmp_path / "plan.json", bytes(range(100)))
    assert (tmp_path / "plan.json").read_bytes() == bytes(range(100))


@pytest.mark.skipif(os.name == "nt", reason="permission bits of POSIX")
@pytest.mark.parametrize("mode", [0o600, 0o640, 0o755])
def test_permissions_of_an_existing_file_are_kept(mode: int, tmp_path: Path) -> None:
    file = tmp_path / "wall.grainfold"
    file.write_bytes(b"old")
    file.chmod(mode)
    write_atomically(file, b"new")
    assert (stat.S_IMODE(file.stat().st_mode), file.read_bytes()) == (mode, b"new")


@pytest.mark.skipif(os.name == "nt", reason="permission bits of POSIX")
def test_a_new_file_has_the_permissions_any_new_file_has(tmp_path: Path) -> None:
    (tmp_path / "plain").write_bytes(b"")
    write_atomically(tmp_path / "ours", b"")
    assert (tmp_path / "ours").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_a_file_that_may_not_be_written_is_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "wall.grainfold"
    file.write_bytes(b"old")
    monkeypatch.setattr(os, "access", lambda *_: False)  # root may write everything
    with pytest.raises(PermissionError):
        write_atomically(file, b"new")
    assert [p.read_bytes() for p in tmp_path.iterdir()] == [b"old"]


@pytest.mark.skipif(os.name == "nt", reason="making links needs rights there")
def test_a_link_goes_on_pointing_to_what_it_pointed_to(tmp_path: Path) -> None:
    (tmp_path / "shop").mkdir()
    real, link, dangling = tmp_path / "shop" / "wall", tmp_path / "link", tmp_path / "dangling"
    real.write_bytes(b"old")
    link.symlink_to(real)
    dangling.symlink_to(tmp_path / "shop" / "new")
    for path in (link, dangling):
        write_atomically(path, b"new")
        assert path.is_symlink()
    assert (real.read_bytes(), dangling.read_bytes()) == (b"new", b"new")
    assert sorted(p.name for p in (tmp_path / "shop").iterdir()) == ["new", "wall"]


def test_folders_and_devices_are_not_written_over(tmp_path: Path) -> None:
    for path in (tmp_path, os.devnull):
        with pytest.raises(OSError):  # noqa: PT011 - which of its kinds is the system's choice
            write_atomically(path, b"new")


def test_a_save_names_the_folder_that_is_missing(tmp_path: Path) -> None:
    with pytest.raises(ProjectError, match="cannot be written: no such file or folder"):
        save_project(EXAMPLE, tmp_path / "gone" / "wall.grainfold")
