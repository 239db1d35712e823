"""What is held is walked from each hold's target at every question, never stored."""

import pytest

from honeyledger.ledger.holds import (
    Hold,
    held_among,
    is_of_days,
    open_holds,
    reach_of,
    target_text,
    targets_of,
    upstream_within,
    way_text,
)
from honeyledger.ledger.state import Edge
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from tests.support.houses import BuiltHouse


def _edges(*pairs: tuple[int, int]) -> list[Edge]:
    """(parent, child) pairs as origin rows."""
    return [Edge(child, parent, 1, 0, 1, line) for line, (parent, child) in enumerate(pairs, 1)]


def _hold(**cleared: set[int]) -> Hold:
    known = {int(lot[1:]): frozenset(upstream) for lot, upstream in cleared.items()}
    return Hold("hold/1", "S26-0001-G", (1,), "", "", "smoke", known)


def test_a_hold_reaches_all_descendants_and_survives_circles() -> None:
    edges = _edges((1, 2), (2, 3), (3, 2), (9, 3), (2, 4))
    assert reach_of(_hold(), {1}, edges) == {1, 2, 3, 4}
    assert reach_of(_hold(), set(), edges) == set()


def test_the_walk_stops_at_a_cleared_lot() -> None:
    edges = _edges((1, 2), (2, 3), (3, 4))
    assert reach_of(_hold(_3={1, 2}), {1}, edges) == {1, 2}


def test_it_goes_on_where_another_way_leads_past_the_cleared_lot() -> None:
    edges = _edges((1, 2), (2, 3), (3, 4), (2, 4))
    assert reach_of(_hold(_3={1, 2}), {1}, edges) == {1, 2, 4}


def test_a_clear_ends_when_something_new_comes_upstream() -> None:
    edges = _edges((1, 2), (2, 3), (1, 7), (7, 3))
    assert reach_of(_hold(_3={1, 2}), {1}, edges) == {1, 2, 3, 7}
    assert reach_of(_hold(_3={1, 2, 7}), {1}, edges) == {1, 2, 7}
    # Something new that is not of the held honey changes nothing.
    assert reach_of(_hold(_3={1, 2}), {1}, _edges((1, 2), (2, 3), (8, 3))) == {1, 2}


def test_what_is_upstream_is_what_lies_between() -> None:
    edges = _edges((1, 2), (2, 3), (8, 3), (1, 5))
    assert upstream_within(3, {1}, edges) == {1, 2}
    assert upstream_within(3, {8}, edges) == {8}
    assert upstream_within(3, {5}, edges) == set()


def _house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    house.do(Register("customer", {"name": "Packer"}))
    return house


def _ids(house: BuiltHouse, *codes: str) -> list[int]:
    def ids(view: object) -> list[int]:
        return [view.lot_by_code(code).id for code in codes]  # type: ignore[attr-defined]

    return house.house.ask(ids)


def test_who_is_held_each_once_a_hold() -> None:
    house = _house()
    pull = house.load("Creek", 300_000, "Tank 1")
    drum, free = house.drum("Tank 1", 100_000), house.pull("Hill", 100_000)[0]
    for reason in ("smoke", "moths"):
        house.do(PutOnHold(pull, reason))
    house.do(PutOnHold("Hill", "treated"))
    found = house.house.ask(lambda view: held_among(view, _these(view, drum, free)))
    drum_id, free_id = _ids(house, drum, free)
    assert [(row.lot, row.hold.reason) for row in found] == [
        (drum_id, "smoke"),
        (drum_id, "moths"),
        (free_id, "treated"),
    ]
    assert house.house.ask(lambda view: held_among(view, [])) == []


def _these(view: object, *codes: str) -> list[int]:
    return [view.lot_by_code(code).id for code in codes]  # type: ignore[attr-defined]


def test_open_holds_with_what_they_stand_on() -> None:
    house = _house()
    pull = house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 100_000)
    house.do(PutOnHold(pull, "smoke"))
    house.do(PutOnHold("Hill", "treated", first_day="2026-07-01"))
    house.do(PutOnHold("Tank 1", "glass"))
    house.do(Clear(drum, pull, "clean"))
    other, _ = house.pull("Hill", 100_000)
    holds = house.house.ask(open_holds)
    texts = house.house.ask(lambda view: [target_text(view, hold) for hold in holds])
    assert texts == [pull, "Hill", "Tank 1"]
    targets = house.house.ask(lambda view: [targets_of(view, hold) for hold in holds])
    assert targets == [{1}, set(_ids(house, other)), {2}]
    assert holds[0].cleared == {3: frozenset({1, 2})}
    assert (holds[1].first_day, holds[1].last_day) == ("2026-07-01", "")
    house.do(Release(pull, "clean"))
    assert len(house.house.ask(open_holds)) == 2


def test_honey_whose_day_nobody_said_is_of_any_day_of_its_season() -> None:
    assert is_of_days("2026-07-05", 2026, "2026-07-01", "2026-07-05")
    assert not is_of_days("2026-07-05", 2026, "2026-07-06", "")
    assert is_of_days("", 2025, "2025-12-31", "")
    assert is_of_days("", 2025, "", "2025-01-01")
    assert not is_of_days("", 2025, "2026-01-01", "")
    assert not is_of_days("", 2025, "2024-06-01", "2024-12-31")


@pytest.mark.parametrize(
    ("way", "said"),
    [
        (("S", "T"), "S, T"),
        (("S", "R", "T1", "T2", "T3"), "S, R, T1, T2, T3"),
        (("S", "R", "T1", "T2", "T3", "T4"), "S, R, 3 more and T4"),
    ],
)
def test_a_long_way_is_told_by_its_ends(way: tuple[str, ...], said: str) -> None:
    assert way_text(way) == said
