"""What a label claims against what the books say."""

from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.claims import LotClaims, lot_claims
from honeyledger.services.labelling import label_rows
from honeyledger.services.papers import JarLabel, Serials
from tests.support.books import code_in
from tests.support.houses import MINUTE_MS, BuiltHouse, refused

YEAR_MIN = 366 * 24 * 60


def _house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek", region="Fen Edge", organic=1)
    house.yard("Hill")
    house.vessel("Tank")
    return house


def _claims(house: BuiltHouse, code: str) -> LotClaims:
    return house.house.ask(lambda view: lot_claims(view, code))


def _print(house: BuiltHouse, code: str) -> int:
    return len(house.house.ask(lambda view: list(label_rows(view, code))))


def _jars(house: BuiltHouse, **claims: str | int) -> str:
    house.do(Register("product", {"name": "Clover", "net_g": 500, **claims}, key="clover"))
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(code, 10))
    return code


def test_a_crop_year_holds_for_one_seasons_honey_only() -> None:
    house = _house()
    house.load("Creek", 50_000, "Tank")
    assert _print(house, _jars(house, crop=2026)) == 10
    house.now_ms += YEAR_MIN * MINUTE_MS
    house.load("Creek", 50_000, "Tank")
    jars = _jars(house, crop=2027)
    assert refused(lambda: _print(house, jars)) == (
        f"The label of Clover says crop 2027, and {jars} holds honey of 2026 and 2027. Amend its "
        "product, or take the year out of the product's record."
    )


def test_organic_and_region_hold_for_all_that_is_in_reach() -> None:
    house = _house()
    house.load("Creek", 50_000, "Tank")
    assert _print(house, _jars(house, claims_organic=1, claims_region="fen edge")) == 10
    house.load("Hill", 1_000, "Tank")
    organic = _jars(house, claims_organic=1)
    assert refused(lambda: _print(house, organic)) == (
        f"The label of Clover says organic, and Hill in {organic} are not on record as organic. "
        "Amend its product, or the records."
    )
    regional = _jars(house, claims_region="Fen Edge", claims_organic=0)
    assert refused(lambda: _print(house, regional)) == (
        f"The label of Clover says Fen Edge, and {regional} holds honey of a yard without a "
        "region. Amend its product, or the records."
    )


def test_honey_of_unknown_source_claims_nothing() -> None:
    house = _house()
    house.do(Fill("Tank", Weight(net_g=10_000)))
    house.load("Creek", 50_000, "Tank")
    house.do(Register("product", {"name": "Clover", "net_g": 500, "crop": 2026}))
    code = code_in(
        house.do(ChangeOver(product="Clover", feed="Tank", despite_hold="looked at")), "J"
    )
    house.do(Bottle(code, 10, despite_hold="looked at"))
    assert refused(lambda: _print(house, code)) == (
        f"The label of Clover claims an origin, and nobody knows where all of {code} is from. "
        "Amend the unknown lot first."
    )


def test_one_yard_and_one_bloom_hold_for_all_that_is_in_reach() -> None:
    house = _house()
    house.load("Creek", 50_000, "Tank")
    assert _print(house, _jars(house, claims_yard="creek")) == 10
    house.load("Hill", 1_000, "Tank")
    one_yard = _jars(house, claims_yard="Creek")
    assert refused(lambda: _print(house, one_yard)) == (
        f"The label of Clover says the one yard Creek, and {one_yard} holds honey of Hill. Amend "
        "its product, or take the yard out of the product's record."
    )
    bloom = _jars(house, claims_floral="clover")
    assert refused(lambda: _print(house, bloom)) == (
        f"The label of Clover says clover, and {bloom} holds honey of a source that does not say. "
        "Amend its product, or the records of what the bees work."
    )


def test_countries_are_said_in_falling_order_within_the_houses_tolerance() -> None:
    house = _house()
    house.do(Register("house", {"name": "Test House", "zone": "UTC", "country": "Canada"}))
    house.do(Register("supplier", {"name": "Trader"}))
    house.load("Creek", 60_000, "Tank")
    house.pour(house.buy("Trader", 40_000), "Tank")
    assert _print(house, _jars(house, claims_countries="Canada 58, AR 42")) == 10
    wrong = _jars(house, claims_countries="Canada 70 %, AR 30 %")
    assert refused(lambda: _print(house, wrong)) == (
        f"The label of Clover says Canada 70 %, AR 30 %, and {wrong} is Canada 60.0 %, AR 40.0 %, "
        "in falling order, each within 5 points of percent. Put them so in the product's record, "
        "or amend the jars' product."
    )
    tight = {"share_tolerance_permille": 25, "share_tolerance_relative": 1}
    house.do(
        Register("house", {"name": "Test House", "zone": "UTC", "country": "Canada", **tight})
    )
    close = _jars(house, claims_countries="Canada 58, AR 42")
    assert "each within 2.5 % of its share" in refused(lambda: _print(house, close))
    assert _print(house, _jars(house, claims_countries="Canada, AR")) == 10


