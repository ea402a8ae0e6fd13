"""From plain JSON values to the document's structs: keys, types and texts, each complaint naming its place.

Driven by the structs of `core.document.model`, so a field added there is read here. Ranges, ids and
references are checked afterwards by `core.document.check`.
"""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Callable
from functools import cache
from typing import Any

import msgspec
from msgspec import inspect

from core.document.errors import KeyPath, ProjectError, quoted, words
from core.document.model import Project
from core.language import decimal, tr

MAX_TEXT = 1000  # characters; a name longer than that is no name


class JsonObject(dict[str, Any]):
    """A JSON object as it was read; `twice` is a key that stands in it more than once."""

    twice: str | None = None


def read_project(fields: dict[str, Any]) -> Project:
    """The project in plain values `fields` (without `format` and `version`); raises ProjectError."""
    project: Project = _read(_project_type(), fields, ())
    return project


def read_value(path: KeyPath, value: object) -> tuple[type[msgspec.Struct], str, Any]:
    """One value as the field at `path` takes it, with the struct it belongs to and the field's name there.

    Raises ProjectError where the value is of the wrong type, KeyError where there is no such field.
    """
    owner, key, kind = _locate(path)
    return owner, key, _read(kind, value, path)


@cache
def _project_type() -> inspect.StructType:
    kind = inspect.type_info(Project)
    assert isinstance(kind, inspect.StructType)
    return kind


def _locate(path: KeyPath) -> tuple[type[msgspec.Struct], str, inspect.Type]:
    kind: inspect.Type = _project_type()
    owner: type[msgspec.Struct] = Project
    field = ""
    for key in path:
        for option in kind.types if isinstance(kind, inspect.UnionType) else (kind,):
            inner = _inner(option, key)
            if inner is not None:
                break
        else:
            raise KeyError(words(path))
        if isinstance(option, inspect.StructType):
            owner, field = option.cls, str(key)
        kind = inner
    return owner, field, kind


def _inner(kind: inspect.Type, key: str | int) -> inspect.Type | None:
    """The type of what lies at `key` in a value of type `kind`, None where nothing can."""
    if isinstance(kind, inspect.StructType):
        return next((field.type for field in kind.fields if field.name == key), None)
    if isinstance(kind, inspect.VarTupleType) and isinstance(key, int):
        return kind.item_type
    if isinstance(kind, inspect.TupleType) and isinstance(key, int) and key < len(kind.item_types):
        return kind.item_types[key]
    return None


def _read(kind: inspect.Type, value: object, path: KeyPath) -> Any:
    if isinstance(kind, inspect.UnionType):
        if value is None and kind.includes_none:
            return None
        kind = _option(kind, value)
    return _READERS[type(kind)](kind, value, path)


def _option(kind: inspect.UnionType, value: object) -> inspect.Type:
    """The member of a union that a value of this kind is meant for."""
    options = [option for option in kind.types if not isinstance(option, inspect.NoneType)]
    if isinstance(value, list | tuple):
        return next((o for o in options if isinstance(o, inspect.VarTupleType)), options[0])
    return options[0]


def _read_struct(kind: inspect.StructType, value: object, path: KeyPath) -> Any:
    if not isinstance(value, dict):
        raise _wrong_type(path, tr("an object"), value)
    twice = getattr(value, "twice", None)
    if twice is not None:
        raise ProjectError(words((*path, twice)), tr("this key is written twice"))
    fields = {field.name: field for field in kind.fields}
    for key in value:
        if key not in fields:
            raise ProjectError(words((*path, key)), tr("unknown key") + _nearest(key, fields))
    for name, field in fields.items():
        if field.required and name not in value:
            raise ProjectError(words((*path, name)), tr("this key is missing"))
    return kind.cls(**{key: _read(fields[key].type, item, (*path, key)) for key, item in value.items()})


def _nearest(key: str, known: dict[str, Any]) -> str:
    import difflib

    near = difflib.get_close_matches(key, known, 1)
    return tr("; did you mean {near}?", near=near[0]) if near else ""


