"""Claims judged again after a record was put right."""

import pytest

from honeyledger.domain.claims import Ruling
from honeyledger.ledger.claims import frozen
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.claiming import JudgeClaims
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.labelling import label_rows
from tests.support.books import code_in, turned_down
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.yard("Creek", organic=0, region="Fen")
    made.vessel("Tank")
    made.load("Creek", 50_000, "Tank")
    made.do(Register("product", {"name": "Clover", "net_g": 500, "claims_organic": 1}))
    return made


def _jars(house: BuiltHouse) -> str:
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(code, 10))
    return code


def _put_right(house: BuiltHouse) -> None:
    creek = house.house.ask(lambda view: find_record(view, "yard", "Creek"))[0].partition("/")[2]
    house.do(Register("yard", {"name": "Creek", "organic": 1, "region": "Fen"}, creek))


def test_a_record_put_right_frees_the_label_by_name_and_reason(house: BuiltHouse) -> None:
    code = _jars(house)
    _put_right(house)

    def label() -> list[object]:
        return house.house.ask(lambda view: list(label_rows(view, code)))

    assert "as it was bottled" in refused(label)
    done = house.do(JudgeClaims(code, "its certificate was there all along"))
    assert done.notes == (
        f"The claims of {code} are judged again: organic otherwise than before.",
    )
    assert len(label()) == 10
    found = house.house.ask(lambda view: frozen(view, code))
    assert found is not None
    assert found.of("organic").ruling is Ruling.ALLOWED
    bottled = house.house.ask(lambda view: view.entries(("bottle",)))[-1]
    assert '"organic", "not allowed"' in str(bottled.facts).replace("'", '"')


def test_nothing_is_judged_again_without_reason_name_or_change(house: BuiltHouse) -> None:
    code = _jars(house)
    assert turned_down(house, JudgeClaims(code, "to be sure")) == (
        f"The books say of {code} what they said as it was bottled: nothing to judge again. Put "
        "the records right first."
    )
    _put_right(house)
    assert turned_down(house, JudgeClaims(code, " ")) == "Give the reason in a word or two."
    assert turned_down(house, JudgeClaims(code, "typed wrongly"), operator="") == (
        "Say who signs: scan a badge, or name a person who works here."
    )
