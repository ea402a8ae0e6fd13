"""The store of offcuts on the disk: nothing is lost, whatever two windows or a broken file do."""

import json
import subprocess
import sys
from datetime import date
from pathlib import Path

import msgspec
import platformdirs
import pytest

from app.offcuts import Kept, OffcutStore, OffcutStoreError
from core.document.model import Project, Sheet, Shelf
from core.offcuts.form import offcut_bytes
from core.offcuts.model import KeptOffcut
from core.offcuts.rules import as_sheet
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.conftest import examples

PROJECT = Path(__file__).parents[2]
PIECE = KeptOffcut("", 1200.0, 300.0, 18.2, face="oak", date="2031-05-30", project="Hallway")
DAY = date(2031, 5, 30)

WINDOW = """
import sys
from pathlib import Path
from app.offcuts import OffcutStore
from core.offcuts.model import KeptOffcut
store, name = OffcutStore(Path(sys.argv[1])), sys.argv[2]
print("ready", flush=True)
sys.stdin.read(1)
for n in range(int(sys.argv[3])):
    kept = store.add(KeptOffcut("", 1000.0 + n, 200.0, 18.0, project=name))
    store.mark_used("offcut-1", name)
    assert not store.everything().said
    if n % 2:
        store.remove(kept.id)
"""


@pytest.fixture
def store(tmp_path: Path) -> OffcutStore:
    return OffcutStore(tmp_path / "deep" / "rack")


def plan() -> Plan:
    return make_plan(Project((Sheet("A", 2440.0, 1220.0, 18.0),), (Shelf("a", 900.0, 200.0, 80.0),), name="Hallway"))


def test_it_lies_where_the_system_keeps_such_things() -> None:
    assert OffcutStore().folder.is_relative_to(platformdirs.user_data_path())
    assert OffcutStore().listing().offcuts == ()


def test_what_is_added_is_there_for_the_next_window(store: OffcutStore) -> None:
    assert store.listing() == OffcutStore(store.folder).listing()
    small = store.add(PIECE)
    large = store.add(msgspec.structs.replace(PIECE, length=2000.0))
    assert (small.id, large.id) == ("offcut-1", "offcut-2")
    assert msgspec.structs.replace(small, id="") == PIECE
    listing = OffcutStore(store.folder).listing()
    assert (listing.offcuts, listing.said) == ((large, small), ())


def test_used_and_removed_are_listed_no_more_and_come_back(store: OffcutStore) -> None:
    one, two, three = (store.add(msgspec.structs.replace(PIECE, length=900.0 - n)) for n in range(3))
    used, gone = store.mark_used(one.id, "Kitchen"), store.remove(two.id)
    assert (used.used_in, gone.removed) == ("Kitchen", True)
    assert store.listing().offcuts == (three,)
    assert store.everything().offcuts == (used, gone, three)
    assert (store.put_back(one.id), store.put_back(two.id)) == (one, two)
    assert store.listing().offcuts == (one, two, three)


def test_a_number_is_never_given_twice(store: OffcutStore) -> None:
    last = [store.add(PIECE) for _ in range(3)][-1]
    store.remove(last.id)
    assert store.add(PIECE).id == "offcut-4"
    (store.folder / "offcut-9.json").write_bytes(b"broken")
    store.listing()
    assert store.add(PIECE).id == "offcut-10"


def test_a_piece_measured_anew(store: OffcutStore) -> None:
    kept = store.add(PIECE)
    anew = msgspec.structs.replace(kept, width=298.5, face="oak, one dent")
    store.change(anew)
    assert store.listing().offcuts == (anew,)
    with pytest.raises(OffcutStoreError, match="length"):
        store.change(msgspec.structs.replace(anew, length=-1.0))
    assert store.listing().offcuts == (anew,)


