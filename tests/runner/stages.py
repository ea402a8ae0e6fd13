"""The stages: each is a command of the environment's Python. All run, also after one that failed."""

import os
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence

LINT_IMPORTS = "from importlinter.cli import lint_imports_command; lint_imports_command()"

CHECKS = {
    "ruff, lint": ["-m", "ruff", "check", "."],
    "ruff, format": ["-m", "ruff", "format", "--check", "."],
    "mypy": ["-m", "mypy", "--strict", "core", "app"],
    "contracts": ["-c", LINT_IMPORTS, "--no-cache"],
}

MOST_AT_ONCE = 4  # processes of pytest, each with a display of its own; more gain little
LONG_LIMITS = ["--timeout=3600", "--override-ini=faulthandler_timeout=4000"]  # s for one test


def run(arguments: list[str], checks: Mapping[str, list[str]] = CHECKS, tests: Sequence[str] = ("-m", "pytest")) -> int:
    """Run all `checks` and `tests`, or `tests` alone if `arguments` ask for more than --long.

    Returns the exit code: 0 if all pass.
    """
    if set(arguments) - {"--long"}:
        checks = {}
    failed = [name for name, command in checks.items() if not _passes(name, command)]
    if failed:
        print(f"\nFailed so far: {'; '.join(failed)}.", flush=True)
    limits = LONG_LIMITS if "--long" in arguments else []
    # Last, and nothing after it: pytest's summary, with its seconds, ends the output.
    together = _at_once(os.cpu_count() or 1) if checks else []
    tests_pass = _passes("pytest", [*tests, *together, *limits, *arguments], closing_line=False)
    return 0 if tests_pass and not failed else 1


def _at_once(cores: int) -> list[str]:
    """What shares the tests out to as many processes as there are cores: neighbours, which share fixtures, to one."""
    count = min(cores, MOST_AT_ONCE)
    return [f"--numprocesses={count}", "--dist=worksteal"] if count > 1 else []


def _passes(name: str, command: list[str], *, closing_line: bool = True) -> bool:
    print(f"\n== {name}", flush=True)
    began = time.monotonic()
    code = subprocess.run([sys.executable, *command], check=False).returncode
    if closing_line:
        print(f"== {name}: {'ok' if code == 0 else 'FAILED'}, {time.monotonic() - began:.1f} s", flush=True)
    return code == 0
