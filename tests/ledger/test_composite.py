"""Which reading of a lot the house goes by."""

from honeyledger.ledger.composite import latest
from honeyledger.ledger.verbs.measuring import Measure, Reported
from honeyledger.ledger.verbs.quality import Sample
from tests.support.houses import BuiltHouse


def test_a_lots_own_reading_comes_before_a_composite() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 300_000, "Tank 1")
    one, other = house.drum("Tank 1", 140_000), house.drum("Tank 1", 140_000)
    sample = house.do(Sample((one, other), 200)).codes[-1]
    house.do(Measure(one, moisture=17_20))
    results = (Reported("hmf", "12"),)
    house.do(Measure(sample, moisture=17_80, results=results))

    def read(code: str, name: str) -> int | None:
        return house.house.ask(lambda view: latest(view, code, name))

    assert [read(code, "moisture") for code in (one, other)] == [17_20, 17_80]
    assert read(one, "colour") is None
    assert read(one, "hmf") is None  # kept as it was reported, so no figure of the ledger
