"""A hold for papers: what is missing is named, and nothing else releases it."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.quality import Release
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import refusal_of
from tests.support.houses import BuiltHouse


@pytest.mark.parametrize(
    ("papers", "missing"),
    [
        ({"country": "AR", "certificate": "C"}, "the supplier's lot"),
        ({"supplier_lot": "L", "certificate": "C"}, "the country"),
        ({"certificate": "C"}, "the supplier's lot and the country"),
        ({}, "the supplier's lot, the country and a certificate"),
    ],
)
def test_what_is_missing_is_named(papers: dict[str, str], missing: str) -> None:
    house = BuiltHouse()
    house.do(Register("supplier", {"name": "S9"}))
    bought = house.do(Purchase("S9", Weight(net_g=1_000), **papers)).codes[0]
    assert refusal_of(house, Release(bought, "here")).facts["missing"] == missing


def test_a_release_with_papers_can_be_reversed() -> None:
    house = BuiltHouse()
    house.do(Register("supplier", {"name": "S9"}))
    bought = house.do(Purchase("S9", Weight(net_g=1_000), "L", "AR")).codes[0]
    done = house.do(Release(bought, "here", certificate="C 31"))
    house.do(Reverse(done.entries[0].id, "the certificate is of another lot"))
    assert refusal_of(house, Release(bought, "here")).field == "certificate"


def test_the_country_of_the_suppliers_record_will_do() -> None:
    house = BuiltHouse()
    house.do(Register("supplier", {"name": "S9", "country": "AR"}))
    assert house.do(Purchase("S9", Weight(net_g=1_000), "L", certificate="C")).notes == ()
