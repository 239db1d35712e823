"""What a label claims against what the books say."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.labelling import label_rows
from tests.support.books import code_in
from tests.support.houses import MINUTE_MS, BuiltHouse, refused

YEAR_MIN = 366 * 24 * 60


def _house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek", region="Fen Edge", organic=1)
    house.yard("Hill")
    house.vessel("Tank")
    return house


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
