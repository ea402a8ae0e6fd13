"""Pictures by the command line: no screen, the whole file or none, one line where it cannot be."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
import trimesh
from PIL import Image
from PySide6.QtWidgets import QApplication

from app.export_command import Wish, run_wish
from app.showing import turntable
from core.document.model import Mount, Project, Sheet, Shelf
from core.document.save import save_project

SHELVES = (
    Shelf("hall", 500.0, 150.0, 60.0, mount=Mount(100.0, 1400.0)),
    Shelf("nook", 300.0, 120.0, 60.0),
)


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, qapp: QApplication) -> Path:
    monkeypatch.setattr(turntable, "FRAMES", 5)
    path = tmp_path / "job.grainfold"
    save_project(Project((Sheet("ply", 1400.0, 900.0),), SHELVES, name="Job"), path)
    return path


def test_a_picture_of_the_shelves(job: Path, tmp_path: Path) -> None:
    target = tmp_path / "wall.png"
    assert run_wish(job, target, Wish(show="wall", pixels="320x200", clear=True, finish="oiled")) == 0
    with Image.open(target) as image:
        assert (image.size, image.mode) == ((320, 200), "RGBA")
        assert image.getchannel("A").getextrema() == (0, 255)
    assert run_wish(job, target, Wish(show="nook", pixels="320 × 200")) == 0
    with Image.open(target) as image:
        assert image.mode == "RGB"


def test_a_turntable(job: Path, tmp_path: Path) -> None:
    target = tmp_path / "turn.webp"
    assert run_wish(job, target, Wish(show="nook", pixels="160x100")) == 0
    with Image.open(target) as image:
        assert (image.n_frames, image.size) == (5, (160, 100))
        assert image.info["loop"] == 0


def test_a_model(job: Path, tmp_path: Path) -> None:
    target = tmp_path / "wall.GLB"
    assert run_wish(job, target, Wish()) == 0
    scene = trimesh.load(target, file_type="glb")
    assert scene.bounds[1][0] - scene.bounds[0][0] == pytest.approx(0.5, abs=0.002)


def test_a_drawing_stays_a_drawing(job: Path, tmp_path: Path) -> None:
    assert run_wish(job, tmp_path / "sheet.png", Wish()) == 0
    with Image.open(tmp_path / "sheet.png") as image:
        assert image.width > 1000


@pytest.mark.parametrize(
    ("wish", "word"),
    [
        (Wish(show="attic"), "hall, nook"),
        (Wish(show="wall", finish="shiny"), "raw or oiled"),
        (Wish(show="wall", pixels="big"), "1920x1080"),
        (Wish(show="wall", pixels="10x99999"), "64 to 8000"),
    ],
)
def test_what_cannot_be_is_one_line_and_nothing_is_written(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], wish: Wish, word: str
) -> None:
    target = tmp_path / "wall.png"
    assert run_wish(job, target, wish) == 2
    said = capsys.readouterr().err
    assert word in said
    assert said.count("\n") == 1
    assert not target.exists()


def test_a_file_that_was_there_stays_where_it_cannot_be_written(job: Path, tmp_path: Path) -> None:
    if os.geteuid() == 0:
        target = tmp_path / "none" / "wall.glb"
        assert run_wish(job, target, Wish()) == 2
        assert not target.parent.exists()
        return
    target = tmp_path / "wall.glb"
    target.write_bytes(b"mine")
    target.chmod(0o400)
    assert run_wish(job, target, Wish()) == 2
    assert target.read_bytes() == b"mine"


def test_a_folder_takes_no_pictures(job: Path, tmp_path: Path) -> None:
    folder = tmp_path / "out"
    folder.mkdir()
    assert run_wish(job, folder, Wish()) == 0
    assert {path.suffix for path in folder.iterdir()} == {".json", ".csv", ".pdf", ".svg", ".dxf", ".png"}
