"""Changing a project by JSON pointers: how a fix of the plan is applied."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec

from core.document.check import check_project
from core.document.errors import KeyPath, ProjectError, words
from core.document.model import Project
from core.document.pointer import key_path
from core.document.shape import plain, read_project


def apply_pointers(project: Project, changes: Mapping[str, object]) -> Project:
    """A project with each pointer's value set, in the order given, each in the result of the one before.

    changes: {"/shelves/0/depth": 223.8}; values as in the file. None removes: a key goes back to its default
    (null where the file has null), a list item goes. A last step "-" adds an item to a list. A value may be a
    whole object or list.
    Raises ProjectError where a pointer leads nowhere or what comes out is no usable project.
    """
    paths = {key_path(pointer): value for pointer, value in changes.items()}
    touched = any(path[0] == "revisions" for path in paths)
    document = plain(project if touched else msgspec.structs.replace(project, revisions=()))
    for path, value in paths.items():
        _set(document, path, plain(value))
    changed = read_project(document)
    if not touched:  # they are large, and the same
        changed = msgspec.structs.replace(changed, revisions=project.revisions)
    check_project(changed)
    return changed


def _set(document: Any, path: KeyPath, value: object) -> None:
    inner = document
    for depth, key in enumerate(path[:-1]):
        inner = _step(inner, key, path[: depth + 1])
    last = path[-1]
    if isinstance(inner, dict) and isinstance(last, str):
        if value is None:
            inner.pop(last, None)
        else:
            inner[last] = value
    elif isinstance(inner, list) and last == "-":
        inner.append(value)
    elif isinstance(inner, list) and isinstance(last, int) and last < len(inner):
        if value is None:
            del inner[last]
        else:
            inner[last] = value
    else:
        raise ProjectError(words(path), "the project has no such place")


def _step(inner: Any, key: str | int, path: KeyPath) -> Any:
    if isinstance(inner, dict) and isinstance(key, str) and inner.get(key) is not None:
        return inner[key]
    if isinstance(inner, list) and isinstance(key, int) and key < len(inner):
        return inner[key]
    raise ProjectError(words(path), "the project has no such place")
