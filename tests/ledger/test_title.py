"""Whose honey it is: as it was received, as title went over, and by a name without a record."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.title import HOUSE, find_party, owner_of, party_name
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.trade import TransferTitle
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """A supplier and a customer."""
    house = BuiltHouse()
    house.do(Register("supplier", {"name": "Ridge"}))
    house.do(Register("customer", {"name": "Packer"}))
    return house


def _bought(house: BuiltHouse, owner: str) -> str:
    facts = Purchase("Ridge", Weight(net_g=100_000), "7", "AR", owner=owner, certificate="C 31")
    return house.do(facts).codes[0]


def _owner(house: BuiltHouse, code: str) -> str:
    def asked(view: object) -> str:
        lot = view.lot_by_code(code)  # type: ignore[attr-defined]
        return owner_of(view, lot)  # type: ignore[arg-type]

    return house.house.ask(asked)


def test_the_houses_own_and_others(house: BuiltHouse) -> None:
    assert _owner(house, _bought(house, "")) == HOUSE
    assert _owner(house, _bought(house, "packer")) == "customer/packer"
    code = _bought(house, "A. Neighbour")
    assert _owner(house, code) == "A. Neighbour"
    house.do(TransferTitle((code,), "Ridge", "paper 1"))
    assert _owner(house, code) == "supplier/ridge"
    house.do(TransferTitle((code,), "house", "paper 2"))
    assert _owner(house, code) == HOUSE


def test_how_a_party_is_called(house: BuiltHouse) -> None:
    ask = house.house.ask
    names = [
        ask(lambda view, one=one: party_name(view, one))
        for one in (HOUSE, "customer/packer", "A. Neighbour")
    ]
    assert names == ["Test House", "Packer", "A. Neighbour"]
    assert ask(lambda view: find_party(view, " House ", "owner")) == HOUSE
    assert ask(lambda view: find_party(view, "ridge", "owner")) == "supplier/ridge"
    with pytest.raises(Refusal) as refused:
        ask(lambda view: find_party(view, "Rigde", "owner"))
    assert refused.value.field == "owner"


def test_the_house_is_meant_by_its_name_too(house: BuiltHouse) -> None:
    assert _owner(house, _bought(house, "test house")) == HOUSE
    ask = house.house.ask
    assert ask(lambda view: find_party(view, "Test House", "owner")) == HOUSE


def test_an_owner_in_no_register_is_told_of(house: BuiltHouse) -> None:
    facts = Purchase("Ridge", Weight(net_g=100_000), "7", "AR", owner="Paker", certificate="C 31")
    assert house.do(facts).notes == (
        "Paker is no customer or supplier of this house: register them, so that they can be "
        "settled with by name, or reverse this and name one, such as Packer.",
    )
    bare = BuiltHouse()
    bare.yard("Creek")
    (note,) = bare.do(Receive((Line("Creek", 10, owner="Paker"),))).notes
    assert note.endswith("or reverse this and name one.")


def test_the_bees_of_a_yard_say_whose_its_honey_is(house: BuiltHouse) -> None:
    house.yard("Creek", owner="Packer")
    done = house.do(Receive((Line("Creek", 10),)))
    assert done.notes == (
        "The bees of Creek are Packer's, and so is this honey. If it is not, reverse it and say "
        "whose it is, or house.",
    )
    assert _owner(house, done.codes[0]) == "customer/packer"
    ours = house.do(Receive((Line("Creek", 10, owner="house"),)))
    assert (ours.notes, _owner(house, ours.codes[0])) == ((), HOUSE)
