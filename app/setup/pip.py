"""Runs pip for the project's environment, which has none of its own.

`pip --python` installs into another environment; so this works with a Python that comes without ensurepip,
and with one whose own packages the system manages.
"""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator

from app.setup.problems import DISK_FULL, NOT_WRITABLE, SetupError
from app.setup.speech import tr

NO_PIP = "Grainfold needs pip for its first start, and this Python has none: install pip (on Debian: python3-pip)."
OLD_PIP = "Grainfold needs pip 22.3 or newer for its first start: upgrade pip."
NO_NETWORK = "The first start fetches packages, but the package index cannot be reached: check the network."
NO_PACKAGE = "The package index has no {name} for Python {python} on this machine."

# Built here, from Python alone; whatever else is not ready-made for this machine is named as missing.
SOURCE_ONLY = "rectpack"

NETWORK_SIGNS = (
    "NewConnectionError",
    "ConnectTimeout",
    "ReadTimeout",
    "ProxyError",
    "name resolution",
    "Retrying (",
)
FETCHED = re.compile(r"\s*(?:Downloading|Using cached|Processing) \S*?([\w.]+)-\d\S*\.whl(?!\.)(?: (\(\d.*\)))?")


def _candidates() -> Iterator[list[str]]:
    """Ways to call pip: of this Python, of the one it was made from, of the search path."""
    yield [sys.executable, "-m", "pip"]
    base: str = getattr(sys, "_base_executable", sys.executable)  # CPython's name for it in an environment
    if base != sys.executable:
        yield [base, "-m", "pip"]
    for name in ("pip3", "pip"):
        if found := shutil.which(name):
            yield [found]


def find() -> list[str]:
    """The command that runs a pip; raises SetupError if there is none."""
    for command in _candidates():
        if subprocess.run([*command, "--version"], capture_output=True, check=False).returncode == 0:
            return command
    raise SetupError(tr(NO_PIP))


def _surroundings() -> dict[str, str]:
    """The process's variables, save those that would lead pip to other packages or another place."""
    kept = {name: value for name, value in os.environ.items() if name not in ("PYTHONPATH", "PYTHONHOME")}
    return kept | {"PIP_USER": "0", "PYTHONUTF8": "1"}


def install(python: str, requirements: Iterable[str], constraints: Iterable[str], say: Callable[[str], None]) -> None:
    """Install `requirements` at the versions of the files `constraints` for the interpreter `python`.

    say: told each package as it comes. Raises SetupError with the one sentence that says what was wrong.
    """
    command = [*find(), "--python", python, "--disable-pip-version-check", "--no-input", "install"]
    command += ["--progress-bar=off", "--no-warn-script-location"]
    command += ["--only-binary=:all:", f"--no-binary={SOURCE_ONLY}"]
    command += [f"--constraint={path}" for path in constraints]
    lines: list[str] = []
    process = subprocess.Popen(
        [*command, *requirements],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        env=_surroundings(),
        encoding="utf-8",
        errors="replace",
    )
    with process:
        try:
            for line in process.stdout or ():
                lines.append(line)
                if fetched := FETCHED.match(line):
                    say(" ".join(part for part in fetched.groups() if part))
        except BaseException:
            process.kill()  # else it would go on writing where we clear up
            raise
    if process.returncode != 0:
        raise SetupError(explain("".join(lines), os.path.dirname(os.path.dirname(os.path.dirname(python)))))


def explain(output: str, folder: str) -> str:
    """The sentence for a pip that failed with `output` while installing for the project in `folder`."""
    if "No space left on device" in output or "Disk quota exceeded" in output:
        return tr(DISK_FULL, folder=folder)
    if "Read-only file system" in output or "Permission denied" in output:
        return tr(NOT_WRITABLE, folder=folder)
    if "no such option: --python" in output:
        return tr(OLD_PIP)
    if any(sign in output for sign in NETWORK_SIGNS):
        return tr(NO_NETWORK)
    if missing := re.search(r"(?:No matching distribution found for|Cannot install) (\S+)", output):
        python = f"{sys.version_info[0]}.{sys.version_info[1]}"
        return tr(NO_PACKAGE, name=missing[1], python=python)
    complaints = [line.strip() for line in output.splitlines() if line.startswith("ERROR:")] or [tr("no reason given")]
    why = complaints[-1].removeprefix("ERROR: ").rstrip(".")
    return tr("pip could not install Grainfold's packages: {why}.", why=why)
