"""How a picture that cannot be used says why, in one sentence."""

from __future__ import annotations


class PhotoError(Exception):
    """A picture, or what was marked on it, that no face can be made of; `str()` is one line, to follow a name.

    "is no JPEG, PNG, WebP or TIFF picture", "the corners lie on one line".
    """
