"""Source lots with the places they are from, a wrong yard put right included."""

from honeyledger.ledger.source_places import source_places
from honeyledger.ledger.verbs.amending import Amend
from tests.support.houses import BuiltHouse


def test_a_place_amended_away_keeps_its_row_without_a_part() -> None:
    house = BuiltHouse()
    creek, hill = house.yard("Creek"), house.yard("Hill")
    house.vessel("Tank")
    code = house.load("Creek", 50_000, "Tank")
    lot = house.house.ask(lambda view: view.lot_by_code(code))
    assert lot is not None
    kinds = {lot.id: "S"}
    asked = house.house.ask(lambda view: source_places(view, kinds))
    assert asked == {lot.id: ((f"yard/{creek}", 1.0, False),)}
    house.drum("Tank", 20_000)
    house.do(Amend(code, "misread", yard="Hill"))
    asked = house.house.ask(lambda view: source_places(view, kinds))
    assert sorted(asked[lot.id]) == sorted(
        [(f"yard/{creek}", 0.0, True), (f"yard/{hill}", 1.0, True)]
    )
    assert house.house.ask(lambda view: source_places(view, {lot.id: "D"})) == {}
