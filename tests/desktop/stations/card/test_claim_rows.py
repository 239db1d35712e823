"""What a card of jars says of claims."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.card.claim_rows import claim_rows, claims_part
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.claims import LotClaims
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def test_a_card_says_what_may_be_claimed_which_lots_decide_and_what_the_label_lacks() -> None:
    house = BuiltHouse()
    house.yard("Creek", country="Canada", organic=1)
    house.yard("Hill", country="Chile", organic=0, not_for="EU")
    house.vessel("Tank")
    house.load("Creek", 75_000, "Tank")
    hill = house.load("Hill", 25_000, "Tank")
    house.do(Register("product", {"name": "Clover", "net_g": 500, "claims_organic": 1}))
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(code, 10))
    rows = house.house.ask(lambda view: claims_part(view, code, house.now_ms))
    assert [(row.label, row.value) for row in rows] == [
        ("May be claimed", "one crop (2026)"),
        ("Not proved", "one region, one floral kind"),
        ("Not to be claimed", "one yard, organic, one country, eligible for EU"),
        ("Countries", "Canada 75.0 %, Chile 25.0 %"),
        ("Label", "is refused"),
        ("Label lacks", "see below"),
    ]
    assert rows[0].notes == ("As it was bottled.",)
    decided = f"one yard, organic, one country, eligible for EU: decided by {hill} of Hill"
    assert rows[2].notes == (decided,)
    assert rows[4].mark is Mark.WARNING
    assert rows[4].notes[0].startswith("The label of Clover says organic, and Hill in")
    assert rows[5].notes[0].endswith("(common practice, no source)")
    assert house.house.ask(lambda view: claims_part(view, hill, house.now_ms))[0].notes == (
        "By the books now.",
    )


def test_what_holds_no_honey_has_no_rows() -> None:
    assert claim_rows(LotClaims("A26-0001-X", None, None, ())) == ()
