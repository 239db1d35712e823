"""The line across the house: amounts and warnings at each place, what flowed on today."""

import pytest

from honeyledger.domain.moments import moment_at
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Bung, Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.line import (
    DAY_MS,
    LineFlow,
    LinePlace,
    LineState,
    day_start_ms,
    line_state,
)
from tests.support.books import code_in
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    house.container("17", usual_g=200_000)
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("customer", {"name": "Packer"}))
    return house


def _line(house: BuiltHouse) -> LineState:
    return house.house.ask(lambda view: line_state(view, house.now_ms))


def _place(house: BuiltHouse, key: str) -> LinePlace:
    return next(row for row in _line(house).places if row.key == key)


def test_an_empty_house(house: BuiltHouse) -> None:
    line = _line(house)
    assert [(row.key, row.amount, row.unit) for row in line.places] == [
        ("yards", 2, "yards"),
        ("dock", 0, "supers"),
        ("hot_room", 0, "kg"),
        ("extraction", 0, "kg"),
        ("drums", 0, "kg"),
        ("bottling", 0, "kg"),
        ("dispatch", 0, "notes"),
    ]
    assert line.flows == (LineFlow(0),) * 6
    assert not any(row.estimated or row.warnings or row.held for row in line.places)


def test_honey_on_its_way_through_the_house(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 400_400, count=30)
    house.pull("Hill", 100_000)
    house.do(Load(tag, "Tank 1"))
    drum = house.drum("Tank 1", 290_000)
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(lot, 100))
    house.do(Dispatch("Packer", (DispatchLine(drum), DispatchLine(lot, jars=20))))
    line = _line(house)
    assert {row.key: (row.amount, row.estimated) for row in line.places} == {
        "yards": (2, False),
        "dock": (40, False),
        "hot_room": (100, True),
        "extraction": (60, True),
        "drums": (0, False),
        "bottling": (40, False),
        "dispatch": (1, False),
    }
    assert [flow.grams for flow in line.flows] == [
        500_400,
        500_400,
        400_400,
        290_000,
        50_000,
        300_000,
    ]
    head = house.house.ask(lambda view: view.head())
    assert (line.entries, line.head, line.season) == (head.entry, head.digest, 2026)


def test_what_only_changes_its_lot_flows_once(house: BuiltHouse) -> None:
    """Part-filled, bunged, topped up and poured over: 190 kg came out of the tank."""
    house.load("Creek", 400_000, "Tank 1")
    house.do(Fill("Tank 1", Weight(net_g=100_000), container="17", bung=False))
    house.do(Bung("17"))
    house.do(Fill("Tank 1", Weight(net_g=90_000), container="17", top_up=True))
    house.do(Fill("17", Weight(net_g=100_000)))
    house.do(Fill("17", Weight(net_g=50_000), into="Tank 1"))
    assert _line(house).flows[3].grams == 190_000
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(ChangeOver(lot, jars=40))
    house.do(Bottle(lot, 100))
    assert _line(house).flows[4].grams == 50_000


def test_colours_are_weighed_by_mass(house: BuiltHouse) -> None:
    light, _ = house.pull("Creek", 300_000)
    dark, _ = house.pull("Hill", 100_000)
    house.pull("Hill", 900_000)  # not read
    house.do(Measure(light, colour=200))
    house.do(Measure(dark, colour=600))
    assert _line(house).flows[0] == LineFlow(1_300_000, 300)


def test_what_was_reversed_never_flowed(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 10),)))
    house.do(Reverse(done.entries[0].id, "other house"))
    assert _place(house, "dock").amount == 0
    assert _line(house).flows[0].grams == 0


def test_yesterday_is_not_today_but_what_stands_still_stands(house: BuiltHouse) -> None:
    house.pull("Creek", 100_000)
    house.wait(24 * 60)
    assert _place(house, "dock").amount == 0
    assert _line(house).flows[0].grams == 0
    assert _place(house, "hot_room").amount == 100


def test_what_needs_a_person(house: BuiltHouse) -> None:
    house.do(Receive((Line("Creek", 10),), moisture=18_10))
    pull, tag = house.pull("Creek", 100_000)
    house.load("Creek", 400_000, "Tank 1")
    house.do(Fill("Tank 1", container="17", pending=True))
    assert (_place(house, "hot_room").warnings, _place(house, "drums").warnings) == (1, 1)
    house.wait(3 * 24 * 60)
    assert _place(house, "hot_room").warnings == 2  # the other one has stood three days
    house.do(PutOnHold(pull, "smoke"))
    assert _place(house, "hot_room").held == 1
    house.do(Load(tag, "Tank 1", despite_hold="room needed"))
    assert (_place(house, "hot_room").held, _place(house, "extraction").held) == (0, 1)


def test_jars_of_an_open_bottling_are_on_the_line(house: BuiltHouse) -> None:
    house.load("Creek", 400_000, "Tank 1")
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(ChangeOver(lot, jars=40))
    assert _place(house, "bottling").amount == 20
    assert _line(house).flows[4].grams == 20_000


@pytest.mark.parametrize(
    ("zone", "now_utc_min", "start_utc_min"),
    [
        ("UTC", 520, 0),  # START_MS is 08:40 UTC
        ("America/Regina", 520, 360),  # 02:40 there; midnight was at 06:00 UTC
        ("Pacific/Auckland", 520, -720),  # 20:40 there
    ],
)
def test_a_day_is_the_houses_own(zone: str, now_utc_min: int, start_utc_min: int) -> None:
    house = BuiltHouse()
    house.do(Register("house", {"name": "Test House", "zone": zone}))
    midnight_utc = START_MS - now_utc_min * MINUTE_MS
    start = house.house.ask(lambda view: day_start_ms(view, START_MS))
    assert start == midnight_utc + start_utc_min * MINUTE_MS


@pytest.mark.parametrize(
    ("now", "hours"),
    [
        (1_774_828_800_000, 2),  # 30 March 2026 00:00 UTC is 02:00 there
        (1_774_789_200_000, 14),  # 29 March 13:00 UTC is 15:00 there; clocks went forward
        (1_792_933_200_000, 15),  # 25 October 13:00 UTC is 14:00 there; clocks went back
    ],
)
def test_a_day_on_which_clocks_are_changed(now: int, hours: int) -> None:
    """Midnight in Berlin is at 23:00 UTC in winter and at 22:00 UTC in summer."""
    house = BuiltHouse()
    house.do(Register("house", {"name": "Test House", "zone": "Europe/Berlin"}))
    start = house.house.ask(lambda view: day_start_ms(view, now))
    there = moment_at(start, "Europe/Berlin")
    assert (start + there.offset_min * MINUTE_MS) % DAY_MS == 0
    assert now - start == hours * 3_600_000
