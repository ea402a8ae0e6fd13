"""Going on as a child process."""

import signal
import subprocess
from collections.abc import Sequence
from types import FrameType


def run(command: Sequence[str]) -> int:
    """Run `command` with our input, output and working folder.

    Returns its exit code (128 + n if signal n ended it).

    A Ctrl-C reaches parent and child alike from the terminal: the parent waits for what the child makes
    of it. A polite request to end is handed on.
    """
    child = subprocess.Popen(command)

    def hand_on(_number: int, _frame: FrameType | None) -> None:
        child.terminate()

    signal.signal(signal.SIGTERM, hand_on)
    while True:
        try:
            code = child.wait()
        except KeyboardInterrupt:
            continue
        return code if code >= 0 else 128 - code
