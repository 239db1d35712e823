"""A mixed-integer model put together row by row, and solved by HiGHS within a time limit."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import highspy
import numpy as np

_FINE = 1e-9  # of a kilogram or a kilogram times hundredths of a percent


@dataclass(frozen=True, slots=True)
class Solved:
    """What came of it.

    Args:
        values: of every column; None where nothing that fits was found.
        bound: no solution costs less.
        stopped: "proved", "time", "asked" or "none" where nothing can fit.
    """

    values: Sequence[float] | None
    bound: float | None
    stopped: str


class _Quiet(highspy.Highs):
    """A solver that writes nothing: it would else greet on standard output, in front of JSON."""

    def __init__(self) -> None:
        super().__init__()  # type: ignore[no-untyped-call]

    def enableCallbacks(self) -> None:  # noqa: N802
        """The first thing that could write."""
        self.setOptionValue("output_flag", False)
        super().enableCallbacks()  # type: ignore[no-untyped-call]


@dataclass(slots=True)
class Model:
    """Columns with a cost, and rows between two limits; the least cost is looked for."""

    _costs: list[float] = field(default_factory=list)
    _upper: list[float] = field(default_factory=list)
    _whole: list[bool] = field(default_factory=list)
    _rows: list[tuple[float, float, Mapping[int, float]]] = field(default_factory=list)

    def yes_or_no(self, cost: float = 0.0) -> int:
        """A column that is 0 or 1; answers its number."""
        return self._column(1.0, cost, whole=True)

    def amount(self, most: float, cost: float = 0.0) -> int:
        """A column from 0 to `most`; answers its number."""
        return self._column(most, cost, whole=False)

    def _column(self, upper: float, cost: float, *, whole: bool) -> int:
        self._costs.append(cost)
        self._upper.append(upper)
        self._whole.append(whole)
        return len(self._costs) - 1

    def row(
        self, terms: Mapping[int, float], least: float = -np.inf, most: float = np.inf
    ) -> None:
        """The sum of the terms, by column, lies between the two."""
        self._rows.append((least, most, terms))

    def solve(
        self,
        limit_s: float,
        start: Mapping[int, float] | None = None,
        go_on: Callable[[float, float], bool] = lambda _found, _bound: True,
    ) -> Solved:
        """The least cost that can be found in the time.

        Args:
            start: a solution known already, by column.
            go_on: told the best cost so far and the bound; answers whether to go on.
        """
        solver = _Quiet()
        for name, value in (
            ("time_limit", max(limit_s, 0.05)),
            ("mip_rel_gap", 1e-6),
            ("mip_feasibility_tolerance", _FINE),
            ("primal_feasibility_tolerance", _FINE),
            ("random_seed", 1),
            ("threads", 1),
        ):
            solver.setOptionValue(name, value)
        solver.passModel(self._as_lp())
        if start is not None:
            known = highspy.HighsSolution()
            known.col_value = [start.get(at, 0.0) for at in range(len(self._costs))]
            solver.setSolution(known)
        is_asked = self._listen(solver, go_on)
        solver.run()
        return self._answer(solver, is_asked)

    def _as_lp(self) -> Any:
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = len(self._costs), len(self._rows)
        lp.col_cost_ = np.array(self._costs)
        lp.col_lower_ = np.zeros(len(self._costs))
        lp.col_upper_ = np.array(self._upper)
        lp.row_lower_ = np.array([row[0] for row in self._rows])
        lp.row_upper_ = np.array([row[1] for row in self._rows])
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_ = np.cumsum([0, *(len(row[2]) for row in self._rows)])
        lp.a_matrix_.index_ = np.array([at for row in self._rows for at in row[2]], dtype=np.int32)
        lp.a_matrix_.value_ = np.array([x for row in self._rows for x in row[2].values()])
        kinds = highspy.HighsVarType
        lp.integrality_ = [kinds.kInteger if w else kinds.kContinuous for w in self._whole]
        return lp

    def _listen(self, solver: Any, go_on: Callable[[float, float], bool]) -> Callable[[], bool]:
        stopped = [False]

        def heard(event: Any) -> None:
            out = event.data_out
            if not go_on(out.mip_primal_bound, out.mip_dual_bound):
                stopped[0] = True
                event.interrupt()

        solver.cbMipInterrupt += heard
        return lambda: stopped[0]

    def _answer(self, solver: Any, is_asked: Callable[[], bool]) -> Solved:
        status, info = solver.getModelStatus(), solver.getInfo()
        bound = info.mip_dual_bound if np.isfinite(info.mip_dual_bound) else None
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            is_none = status == highspy.HighsModelStatus.kInfeasible
            return Solved(None, bound, "none" if is_none else "time")
        values = list(solver.getSolution().col_value)
        if status == highspy.HighsModelStatus.kOptimal:
            return Solved(values, bound, "proved")
        return Solved(values, bound, "asked" if is_asked() else "time")
