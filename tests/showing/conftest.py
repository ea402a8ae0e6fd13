"""A real window for the tests of the board of pictures."""

from tests.real_window import _settings, open_window

__all__ = ["_settings", "open_window"]  # fixtures: pytest finds them here
