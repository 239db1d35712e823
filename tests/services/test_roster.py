"""Who is on shift, by the clock of the house; over midnight, too."""

import pytest

from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dock_page import dock_page
from honeyledger.services.roster import people_now, shift_names, shifts_now
from tests.support.houses import BuiltHouse

HOUR_MS = 3_600_000
# 2026-07-24 00:00 in UTC.
MIDNIGHT_MS = 1_784_851_200_000


@pytest.fixture(scope="module")
def house() -> BuiltHouse:
    made = BuiltHouse()
    for name in ("Ann", "Bo", "Cy"):
        made.do(Register("operator", {"name": name}))
    early = {"name": "Early", "begins": "06:00", "ends": "14:00", "people": "Cy"}
    night = {"name": "Night", "begins": "22:00", "ends": "06:00", "people": "Ann, Bo"}
    for shift in (early, night, {"name": "Spare", "people": "Ann"}):
        made.do(Register("shift", shift))
    return made


@pytest.mark.parametrize(
    ("hour", "names"),
    [
        (5.99, {"Ann": "Night", "Bo": "Night"}),
        (6, {"Cy": "Early"}),
        (14, {}),
        (22, {"Ann": "Night", "Bo": "Night"}),
    ],
)
def test_those_on_shift_are_told_by_the_clock(
    house: BuiltHouse, hour: float, names: dict[str, str]
) -> None:
    now_ms = int(MIDNIGHT_MS + hour * HOUR_MS)
    on = house.house.ask(lambda view: shifts_now(view, now_ms))
    people = house.house.ask(lambda view: people_now(view, now_ms))
    assert {one.name: on[one.code] for one in people if one.code in on} == names
    assert [one.name for one in people][: len(names)] == list(names)
    assert [one.detail for one in people][: len(names)] == list(names.values())
    assert len(people) == 3


def test_a_crew_may_be_a_shift_of_the_list(house: BuiltHouse) -> None:
    assert house.house.ask(shift_names) == ("Early", "Night", "Spare")
    page = house.house.ask(lambda view: dock_page(view, MIDNIGHT_MS, ""))
    assert page.crews == ("Early", "Night", "Spare")
