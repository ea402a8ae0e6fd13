"""Open instances with known optima, where they lie beside the project: lengths from bars, and the value of one sheet.

Sources (ESICUP collection, CC0 1.0): Falkenauer, J. Heuristics 2 (1996); Schoenfield (2002), Belov, Scheithauer,
EJOR 171 (2006); Schwerin, Waescher, ITOR 4 (1997); Beasley, JORS 36 (1985) and Oper. Res. 33 (1985); Christofides,
Whitlock, Oper. Res. 25 (1977). Optima as the files give them.
"""

import json
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from core.packing.one_d import Bar, BarQuestion, Length, cut_bars
from core.packing.two_d import Rectangle, SheetQuestion, best_sheet
from tests.conftest import examples

OPEN = Path(__file__).parents[3] / "shared" / "bench"
SECONDS = 10.0
SHEETS = {
    "ngcut": None,
    "cgcut": {"cgcut1", "cgcut2", "cgcut3"},
    "gcut": {f"gcut{n}" for n in range(1, 13)},
}

pytestmark = pytest.mark.skipif(not OPEN.is_dir(), reason="no open instances lie beside the project")


def instances(kind: str, name: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads((OPEN / kind / f"{name}.json").read_text(encoding="utf-8"))
    return found


def bars_used(instance: dict[str, Any]) -> int:
    """Bars used for an instance; what they hold is checked."""
    counts = Counter(instance["items"])
    parts = tuple(Length(float(length), n) for length, n in counts.items())
    answer = cut_bars(BarQuestion(parts, (Bar(float(instance["stock_length"])),)), SECONDS, rest=False)
    assert not any(answer.missing)
    held = Counter[int]()
    for bar in answer.bars:
        assert sum(parts[part].length * n for part, n in bar.counts) <= instance["stock_length"]
        held.update(dict(bar.counts))
    assert all(held[number] == part.count for number, part in enumerate(parts))
    assert answer.cost.bound <= instance["best_bins"]
    return len(answer.bars)


@pytest.mark.timeout(600)
@pytest.mark.parametrize(("name", "quick", "misses"), [("falkenauer_t60", 4, 0), ("schwerin1", 4, 0), ("hard28", 2, 4)])
def test_bars(name: str, quick: int, misses: int) -> None:
    """misses: how many of the whole set may be missed; of a part of it as many in proportion, rounded up."""
    everything = instances("1d", name)
    some = everything[: examples(quick, len(everything))]
    missed = [each["name"] for each in some if bars_used(each) > each["best_bins"]]
    assert len(missed) <= -(-misses * len(some) // len(everything)), missed


@pytest.mark.parametrize("name", sorted(SHEETS))
def test_value_of_one_sheet(name: str) -> None:
    wanted = SHEETS[name]
    for each in instances("2d", f"{name}_knapsack"):
        if wanted is None or each["name"] in wanted:
            parts = tuple(Rectangle(float(x), float(y), n, float(value)) for x, y, n, value in each["items"])
            answer = best_sheet(SheetQuestion(parts, *map(float, each["sheet"])), SECONDS)
            assert answer.value.reached == each["optimum"], each["name"]
            assert answer.value.proven, each["name"]
