"""Holds told for many lots at once say the same as for each alone: cause, and steps between."""

from collections.abc import Mapping

import pytest

from honeyledger.ledger.verbs.quality import Clear, PutOnHold
from honeyledger.services.hold_ways import HeldBy, held_by
from honeyledger.services.holding import held_lots, held_sentence, hold_sentence
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Two yards in a tank, two drums of it, one of them poured into a second tank and drawn."""
    made = BuiltHouse()
    for tank in ("Tank 1", "Tank 2"):
        made.vessel(tank)
    for yard in ("Mill Lane", "Long Field"):
        made.load(made.yard(yard), 300_000, "Tank 1")
    return made


def _found(house: BuiltHouse) -> Mapping[int, tuple[HeldBy, ...]]:
    return house.house.ask(lambda view: held_by(view, set(held_lots(view))))


def _one_by_one(view: View) -> dict[int, list[tuple[str, str]]]:
    """Each lot with each of its holds, asked for alone."""
    held = held_lots(view)
    lots = view.lots(held)
    return {
        lot: [
            (str(hold_sentence(view, hold)), str(held_sentence(view, lots[lot], hold)))
            for hold in holds
        ]
        for lot, holds in held.items()
    }


def test_every_lot_is_told_as_it_would_be_alone(house: BuiltHouse) -> None:
    first, second = house.drum("Tank 1", 200_000), house.drum("Tank 1", 100_000)
    house.pour(first, "Tank 2")
    third = house.drum("Tank 2", 50_000)
    pull = next(row.code for row in house.back(second).lots if row.kind == "S")
    house.do(PutOnHold(pull, "smells of smoke"))
    house.do(PutOnHold(third, "leaks"))
    house.do(Clear(second, pull, "no smoke found"))
    found = _found(house)
    alone = house.house.ask(_one_by_one)
    assert {lot: [(one.cause, one.way) for one in told] for lot, told in found.items()} == alone
    lots = house.house.ask(lambda view: view.lots(found))
    told = {lots[lot].code: [one.way for one in holds] for lot, holds in found.items()}
    assert second not in told, "cleared"
    fills = [lot.code for lot in lots.values() if lot.kind == "T"]
    assert told[third] == [
        f"{pull}, by way of {fills[0]}, {first}, {fills[1]}: smells of smoke",
        f"{third}: leaks",
    ]


def test_only_the_lots_asked_about_are_told(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 200_000)
    pull = next(row.code for row in house.back(drum).lots if row.kind == "S")
    house.do(PutOnHold(pull, "smells of smoke"))
    lots = house.house.ask(lambda view: view.lots(held_lots(view)))
    wanted = next(number for number, lot in lots.items() if lot.code == drum)
    assert list(house.house.ask(lambda view: held_by(view, {wanted}))) == [wanted]
    assert house.house.ask(lambda view: held_by(view, ())) == {}
