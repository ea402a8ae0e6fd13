"""Kept saws as a file: they come back as they were, and whatever the bytes are, the answer is saws or one sentence."""

import json

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.document.model import Saw
from core.document.ranges import RANGES
from core.saws.form import FORMAT, MAX_NAME, SawFormError, parse_saws, saws_bytes

SAW = Saw(name="Long rail")


def document(**changes: object) -> bytes:
    saw = msgspec.to_builtins(SAW) | changes
    return json.dumps({"format": FORMAT, "version": 1, "saws": [saw]}).encode()


numbers = {
    key: st.floats(limits.least, limits.most, exclude_min=limits.above, allow_subnormal=False)
    for key, limits in RANGES[Saw].items()
}
names = st.text("abcäß 0123-/\"'", min_size=1, max_size=MAX_NAME).map(str.strip).filter(bool)
saws = st.builds(
    Saw,
    kind=st.sampled_from(("guided", "table")),
    lean=st.sampled_from(("under", "away")),
    face=st.sampled_from(("up", "down")),
    name=names,
    **numbers,
)


@given(st.lists(saws, max_size=4, unique_by=lambda saw: saw.name))
def test_saws_come_back_as_they_were(kept: list[Saw]) -> None:
    assert parse_saws(saws_bytes(kept)) == tuple(kept)


def test_what_a_file_leaves_out_is_as_in_a_project() -> None:
    data = json.dumps({"format": FORMAT, "version": 1, "saws": [{"name": "Old one"}]}).encode()
    assert parse_saws(data) == (Saw(name="Old one"),)


@pytest.mark.parametrize("key", sorted(RANGES[Saw]))
def test_every_number_is_checked_with_its_range(key: str) -> None:
    limits = RANGES[Saw][key]
    for value in (limits.least - 1.0, limits.most * 2.0 + 1.0):
        with pytest.raises(SawFormError, match=rf"saws\[0\]\.{key}: must be"):
            parse_saws(document(**{key: value}))
        with pytest.raises(SawFormError, match=key):
            saws_bytes((msgspec.structs.replace(SAW, **{key: value}),))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"kind": "band"}, r"saws\[0\]\.kind"),
        ({"kerf": "2.2"}, r"saws\[0\]\.kerf"),
        ({"colour": "red"}, r"saws\[0\]\.colour: unknown key"),
        ({"name": ""}, r"saws\[0\]\.name: must not be empty"),
        ({"name": " x"}, "blank"),
        ({"name": "x" * (MAX_NAME + 1)}, "characters"),
        ({"name": "a\nb"}, r"saws\[0\]\.name"),
    ],
)
def test_what_is_wrong_is_said_with_its_place(changes: dict[str, object], said: str) -> None:
    with pytest.raises(SawFormError, match=said) as told:
        parse_saws(document(**changes))
    assert "\n" not in str(told.value)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"{",
        b"\xff\xfe",
        b"null",
        b"[]",
        b'{"format": "grainfold saws", "version": 1}',
        b'{"format": "grainfold saws", "version": 1, "saws": {}}',
        b'{"format": "grainfold saws", "version": 1, "saws": [3]}',
        b'{"format": "grainfold offcut", "version": 1, "saws": []}',
        b'{"format": "grainfold saws", "version": 1, "saws": ' + b"[" * 100_000,
        b" " * (2**20 + 1),
    ],
)
def test_no_bytes_do_harm(data: bytes) -> None:
    with pytest.raises(SawFormError):
        parse_saws(data)


def test_a_newer_file_is_told_from_a_broken_one() -> None:
    data = json.dumps({"format": FORMAT, "version": 9, "saws": "elsewhere"}).encode()
    with pytest.raises(SawFormError, match="newer"):
        parse_saws(data)


def test_no_name_is_kept_twice() -> None:
    with pytest.raises(SawFormError, match=r"saws\[1\]\.name"):
        saws_bytes((SAW, msgspec.structs.replace(SAW, kerf=1.0)))
