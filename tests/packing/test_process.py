"""Questions in a process of its own: answered, replaced, stopped, and gone with the program."""

import multiprocessing
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from core.packing.one_d import Bar, BarAnswer, BarQuestion, Length, cut_bars
from core.packing.pack import PackAnswer, PackQuestion, SheetKind
from core.packing.process import Solver
from core.packing.two_d import Rectangle, SheetAnswer, SheetQuestion, best_sheet
from tests.packing.asked import check_bars, check_pack

PROJECT = Path(__file__).parents[2]
SOON = 60.0  # s: far more than anything here takes; a test that fails must end

ASK_AND_WAIT = """
import sys, time
from core.packing.process import Solver
from tests.packing.test_process import long_question
if __name__ == "__main__":
    solver = Solver()
    solver.ask(long_question(), 600.0)
    while not solver.replies():
        time.sleep(0.01)
    print(solver._process.pid, flush=True)
    time.sleep(600)
"""


def short_question() -> BarQuestion:
    return BarQuestion((Length(700.0, 5), Length(410.0, 7)), (Bar(2430.0),), 2.2)


def long_question() -> PackQuestion:
    """40 parts: the largest offcut is not proven in any time a test could wait."""
    chance = random.Random(5)
    parts = tuple(Rectangle(chance.uniform(150.0, 1200.0), chance.uniform(80.0, 500.0)) for _ in range(40))
    return PackQuestion(parts, (SheetKind(2430.0, 1210.0),), 2.2)


def test_the_answer_is_the_one_the_solver_gives_here() -> None:
    sheet = SheetQuestion((Rectangle(700.0, 400.0, 4, 3.0), Rectangle(900.0, 300.0, 3, 2.0)), 2430.0, 1210.0, 2.2)
    with Solver() as solver:
        first = solver.ask(short_question())
        (reply,) = solver.wait(SOON)
        assert reply.ticket == first
        assert reply.final
        assert isinstance(reply.answer, BarAnswer)
        check_bars(short_question(), reply.answer)
        assert reply.answer == cut_bars(short_question())
        second = solver.ask(sheet)
        (reply,) = solver.wait(SOON)
        assert reply.ticket == second
        assert isinstance(reply.answer, SheetAnswer)
        assert reply.answer == best_sheet(sheet)


def test_better_answers_come_before_the_last_and_a_new_question_drops_the_old() -> None:
    with Solver() as solver:
        solver.ask(long_question(), 600.0)
        while not (replies := solver.replies()):
            time.sleep(0.01)
        assert isinstance(replies[0].answer, PackAnswer)
        check_pack(long_question(), replies[0].answer)
        assert not replies[0].final
        latest = solver.ask(short_question())
        replies = solver.wait(SOON)
        assert {reply.ticket for reply in replies} == {latest}
        assert replies[-1].final
        assert not solver.busy


def test_stopping_ends_the_process_and_the_next_question_is_answered() -> None:
    with Solver() as solver:
        solver.ask(long_question(), 600.0)
        while not solver.replies():
            time.sleep(0.01)
        solver.stop()
        assert multiprocessing.active_children() == []
        assert solver.replies() == []
        solver.ask(short_question())
        assert solver.wait(SOON)[-1].final
    assert multiprocessing.active_children() == []


def test_a_process_that_dies_is_said_to_have_and_is_replaced() -> None:
    with Solver() as solver:
        solver.ask(long_question(), 600.0)
        while not solver.replies():
            time.sleep(0.01)
        for child in multiprocessing.active_children():
            child.kill()
        reply = solver.wait(SOON)[-1]
        assert reply.answer is None
        assert reply.trouble
        solver.ask(short_question())
        assert solver.wait(SOON)[-1].answer is not None


def test_what_goes_wrong_in_the_process_is_told() -> None:
    broken = BarQuestion((Length("long", 1),), (Bar(2430.0),))  # type: ignore[arg-type]  # that is the point
    with Solver() as solver:
        solver.ask(broken)
        reply = solver.wait(SOON)[-1]
        assert reply.answer is None
        assert "Error" in reply.trouble
        solver.ask(short_question())
        assert solver.wait(SOON)[-1].answer is not None


@pytest.mark.skipif(sys.platform != "linux", reason="looks for the process in /proc")
def test_the_process_ends_with_a_program_that_is_killed(tmp_path: Path) -> None:
    script = tmp_path / "ask.py"
    script.write_text(ASK_AND_WAIT, encoding="utf-8")
    program = subprocess.Popen(
        [sys.executable, script], cwd=PROJECT, env={"PYTHONPATH": str(PROJECT)}, stdout=subprocess.PIPE, text=True
    )
    with program:
        assert program.stdout is not None
        child = Path("/proc") / program.stdout.readline().strip()
        assert child.is_dir()
        program.kill()
    end = time.monotonic() + SOON
    while _lives(child) and time.monotonic() < end:
        time.sleep(0.01)
    assert not _lives(child)


def _lives(process: Path) -> bool:
    """Is it there, and not only waiting to be reaped by whoever inherits it?"""
    try:
        return (process / "stat").read_text(encoding="utf-8").rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False
