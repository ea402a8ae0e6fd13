"""The linear relaxation of a cover, and whole-number choices among given patterns, both solved by HiGHS.

HiGHS is imported when first used (70 ms).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from core.packing.clock import Clock
from core.packing.cover import EPS, Cover, Floats, Pattern

if TYPE_CHECKING:
    import highspy

TIGHT = 1e-9  # HiGHS' tolerance for prices: errors of many parts add up


class Relaxed(NamedTuple):
    """A solved relaxation. prices: what one more of each part would cost; times: how often each pattern is used."""

    cost: float
    prices: Floats
    charges: Floats  # ≤ 0, what one more of each stock would save
    times: Floats


class Master:
    """The relaxation over the patterns found so far."""

    def __init__(self, cover: Cover) -> None:
        self.cover = cover
        self.solver = new_solver()
        self.patterns: list[Pattern] = []
        self.known: set[Pattern] = set()
        self.parts = len(cover.demand)
        self.loose = self.parts if any(limit is not None for limit in cover.limits) else 0
        self._closed: set[int] = set()
        self._rows()

    def _rows(self) -> None:
        none = np.array([], dtype=np.int32), np.array([], dtype=np.float64)
        for wanted in self.cover.demand:
            self.solver.addRow(float(wanted), np.inf, 0, *none)
        for limit in self.cover.limits:
            self.solver.addRow(-np.inf, np.inf if limit is None else float(limit), 0, *none)
        for part in range(self.loose):
            self._column(float(self.cover.penalties[part]), [part], [1.0])

    def _column(self, cost: float, rows: list[int], times: list[float]) -> None:
        self.solver.addCol(cost, 0.0, np.inf, len(rows), np.array(rows, dtype=np.int32), np.array(times))

    def add(self, pattern: Pattern) -> bool:
        """Take a pattern up; False if it was known."""
        if pattern in self.known:
            return False
        self.known.add(pattern)
        self.patterns.append(pattern)
        rows = [part for part, _ in pattern.counts]
        times = [float(n) for _, n in pattern.counts]
        self._column(float(self.cover.costs[pattern.stock]), [*rows, self.parts + pattern.stock], [*times, 1.0])
        return True

    def restrict(self, demand: Sequence[int], limits: Sequence[int | None]) -> None:
        """Ask for a part of the demand only; patterns that would cut too much of something are put aside."""
        low = [*map(float, demand), *(-np.inf for _ in limits)]
        high = [*(np.inf for _ in demand), *(np.inf if limit is None else float(limit) for limit in limits)]
        for row, (least, most) in enumerate(zip(low, high, strict=True)):
            self.solver.changeRowBounds(row, least, most)
        for number, pattern in enumerate(self.patterns):
            closed = any(demand[part] < times for part, times in pattern.counts)
            if closed != (number in self._closed):
                self.solver.changeColBounds(self.loose + number, 0.0, 0.0 if closed else np.inf)
                (self._closed.add if closed else self._closed.discard)(number)

    def solve(self) -> Relaxed | None:
        """The least cost with fractions of patterns; None if there is none or HiGHS fails."""
        from highspy import HighsModelStatus

        self.solver.run()
        if self.solver.getModelStatus() != HighsModelStatus.kOptimal:
            return None
        solution = self.solver.getSolution()
        dual = np.array(solution.row_dual)
        times = np.array(solution.col_value)[self.loose :]
        return Relaxed(
            self.solver.getObjectiveValue(),
            np.maximum(dual[: self.parts], 0.0),
            np.minimum(dual[self.parts :], 0.0),
            times,
        )


class Choice(NamedTuple):
    """What a choice among patterns came to. closed: nothing cheaper can be chosen."""

    patterns: list[Pattern] | None
    closed: bool
    bound: float


@cache
def _silent_highs() -> type[highspy.Highs]:
    """HiGHS as a class that is silent before its first word: setting up its callbacks already prints a line."""
    import highspy

    class Silent(highspy.Highs):
        def enableCallbacks(self) -> None:  # noqa: N802 (the name is HiGHS')
            self.setOptionValue("output_flag", False)
            super().enableCallbacks()  # type: ignore[no-untyped-call]  # published without hints

    return Silent


def new_solver() -> highspy.Highs:
    """HiGHS, silent, on one core, with the options all questions here share."""
    solver = _silent_highs()()
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("presolve", "off")
    solver.setOptionValue("dual_feasibility_tolerance", TIGHT)
    return solver


def choose(cover: Cover, patterns: Sequence[Pattern], low: int, high: int, clock: Clock, *, exactly: bool) -> Choice:
    """Whole numbers of patterns that cut all parts at a cost from `low` to `high`.

    exactly: no part is cut too often (right where `patterns` has every pattern of interest, the faster way there).
    """
    loose = len(cover.demand) if high >= min(cover.penalties, default=high + 1) else 0
    columns = [([part], [1.0]) for part in range(loose)]
    parts = len(cover.demand)
    budget = parts + len(cover.limits)
    for stock, counts in patterns:
        rows = [part for part, _ in counts]
        columns.append(
            ([*rows, parts + stock, budget], [*(float(n) for _, n in counts), 1.0, float(cover.costs[stock])])
        )
    for part in range(loose):
        columns[part] = ([part, budget], [1.0, float(cover.penalties[part])])
    costs = [*map(float, cover.penalties[:loose]), *(float(cover.costs[p.stock]) for p in patterns)]
    wanted = [float(n) for n in cover.demand]
    low_rows = [*wanted, *(-np.inf for _ in cover.limits), float(low)]
    high_rows = [
        *(wanted if exactly else [np.inf] * parts),
        *(np.inf if limit is None else float(limit) for limit in cover.limits),
        float(high),
    ]
    most = [*wanted[:loose], *(float(min(cover.demand[i] // n for i, n in p.counts)) for p in patterns)]
    outcome = solve_whole(columns, [0.0] * len(costs) if low == high else costs, most, low_rows, high_rows, clock)
    if outcome.values is None:
        return Choice(None, outcome.closed, outcome.bound)
    times = outcome.values[loose:]
    chosen = [p for p, n in zip(patterns, times, strict=True) for _ in range(round(n))]
    return Choice(chosen, outcome.closed, float(low) if low == high else outcome.bound)


class Whole(NamedTuple):
    """A whole-number solution. closed: it is the best, or there is none."""

    values: list[float] | None
    closed: bool
    bound: float


def solve_whole(
    columns: Sequence[tuple[list[int], list[float]]],
    costs: Sequence[float],
    most: Sequence[float],
    low: Sequence[float],
    high: Sequence[float],
    clock: Clock,
) -> Whole:
    """Least cost in whole numbers from 0 to `most`, each row between `low` and `high`. Columns: rows, entries."""
    import highspy

    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(columns), len(low)
    model.col_cost_, model.col_lower_ = np.array(costs), np.zeros(len(columns))
    model.col_upper_ = np.array(most)
    model.row_lower_, model.row_upper_ = np.array(low), np.array(high)
    model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    model.a_matrix_.start_ = np.cumsum([0, *(len(rows) for rows, _ in columns)])
    model.a_matrix_.index_ = np.array([row for rows, _ in columns for row in rows], dtype=np.int32)
    model.a_matrix_.value_ = np.array([value for _, values in columns for value in values], dtype=np.float64)
    model.integrality_ = [highspy.HighsVarType.kInteger] * len(columns)
    solver = new_solver()
    solver.setOptionValue("presolve", "choose")
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", EPS)
    solver.setOptionValue("time_limit", clock.left())
    solver.passModel(model)
    solver.cbMipInterrupt += lambda event: event.interrupt() if clock.over() else None
    solver.run()
    status, info = solver.getModelStatus(), solver.getInfo()
    if status == highspy.HighsModelStatus.kInfeasible:
        return Whole(None, True, np.inf)
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    values = list(solver.getSolution().col_value) if found else None
    return Whole(values, status == highspy.HighsModelStatus.kOptimal, info.mip_dual_bound)
