"""Processes change no figure, stop when told, and are missed by nobody where one ends early."""

from dataclasses import replace
from datetime import date

import pytest

from honeyledger.optimisation import season_runs
from honeyledger.optimisation.house_simulation import season_of
from honeyledger.optimisation.season_runs import HouseSimulator
from honeyledger.services.season_plan import HousePlan, PlanBox, PlanYard

PLAN = HousePlan(
    date(2026, 7, 6), (PlanYard("All", 60),), (PlanBox("medium", 1_000, 9, 15_000),), places=6
)


def _go_on(_done: int, _of: int) -> bool:
    return True


def test_two_processes_give_what_one_gives(monkeypatch: pytest.MonkeyPatch) -> None:
    here = HouseSimulator(1).seasons(PLAN, 6, 3, _go_on)
    monkeypatch.setattr(season_runs, "FROM_LOADS", 0)
    told: list[int] = []
    apart = HouseSimulator(2).seasons(PLAN, 6, 3, lambda done, of: told.append(done) is None)
    assert list(apart) == list(here)
    assert told[-1] == 6


def test_it_stops_when_told(monkeypatch: pytest.MonkeyPatch) -> None:
    assert len(HouseSimulator(1).seasons(PLAN, 9, 1, lambda done, _of: done < 2)) == 2
    monkeypatch.setattr(season_runs, "FROM_LOADS", 0)
    some = HouseSimulator(2).seasons(PLAN, 400, 1, lambda done, _of: done < 2)
    assert 0 < len(some) < 400


def test_seasons_of_a_process_that_fails_are_simulated_here(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(season_runs, "FROM_LOADS", 0)
    monkeypatch.setattr(season_runs, "_START", "raise SystemExit(1)")
    made = HouseSimulator(2).seasons(PLAN, 3, 1, _go_on)
    assert made[0] == season_of(PLAN, 1_000_003)
    assert len(made) == 3


def test_without_a_python_of_its_own_it_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(season_runs, "FROM_LOADS", 0)
    monkeypatch.setattr(season_runs.sys, "executable", "")
    assert len(HouseSimulator(2).seasons(replace(PLAN, crew=1), 2, 1, _go_on)) == 2