def _read_list(kind: inspect.VarTupleType, value: object, path: KeyPath) -> tuple[Any, ...]:
    if not isinstance(value, list | tuple):
        raise _wrong_type(path, tr("a list"), value)
    return tuple(_read(kind.item_type, item, (*path, n)) for n, item in enumerate(value))


def _read_place(kind: inspect.TupleType, value: object, path: KeyPath) -> tuple[Any, ...]:
    count = len(kind.item_types)
    if not isinstance(value, list | tuple):
        raise _wrong_type(path, tr("a list of {count} numbers", count=count), value)
    if len(value) != count:
        raise ProjectError(
            words(path), tr("must be a list of {count} numbers, has {value}", count=count, value=len(value))
        )
    pairs = enumerate(zip(kind.item_types, value, strict=True))
    return tuple(_read(item_kind, item, (*path, n)) for n, (item_kind, item) in pairs)


def _read_number(kind: inspect.FloatType, value: object, path: KeyPath) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _wrong_type(path, tr("a number"), value)
    try:
        number = float(value)
    except OverflowError:  # a whole number beyond every float
        number = math.inf
    if not math.isfinite(number):
        raise ProjectError(words(path), tr("must be a finite number"))
    return number


def _read_whole(kind: inspect.IntType, value: object, path: KeyPath) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise _wrong_type(path, tr("a whole number"), value)
    return value


def _read_truth(kind: inspect.BoolType, value: object, path: KeyPath) -> bool:
    if not isinstance(value, bool):
        raise _wrong_type(path, tr("true or false"), value)
    return value


def _read_text(kind: inspect.StrType, value: object, path: KeyPath) -> str:
    if not isinstance(value, str):
        raise _wrong_type(path, tr("a text"), value)
    if complaint := text_complaint(value):
        raise ProjectError(words(path), complaint)
    return value


def text_complaint(text: str) -> str | None:
    """What is wrong with any text of the document, None if nothing."""
    if len(text) > MAX_TEXT:
        return tr("must have at most {MAX_TEXT} characters, has {text}", MAX_TEXT=MAX_TEXT, text=len(text))
    for c in text:
        # Control characters, halves of characters, line ends, and what XML cannot hold.
        if unicodedata.category(c) in ("Cc", "Cs", "Zl", "Zp") or c in "\ufffe\uffff":
            return tr("has a character that cannot be printed (U+{ord:04X})", ord=ord(c))
    return None


def _read_choice(kind: inspect.LiteralType, value: object, path: KeyPath) -> str | int:
    choices = " or ".join(quoted(str(choice)) for choice in kind.values)
    if not isinstance(value, str):
        raise _wrong_type(path, choices, value)
    if value not in kind.values:
        raise ProjectError(words(path), tr("must be {choices}, is {quoted}", choices=choices, quoted=quoted(value)))
    return value


_READERS: dict[type, Callable[[Any, object, KeyPath], Any]] = {
    inspect.StructType: _read_struct,
    inspect.VarTupleType: _read_list,
    inspect.TupleType: _read_place,
    inspect.FloatType: _read_number,
    inspect.IntType: _read_whole,
    inspect.BoolType: _read_truth,
    inspect.StrType: _read_text,
    inspect.LiteralType: _read_choice,
}


def _wrong_type(path: KeyPath, wanted: str, value: object) -> ProjectError:
    return ProjectError(words(path), tr("must be {wanted}, is {described}", wanted=wanted, described=described(value)))


def described(value: object) -> str:
    """What a JSON value is, for a sentence: `text "12"`, `a list`, `true`."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return tr("text {quoted}", quoted=quoted(value))
    if isinstance(value, float):
        return decimal(f"{value:g}")
    if isinstance(value, int):
        return str(value) if abs(value) < 10**15 else tr("a very large number")
    return tr("an object") if isinstance(value, dict) else tr("a list")


def plain(value: object) -> Any:
    """A value of the document as JSON has it: structs become objects, tuples lists, all of them new."""
    if isinstance(value, msgspec.Struct):
        return {key: plain(getattr(value, key)) for key in value.__struct_fields__}
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    return value
