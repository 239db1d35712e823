"""What a weighing says, and where honey is taken from."""

import pytest

from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Act, Lot
from honeyledger.ledger.sources import (
    Weight,
    check_tare,
    find_drum,
    find_source,
    home_of,
    net_of,
    number_in,
    number_of,
    sources_of,
)
from honeyledger.ledger.state import Holding
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dispatch import part_of
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings
from tests.support.books import place
from tests.support.houses import START_MS, BuiltHouse, refused


@pytest.mark.parametrize(
    ("weight", "tare_g", "net_g"),
    [
        (Weight(net_g=5_000), None, 5_000),
        (Weight(gross_g=25_000, tare_g=18_000), None, 7_000),
        (Weight(gross_g=25_000), 18_500, 6_500),
        (Weight(gross_g=25_000, tare_g=18_000), 18_500, 7_000),
        (Weight(gross_g=25_000, tare_g=0), None, 25_000),
        (Weight(net_g=5_000, gross_g=25_000), 18_500, 5_000),
        (Weight(), 18_500, None),
    ],
)
def test_a_net_weight(weight: Weight, tare_g: int | None, net_g: int | None) -> None:
    assert net_of(weight, tare_g) == net_g


@pytest.mark.parametrize(
    ("weight", "field"),
    [
        (Weight(net_g=0), "net_g"),
        (Weight(gross_g=18_000, tare_g=18_000), "gross_g"),
        (Weight(gross_g=18_000, tare_g=-1), "tare_g"),
        (Weight(gross_g=18_000), "tare_g"),
    ],
)
def test_a_weighing_that_cannot_be_is_refused_at_its_field(weight: Weight, field: str) -> None:
    with pytest.raises(Refusal) as refused_with:
        net_of(weight, None)
    assert refused_with.value.field == field


def test_a_tare_is_none_or_more() -> None:
    check_tare(0)
    assert refused(lambda: check_tare(-2_000)) == (
        "A tare of −2.0 kg cannot be: weigh the empty container, or leave it at 0."
    )


def test_a_number_in_a_record() -> None:
    assert number_in({"usual_g": 5}, "usual_g", 7) == 5
    assert number_in({"usual_g": "five"}, "usual_g", 7) == 7
    assert number_in({}, "usual_g", 7) == 7


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    house.container("17", number="A-17")
    return house


def _found(house: BuiltHouse, text: str) -> str:
    def look(view: object) -> str:
        act = Act(moment_at(START_MS, "UTC"), "", "", "command")
        return find_source(Booking(view, act, START_MS, 0), text)  # type: ignore[arg-type]

    return house.house.ask(look)


def test_honey_is_taken_from_a_vessel_or_drum_by_any_of_its_names(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    tank = place(house, "Tank 1")
    code = tank.partition("/")[2]
    assert {_found(house, text) for text in ("Tank 1", " tank 1 ", code, code.lower())} == {tank}
    fill, drum = house.do(Fill("Tank 1", Weight(net_g=200_000), container="17")).codes
    container = place(house, "17")
    names = ("17", "a-17", container.partition("/")[2], drum)
    assert {_found(house, text) for text in names} == {container}
    assert _found(house, fill) == tank
    barrel = house.do(Cappings("Tank 1", 10_000)).codes[0]
    assert _found(house, barrel) == f"barrel/{barrel}"


def test_what_is_no_source(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    yard = place(house, "Creek")
    assert yard == "Creek"
    assert refused(lambda: _found(house, pull)) == (
        f"{pull} is a pull, but a drum, drum bought in, tank fill or barrel of cappings or wax is "
        "needed here. Scan that code instead."
    )
    assert refused(lambda: _found(house, tag)).startswith(f"{tag} is a pallet tag, but a drum")
    assert refused(lambda: _found(house, "Silo")) == (
        "There is no vessel or container called Silo. Choose one, such as 17 or Tank 1, or "
        "register it first."
    )


def test_a_name_of_a_vessel_and_of_a_container_is_asked_about(house: BuiltHouse) -> None:
    drum = house.container("Tank 1")
    tank = place(house, "Tank 1").partition("/")[2]
    assert refused(lambda: _found(house, "Tank 1")) == (
        f"Tank 1 is a vessel ({tank}) and a container ({drum}): say by its code which is meant."
    )
    assert _found(house, tank) == f"vessel/{tank}"
    assert _found(house, drum) == f"drum/{drum}"


def test_a_drum_by_its_lot_or_container(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    drum = house.do(Fill("Tank 1", Weight(net_g=200_000), container="17")).codes[-1]

    def look(view: object) -> tuple[str, str]:
        act = Act(moment_at(START_MS, "UTC"), "", "", "command")
        lot, where = find_drum(Booking(view, act, START_MS, 0), "17")  # type: ignore[arg-type]
        return lot.code, where

    assert house.house.ask(look) == (drum, place(house, "17"))


def test_the_places_a_pull_is_from(house: BuiltHouse) -> None:
    creek = house.house.ask(lambda view: view.marked("record", "yard/"))[0].subject
    hill = house.house.ask(lambda view: view.marked("record", "yard/"))[1].subject
    pull, _ = house.pull("Creek", 100_000)

    def look(view: object) -> tuple[dict[str, int], str]:
        lot = view.lot_by_code(pull)  # type: ignore[attr-defined]
        return sources_of(view, lot), home_of(view, lot)  # type: ignore[arg-type]

    assert house.house.ask(look) == ({creek: 100_000}, creek)
    house.do(Amend(pull, "misread", yard="Hill"))
    assert house.house.ask(look) == ({creek: 0, hill: 100_000}, hill)


def test_one_is_not_many() -> None:
    assert [number_of(count, "jars") for count in (0, 1, 2)] == ["0 jars", "1 jar", "2 jars"]


def test_the_last_jar_is_one_jar() -> None:
    lot = Lot(1, "J26-0001-L", "J", 1, 340, 2026, {})
    with pytest.raises(Refusal) as refused:
        part_of(lot, Holding("jars", 1, 340, 1), 5, None)
    assert refused.value.text == "There is 1 jar of J26-0001-L here, not 5. Count again."
