"""The words after `grainfold`."""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType

import pytest

import core
from app import cli, export_command
from app.export_command import Wish
from app.setup import pip, speech
from app.setup.problems import DISK_FULL, NOT_WRITABLE
from core import LANGUAGES
from core.language.read import catalogue


@pytest.fixture
def calls(monkeypatch: pytest.MonkeyPatch) -> list[tuple[object, ...]]:
    """What the command line called, instead of the window and the export."""
    called: list[tuple[object, ...]] = []

    def record(name: str, code: int) -> Callable[..., int]:
        return lambda *words: called.append((name, *words)) or code  # type: ignore[func-returns-value] # append's None

    window = ModuleType("app.window")
    window.run = record("window", 5)  # type: ignore[attr-defined] # made here
    monkeypatch.setitem(sys.modules, "app.window", window)
    monkeypatch.setattr("app.window", window, raising=False)
    monkeypatch.setattr(export_command, "run_wish", record("export", 1))
    return called


@pytest.mark.parametrize(
    ("words", "called", "code"),
    [
        ([], ("window", None), 5),
        (["a.grainfold"], ("window", Path("a.grainfold")), 5),
        (["./export"], ("window", Path("export")), 5),
        (["export", "a", "--to", "b.pdf"], ("export", Path("a"), Path("b.pdf"), Wish()), 1),
        (
            ["export", "a", "--to=b.pdf", "--paper", "a4", "--drawing", "seam"],
            ("export", Path("a"), Path("b.pdf"), Wish(drawing="seam", paper="a4")),
            1,
        ),
        (
            ["export", "a", "--to=b.pdf", "--pages", "saw,sheets", "--units", "mm"],
            ("export", Path("a"), Path("b.pdf"), Wish(pages="saw,sheets", units="mm")),
            1,
        ),
        (
            ["export", "a", "--to=b.png", "--show", "wall", "--finish", "oiled", "--pixels", "800x600", "--clear"],
            ("export", Path("a"), Path("b.png"), Wish(show="wall", finish="oiled", pixels="800x600", clear=True)),
            1,
        ),
    ],
)
def test_what_the_words_call(
    words: list[str], called: tuple[object, ...], code: int, calls: list[tuple[object, ...]]
) -> None:
    assert cli.main(words) == code
    assert calls == [called]


@pytest.mark.parametrize(
    "words",
    [
        ["--bogus"],
        ["a", "b"],
        ["export"],
        ["export", "a"],
        ["export", "--to", "b.pdf"],
        ["export", "a", "--to"],
        ["export", "a", "--to", "b.pdf", "--paper", "a5"],
        ["export", "a", "--to", "b.pdf", "--units", "feet"],
        ["export", "a", "--t", "b.pdf"],
        ["export", "a", "--to", "b.pdf", "one\ntwo"],
    ],
)
def test_wrong_words_are_one_line_and_exit_code_2(
    words: list[str], calls: list[tuple[object, ...]], capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as caught:
        cli.main(words)
    assert caught.value.code == 2
    output = capsys.readouterr()
    assert output.out == ""
    assert len(output.err.splitlines()) == 1
    assert calls == []


@pytest.mark.parametrize("words", [["--help"], ["export", "--help"]])
def test_help_names_both_forms(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as caught:
        cli.main(words)
    assert caught.value.code == 0
    output = capsys.readouterr().out
    assert "grainfold [FILE]" in output
    assert "grainfold export PROJECT --to FILE" in output


@pytest.fixture
def speaking() -> Iterator[None]:
    """The tests after this one are spoken to in English again."""
    yield
    speech.speak(["--language", "en"])


@pytest.mark.parametrize(
    ("words", "surroundings", "code"),
    [
        (["--help", "--language", "de"], {}, "de"),
        (["--language=de", "--help"], {"LANG": "en_GB.UTF-8"}, "de"),
        (["--help", "--language", "xx"], {"LANG": "de_DE.UTF-8"}, "en"),
        (["--help"], {"GRAINFOLD_LANGUAGE": "de", "LC_ALL": "C"}, "de"),
        (["--help"], {"LC_ALL": "de_AT.UTF-8", "LANG": "en_US.UTF-8"}, "de"),
        (["--help"], {"LC_ALL": "", "LANG": "de"}, "de"),
        (["--help"], {"LANG": "C.UTF-8"}, "en"),
        (["--help"], {}, "en"),
    ],
)
def test_the_language_of_help_is_asked_for_or_the_systems(
    words: list[str], surroundings: dict[str, str], code: str
) -> None:
    assert speech.wanted(words, surroundings) == code


@pytest.mark.parametrize("words", [["--help"], ["export", "--help"]])
def test_help_speaks_german(words: list[str], speaking: None, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        cli.main([*words, "--language", "de"])
    output = capsys.readouterr().out
    assert output.startswith("Aufruf: grainfold [FILE]")
    assert "Projekt, das " in output


def test_english_help_loads_no_catalogue() -> None:
    """A window that opens in this process chooses its language later: nothing may have fixed it."""
    code = "import sys; from app.cli import parse; parse(['a.grainfold']); print('core.language' in sys.modules)"
    surroundings = os.environ | {"LANG": "de_DE.UTF-8"}
    run = subprocess.run([sys.executable, "-c", code], env=surroundings, capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "False"


def test_what_the_first_run_says_is_in_every_language() -> None:
    said = (cli.EXPORT_HELP, pip.NO_PIP, pip.OLD_PIP, pip.NO_NETWORK, pip.NO_PACKAGE, DISK_FULL, NOT_WRITABLE)
    for code in LANGUAGES:
        assert code == "en" or not [text for text in said if text not in catalogue(code)]


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        cli.main(["--version"])
    assert capsys.readouterr().out == f"grainfold {core.__version__}\n"
