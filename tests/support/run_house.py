"""A house in which a run goes on: two yards over a heel, a drum read, one to follow, cappings."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings, Load, OpenRun
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stocktake import Move
from tests.support.houses import BuiltHouse


def house_with_a_run() -> BuiltHouse:
    """The house; two of its drums stand in row B3 of the drum room, one of them on hold."""
    house = BuiltHouse()
    house.do(Register("operator", {"name": "Ann Reed"}))
    house.do(Register("room", {"name": "Drum room"}))
    line = house.vessel("Line A", sort="line")
    tank = house.vessel("Tank 1", fed_by=line)
    house.load(house.yard("Long Field"), 50_000, line)
    house.drum(tank, 20_000)
    run = house.do(OpenRun(line)).given[0]
    for name, grams in (("Mill Lane", 400_000), ("Coulee", 200_000)):
        _, tag = house.pull(house.yard(name), grams)
        house.do(Load(tag, line), run=run)
    house.do(Fill(tank, Weight(net_g=280_000)), run=run)
    house.do(Measure("D26-0002-A", moisture=17_50, colour=340))
    house.do(Fill(tank, pending=True), run=run)
    house.do(Cappings(line, 31_000), run=run)
    house.do(Move(("D26-0001-C", "D26-0002-A"), "Drum room", "B3"))
    house.do(PutOnHold("D26-0002-A", "lab result awaited"))
    return house
