"""How work on pictures is given up."""

from __future__ import annotations


class StoppedError(Exception):
    """Raised by a maker of pictures when its `stop` said so; nothing was made."""
