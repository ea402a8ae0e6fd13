"""The system packages the tests need, on Debian and its kin: a display in memory, OpenGL, PDF tools."""

import os
import shutil
import subprocess
import sys

from app.setup.environment import PROJECT

LIST = os.path.join(PROJECT, "resources", "debian-packages.txt")


def wanted(path: str = LIST) -> list[str]:
    """The names in the list; # begins a remark."""
    with open(path, encoding="utf-8") as file:
        return [line.strip() for line in file if line.strip() and not line.startswith("#")]


def missing(names: list[str]) -> list[str]:
    """Those of `names` that are not installed."""
    query = ["dpkg-query", "--show", "--showformat=${db:Status-Abbrev}${Package}\n", *names]
    answer = subprocess.run(query, capture_output=True, text=True, check=False).stdout
    # A line is "ii xvfb": wanted state, present state (i: installed), error.
    installed = {line[3:].strip() for line in answer.splitlines() if line[1:2] == "i"}
    return [name for name in names if name not in installed]


def see_to_packages() -> bool:
    """Install what is missing if we may; else say on stderr with which command to, and return False."""
    if shutil.which("dpkg-query") is None:
        return True
    names = missing(wanted())
    if not names:
        return True
    commands = [["apt-get", "update"], ["apt-get", "install", "--yes", "--no-install-recommends", *names]]
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        line = " && ".join("sudo " + " ".join(command) for command in commands)
        sys.stderr.write(f"The tests need system packages that are missing; install them with: {line}\n")
        return False
    print(f"Installing system packages: {' '.join(names)}", flush=True)
    return all(_succeeds(command) for command in commands)


def _succeeds(command: list[str]) -> bool:
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    run = subprocess.run(command, env=quiet, capture_output=True, text=True, check=False)
    if run.returncode != 0:
        reason = (run.stderr.strip().splitlines() or ["no reason given"])[-1]
        sys.stderr.write(f"{' '.join(command[:2])} failed: {reason}\n")
    return run.returncode == 0