def test_what_is_not_for_a_market_is_not_labelled_for_it() -> None:
    house = _house()
    house.do(Register("yard", {"name": "Moor", "not_for": "EU"}))
    house.load("Creek", 50_000, "Tank")
    assert _print(house, _jars(house, for_markets="EU")) == 10
    moor = house.load("Moor", 1_000, "Tank")
    flagged = _jars(house, for_markets="EU; Japan")
    assert refused(lambda: _print(house, flagged)) == (
        f"Clover is labelled for EU, and {moor} in {flagged} are not eligible for export there. "
        "Amend its product, and keep it out of EU."
    )


def test_unknown_honey_is_proved_for_no_market() -> None:
    house = _house()
    house.do(Fill("Tank", Weight(net_g=10_000)))
    house.load("Creek", 50_000, "Tank")
    house.do(Register("product", {"name": "Clover", "net_g": 500, "for_markets": "EU"}))
    why = "looked at"
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank", despite_hold=why)), "J")
    house.do(Bottle(code, 10, despite_hold=why))
    said = refused(lambda: _print(house, code))
    unknown = next(row.code for row in house.back(code).ancestors if row.kind == "unknown")
    assert said == (
        f"Clover is labelled for EU, and nobody knows where {unknown} in {code} are from. Amend "
        "the unknown lot first."
    )


def test_a_label_is_held_against_what_was_sealed_as_it_was_bottled() -> None:
    house = _house()
    creek = house.house.ask(lambda view: find_record(view, "yard", "Creek"))[0].partition("/")[2]
    house.load("Creek", 50_000, "Tank")
    code = _jars(house, claims_region="Downs", claims_organic=1)
    house.do(Register("yard", {"name": "Creek", "region": "Downs", "organic": 1}, creek))
    assert refused(lambda: _print(house, code)) == (
        f"The label of Clover says Downs, and {code} as it was bottled holds honey of Fen Edge. "
        "Amend its product, or the records."
    )
    found = _claims(house, code)
    assert found.now is not None
    assert found.sealed is not None
    assert [claims.of("region").says for claims in (found.now, found.sealed)] == [
        ("Downs",),
        ("Fen Edge",),
    ]
    assert [one.key for one in found.against] == ["other-region"]


def test_what_was_only_missing_on_record_may_be_put_there_after() -> None:
    house = _house()
    hill = house.house.ask(lambda view: find_record(view, "yard", "Hill"))[0].partition("/")[2]
    house.load("Hill", 50_000, "Tank")
    code = _jars(house, claims_region="Downs", claims_organic=1)
    assert len(_claims(house, code).against) == 2
    house.do(Register("yard", {"name": "Hill", "region": "Downs", "organic": 1}, hill))
    assert _print(house, code) == 10


def _origin(house: BuiltHouse, code: str) -> str:
    wanted = Serials(1, 2)
    row = next(iter(house.house.ask(lambda view: list(label_rows(view, code, wanted)))))
    assert isinstance(row, JarLabel)
    return row.origin


def test_an_origin_line_is_filled_with_the_countries_as_they_were_sealed() -> None:
    house = _house()
    house.do(Register("house", {"name": "Test House", "zone": "UTC", "country": "Canada"}))
    house.do(Register("supplier", {"name": "Trader"}))
    house.load("Creek", 60_000, "Tank")
    house.pour(house.buy("Trader", 40_000), "Tank")
    blend = {"name": "Clover", "net_g": 500, "origin": "Blend of honeys: {countries}"}
    house.do(Register("product", blend, "clover"))
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    assert refused(lambda: _origin(house, code)) == (
        f"The label of Clover names the countries of its honey, and they are known when {code} is "
        "closed. Close the bottling first."
    )
    house.do(Bottle(code, 10))
    assert _origin(house, code) == "Blend of honeys: Canada 60.0 %, AR 40.0 %"


def test_countries_that_are_not_on_record_fill_no_origin_line() -> None:
    house = _house()
    creek = house.load("Creek", 60_000, "Tank")
    code = _jars(house, origin="{countries}")
    assert refused(lambda: _origin(house, code)) == (
        f"The label of Clover names the countries of its honey, and of {creek} in {code} no "
        "country is on record. Put it there first."
    )
