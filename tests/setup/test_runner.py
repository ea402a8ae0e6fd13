"""`python3 -m tests`: which stages run, what it prints, what it does about system packages."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import examples
from tests.runner import debian, stages, start

OK = ["-c", "print('well')"]
BAD = ["-c", "raise SystemExit(3)"]
SUMMARY = ["-c", "import sys; print('seen', *sys.argv[1:]); print('3 passed in 0.1s')"]


def test_every_stage_runs_and_the_tests_have_the_last_word(capfd: pytest.CaptureFixture[str]) -> None:
    assert stages.run([], {"one": OK, "two": BAD, "three": OK}, SUMMARY) == 1
    lines = [line for line in capfd.readouterr().out.splitlines() if line]
    assert [line.split(",")[0] for line in lines if line.startswith("== ") and ":" in line] == [
        "== one: ok",
        "== two: FAILED",
        "== three: ok",
    ]
    assert "Failed so far: two." in lines
    assert lines[-1] == "3 passed in 0.1s"


def test_the_exit_code_is_0_only_if_all_pass() -> None:
    assert stages.run([], {"one": OK}, SUMMARY) == 0
    assert stages.run([], {"one": OK}, BAD) == 1


def test_arguments_go_to_pytest_alone(capfd: pytest.CaptureFixture[str]) -> None:
    assert stages.run(["tests/core", "-k", "seam"], {"one": BAD}, SUMMARY) == 0
    output = capfd.readouterr().out
    assert "one" not in output
    assert "seen tests/core -k seam\n" in output


def test_long_runs_all_stages_with_wider_limits(capfd: pytest.CaptureFixture[str]) -> None:
    assert stages.run(["--long"], {"one": OK}, SUMMARY) == 0
    output = capfd.readouterr().out
    assert "== one: ok" in output
    assert f"{' '.join(stages.LONG_LIMITS)} --long\n" in output


@pytest.mark.parametrize(("cores", "words"), [(1, []), (2, ["--numprocesses=2"]), (64, ["--numprocesses=4"])])
def test_all_the_tests_are_shared_out_to_the_cores(
    cores: int, words: list[str], monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("os.cpu_count", lambda: cores)
    assert stages.run([], {"one": OK}, SUMMARY) == 0
    seen = capfd.readouterr().out.rpartition("seen")[2].splitlines()[0].split()
    assert seen == [*words, *["--dist=worksteal"] * bool(words)]


def test_sizes_follow_the_run(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("GRAINFOLD_TESTS_LONG", raising=False)
    assert examples(50, 1000) == 50
    monkeypatch.setenv("GRAINFOLD_TESTS_LONG", "1")
    assert examples(50, 1000) == 1000


def test_help_needs_no_environment(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(debian, "see_to_packages", lambda: pytest.fail("looked for packages"))
    assert start.start_tests(["--help"]) == 0
    assert "--long" in capsys.readouterr().out


def test_the_list_of_system_packages_is_plain_names() -> None:
    names = debian.wanted()
    assert "xvfb" in names
    assert len(set(names)) == len(names)
    assert all(name.replace("-", "").replace(".", "").isalnum() for name in names)


@pytest.mark.skipif(shutil.which("dpkg-query") is None, reason="not a Debian system")
def test_missing_packages_are_found() -> None:
    assert debian.missing(["dpkg", "no-such-package-at-all"]) == ["no-such-package-at-all"]


def test_without_the_right_to_install_one_command_is_shown(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(debian, "missing", lambda _names: ["xvfb", "libegl1"])
    monkeypatch.setattr("os.geteuid", lambda: 1000, raising=False)
    assert not debian.see_to_packages()
    [line] = capsys.readouterr().err.splitlines()
    assert "apt-get update && sudo apt-get install" in line
    assert line.endswith("xvfb libegl1")


def test_as_root_they_are_installed(monkeypatch: pytest.MonkeyPatch) -> None:
    commands = []

    def run(command: list[str], **_options: object) -> subprocess.CompletedProcess[str]:
        commands.append(command)
        return subprocess.CompletedProcess(command, 0, "", "")

    monkeypatch.setattr(shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(debian, "missing", lambda _names: ["xvfb"])
    monkeypatch.setattr("os.geteuid", lambda: 0, raising=False)
    monkeypatch.setattr(debian.subprocess, "run", run)
    assert debian.see_to_packages()
    assert [command[:2] for command in commands] == [["apt-get", "update"], ["apt-get", "install"]]
    assert commands[1][-1] == "xvfb"


def test_other_systems_are_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shutil, "which", lambda _name: None)
    monkeypatch.setattr(debian, "missing", lambda _names: pytest.fail("asked dpkg"))
    assert debian.see_to_packages()


def test_the_script_for_the_machine_decides_nothing() -> None:
    script = (Path(__file__).parents[2] / ".ci" / "run").read_text(encoding="utf-8")
    lines = [line for line in script.splitlines() if not line.startswith("#")]
    assert len(lines) == 1
    assert lines[0].endswith("exec python3 -m tests")
    assert sys.version_info >= (3, 11)
