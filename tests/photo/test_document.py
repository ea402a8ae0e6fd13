"""A project with photographs: pictures beside it, missing ones told, the made-up face standing in."""

from __future__ import annotations

import json
from pathlib import Path

import msgspec
import numpy as np
from pytestqt.qtbot import QtBot

from app.fold.faces import FaceKey, Seen, face_picture
from app.store import Store
from app.window.files import Files
from app.window.preferences import Preferences
from core.document.check import check_project
from core.document.load import load_project
from core.document.model import Photo, Project, Sheet, Shelf
from core.document.patch import apply_pointers
from core.document.save import save_project
from core.face import veneer
from core.findings.pictures import with_picture_findings
from core.photo.opening import checksum, troubles_beside
from core.plan.make import make_plan
from tests.photo.synthetic import file_of, photographed

SIZE = (1200, 900)
SEEN = ((130.0, 720.0), (1070.0, 750.0), (980.0, 220.0), (200.0, 200.0))
SHARES = tuple((x / SIZE[0], y / SIZE[1]) for x, y in SEEN)
SHEET = veneer(2440.0, 1220.0, 5, 1024, 512)
DATA = file_of(photographed(SHEET, SEEN, SIZE), quality=95)
PHOTO = Photo("oak.jpg", checksum(DATA), SHARES, even=0.0)
WAIT_MS = 10_000


def project(*photos: Photo, quantity: int = 1) -> Project:
    sheet = Sheet("A", 2440.0, 1220.0, quantity=quantity, photos=photos)
    found = Project((sheet,), (Shelf("ledge", 1320.0, 210.0, 84.0),), "Oak")
    check_project(found)
    return found


def troubles(of: Project, folder: Path) -> dict[str, str]:
    return troubles_beside({photo.sum: photo.file for sheet in of.sheets for photo in sheet.photos}, folder)


def test_the_file_keeps_it(tmp_path: Path) -> None:
    path = tmp_path / "oak.grainfold"
    save_project(project(PHOTO), path)
    assert load_project(path) == project(PHOTO)
    assert json.loads(path.read_text("utf-8"))["sheets"][0]["photos"][0]["file"] == "oak.jpg"


def test_a_missing_and_a_changed_picture_are_told_and_can_be_done_without(tmp_path: Path) -> None:
    plan = make_plan(project(PHOTO))
    assert with_picture_findings(plan, {}) is plan
    for data in (None, DATA[:-1], b""):
        if data is not None:
            (tmp_path / "oak.jpg").write_bytes(data)
        told = with_picture_findings(plan, troubles(plan.project, tmp_path))
        (finding,) = (f for f in told.findings if f.code == "picture")
        assert (finding.severity, finding.about) == ("warning", "A")
        mended = apply_pointers(plan.project, finding.fixes[0].set)
        assert mended.sheets[0].photos == ()
    (tmp_path / "oak.jpg").write_bytes(DATA)
    assert with_picture_findings(plan, troubles(plan.project, tmp_path)) is plan


def test_only_the_first_copy_is_the_sheet_that_was_photographed() -> None:
    shelves = tuple(Shelf(name, 1500.0, 300.0, 84.0) for name in ("one", "two", "three"))
    plan = make_plan(msgspec.structs.replace(project(PHOTO, quantity=3), shelves=shelves))
    assert [len(sheet.photos) for sheet in plan.sheets][:2] == [1, 0]


def key(path: Path, *photos: Photo) -> FaceKey:
    return FaceKey(2440.0, 1220.0, 9, photos=tuple(Seen(photo, str(path)) for photo in photos))


def unlike(one: np.ndarray, other: np.ndarray) -> float:
    return float(np.abs(one.astype(int) - other).mean())


def test_the_face_is_the_photographs_and_the_made_up_one_stands_in(tmp_path: Path) -> None:
    path = tmp_path / "oak.jpg"
    path.write_bytes(DATA)
    pixels = (512, 256)
    small = SHEET.reshape(256, 2, 512, 2, 3).mean(axis=(1, 3))
    made_up = face_picture(key(path), pixels)
    seen = face_picture(key(path, PHOTO), pixels)
    assert unlike(seen, small) < 0.5 * unlike(made_up, small)
    path.write_bytes(DATA + b"x")
    assert (face_picture(key(path, PHOTO), pixels) == made_up).all()
    assert (face_picture(key(tmp_path / "none.jpg", PHOTO), pixels) == made_up).all()


def test_a_part_lies_in_its_place_and_two_parts_join(tmp_path: Path) -> None:
    path = tmp_path / "oak.jpg"
    path.write_bytes(DATA)
    pixels = (512, 256)
    left = msgspec.structs.replace(PHOTO, part=(0.0, 0.0, 1220.0, 1220.0))
    right = msgspec.structs.replace(PHOTO, part=(1220.0, 0.0, 2440.0, 1220.0), mirror="along")
    half = face_picture(key(path, left), pixels)
    made_up = face_picture(key(path), pixels)
    assert (half[:, 256:] == made_up[:, 256:]).all()
    assert unlike(half[:, :240], made_up[:, :240]) > 3.0
    both = face_picture(key(path, left, right), pixels)
    assert unlike(both[:, 10:200], both[:, ::-1][:, 10:200]) < 0.3 * unlike(both[:, 10:200], both[:, 266:456])


def test_the_window_finds_it_beside_the_project_and_saving_lays_it_there(qtbot: QtBot, tmp_path: Path) -> None:
    source, path = tmp_path / "from" / "IMG.jpg", tmp_path / "jobs" / "oak.grainfold"
    for file in (source, path):
        file.parent.mkdir()
    source.write_bytes(DATA)
    store = Store(project())
    store.pictures.add(str(source), PHOTO.sum)
    store.apply("Photograph", lambda _: project(PHOTO))
    assert store.pictures.where(PHOTO) == str(source)
    assert store.pictures.lay_beside(store.project, path) == ""
    assert (path.parent / "oak.jpg").read_bytes() == DATA
    save_project(store.project, path)

    later = Store(project())
    later.replace_document(load_project(path), path)
    qtbot.waitUntil(lambda: not later.pictures.is_busy, timeout=WAIT_MS)
    assert Path(later.pictures.where(PHOTO)) == path.parent / "oak.jpg"
    (path.parent / "oak.jpg").write_bytes(DATA[:50])
    with qtbot.waitSignal(later.pictures.changed, timeout=WAIT_MS):
        later.pictures.check_again()
    assert later.pictures.where(PHOTO) == ""
    assert later.pictures.troubles


def test_a_picture_that_is_gone_keeps_the_project_unsaved(qtbot: QtBot, tmp_path: Path) -> None:
    store = Store(project())
    gone = tmp_path / "gone.jpg"
    store.pictures.add(str(gone), PHOTO.sum)
    store.apply("Photograph", lambda _: project(PHOTO))
    said: list[str] = []

    class Line:
        def say(self, _tone: str, text: str, _answers: object = ()) -> None:
            said.append(text)

    files = Files(store, Line(), Preferences(), None)  # type: ignore[arg-type]  # it only says
    assert not files._write(tmp_path / "oak.grainfold")
    assert store.unsaved
    assert not (tmp_path / "oak.grainfold").exists()
    assert "oak.jpg" in said[0]
