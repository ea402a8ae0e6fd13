"""Every text has one in each language, with the same holes, and the ways to look them up hold."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from core import LANGUAGE, LANGUAGES
from core.language import tr
from core.language.read import FOLDER, asked
from core.language.words import NAMES
from tests.language.gather import PROJECT, holes, texts, translated

OTHERS = tuple(code for code in LANGUAGES if code != "en")
LEAST_TEXTS = 1500


@pytest.mark.parametrize("code", OTHERS)
def test_every_text_has_one(code: str) -> None:
    said = translated(code)
    assert len(texts()) > LEAST_TEXTS
    assert {text: file for text, file in texts().items() if text not in said} == {}


@pytest.mark.parametrize("code", OTHERS)
def test_no_text_has_a_hole_that_is_not_filled(code: str) -> None:
    said = translated(code)
    assert {text: said[text] for text in said if not holes(said[text]) <= holes(text)} == {}


@pytest.mark.parametrize("code", OTHERS)
def test_blanks_at_the_ends_stay(code: str) -> None:
    """Texts that are joined to others keep the blank between."""
    said = translated(code)
    wrong = {text for text in texts() if text[:1].isspace() != said.get(text, text)[:1].isspace()}
    assert wrong == set()


@pytest.mark.parametrize("code", OTHERS)
def test_no_text_stands_twice(code: str) -> None:
    lines = re.findall(r'^msgid "(.+)"$', (FOLDER / f"{code}.po").read_text(encoding="utf-8"), re.MULTILINE)
    assert sorted(line for line in set(lines) if lines.count(line) > 1) == []


def test_english_is_as_it_stands() -> None:
    assert tr("Ribs of {shelf}", shelf="left") == "Ribs of left"
    assert tr("{a:.2f} mm", a=1234.5) == "1234.50 mm"
    assert tr("no such text {with} a hole") == "no such text {with} a hole"


def speak(code: str, script: str) -> str:
    """What a process prints that speaks this language."""
    surroundings = os.environ | {LANGUAGE: code, "PYTHONUTF8": "1"}
    command = [sys.executable, "-c", script]
    run = subprocess.run(command, cwd=PROJECT, env=surroundings, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
    return run.stdout.strip()


def test_german_is_looked_up_and_writes_its_numbers_with_a_comma() -> None:
    script = """
from core.language import tr
from core.lengths import Unit, parse_length, show_exact, show_length, show_mass
said = tr("Save"), tr("Ribs of {shelf}", shelf="left"), tr("Cut the {role} apart", role="left")
print(*said, tr("Scale 1 : {ratio:g}", ratio=2.5), tr("{name}.lock", name="left"))
print(show_length(258.83, Unit.MM), show_length(258.83, Unit.INCH), show_mass(5.43, Unit.MM))
values = [0.001, 0.703 * 25.4, 1.2, 1.234, 12.5, 258.125, 1234.567, 25.4, 3.175]
print(all(parse_length(show_exact(mm, unit), unit) == mm for mm in values for unit in Unit))
print(parse_length("1,234", Unit.MM), parse_length("25,9 cm", Unit.MM), parse_length("10.1875", Unit.INCH))
try:
    parse_length("1.234", Unit.MM)
except ValueError as error:
    print(error)
"""
    first, second, exact, read, refused = speak("de", script).splitlines()
    assert first == "Sichern Rippen von left Getrennt schneiden: links Maßstab 1 : 2,5 left.lock"
    assert second == '258,8 mm 10-3/16" 5,4 kg'
    assert exact == "True"
    assert [float(value) for value in read.split()] == [1.234, 259.0, 10.1875 * 25.4]
    assert "1234" in refused
    assert "1,234" in refused


def test_what_people_have_named_is_never_looked_up() -> None:
    """A shelf called "left" stays so: holes that are filled with the id of a shelf or a sheet hold names."""
    wrong = []
    for file in sorted([*(PROJECT / "core").rglob("*.py"), *(PROJECT / "app").rglob("*.py")]):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "tr":
                ids = {hole.arg for hole in node.keywords if isinstance(hole.value, ast.Attribute)} & {
                    hole.arg for hole in node.keywords if ast.unparse(hole.value).rpartition(".")[2] in OF_IDS
                }
                wrong += [f"{file.name}: {{{hole}}}" for hole in sorted(filter(None, ids - NAMES))]
    assert wrong == []


OF_IDS = ("id", "shelf", "stock", "sheet")


def test_the_buying_list_names_each_thing_once_in_every_language() -> None:
    """It leaves out of the plan's supplies what it says more of itself, whatever that is called."""
    script = """
from core.document.load import load_project
from core.plan.make import make_plan
from core.supplies.buying import buying_list
plan = make_plan(load_project("demo_projects/reading-corner.grainfold"))
print(len(buying_list(plan)), sum(s.kind in ("sheet", "wall screw") for s in plan.supplies))
"""
    counts = {code: speak(code, script) for code in LANGUAGES}
    assert len(set(counts.values())) == 1, counts
    assert not counts["en"].endswith(" 0")


@pytest.mark.parametrize(("said", "code"), [("de", "de"), ("de_AT.UTF-8", "de"), ("fr", "en"), ("", "en")])
def test_the_surroundings_name_the_language(monkeypatch: pytest.MonkeyPatch, said: str, code: str) -> None:
    monkeypatch.setenv(LANGUAGE, said)
    assert asked(LANGUAGE, tuple(LANGUAGES)) == code


def test_pages_are_written_in_the_language_asked_for(tmp_path: Path) -> None:
    demo = next((PROJECT / "demo_projects").glob("stove*.grainfold"))
    command = [sys.executable, "-m", "app", "export", str(demo), "--to", "plan.json", "--language", "de"]
    surroundings = os.environ | {"PYTHONPATH": str(PROJECT)}
    run = subprocess.run(command, cwd=tmp_path, env=surroundings, capture_output=True, text=True, check=False)
    assert run.returncode in (0, 1), run.stderr
    assert "Schätzung" in (tmp_path / "plan.json").read_text(encoding="utf-8")
