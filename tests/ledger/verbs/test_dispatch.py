"""Dispatch: whole lots, jars or kilograms go to customers, and what comes back comes back."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings
from honeyledger.ledger.verbs.packing import Pack, PackLine
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    code_in,
    holding,
    mark,
    place,
    postings,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """900 kg of Creek in Tank 1; two customers; a product of 500 g."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.container("17")
    house.load("Creek", 900_000, "Tank 1")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    for name in ("Corner Shop", "Packer"):
        house.do(Register("customer", {"name": name}))
    return house


def _jars(house: BuiltHouse, jars: int = 100) -> str:
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(lot, jars))
    return lot


def _send(house: BuiltHouse, customer: str, *lines: DispatchLine) -> str:
    return code_in(house.do(Dispatch(customer, lines)), "N")


def test_a_note_carries_everything_together(house: BuiltHouse) -> None:
    drum, jars = house.drum("Tank 1", 290_000), _jars(house)
    lines = (DispatchLine(drum), DispatchLine(jars, jars=40))
    done = house.do(Dispatch("Packer", lines, carrier="Hill Haulage", reference="PO 7"))
    note = code_in(done, "N")
    assert postings(house, done) == {
        (drum, f"drum/{drum}", -290_000),
        (drum, "Packer", 290_000),
        (jars, "jars", -20_000),
        (jars, "Packer", 20_000),
    }
    assert holding(house, jars) == {"Packer": (20_000, 40), "jars": (30_000, 60)}
    assert holding(house, drum) == {"Packer": (290_000, 0)}
    assert mark(house, f"note/{note}", "dispatched") == {
        "to": "customer/packer",
        "carrier": "Hill Haulage",
        "reference": "PO 7",
    }
    assert mark(house, jars, f"note/{note}") == {"grams": 20_000, "jars": 40}
    assert mark(house, drum, f"note/{note}") == {"grams": 290_000, "jars": 0}


def test_the_farm_gate_is_a_place_a_day(house: BuiltHouse) -> None:
    jars = _jars(house)
    _send(house, "Gate", DispatchLine(jars, jars=3))
    assert holding(house, jars)["gate/2026-07-24"] == (1_500, 3)


def test_part_of_a_drum_and_the_last_jars_take_the_rest(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    _send(house, "Packer", DispatchLine(drum, net_g=100_000))
    assert holding(house, drum) == {f"drum/{drum}": (190_000, 0), "Packer": (100_000, 0)}
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(lot, 3, mean_net_mg=500_333))  # 1500.999 g: 1501
    for _ in range(3):
        _send(house, "Packer", DispatchLine(lot, jars=1))
    assert holding(house, lot) == {"Packer": (1_501, 3)}


def test_one_lot_on_two_lines_of_a_note(house: BuiltHouse) -> None:
    jars, drum = _jars(house), house.drum("Tank 1", 290_000)
    lines = (DispatchLine(jars, jars=60), DispatchLine(jars, jars=40))
    note = _send(house, "Packer", *lines)
    assert holding(house, jars) == {"Packer": (50_000, 100)}
    assert mark(house, jars, f"note/{note}") == {"grams": 50_000, "jars": 100}
    assert turned_down(house, Dispatch("Packer", (DispatchLine(drum), DispatchLine(drum)))) == (
        f"{drum} stands twice on this list. Leave it there once, with its whole amount."
    )
    others = _jars(house)
    lines = (DispatchLine(others, jars=60), DispatchLine(others, jars=41))
    assert turned_down(house, Dispatch("Packer", lines)) == (
        f"There are 40 jars of {others} here, not 41. Count again."
    )


def test_bought_honey_and_wax_are_sent_too(house: BuiltHouse) -> None:
    house.do(Register("supplier", {"name": "S9"}))
    bought = house.buy("S9", 145_000)
    wax = next(code for code in house.do(Cappings("Tank 1", 20_000)).codes if code[0] == "W")
    _send(house, "Packer", DispatchLine(bought), DispatchLine(wax))
    assert holding(house, bought)["Packer"] == (145_000, 0)
    assert holding(house, wax) == {"Packer": (20_000, 0)}


def test_a_registered_container_keeps_its_last_lot_until_it_is_washed(house: BuiltHouse) -> None:
    drum = house.do(Fill("Tank 1", Weight(net_g=290_000), container="17")).codes[-1]
    _send(house, "Packer", DispatchLine(drum))
    assert standing(house, "17") == {drum: 0}


