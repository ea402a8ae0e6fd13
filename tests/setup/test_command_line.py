"""The words after `grainfold`."""

import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

import core
from app import cli, export_command
from app.export_command import Wish


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


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        cli.main(["--version"])
    assert capsys.readouterr().out == f"grainfold {core.__version__}\n"
