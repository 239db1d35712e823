"""The statement of containers: who has which since when, by customer and the oldest first."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.trade import Empties
from honeyledger.services.empties_owed import empties_owed
from tests.support.books import code_in
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    """Three full containers, two customers."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 900_000, "Tank 1")
    for name, sort in (("Blue 1", "drum"), ("Tote 2", "tote"), ("Blue 3", "")):
        record = {"sort": sort} if sort else {}
        house.container(name, usual_g=200_000, **record)
        house.do(Fill("Tank 1", Weight(net_g=200_000), container=name))
    for name in ("Packer", "Baker"):
        house.do(Register("customer", {"name": name}))
    return house


def _owed(house: BuiltHouse, customer: str = "") -> list[tuple[str, str, str]]:
    rows = house.house.ask(lambda view: empties_owed(view, customer))
    return [(row.customer_name, row.name, row.sort) for row in rows]


def test_what_each_customer_owes(house: BuiltHouse) -> None:
    assert _owed(house) == []
    drums = house.house.ask(lambda view: [row.lot.code for row in view.on_hand(["drum"])])
    first = house.do(Dispatch("Packer", (DispatchLine(drums[1]),)))
    house.wait(60)
    house.do(Dispatch("Packer", (DispatchLine(drums[0]),)))
    house.do(Dispatch("Baker", (DispatchLine(drums[2]),)))
    assert _owed(house) == [
        ("Baker", "Blue 3", "drum"),
        ("Packer", "Tote 2", "tote"),
        ("Packer", "Blue 1", "drum"),
    ]
    row = house.house.ask(lambda view: empties_owed(view, "packer"))[0]
    assert (row.lot, row.note, row.since) == (
        drums[1],
        code_in(first, "N"),
        first.entries[0].act.happened,
    )
    house.do(Empties("Packer", ("Tote 2",)))
    assert _owed(house, "Packer") == [("Packer", "Blue 1", "drum")]
    assert refused(lambda: _owed(house, "Nobody")).startswith("There is no customer called Nobody")
