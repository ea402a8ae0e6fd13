"""Every text the program looks up, and every catalogue there is."""

from __future__ import annotations

import ast
import re
from functools import cache
from pathlib import Path

from core.language.read import catalogue

PROJECT = Path(__file__).parents[2]
HOLE = re.compile(r"\{([A-Za-z_]\w*)?(?:![rsa])?(:[^{}]*)?\}")


@cache
def texts() -> dict[str, str]:
    """Each text given to `tr` as it stands, with the file it stands in."""
    found: dict[str, str] = {}
    for file in sorted([*(PROJECT / "core").rglob("*.py"), *(PROJECT / "app").rglob("*.py")]):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "tr" and node.args:
                text = node.args[0]
                if isinstance(text, ast.Constant) and isinstance(text.value, str):
                    found.setdefault(text.value, file.relative_to(PROJECT).as_posix())
    return found


@cache
def holes(text: str) -> frozenset[str]:
    """The holes of a text by name; '' for `{}`."""
    return frozenset(found[1] or "" for found in HOLE.finditer(text.replace("{{", "").replace("}}", "")))


@cache
def translated(code: str) -> dict[str, str]:
    """The catalogue of a language."""
    return catalogue(code)