def test_nothing_held_leaves_and_the_ancestor_is_named(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    house.do(Register("supplier", {"name": "S9"}))
    free = house.buy("S9", 145_000)
    pull = house.back(drum).lots[0].code
    fill = next(row.code for row in house.back(drum).lots if row.kind == "T")
    house.do(PutOnHold(pull, "smells of smoke"))
    facts = Dispatch("Packer", (DispatchLine(free), DispatchLine(drum)))
    assert turned_down(house, facts) == (
        f"{drum} is on hold through {pull}, by way of {fill}: smells of smoke. Put it aside, or "
        "have it cleared by name."
    )
    house.do(Dispatch("Packer", (DispatchLine(free),)))


def test_what_a_dispatch_refuses(house: BuiltHouse) -> None:
    drum, jars = house.drum("Tank 1", 290_000), _jars(house)
    (fill,) = standing(house, "Tank 1")
    poured = house.drum("Tank 1", 100_000)
    house.pour(poured, "Tank 2", 100_000)
    gone = house.drum("Tank 1", 100_000)
    _send(house, "Packer", DispatchLine(gone))
    _, tag = house.pull("Creek", 100_000)

    def said(*lines: DispatchLine) -> str:
        return turned_down(house, Dispatch("Packer", lines))

    assert said() == "Scan what goes on this dispatch first."
    assert said(DispatchLine(jars, jars=101)) == (
        f"There are 100 jars of {jars} here, not 101. Count again."
    )
    assert said(DispatchLine(jars, jars=0)) == (f"0 of {jars} is none: say one at least.")
    assert said(DispatchLine(drum, jars=2)) == (
        f"There are 0 jars of {drum} here, not 2. Count again."
    )
    assert said(DispatchLine(drum, net_g=290_001)) == (
        f"There are 290.000 kg of {drum} here, not 290.001 kg. Weigh again."
    )
    assert said(DispatchLine(drum, net_g=-5_000)) == (
        f"There are 290.0 kg of {drum} here, not −5.0 kg. Weigh again."
    )
    assert said(DispatchLine(jars, net_g=500)) == (
        f"{jars} is counted in jars: say how many jars."
    )
    assert said(DispatchLine(fill)) == (
        f"{fill} is a tank fill: fill and bung a drum or compartment with it, then send that."
    )
    assert said(DispatchLine(gone)) == (
        f"{gone} is no longer in the house: nothing of it is left."
    )
    assert said(DispatchLine(poured)) == (
        f"{poured} was poured into Tank 2 and is mixed with what stands there. Take it there."
    )
    assert said(DispatchLine(tag)).startswith(f"{tag} is a pallet tag, but a drum, jar lot, ")
    assert turned_down(house, Dispatch("Nobody", (DispatchLine(drum),))) == (
        "There is no customer called Nobody. Choose one, such as Corner Shop or Packer, or "
        "register it first."
    )
    assert turned_down(house, Dispatch("", (DispatchLine(drum),))) == (
        "Name the customer, or scan its code."
    )


def test_a_drum_poured_in_part_is_sent_from_the_drum(house: BuiltHouse) -> None:
    """The greater part of it stands in Tank 2, where it is not this drum any more."""
    drum = house.drum("Tank 1", 290_000)
    house.pour(drum, "Tank 2", 200_000)
    _send(house, "Packer", DispatchLine(drum))
    assert holding(house, drum) == {"Packer": (90_000, 0), "Tank 2": (200_000, 0)}


def test_jars_come_back_and_go_out_again(house: BuiltHouse) -> None:
    jars = _jars(house)
    _send(house, "Packer", DispatchLine(jars))
    done = house.do(TakeBack("Packer", jars, "labels torn", jars=30))
    assert postings(house, done) == {(jars, "Packer", -15_000), (jars, "jars", 15_000)}
    assert mark(house, jars, "came back") == {"grams": 15_000, "reason": "labels torn"}
    _send(house, "Corner Shop", DispatchLine(jars))
    assert holding(house, jars) == {"Packer": (35_000, 70), "Corner Shop": (15_000, 30)}


def test_a_drum_comes_back_and_goes_out_again(house: BuiltHouse) -> None:
    drum = house.do(Fill("Tank 1", Weight(net_g=290_000), container="17")).codes[-1]
    _send(house, "Packer", DispatchLine(drum))
    house.do(TakeBack("Packer", drum, "too dark"))
    assert holding(house, drum) == {"17": (290_000, 0)}
    full = Fill("Tank 1", Weight(net_g=100_000), container="17")
    assert turned_down(house, full).startswith(f"17 is already full: it holds {drum}")
    house.pour(drum, "Tank 2", 90_000)
    _send(house, "Corner Shop", DispatchLine(drum))
    assert holding(house, drum) == {"Corner Shop": (200_000, 0), "Tank 2": (90_000, 0)}


def test_a_drum_whose_container_was_used_since_stands_by_itself(house: BuiltHouse) -> None:
    drum = house.do(Fill("Tank 1", Weight(net_g=200_000), container="17")).codes[-1]
    _send(house, "Packer", DispatchLine(drum))
    again = house.do(Fill("Tank 1", Weight(net_g=90_000), container="17", washed=True)).codes[-1]
    house.do(TakeBack("Packer", drum, "too dark"))
    assert holding(house, drum) == {f"drum/{drum}": (200_000, 0)}
    assert holding(house, again) == {"17": (90_000, 0)}


def test_what_was_sold_at_the_gate_comes_back_on_another_day(house: BuiltHouse) -> None:
    jars = _jars(house)
    _send(house, "gate", DispatchLine(jars, jars=5))
    house.wait(3 * 24 * 60)
    house.do(TakeBack("gate", jars, "set hard", jars=2))
    assert holding(house, jars) == {"gate/2026-07-24": (1_500, 3), "jars": (48_500, 97)}
    assert turned_down(house, TakeBack("gate", jars, "set hard", jars=4)) == (
        f"The farm gate has 3 jars of {jars} in the books, not 4. Count again."
    )


def test_what_taking_back_refuses(house: BuiltHouse) -> None:
    jars, drum = _jars(house), house.drum("Tank 1", 290_000)
    _send(house, "Packer", DispatchLine(jars, jars=10), DispatchLine(drum))
    assert turned_down(house, TakeBack("Packer", jars, "  ")) == (
        "Give the reason in a word or two."
    )
    assert turned_down(house, TakeBack("Corner Shop", jars, "torn")) == (
        f"Corner Shop has nothing of {jars} in the books: check the code on what came back."
    )
    assert turned_down(house, TakeBack("Packer", jars, "torn", jars=11)) == (
        f"Packer has 10 jars of {jars} in the books, not 11. Count again."
    )
    assert turned_down(house, TakeBack("Packer", drum, "dark", net_g=290_100)) == (
        f"Packer has 290.0 kg of {drum} in the books, not 290.1 kg. Count again."
    )
    assert turned_down(house, TakeBack("Packer", jars, "torn", net_g=500)) == (
        f"{jars} is counted in jars: say how many jars."
    )
    house.do(TakeBack("Packer", jars, "torn"))
    assert refusal_of(house, TakeBack("Packer", jars, "torn")).key == "has-none"


def test_a_dispatch_is_reversed_unless_something_came_back(house: BuiltHouse) -> None:
    jars = _jars(house)
    done = house.do(Dispatch("Packer", (DispatchLine(jars),)))
    entry = done.entries[0].id
    back = house.do(TakeBack("Packer", jars, "torn", jars=1)).entries[0].id
    assert turned_down(house, Reverse(entry, "wrong customer")) == (
        f"Entry {entry} is built on by entry {back} (take back). Reverse those first, newest "
        "first, or reverse the whole chain."
    )
    house.do(Reverse(back, "not theirs"))
    house.do(Reverse(entry, "wrong customer"))
    assert holding(house, jars) == {"jars": (50_000, 100)}


def test_what_stands_twice_on_a_note_is_refused(house: BuiltHouse) -> None:
    """Loose jars may go beside a case of the same lot; the case goes once."""
    drum, jars = house.drum("Tank 1", 290_000), _jars(house)
    case = code_in(house.do(Pack((PackLine(jars, 12),))), "C")
    twice = "{} stands twice on this list. Leave it there once, with its whole amount."
    for first, second in (
        (DispatchLine(drum), DispatchLine(drum)),
        (DispatchLine(drum, net_g=100_000), DispatchLine(drum.lower(), net_g=50_000)),
        (DispatchLine(jars), DispatchLine(jars)),
        (DispatchLine(case), DispatchLine(case)),
    ):
        refusal = refusal_of(house, Dispatch("Packer", (first, second)))
        assert (refusal.field, refusal.text) == ("code", twice.format(first.code))
    _send(house, "Packer", DispatchLine(jars, jars=10), DispatchLine(case))
    assert holding(house, jars)[place(house, "Packer")] == (11_000, 22)
