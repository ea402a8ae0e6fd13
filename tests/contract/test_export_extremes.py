"""What cannot be built is exported all the same: findings with numbers, no exception, every file written."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from app import export_command
from app.export_command import run
from tests.contract.files import changed

Document = dict[str, Any]


@pytest.fixture(autouse=True)
def traceback_of_a_bug(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(export_command.DEBUG, "1")


def larger_than_every_sheet(document: Document) -> None:
    document["shelves"][0]["length"] = 90_000


def no_sheet_at_all(document: Document) -> None:
    document["sheets"][0]["quantity"] = 0


def no_sheet_for_shells(document: Document) -> None:
    document["sheets"][0]["use"] = "frame"


def no_sheet_for_frames(document: Document) -> None:
    """The only sheet may give shells alone."""
    document["sheets"][0]["use"] = "shell"


def too_many(document: Document) -> None:
    """More shelves than two sheets hold."""
    document["sheets"][0]["quantity"] = 2
    shelf = document["shelves"][0]
    document["shelves"] = [{**shelf, "id": f"s{i}", "mount": None} for i in range(60)]


@pytest.mark.usefixtures("qapp")  # the whole application: what is made for a PDF would be in the way of later windows
@pytest.mark.parametrize(
    "edit", [larger_than_every_sheet, no_sheet_at_all, no_sheet_for_shells, no_sheet_for_frames, too_many]
)
@pytest.mark.parametrize("ending", [".json", ".pdf", ".svg", ".dxf", ".csv", ".png"])
def test_a_job_that_no_sheet_takes_is_written(edit: Callable[[Document], None], ending: str, tmp_path: Path) -> None:
    project, target = tmp_path / "job.grainfold", tmp_path / f"job{ending}"
    project.write_bytes(changed(edit))
    assert run(project, target) == 1
    assert target.stat().st_size > 0
    if ending == ".json":
        plan = json.loads(target.read_bytes())
        homeless = [f for f in plan["findings"] if f["code"] == "no-room"]
        assert homeless
        assert all(f["severity"] == "error" and f["about"] for f in homeless)
        lost = [p["id"] for p in plan["panels"] if p["sheet"] is None]
        lost += [part["id"] for frame in plan["frames"] for part in frame["parts"] if part["sheet"] is None]
        assert lost
        assert {name.partition("/")[0] for name in lost} == {f["about"].partition("/")[0] for f in homeless}
