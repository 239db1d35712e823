"""A verdict is kept by customer on each lot of a sample; the latest one counts."""

from honeyledger.ledger.offers import offered
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.trade import Approve
from tests.support.books import mark
from tests.support.houses import BuiltHouse


def test_each_customer_has_a_say_of_their_own() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 900_000, "Tank 1")
    for name in ("Corner Shop", "Packer"):
        house.do(Register("customer", {"name": name}))
    drum = house.drum("Tank 1", 290_000)
    first, second = (
        house.do(Sample((drum,), 250, customer=name)).codes[-1]
        for name in ("Packer", "Corner Shop")
    )
    house.do(Approve(first, "refused", "too dark"))
    assert offered("customer/packer") == "offered/packer"
    assert mark(house, drum, "offered/packer") == {
        "sample": first,
        "verdict": "refused",
        "reason": "too dark",
    }
    assert mark(house, drum, "offered/corner-shop") == {"sample": second}
    house.do(Approve(first))
    assert mark(house, drum, "offered/packer") == {"sample": first, "verdict": "approved"}