def test_a_plan_is_kept_once(store: OffcutStore) -> None:
    made = plan()
    kept = store.keep(made, "oak", DAY).new
    assert len(kept) == len(made.offcuts) > 1
    assert {(o.face, o.date, o.project) for o in kept} == {("oak", "2031-05-30", "Hallway")}
    assert store.keep(made, "oak", DAY) == Kept(known=len(kept))
    store.mark_used(kept[0].id, "Kitchen")
    store.remove(kept[1].id)  # thrown away, then cut once more: that is another piece
    again = store.keep(made, "oak", DAY).new
    assert [(o.piece, o.length, o.width) for o in again] == [(kept[1].piece, kept[1].length, kept[1].width)]


def test_what_was_kept_is_taken_back(store: OffcutStore) -> None:
    kept = store.keep(plan(), today=DAY)
    store.unkeep(kept)
    assert store.listing().offcuts == ()
    assert len(store.keep(plan(), today=DAY).new) == len(kept.new)


def test_an_offcut_that_is_sawn_up_is_used_and_hands_on_its_face(store: OffcutStore) -> None:
    old = store.add(msgspec.structs.replace(PIECE, width=600.0, face="rift oak"))
    shelf = Shelf("a", 500.0, 150.0, 80.0)
    made = make_plan(Project((as_sheet(old),), (shelf,), name="Kitchen"))
    assert made.offcuts
    kept = store.keep(made, today=DAY)
    assert [(o.id, o.used_in) for o in kept.used] == [(old.id, "Kitchen")]
    assert {o.face for o in kept.new} == {"rift oak"}
    assert old.id not in {o.id for o in store.listing().offcuts}
    store.unkeep(kept)
    assert store.listing().offcuts == (old,)


def test_what_an_earlier_plan_left_is_told(store: OffcutStore) -> None:
    first = store.keep(plan(), today=DAY)
    longer = make_plan(Project((Sheet("A", 2440.0, 1220.0, 18.0),), (Shelf("a", 950.0, 200.0, 80.0),), name="Hallway"))
    second = store.keep(longer, today=DAY)
    assert second.new
    assert set(second.stale) <= set(first.new)
    assert len(second.stale) + second.known == len(first.new)
    other = msgspec.structs.replace(plan().project, name="Kitchen")
    assert store.keep(make_plan(other), today=DAY).stale == ()


def test_where_one_cannot_be_kept_none_is(store: OffcutStore, monkeypatch: pytest.MonkeyPatch) -> None:
    kept, written = store.add(PIECE), []

    def fills_up(path: Path, data: bytes) -> None:
        if written:
            raise OSError(28, "No space left on device")
        written.append(path)
        path.write_bytes(data)

    monkeypatch.setattr("app.offcuts.write_atomically", fills_up)
    with pytest.raises(OffcutStoreError, match="no room"):
        store.keep(plan(), today=DAY)
    assert written
    assert store.everything().offcuts == (kept,)


@pytest.mark.parametrize("name", ["offcut-1", "", "../offcut-1", "A", "offcut-1/x"])
def test_what_is_not_there_is_said(store: OffcutStore, name: str) -> None:
    for attempt in (store.remove, store.put_back, lambda at: store.mark_used(at, "Kitchen")):
        with pytest.raises(OffcutStoreError, match="no "):
            attempt(name)
    assert not store.folder.exists()


# Broken files


@pytest.mark.parametrize("data", [b"{", b"\xff\xfe", b"null", b'{"format": "grainfold offcut", "version": 1}'])
def test_a_broken_file_is_set_aside_and_said_once(store: OffcutStore, data: bytes) -> None:
    whole, broken = store.add(PIECE), store.add(PIECE)
    (store.folder / f"{broken.id}.json").write_bytes(data)
    (store.folder / f"{broken.id}.json.bad").write_bytes(b"an older one")
    listing = store.listing()
    assert listing.offcuts == (whole,)
    (sentence,) = listing.said
    assert "offcut-2.json" in sentence
    assert "offcut-2.json.bad2" in sentence
    assert (store.folder / "offcut-2.json.bad2").read_bytes() == data
    assert (store.folder / "offcut-2.json.bad").read_bytes() == b"an older one"
    assert store.listing() == OffcutStore(store.folder).listing()
    assert store.listing().said == ()


