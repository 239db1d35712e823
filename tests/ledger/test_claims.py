"""Claims of lots by what is behind them, and what is sealed of them with a bottling."""

from itertools import pairwise

import pytest

from honeyledger.domain.claims import FLORAL, Claims, CountryShare, Ruling
from honeyledger.ledger.claims import as_claims, as_kept, claims_of, frozen, names_in
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.stated import Part
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.store import View
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.do(Register("house", {"name": "Test House", "zone": "UTC", "country": "Canada"}))
    made.do(Register("product", {"name": "Clover", "net_g": 500}))
    made.yard("Creek", region="Fen Edge", organic=1, forage="clover")
    made.yard("Hill", region="Downs", organic=0, not_for="EU, Japan")
    made.vessel("Tank")
    return made


def _bottled(house: BuiltHouse, *feeds: tuple[str, int]) -> str:
    """A bottling from one feed after another, each with so many jars."""
    code = code_in(house.do(ChangeOver(product="Clover", feed=feeds[0][0])), "J")
    jars = 0
    for (_, count), (then, _) in pairwise(feeds):
        jars += count
        house.do(ChangeOver(code, feed=then, jars=jars))
    house.do(Bottle(code, jars + feeds[-1][1]))
    return code


def _frozen(house: BuiltHouse, code: str) -> Claims:
    found = house.house.ask(lambda view: frozen(view, code))
    assert found is not None
    return found


def _now(house: BuiltHouse, code: str) -> Claims:
    def question(view: View) -> Claims | None:
        lot = view.lot_by_code(code)
        assert lot is not None
        return claims_of(view, {lot.id: lot.made_g})

    found = house.house.ask(question)
    assert found is not None
    return found


def test_one_yards_honey_allows_what_its_record_says(house: BuiltHouse) -> None:
    house.load("Creek", 50_000, "Tank")
    claims = _frozen(house, _bottled(house, ("Tank", 10)))
    assert [(one.claim, one.ruling.value, one.says) for one in claims.claims] == [
        ("yard", "allowed", ("Creek",)),
        ("region", "allowed", ("Fen Edge",)),
        ("floral", "allowed", ("clover",)),
        ("crop", "allowed", ("2026",)),
        ("organic", "allowed", ()),
        ("country", "allowed", ("Canada",)),
        ("countries", "allowed", ()),
        ("market", "allowed", ()),
    ]
    assert claims.countries == (CountryShare("Canada", 1000, 1000, 1000),)


def test_a_second_yard_forbids_by_its_lot_and_at_0_g_too(house: BuiltHouse) -> None:
    hill = house.load("Hill", 50_000, "Tank")
    house.drum("Tank", 50_000)
    house.load("Creek", 50_000, "Tank")
    claims = _frozen(house, _bottled(house, ("Tank", 10)))
    for claim in ("yard", "region", "organic"):
        found = claims.of(claim)
        assert (found.ruling, found.lots, found.sources) == (
            Ruling.NOT_ALLOWED,
            (hill,),
            ("Hill",),
        )
    assert claims.of("region").says == ("Fen Edge", "Downs")
    assert claims.of("floral").ruling is Ruling.NOT_PROVABLE
    assert [(one.claim, one.lots) for one in claims.markets] == [
        ("market/eu", (hill,)),
        ("market/japan", (hill,)),
    ]
    assert claims.for_market("eu").ruling is Ruling.NOT_ALLOWED
    assert claims.for_market("Chile").ruling is Ruling.ALLOWED


