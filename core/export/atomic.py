"""Writing a file whole or not at all."""

from __future__ import annotations

import contextlib
import errno
import os
import stat
from collections.abc import Mapping


def write_atomically(path: str | os.PathLike[str], data: bytes) -> None:
    """Put `data` in the file at `path`: until all of it is on the disk the old file stands, byte for byte.

    Links are followed, an existing file keeps its permission bits, and nothing else is left in the folder.
    Raises OSError (ValueError for a path no system takes) where the file cannot be written.
    """
    write_together({os.fspath(path): data})


def write_together(files: Mapping[str, bytes]) -> None:
    """Put each of the bytes in the file at its path, all or none: the old files stand until all is on the disk.

    Like `write_atomically`; the error names the path that cannot be written.
    """
    parts: list[tuple[str, str]] = []
    try:
        for path, data in files.items():
            target = os.path.realpath(path)
            _write_part(parts, target, data, _mode_of(target))
        for part, target in parts:
            os.replace(part, target)
    except BaseException:  # an interrupt too: no part is left behind
        for part, _ in parts:
            with contextlib.suppress(OSError):
                os.unlink(part)
        raise
    for folder in dict.fromkeys(os.path.dirname(target) for _, target in parts):
        _sync_folder(folder)


def _write_part(parts: list[tuple[str, str]], target: str, data: bytes, mode: int | None) -> None:
    """Write the bytes beside their target; (part, target) is told in `parts` as soon as the part is there."""
    part = os.path.join(os.path.dirname(target), f".{os.urandom(8).hex()}.part")
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    descriptor = os.open(part, flags, 0o666)
    parts.append((part, target))
    try:
        _write_all(descriptor, data)
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
    if mode is not None:
        os.chmod(part, mode)


def _mode_of(target: str) -> int | None:
    """Permission bits of the file to be replaced, None if there is none; OSError if it may not be."""
    try:
        status = os.stat(target)
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(status.st_mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), target)
    if not stat.S_ISREG(status.st_mode):
        raise OSError(errno.EINVAL, "Is a device or a pipe", target)
    if not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), target)
    return stat.S_IMODE(status.st_mode)


def _write_all(descriptor: int, data: bytes) -> None:
    rest = memoryview(data)
    while rest:
        rest = rest[os.write(descriptor, rest) :]


def _sync_folder(folder: str) -> None:
    """Make the new name durable, where a folder can be opened; the file itself is complete already."""
    with contextlib.suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