def test_a_file_under_another_name_is_broken(store: OffcutStore) -> None:
    kept = store.add(PIECE)
    copy = store.folder / "offcut-5.json"
    copy.write_bytes(offcut_bytes(kept))
    assert len(store.listing().said) == 1
    assert not copy.exists()
    assert store.listing().offcuts == (kept,)


def test_a_newer_file_is_left_alone(store: OffcutStore) -> None:
    kept = store.add(PIECE)
    path = store.folder / f"{kept.id}.json"
    data = json.dumps(json.loads(path.read_bytes()) | {"version": 7, "colour": "red"}).encode()
    path.write_bytes(data)
    assert "newer" in store.listing().said[0]
    with pytest.raises(OffcutStoreError, match="newer"):
        store.remove(kept.id)
    assert path.read_bytes() == data


def test_other_files_are_not_touched(store: OffcutStore) -> None:
    kept = store.add(PIECE)
    for name in ("notes.txt", "offcut-x.json", "offcut-3.json.bad", ".part"):
        (store.folder / name).write_bytes(b"mine")
    assert store.listing().offcuts == (kept,)
    assert store.listing().said == ()
    assert (store.folder / "offcut-x.json").read_bytes() == b"mine"


def test_a_number_claimed_but_not_filled_is_no_offcut(store: OffcutStore) -> None:
    kept = store.add(PIECE)
    (store.folder / "offcut-2.json").touch()  # as a crash between claim and write leaves it
    assert (store.listing().offcuts, store.listing().said) == ((kept,), ())
    assert store.add(PIECE).id == "offcut-3"


# Where nothing can be written


def test_a_store_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    store = OffcutStore(tmp_path / "file" / "rack")
    with pytest.raises(OffcutStoreError) as told:
        store.add(PIECE)
    assert str(store.folder) in str(told.value)
    assert store.listing().offcuts == ()


def test_a_failed_write_leaves_the_piece_and_no_claim(store: OffcutStore, monkeypatch: pytest.MonkeyPatch) -> None:
    kept = store.add(PIECE)

    def full(path: object, data: bytes) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("app.offcuts.write_atomically", full)
    with pytest.raises(OffcutStoreError, match="no room"):
        store.mark_used(kept.id, "Kitchen")
    with pytest.raises(OffcutStoreError, match="no room"):
        store.add(PIECE)
    assert store.listing().offcuts == (kept,)
    assert sorted(path.name for path in store.folder.iterdir()) == ["offcut-1.json"]


def test_a_piece_that_could_not_be_read_again_is_refused(store: OffcutStore) -> None:
    with pytest.raises(OffcutStoreError, match="width"):
        store.add(msgspec.structs.replace(PIECE, width=0.0))
    assert not store.folder.exists()


# Two windows


def test_windows_at_once_lose_nothing(store: OffcutStore) -> None:
    count, names = examples(20, 100), ("left", "middle", "right")
    store.add(PIECE)
    command, pipe = [sys.executable, "-c", WINDOW, str(store.folder)], subprocess.PIPE
    windows = [
        subprocess.Popen([*command, name, str(count)], cwd=PROJECT, stdin=pipe, stdout=pipe, stderr=pipe)
        for name in names
    ]
    for window in windows:
        assert window.stdout is not None
        assert window.stdout.readline() == b"ready\n"
    for window in windows:
        assert window.stdin is not None
        window.stdin.write(b"x")
        window.stdin.flush()
    assert [window.communicate()[1] for window in windows] == [b""] * len(names)
    found = store.everything()
    assert found.said == ()
    assert [int(o.id.removeprefix("offcut-")) for o in sorted(found.offcuts, key=lambda o: int(o.id[7:]))] == list(
        range(1, 2 + count * len(names))
    )
    for name in names:
        mine = {o.length: o.removed for o in found.offcuts if o.project == name}
        assert mine == {1000.0 + n: bool(n % 2) for n in range(count)}
    assert next(o for o in found.offcuts if o.id == "offcut-1").used_in in names
