"""What jars hold and what may be claimed of them: by reach, with shares of countries."""

from collections.abc import Mapping

import pytest

from honeyledger.domain.claims import Ruling
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.stated import Part
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.quality import Release
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.bottling_makeup import Makeup, makeup_of
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.do(Register("house", {"name": "Test House", "zone": "UTC", "country": "CA"}))
    made.vessel("Tank 1")
    return made


def _makeup(house: BuiltHouse, place: str) -> Makeup | None:
    def question(view: View) -> Makeup | None:
        grams: Mapping[int, int] = {
            row.lot.id: row.grams for row in view.on_hand() if row.place.startswith(place)
        }
        return makeup_of(view, grams)

    return house.house.ask(question)


def _in_tank(house: BuiltHouse) -> Makeup:
    made = _makeup(house, "vessel/")
    assert made is not None
    return made


def test_nothing_holds_nothing(house: BuiltHouse) -> None:
    assert _makeup(house, "vessel/") is None


def _shares(made: Makeup) -> list[tuple[str, int]]:
    return [(one.name, one.share) for one in made.claims.countries]


def test_one_yard_one_region_one_country_one_season(house: BuiltHouse) -> None:
    house.load(house.yard("Mill Lane", region="Tansel Valley", organic=1), 100_000, "Tank 1")
    made = _in_tank(house)
    assert [row.name for row in made.sources] == ["Mill Lane"]
    assert _shares(made) == [("CA", 1000)]
    assert made.claims.of("region").says == ("Tansel Valley",)
    assert made.claims.of("crop").says == ("2026",)
    assert made.claims.of("organic").ruling is Ruling.ALLOWED
    assert (made.grams, made.is_known) == (100_000, True)


def test_countries_in_falling_order_by_yard_drum_and_supplier(house: BuiltHouse) -> None:
    house.load(house.yard("Mill Lane"), 100_000, "Tank 1")
    house.load(house.yard("Over There", country="US"), 50_000, "Tank 1")
    trader = {"name": "Trader", "country": "AR"}
    house.do(Register("supplier", trader))
    for country, grams in (("", 150_000), ("UY", 100_000)):
        bought = Purchase("Trader", Weight(net_g=grams), "L1", country, certificate="C 31")
        drum = house.do(bought).codes[0]
        house.do(Fill(drum, into="Tank 1", whole=True))
    assert _shares(_in_tank(house)) == [("AR", 375), ("CA", 250), ("UY", 250), ("US", 125)]


def test_a_blend_bought_in_is_told_apart_by_its_shares_and_papers_say_a_country(
    house: BuiltHouse,
) -> None:
    house.do(Register("supplier", {"name": "Trader"}))
    blend = (Part("AR", 600), Part("UY", 400))
    bought = (
        Purchase("Trader", Weight(net_g=100_000), "L1", countries=blend, certificate="C 31"),
        Purchase("Trader", Weight(net_g=50_000), "L2", certificate="C 32"),
        Purchase("Trader", Weight(net_g=50_000), "L3", country="MX and CL", certificate="C 33"),
    )
    drums = [house.do(one).codes[0] for one in bought]
    house.do(Release(drums[1], "its papers came", country="BR"))
    for drum in drums:
        house.do(Fill(drum, into="Tank 1", whole=True))
    shares = [("AR", 300), ("BR", 250), ("MX and CL", 250), ("UY", 200)]
    assert _shares(_in_tank(house)) == shares


def test_a_yard_at_0_g_is_in_the_reach_and_in_every_claim(house: BuiltHouse) -> None:
    mill = house.load(house.yard("Mill Lane", region="Valley"), 100_000, "Tank 1")
    house.drum("Tank 1", 100_000)
    house.load(house.yard("Long Field", region="Valley", organic=1), 80_000, "Tank 1")

    def question(view: View) -> Makeup | None:
        where = view.marked("record", "vessel/")[0].subject
        return makeup_of(view, {row.lot.id: row.grams for row in view.standing(where)})

    made = house.house.ask(question)
    assert made is not None
    assert [(row.name, row.share) for row in made.sources] == [
        ("Long Field", 1.0),
        ("Mill Lane", 0.0),
    ]
    assert made.claims.of("region").ruling is Ruling.ALLOWED
    assert made.claims.of("organic").lots == (mill,)


def test_honey_nobody_can_name_claims_nothing(house: BuiltHouse) -> None:
    house.load(house.yard("Mill Lane", organic=1, region="Valley"), 100_000, "Tank 1")
    house.drum("Tank 1", 300_000)
    house.load(house.yard("Long Field", organic=1, region="Valley"), 100_000, "Tank 1")
    made = _makeup(house, "drum/")
    assert made is not None
    assert not made.is_known
    assert [name for name, _ in _shares(made)] == ["", "CA"]
    assert made.claims.of("organic").ruling is Ruling.NOT_PROVABLE
    assert made.claims.of("organic").sources == ("source not known",)
