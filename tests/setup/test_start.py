"""From the first word on the command line to the program in its environment."""

import ast
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from app.setup import child, lock, start
from app.setup.environment import PROJECT, Environment

HOLD = """
import sys
from app.setup.lock import held
with held(sys.argv[1], print):
    print("held", flush=True)
    input()
"""
CRITICAL = """
import os, sys, time
from app.setup.lock import held
for _ in range(5):
    with held(sys.argv[1], lambda: None):
        handle = os.open(sys.argv[1] + ".inside", os.O_CREAT | os.O_EXCL)   # fails if another is inside
        time.sleep(0.005)
        os.close(handle)
        os.remove(sys.argv[1] + ".inside")
"""
PRETEND_OLD = """
import runpy, sys
sys.version_info = (3, 10, 4, "final", 0)
runpy.run_module(sys.argv[1], run_name="__main__")
"""


@pytest.mark.parametrize("module", ["app", "tests"])
def test_an_older_python_is_told_so(module: str) -> None:
    command = [sys.executable, "-c", PRETEND_OLD, module]
    run = subprocess.run(command, cwd=PROJECT, capture_output=True, text=True, check=False)
    assert run.returncode == 2
    assert run.stdout == ""
    assert run.stderr == "Grainfold needs Python 3.11 or newer; this one is 3.10.\n"


@pytest.mark.parametrize("path", ["app/__init__.py", "app/__main__.py", "tests/__init__.py", "tests/__main__.py"])
def test_an_older_python_can_read_that_far(path: str) -> None:
    tree = ast.parse(Path(PROJECT, path).read_text(encoding="utf-8"), feature_version=(3, 6))
    assert not [node for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module == "__future__"]


def test_an_installed_copy_and_the_environment_itself_need_no_set_up(
    toy: Environment, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert toy.is_needed()
    Path(toy.folder).mkdir()
    assert toy.is_needed()
    with monkeypatch.context() as patch:
        patch.setattr(sys, "prefix", toy.folder)
        assert not toy.is_needed()
    Path(toy.pyproject).unlink()
    assert not toy.is_needed()


@pytest.mark.parametrize(
    ("words", "code"), [(["--no-such-thing"], 2), (["export", "a"], 2), (["--version"], 0), (["--help"], 0)]
)
def test_words_are_checked_before_anything_is_set_up(
    toy: Environment, words: list[str], code: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(start, "Environment", lambda: toy)
    with pytest.raises(SystemExit) as caught:
        start.start_app(words)
    assert caught.value.code == code
    assert not Path(toy.folder).exists()


def test_it_goes_on_in_the_environment_with_its_exit_code(toy: Environment, capfd: pytest.CaptureFixture[str]) -> None:
    code = "import sys, toy_plank; print(sys.prefix); raise SystemExit(int(sys.argv[1]))"
    assert start.go_on(toy, ["-c", code, "7"], tests=False) == 7
    output = capfd.readouterr()
    assert output.out.splitlines()[0].startswith("Setting up")
    assert output.out.splitlines()[-1] == toy.folder
    assert output.err == ""
    assert start.go_on(toy, ["-c", code, "0"], tests=False) == 0
    assert capfd.readouterr().out.splitlines() == [toy.folder]


@pytest.mark.parametrize("error", [PermissionError(13, "no"), OSError(28, "No space left on device")])
def test_a_folder_that_takes_no_files_is_one_sentence(
    toy: Environment, error: OSError, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def refuse(*_arguments: object) -> int:
        raise error

    monkeypatch.setattr(lock, "_open_locked", refuse)
    assert start.go_on(toy, ["-c", ""], tests=False) == 2
    [sentence] = capsys.readouterr().err.splitlines()
    assert toy.project in sentence


def test_the_lock_is_free_again_when_its_holder_is_killed(tmp_path: Path) -> None:
    path = tmp_path / "lock"
    command = [sys.executable, "-c", HOLD, str(path)]
    holder = subprocess.Popen(command, cwd=PROJECT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    with holder:
        assert holder.stdout
        assert holder.stdout.readline() == "held\n"
        waited = []

        def on_wait() -> None:
            waited.append(True)
            holder.kill()

        with lock.held(str(path), on_wait):
            assert waited == [True]


def test_only_one_at_a_time_is_inside(tmp_path: Path) -> None:
    command = [sys.executable, "-c", CRITICAL, str(tmp_path / "lock")]
    racers = [subprocess.Popen(command, cwd=PROJECT) for _ in range(3)]
    assert [racer.wait() for racer in racers] == [0, 0, 0]


@pytest.mark.skipif(sys.platform == "win32", reason="Windows ends a process without a signal")
def test_a_request_to_end_reaches_the_child() -> None:
    wait = "import time; print('up', flush=True); time.sleep(60)"
    code = f"import sys; from app.setup.child import run; sys.exit(run([sys.executable, '-c', {wait!r}]))"
    parent = subprocess.Popen([sys.executable, "-c", code], cwd=PROJECT, stdout=subprocess.PIPE, text=True)
    with parent:
        assert parent.stdout
        assert parent.stdout.readline() == "up\n"
        parent.send_signal(signal.SIGTERM)
        assert parent.wait(timeout=30) == 128 + signal.SIGTERM


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no process groups to signal like this")
def test_after_a_ctrl_c_the_child_has_the_last_word() -> None:
    """As from a terminal, the signal goes to the whole group; the child chooses its exit code."""
    wait = (
        "import time, sys\n"
        "try: print('up', flush=True); time.sleep(60)\n"
        "except KeyboardInterrupt: time.sleep(0.2); sys.exit(9)"
    )
    code = f"import sys; from app.setup.child import run; sys.exit(run([sys.executable, '-c', {wait!r}]))"
    parent = subprocess.Popen(
        [sys.executable, "-c", code], cwd=PROJECT, stdout=subprocess.PIPE, text=True, process_group=0
    )
    with parent:
        assert parent.stdout
        assert parent.stdout.readline() == "up\n"
        os.killpg(parent.pid, signal.SIGINT)
        assert parent.wait(timeout=30) == 9


def test_a_child_killed_by_a_signal_has_the_usual_code() -> None:
    kill = "import os, signal; os.kill(os.getpid(), signal.SIGKILL)"
    before = signal.getsignal(signal.SIGTERM)
    try:
        assert child.run([sys.executable, "-c", kill]) == 128 + signal.SIGKILL
    finally:
        signal.signal(signal.SIGTERM, before)


@pytest.mark.slow
def test_a_fresh_copy_starts(tmp_path: Path) -> None:
    """The real packages, fetched or from pip's store; the second start sets nothing up."""
    copy = tmp_path / "copy"
    kept_out = shutil.ignore_patterns(".*", "__pycache__")
    shutil.copytree(PROJECT, copy, ignore=kept_out)
    python = getattr(sys, "_base_executable", sys.executable)
    words = ["-m", "app", "export", "missing.grainfold", "--to", "plan.json"]
    seconds = []
    for first in (True, False):
        began = time.monotonic()
        run = subprocess.run([python, *words], cwd=copy, capture_output=True, text=True, check=False)
        seconds.append(time.monotonic() - began)
        assert run.returncode == 2
        assert "missing.grainfold" in run.stderr
        assert len(run.stderr.splitlines()) == 1
        assert run.stdout.startswith("Setting up") == first
    assert seconds[1] < seconds[0]
