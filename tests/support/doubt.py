"""A house with one of each thing, to try in small what may slip out of a reach."""

from honeyledger.ledger.verbs.drums import Fill, Weight
from honeyledger.ledger.verbs.registers import Register
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse


def doubtful_house() -> BuiltHouse:
    """A line that feeds a tank, a tank apart; a bottling tank; two drums; yards A to D."""
    house = BuiltHouse(60)
    line = house.vessel("Line", sort="line")
    house.vessel("Fed tank", fed_by=line)
    for name in ("Tank", "Bottling tank"):
        house.vessel(name)
    for name in ("Drum 1", "Drum 2"):
        house.container(name, limit_g=900_000)
    for name in "ABCD":
        house.yard(name)
    house.do(Register("product", {"name": "Jar", "net_g": 500}))
    house.do(Register("customer", {"name": "Shop"}))
    house.do(Register("supplier", {"name": "Trader"}))
    house.wait(24 * 60)
    return house


def reach(house: BuiltHouse, code: str) -> set[str]:
    """The names of all first ancestors."""
    return {row.name for row in house.back(code).ancestors}


def fill(house: BuiltHouse, source: str, container: str, **more: bool) -> str:
    """A registered container filled from a vessel: the drum's code."""
    done = house.do(Fill(source, Weight(net_g=50_000), container=container, **more))
    return done.codes[-1]


def minutes_from_now(house: BuiltHouse, minutes: int) -> int:
    """A time for `at_min`, so many minutes from now."""
    return (house.now_ms - START_MS) // MINUTE_MS + minutes
