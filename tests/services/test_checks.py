"""The checks of a house on a day: due, overdue, found off, and what used it since."""

import pytest

from honeyledger.domain.checks import ListedCheck, State
from honeyledger.domain.withholding import parse_interval
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services import checks
from honeyledger.services.checks import (
    ChecksPage,
    checks_page,
    facts_of,
    house_checks,
    waiting_checks,
)
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse

DAY_MIN = 24 * 60
SHIPPED = (
    ListedCheck("pests", "Pests", "Traps.", parse_interval("1 week")),
    ListedCheck("scale", "Scale against a weight", "Zero.", parse_interval("1 day"), "scale"),
    ListedCheck("water", "Water", "Tested.", parse_interval("12 months")),
)


def _page(house: BuiltHouse, at_min: int) -> ChecksPage:
    now_ms = START_MS + at_min * MINUTE_MS
    return house.house.ask(lambda view: checks_page(view, now_ms, SHIPPED))


def _states(page: ChecksPage) -> dict[str, State]:
    return {row.key: row.state for row in page.rows}


def test_each_piece_of_equipment_has_its_own_and_the_house_the_rest() -> None:
    house = BuiltHouse()
    first = house.do(Register("equipment", {"name": "Drum scale", "sort": "Scale"})).given[0]
    second = house.do(Register("equipment", {"name": "Jar scale", "sort": "scale"})).given[0]
    assert _states(_page(house, 1)) == {
        "pests": State.NEVER,
        f"scale/{first}": State.NEVER,
        f"scale/{second}": State.NEVER,
        "water": State.NEVER,
    }
    ann = house.do(Register("operator", {"name": "Ann Reed"})).given[0]
    house.do(Check("Drum scale", "20 kg", value="20.0 kg"), at_min=10, operator=ann)
    house.do(Check("", "Pests", listed="pests", note="two traps"), at_min=11)
    page = _page(house, 20)
    assert _states(page) == {
        f"scale/{second}": State.NEVER,
        "water": State.NEVER,
        f"scale/{first}": State.IN_ORDER,
        "pests": State.IN_ORDER,
    }
    assert page.waiting == 2
    row = page.row(f"scale/{first}")
    assert row is not None
    assert (row.name, row.by, row.value, row.last_day) == (
        *("Drum scale", "Ann Reed", "20.0 kg", "2026-07-24"),
    )
    assert _states(_page(house, 20 + DAY_MIN))[f"scale/{first}"] is State.DUE
    assert _states(_page(house, 20 + 2 * DAY_MIN))[f"scale/{first}"] is State.OVERDUE
    assert _states(_page(house, 20 + 6 * DAY_MIN))["pests"] is State.IN_ORDER


def test_one_found_off_stays_open_until_it_is_right_again() -> None:
    house = BuiltHouse()
    house.yard("Hill")
    house.vessel("Tank")
    code = house.do(
        Register("equipment", {"name": "Scale", "sort": "scale", "weighs": "drums"})
    ).given[0]
    key = f"scale/{code}"
    house.do(Check("Scale", "20 kg", listed="scale"), at_min=10)
    house.load("Hill", 200_000, "Tank", at_min=100)
    drum = house.drum("Tank", 60_000, at_min=120)
    house.do(Check("Scale", "20 kg", "off", "20.4 kg", listed="scale"), at_min=200)
    page = _page(house, 210)
    assert _states(page)[key] is State.OFF
    assert [row.code for row in page.used[key].rows] == [drum]
    row = page.row(key)
    assert row is not None
    assert row.since is not None
    assert row.since.at_ms == START_MS + 10 * MINUTE_MS
    assert facts_of(row).since_ms == row.since.at_ms
    house.do(Check("Scale", "20 kg", listed="scale"), at_min=220)
    page = _page(house, 230)
    assert _states(page)[key] is State.IN_ORDER
    assert page.used == {}
    # Since when it is off can be said, too; where it is said later than it was right.
    since_ms = START_MS + 225 * MINUTE_MS
    house.do(Check("Scale", "zero", "off", listed="scale", since_ms=since_ms), at_min=230)
    said = _page(house, 240).row(key)
    assert said is not None
    assert said.since is not None
    assert said.since.at_ms == since_ms


def test_the_house_changes_the_list_adds_to_it_and_leaves_out() -> None:
    house = BuiltHouse()
    house.do(Register("check", {"name": "Pests", "every": "2 weeks"}))
    house.do(Register("check", {"name": "Water", "left_out": 1}))
    house.do(Register("check", {"name": "Filler oil", "look": "Food grease."}))
    found = {one.key: one for one in house.house.ask(lambda view: house_checks(view, SHIPPED))}
    assert list(found) == ["pests", "scale", "filler-oil"]
    assert (found["pests"].every, found["pests"].look) == (parse_interval("2 weeks"), "Traps.")
    assert found["filler-oil"].every == parse_interval("1 month")


def test_what_was_made_once_and_is_due_is_counted_for_the_house() -> None:
    house = BuiltHouse()

    def waiting(at_min: int) -> int:
        now_ms = START_MS + at_min * MINUTE_MS
        return house.house.ask(lambda view: waiting_checks(view, now_ms, SHIPPED))

    assert waiting(0) == 0, "a house that makes none is not told of them"
    house.do(Check("", "Pests", listed="pests"), at_min=5)
    assert waiting(10) == 0
    assert waiting(10 + 8 * DAY_MIN) == 1
    house.do(Check("", "Water", "off", listed="water"), at_min=20)
    assert waiting(30) == 1


def test_a_large_house_lists_what_used_a_thing_only_since_a_time(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    house = BuiltHouse()
    house.do(Check("", "Water", "off", listed="water"), at_min=5)
    assert list(_page(house, 10).used) == ["water"]
    monkeypatch.setattr(checks, "SMALL", 0)
    assert list(_page(house, 10).used) == []
    since_ms = START_MS + MINUTE_MS
    house.do(Check("", "Water", "off", listed="water", since_ms=since_ms), at_min=6)
    assert list(_page(house, 10).used) == ["water"]
