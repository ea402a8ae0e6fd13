"""Why a set-up failed, as one sentence for the person in front of the machine."""

import errno

from app.setup.speech import tr

DISK_FULL = "The disk is full: Grainfold needs about 500 MB for its packages in {folder} (1 GB with the tests')."
NOT_WRITABLE = "Grainfold cannot write in {folder}: allow it to, or copy the project to a folder of yours."


class SetupError(Exception):
    """The set-up cannot go on; the message is the sentence to show."""


def explain(error: OSError, folder: str) -> str:
    """The sentence for an error of the file system met while setting up in `folder`."""
    if error.errno in (errno.ENOSPC, getattr(errno, "EDQUOT", None)):
        return tr(DISK_FULL, folder=folder)
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return tr(NOT_WRITABLE, folder=folder)
    return tr("Setting up Grainfold in {folder} failed: {error}.", folder=folder, error=error)
