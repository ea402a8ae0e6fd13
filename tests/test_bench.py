"""The bench can be run: every group it offers is there and measures something."""

from importlib import import_module

import pytest

from tests.bench.__main__ import GROUPS


@pytest.mark.parametrize("group", GROUPS)
def test_the_group_is_there(group: str) -> None:
    assert callable(import_module(f"tests.bench.{group}").measures)