def test_countries_fall_by_share_and_spread_over_the_fills_of_the_jars(house: BuiltHouse) -> None:
    """Computed: 300 kg of A, 150 kg of B and 50 kg of C are 60, 30 and 10 % of the blend."""
    house.do(Register("supplier", {"name": "Trader", "country": "B"}))
    house.yard("Here", country="A")
    house.load("Here", 300_000, "Tank")
    for country, grams in (("", 150_000), ("C", 50_000)):
        bought = Purchase("Trader", Weight(net_g=grams), "L1", country, certificate="C 31")
        house.do(Fill(house.do(bought).codes[0], into="Tank", whole=True))
    claims = _frozen(house, _bottled(house, ("Tank", 100)))
    assert claims.countries == (
        CountryShare("A", 600, 600, 600),
        CountryShare("B", 300, 300, 300),
        CountryShare("C", 100, 100, 100),
    )
    assert claims.of("country").ruling is Ruling.NOT_ALLOWED
    assert claims.of("countries").ruling is Ruling.ALLOWED
    alone = house.buy("Trader", 50_000)
    claims = _frozen(house, _bottled(house, ("Tank", 100), (alone, 100)))
    assert claims.countries[0] == CountryShare("AR", 500, 0, 1000)
    assert claims.countries[1] == CountryShare("A", 300, 0, 600)


def test_honey_nobody_can_name_proves_nothing_and_may_be_of_anywhere(house: BuiltHouse) -> None:
    house.do(Fill("Tank", Weight(net_g=10_000)))
    house.load("Creek", 50_000, "Tank")
    code = code_in(
        house.do(ChangeOver(product="Clover", feed="Tank", despite_hold="looked at")), "J"
    )
    house.do(Bottle(code, 10, despite_hold="looked at"))
    claims = _frozen(house, code)
    assert {one.ruling for one in claims.claims} == {Ruling.NOT_PROVABLE}
    assert claims.of("yard").sources == ("source not known",)
    assert claims.for_market("EU").ruling is Ruling.NOT_PROVABLE


def test_what_is_frozen_stays_as_the_records_change(house: BuiltHouse) -> None:
    house.load("Creek", 50_000, "Tank")
    code = _bottled(house, ("Tank", 10))
    house.do(Register("yard", {"name": "Creek", "region": "Downs"}, house.forward("Creek").code))
    assert _frozen(house, code).of("region").says == ("Fen Edge",)
    now = _now(house, code)
    assert (now.of("region").says, now.of("organic").ruling) == (("Downs",), Ruling.NOT_PROVABLE)


def test_a_blend_bought_in_without_shares_is_told_and_not_proved(house: BuiltHouse) -> None:
    house.do(Register("supplier", {"name": "Trader"}))
    said = (Part("Chile"), Part("Peru"))
    bought = Purchase("Trader", Weight(net_g=60_000), "L1", countries=said, certificate="C 3")
    drum = house.do(bought).codes[0]
    claims = _now(house, drum)
    assert claims.of("countries").ruling is Ruling.NOT_PROVABLE
    assert [one.name for one in claims.countries] == ["Chile, Peru"]


def test_honey_bought_in_has_the_floral_kind_its_supplier_states(house: BuiltHouse) -> None:
    house.do(Register("supplier", {"name": "Far Hills"}))
    weight = Weight(net_g=290_000)
    plain = house.do(Purchase("Far Hills", weight)).codes[0]
    stated = house.do(Purchase("Far Hills", weight, floral=" orange  blossom ")).codes[0]
    silent, told = (_now(house, code).of(FLORAL) for code in (plain, stated))
    assert (silent.ruling, silent.lots) == (Ruling.NOT_PROVABLE, (plain,))
    assert (told.ruling, told.says) == (Ruling.ALLOWED, ("orange blossom",))


def test_claims_come_back_from_what_is_kept(house: BuiltHouse) -> None:
    house.load("Creek", 50_000, "Tank")
    house.load("Hill", 10_000, "Tank")
    claims = _frozen(house, _bottled(house, ("Tank", 10)))
    assert as_claims(as_kept(claims)) == claims
    lists = as_kept(claims)["lists"]
    assert isinstance(lists, list)
    assert len(lists) == len({tuple(one) for one in lists}), "what several name stands there once"
    assert as_claims({}) == Claims((), ())


def test_names_are_read_once_each() -> None:
    assert names_in(" EU, Japan ;EU,") == ("EU", "Japan")
