"""Bought-in honey: a source of its own, held until its papers are there, and what goes back."""

from typing import Any

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.stated import Part
from honeyledger.ledger.verbs.bought_in import Purchase, SendBack
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.stock import lot_balance
from tests.support.books import (
    attributes,
    effects,
    grams_at,
    holding,
    mark,
    origins,
    place,
    postings,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse

PAPERS = {"supplier_lot": "LOT-77", "country": "AR", "certificate": "C 31"}


@pytest.fixture
def house() -> BuiltHouse:
    """400 kg of Creek in Tank 1, another tank, a container, two suppliers and a customer."""
    house = BuiltHouse()
    house.yard("Creek")
    for vessel in ("Tank 1", "Tank 2"):
        house.vessel(vessel)
    house.container("17", tare_g=18_000)
    for kind, name in (("supplier", "S9"), ("supplier", "Ridge"), ("customer", "Packer")):
        house.do(Register(kind, {"name": name}))
    house.load("Creek", 400_000, "Tank 1")
    return house


def _buy(house: BuiltHouse, grams: int = 145_000, **more: Any) -> str:
    return house.do(Purchase("S9", Weight(net_g=grams), **more)).codes[0]


# What comes in.


def test_bought_honey_is_its_own_source(house: BuiltHouse) -> None:
    weight = Weight(gross_g=163_000, tare_g=18_000)
    done = house.do(Purchase("S9", weight, owner="Packer", **PAPERS))
    (bought,) = done.codes
    assert done.notes == ()
    assert postings(house, done) == {
        (bought, "S9", -145_000),
        (bought, f"drum/{bought}", 145_000),
    }
    assert attributes(house, bought) == {"supplier": "s9", "owner": "Packer", **PAPERS}
    (row,) = house.back(bought).ancestors
    assert (row.kind, row.code, row.share, row.how) == ("supplier", "s9", 1.0, ("grams",))


def test_a_blend_has_its_countries_with_their_shares(house: BuiltHouse) -> None:
    parts = (Part("Argentina", 625), Part("Uruguay", 375))
    bought = _buy(house, countries=parts, supplier_lot="L", certificate="C")
    assert attributes(house, bought)["countries"] == {"Argentina": 625, "Uruguay": 375}
    assert attributes(house, bought)["country"] == "Argentina 62.5 %, Uruguay 37.5 %"
    untold = _buy(house, countries=(Part("Argentina"), Part("Uruguay")), supplier_lot="L")
    assert attributes(house, untold)["countries"] == {"Argentina": 0, "Uruguay": 0}
    assert attributes(house, untold)["country"] == "Argentina, Uruguay"


def test_bought_honey_in_a_container_of_the_house_keeps_what_clings_in_it(
    house: BuiltHouse,
) -> None:
    old = house.do(Fill("Tank 1", Weight(net_g=200_000), container="17")).codes[-1]
    facts = Purchase("S9", Weight(net_g=150_000), container="17", **PAPERS)
    assert turned_down(house, facts) == (
        "17 still holds 200.0 kg. Take an empty one, or empty it first."
    )
    house.do(Dispatch("Packer", (DispatchLine(old),)))
    (bought,) = house.do(facts).codes
    assert origins(house, bought) == {old: 0}
    assert standing(house, "17") == {bought: 150_000}
    assert house.shares(bought) == {"S9": 1.0, "Creek": 0.0}
    assert attributes(house, bought)["container"] == place(house, "17").partition("/")[2]


def test_what_buying_refuses(house: BuiltHouse) -> None:
    weight = Weight(net_g=1_000)
    assert turned_down(house, Purchase("S9", Weight())) == (
        "Type the gross or the net weight from the scale."
    )
    assert turned_down(house, Purchase("S8", weight)) == (
        "There is no supplier called S8. Choose one, such as Ridge or S9, or register it first."
    )
    assert turned_down(house, Purchase("S9", Weight(gross_g=163_000))) == (
        "Nobody knows what the empty container weighs. Type its tare, or the net weight."
    )
    both = Purchase("S9", weight, country="AR", countries=(Part("UY"),))
    assert turned_down(house, both) == (
        "Name either the one country, or all of the several, with their shares if they are known."
    )
    off = Purchase("S9", weight, countries=(Part("AR", 500), Part("UY", 400)))
    assert turned_down(house, off) == (
        "The shares of AR and UY add up to 90.0 %, not to 100 %. Correct them, or leave all of "
        "them out."
    )


# Papers.


def test_without_its_papers_it_is_on_hold_from_the_start(house: BuiltHouse) -> None:
    done = house.do(Purchase("S9", Weight(net_g=145_000), "LOT-77", "AR"))
    (bought,), entry = done.codes, done.entries[0].id
    assert done.notes == (
        f"{bought} is on hold: it came without a certificate. Release it with what is missing, by "
        "name.",
    )
    assert mark(house, f"hold/{entry}-{bought}", "hold") == {
        "target": bought,
        "lots": [done.entries[0].lots[0].id],
        "reason": "bought in without a certificate",
        "by": "O26-0001-X",
        "needs": ["certificate"],
    }
    sends = Dispatch("Packer", (DispatchLine(bought),))
    assert turned_down(house, sends) == (
        f"{bought} is on hold through {bought}: bought in without a certificate. Put it aside, or "
        "have the hold released or this lot cleared by name."
    )
    assert refusal_of(house, Fill(bought, whole=True, into="Tank 2")).key == "held-asks"
    assert turned_down(house, Release(bought, "it is here")) == (
        f"{bought} came without a certificate: say it as the hold is released. Without it, keep "
        "it on hold or send it back."
    )
    house.do(Release(bought, "it is here", certificate=" C 31 "))
    assert mark(house, bought, "certificate") == "C 31"
    house.do(sends)


def test_everything_it_came_without_is_asked_for(house: BuiltHouse) -> None:
    bought = _buy(house)
    missing = "the supplier's lot, the country and a certificate"
    assert turned_down(house, Release(bought, "here")).startswith(
        f"{bought} came without {missing}"
    )
    refusal = refusal_of(house, Release(bought, "here", supplier_lot="L", certificate="C"))
    assert (refusal.field, refusal.facts["missing"]) == ("country", "the country")
    house.do(Release(bought, "here", "C", "L", "Argentina"))
    names = ("certificate", "supplier_lot", "country")
    assert [mark(house, bought, name) for name in names] == ["C", "L", "Argentina"]


def test_another_hold_on_it_takes_no_papers(house: BuiltHouse) -> None:
    bought = _buy(house, **PAPERS)
    house.do(PutOnHold(bought, "smells"))
    house.do(Release(bought, "smells of wax only", certificate="another"))
    assert mark(house, bought, "certificate") is None


def test_what_is_made_of_it_is_held_and_can_be_cleared(house: BuiltHouse) -> None:
    bought = _buy(house)
    house.do(Fill(bought, whole=True, into="Tank 2", despite_hold="the tank waits"))
    drum = house.do(Fill("Tank 2", Weight(net_g=145_000), despite_hold="same")).codes[-1]
    sends = Dispatch("Packer", (DispatchLine(drum),))
    assert refusal_of(house, sends).key.startswith("held")
    house.do(Clear(drum, bought, "own laboratory, report 5"))
    house.do(sends)


# What goes back.


def test_refused_drums_go_back_and_stay_on_record(house: BuiltHouse) -> None:
    first, second = _buy(house, 290_000, **PAPERS), _buy(house, 145_000)
    done = house.do(SendBack((first, second), "20.4 % moisture", "Hill Haulage", "RN 4"))
    assert postings(house, done) == {
        (first, f"drum/{first}", -290_000),
        (first, "S9", 290_000),
        (second, f"drum/{second}", -145_000),
        (second, "S9", 145_000),
    }
    assert grams_at(house, "supplier/s9") == 0
    assert mark(house, first, "sent back") == {
        "to": "supplier/s9",
        "grams": 290_000,
        "reason": "20.4 % moisture",
        "carrier": "Hill Haulage",
        "reference": "RN 4",
    }
    assert house.shares(first) == {"S9": 1.0}
    assert house.house.ask(lambda view: lot_balance(view, first)).gap_g == 0
    assert turned_down(house, SendBack((first,), "again")) == (
        f"{first} is no longer in the house: nothing of it is left."
    )
    house.do(Reverse(done.entries[0].id, "they took them back only on Monday"))
    assert holding(house, first) == {f"drum/{first}": (290_000, 0), "S9": (-290_000, 0)}


def test_what_is_left_of_a_drum_goes_back_to_whom_it_is_from_by_now(house: BuiltHouse) -> None:
    bought = _buy(house, 290_000, **PAPERS)
    house.do(Amend(bought, "the other truck", supplier="Ridge"))
    house.pour(bought, "Tank 2", 100_000)
    house.do(SendBack((bought,), "too dark"))
    assert holding(house, bought) == {"Ridge": (-100_000, 0), "Tank 2": (100_000, 0)}
    assert house.shares(bought)["Ridge"] == 1.0


def test_what_was_poured_before_it_went_back_can_be_typed_later(house: BuiltHouse) -> None:
    """A drum that was sent is drawn from: a fill scanned late has it in reach."""
    bought = _buy(house, 290_000, **PAPERS)
    done = house.do(SendBack((bought,), "too dark"))
    assert effects(done, "drawn") == [[f"drum/{bought}", done.entries[0].postings[0].lot]]


def test_what_sending_back_refuses(house: BuiltHouse) -> None:
    bought, drum = _buy(house, **PAPERS), house.drum("Tank 1", 290_000)
    assert turned_down(house, SendBack((), "dark")) == (
        "Scan the bought-in drums that go back to the supplier."
    )
    assert turned_down(house, SendBack((bought,), " ")) == "Give the reason in a word or two."
    assert turned_down(house, SendBack((bought, bought), "dark")) == (
        f"{bought} stands twice on this list. Leave it there once, with its whole amount."
    )
    assert turned_down(house, SendBack((drum,), "dark")) == (
        f"{drum} is a drum, but a drum bought in is needed here. Scan that code instead."
    )
