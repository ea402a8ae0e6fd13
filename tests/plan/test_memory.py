"""Plans that nobody has any more leave nothing behind."""

from __future__ import annotations

import subprocess
import sys


def test_plans_leave_nothing_behind() -> None:
    # in a process of its own: what other tests have left in a cache would make room for these and hide what they leave
    answer = subprocess.run([sys.executable, "-m", "tests.plan.memory"], capture_output=True, text=True, check=True)
    assert float(answer.stdout) < 10
