"""The file form of an offcut: what is written reads back, anything else is told in one line."""

import json
from typing import Any

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.shape import text_complaint
from core.offcuts.form import MAX_BYTES, OffcutFormError, offcut_bytes, parse_offcut
from core.offcuts.model import KeptOffcut, offcut_id, offcut_number
from tests.conftest import examples

SIZES = st.floats(0.0, 100_000.0, exclude_min=True)
TEXTS = st.text(max_size=40).filter(lambda text: text_complaint(text) is None)
OFFCUTS = st.builds(
    KeptOffcut,
    st.integers(1, 999_999_999).map(offcut_id),
    SIZES,
    SIZES,
    SIZES,
    veneer=st.floats(0.0, 100.0),
    face=TEXTS,
    date=st.one_of(st.just(""), st.dates().map(lambda day: day.isoformat())),
    project=TEXTS,
    sheet=TEXTS,
    piece=TEXTS,
    used_in=TEXTS,
    removed=st.booleans(),
)
PLAIN = KeptOffcut("offcut-3", 2130.5, 590.0, 18.2, face="Eiche, hell", date="2031-05-30", project="Küche")


def document(**changes: Any) -> bytes:
    return json.dumps(json.loads(offcut_bytes(PLAIN)) | changes).encode()


@settings(max_examples=examples(100, 2000))
@given(OFFCUTS)
def test_what_is_written_reads_back(offcut: KeptOffcut) -> None:
    assert parse_offcut(offcut_bytes(offcut)) == offcut


@settings(max_examples=examples(300, 5000))
@given(st.one_of(st.binary(max_size=300), st.text(max_size=300).map(str.encode)))
def test_any_bytes_are_an_offcut_or_one_line(data: bytes) -> None:
    with pytest.raises(OffcutFormError) as told:
        parse_offcut(data)
    assert len(str(told.value).splitlines()) == 1


@settings(max_examples=examples(300, 5000))
@given(st.integers(0, 400), st.integers(0, 255))
def test_a_changed_byte_is_an_offcut_or_one_line(place: int, byte: int) -> None:
    data = bytearray(offcut_bytes(PLAIN))
    data[place % len(data)] = byte
    try:
        said, offcut = "", parse_offcut(bytes(data))
    except OffcutFormError as error:
        said, offcut = str(error), PLAIN
    assert len(said.splitlines()) == (offcut is PLAIN)
    assert parse_offcut(offcut_bytes(offcut)) == offcut


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"format": "grainfold project"}, "not a grainfold offcut"),
        ({"version": 0}, "version 0"),
        ({"id": "offcut-0"}, "id"),
        ({"id": "../offcut-1"}, "id"),
        ({"length": 0}, "length"),
        ({"width": 1e9}, "width"),
        ({"thickness": "18"}, "thickness"),
        ({"veneer": -1}, "veneer"),
        ({"date": "30.5.2031"}, "date"),
        ({"date": "2031-02-30"}, "date"),
        ({"face": "two\nlines"}, "face"),
        ({"colour": "red"}, "colour"),
    ],
)
def test_what_is_wrong_is_named(changes: dict[str, Any], said: str) -> None:
    with pytest.raises(OffcutFormError, match=said) as told:
        parse_offcut(document(**changes))
    assert not told.value.newer


def test_a_newer_file_is_known_as_such() -> None:
    with pytest.raises(OffcutFormError) as told:
        parse_offcut(document(version=2, colour="red"))
    assert told.value.newer


def test_hostile_sizes_are_refused() -> None:
    for data in (b"[" * MAX_BYTES, b'{"a":' * 9000, b" " * (MAX_BYTES + 1), document(length=float("inf"))):
        with pytest.raises(OffcutFormError):
            parse_offcut(data)


@pytest.mark.parametrize("wrong", [{"length": float("nan")}, {"face": "\ud800"}, {"id": ""}])
def test_nothing_is_written_that_could_not_be_read(wrong: dict[str, Any]) -> None:
    with pytest.raises(OffcutFormError):
        offcut_bytes(msgspec.structs.replace(PLAIN, **wrong))


def test_numbers_and_ids() -> None:
    assert [offcut_number(text) for text in ("offcut-1", "offcut-42", "offcut-0", "offcut-01", "offcut-", "A")] == [
        1,
        42,
        None,
        None,
        None,
        None,
    ]
