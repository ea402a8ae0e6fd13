"""The store of saws on the disk: nothing is lost, whatever two windows or a broken file do."""

import subprocess
import sys
from pathlib import Path

import msgspec
import platformdirs
import pytest
from PySide6.QtCore import QLockFile

from app.saws import SawStore, SawStoreError
from core.document.model import Saw
from core.saws.form import saws_bytes
from tests.conftest import examples

PROJECT = Path(__file__).parents[2]
RAIL = Saw(name="Long rail", kerf=1.8)
TABLE = Saw(name="Bench saw", kind="table", kerf=3.2)

WINDOW = """
import sys
from pathlib import Path
from app.saws import SawStore
from core.document.model import Saw
store, name = SawStore(Path(sys.argv[1])), sys.argv[2]
print("ready", flush=True)
sys.stdin.read(1)
for n in range(int(sys.argv[3])):
    store.keep(Saw(name=f"{name} {n}", kerf=1.0 + n / 100))
    if n % 2:
        store.remove(f"{name} {n}")
"""


@pytest.fixture
def store(tmp_path: Path) -> SawStore:
    return SawStore(tmp_path / "deep" / "saws.json")


def test_it_lies_where_the_system_keeps_such_things() -> None:
    assert SawStore().file.is_relative_to(platformdirs.user_data_path())
    assert not SawStore().file.is_relative_to(Path.home() / ".local")  # a test's home is its own
    assert SawStore().listing() == ()


def test_what_is_kept_is_there_for_the_next_window(store: SawStore) -> None:
    assert store.listing() == ()
    assert not store.file.parent.exists()  # looking makes nothing
    store.keep(RAIL)
    assert store.keep(TABLE) == (TABLE, RAIL)
    assert SawStore(store.file).listing() == (TABLE, RAIL)


def test_kept_again_under_its_name_it_takes_the_place_of_what_was(store: SawStore) -> None:
    store.keep(RAIL)
    anew = msgspec.structs.replace(RAIL, kerf=2.0)
    assert store.keep(anew) == (anew,)


def test_renamed_and_removed(store: SawStore) -> None:
    store.keep(RAIL)
    store.keep(TABLE)
    store.rename("Long rail", "Old rail")
    assert store.listing() == (TABLE, msgspec.structs.replace(RAIL, name="Old rail"))
    with pytest.raises(SawStoreError, match="already"):
        store.rename("Old rail", "Bench saw")
    store.remove("Bench saw")
    assert [saw.name for saw in store.listing()] == ["Old rail"]
    for attempt in (lambda: store.remove("Bench saw"), lambda: store.rename("Bench saw", "x")):
        with pytest.raises(SawStoreError, match="no saw"):
            attempt()


@pytest.mark.parametrize("name", ["", "  ", "x" * 500, "a\nb"])
def test_a_name_that_is_none_is_refused(store: SawStore, name: str) -> None:
    store.keep(RAIL)
    with pytest.raises(SawStoreError, match="name"):
        store.keep(msgspec.structs.replace(TABLE, name=name))
    with pytest.raises(SawStoreError, match="name"):
        store.rename("Long rail", name)
    assert store.listing() == (RAIL,)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"{",
        b"\xff\xfe",
        saws_bytes((RAIL,)).replace(b"1.8", b"-1.8"),
        saws_bytes((RAIL,)).replace(b'"version": 1', b'"version": 2'),
    ],
)
def test_a_broken_or_newer_file_is_refused_in_a_sentence_and_never_written_over(store: SawStore, data: bytes) -> None:
    store.keep(RAIL)
    store.file.write_bytes(data)
    attempts = (
        store.listing,
        lambda: store.keep(TABLE),
        lambda: store.remove("Long rail"),
        lambda: store.rename("Long rail", "x"),
    )
    for attempt in attempts:
        with pytest.raises(SawStoreError) as told:
            attempt()
        assert str(store.file) in str(told.value)
        assert str(told.value).endswith(".")
        assert "\n" not in str(told.value)
    assert store.file.read_bytes() == data


def test_where_nothing_can_be_written_that_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    store = SawStore(tmp_path / "file" / "saws.json")
    with pytest.raises(SawStoreError, match="No saw can be kept"):
        store.keep(RAIL)


def test_a_failed_write_leaves_what_was(store: SawStore, monkeypatch: pytest.MonkeyPatch) -> None:
    store.keep(RAIL)

    def full(path: object, data: bytes) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("app.saws.write_atomically", full)
    with pytest.raises(SawStoreError, match="no room"):
        store.keep(TABLE)
    monkeypatch.undo()
    assert store.keep(TABLE) == (TABLE, RAIL)  # and the lock is free again


def test_a_window_that_holds_the_lock_for_good_is_told(store: SawStore, monkeypatch: pytest.MonkeyPatch) -> None:
    store.keep(RAIL)
    monkeypatch.setattr("app.saws.PATIENCE", 0.05)
    other = QLockFile(f"{store.file}.lock")
    assert other.tryLock(0)
    with pytest.raises(SawStoreError, match="another window"):
        store.keep(TABLE)
    assert store.listing() == (RAIL,)  # looking needs no lock
    other.unlock()
    assert store.keep(TABLE) == (TABLE, RAIL)


def test_windows_at_once_lose_nothing(store: SawStore) -> None:
    count, names = examples(10, 60), ("left", "middle", "right")
    command, pipe = [sys.executable, "-c", WINDOW, str(store.file)], subprocess.PIPE
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
    expected = {f"{name} {n}" for name in names for n in range(0, count, 2)}
    assert {saw.name for saw in store.listing()} == expected
